"""Pressure, vacuum, temperature, medium: fits, fails, open, turning at the edge; each limit with its source."""

from __future__ import annotations

import pytest
from selection_jobs import PSI, answer, finding, judged, plain

from interview.facts import Fact
from interview.selection.candidates import twin_group, twins_of
from interview.selection.finding import Finding, Remark, Verdict
from interview.selection.judge import Bench

FITS, FAILS, OPEN = Verdict.FITS, Verdict.FAILS, Verdict.OPEN


# ---- pressure ------------------------------------------------------------------------------------------------------


def pressure_of(on: Bench, construction: str, bore: float = 8, **facts: object) -> Finding:
    return finding(judged(on, line_function="pressure", **facts), "pressure", construction, bore)


def test_a_need_in_psi_meets_the_psi_row(on: Bench) -> None:
    """A 3,000 psi need fits a 3,000 psi hose though 206.84 bar and the rounded 207 or 210 bar of the row differ.

    SAE J517 100R17 is the 3,000 psi class in all sizes (SAE J517 JUL2003 scope).
    """
    row = next(s for s in on.tables.constructions["saej517-100r17"].sizes if s.bore == 8)
    assert row.wp_psi_stated and row.wp_psi == 3000
    need = Fact("surge_pressure", 3000 * PSI, unit="psi")
    found = pressure_of(
        on, "saej517-100r17", working_pressure=Fact("working_pressure", 2500 * PSI, unit="psi"), surge_pressure=need
    )
    assert found.verdict is FITS
    assert found.thin and found.margin == pytest.approx(0)


@pytest.mark.parametrize(
    ("factor", "verdict", "thin"),
    [
        (0.90, FITS, False),
        (0.96, FITS, True),
        (1.0, FITS, True),
        (1.00499, FITS, True),
        (1.00501, FAILS, False),
        (1.1, FAILS, False),
    ],
)
def test_the_edges_of_a_rating(on: Bench, factor: float, verdict: Verdict, thin: bool) -> None:
    """House rules: 0.5 % is the rounding of printed pairs, fits as thin; below 5 % to spare is thin; above fails."""
    row = next(s for s in on.tables.constructions["en853-2sn"].sizes if s.bore == 8)
    bar = row.wp_select * factor / 1e5
    found = pressure_of(on, "en853-2sn", working_pressure=bar / 2, surge_pressure=bar)
    assert (found.verdict, found.thin) == (verdict, thin)
    assert found.have == row.wp_select
    assert found.evidence is not None and found.evidence.source


def test_the_spike_decides_not_the_steady_pressure(on: Bench) -> None:
    """SAE J517 scope: the rating shall be at or above the highest peak."""
    assert pressure_of(on, "en853-1sn", working_pressure=150, surge_pressure=155).verdict is FITS
    found = pressure_of(on, "en853-1sn", working_pressure=150, surge_pressure=220)
    assert (found.verdict, found.reason) == (FAILS, "surge_pressure")
    assert pressure_of(on, "en853-1sn", working_pressure=220, surge_pressure=150).reason == "working_pressure"


def test_a_spike_nobody_gave_is_open_above_and_never_a_pass(on: Bench) -> None:
    found = pressure_of(on, "en856-4sp", working_pressure=50)
    assert found.verdict is OPEN and found.hangs_on == ("surge_pressure",)
    assert pressure_of(on, "en853-1sn", working_pressure=300).verdict is FAILS


def test_a_pressure_known_as_at_most_condemns_no_hose(on: Bench) -> None:
    """The house rule multiplies the highest setting; of "at most 250 bar" only the high side is a bound."""
    job = {"working_pressure": (None, 250), "surge_pressure": None, "shock": "severe"}
    assert pressure_of(on, "en853-1sn", **job).verdict is OPEN
    assert pressure_of(on, "en853-1sn", **{**job, "working_pressure": 250}).verdict is FAILS


def test_a_range_that_straddles_the_rating_is_open(on: Bench) -> None:
    row = next(s for s in on.tables.constructions["en853-2sn"].sizes if s.bore == 8)
    bar = row.wp_select / 1e5
    for low, high, verdict in (
        (bar - 50, bar - 10, FITS),
        (bar - 10, bar + 10, OPEN),
        (bar + 10, bar + 20, FAILS),
        (None, bar - 1, FITS),
        (bar + 10, None, FAILS),
        (bar - 10, None, OPEN),
    ):
        assert pressure_of(on, "en853-2sn", working_pressure=10, surge_pressure=(low, high)).verdict is verdict
    about = Fact("surge_pressure", 0.95 * row.wp_select, hedged=True)
    assert pressure_of(on, "en853-2sn", working_pressure=10, surge_pressure=about).verdict is OPEN


def test_ptfe_loses_rating_with_heat_and_is_never_a_pass_hot(on: Bench) -> None:
    cold = judged(on, **plain(bore=8, working_pressure=20, surge_pressure=25, fluid_temperature_max=60))
    hot = judged(on, **plain(bore=8, working_pressure=20, surge_pressure=25, fluid_temperature_max=150))
    assert finding(cold, "pressure", "saej517-100r14a").verdict is FITS
    assert finding(hot, "pressure", "saej517-100r14a").verdict is OPEN


