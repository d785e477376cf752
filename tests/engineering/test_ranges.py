"""Does a bracket contain everything that can happen, and no more than can happen?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.engineering import flow, life, losses, sources, suction, surge_bracket, viscosity
from interview.engineering.errors import EngineeringError
from interview.engineering.ranges import Bracket, Interval, bracket, settling_inputs, threshold

VELOCITY_SIGNS: Any = {"flow_m3_s": "+", "bore_m": "-"}
CYCLES_SIGNS: Any = {"pressure": "-", "rated": "+", "tested_cycles": "?", "tested_percent": "?"}
RETURN_SIGNS: Any = {"rod_side_flow": "+", "bore_m": "-", "rod_m": "+"}


def _plain(function: Callable[..., float], signs: Any) -> Callable[..., Bracket]:
    def ranged(**inputs: float | Interval) -> Bracket:
        return bracket(function, signs, **inputs)

    return ranged


CASES: dict[str, tuple[Callable[..., float], Callable[..., Bracket], Mapping[str, tuple[float, float]]]] = {
    "velocity": (
        flow.velocity,
        _plain(flow.velocity, VELOCITY_SIGNS),
        {"flow_m3_s": (0.0, 0.01), "bore_m": (0.004, 0.06)},
    ),
    "return through the cap end": (
        sources.cap_return_flow,
        _plain(sources.cap_return_flow, RETURN_SIGNS),
        {"rod_side_flow": (0.0, 0.01), "bore_m": (0.06, 0.12), "rod_m": (0.02, 0.055)},
    ),
    "loss, laminar to turbulent": (
        losses.hose_loss,
        losses.hose_loss_range,
        {
            "flow": (0.0, 0.004),
            "bore_m": (0.006, 0.03),
            "length_m": (0.1, 10.0),
            "viscosity_m2_s": (5e-6, 300e-6),
            "density": (820.0, 900.0),
            "fittings_k": (0.0, 12.0),
        },
    ),
    "pump inlet": (
        suction.line_inlet,
        suction.line_inlet_range,
        {
            "flow": (0.0, 0.003),
            "bore_m": (0.02, 0.06),
            "length_m": (0.2, 4.0),
            "viscosity_m2_s": (10e-6, 1600e-6),
            "density": (820.0, 1100.0),
            "head_m": (-1.0, 1.5),
            "altitude_m": (0.0, 4000.0),
        },
    ),
    "viscosity": (
        viscosity.at,
        viscosity.at_range,
        {"temperature_c": (-30.0, 90.0), "vg": (20.0, 110.0), "vi": (60.0, 180.0)},
    ),
    "cycles": (
        life.allowed_cycles,
        _plain(life.allowed_cycles, CYCLES_SIGNS),
        {
            "pressure": (100e5, 400e5),
            "rated": (150e5, 400e5),
            "tested_cycles": (1e5, 1e6),
            "tested_percent": (100.0, 133.0),
        },
    ),
}


@pytest.mark.parametrize("case", CASES)
@settings(max_examples=120, deadline=None, database=None, derandomize=True)
@given(data=st.data())
def test_a_bracket_contains_every_sampled_point(case: str, data: st.DataObject) -> None:
    function, ranged, spans = CASES[case]
    inputs: dict[str, float | Interval] = {}
    for name, span in spans.items():
        low, high = sorted(data.draw(st.tuples(st.floats(*span), st.floats(*span)), label=name))
        inputs[name] = Interval(low, high) if data.draw(st.booleans()) else low
    found = ranged(**inputs)
    shares = st.floats(0.0, 1.0)
    for _ in range(6):
        point = {
            name: value.low + data.draw(shares) * (value.high - value.low) if isinstance(value, Interval) else value
            for name, value in inputs.items()
        }
        result = function(**point)
        slack = 1e-12 * abs(result)
        assert found.low - slack <= result <= found.high + slack


@pytest.mark.parametrize("case", CASES)
def test_the_ends_of_a_bracket_happen(case: str) -> None:
    function, ranged, spans = CASES[case]
    found = ranged(**{name: Interval(*span) for name, span in spans.items()})
    assert function(**found.at_low) == pytest.approx(found.low, rel=1e-6)
    assert function(**found.at_high) == pytest.approx(found.high, rel=1e-6)
    for name, span in spans.items():
        assert span[0] <= found.at_low[name] <= span[1] and span[0] <= found.at_high[name] <= span[1]


def test_the_switch_between_laminar_and_turbulent_is_inside_the_bracket() -> None:
    litres, bore = 60 / 60000, 0.0127
    at_the_switch = losses.switch_viscosities(litres, bore)[0]
    viscosity_range = Interval(0.7 * at_the_switch, 1.2 * at_the_switch)
    found = losses.hose_loss_range(litres, bore, 3.0, viscosity_range, 870.0)
    ends = [losses.hose_loss(litres, bore, 3.0, v, 870.0) for v in (viscosity_range.low, viscosity_range.high)]
    just_laminar = losses.hose_loss(litres, bore, 3.0, 1.001 * at_the_switch, 870.0)
    assert just_laminar < min(ends)  # the ends alone would have missed it
    assert found.contains(just_laminar) and all(found.contains(end) for end in ends)


def test_no_more_than_can_happen() -> None:
    found = bracket(flow.velocity, VELOCITY_SIGNS, flow_m3_s=Interval(1e-3, 2e-3), bore_m=Interval(0.01, 0.02))
    assert found.low == flow.velocity(1e-3, 0.02)
    assert found.high == flow.velocity(2e-3, 0.01)


@given(
    st.tuples(st.floats(0, 10), st.floats(0, 10)).map(sorted),
    st.tuples(st.floats(0, 1), st.floats(0, 1)).map(sorted),
    st.floats(0, 10),
)
@settings(deadline=None, database=None, derandomize=True)
def test_narrowing_never_reopens_a_verdict(outer: list[float], shares: list[float], limit: float) -> None:
    wide = Interval(*outer)
    ends = sorted(min(max(wide.low + s * wide.width, wide.low), wide.high) for s in shares)
    narrow = Interval(*ends)
    for verdict, narrower in ((wide.at_most, narrow.at_most), (wide.at_least, narrow.at_least)):
        assert verdict(limit) == "open" or narrower(limit) == verdict(limit)


def test_an_open_verdict_names_what_would_settle_it() -> None:
    line = {"flow": Interval(40 / 60000, 60 / 60000), "length_m": Interval(2.9, 3.1), "bore_m": 0.0127}
    rest = {"viscosity_m2_s": 46e-6, "density": 870.0}
    found = bracket(losses.hose_loss, losses.HOSE_LOSS_SIGNS, **line, **rest)
    assert found.at_most(2.0e5) == "open"
    assert settling_inputs(losses.hose_loss, losses.HOSE_LOSS_SIGNS, 2.0e5, **line, **rest) == ("flow",)
    at = threshold(losses.hose_loss, losses.HOSE_LOSS_SIGNS, 2.0e5, "flow", **line, **rest)
    assert at is not None
    less = {**line, "flow": Interval(40 / 60000, at * 0.999)}
    below = bracket(losses.hose_loss, losses.HOSE_LOSS_SIGNS, **less, **rest)
    assert below.at_most(2.0e5) == "fits"
    # no length in its range can settle it, so there is no length to ask for
    assert threshold(losses.hose_loss, losses.HOSE_LOSS_SIGNS, 9e5, "length_m", **line, **rest) is None


def test_a_range_upside_down_or_endless_is_refused() -> None:
    with pytest.raises(EngineeringError, match="from the lower to the higher"):
        Interval(2.0, 1.0)
    with pytest.raises(EngineeringError, match="two finite ends"):
        Interval(0.0, float("inf"))
    with pytest.raises(EngineeringError, match="nothing says whether"):
        bracket(flow.velocity, {}, flow_m3_s=Interval(1e-3, 2e-3), bore_m=0.01)


def test_surge_narrows_as_more_is_known() -> None:
    wide = surge_bracket.bracket(180e5, velocity=6.0)
    kind = surge_bracket.bracket(180e5, velocity=6.0, line="wire")
    timed = surge_bracket.bracket(180e5, velocity=6.0, line="wire", length=3.0, closing_time=(0.05, 0.1))
    assert wide.high > kind.high > timed.high
    assert wide.low <= kind.low <= timed.low
    assert timed.governing.name == "water hammer"


def test_surge_of_a_blocked_rod_side_counts_the_relief_valve() -> None:
    # 80/56 mm, area ratio 1.9608: the relief valve's own peak stands on the cap side
    found = surge_bracket.bracket(150e5, relief_setting=210e5, relief_kind="pilot", rod_side=(0.080, 0.056))
    assert found.governing.name == "blocked rod side"
    assert found.high == pytest.approx(210e5 * 1.15 * 1.9608, rel=1e-4)
    assert found.low == 210e5


def test_surge_with_nothing_known_is_the_working_pressure() -> None:
    found = surge_bracket.bracket(180e5)
    assert (found.low, found.high) == (180e5, 180e5)
    assert [c.name for c in found.contributions] == ["working pressure"]
