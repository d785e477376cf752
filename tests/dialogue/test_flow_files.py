"""Are the flow files in order, and is every broken copy told with file and line?"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from interview.cli import main
from interview.dialogue.flows import find_circle, flow_files, load_flow, unreachable
from interview.dialogue.lint import lint
from interview.facts import CATALOGUE, Kind
from interview.resources import shipped


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped("flows"), tmp_path / "flows"))


def broken(folder: Path, name: str, old: str, new: str) -> int:
    """Replaces the first `old` of a file; returns its line."""
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{name} no longer holds {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1


def test_the_shipped_flows_are_in_order(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert lint() == []
    assert lint(copy) == []
    assert main(["flows", "--lint"]) == 0
    assert "in order" in capsys.readouterr().out


SPOILED = [
    (
        "topics/pressure.yaml",
        "  surge_pressure:\n",
        "  surge_presure:\n",
        "pressure.yaml",
        "'surge_presure' is not a fact",
    ),
    (
        "topics/pressure.yaml",
        "      - ask: [relief_setting, shock]",
        "      - ask: [relief_seting, shock]",
        "pressure.yaml",
        "'relief_seting' is not a fact",
    ),
    (
        "topics/pressure.yaml",
        'unknown: [{open: "the highest setting of the circuit bounds the spike"}]',
        "unknown: [{ask: [surge_pressure]}]",
        "failed_hose.yaml",
        "a circle of follow-ups",
    ),
    (
        "topics/pressure.yaml",
        'why: "It bounds the steady pressure, and the spike is reckoned from it."',
        'why: ""',
        "pressure.yaml",
        "no reason given",
    ),
    (
        "topics/pressure.yaml",
        '    why: "It bounds the steady pressure, and the spike is reckoned from it."\n',
        "",
        "pressure.yaml",
        "why: missing",
    ),
    ("topics/job.yaml", 'case_drain: "case drain", ', "", "job.yaml", "no wording for case_drain"),
    (
        "topics/job.yaml",
        'case_drain: "case drain", ',
        'case_drain: "case drain", sideways: "x", ',
        "job.yaml",
        "'sideways' is no choice",
    ),
    (
        "topics/pressure.yaml",
        "topic: pressure\n",
        "topic: pressure\ntopic: pressure\n",
        "pressure.yaml",
        "stands twice",
    ),
    ("topics/pressure.yaml", "topic: pressure\n", "topic: presure\n", "pressure.yaml", "no topic"),
    ("topics/pressure.yaml", "    short: the relief setting\n", "    short: 12\n", "pressure.yaml", "short"),
    (
        "topics/pressure.yaml",
        "    short: the relief setting\n",
        "    short: the relief setting\n    colour: red\n",
        "pressure.yaml",
        "no such key",
    ),
    (
        "topics/pressure.yaml",
        "      - ask: [relief_setting]\n",
        '      - ask: [relief_setting]\n        open: "and"\n',
        "pressure.yaml",
        "exactly one of ask, assume, open",
    ),
    (
        "failed_hose.yaml",
        "asks: [regulated_use]",
        "asks: [regulated_use, colour]",
        "failed_hose.yaml",
        "'colour' is not a fact",
    ),
    (
        "failed_hose.yaml",
        "asks: [regulated_use]",
        "asks: [regulated_use, medium]",
        "failed_hose.yaml",
        "is asked in turn",
    ),
    ("failed_hose.yaml", "settle: always", "settle: perhaps", "failed_hose.yaml", "settle"),
    (
        "failed_hose.yaml",
        "when: {line_function: suction}",
        "when: {line_function: sideways}",
        "failed_hose.yaml",
        "no choice",
    ),
    (
        "failed_hose.yaml",
        "settles: {repeat_failure: along}",
        "settles: {medium: along}",
        "failed_hose.yaml",
        "not asked in this turn",
    ),
    (
        "failed_hose.yaml",
        "  - id: regulated\n",
        "  - id: regulated\n    id: again\n",
        "failed_hose.yaml",
        "stands twice",
    ),
    ("failed_hose.yaml", "turns:\n", "turns:\n\t- x\n", "failed_hose.yaml", "not YAML"),
    (
        "failed_hose.yaml",
        "asks: [relief_setting, shock, valve_closing_time]",
        "asks: [relief_setting, shock]",
        "pressure.yaml",
        "nothing can reach it",
    ),
    ("house-rules.yaml", "guide: 6.0", "guide: fast", "house-rules.yaml", "velocity.pressure.guide"),
    (
        "house-rules.yaml",
        "thin_margin_percent: 5",
        "thin_margin_percent: 500",
        "house-rules.yaml",
        "thin_margin_percent",
    ),
    ("house-rules.yaml", "surge:", "colour: red\nsurge:", "house-rules.yaml", "colour"),
]


@pytest.mark.parametrize(("name", "old", "new", "blamed", "says"), SPOILED, ids=[s[4][:30] for s in SPOILED])
def test_a_broken_copy_is_told_with_file_and_line(
    copy: Path, capsys: pytest.CaptureFixture[str], name: str, old: str, new: str, blamed: str, says: str
) -> None:
    broken(copy, name, old, new)
    faults = lint(copy)
    told = [f for f in faults if says in f]
    assert told, faults
    assert told[0].startswith(f"{blamed}: ")
    if blamed != "house-rules.yaml":
        assert f"{blamed}: line " in told[0]
    assert main(["flows", "--lint", "--folder", str(copy)]) == 2
    printed = capsys.readouterr()
    assert says in printed.err and printed.out == ""
    assert "Traceback" not in printed.err


def test_the_line_of_a_fault_is_its_line(copy: Path) -> None:
    line = broken(
        copy,
        "topics/pressure.yaml",
        "    short: the relief setting\n",
        "    short: the relief setting\n    colour: red\n",
    )
    assert any(f.startswith(f"pressure.yaml: line {line + 1}: ") for f in lint(copy))


def test_a_folder_without_flows_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert lint(tmp_path) != []
    assert main(["flows", "--lint", "--folder", str(tmp_path / "nowhere")]) == 2
    assert "no such folder" in capsys.readouterr().err


def test_every_fault_of_every_file_is_told_at_once(copy: Path) -> None:
    broken(copy, "topics/pressure.yaml", "  surge_pressure:\n", "  surge_presure:\n")
    broken(copy, "failed_hose.yaml", "asks: [regulated_use]", "asks: [regulated_use, colour]")
    faults = "\n".join(lint(copy))
    assert "surge_presure" in faults and "colour" in faults


@pytest.mark.parametrize("job", [p.stem for p in flow_files()])
def test_a_shipped_flow_asks_what_can_be_asked(job: str) -> None:
    flow = load_flow(job)
    assert flow.job.job == job
    assert find_circle(flow) == []
    for turn in flow.job.turns:
        for fact in turn.asks:
            question = flow.questions[fact]
            assert question.ask.strip() and question.short.strip() and question.why.strip()
            if CATALOGUE[fact].choices:
                assert set(question.options) == set(CATALOGUE[fact].choices)
            if CATALOGUE[fact].kind is Kind.QUANTITY and turn.settle_of(fact) in ("always", "quote"):
                assert question.unknown, f'{fact}: what does "don\'t know" lead to?'


@pytest.mark.parametrize("job", [p.stem for p in flow_files()])
def test_the_safety_facts_are_always_settled(job: str) -> None:
    """DESIGN 5: regulated use, line function, medium, hottest fluid, both ambient extremes, working pressure and spike."""
    flow = load_flow(job)
    for fact in (
        "regulated_use",
        "line_function",
        "medium",
        "fluid_temperature_max",
        "ambient_temperature_max",
        "ambient_temperature_min",
        "working_pressure",
        "surge_pressure",
    ):
        turn = flow.turn_of(fact)
        assert turn is not None and turn.settle_of(fact) == "always", fact


def test_what_nobody_asks_in_the_first_job_is_volunteered() -> None:
    from interview.dialogue.lint import NEVER_ASKED

    asked = {f for p in flow_files() for t in load_flow(p.stem).job.turns for f in t.asks}
    assert set(unreachable(load_flow("failed_hose"))) - asked <= NEVER_ASKED


def test_no_such_flow_names_those_there_are() -> None:
    with pytest.raises(ValueError, match="failed_hose"):
        load_flow("nonsense")
