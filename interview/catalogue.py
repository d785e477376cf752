"""Which facts are there? The whole vocabulary: topic, kind, JSON unit, choices, plausible limits, the side that hurts.

A fact that is not in the catalogue does not exist. `FactSpec.unit` is the unit in which JSON carries the value; inside,
quantities are plain SI floats (see `facts`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    QUANTITY = "quantity"
    CHOICE = "choice"
    MANY = "many"  # a list of choices; an empty list says "none of these"
    FLAG = "flag"  # yes or no
    IDENT = "ident"  # an id of a reference table
    TEXT = "text"
    DAY = "day"  # ISO date, month or quarter


@dataclass(frozen=True, slots=True)
class Unit:
    """A JSON unit: `si = value * factor`."""

    factor: float
    measures: str


UNITS: Mapping[str, Unit] = {
    "bar": Unit(1e5, "pressure"),
    "degC": Unit(1.0, "temperature"),
    "mm": Unit(1e-3, "length"),
    "m": Unit(1.0, "length"),
    "L/min": Unit(1.0 / 60000.0, "flow"),
    "cm3/rev": Unit(1e-6, "displacement"),
    "rpm": Unit(1.0 / 60.0, "speed"),
    "s": Unit(1.0, "time"),
    "deg": Unit(1.0, "angle"),
    "1/h": Unit(1.0, "rate"),
    "h": Unit(1.0, "hours"),
    "year": Unit(1.0, "years"),
    "dash": Unit(1.0, "size"),
    "VG": Unit(1.0, "grade"),
    "": Unit(1.0, "number"),
}


@dataclass(frozen=True, slots=True)
class FactSpec:
    """What a fact is: topic, kind, JSON unit, choices, plausible limits (JSON unit) and the side that hurts.

    The plausible limits are our own bounds from common practice, no source: they catch a slip of unit or of a point and
    bound what an unanswered question is tried at; they rate nothing.
    """

    name: str
    topic: str
    kind: Kind
    label: str
    unit: str = ""
    choices: tuple[str, ...] = ()
    plausible: tuple[float, float] | None = None
    adverse: str = ""  # high | low | "" (neither side is the safe one)

    @property
    def measures(self) -> str:
        return UNITS[self.unit].measures

    @property
    def factor(self) -> float:
        return UNITS[self.unit].factor


TOPICS = ("job", "size", "temperature", "application", "medium", "pressure", "ends", "routing", "delivery")

REGULATED = (
    "none road_brake steering aircraft ship underground_mine person_lift insulated_boom steam fuel_gas breathing_gas "
    "oxygen refrigerant anhydrous_ammonia water_jetting cargo_transfer explosive_atmosphere boat_fuel food other"
)
FAILURE_SIGNS = (
    "cover_blister_gas cover_blister_oil tube_swollen tube_hardened cover_cracked charred burst_clean burst_fatigue "
    "burst_outer_bend burst_near_end fitting_blew_off fitting_blew_off_wires_left weep_at_ferrule leak_at_seat abraded "
    "cut_or_crushed pinhole tube_eroded collapsed tube_loose kinked twisted stretched_tight corroded_end "
    "cover_softened cover_bubbles cracked_in_cold tube_extruded burst"
)


def _catalogue() -> dict[str, FactSpec]:
    specs: dict[str, FactSpec] = {}

    def add(
        topic: str,
        name: str,
        kind: Kind,
        label: str,
        unit: str = "",
        choices: str = "",
        plausible: tuple[float, float] | None = None,
        adverse: str = "",
    ) -> None:
        specs[name] = FactSpec(name, topic, kind, label, unit, tuple(choices.split()), plausible, adverse)

    q, one, many, flag, ident, text, day = (
        Kind.QUANTITY,
        Kind.CHOICE,
        Kind.MANY,
        Kind.FLAG,
        Kind.IDENT,
        Kind.TEXT,
        Kind.DAY,
    )
    add("job", "job_kind", one, "kind of job", choices="failed_hose sample new_line repeat")
    add("job", "machine", text, "machine")
    add("job", "line_tag", text, "line or tag")
    add("job", "customer", text, "customer")
    add("job", "line_function", one, "what the line does", choices="pressure return suction case_drain pilot")
    add("job", "regulated_use", many, "regulated use", choices=REGULATED)
    add("job", "failure_sign", many, "how it failed", choices=FAILURE_SIGNS)
    add("job", "repeat_failure", flag, "failed before within a year")
    add("job", "sample_right", flag, "sample was right for the machine")
    add(
        "job",
        "burst_consequence",
        many,
        "what a burst would do",
        choices="none load_drops steering_lost brake_lost oil_on_heat person_near",
    )
    add("job", "accumulator", flag, "accumulator in the circuit")
    add("job", "injury", flag, "somebody hurt")
    add("job", "layline", text, "print on the hose")
    add("job", "old_construction", ident, "construction of the old hose")
    add("job", "old_rating", q, "rating printed on the old hose", "bar", plausible=(1, 700))
    add("job", "marked_size", q, "dash printed on the old hose", "dash", plausible=(2, 64))
    add("job", "hose_date", day, "date on the hose")
    add("job", "assembly_date", day, "date on the assembly")
    add("job", "fitted_date", day, "date it was fitted")

    add("size", "bore_proven", flag, "ran well on the bore it had")
    add("size", "bore", q, "bore", "dash", plausible=(2, 64))
    add("size", "flow_rate", q, "flow in this line", "L/min", plausible=(0.2, 2500), adverse="high")
    add("size", "pump_flow", q, "pump flow", "L/min", plausible=(0.2, 2500), adverse="high")
    add("size", "pump_displacement", q, "pump displacement", "cm3/rev", plausible=(0.2, 1500), adverse="high")
    add("size", "pump_speed", q, "pump speed", "rpm", plausible=(100, 6000), adverse="high")
    add("size", "cylinder_bore", q, "cylinder bore", "mm", plausible=(10, 1000), adverse="high")
    add("size", "cylinder_rod", q, "cylinder rod", "mm", plausible=(4, 900), adverse="high")
    add("size", "cylinder_side", one, "cylinder side", choices="cap rod")
    add("size", "regenerating", flag, "rod side feeds the cap side")
    add("size", "throttled", flag, "outlet throttled or can be blocked")
    add("size", "line_length", q, "length of the line", "m", plausible=(0.05, 200), adverse="high")
    add("size", "lift", q, "pump above the oil", "m", plausible=(-20, 6), adverse="high")
    add("size", "altitude", q, "altitude", "m", plausible=(-450, 5500), adverse="high")
    add(
        "size",
        "pump_inlet_limit",
        q,
        "lowest inlet pressure the pump allows (absolute)",
        "bar",
        plausible=(0.1, 3),
        adverse="high",
    )
    add("size", "pressure_loss_limit", q, "pressure loss allowed", "bar", plausible=(0.01, 200), adverse="low")

    add("temperature", "fluid_temperature_max", q, "hottest fluid", "degC", plausible=(-20, 230), adverse="high")
    add("temperature", "fluid_temperature_min", q, "coldest fluid", "degC", plausible=(-60, 80), adverse="low")
    add(
        "temperature",
        "ambient_temperature_max",
        q,
        "hottest air at the hose",
        "degC",
        plausible=(-30, 260),
        adverse="high",
    )
    add(
        "temperature",
        "ambient_temperature_min",
        q,
        "coldest air at the hose",
        "degC",
        plausible=(-70, 60),
        adverse="low",
    )
    add("temperature", "cooling", one, "how the oil is cooled", choices="cooler none closed_loop")
    add("temperature", "heat_source_distance", q, "distance to a hot part", "mm", plausible=(0, 10000), adverse="low")
    add(
        "temperature",
        "surroundings",
        one,
        "surroundings",
        choices="open_air indoors engine_bay near_heat cold_store underground on_deck",
    )

    add("application", "shock", one, "shock", choices="smooth moderate severe")
    add("application", "cycle_rate", q, "pressure cycles per hour", "1/h", plausible=(0, 7200), adverse="high")
    add("application", "hours_per_year", q, "hours a year", "h", plausible=(1, 8784), adverse="high")
    add("application", "wanted_life", q, "wanted life", "year", plausible=(0.1, 30), adverse="high")
    add("application", "motion", one, "motion", choices="fixed flexing travelling reeling")
    add("application", "bend_plane", one, "planes it bends in", choices="one two twisting")
    add("application", "vibration", flag, "vibration")
    add(
        "application",
        "bend_radius_available",
        q,
        "room to bend (inside radius)",
        "mm",
        plausible=(5, 5000),
        adverse="low",
    )
    add("application", "wear", one, "wear", choices="none rubbing severe")
    add(
        "application",
        "exposure",
        many,
        "what reaches the cover",
        choices="sunlight salt_water chemical_wash hot_particles flame",
    )
    add("application", "non_conductive", flag, "must not conduct electricity")
    add("application", "flame_resistant", flag, "must resist flame")
    add("application", "near_power_line", flag, "near a live line")
    add("application", "people_near", flag, "people within a metre")

    add("medium", "medium", ident, "medium")
    add("medium", "viscosity_grade", q, "ISO VG grade", "VG", plausible=(2, 1500))
    add("medium", "viscosity_index", q, "viscosity index", "", plausible=(0, 400))

    add("medium", "medium_statement", text, "hose maker's written statement on the medium")
    add("medium", "fluid_statement", text, "fluid maker's written statement on metals and seals")

    add("pressure", "working_pressure", q, "working pressure", "bar", plausible=(0.05, 1000), adverse="high")
    add("pressure", "surge_pressure", q, "highest spike", "bar", plausible=(0.05, 2000), adverse="high")
    add("pressure", "relief_setting", q, "relief setting", "bar", plausible=(0.5, 1000), adverse="high")
    add("pressure", "valve_closing_time", q, "valve closing time", "s", plausible=(0.001, 60), adverse="low")
    add("pressure", "vacuum", q, "vacuum (below atmospheric)", "bar", plausible=(0, 1.013), adverse="high")

    for end, word in (("a", "end A"), ("b", "end B")):
        add("ends", f"end_{end}_family", ident, f"{word} connection")
        add("ends", f"end_{end}_size", ident, f"{word} size")
        add("ends", f"end_{end}_gender", one, f"{word} male or female", choices="male female")
        add("ends", f"end_{end}_form", one, f"{word} form", choices="straight elbow45 elbow90")
        add("ends", f"end_{end}_swivel", flag, f"{word} swivels")
        add(
            "ends", f"end_{end}_rating", q, f"{word} rating from its maker", "bar", plausible=(0.5, 1500), adverse="low"
        )
        add("ends", f"end_{end}_seal", ident, f"{word} seal")
        add("ends", f"end_{end}_metal", ident, f"{word} metal")
        add("ends", f"adapter_{end}_family", ident, f"adapter at {word}")
        add("ends", f"adapter_{end}_size", ident, f"size of the adapter at {word}")
        add(
            "ends",
            f"adapter_{end}_rating",
            q,
            f"rating of the adapter at {word}",
            "bar",
            plausible=(0.5, 1500),
            adverse="low",
        )
        add("ends", f"end_{end}_thread_diameter", q, f"{word} thread diameter", "mm", plausible=(4, 160))
        add("ends", f"end_{end}_thread_pitch", q, f"{word} thread pitch", "mm", plausible=(0.5, 4))
        add("ends", f"end_{end}_seat_angle", q, f"{word} seat angle", "deg", plausible=(10, 180))
        add(
            "ends",
            f"end_{end}_seals_at",
            one,
            f"where {word} seals",
            choices="clamped face nose bore base shoulder bottom thread",
        )
        add("ends", f"end_{end}_tapered", flag, f"{word} thread tapered")
        add("ends", f"end_{end}_recess", q, f"{word} recess behind the cone, or nose", "mm", plausible=(2, 60))
        add("ends", f"end_{end}_head_diameter", q, f"{word} flange head", "mm", plausible=(20, 200))
        add("ends", f"end_{end}_bolt_spacing", q, f"{word} screw spacing, the longer", "mm", plausible=(25, 200))
        add("routing", f"end_{end}_clock", q, f"hour to which {word} points", "", plausible=(0, 12))
        add("ends", f"end_{end}_cut_off", q, f"{word} cut-off length from its maker", "mm", plausible=(1, 400))
        add("ends", f"port_{end}_family", ident, f"what {word} goes onto")
        add("ends", f"port_{end}_size", ident, f"size of what {word} goes onto")

    add("routing", "overall_length", q, "overall length", "mm", plausible=(60, 60000))
    add("routing", "port_distance", q, "distance between the ports", "mm", plausible=(10, 60000), adverse="high")
    add(
        "routing",
        "port_offset",
        q,
        "how far the other port lies to the side",
        "mm",
        plausible=(1, 60000),
        adverse="high",
    )
    add("routing", "length_was_tight", flag, "old hose was tight, kinked or too long")
    for end in ("a", "b"):
        add("routing", f"port_{end}_faces", one, f"port {end.upper()} faces", choices="up down left right away towards")
    for way, least in (("right", "left"), ("up", "down"), ("away", "towards you")):
        add("routing", f"port_b_{way}", q, f"port B from A, {way} (minus: {least})", "mm", plausible=(-20000, 20000))
    add("routing", "end_angle", q, "angle between the ends", "deg", plausible=(0, 360))
    add("routing", "travel", q, "travel", "mm", plausible=(0, 30000), adverse="high")
    add("routing", "clearance_geometry", one, "route", choices="u_bend right_angle straight_run offset")

    add("delivery", "quantity", q, "quantity", "", plausible=(1, 5000))
    add("delivery", "needed_by", day, "needed by")
    add("delivery", "cleanliness", text, "cleanliness code (ISO 4406)")
    add("delivery", "proof_test", flag, "proof test wanted")
    add("delivery", "certificate", flag, "certificate wanted")
    return specs


CATALOGUE: Mapping[str, FactSpec] = _catalogue()


def spec(name: str) -> FactSpec:
    """The entry of one fact. Raises KeyError with the nearest names for a word that is no fact."""
    try:
        return CATALOGUE[name]
    except KeyError:
        raise KeyError(f"{name!r} is not a fact") from None
