"""What must never come out, whatever the job? The promises of a record over generated jobs; cautions, house rules."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from selection_jobs import JOB_FACTS, PLAIN, fact, plain, said, shipped, value_of

from interview.dialogue.safety_texts import caution_text
from interview.facts import Fact, Known, Origin
from interview.resources import shipped as shipped_folder
from interview.selection.cautions import SEVERITY, triggered
from interview.selection.finding import Verdict
from interview.selection.house_rules import RulesError, load_house_rules
from interview.selection.judge import Bench, judge, known_with
from interview.selection.outcome import SETTLED_FACTS, standing_of

FIRM = (Origin.STATED, Origin.READ, Origin.MEASURED)


@st.composite
def near_complete(draw: st.DrawFn) -> Known:
    """The complete job with some facts changed, forgotten, not known, or of another origin."""
    job = said(**PLAIN)
    for name in draw(st.lists(st.sampled_from(JOB_FACTS), max_size=5, unique=True)):
        job = job.with_fact(fact(name, draw(st.one_of(st.none(), value_of(name))), draw(st.sampled_from(FIRM))))
    for name in draw(st.lists(st.sampled_from(sorted(PLAIN)), max_size=2, unique=True)):
        job = job.without([name])
    for name in draw(st.lists(st.sampled_from(sorted(PLAIN)), max_size=3, unique=True)):
        if name in job and job[name].known:
            job = job.with_fact(
                fact(name, PLAIN[name], draw(st.sampled_from([Origin.READ, Origin.COPIED, Origin.MEASURED])))
            )
    return job


@settings(max_examples=200, deadline=None)
@given(near_complete())
def test_the_promises_of_a_record(job: Known) -> None:
    on = shipped()
    found = standing_of(judge(known_with(job, on), on), "metric")
    known = found.judgement.needs.known
    if found.outcome in ("referred", "unmatched"):
        assert found.ready_for == "none" and found.preferred is None
        assert (found.outcome == "referred") == (found.stop is not None)
        return
    if found.preferred is None or found.assembly is None:  # neither bore nor flow: naming a size would be a guess
        assert not known.has("bore") and not known.has("flow_rate")
        assert (found.outcome, found.ready_for) == ("provisional", "none")
        return
    best = on.candidates[found.preferred.index]
    verdict = found.judgement.verdict(found.preferred.index)
    assert verdict is not Verdict.FAILS
    need = found.judgement.needs.pressure[1]
    if verdict is Verdict.FITS:
        assert need is None or need <= best.size.wp_select * 1.0050001
        for end in found.judgement.needs.ends:
            assert end.rating is None or need is None or need <= end.rating * 1.0050001
    if found.assembly.rating is not None:
        assert all(p.rating is not None and p.rating >= found.assembly.rating for p in found.assembly.parts)
    if found.outcome == "specified":
        assert verdict is Verdict.FITS and not found.open and not found.assumed
        settled = SETTLED_FACTS if known.text("line_function") != "suction" else (*SETTLED_FACTS[:-2], "vacuum")
        for name in settled:
            assert known.has(name) and known.origin(name) not in (Origin.ASSUMED, Origin.UNKNOWN), name
            assert not (name.endswith("_pressure") and known.origin(name) is Origin.COPIED), name
    if found.ready_for == "build":
        assert verdict is Verdict.FITS
        for name in ("regulated_use", "medium", "fluid_temperature_max", "ambient_temperature_max"):
            assert known.origin(name) in FIRM, name
        # A length is told, or follows from a route that somebody taped.
        assert known.origin("overall_length") in FIRM or known.has("clearance_geometry")
        if known.text("line_function") != "suction":
            assert known.origin("working_pressure") in FIRM
            assert known.origin("surge_pressure") in FIRM or known.text("shock") in ("smooth", "moderate")
        assert found.assembly.rating is not None
        for end in ("end_a", "end_b"):
            assert known.has(f"{end}_family") and known.has(f"{end}_gender") and known.has(f"{end}_form")
    if found.ready_for == "none":
        assert found.missing_for_quote or verdict is not Verdict.FITS


# ---- cautions --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("facts", "caution"),
    [
        ({"line_function": "pressure"}, "fluid_injection"),
        ({"injury": True}, "fluid_injection"),
        ({"failure_sign": ["pinhole"]}, "never_feel_for_leaks"),
        ({"job_kind": "failed_hose"}, "release_pressure"),
        ({"job_kind": "failed_hose"}, "no_reuse"),
        ({"accumulator": True}, "stored_energy"),
        ({"burst_consequence": ["load_drops"]}, "falling_load"),
        ({"people_near": True, "working_pressure": 200}, "whip"),
        ({"near_power_line": True}, "electric_shock"),
        ({"near_power_line": None}, "electric_shock"),
        ({"exposure": ["flame"]}, "fire"),
        ({"heat_source_distance": 100}, "fire"),
        ({"surroundings": "near_heat"}, "fire"),
        ({"fluid_temperature_max": 60}, "hot_fluid"),
        ({"fluid_temperature_max": 95}, "temperature"),
        ({"medium": "hetg"}, "medium"),
        ({"medium": "diesel"}, "static_charge"),
        ({"line_function": "suction"}, "suction"),
        ({"failure_sign": ["cover_cracked"]}, "aged_hose"),
        ({"hose_date": "2019-Q3"}, "aged_hose"),
        ({"failure_sign": ["burst_clean"]}, "above_rating"),
        ({"failure_sign": ["fitting_blew_off"]}, "no_mixed_components"),
        ({"proof_test": True}, "proof_test"),
        ({"end_a_family": "orfs"}, "fitting_up"),
    ],
)
def test_a_caution_appears_when_its_trigger_is_met(facts: dict[str, object], caution: str) -> None:
    assert caution in triggered(said(**facts))
    assert caution not in triggered(Known())
    assert caution_text(caution).strip()


@pytest.mark.parametrize(
    "facts",
    [
        {"failure_sign": ["burst"]},
        {"line_function": None, "working_pressure": None},
        {"line_function": "return", "working_pressure": None},
        {"working_pressure": (5, None), "line_function": "suction"},
    ],
)
def test_a_pressure_nobody_knows_may_go_through_skin(facts: dict[str, object]) -> None:
    """Every pressure is taken as injectable (100 psi by common teaching), and an unknown one is no harmless one."""
    assert "fluid_injection" in triggered(said(job_kind="failed_hose", **facts))


def test_a_line_that_only_pulls_pierces_nobody() -> None:
    assert "fluid_injection" not in triggered(said(job_kind="failed_hose", line_function="suction"))


@pytest.mark.parametrize("pressure", [None, 200, (30, None)])
def test_near_people_an_unknown_pressure_whips_like_a_high_one(pressure: object) -> None:
    assert "whip" in triggered(said(people_near=True, line_function="pressure", working_pressure=pressure))
    assert "whip" not in triggered(said(people_near=True, line_function="return", working_pressure=10))


def test_heat_nobody_knows_burns() -> None:
    assert "hot_fluid" in triggered(said(fluid_temperature_max=None))
    assert "hot_fluid" in triggered(said(fluid_temperature_max=(40, None)))
    assert "hot_fluid" not in triggered(said(fluid_temperature_max=45))


@pytest.mark.parametrize(
    "sign", ["burst", "burst_clean", "burst_near_end", "burst_outer_bend", "burst_fatigue", "fitting_blew_off", None]
)
def test_whoever_looks_for_where_it_came_out_is_warned_off_feeling(sign: str | None) -> None:
    facts = {"job_kind": "failed_hose", "line_function": "pressure", "failure_sign": None if sign is None else [sign]}
    hit = triggered(said(**facts))
    assert hit[:2] == ("fluid_injection", "never_feel_for_leaks")


def test_what_is_ready_to_build_is_tested_behind_a_guard_with_eyes_covered(on: Bench) -> None:
    """The build sheet orders a proof test whether or not the customer did: its cautions stand on the same record."""
    known = said(**plain())
    assert not {"proof_test", "protective_equipment"} & set(triggered(known))
    assert {"proof_test", "protective_equipment"} <= set(triggered(known, builds=True))
    assert {"proof_test", "protective_equipment"} <= set(triggered(said(proof_test=True)))


def test_two_cautions_are_on_every_record() -> None:
    assert {"crimp_data", "not_an_approval"} <= set(triggered(Known()))
    assert "regulated_use" in triggered(Known(), stopped=True)
    assert "above_rating" in triggered(said(working_pressure=300), rating=200e5)
    assert "above_rating" not in triggered(said(working_pressure=100), rating=200e5)


@settings(max_examples=60, deadline=None)
@given(near_complete())
def test_the_most_severe_caution_comes_first(job: Known) -> None:
    hit = triggered(job)
    assert list(hit) == sorted(hit, key=SEVERITY.index) and len(set(hit)) == len(hit)


def test_no_caution_states_a_crimp_diameter(on: Bench) -> None:
    """The crimp diameter is the hose and fitting maker's, for exactly that pair: the tool never states one."""
    import re

    for caution in SEVERITY:
        assert not re.search(
            r"\d+(?:\.\d+)?\s*(?:mm|in)\b.*crimp|crimp.*\d+(?:\.\d+)?\s*(?:mm|in)\b", caution_text(caution)
        )


