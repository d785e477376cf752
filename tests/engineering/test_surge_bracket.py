"""Does the bracket of the surge name each cause with the pressures worked out by hand?"""

from __future__ import annotations

import pytest

from interview.engineering.errors import EngineeringError
from interview.engineering.surge_bracket import Contribution, StoppedMass, SurgeBracket, bracket

STEADY = 180e5


def cause(found: SurgeBracket, name: str) -> Contribution:
    return next(c for c in found.contributions if c.name == name)


def test_relief_override_runs_from_the_setting_to_full_flow() -> None:
    for kind, share in (("pilot", 0.15), ("direct", 0.50), ("unknown", 0.50)):
        relief = cause(bracket(STEADY, relief_setting=210e5, relief_kind=kind), "relief override")
        assert relief.low == 210e5
        assert relief.high == pytest.approx(210e5 * (1 + share))


def test_water_hammer_of_an_unknown_closing_runs_from_nothing_to_joukowsky() -> None:
    hammer = cause(bracket(STEADY, velocity=5.0), "water hammer")
    assert hammer.low == STEADY
    # 900 kg/m³ x 1300 m/s x 5 m/s: the widest wave speed of a line nobody knows
    assert hammer.high == pytest.approx(STEADY + 58.5e5)


def test_water_hammer_of_a_timed_closing_is_reduced_on_both_sides() -> None:
    hammer = cause(bracket(STEADY, velocity=5.0, line="wire", length=3.0, closing_time=(0.02, 0.06)), "water hammer")
    # 2 L/c is 6 ms at 1000 m/s and 12 ms at 500 m/s: rho dv 2L/t in either case, the wave speed cancelling out
    assert hammer.low == pytest.approx(STEADY + 820.0 * 5.0 * 6.0 / 0.06)
    assert hammer.high == pytest.approx(STEADY + 900.0 * 5.0 * 6.0 / 0.02)


def test_a_stopped_mass_against_hose_and_oil() -> None:
    mass = StoppedMass(1000.0, 0.2, 2e-3)
    found = cause(bracket(STEADY, line="wire", stopped_mass=mass), "moving mass stopped")
    # stiffest: oil 1.7 GPa in hose of 1.0 GPa, 0.6296 GPa together; 0.2 sqrt(1000 x 0.6296e9 / 2e-3) = 35.49 bar
    assert found.low == STEADY
    assert found.high == pytest.approx(STEADY + 35.49e5, rel=1e-4)
    rigid = cause(bracket(STEADY, line="rigid", stopped_mass=mass), "moving mass stopped")
    assert rigid.high == pytest.approx(STEADY + 58.31e5, rel=1e-4)  # oil alone


def test_trapped_oil_may_start_from_nothing_or_from_the_working_pressure() -> None:
    rigid = cause(bracket(STEADY, line="rigid", trapped_warming_k=30.0), "trapped oil warmed")
    assert rigid.low == pytest.approx(0.00065 * 30 * 1.4e9)
    assert rigid.high == pytest.approx(STEADY + 0.00075 * 30 * 1.7e9)
    unknown = cause(bracket(STEADY, trapped_warming_k=30.0), "trapped oil warmed")
    assert unknown.high == rigid.high and unknown.low < rigid.low
    wire = cause(bracket(STEADY, line="wire", trapped_warming_k=30.0), "trapped oil warmed")
    assert wire.low < rigid.low and wire.high < rigid.high


def test_an_intensifier_and_a_blocked_rod_side_act_on_the_highest_inlet() -> None:
    found = bracket(STEADY, relief_setting=200e5, relief_kind="pilot", intensifier_ratio=2.0, rod_side=(0.08, 0.056))
    assert cause(found, "intensifier").high == pytest.approx(460e5)
    assert cause(found, "blocked rod side").high == pytest.approx(230e5 * 1.9608, rel=1e-4)
    assert found.governing.name == "intensifier"
    assert (found.low, found.high) == (200e5, cause(found, "intensifier").high)


def test_a_relief_valve_set_below_the_working_pressure_does_not_lower_the_surge() -> None:
    found = bracket(STEADY, relief_setting=150e5, relief_kind="pilot")
    assert found.low == found.high == STEADY


@pytest.mark.parametrize(
    ("inputs", "words"),
    [
        ({"relief_kind": "spring"}, "pilot, direct, unknown"),
        ({"line": "copper"}, "wire, textile, rigid, unknown"),
        ({"wave_speed": (900.0, 300.0)}, "wave speed has to run from a lower to a higher"),
        ({"velocity": 5.0, "length": 3.0, "closing_time": (0.0, 0.1)}, "closing time"),
    ],
)
def test_bad_input_is_named(inputs: dict[str, object], words: str) -> None:
    with pytest.raises(EngineeringError, match=words):
        bracket(STEADY, **inputs)  # type: ignore[arg-type]
