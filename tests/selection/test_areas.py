"""What do a cylinder's areas do to flow and pressure, and which side is taken where nobody knows?

By hand, continuity and the balance of forces on the piston (exact): area ratio D^2 / (D^2 - d^2); 100 on 56 mm is
10000 / 6864 = 1.457.
"""

from __future__ import annotations

import pytest

from interview.facts import Fact, Known, Origin, Value
from interview.selection.derive import derive
from interview.selection.judge import Bench

RATIO = 10000 / 6864


def derived(on: Bench, unknown: str = "", hedged: str = "", **said: Value) -> Known:
    facts = {n: Fact(n, v, hedged=n == hedged) for n, v in said.items()}
    facts |= {n: Fact(n, None, Origin.UNKNOWN) for n in unknown.split()}
    return derive(Known(facts), on.rules, on.tables.fluids.get)


CYLINDER: dict[str, Value] = {"cylinder_bore": 0.100, "cylinder_rod": 0.056}
SMOOTH: dict[str, Value] = {"line_function": "pressure", "relief_setting": 210e5, "shock": "smooth"}


@pytest.mark.parametrize(("side", "bar"), [("rod", 210 * RATIO), ("cap", 252), (None, 210 * RATIO)])
def test_the_safe_side_is_taken_where_nobody_knows_which(on: Bench, side: str | None, bar: float) -> None:
    more: dict[str, Value] = {} if side is None else {"cylinder_side": side}
    known = derived(on, "surge_pressure throttled" + ("" if side else " cylinder_side"), **SMOOTH, **CYLINDER, **more)
    assert known.high("surge_pressure") == pytest.approx(bar * 1e5)
    assert known.origin("surge_pressure") is Origin.ASSUMED


def test_a_rod_side_that_cannot_be_blocked_multiplies_nothing(on: Bench) -> None:
    known = derived(on, "surge_pressure", **SMOOTH, **CYLINDER, cylinder_side="rod", throttled=False)
    assert known.high("surge_pressure") == pytest.approx(252e5)


def test_about_is_taken_at_the_end_that_hurts(on: Bench) -> None:
    """A bore of about 100 mm may be 90: then the ratio is 8100 / (8100 - 3136) = 1.632, not 1.457."""
    known = derived(on, "surge_pressure throttled", hedged="cylinder_bore", **SMOOTH, **CYLINDER, cylinder_side="rod")
    assert known.high("surge_pressure") == pytest.approx(210e5 * 8100 / (8100 - 3136))


def test_a_return_carries_the_pump_times_the_ratio(on: Bench) -> None:
    back = derived(on, line_function="return", pump_flow=0.001, cylinder_side="cap", **CYLINDER)
    assert back.high("flow_rate") == pytest.approx(0.001 * RATIO)
    about = derived(on, hedged="cylinder_rod", line_function="return", pump_flow=0.001, cylinder_side="cap", **CYLINDER)
    low, high = about.low("flow_rate"), about.high("flow_rate")
    assert low is not None and high is not None and low < 0.001 * RATIO < high
    assert high == pytest.approx(0.001 / (1 - 0.616**2))


def test_no_cylinder_gives_back_what_the_pump_gives(on: Bench) -> None:
    """ "None" is an answer; "don't know" is taken as up to twice the pump (house rule)."""
    none = derived(on, line_function="return", pump_flow=0.001, cylinder_bore=None)
    assert none.high("flow_rate") == pytest.approx(0.001) and none.origin("flow_rate") is Origin.COMPUTED
    unknown = derived(on, "cylinder_bore", line_function="return", pump_flow=0.001)
    assert unknown.high("flow_rate") == pytest.approx(0.002) and unknown.origin("flow_rate") is Origin.ASSUMED


@pytest.mark.parametrize("rod", [0.100, 0.120])
def test_a_rod_not_smaller_than_its_bore_makes_no_ratio(on: Bench, rod: float) -> None:
    known = derived(on, "surge_pressure", **SMOOTH, cylinder_bore=0.100, cylinder_rod=rod, cylinder_side="rod")
    assert known.high("surge_pressure") == pytest.approx(252e5)


@pytest.mark.parametrize(("side", "times"), [("cap", 6400 / 3136), (None, 6400 / 3136), ("rod", 3264 / 3136)])
def test_regeneration_sends_more_through_the_hose_than_the_pump_gives(
    on: Bench, side: str | None, times: float
) -> None:
    """Continuity: the pump and the rod side fill the cap side, Q D^2 / d^2; the rod side gives the rest of it."""
    facts: dict[str, Value] = {
        "line_function": "pressure",
        "pump_flow": 0.001,
        "cylinder_bore": 0.080,
        "cylinder_rod": 0.056,
        "regenerating": True,
    }
    known = derived(on, **(facts if side is None else {**facts, "cylinder_side": side}))
    assert known.high("flow_rate") == pytest.approx(0.001 * times)


def test_without_regeneration_the_pumps_flow_passes_a_pressure_line(on: Bench) -> None:
    known = derived(on, line_function="pressure", pump_flow=0.001, **CYLINDER, regenerating=False)
    assert known.high("flow_rate") == pytest.approx(0.001)


def test_regeneration_without_the_areas_gives_no_flow(on: Bench) -> None:
    """Up to twice the pump and more: nobody may take the pump's figure then."""
    assert not derived(on, line_function="pressure", pump_flow=0.001, regenerating=True).has("flow_rate")


@pytest.mark.parametrize(
    ("cooling", "assumed"),
    [
        ("cooler", True),
        (None, True),
        ("none", False),
        ("closed_loop", False),
    ],
)
def test_the_oils_heat_is_assumed_only_where_a_cooler_may_be_there(
    on: Bench, cooling: str | None, assumed: bool
) -> None:
    """House rule: 80 degC for a cooled system on mineral oil; never for a hydrostatic drive or one without a cooler."""
    more: dict[str, Value] = {} if cooling is None else {"cooling": cooling}
    known = derived(on, "fluid_temperature_max", medium="hm", **more)
    assert known.has("fluid_temperature_max") == assumed