# ---- house rules -----------------------------------------------------------------------------------------------------


def test_the_shipped_house_rules_are_the_design_s() -> None:
    """DESIGN, table of house rules."""
    rules = load_house_rules()
    bands = {name: (band.guide, band.upper) for name, band in rules.velocity.items()}
    assert bands == {
        "pressure": (6.0, 7.6),
        "return": (3.0, 4.6),
        "suction": (1.2, 1.5),
        "pilot": (3.0, 4.5),
        "case_drain": (1.2, 3.0),
    }
    assert rules.velocity_within_guide_percent == 10
    assert (rules.surge.factor_smooth, rules.surge.factor_otherwise) == (1.2, 1.5)
    assert (rules.cycles.life_spread_measured_peak, rules.cycles.life_spread_otherwise) == (3, 8)
    assert rules.fluid_temperature_not_known.cooled_mineral_system == 80
    assert {n: (r.low, r.high) for n, r in rules.ambient_not_known.items()} == {
        "open_air": (-40, 45),
        "on_deck": (-40, 45),
        "indoors": (5, 40),
    }
    assert rules.thin_margin_percent == 5 and rules.pressure_rounding_percent == 0.5 and rules.proof_ratio == 2
    assert (rules.ages.hose_at_build, rules.ages.assembly_in_store, rules.ages.service, rules.ages.service_severe) == (
        4,
        2,
        6,
        2,
    )


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("guide: 6.0", "guide: -1", "velocity.pressure.guide"),
        ("proof_ratio: 2.0", "proof_ratio: 20", "proof_ratio"),
        ("proof_ratio: 2.0\n", "", "proof_ratio: missing"),
        ("proof_ratio: 2.0", "proof_ratio: .nan", "proof_ratio"),
        ("surge:", "surge: 3\nmore:", "surge"),
        ("velocity:", "velocity: [", "not YAML"),
    ],
)
def test_house_rules_that_cannot_be_are_told(tmp_path: Path, old: str, new: str, says: str) -> None:
    text = (shipped_folder("flows") / "house-rules.yaml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "house-rules.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(RulesError, match=r"^house-rules\.yaml: line \d+: ") as caught:
        load_house_rules(path)
    assert says in str(caught.value) and "\n" not in str(caught.value)


def test_a_shop_that_decides_otherwise_is_followed(on: Bench, tmp_path: Path) -> None:
    """One figure changed in the file changes what is judged, and nothing else has to."""
    text = (shipped_folder("flows") / "house-rules.yaml").read_text(encoding="utf-8")
    path = tmp_path / "house-rules.yaml"
    path.write_text(text.replace("{guide: 6.0, upper: 7.6", "{guide: 3.0, upper: 4.0", 1), encoding="utf-8")
    strict = Bench.of(on.tables, on.connections, load_house_rules(path))
    job = said(**plain())
    usual, other = (judge(known_with(job, bench), bench) for bench in (on, strict))
    assert usual.counts()[0] > other.counts()[0]


@pytest.mark.parametrize(
    ("machine", "falls"),
    [("crane boom", True), ("Tipping trailer", True), ("stacker mast", True), ("log turner", False), (None, False)],
)
def test_a_machine_that_holds_a_load_up_brings_the_caution(machine: str | None, falls: bool) -> None:
    """Nobody has to know the question about what a burst would do; the name of the machine is enough."""
    job = Known({"machine": Fact("machine", machine)} if machine else {})
    assert ("falling_load" in triggered(job)) is falls
