"""Where nothing passes: is the nearest the nearest, is the right part blamed, and is it said where to go?

A house convention: fewest failed checks, then the bore given, then the least missing as a share of the need.
"""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from selection_jobs import jobs, judged, plain, said, shipped, small, standing

from interview.dialogue.review import headline, nearest
from interview.dialogue.wording import hose_name
from interview.selection.finding import Verdict
from interview.selection.judge import Bench, judge, known_with

NO_ENDS = {f"end_{e}_{w}": ... for e in "ab" for w in ("family", "size", "gender", "form")}


def test_too_high_a_pressure_names_the_strongest_hose_of_the_bore(on: Bench) -> None:
    job = plain(bore=8, flow_rate=25, working_pressure=600, surge_pressure=700, bend_radius_available=..., **NO_ENDS)
    stands = standing(on, **job)
    judgement = stands.judgement
    assert stands.outcome == "unmatched"
    found = on.candidates[judgement.least_failed]
    of_the_bore = [
        c
        for i, c in enumerate(on.candidates)
        if c.bore == 8 and [f.check for f in judgement.failing(i)] == ["pressure"]
    ]
    assert found.bore == 8
    assert found.size.wp_select == max(c.size.wp_select for c in of_the_bore) >= 400e5
    told = nearest(stands, "metric")
    assert told.startswith(f"Nearest: {hose_name(found, 'metric')}; blocked: ")
    assert "Nothing in the tables carries 700 bar (10,153 psi)." in told
    assert "the shop's shelf with the maker's document and its date; else ask the machine's maker" in told
    assert headline(stands, "metric") == "No hose of the tables passes."


def test_a_pressure_that_only_other_bores_carry_is_said_of_the_size(on: Bench) -> None:
    """420 bar is carried at half an inch (six spirals) and by nothing at 2 1/2."""
    big = max(c.bore for c in on.candidates)
    stands = standing(on, **plain(bore=big, flow_rate=..., working_pressure=400, surge_pressure=420, **NO_ENDS))
    assert stands.outcome == "unmatched"
    assert "at this size" in nearest(stands, "metric")
    fits = judged(on, **plain(bore=8, working_pressure=400, surge_pressure=420, bend_radius_available=..., **NO_ENDS))
    assert fits.carried_by_none() == "" and fits.standing


def test_ends_that_block_are_blamed_and_not_the_hose(on: Bench) -> None:
    """Face seal -8 stands 414 bar at most; a maker's 150 bar is what stops a job of 205."""
    stands = standing(on, **plain(end_a_rating=150))
    assert stands.outcome == "unmatched" and stands.judgement.ends_block
    assert "hose of the tables" not in headline(stands, "metric") and "ends" in headline(stands, "metric")
    told = nearest(stands, "metric")
    assert "would do; blocked: end A stands only 150 bar" in told
    assert "Nothing in the tables carries" not in told


def test_ends_and_hose_that_block_are_both_named(on: Bench) -> None:
    """The ends fail every hose alike: they do not hide which hose comes nearest."""
    job = plain(bore=8, working_pressure=600, surge_pressure=700, end_a_rating=150, bend_radius_available=...)
    stands = standing(on, **job)
    assert not stands.judgement.ends_block
    best = on.candidates[stands.judgement.least_failed]
    alone = standing(on, **plain(**{**job, **NO_ENDS, "end_a_rating": ...}))
    assert best.id == on.candidates[alone.judgement.least_failed].id
    told = nearest(stands, "metric")
    assert "the highest spike 700 bar" in told and "end A stands only" in told


@pytest.mark.parametrize("air", [-60, -70])
def test_cold_that_none_stands_names_the_one_that_stands_most_of_it(on: Bench, air: int) -> None:
    stands = standing(on, **plain(ambient_temperature_min=air, fluid_temperature_min=air, bend_radius_available=...))
    judgement = stands.judgement
    found = judgement.least_failed
    rivals = [
        i
        for i in range(len(on.candidates))
        if {f.check for f in judgement.failing(i)} == {f.check for f in judgement.failing(found)}
        and on.candidates[i].bore == on.candidates[found].bore
    ]
    floors = {i: on.candidates[i].windows["oil"] for i in rivals}
    low = {i: w.low for i, w in floors.items() if w is not None}
    assert low[found] == min(low.values())


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_nothing_fails_less_than_the_nearest(job: dict[str, object]) -> None:
    on = small(shipped(), 5)
    judgement = judge(known_with(said(**job), on), on)
    found = judgement.least_failed
    fewest = min(len(judgement.failing(i)) for i in range(len(on.candidates)))
    assert len(judgement.failing(found)) == fewest
    assert all(f.verdict is Verdict.FAILS for f in judgement.failing(found))
    if judgement.ends_block:
        assert {f.topic for f in judgement.failing(found)} == {"ends"} and not judgement.standing
