"""What is a fact, and what becomes of two sayings about one? The ledger, ranges, and the JSON units."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.catalogue import CATALOGUE, TOPICS, UNITS, Kind
from interview.facts import Fact, Known, Origin, Span, from_json_number, from_json_value, json_value, tidy
from interview.ledger import Ledger, same_value

BAR = 1e5
QUANTITIES = sorted(name for name, spec in CATALOGUE.items() if spec.kind is Kind.QUANTITY)
SOFT = (Origin.UNKNOWN, Origin.ASSUMED, Origin.COMPUTED)
FIRM = (Origin.STATED, Origin.READ, Origin.MEASURED, Origin.COPIED)


def working(bar: float | Span | None, origin: Origin = Origin.STATED, said: str = "") -> Fact:
    return Fact("working_pressure", bar if bar is None or isinstance(bar, Span) else bar * BAR, origin, said)


# ---- the catalogue -------------------------------------------------------------------------------------------------


def test_every_fact_has_a_topic_a_unit_and_words() -> None:
    for name, spec in CATALOGUE.items():
        assert spec.name == name
        assert spec.topic in TOPICS
        assert spec.label.strip()
        assert spec.unit in UNITS
        assert spec.adverse in ("high", "low", "")
        if spec.kind in (Kind.CHOICE, Kind.MANY):
            assert len(set(spec.choices)) == len(spec.choices) > 1
        if spec.plausible is not None:
            assert spec.plausible[0] < spec.plausible[1]


def test_the_sides_that_hurt_are_the_trade_s() -> None:
    """Hot, high pressure and fast hurt high; cold, room to bend and a part's rating hurt low."""
    high = (
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "fluid_temperature_max",
        "flow_rate",
        "vacuum",
        "cycle_rate",
    )
    low = (
        "ambient_temperature_min",
        "fluid_temperature_min",
        "bend_radius_available",
        "end_a_rating",
        "valve_closing_time",
    )
    assert {CATALOGUE[n].adverse for n in high} == {"high"}
    assert {CATALOGUE[n].adverse for n in low} == {"low"}


@pytest.mark.parametrize(
    ("unit", "si"),
    [
        # NIST SP 811 (2008) appendix B and ISO 80000: exact by definition.
        ("bar", 1e5),
        ("mm", 1e-3),
        ("m", 1.0),
        ("L/min", 1e-3 / 60),
        ("cm3/rev", 1e-6),
        ("rpm", 1 / 60),
        ("s", 1.0),
        ("degC", 1.0),
    ],
)
def test_json_units_are_exact(unit: str, si: float) -> None:
    assert UNITS[unit].factor == pytest.approx(si, rel=1e-15)


# ---- JSON ----------------------------------------------------------------------------------------------------------


@given(st.sampled_from(QUANTITIES), st.floats(-1e6, 1e6).filter(lambda x: x == 0 or abs(x) > 1e-6))
def test_json_round_trip_of_every_quantity(name: str, number: float) -> None:
    """What JSON carries comes back as the same SI value within the nine digits it keeps."""
    si = from_json_number(name, number)
    shown = json_value(name, si)
    assert isinstance(shown, float)
    assert shown == pytest.approx(number, rel=1e-8)
    assert json_value(name, from_json_number(name, shown)) == shown


@pytest.mark.parametrize("name", QUANTITIES)
def test_json_shows_a_plain_number_for_a_plain_number(name: str) -> None:
    """60 L/min is not 59.99999999999999."""
    for number in (0.1, 0.3, 1.0, 7.0, 60.0, 172.4, 4999.0):
        assert json_value(name, from_json_number(name, number)) == number


@given(st.sampled_from(QUANTITIES), st.floats(-100, 100), st.floats(-100, 100))
def test_json_of_a_range(name: str, one: float, other: float) -> None:
    low, high = sorted((tidy(one), tidy(other)))
    value = json_value(name, Span(from_json_number(name, low), from_json_number(name, high)))
    assert value == {"low": pytest.approx(low, rel=1e-8), "high": pytest.approx(high, rel=1e-8)}


