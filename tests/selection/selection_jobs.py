"""Built jobs for the tests of selection: facts in their JSON units, judged on the shipped tables."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache

from hypothesis import strategies as st

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue.session import bench
from interview.facts import Fact, Known, Origin, Span, Value, from_json_number
from interview.selection.finding import Finding, Remark
from interview.selection.judge import Bench, Judgement, judge, known_with
from interview.selection.outcome import Standing, standing_of

PSI = 6894.757293168361  # Pa; exact by the pound-force and inch (NIST SP 811 B.9)

# A job that is wholly known and firm: 180 bar, spikes to 205, AW46 at 65 degC, 60 L/min, 5/8 bore.
PLAIN: dict[str, object] = {
    "job_kind": "failed_hose",
    "regulated_use": ["none"],
    "line_function": "pressure",
    "bore": 10,
    "working_pressure": 180,
    "surge_pressure": 205,
    "medium": "hm",
    "viscosity_grade": 46,
    "fluid_temperature_max": 65,
    "ambient_temperature_max": 30,
    "ambient_temperature_min": -5,
    "fluid_temperature_min": -5,
    "flow_rate": 60,
    "end_a_family": "orfs",
    "end_a_size": "-10",
    "end_a_gender": "female",
    "end_a_form": "straight",
    "end_b_family": "orfs",
    "end_b_size": "-10",
    "end_b_gender": "female",
    "end_b_form": "straight",
    "overall_length": 1450,
    "bend_radius_available": 300,
    "motion": "fixed",
}


def fact(name: str, value: object, origin: Origin = Origin.STATED, unit: str = "") -> Fact:
    """A fact from its JSON value: a number, a (low, high) pair, a list, a word, or None for "don't know"."""
    if isinstance(value, Fact):
        return replace(value, name=name)
    if value is None:
        return Fact(name, None, Origin.UNKNOWN)
    made: Value
    if isinstance(value, tuple):
        low, high = value
        made = Span(
            None if low is None else from_json_number(name, low), None if high is None else from_json_number(name, high)
        )
    elif isinstance(value, list):
        made = tuple(value)
    elif isinstance(value, bool | str):
        made = value
    else:
        assert isinstance(value, int | float)
        made = from_json_number(name, value)
    return Fact(name, made, origin, unit=unit)


def said(**facts: object) -> Known:
    return Known({name: fact(name, value) for name, value in facts.items()})


def plain(**changes: object) -> dict[str, object]:
    """The wholly known job with changes; a value of `...` leaves the fact out."""
    return {n: v for n, v in {**PLAIN, **changes}.items() if v is not ...}


def judged(on: Bench, **facts: object) -> Judgement:
    return judge(known_with(said(**facts), on), on)


def standing(on: Bench, home: str = "metric", **facts: object) -> Standing:
    return standing_of(judged(on, **facts), home)


def index(on: Bench, construction: str, bore: float) -> int:
    return next(i for i, c in enumerate(on.candidates) if c.id == construction and c.bore == bore)


def answer(judgement: Judgement, check: str, construction: str, bore: float = 8) -> Finding | Remark | None:
    """What one check says of one hose."""
    i = index(judgement.bench, construction, bore)
    found = [a for row in judgement.rows if (a := row.answer(i)) is not None and a.check == check]
    return found[0] if found else None


def finding(judgement: Judgement, check: str, construction: str, bore: float = 8) -> Finding:
    found = answer(judgement, check, construction, bore)
    assert isinstance(found, Finding), f"{check} says {found!r} of {construction} {bore}"
    return found


@cache
def shipped() -> Bench:
    """The shipped bench for generated tests: as a fixture its repr would be megabytes in every failure."""
    return bench()


def small(on: Bench, step: int = 7) -> Bench:
    """Every seventh candidate: enough kinds for a property, a seventh of the time."""
    return Bench(on.tables, on.connections, on.rules, on.candidates[::step])


# ---- generated jobs ------------------------------------------------------------------------------------------------

JOB_FACTS = (
    "line_function",
    "bore",
    "bore_proven",
    "flow_rate",
    "pump_flow",
    "cylinder_bore",
    "cylinder_rod",
    "cylinder_side",
    "line_length",
    "lift",
    "altitude",
    "pump_inlet_limit",
    "pressure_loss_limit",
    "fluid_temperature_max",
    "fluid_temperature_min",
    "ambient_temperature_max",
    "ambient_temperature_min",
    "surroundings",
    "heat_source_distance",
    "shock",
    "cycle_rate",
    "hours_per_year",
    "wanted_life",
    "motion",
    "bend_plane",
    "bend_radius_available",
    "wear",
    "exposure",
    "vibration",
    "non_conductive",
    "flame_resistant",
    "near_power_line",
    "people_near",
    "medium",
    "viscosity_grade",
    "viscosity_index",
    "working_pressure",
    "surge_pressure",
    "relief_setting",
    "valve_closing_time",
    "vacuum",
    "end_a_family",
    "end_a_size",
    "end_a_gender",
    "end_a_form",
    "end_a_swivel",
    "end_a_rating",
    "end_a_seal",
    "end_a_metal",
    "end_b_family",
    "end_b_size",
    "end_b_rating",
    "adapter_a_family",
    "adapter_a_size",
    "adapter_a_rating",
    "overall_length",
    "port_distance",
    "clearance_geometry",
)
FAMILIES = {
    "flare37": ("-6", "-8", "-10"),
    "orfs": ("-8", "-10", "-12"),
    "bspp_cone60": ("3/8", "1/2", "3/4"),
    "flange_c61": ("-16", "-20"),
    "other": ("8",),
}
MEDIA = ("hm", "hl", "hv", "hetg", "hees", "hfc", "hfdr", "water", "utto", "diesel", "hfae")
SEALS, METALS = ("NBR", "FKM", "EPDM"), ("STEEL_ZN", "STEEL")
LIMITS = {
    "working_pressure": (1, 500),
    "surge_pressure": (1, 700),
    "relief_setting": (1, 500),
    "flow_rate": (1, 400),
    "pump_flow": (1, 400),
    "bore": (3, 40),
    "bend_radius_available": (20, 900),
    "fluid_temperature_max": (20, 140),
    "ambient_temperature_max": (10, 140),
    "ambient_temperature_min": (-60, 10),
    "fluid_temperature_min": (-60, 20),
    "overall_length": (200, 4000),
    "port_distance": (200, 4000),
    "end_a_rating": (50, 700),
    "end_b_rating": (50, 700),
    "adapter_a_rating": (50, 700),
    "line_length": (0.2, 20),
    "lift": (-2, 3),
    "altitude": (0, 3000),
}


def quantity(name: str) -> st.SearchStrategy[object]:
    """A number, a range, or a range open on one side, in the JSON unit."""
    low, high = LIMITS.get(name) or CATALOGUE[name].plausible or (0, 100)
    number = st.floats(low, high).map(lambda x: round(x, 2))
    pair = st.tuples(number, number).map(lambda p: tuple(sorted(p)))
    return st.one_of(number, number, pair, number.map(lambda x: (x, None)), number.map(lambda x: (None, x)))


def value_of(name: str) -> st.SearchStrategy[object]:
    spec = CATALOGUE[name]
    if spec.kind is Kind.QUANTITY:
        return quantity(name)
    if spec.kind is Kind.FLAG:
        return st.booleans()
    if spec.kind is Kind.CHOICE:
        return st.sampled_from(spec.choices)
    if spec.kind is Kind.MANY:
        return st.lists(st.sampled_from(spec.choices), max_size=2, unique=True)
    options: Iterable[str] = {
        "medium": MEDIA,
        "seal": SEALS,
        "metal": METALS,
        "family": FAMILIES,
        "size": sorted({s for sizes in FAMILIES.values() for s in sizes}),
    }[name.split("_")[-1]]
    return st.sampled_from(sorted(options))


@st.composite
def jobs(draw: st.DrawFn, most: int = 18) -> dict[str, object]:
    """A job of which some things are known, some only as a range, and some were answered "don't know"."""
    names = draw(st.lists(st.sampled_from(JOB_FACTS), max_size=most, unique=True))
    made: dict[str, object] = {}
    for name in names:
        made[name] = None if draw(st.integers(0, 9)) == 0 else draw(value_of(name))
    return made
