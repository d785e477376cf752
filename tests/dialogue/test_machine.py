"""Where is the conversation? Every state by real answers, every illegal trigger refused, one source for the drawing."""

from __future__ import annotations

import pytest
from talks import started, to_review

from interview.catalogue import TOPICS
from interview.dialogue import machine
from interview.dialogue.machine import Conversation, IllegalMove, diagram, transitions_of
from interview.selection.judge import Bench

STATES = (*machine.FIXED, *TOPICS)
ROWS = transitions_of(TOPICS)


def sources(row: dict[str, object]) -> list[str]:
    source = row["source"]
    return [str(s) for s in source] if isinstance(source, list) else [str(source)]


# ---- every state, by answers a person gives ------------------------------------------------------------------------


def test_every_state_is_reached_by_real_answers(on: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """Topics by the questions of whole interviews, the rest by words that lead there. All through `say`."""
    seen: set[str] = set()
    move = Conversation.move

    def watched(self: Conversation, trigger: str) -> None:
        seen.add(self.state)
        move(self, trigger)
        seen.add(self.state)

    monkeypatch.setattr(Conversation, "move", watched)
    started(on, "brake hose for a trailer")
    started(on, "180 F")
    started(on, "working pressure 180 bar", "working pressure is 250 bar")
    started(on, "my hand got sprayed by oil from the burst hose")
    unsure = dict.fromkeys(
        ("failure_sign", "layline", "working_pressure", "fluid_temperature_max", "flow_rate"), "don't know"
    )
    for answers in ({}, unsure):
        session = started(on)
        to_review(session, answers)
        session.say("accept")
    # No question belongs to the topic "delivery": its facts come from house rules and are shown at review.
    assert set(STATES) - seen == {"delivery"}


def test_a_settled_interview_was_reviewed_first(on: Bench) -> None:
    session = started(on)
    session.say("accept")
    assert session.state != "settled"
    to_review(session)
    assert session.state == "review"
    session.say("accept")
    assert session.state == "settled" and session.finished


# ---- triggers ------------------------------------------------------------------------------------------------------


def at(state: str, *, wanted: str | None = None, doubtful: bool = False, conflicting: bool = False) -> Conversation:
    conversation = Conversation(TOPICS)
    conversation.machine.set_state(state, model=conversation)
    conversation.wanted, conversation.doubtful, conversation.conflicting = wanted, doubtful, conflicting
    return conversation


@pytest.mark.parametrize("state", STATES)
def test_a_trigger_the_state_does_not_know_is_refused(state: str) -> None:
    """Walked over all triggers of the machine: legal ones move where the table says, others raise and move nothing."""
    for trigger in Conversation(TOPICS).machine.events:
        rows = [r for r in ROWS if r["trigger"] == trigger and state in sources(r)]
        for wanted in (None, *TOPICS):
            conversation = at(state, wanted=wanted, doubtful=trigger == "doubt", conflicting=trigger == "contradict")
            to = [
                r["dest"] for r in rows if not r["topic"] and (r["dest"] not in ("review", "settled") or wanted is None)
            ]
            to += [r["dest"] for r in rows if r["topic"] == wanted and wanted is not None]
            if to:
                conversation.move(trigger)
                assert conversation.state == to[0]
            else:
                with pytest.raises(IllegalMove):
                    conversation.move(trigger)
                assert conversation.state == state


def test_a_guard_holds_a_move_back_and_says_so() -> None:
    for trigger, conversation in (
        ("doubt", at("job")),
        ("contradict", at("job")),
        ("proceed", at("job", wanted="ends", doubtful=True)),
        ("proceed", at("job", wanted="ends", conflicting=True)),
    ):
        before = conversation.state
        with pytest.raises(IllegalMove, match="held back"):
            conversation.move(trigger)
        assert conversation.state == before


@pytest.mark.parametrize(
    "trigger", ["", "acept", "to_review", "proceed ", "state", "machine", "nothing_left", "__init__"]
)
def test_a_misspelt_trigger_is_refused(trigger: str) -> None:
    conversation = at("review")
    with pytest.raises(IllegalMove):
        conversation.move(trigger)
    assert conversation.state == "review"


def test_every_state_named_by_a_transition_exists() -> None:
    """transitions takes a misspelt state when built and fails when fired: walked here instead."""
    built = Conversation(TOPICS).machine
    assert set(built.states) == set(STATES)
    for name, event in built.events.items():
        for source, transitions in event.transitions.items():
            assert source in STATES, name
            for transition in transitions:
                assert transition.source in STATES and transition.dest in STATES, name
                assert not transition.before and not transition.after, "compute first, trigger last: no callbacks"
                for condition in transition.conditions:
                    assert callable(condition.func) or callable(getattr(Conversation, condition.func))


def test_every_state_can_be_left_or_is_an_end() -> None:
    for state in STATES:
        onward = {str(r["dest"]) for r in ROWS if state in sources(r)} - {state}
        assert onward, state
    assert set(machine.ENDED) <= set(STATES)


def test_no_state_is_set_but_by_a_trigger() -> None:
    assert not any(name.startswith("to_") for name in Conversation(TOPICS).machine.events)


# ---- the drawing ---------------------------------------------------------------------------------------------------


def test_the_drawing_holds_every_state_and_every_transition() -> None:
    drawn = diagram(TOPICS)
    assert drawn.startswith("stateDiagram-v2")
    for state in STATES:
        assert state in drawn
    for row in ROWS:
        assert any(f"--> {row['dest']}: {row['trigger']}" in line for line in drawn.splitlines())
    assert len([line for line in drawn.splitlines() if "-->" in line and ":" in line]) == len(ROWS)


def test_the_developers_page_carries_the_drawing() -> None:
    from pathlib import Path

    page = Path(__file__).resolve().parents[2] / "DEVELOPERS.md"
    assert diagram(TOPICS) in page.read_text(encoding="utf-8")
