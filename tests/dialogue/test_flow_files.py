"""Are the flow files in order, and is every broken copy told with file and line?"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from interview.catalogue import CATALOGUE, Kind
from interview.cli import main
from interview.dialogue.flows import find_circle, flow_files, load_flow, unreachable
from interview.dialogue.lint import lint
from interview.resources import shipped

# A small shop's flow, so that the shipped one can be edited without touching these tests.
JOB = """topic: job
title: The job
questions:
  line_function:
    ask: "What does this line do?"
    short: what the line does
    why: "Velocity depends on it."
    options: {pressure: "pressure", return: "return", suction: "suction", case_drain: "case drain", pilot: "pilot"}
    unknown:
      - open: "follow the hose to both ends"
"""
PRESSURE = """topic: pressure
title: Pressure
questions:
  working_pressure:
    ask: "Highest steady pressure?"
    short: the steady pressure
    why: "The rating must cover it."
    unknown:
      - ask: [relief_setting]
      - open: "nobody may guess it"
  relief_setting:
    ask: "What is the relief valve set to?"
    short: the relief setting
    why: "It bounds the pressure."
    unknown:
      - open: "look at the valve"
"""
TURNS = """job: failed_hose
title: A failed hose
greeting: "Tell me what you know."
turns:
  - id: line
    asks: [line_function]
    settle: always
  - id: pressures
    asks: [working_pressure]
    settle: always
    settles: {working_pressure: always}
    when: {none: [{line_function: suction}]}
  - id: settings
    asks: [relief_setting]
    settle: follow
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A flows folder with the shipped rules, cautions and phrases, and three small files of its own."""
    folder = tmp_path / "flows"
    (folder / "topics").mkdir(parents=True)
    for path in shipped("flows").glob("*.yaml"):
        if path not in flow_files():
            shutil.copy(path, folder)
    (folder / "topics" / "job.yaml").write_text(JOB, encoding="utf-8")
    (folder / "topics" / "pressure.yaml").write_text(PRESSURE, encoding="utf-8")
    (folder / "failed_hose.yaml").write_text(TURNS, encoding="utf-8")
    return folder


def broken(folder: Path, name: str, old: str, new: str) -> int:
    """Replaces the first `old` of a file; returns its line."""
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{name} no longer holds {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1


def test_the_shipped_flows_are_in_order(capsys: pytest.CaptureFixture[str]) -> None:
    assert lint() == []
    assert main(["flows", "--lint"]) == 0
    assert "in order" in capsys.readouterr().out


def test_a_small_shop_s_flows_are_in_order(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert lint(shop) == []
    assert main(["flows", "--lint", "--folder", str(shop)]) == 0
    capsys.readouterr()


P, J, T, H = "topics/pressure.yaml", "topics/job.yaml", "failed_hose.yaml", "house-rules.yaml"
SPOILED = [
    (P, "  relief_setting:\n", "  relief_seting:\n", "pressure.yaml", "'relief_seting' is not a fact"),
    (P, "ask: [relief_setting]", "ask: [relief_seting]", "pressure.yaml", "'relief_seting' is not a fact"),
    (P, '- open: "look at the valve"', "- ask: [working_pressure]", "failed_hose.yaml", "a circle of follow-ups"),
    (P, 'why: "It bounds the pressure."', 'why: ""', "pressure.yaml", "no reason given"),
    (P, '    why: "It bounds the pressure."\n', "", "pressure.yaml", "why: missing"),
    (J, ', case_drain: "case drain"', "", "job.yaml", "no wording for case_drain"),
    (J, 'pilot: "pilot"', 'pilot: "pilot", sideways: "x"', "job.yaml", "'sideways' is no choice"),
    (P, "topic: pressure\n", "topic: pressure\ntopic: pressure\n", "pressure.yaml", "stands twice"),
    (P, "  relief_setting:\n", "  working_pressure:\n", "pressure.yaml", "stands twice"),
    (P, "topic: pressure\n", "topic: presure\n", "pressure.yaml", "no topic"),
    (P, "short: the relief setting", "short: 12", "pressure.yaml", "short"),
    (P, "short: the relief setting", "short: the relief setting\n    colour: red", "pressure.yaml", "no such key"),
    (
        P,
        '- open: "nobody may guess it"',
        '- open: "no"\n        assume: "yes"',
        "pressure.yaml",
        "one of ask, assume, open",
    ),
    (T, "asks: [line_function]", "asks: [line_function, colour]", "failed_hose.yaml", "'colour' is not a fact"),
    (T, "asks: [line_function]", "asks: [line_function, relief_setting]", "failed_hose.yaml", "is asked in turn"),
    (T, "asks: [line_function]", "asks: [line_function, medium]", "failed_hose.yaml", "no topic file has a question"),
    (T, "settle: always", "settle: perhaps", "failed_hose.yaml", "settle"),
    (T, "{line_function: suction}", "{line_function: sideways}", "failed_hose.yaml", "no choice"),
    (T, "{line_function: suction}", "{colour: red}", "failed_hose.yaml", "'colour' is not a fact"),
    (T, "{working_pressure: always}", "{medium: along}", "failed_hose.yaml", "not asked in this turn"),
    (T, "  - id: line\n", "  - id: line\n    id: again\n", "failed_hose.yaml", "stands twice"),
    (T, "turns:\n", "turns:\n\t- x\n", "failed_hose.yaml", "not YAML"),
    (T, "turns:\n", "turns: 12\nmore:\n", "failed_hose.yaml", "turns"),
    (T, "asks: [relief_setting]", "asks: []", "pressure.yaml", "nothing can reach it"),
    (H, "guide: 6.0", "guide: fast", "house-rules.yaml", "velocity.pressure.guide"),
    (H, "thin_margin_percent: 5", "thin_margin_percent: 500", "house-rules.yaml", "thin_margin_percent"),
    (H, "proof_ratio:", "proof_ratio: 2.0\nproof_ratio:", "house-rules.yaml", "stands twice"),
    (H, "surge:", "colour: red\nsurge:", "house-rules.yaml", "colour"),
]


@pytest.mark.parametrize(("name", "old", "new", "blamed", "says"), SPOILED, ids=[s[4][:30] for s in SPOILED])
def test_a_broken_copy_is_told_with_file_and_line(
    shop: Path, capsys: pytest.CaptureFixture[str], name: str, old: str, new: str, blamed: str, says: str
) -> None:
    broken(shop, name, old, new)
    faults = lint(shop)
    told = [f for f in faults if says in f]
    assert told, faults
    assert told[0].startswith(f"{blamed}: line ")
    assert main(["flows", "--lint", "--folder", str(shop)]) == 2
    printed = capsys.readouterr()
    assert says in printed.err and printed.out == ""
    assert "Traceback" not in printed.err


def test_the_line_of_a_fault_is_its_line(shop: Path) -> None:
    line = broken(shop, P, "short: the relief setting", "short: the relief setting\n    colour: red")
    assert any(f.startswith(f"pressure.yaml: line {line + 1}: ") for f in lint(shop))


def test_a_folder_without_flows_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert lint(tmp_path) != []
    assert main(["flows", "--lint", "--folder", str(tmp_path / "nowhere")]) == 2
    assert "no such folder" in capsys.readouterr().err


def test_every_fault_of_every_file_is_told_at_once(shop: Path) -> None:
    broken(shop, P, "  relief_setting:\n", "  relief_seting:\n")
    broken(shop, T, "asks: [line_function]", "asks: [line_function, colour]")
    faults = "\n".join(lint(shop))
    assert "relief_seting" in faults and "colour" in faults


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
    """DESIGN 5: regulated use, line function, medium, hottest fluid, both ambient extremes, pressure and spike."""
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
