"""What is a fact?

One thing known about the job: its value, the words it was said in, where it came from, and the turn. The catalogue
below is the whole vocabulary; a fact that is not in it does not exist. Nothing is overwritten: a correction supersedes,
and a contradiction keeps both sayings, the adverse one governing until somebody settles it.

Quantities travel as plain SI floats (pascal, metre, m3/s, second; temperature in degree Celsius, angles in degrees,
counts and rates per hour as they are). `FactSpec.unit` is the unit in which JSON carries the value.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum


class Origin(StrEnum):
    """Where a fact came from."""

    STATED = "stated"  # the customer said so
    READ = "read"  # from a layline, plate, manual or gauge
    MEASURED = "measured"
    COPIED = "copied"  # from the old hose
    COMPUTED = "computed"
    ASSUMED = "assumed"
    UNKNOWN = "unknown"  # asked, and nobody knows


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
class Span:
    """A closed interval in SI; None is an open side."""

    low: float | None
    high: float | None

    def __post_init__(self) -> None:
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"a range runs from the lower to the higher value, not from {self.low} to {self.high}")


Value = float | Span | str | bool | tuple[str, ...] | None


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


@dataclass(frozen=True, slots=True)
class Fact:
    """One saying. `value` None with origin `unknown` means: asked, and nobody knows.

    `said` keeps the words and `unit` the unit they were said in (`psi`), so that a face can answer in kind.
    `rests_on` names the facts a computed or assumed value came from; when one of them changes, this one is re-opened.
    """

    name: str
    value: Value
    origin: Origin = Origin.STATED
    said: str = ""
    unit: str = ""
    turn: int = 0
    hedged: bool = False
    because: str = ""
    confirm_by: str = ""
    rests_on: tuple[str, ...] = ()

    @property
    def known(self) -> bool:
        return self.value is not None

    @property
    def spec(self) -> FactSpec:
        return CATALOGUE[self.name]

    @property
    def low(self) -> float | None:
        """The lowest value meant, SI; "about" widens by 10 %."""
        if isinstance(self.value, Span):
            return self.value.low
        if isinstance(self.value, float):
            return self.value - 0.1 * abs(self.value) if self.hedged else self.value
        return None

    @property
    def high(self) -> float | None:
        """The highest value meant, SI; "about" widens by 10 %."""
        if isinstance(self.value, Span):
            return self.value.high
        if isinstance(self.value, float):
            return self.value + 0.1 * abs(self.value) if self.hedged else self.value
        return None

    def json_value(self) -> object:
        """The value in the JSON unit, rounded to nine significant digits so that 60/60000 L/min reads 60."""
        return json_value(self.name, self.value)


def tidy(number: float) -> float:
    """Nine significant digits: hides the last bits of a unit conversion, never a measured digit."""
    if number == 0 or not math.isfinite(number):
        return number
    return round(number, 8 - math.floor(math.log10(abs(number))))


def json_value(name: str, value: Value) -> object:
    factor = CATALOGUE[name].factor
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return list(value)
    if isinstance(value, Span):
        return {
            "low": None if value.low is None else tidy(value.low / factor),
            "high": None if value.high is None else tidy(value.high / factor),
        }
    return tidy(value / factor)


def from_json_number(name: str, number: float) -> float:
    """A number in the fact's JSON unit, as SI."""
    return float(number) * CATALOGUE[name].factor


def from_json_value(name: str, value: object) -> Value:
    """A fact's value as JSON carries it, back in SI. Raises ValueError for what is no value of this fact."""
    kind, factor = CATALOGUE[name].kind, CATALOGUE[name].factor
    if value is None:
        return None
    if kind is Kind.QUANTITY:
        if isinstance(value, Mapping):
            ends = [value.get("low"), value.get("high")]
            if all(v is None or isinstance(v, int | float) for v in ends):
                return Span(*(None if v is None else float(v) * factor for v in ends))
        elif isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
            return float(value) * factor
    elif kind is Kind.FLAG:
        if isinstance(value, bool):
            return value
    elif kind is Kind.MANY:
        if isinstance(value, list | tuple) and all(isinstance(v, str) for v in value):
            return tuple(value)
    elif isinstance(value, str):
        return value
    raise ValueError(f"{value!r:.40} is no value for {CATALOGUE[name].label}")


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two sayings that cannot both hold; `governs` is the adverse one (or None where neither side is safe)."""

    name: str
    sayings: tuple[Fact, ...]


@dataclass(frozen=True)
class Known(Mapping[str, Fact]):
    """What is known now: one fact a name, the adverse one where sayings conflict. Read-only."""

    facts: Mapping[str, Fact] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Fact:
        return self.facts[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.facts)

    def __len__(self) -> int:
        return len(self.facts)

    def has(self, name: str) -> bool:
        """Known with a value (an answer "don't know" is not a value)."""
        fact = self.facts.get(name)
        return fact is not None and fact.value is not None

    def answered(self, name: str) -> bool:
        """Known, or asked and answered "don't know"."""
        return name in self.facts

    def value(self, name: str) -> Value:
        fact = self.facts.get(name)
        return None if fact is None else fact.value

    def text(self, name: str) -> str | None:
        value = self.value(name)
        return value if isinstance(value, str) else None

    def flag(self, name: str) -> bool | None:
        value = self.value(name)
        return value if isinstance(value, bool) else None

    def many(self, name: str) -> tuple[str, ...] | None:
        """The ticked choices without `none`; None where nothing was said, () where none was said."""
        value = self.value(name)
        return tuple(v for v in value if v != "none") if isinstance(value, tuple) else None

    def low(self, name: str) -> float | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.low

    def high(self, name: str) -> float | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.high

    def origin(self, name: str) -> Origin | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.origin

    def with_fact(self, fact: Fact) -> Known:
        """A copy in which one fact is replaced: for asking "what if"."""
        return Known({**self.facts, fact.name: fact})

    def without(self, names: Iterable[str]) -> Known:
        gone = set(names)
        return Known({name: fact for name, fact in self.facts.items() if name not in gone})


def same_value(one: Value, other: Value) -> bool:
    """Equal within 0.5 % (two ways of writing one figure), lists without regard to order."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return set(one) == set(other)
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=5e-3, abs_tol=1e-9)
    return one == other


