"""Cases an outside examiner brought: caps of twins, water, cold fluids, assumed limits, grave bursts, home units."""

from __future__ import annotations

import pytest
from selection_jobs import PSI, finding, judged, plain, standing

from interview.facts import Fact
from interview.selection.finding import Verdict
from interview.selection.judge import Bench

FITS, FAILS, OPEN = Verdict.FITS, Verdict.FAILS, Verdict.OPEN


@pytest.mark.parametrize(("temperature", "verdict"), [(60, FITS), (65, FAILS)])
def test_a_twins_cap_binds_where_its_own_was_not_seen(on: Bench, temperature: float, verdict: Verdict) -> None:
    """ISO 3949:2020 scope: water 0 to 60 degC; SAE J517 prints no limit for water in 100R8, its counterpart."""
    found = finding(judged(on, medium="water", fluid_temperature_max=temperature), "fluid_hot", "saej517-100r8")
    assert found.verdict is verdict


@pytest.mark.parametrize(("construction", "verdict"), [("en853-2sn", FITS), ("saej517-100r5", OPEN)])
def test_water_is_listed_only_where_a_standard_names_it(on: Bench, construction: str, verdict: Verdict) -> None:
    """EN 853:2015 scope names water beside the ISO 6743-4 fluids; of 100R5 no statement on water was seen."""
    bore = 8 if construction.startswith("en") else 6.5
    assert finding(judged(on, medium="water"), "medium", construction, bore).verdict is verdict


def test_hs_may_be_an_ester_and_needs_a_statement(on: Bench) -> None:
    """ISO 6743-4 HS names a use, not a base; EN 853:2015 note 1 excludes esters."""
    assert finding(judged(on, medium="hs"), "medium", "en853-2sn").verdict is OPEN
    settled = judged(on, medium="hs", medium_statement="hose maker, letter of 2 March 2026: PAO base suits")
    assert finding(settled, "medium", "en853-2sn").verdict is FITS


@pytest.mark.parametrize(
    ("fact", "cold", "verdict"),
    [
        ("fluid_temperature_min", -10, FAILS),
        ("ambient_temperature_min", -10, OPEN),
        ("ambient_temperature_min", 10, FITS),
    ],
)
def test_the_cold_end_of_a_fluid_that_freezes(on: Bench, fact: str, cold: float, verdict: Verdict) -> None:
    """HFA emulsion from 5 degC (trade note); taken from the air alone it is open: the machine may be kept warm."""
    now = judged(on, medium="hfae", fluid_temperature_max=45, **{fact: cold})
    assert finding(now, "fluid_floor", "en853-2sn").verdict is verdict
    assert standing(on, **plain(medium="hfae", fluid_temperature_min=-10)).outcome == "unmatched"


def test_an_inlet_limit_nobody_stated_condemns_no_suction_hose(on: Bench) -> None:
    """0.713 bar absolute by the gauge against 0.8: open where 0.8 is the house rule's, fails where it was stated."""
    pulls = {"line_function": "suction", "bore": 24, "vacuum": 0.3, "flow_rate": 60}
    assumed = finding(judged(on, **pulls, pump_inlet_limit=None), "inlet", "saej517-100r4", 24)
    assert (assumed.verdict, assumed.hangs_on) == (OPEN, ("pump_inlet_limit",))
    stated = judged(on, **pulls, pump_inlet_limit=0.8)
    assert finding(stated, "inlet", "saej517-100r4", 24).verdict is FAILS
    assert finding(stated, "inlet", "saej517-100r4", 32).verdict is OPEN, "read at the old bore"


@pytest.mark.parametrize("lost", ["brake_lost", "steering_lost"])
def test_a_burst_that_loses_brake_or_steering_is_never_specified(on: Bench, lost: str) -> None:
    now = standing(on, **plain(burst_consequence=[lost]))
    assert now.outcome == "provisional" and "burst_consequence" in now.open and now.ready_for != "build"


def test_sae_comes_first_for_who_speaks_psi_and_fahrenheit(on: Bench) -> None:
    """House rules: by the units the user speaks."""
    us = {
        "working_pressure": Fact("", 2500 * PSI, unit="psi"),
        "surge_pressure": Fact("", 3200 * PSI, unit="psi"),
        "fluid_temperature_max": Fact("", 82.2, unit="°F"),
        "ambient_temperature_max": Fact("", 37.8, unit="°F"),
    }
    for changes, first in ((us, "saej517-100r16"), ({}, "en857-2sc")):
        now = standing(on, **plain(**changes))
        assert now.preferred is not None and on.candidates[now.preferred.index].id == first