# ---- vacuum --------------------------------------------------------------------------------------------------------


def test_no_vacuum_rating_counts_as_none(on: Bench) -> None:
    """A null is unknown, never zero: a line that pulls fails on it (house rule)."""
    rated = on.tables.constructions["saej517-100r4"].vacuum[24]
    pulled = judged(on, line_function="suction", vacuum=0.3)
    assert finding(pulled, "vacuum", "en853-2sn", 24).verdict is FAILS
    assert finding(pulled, "vacuum", "saej517-100r4", 24).verdict is FITS
    edge = judged(on, line_function="suction", vacuum=rated / 1e5)
    assert finding(edge, "vacuum", "saej517-100r4", 24).verdict is FITS
    deeper = judged(on, line_function="suction", vacuum=rated / 1e5 + 0.01)
    assert finding(deeper, "vacuum", "saej517-100r4", 24).verdict is FAILS
    unknown = judged(on, line_function="suction")
    assert finding(unknown, "vacuum", "saej517-100r4", 24).verdict is OPEN


def test_a_line_that_does_not_pull_needs_no_vacuum_rating(on: Bench) -> None:
    assert answer(judged(on, line_function="return"), "vacuum", "en853-2sn") is None
    assert answer(judged(on, line_function="return", vacuum=0), "vacuum", "en853-2sn") is None
    assert finding(judged(on, line_function="return", vacuum=0.1), "vacuum", "en853-2sn").verdict is FAILS
    assert finding(judged(on, line_function="return", vacuum=(None, 0.1)), "vacuum", "en853-2sn").verdict is OPEN


# ---- temperature ---------------------------------------------------------------------------------------------------

EN_TYPES = (
    "en853-1sn",
    "en853-1st",
    "en853-2sn",
    "en853-2st",
    "en854-1te",
    "en854-2te",
    "en854-3te",
    "en856-4sp",
    "en856-4sh",
    "en857-1sc",
    "en857-2sc",
)


def sizes_of(on: Bench, construction: str) -> float:
    return on.tables.constructions[construction].sizes[0].bore


@pytest.mark.parametrize(
    ("constructions", "medium", "low", "high"),
    [
        # EN 853:2015, EN 854:2015, EN 856:2015, EN 857:2015, scope: -40 to +100 for oil, -40 to +70 for water-based
        # fluids, 0 to +70 for water.
        (EN_TYPES, "hm", -40, 100),
        (EN_TYPES, "water", 0, 70),
        # EN 856:2015 scope: types R12 and R13 up to +120 with oil.
        (("en856-r12", "en856-r13"), "hm", -40, 120),
        # ISO 3949:2020 scope: -40 to +93 for oil, 0 to +60 for water and water-based fluids.
        (("iso3949-r7", "iso3949-r8", "iso3949-r18"), "hm", -40, 93),
        (("iso3949-r7", "iso3949-r8", "iso3949-r18"), "hfc", 0, 60),
    ],
)
def test_the_windows_are_those_of_the_scope_statements(
    on: Bench, constructions: tuple[str, ...], medium: str, low: int, high: int
) -> None:
    for name in constructions:
        bore = sizes_of(on, name)
        for temperature, verdict in ((high, FITS), (high + 0.1, FAILS)):
            found = finding(judged(on, medium=medium, fluid_temperature_max=temperature), "fluid_hot", name, bore)
            assert found.verdict is verdict, (name, temperature)
        for temperature, verdict in ((low, FITS), (low - 0.1, FAILS)):
            found = finding(judged(on, medium=medium, fluid_temperature_min=temperature), "fluid_cold", name, bore)
            assert found.verdict is verdict, (name, temperature)


def test_the_water_based_window_of_the_european_standards(on: Bench) -> None:
    """EN 853:2015 scope: -40 to +70 for water-based fluids; a twin's narrower window binds."""
    for name in ("en853-2sn", "en856-4sp", "en854-2te"):
        window = next(c for c in on.candidates if c.id == name).windows["water_based"]
        assert window is not None and (window.low, window.high) == (-40, 70)


def test_the_surroundings_have_a_limit_of_their_own(on: Bench) -> None:
    """EN 853:2015 scope: not to be operated outside the limits; cool oil does not excuse hot air."""
    job = judged(on, medium="hm", fluid_temperature_max=55, ambient_temperature_max=135, ambient_temperature_min=5)
    assert finding(job, "fluid_hot", "en853-2sn").verdict is FITS
    assert finding(job, "ambient_hot", "en853-2sn").verdict is FAILS
    for degrees, verdict in ((100, FITS), (100.1, FAILS)):
        assert (
            finding(judged(on, medium="hm", ambient_temperature_max=degrees), "ambient_hot", "en853-2sn").verdict
            is verdict
        )
    for degrees, verdict in ((-40, FITS), (-40.1, FAILS)):
        assert (
            finding(judged(on, medium="hm", ambient_temperature_min=degrees), "ambient_cold", "en853-2sn").verdict
            is verdict
        )