class Ledger:
    """Every saying in order. Appends only; `undo` and corrections mark, they never erase."""

    def __init__(self) -> None:
        self._entries: list[Fact] = []
        self._dead: set[int] = set()
        self._known: Known | None = None
        self._conflicts: tuple[Conflict, ...] | None = None

    def copy(self) -> Ledger:
        other = Ledger()
        other._entries, other._dead = list(self._entries), set(self._dead)
        return other

    def _changed(self) -> None:
        self._known = self._conflicts = None

    @property
    def entries(self) -> tuple[Fact, ...]:
        return tuple(self._entries)

    def history(self, name: str) -> tuple[Fact, ...]:
        """All sayings of one fact, the superseded ones too, oldest first."""
        return tuple(fact for fact in self._entries if fact.name == name)

    def live(self, name: str) -> tuple[Fact, ...]:
        return tuple(f for i, f in enumerate(self._entries) if f.name == name and i not in self._dead)

    def put(self, fact: Fact, *, corrects: bool = False) -> Conflict | None:
        """Adds a saying. A firm saying against an earlier firm one is a conflict unless it corrects.

        "Don't know", assumed and computed values give way to anything firmer, and never push a firm one aside.
        """
        if fact.name not in CATALOGUE:
            raise KeyError(f"{fact.name!r} is not a fact")
        soft = (Origin.UNKNOWN, Origin.ASSUMED, Origin.COMPUTED)
        before = [i for i, f in enumerate(self._entries) if f.name == fact.name and i not in self._dead]
        firm = [i for i in before if self._entries[i].origin not in soft]
        self._changed()
        if corrects or (fact.origin in soft and not firm):
            self._dead.update(before)
        elif fact.origin in soft:
            return None
        else:
            self._dead.update(i for i in before if i not in firm)
            same = [i for i in firm if same_value(self._entries[i].value, fact.value)]
            self._dead.update(same)
            firm = [i for i in firm if i not in same]
            if firm and fact.spec.kind is Kind.MANY:
                self._dead.update(firm)
                fact = replace(fact, value=_joined([self._entries[i].value for i in firm] + [fact.value]))
                firm = []
        self._entries.append(fact)
        if not corrects and fact.origin not in soft and firm:
            return Conflict(fact.name, (*(self._entries[i] for i in firm), fact))
        return None

    def settle(self, name: str, index: int, turn: int) -> Fact:
        """Settles a conflict by choosing one of the live sayings (0 is the oldest)."""
        chosen = self.live(name)[index]
        self.put(replace(chosen, turn=turn), corrects=True)
        return chosen

    def withdraw(self, names: Iterable[str]) -> None:
        """Takes back what rests on something that changed, or what a person removed from an echo."""
        gone = set(names)
        self._dead.update(i for i, f in enumerate(self._entries) if f.name in gone)
        self._changed()

    def conflicts(self) -> tuple[Conflict, ...]:
        """The facts with more than one live saying, in the order they came up."""
        if self._conflicts is None:
            said = Counter(f.name for i, f in enumerate(self._entries) if i not in self._dead)
            self._conflicts = tuple(Conflict(n, self.live(n)) for n, times in said.items() if times > 1)
        return self._conflicts

    def known(self) -> Known:
        if self._known is None:
            by_name: dict[str, list[Fact]] = {}
            for i, fact in enumerate(self._entries):
                if i not in self._dead:
                    by_name.setdefault(fact.name, []).append(fact)
            self._known = Known({name: _governing(live) for name, live in by_name.items()})
        return self._known


def _joined(values: list[Value]) -> tuple[str, ...]:
    seen: dict[str, None] = {}
    for value in values:
        if isinstance(value, tuple):
            seen.update(dict.fromkeys(value))
    if len(seen) > 1:
        seen.pop("none", None)
    return tuple(seen)


def _governing(live: list[Fact]) -> Fact:
    if len(live) == 1:
        return live[0]
    adverse = live[0].spec.adverse
    numbered = [f for f in live if f.low is not None or f.high is not None]
    if len(numbered) < len(live):
        if all(
            isinstance(f.value, bool) for f in live
        ):  # yes is the adverse answer of every yes/no fact but bore_proven
            wanted = live[0].name != "bore_proven"
            return next((f for f in live if f.value is wanted), live[-1])
        return live[-1]
    if adverse == "high":
        return max(numbered, key=lambda f: math.inf if f.high is None else f.high)
    if adverse == "low":
        return min(numbered, key=lambda f: -math.inf if f.low is None else f.low)
    lows = [f.low for f in numbered]
    highs = [f.high for f in numbered]
    span = Span(
        None if None in lows else min(v for v in lows if v is not None),
        None if None in highs else max(v for v in highs if v is not None),
    )
    return replace(live[-1], value=span, hedged=False, said=" or ".join(f.said for f in live if f.said))
