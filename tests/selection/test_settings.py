"""What the line's own settings put into it: no spike that somebody names makes these less.

The relief valve bounds what the line can stand at; a blocked rod side multiplies it by cap area over annulus area
(geometry: pi D^2/4 over pi (D^2 - d^2)/4).
"""

from __future__ import annotations

import pytest
from selection_jobs import finding, judged, plain, said, standing

from interview.facts import Known
from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.settings import pressure_of_settings

BAR = 1e5
ROD = {"cylinder_bore": 100, "cylinder_rod": 70, "cylinder_side": "rod", "throttled": True}
RATIO = 100**2 / (100**2 - 70**2)  # 1.961


def need(on: Bench, **facts: object) -> tuple[float | None, float | None]:
    return judged(on, **plain(**facts)).needs.pressure


def test_the_relief_setting_is_required_of_the_hose_whatever_the_spike(on: Bench) -> None:
    """180 bar, spikes to 205, and a relief valve at 300: when it stalls it stands at 300. 2SN at -10 bears 250 bar."""
    job = standing(on, **plain(relief_setting=300))
    assert job.judgement.needs.pressure == (300 * BAR, 300 * BAR)
    failed = finding(job.judgement, "pressure", "en853-2sn", 10)
    assert (failed.verdict, failed.reason) == (Verdict.FAILS, "relief_setting")
    assert job.preferred is None or on.candidates[job.preferred.index].size.wp_select >= 300 * BAR


def test_a_lower_relief_setting_takes_nothing_off_the_spike(on: Bench) -> None:
    assert need(on, relief_setting=190) == need(on) == (205 * BAR, 205 * BAR)


def test_a_throttled_rod_side_multiplies_a_named_spike_away(on: Bench) -> None:
    """240 bar on 100 over 70 mm: 470.6 bar, by hand 240 x 10,000 / 5,100."""
    low, high = need(on, relief_setting=240, **ROD)
    assert low == high == pytest.approx(240 * RATIO * BAR) == pytest.approx(470.6 * BAR, rel=1e-4)
    assert need(on, relief_setting=240, **{**ROD, "throttled": False}) == (240 * BAR, 240 * BAR)
    assert need(on, relief_setting=240, **{**ROD, "cylinder_side": "cap"}) == (240 * BAR, 240 * BAR)


def test_without_a_relief_setting_the_steady_pressure_is_what_is_multiplied(on: Bench) -> None:
    assert need(on, **ROD)[1] == pytest.approx(180 * RATIO * BAR)


@pytest.mark.parametrize("line", ["return", "suction", "case_drain"])
def test_the_main_relief_valve_is_not_in_these_lines(line: str) -> None:
    assert pressure_of_settings(said(line_function=line, relief_setting=300, **ROD)) == ((None, None), "")


def test_a_spike_nobody_knows_stays_open_above_the_setting(on: Bench) -> None:
    """Open above: the setting is a floor, never the spike itself."""
    assert pressure_of_settings(Known()) == ((None, None), "")
    low, high = need(on, relief_setting=300, surge_pressure=...)
    assert (low, high) == (300 * BAR, None)


def test_a_setting_known_as_a_range_stays_one(on: Bench) -> None:
    assert need(on, relief_setting=(210, 300)) == (210 * BAR, 300 * BAR)
    assert need(on, relief_setting=(206, None)) == (206 * BAR, None)  # "at least": open above
    assert finding(judged(on, **plain(relief_setting=(210, 300))), "pressure", "en853-2sn", 10).verdict is Verdict.OPEN
