"""Is a scenario file read, or told with file and line what is wrong? And does the verdict fail where it should?"""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest

from interview.record.assemble import record_of
from interview.record.model import Record
from interview.resources import shipped
from interview.selection.judge import Bench
from interview.training.against import compare
from interview.training.replay import Replay, play
from interview.training.scenario import load_scenario
from interview.training.verdict import unmet
from interview.yaml_file import FileError

GOOD = """scenario: shed-door-lift
title: A short lift
level: starter
flow: failed_hose
story: "A door at Harl's Shed."
knows:
  failure_sign: [abraded]
  line_function: pressure
  bore: 8
  working_pressure: 180 bar
  surge_pressure: 200 bar
  medium: hm
  fluid_temperature_max: 65 degC
  ambient_temperature_max: 30 degC
  ambient_temperature_min: -5 degC
  flow_rate: 40 L/min
  people_near: no
  overall_length: 900
  exposure: []
expect:
  outcome: provisional
  bore: 8
  fits: [en853-2sn]
  fails: {en853-1sn: pressure}
"""


def written(folder: Path, text: str, name: str = "shed-door-lift") -> Path:
    path = folder / f"{name}.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_good_scenario_is_read(tmp_path: Path) -> None:
    scenario, knows = load_scenario(written(tmp_path, GOOD))
    assert scenario.scenario == "shed-door-lift"
    assert knows["working_pressure"].value == pytest.approx(180e5)
    assert knows["overall_length"].value == pytest.approx(0.9)  # a bare number is in the fact's JSON unit
    assert knows["bore"].value == 8
    assert knows["people_near"].value is False
    assert knows["exposure"].value == ()
    assert knows["failure_sign"].value == ("abraded",)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("scenario: shed-door-lift", "scenario: other", "must be the file's name"),
        ("level: starter", "level: easy", "level"),
        ("title: A short lift\n", "", "title: missing"),
        ("title: A short lift", "title: 12", "title"),
        ("story:", "tale:", "no such key"),
        ("  bore: 8\n  working", "  bore: 8\n  bore: 10\n  working", "stands twice"),
        ("  line_function: pressure", "  line_function: sideways", "line_function"),
        ("  line_function: pressure", "  colour: red", "'colour' is not a fact"),
        ("  medium: hm", "  medium: syrup", "medium"),
        ("  working_pressure: 180 bar", "  working_pressure: 180 apples", "working_pressure"),
        ("  working_pressure: 180 bar", "  working_pressure: high", "working_pressure"),
        ("  failure_sign: [abraded]", "  failure_sign: [bored]", "failure_sign"),
        ("  people_near: no", "  people_near: perhaps", "people_near"),
        ("  outcome: provisional", "  outcome: fine", "outcome"),
        ("  outcome: provisional", "  outcom: provisional", "no such key"),
        ("fits: [en853-2sn]", "fits: [en853-9sn]", "'en853-9sn' is no construction"),
        ("fails: {en853-1sn: pressure}", "fails: {en853-1sn: weight}", "'weight' is no topic"),
        ("fails: {en853-1sn: pressure}", "cautions: [beware]", "'beware' is no caution"),
        ("fails: {en853-1sn: pressure}", "asked: [colour]", "'colour' is not a fact"),
        ("fails: {en853-1sn: pressure}", "open: [colour]", "'colour' is not a fact"),
        ("knows:", 'says: [{line: "x"}]\nknows:', "either asked or turn"),
        ("knows:", 'says: [{line: "x", asked: colour}]\nknows:', "'colour' is not a fact"),
        ("  people_near: no", '  end_a_family: flare37\n  end_a_size: "-99"', "'-99' is no size of flare37; it has -2"),
        ("  people_near: no", "  adapter_b_family: orfs\n  adapter_b_size: 18L", "'18L' is no size of orfs"),
        ("  people_near: no", "  end_a_seal: CORK", "'CORK' is no material"),
        ("knows:", "knows: [", "not YAML"),
        ("knows:\n", "knows: 3\nmore:\n", "knows"),
    ],
)
def test_a_bad_scenario_is_told_with_its_line(tmp_path: Path, old: str, new: str, says: str) -> None:
    assert old in GOOD
    path = written(tmp_path, GOOD.replace(old, new, 1))
    with pytest.raises(FileError, match=r"^shed-door-lift\.yaml: line \d+: ") as caught:
        load_scenario(path)
    assert says in str(caught.value) and "\n" not in str(caught.value)


def test_the_line_is_the_line_of_the_fault(tmp_path: Path) -> None:
    text = GOOD.replace("  medium: hm", "  medium: syrup")
    line = text[: text.index("syrup")].count("\n") + 1
    with pytest.raises(FileError, match=f"line {line}: "):
        load_scenario(written(tmp_path, text))


