"""What must hold of every job? Narrowing never revives, declarations are true, a trial tells what judging all would."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from selection_jobs import JOB_FACTS, PLAIN, fact, jobs, plain, said, shipped, small, value_of

from interview.catalogue import CATALOGUE, Kind
from interview.facts import Known
from interview.selection.checks import CHECKS
from interview.selection.finding import Verdict, against_floor, against_limit
from interview.selection.judge import Bench, Judgement, changed_facts, judge, known_with, what_if

FITS, FAILS, OPEN = Verdict.FITS, Verdict.FAILS, Verdict.OPEN
BASES: dict[str, dict[str, object]] = {
    "plain": PLAIN,
    "nothing known": {},
    "suction": plain(
        line_function="suction",
        vacuum=0.2,
        working_pressure=...,
        surge_pressure=...,
        line_length=2,
        lift=0.5,
        altitude=100,
        pump_inlet_limit=0.8,
        bore=24,
    ),
    "cycles, cold water-glycol": plain(
        medium="hfc",
        cycle_rate=600,
        hours_per_year=3000,
        wanted_life=5,
        wear="rubbing",
        ambient_temperature_min=-30,
        end_a_seal="NBR",
        end_a_metal="STEEL_ZN",
    ),
    "diesel, power line, straight run": plain(
        medium="diesel",
        near_power_line=True,
        clearance_geometry="straight_run",
        port_distance=1400,
        end_b_rating=160,
        people_near=True,
        motion="travelling",
    ),
}


def test_three_values_of_a_limit_narrow_to_fits_or_fails() -> None:
    assert against_limit(1.0, 1.0, 1.0) is FITS
    assert against_limit(0.0, 1.0, 1.0) is FITS
    assert against_limit(0.5, 1.5, 1.0) is OPEN
    assert against_limit(1.1, None, 1.0) is FAILS
    assert against_limit(None, None, 1.0) is OPEN
    assert against_limit(1.005, 1.005, 1.0, grace=0.005) is FITS
    assert against_floor(1.0, 1.0, 1.0) is FITS
    assert against_floor(0.5, 1.5, 1.0) is OPEN
    assert against_floor(None, 0.9, 1.0) is FAILS
    assert against_floor(None, None, 1.0) is OPEN


@st.composite
def narrowed_pairs(draw: st.DrawFn) -> tuple[dict[str, object], dict[str, object], str]:
    """A job, and the same job with one range made narrower (or fixed to one value within it)."""
    job = draw(jobs())
    spans = sorted(n for n, v in job.items() if isinstance(v, tuple))
    name = (
        draw(st.sampled_from(spans))
        if spans
        else draw(st.sampled_from(("working_pressure", "flow_rate", "fluid_temperature_max")))
    )
    if not spans:
        low, high = sorted((draw(st.floats(1, 100)), draw(st.floats(1, 100))))
        job[name] = (low, high)
    low, high = job[name]  # type: ignore[misc]
    floor = (high or 0) - 300.0 if low is None else low
    ceiling = floor + 3000.0 if high is None else high
    within = st.floats(floor + 0.0, ceiling + 0.0)
    inner = sorted((draw(within), draw(within)))
    if draw(st.booleans()):
        inner = [inner[0], inner[0]]
    return job, {**job, name: (inner[0], inner[1])}, name


@settings(max_examples=150, deadline=None)
@given(narrowed_pairs())
def test_narrowing_a_range_never_revives_a_hose_nor_reopens_one_that_fits(
    pair: tuple[dict[str, object], dict[str, object], str],
) -> None:
    wide, narrow, name = pair
    bench = small(shipped())
    before = judge(known_with(said(**wide), bench), bench)
    after = judge(known_with(said(**narrow), bench), bench)
    for i, candidate in enumerate(bench.candidates):
        was, now = before.verdict(i), after.verdict(i)
        if was is FAILS:
            assert now is FAILS, f"{candidate.id} {candidate.bore} revived by {name} {wide[name]} -> {narrow[name]}"
        if was is FITS:
            assert now is FITS, f"{candidate.id} {candidate.bore} reopened by {name} {wide[name]} -> {narrow[name]}"


MATTERING = (
    "flow_rate",
    "bore_proven",
    "motion",
    "bend_radius_available",
    "near_power_line",
    "cycle_rate",
    "bend_plane",
    "medium",
    "surge_pressure",
    "working_pressure",
    "fluid_temperature_max",
    "ambient_temperature_max",
    "ambient_temperature_min",
)


@settings(max_examples=150, deadline=None)
@given(jobs(), st.sampled_from(MATTERING), st.data())
def test_answering_what_was_never_answered_never_revives_a_hose(
    job: dict[str, object], name: str, data: st.DataObject
) -> None:
    """The agenda tries an unanswered fact on the standing candidates only; this is why it may."""
    for gone in (name, "pump_flow", "relief_setting", "surroundings"):  # these would be overridden, not narrowed
        job.pop(gone, None)
    bench = small(shipped())
    before = judge(known_with(said(**job), bench), bench)
    after = judge(known_with(said(**{**job, name: data.draw(value_of(name))}), bench), bench)
    revived = [
        (c.id, c.bore)
        for i, c in enumerate(bench.candidates)
        if before.verdict(i) is FAILS and after.verdict(i) is not FAILS
    ]
    assert revived == []


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("fluid_temperature_max", 230),
        ("ambient_temperature_max", 230),
        ("fluid_temperature_min", -60),
        ("ambient_temperature_min", -70),
    ],
)
def test_no_medium_revives_a_hose_that_heat_or_cold_failed(on: Bench, name: str, value: float) -> None:
    """A hose without a printed window for water may not come back as "open" where even the window for oil is left."""
    before = judge(known_with(said(**{name: value}), on), on)
    assert before.counts()[2] > 300
    for medium in on.tables.fluids:
        after = judge(known_with(said(**{name: value, "medium": medium}), on), on, before)
        revived = [
            (c.id, c.bore)
            for i, c in enumerate(on.candidates)
            if before.verdict(i) is FAILS and after.verdict(i) is not FAILS
        ]
        assert revived == [], medium


def trials(name: str) -> list[object]:
    spec = CATALOGUE[name]
    if spec.kind is Kind.QUANTITY:
        low, high = spec.plausible or (0.0, 1.0)
        return [low, high, (low + high) / 2, None]
    if spec.kind is Kind.FLAG:
        return [True, False, None]
    if spec.kind is Kind.CHOICE:
        return [*spec.choices, None]
    if spec.kind is Kind.MANY:
        return [[spec.choices[0]], [spec.choices[-1]], [], None]
    if name in JOB_FACTS:
        options = {
            "medium": ["hm", "water", "hetg", "diesel"],
            "seal": ["NBR", "FKM"],
            "metal": ["STEEL_ZN", "BRASS"],
            "family": ["flare37", "orfs", "other"],
            "size": ["-6", "-10", "1/2"],
        }[name.split("_")[-1]]
        return [*options, None]
    return ["1SN", None]


def answers_of(judgement: Judgement, check: int) -> list[object]:
    row = judgement.rows[check]
    return [row.answer(i) for i in range(len(judgement.bench.candidates))]


@pytest.mark.parametrize("base", sorted(BASES))
def test_a_check_rests_on_what_it_declares_and_on_nothing_else(on: Bench, base: str) -> None:
    """Every fact of the catalogue at its extremes: where no declared fact changed, the answer must not.

    This guards the agenda: a fact is tried only through the checks that rest on it.
    """
    bench = small(on, 11)
    start = known_with(said(**BASES[base]), bench)
    before = judge(start, bench)
    undeclared: dict[str, set[str]] = {}
    for name in CATALOGUE:
        for value in trials(name):
            known = known_with(start_said(base).with_fact(fact(name, value)), bench)
            changed = changed_facts(start, known)
            after = judge(known, bench)
            for k, check in enumerate(CHECKS):
                if not (check.rests_on & changed) and answers_of(before, k) != answers_of(after, k):
                    undeclared.setdefault(check.id, set()).add(name)
    assert undeclared == {}


def start_said(base: str) -> Known:
    return said(**BASES[base])


@settings(max_examples=120, deadline=None)
@given(jobs(), st.sampled_from(JOB_FACTS), st.data())
def test_judging_only_what_changed_equals_judging_all(job: dict[str, object], name: str, data: st.DataObject) -> None:
    bench = small(shipped())
    before = judge(known_with(said(**job), bench), bench)
    known = known_with(said(**{**job, name: data.draw(st.one_of(st.none(), value_of(name)))}), bench)
    kept, whole = judge(known, bench, before), judge(known, bench)
    assert [row.told for row in kept.rows] == [row.told for row in whole.rows]
    assert kept.marks == whole.marks


@settings(max_examples=120, deadline=None)
@given(jobs(), st.sampled_from(JOB_FACTS), st.data())
def test_a_trial_tells_what_a_full_judgement_would(job: dict[str, object], name: str, data: st.DataObject) -> None:
    bench = small(shipped())
    before = judge(known_with(said(**job), bench), bench)
    known = known_with(said(**{**job, name: data.draw(value_of(name))}), bench)
    trial, whole = what_if(before, known), judge(known, bench)
    for i in before.standing:
        assert trial.marks.code(i) == whole.marks.code(i)
        assert trial.marks.is_thin(i) == whole.thin(i)


@settings(max_examples=100, deadline=None)
@given(jobs())
def test_deriving_never_overrides_what_was_said(job: dict[str, object]) -> None:
    before = said(**job)
    on = shipped()
    after = known_with(before, on)
    for name, one in before.items():
        if one.known:
            assert after[name] == one
    assert known_with(after, on) == after  # nothing new follows from what follows


@settings(max_examples=100, deadline=None)
@given(jobs())
def test_a_verdict_is_the_worst_of_its_findings(job: dict[str, object]) -> None:
    bench = small(shipped())
    judgement = judge(known_with(said(**job), bench), bench)
    fits, still, fails = judgement.counts()
    assert fits + still + fails == len(bench.candidates)
    for i in range(len(bench.candidates)):
        verdicts = {f.verdict for f in judgement.findings(i)}
        worst = FAILS if FAILS in verdicts else OPEN if OPEN in verdicts else FITS
        assert judgement.verdict(i) is worst
        assert (judgement.failed_by(i) is not None) == (worst is FAILS)


def test_where_nothing_is_known_nothing_fits(on: Bench) -> None:
    """An unknown never counts as a pass."""
    fits, still, fails = on.blank.counts()
    assert fits == 0
    assert still == len(on.candidates)
    assert fails == 0


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_an_open_finding_of_a_need_names_what_would_settle_it_or_who(job: dict[str, object]) -> None:
    """Open because of a fact: it is named. Open because of the tables: the wording says the maker must state it."""
    bench = small(shipped())
    judgement = judge(known_with(said(**job), bench), bench)
    maker = {
        "no_window",
        "medium_not_listed",
        "flame_resistant",
        "non_conductive_if_marked",
        "material_no_data",
        "bend_no_row",
        "no_outside",
    }
    for i in range(len(bench.candidates)):
        for found in judgement.findings(i):
            if found.verdict is OPEN and not found.hangs_on:
                assert found.reason in maker, f"{found.check}: {found.reason} is open and names nothing"
            assert set(found.hangs_on) <= set(CATALOGUE)