def test_json_of_everything_else() -> None:
    assert json_value("working_pressure", Span(None, 200 * BAR)) == {"low": None, "high": 200.0}
    assert json_value("exposure", ("sunlight", "flame")) == ["sunlight", "flame"]
    assert json_value("exposure", ()) == []
    assert json_value("people_near", True) is True
    assert json_value("medium", "hm") == "hm"
    assert json_value("working_pressure", None) is None


@given(st.floats(allow_nan=False, allow_infinity=False).filter(lambda x: x == 0 or 1e-300 < abs(x) < 1e300))
def test_tidy_hides_only_the_last_bits(number: float) -> None:
    assert tidy(number) == pytest.approx(number, rel=1e-8)
    assert tidy(tidy(number)) == tidy(number)


@st.composite
def any_value(draw: st.DrawFn) -> tuple[str, object]:
    """A fact and a value it may have."""
    name = draw(st.sampled_from(sorted(CATALOGUE)))
    spec = CATALOGUE[name]
    number = st.floats(-1e4, 1e4).map(lambda x: from_json_number(name, tidy(x)))
    if spec.kind is Kind.QUANTITY:
        pair = st.tuples(number, number).map(lambda p: Span(min(p), max(p)))
        half = st.one_of(number.map(lambda x: Span(None, x)), number.map(lambda x: Span(x, None)))
        return name, draw(st.one_of(st.none(), number, pair, half))
    if spec.kind is Kind.FLAG:
        return name, draw(st.one_of(st.none(), st.booleans()))
    if spec.kind is Kind.MANY:
        return name, draw(st.lists(st.sampled_from(spec.choices), unique=True).map(tuple))
    return name, draw(st.one_of(st.none(), st.sampled_from(spec.choices or ("hm", "-8", "2019-Q3"))))


@given(any_value())
def test_a_stored_value_comes_back(pair: tuple[str, object]) -> None:
    """What a record keeps of a fact is the fact again, within the nine digits JSON carries."""
    name, value = pair
    back = from_json_value(name, json_value(name, value))  # type: ignore[arg-type]
    if isinstance(value, Span):
        assert isinstance(back, Span)
        for one, other in ((value.low, back.low), (value.high, back.high)):
            assert (one is None) == (other is None)
            assert one is None or other is None or other == pytest.approx(one, rel=1e-8, abs=1e-12)
    elif isinstance(value, float):
        assert back == pytest.approx(value, rel=1e-8, abs=1e-12)
    else:
        assert back == value and type(back) is type(value)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("working_pressure", "200"),
        ("working_pressure", True),
        ("working_pressure", float("nan")),
        ("working_pressure", float("inf")),
        ("working_pressure", [1, 2]),
        ("working_pressure", {"low": "a", "high": 2}),
        ("working_pressure", {"low": 3, "high": 2}),
        ("people_near", "yes"),
        ("people_near", 1),
        ("exposure", "sunlight"),
        ("exposure", [1]),
        ("medium", 3),
        ("medium", ["hm"]),
        ("layline", {"a": 1}),
    ],
)
def test_what_is_no_value_of_a_fact_is_refused(name: str, value: object) -> None:
    with pytest.raises(ValueError):
        from_json_value(name, value)


# ---- ranges --------------------------------------------------------------------------------------------------------


def test_a_range_runs_upwards() -> None:
    with pytest.raises(ValueError, match="from the lower to the higher"):
        Span(2.0, 1.0)
    assert Span(1.0, 1.0) == Span(1.0, 1.0)


def test_open_sides_of_a_range_are_open() -> None:
    fact = working(Span(None, 200 * BAR))
    assert (fact.low, fact.high) == (None, 200 * BAR)
    fact = working(Span(200 * BAR, None))
    assert (fact.low, fact.high) == (200 * BAR, None)


def test_about_widens_by_ten_per_cent() -> None:
    """contract: "About 200 bar" is the value, hedged; the engine widens it by 10 %."""
    fact = Fact("working_pressure", 200 * BAR, hedged=True)
    assert fact.low == pytest.approx(180 * BAR)
    assert fact.high == pytest.approx(220 * BAR)
    exact = working(200)
    assert exact.low == exact.high == 200 * BAR


