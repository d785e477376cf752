"""What is asked next, and why? Always-settled facts, facts that matter, the joint test, parts that come back."""

from __future__ import annotations

import pytest
from talks import EASY, EXPERIENCED, started, to_review, words

from interview.dialogue.agenda import Situation, hangs_on, matters, next_turn
from interview.facts import Origin
from interview.selection.judge import Bench
from interview.selection.outcome import settled_facts

# ---- the agenda ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["pressure", "return", "suction", "case_drain", "pilot"])
def test_the_always_settled_facts_are_asked(on: Bench, line: str) -> None:
    """Nobody knows anything: each of them was asked, or worked out, before the review."""
    session = started(on)
    asked = to_review(session, {**dict.fromkeys(EASY, "don't know"), "line_function": line.replace("_", " ") + " line"})
    assert session.state == "review"
    put = {part for parts in asked for part in parts}
    for name in settled_facts(session.known):
        assert name in put or session.known.has(name), name
        assert session.said.answered(name) or session.known.has(name)


def test_a_fact_that_cannot_change_the_result_is_not_asked(on: Bench) -> None:
    session = started(on, EXPERIENCED, home="us")
    asked = to_review(session)
    put = {part for parts in asked for part in parts}
    assert not put & {
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "shock",
        "pump_flow",
        "surroundings",
        "vacuum",
        "medium",
        "end_a_family",
        "overall_length",
        "cylinder_bore",
    }


def test_what_is_asked_for_its_effect_has_an_effect(on: Bench) -> None:
    """Each "matters" question: some answer changes what comes out, and "why" names the hoses that hang on it."""
    session = started(
        on, "pressure line, 1/2 inch, 180 bar spikes to 200 bar, HLP 46, oil to 65 C, air -5 to 30 C, fixed", "none"
    )
    now = session.situation()
    assert matters("flow_rate", now) is not None
    hanging = hangs_on("flow_rate", now)
    assert hanging
    settled = started(
        on, "pressure line, 1/2 inch, 180 bar spikes to 200 bar, HLP 46, oil to 65 C, air -5 to 30 C, 20 L/min"
    )
    assert matters("flow_rate", settled.situation()) is None or settled.said.has("flow_rate")


def test_why_names_the_hoses_that_hang_on_it(on: Bench) -> None:
    session = started(on, "pressure line, 1/2 inch, HLP 46, oil to 65 C, air -5 to 30 C", "none")
    for _ in range(6):
        assert session.asked is not None
        if "working_pressure" in session.asked.parts:
            break
        session.say(EASY.get(session.asked.parts[0], "don't know"))
    assert session.asked is not None and "working_pressure" in session.asked.parts
    told = words(session.say("why do you ask?"))
    assert "On this answer hang: " in told
    standing = {session.bench.candidates[i].bore for i in session.judgement.standing}
    assert any(f" -{bore:g}" in told for bore in standing)
    assert session.asked is not None and "working_pressure" in session.asked.parts


def test_the_next_question_is_a_pure_function(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", home="us")
    situations = [session.situation() for _ in range(2)]
    assert all(isinstance(s, Situation) for s in situations)
    assert next_turn(situations[0]) == next_turn(situations[1]) == session.to_ask


def test_what_was_not_asked_is_tried_together_at_its_worst(on: Bench) -> None:
    """Whatever the review was reached with: the unasked facts at their adverse values, all together, change nothing."""
    from interview.dialogue.agenda import slipped_through

    for lines in (
        [EXPERIENCED],
        ["pressure line, 10 bar, spikes to 12 bar, HLP 46, oil to 60 C, air 0 to 30 C, 10 L/min"],
    ):
        session = started(on, *lines)
        to_review(session)
        assert session.state == "review"
        assert slipped_through(session.situation()) is None


def test_parts_left_out_come_back_alone(on: Bench) -> None:
    session = started(on, "it rubbed through", "none", "half inch", "pressure line", "HLP 46")
    assert session.asked is not None and set(session.asked.parts) == {"working_pressure", "surge_pressure"}
    session.say("180 bar")
    assert session.asked is not None and session.asked.parts == ("surge_pressure",)


def test_dont_know_opens_easier_questions(on: Bench) -> None:
    session = started(on, "it rubbed through", "none", "half inch", "pressure line", "HLP 46", "don't know")
    assert session.asked is not None and "relief_setting" in session.asked.parts
    assert session.said.origin("surge_pressure") is Origin.UNKNOWN