@pytest.mark.parametrize(
    ("need", "verdict"),
    [
        ((90, 100), FITS),
        ((90, 110), OPEN),
        ((101, 110), FAILS),
        ((90, None), OPEN),
        ((None, 90), FITS),
        ((101, None), FAILS),
    ],
)
def test_a_temperature_range_in_three_values(on: Bench, need: object, verdict: Verdict) -> None:
    found = finding(judged(on, medium="hm", fluid_temperature_max=need), "fluid_hot", "en853-2sn")
    assert found.verdict is verdict
    assert found.hangs_on == (("fluid_temperature_max",) if verdict is OPEN else ())


def test_a_missing_window_is_open_within_oil_and_fails_beyond_it(on: Bench) -> None:
    job = judged(on, medium="water", fluid_temperature_max=60)
    assert finding(job, "fluid_hot", "saej517-100r2at").verdict in (OPEN, FITS)
    assert finding(judged(on, medium="water", fluid_temperature_max=60), "fluid_hot", "saej517-100r3").verdict is OPEN
    assert finding(judged(on, medium="water", fluid_temperature_max=101), "fluid_hot", "saej517-100r3").verdict is FAILS


def test_the_fluid_s_own_limit_is_advice_for_mineral_oil_and_a_check_for_others(on: Bench) -> None:
    oil = answer(judged(on, medium="hm", fluid_temperature_max=95), "fluid_limit", "en853-2sn")
    assert isinstance(oil, Remark)
    assert answer(judged(on, medium="hm", fluid_temperature_max=60), "fluid_limit", "en853-2sn") is None
    limit = on.tables.fluids["hfc"].temperature
    assert limit is not None
    for degrees, verdict in ((limit.high, FITS), (limit.high + 1, FAILS)):
        assert (
            finding(judged(on, medium="hfc", fluid_temperature_max=degrees), "fluid_limit", "en853-2sn").verdict
            is verdict
        )
    assert finding(judged(on, medium="hfc"), "fluid_limit", "en853-2sn").verdict is OPEN


# ---- medium --------------------------------------------------------------------------------------------------------


def test_esters_fail_on_the_european_types_and_on_their_twins(on: Bench) -> None:
    """EN 853, 854, 856, 857:2015 scope, note 1: castor-oil and ester based fluids are excluded; no twin helps."""
    for medium in ("hetg", "hees"):
        job = judged(on, medium=medium)
        for name in (
            *EN_TYPES,
            "saej517-100r1at",
            "saej517-100r2at",
            "iso1436-r1ats",
            "iso1436-r2ats",
            "saej517-100r16",
            "saej517-100r12",
        ):
            assert finding(job, "medium", name, sizes_of(on, name)).verdict is FAILS, name
        twin = finding(job, "medium", "saej517-100r2at")
        assert twin.data["by"] == "en853-2sn"
        assert finding(job, "medium", "iso3949-r7").verdict is not FAILS


def test_an_exclusion_binds_every_pair_of_twins(on: Bench) -> None:
    """Both ways over every pair of the tables: what one excludes, none of the two lists as fitting."""
    pairs = {(c.id, t.id) for c in on.tables.constructions.values() for t in twins_of(c, on.tables)}
    assert len(pairs) > 20
    by_id = {c.id: c for c in on.candidates}
    for one, other in pairs:
        assert (other, one) in pairs
        assert set(on.tables.constructions[one].excluded) <= set(by_id[other].excluded), (one, other)
        assert one in twin_group(other, on.tables)


def test_a_temperature_cap_binds_every_pair_of_twins(on: Bench) -> None:
    by_id = {c.id: c for c in on.candidates}
    for construction in on.tables.constructions.values():
        for twin in twins_of(construction, on.tables):
            for family in ("oil", "water_based", "water"):
                own, theirs = by_id[construction.id].windows[family], twin.temperature.get(family)
                if own is not None and theirs is not None:
                    assert own.high <= theirs.high and own.low >= theirs.low, (construction.id, twin.id, family)


def test_what_a_standard_does_not_list_is_open(on: Bench) -> None:
    found = finding(judged(on, medium="hepg"), "medium", "en853-2sn")
    assert (found.verdict, found.reason) == (OPEN, "medium_not_listed")
    assert finding(judged(on, medium="hm"), "medium", "en853-2sn").verdict is FITS
    unknown = finding(judged(on), "medium", "en853-2sn")
    assert (unknown.verdict, unknown.hangs_on) == (OPEN, ("medium",))
    assert finding(judged(on, medium=None), "medium", "en853-2sn").verdict is OPEN


def test_tractor_oil_is_mineral_base_and_says_so(on: Bench) -> None:
    found = finding(judged(on, medium="utto"), "medium", "en853-2sn")
    assert found.verdict is FITS and found.remark