@given(st.floats(-200, 200))
def test_about_a_cold_temperature_still_widens_outwards(number: float) -> None:
    fact = Fact("ambient_temperature_min", number, hedged=True)
    assert fact.low is not None and fact.high is not None
    assert fact.low <= number <= fact.high
    assert fact.high - fact.low == pytest.approx(0.2 * abs(number), abs=1e-9)


def test_about_does_not_touch_a_range_or_a_word() -> None:
    assert Fact("working_pressure", Span(1.0, 2.0), hedged=True).low == 1.0
    assert Fact("medium", "hm", hedged=True).low is None


# ---- the ledger ----------------------------------------------------------------------------------------------------


def test_a_correction_supersedes_and_nothing_is_erased() -> None:
    ledger = Ledger()
    ledger.put(working(170, said="170 bar"))
    assert ledger.put(working(210, said="210 bar"), corrects=True) is None
    assert ledger.known().high("working_pressure") == 210 * BAR
    assert [f.said for f in ledger.history("working_pressure")] == ["170 bar", "210 bar"]
    assert ledger.conflicts() == ()


@pytest.mark.parametrize(
    ("name", "one", "other", "governs"),
    [
        ("working_pressure", 170 * BAR, 210 * BAR, 210 * BAR),  # high hurts
        ("working_pressure", 210 * BAR, 170 * BAR, 210 * BAR),
        ("ambient_temperature_min", -10.0, -30.0, -30.0),  # low hurts
        ("ambient_temperature_min", -30.0, -10.0, -30.0),
        ("bend_radius_available", 0.3, 0.2, 0.2),
        ("people_near", True, False, True),  # yes hurts
        ("people_near", False, True, True),
        ("bore_proven", True, False, False),  # of this one, no hurts
        ("bore_proven", False, True, False),
    ],
)
def test_the_adverse_saying_governs_a_conflict(name: str, one: object, other: object, governs: object) -> None:
    ledger = Ledger()
    ledger.put(Fact(name, one))  # type: ignore[arg-type]
    conflict = ledger.put(Fact(name, other))  # type: ignore[arg-type]
    assert conflict is not None
    assert [f.value for f in conflict.sayings] == [one, other]
    assert ledger.known().value(name) == governs
    assert len(ledger.conflicts()) == 1


def test_where_no_side_is_safe_the_conflict_governs_as_a_range() -> None:
    """A bore may hurt either way: both sayings stay possible."""
    ledger = Ledger()
    ledger.put(Fact("bore", 8.0, said="half inch"))
    ledger.put(Fact("bore", 10.0, said="5/8"))
    assert ledger.known().value("bore") == Span(8.0, 10.0)


def test_an_open_side_governs_as_the_worst() -> None:
    ledger = Ledger()
    ledger.put(working(300))
    ledger.put(working(Span(200 * BAR, None)))
    assert ledger.known().high("working_pressure") is None


def test_settling_a_conflict_takes_the_chosen_saying() -> None:
    for index, bar in enumerate((170, 210)):
        ledger = Ledger()
        ledger.put(working(170))
        ledger.put(working(210))
        chosen = ledger.settle("working_pressure", index, turn=3)
        assert chosen.value == bar * BAR
        assert ledger.conflicts() == ()
        assert ledger.known().value("working_pressure") == bar * BAR
        assert len(ledger.history("working_pressure")) == 3


def test_two_ways_of_writing_one_figure_are_no_conflict() -> None:
    """3,000 psi and 207 bar are the printed pair of one rating: 206.84 against 207, within 0.5 %."""
    ledger = Ledger()
    ledger.put(Fact("working_pressure", 3000 * 6894.757293168361, unit="psi"))
    assert ledger.put(working(207)) is None
    assert ledger.conflicts() == ()


def test_half_a_per_cent_is_the_edge() -> None:
    assert same_value(100.0, 100.5)
    assert not same_value(100.0, 100.6)
    assert same_value(("a", "b"), ("b", "a"))
    assert not same_value(("a",), ("b",))
    assert same_value(0.0, 0.0)