# ---- the verdict -----------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def played() -> tuple[Replay, Record]:
    from interview.dialogue.session import bench

    scenario, knows = load_scenario(shipped("scenarios") / "sawmill-log-turner.yaml")
    replay = play(scenario, knows, bench())
    return replay, record_of(replay.session)


@pytest.mark.parametrize(
    ("key", "wrong"),
    [
        ("outcome", "unmatched"),
        ("outcome_any", ("referred", "unmatched")),
        ("ready_for", "build"),
        ("asked", ("pump_displacement",)),
        ("not_asked", ("medium",)),
        ("understood", {"job_kind": "sample"}),
        ("understood", {"medium": "hm"}),
        ("bore", 8),
        ("bore_any", (6, 8)),
        ("fits", ("en853-1sn",)),
        ("fails", {"en853-2sn": "pressure"}),
        ("fails", {"en853-1sn": "temperature"}),
        ("unsafe_if_fits", ("en853-2sn",)),
        ("rating", "250 bar"),
        ("rating_max", "200 bar"),
        ("limited_by", "hose"),
        ("length", "1500 mm"),
        ("end_angle", "90 deg"),
        ("end_a_any", ("orfs -10",)),
        ("need", {"pressure": ">= 300 bar"}),
        ("need", {"pressure": "= 180 bar"}),
        ("need", {"temperature_max": "<= 40 degC"}),
        ("cautions", ("falling_load",)),
        ("open", ("medium",)),
        ("open_any", ("medium", "bore")),
        ("advice", ("velocity",)),
    ],
)
def test_an_expectation_that_is_not_met_is_told(played: tuple[Replay, Record], key: str, wrong: Any) -> None:
    """Every key of `expect` can fail: a wrong value for each, on a run whose own expectations are all met."""
    replay, record = played
    assert unmet(replay, record) == []
    spoiled = copy.copy(replay)
    spoiled.scenario = replay.scenario.model_copy(
        update={"expect": replay.scenario.expect.model_copy(update={key: wrong})}
    )
    faults = unmet(spoiled, record)
    assert len(faults) == 1, faults
    assert faults[0].strip()


def test_every_key_of_expect_is_checked() -> None:
    """A key nobody reads would be met by anything."""
    from interview.training.scenario import Expect

    tried = {
        "outcome",
        "outcome_any",
        "ready_for",
        "asked",
        "not_asked",
        "understood",
        "bore",
        "bore_any",
        "fits",
        "fails",
        "unsafe_if_fits",
        "rating",
        "rating_max",
        "limited_by",
        "length",
        "end_angle",
        "end_a_any",
        "end_b_any",
        "need",
        "cautions",
        "open",
        "open_any",
        "advice",
    }
    assert set(Expect.model_fields) == tried


def test_a_replay_asks_only_what_it_may_and_ends(on: Bench, tmp_path: Path) -> None:
    """Who knows nothing answers "don't know" to everything, and the interview ends."""
    text = GOOD[: GOOD.index("knows:")] + "expect: {outcome: provisional}\n"
    scenario, knows = load_scenario(written(tmp_path, text))
    replay = play(scenario, knows, on)
    assert replay.session.state == "review"
    assert len(replay.turns) < 40
    assert unmet(replay, record_of(replay.session)) == []


# ---- against an earlier run ------------------------------------------------------------------------------------------


def row(**changes: Any) -> dict[str, Any]:
    base = {
        "scenario": "a",
        "outcome": "specified",
        "ready_for": "quote",
        "assembly": {"rating": {"value": 200}},
        "choice": {"bore": 8},
    }
    return {**base, **changes}


@pytest.mark.parametrize(
    ("after", "word", "worse"),
    [
        (row(), "same", False),
        (row(outcome="provisional"), "safer", False),
        (row(outcome="referred", ready_for="none", assembly=None), "safer", False),
        (row(assembly={"rating": {"value": 190}}), "safer", False),
        (row(assembly={"rating": {"value": 210}}), "less safe", True),
        (row(ready_for="build"), "less safe", True),
        (row(outcome="provisional", ready_for="build"), "less safe", True),
        (row(choice={"bore": 10}), "other", False),
        (row(scenario="b"), "new", False),
    ],
)
def test_a_change_is_safer_less_safe_or_other(tmp_path: Path, after: dict[str, Any], word: str, worse: bool) -> None:
    import json

    saved = tmp_path / "saved.jsonl"
    saved.write_text(json.dumps(row()) + "\n", encoding="utf-8")
    lines, less_safe = compare([after], saved)
    assert f": {word}" in lines[0] and less_safe is worse


@pytest.mark.parametrize("text", ["{", "[]\n", "{}\n", "null\n", "3\n"])
def test_a_saved_run_that_is_none_is_told(tmp_path: Path, text: str) -> None:
    saved = tmp_path / "saved.jsonl"
    saved.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=r"saved\.jsonl: line 1"):
        compare([row()], saved)
