"""The tool as the customer: what a question asks for, what is answered, and what a proposal is worth."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from interview.cli import main
from interview.dialogue.flows import load_flow
from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.marks import members
from interview.training.asking import Asking
from interview.training.roleplay import HURTS, RolePlay
from interview.training.scenario import load_scenario

SCENARIOS = sorted((Path(__file__).resolve().parents[2] / "scenarios").glob("*.yaml"))
STARTER = "sawmill-log-turner"
ASKING = Asking(load_flow("failed_hose"))


def role(on: Bench, path: Path) -> RolePlay:
    return RolePlay(*load_scenario(path), on)


# ---- what a question asks for --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [n for n in ASKING.flow.questions if n != "customer"])
def test_the_houses_own_question_asks_for_its_fact(name: str) -> None:
    assert name in ASKING.facts(ASKING.flow.questions[name].ask)


@pytest.mark.parametrize(
    ("question", "facts"),
    [
        ("What machine is it on?", {"machine"}),
        ("what broke?", {"failure_sign"}),
        ("Any spikes?", {"surge_pressure"}),
        ("how hot does the oil get", {"fluid_temperature_max"}),
        ("How cold does it get outside?", {"ambient_temperature_min"}),
        ("what temperature is the air around it?", {"ambient_temperature_max", "ambient_temperature_min"}),
        ("what oil is in it?", {"medium"}),
        ("does it move?", {"motion"}),
        ("does it rub on anything?", {"wear"}),
        ("is anyone near it?", {"people_near"}),
        ("is it near power lines?", {"near_power_line"}),
        ("is it a pressure line or a return?", {"line_function"}),
        ("what is the relief valve set at?", {"relief_setting"}),
        ("how old is the hose?", {"hose_date"}),
        ("how far apart are the ports?", {"port_distance"}),
        ("any salt or chemicals?", {"exposure"}),
        ("is there an accumulator?", {"accumulator"}),
    ],
)
def test_a_trainees_words_ask_for_it_and_for_nothing_else(question: str, facts: set[str]) -> None:
    assert set(ASKING.facts(question)) == facts


@pytest.mark.parametrize("question", ["how's it going?", "", "?", "tell me everything", "x" * 5000, "[bold]"])
def test_a_question_about_nothing_asks_for_nothing(question: str) -> None:
    assert ASKING.facts(question) == ()


# ---- the customer and the score ------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda p: p.stem)
def test_who_asks_all_and_proposes_what_holds_gets_all(on: Bench, path: Path) -> None:
    play = role(on, path)
    for name in play.due():
        play.say(play.flow.questions[name].ask)
    standing = play.house.session.standing()
    if standing.outcome == "referred":
        told = play.say("refer")
    elif standing.outcome == "unmatched" or standing.preferred is None:
        told = play.say("none")
    else:
        hose = on.candidates[standing.preferred.index]
        told = play.say(f"propose {hose.id} {hose.bore:g}")
    assert play.score is not None and play.score.missed == (), told
    whole = standing.outcome in ("referred", "unmatched") or (
        standing.preferred is not None and standing.judgement.verdict(standing.preferred.index) is Verdict.FITS
    )
    assert play.score.right is whole and (play.score.points == 100) is whole


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda p: p.stem)
def test_a_hose_that_fails_is_called_wrong_and_costs(on: Bench, path: Path) -> None:
    play = role(on, path)
    judgement = play.house.session.judgement
    index = next(iter(members(judgement.marks.fails)), 0)  # after a stop nothing is judged, and any hose is wrong
    for name in play.due():
        play.say(play.flow.questions[name].ask)
    told = play.say(f"propose {on.candidates[index].id} {on.candidates[index].bore:g}")
    assert play.score is not None and not play.score.right and play.score.points <= HURTS
    assert told[0].startswith("Wrong, and somebody could be hurt")


def test_nothing_is_told_that_was_not_asked(on: Bench) -> None:
    play = role(on, next(p for p in SCENARIOS if p.stem == STARTER))
    told = play.say("what is the working pressure?")
    assert told == ["Working pressure: 180 bar (2,611 psi)."]
    assert play.say("how high above the sea?") == ["I don't know that."]
    assert "I am not sure" in play.say("lovely morning")[0]
    assert len(play.say("sheet")) == 3  # what broke, and on which machine, was in the first words


def test_who_asks_nothing_is_told_the_gravest_first(on: Bench) -> None:
    play = role(on, next(p for p in SCENARIOS if p.stem == STARTER))
    told = play.say("propose 2SN 10")
    assert play.score is not None and play.score.right and play.score.points == 40
    assert set(play.score.missed[:3]) <= {"regulated_use", "line_function", "medium"} and any(
        "Nor: " in t for t in told
    )


@pytest.mark.parametrize("said", ["propose", "propose hose", "propose 2SN", "propose 2SN 99", "propose 9XX 8"])
def test_a_proposal_has_to_name_one_hose(on: Bench, said: str) -> None:
    play = role(on, next(p for p in SCENARIOS if p.stem == STARTER))
    assert "Say kind and size" in play.say(said)[0] and play.score is None


# ---- the command ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        ("what oil?\npropose 2SN 10\n", 0, "2SN, 5/8 in (-10, DN 16) holds."),
        ("propose 1SN 4\n", 1, "Wrong, and somebody could be hurt"),
        ("what oil?\n", 1, "Left without a proposal."),
        ("quit\n", 1, "Left without a proposal."),
    ],
)
def test_train_at_the_prompt(
    typed: str, code: int, says: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    assert main(["train", STARTER]) == code
    assert says in " ".join(capsys.readouterr().out.split())


def test_train_lists_and_refuses(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["train", "--list"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == len(SCENARIOS) and lines[0].startswith("starter")
    assert main(["train", "no-such-job"]) == 2
    assert "no-such-job: no such file" in capsys.readouterr().err