@pytest.mark.parametrize("soft", SOFT)
@pytest.mark.parametrize("firm", FIRM)
def test_a_soft_value_gives_way_and_never_pushes(soft: Origin, firm: Origin) -> None:
    ledger = Ledger()
    ledger.put(working(None if soft is Origin.UNKNOWN else 100, soft))
    assert ledger.put(working(200, firm)) is None
    assert ledger.known().value("working_pressure") == 200 * BAR
    assert ledger.put(working(None if soft is Origin.UNKNOWN else 300, soft)) is None
    assert ledger.known().value("working_pressure") == 200 * BAR
    assert ledger.known().origin("working_pressure") is firm


def test_dont_know_is_an_answer_without_a_value() -> None:
    ledger = Ledger()
    ledger.put(working(None, Origin.UNKNOWN))
    known = ledger.known()
    assert known.answered("working_pressure")
    assert not known.has("working_pressure")
    assert known.low("working_pressure") is None


def test_lists_join() -> None:
    ledger = Ledger()
    ledger.put(Fact("exposure", ("sunlight",)))
    assert ledger.put(Fact("exposure", ("salt_water",))) is None
    assert set(ledger.known().many("exposure") or ()) == {"sunlight", "salt_water"}
    assert ledger.conflicts() == ()


def test_none_gives_way_to_a_use_that_is_named_later() -> None:
    """ "None of these" and then "road brake": the use counts, the none does not."""
    ledger = Ledger()
    ledger.put(Fact("regulated_use", ("none",)))
    ledger.put(Fact("regulated_use", ("road_brake",)))
    assert ledger.known().many("regulated_use") == ("road_brake",)


def test_an_empty_list_says_none_of_these() -> None:
    assert Known({"exposure": Fact("exposure", ())}).many("exposure") == ()
    assert Known({"regulated_use": Fact("regulated_use", ("none",))}).many("regulated_use") == ()
    assert Known().many("exposure") is None


def test_withdrawing_leaves_the_history() -> None:
    ledger = Ledger()
    ledger.put(working(170))
    ledger.withdraw(["working_pressure"])
    assert not ledger.known().answered("working_pressure")
    assert len(ledger.history("working_pressure")) == 1
    ledger.put(working(210))
    assert ledger.conflicts() == ()


def test_a_word_that_is_no_fact_is_refused() -> None:
    with pytest.raises(KeyError, match="not a fact"):
        Ledger().put(Fact("colour", "red"))


@st.composite
def sayings(draw: st.DrawFn) -> list[tuple[Fact, bool]]:
    made = []
    for _ in range(draw(st.integers(0, 8))):
        origin = draw(st.sampled_from([*FIRM, *SOFT]))
        value = None if origin is Origin.UNKNOWN else draw(st.sampled_from([100.0, 200.0, 300.0]))
        made.append((working(value, origin), draw(st.booleans())))
    return made


@given(sayings())
def test_the_ledger_only_grows_and_the_worst_firm_saying_governs(said: list[tuple[Fact, bool]]) -> None:
    ledger = Ledger()
    for fact, corrects in said:
        before = ledger.entries
        ledger.put(fact, corrects=corrects)
        assert ledger.entries[: len(before)] == before
    live = ledger.live("working_pressure")
    if not live:
        assert not ledger.known().answered("working_pressure")
        return
    governing = ledger.known()["working_pressure"]
    highs = [f.high for f in live if f.high is not None]
    if highs:
        assert governing.high == max(highs)
    assert (len(live) > 1) == bool(ledger.conflicts())


def test_what_if_leaves_the_known_alone() -> None:
    known = Known({"working_pressure": working(100)})
    other = known.with_fact(working(300))
    assert known.high("working_pressure") == 100 * BAR
    assert other.high("working_pressure") == 300 * BAR
    assert not other.without(["working_pressure"]).answered("working_pressure")
    assert math.isclose(known["working_pressure"].low or 0, 100 * BAR)
