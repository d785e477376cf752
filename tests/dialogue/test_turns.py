"""How many questions does a job cost? Counted on whole interviews, typed as people type them."""

from __future__ import annotations

import pytest
from talks import EASY, EXPERIENCED, started, to_review

from interview.selection.judge import Bench

# What the experienced hand says to the rest; the other one gives the flow and does not know the cycles.
CURT = {
    "regulated_use": "none",
    "flow_rate": "yes it ran well",
    "motion": "none",
    "cycle_rate": "40 cycles an hour",
    "end_a_family": "straight",
    "end_a_form": "straight",
}
UNSURE = {"regulated_use": "none", "flow_rate": "12 gpm", "motion": "none", "cycle_rate": "don't know"}


@pytest.mark.parametrize("answers", [CURT, UNSURE], ids=["curt", "unsure"])
@pytest.mark.parametrize("home", ["us", "metric"])
def test_the_whole_job_in_one_line_is_asked_at_most_five_further_turns(
    on: Bench, answers: dict[str, str], home: str
) -> None:
    """Issue 2: the experienced hand's line, then every turn until the review is counted."""
    session = started(on, EXPERIENCED, home=home)
    further = 0
    while session.state not in ("review", "referred"):
        further += 1
        assert session.asked is not None, f"nothing is asked in {session.state}"
        session.say(answers.get(session.asked.parts[0], "don't know"))
        assert further <= 5, session.now.asked_facts
    assert session.state == "review"
    assert further <= 5
    if answers is CURT:
        assert session.standing().outcome == "specified"


def test_the_experienced_line_is_understood_whole(on: Bench) -> None:
    """Every fact of the line, in SI; psi by NIST SP 811 (6894.757 Pa), degF exact, inch 25.4 mm exact."""
    session = started(on, EXPERIENCED, home="us")
    said = session.said
    psi = 6894.757293168361
    assert said.many("failure_sign") == ("burst",)
    assert said.text("line_function") == "pressure" and said.text("medium") == "hm"
    assert said.value("bore") == 8
    assert said.value("working_pressure") == pytest.approx(2500 * psi) and said.value(
        "surge_pressure"
    ) == pytest.approx(3200 * psi)
    assert said.value("viscosity_grade") == 46
    assert said.value("fluid_temperature_max") == pytest.approx((180 - 32) / 1.8)
    assert said.value("ambient_temperature_min") == pytest.approx((-10 - 32) / 1.8)
    assert said.value("ambient_temperature_max") == pytest.approx((100 - 32) / 1.8)
    for end in ("end_a", "end_b"):
        assert (said.text(f"{end}_family"), said.text(f"{end}_size"), said.text(f"{end}_gender")) == (
            "flare37",
            "-8",
            "female",
        )
    assert said.value("overall_length") == pytest.approx(42 * 0.0254)
    assert session.state not in ("clarifying", "conflict")


def test_the_easiest_case_takes_a_new_hire_at_most_fourteen(on: Bench) -> None:
    """One answer a question, nothing volunteered, nothing not known."""
    session = started(on)
    asked = to_review(session)
    assert session.state == "review"
    assert len(asked) <= 14, asked
    assert session.now.questions_asked <= 14
    assert session.standing().outcome == "specified"
    assert session.standing().ready_for == "quote"


def test_a_new_hire_who_knows_little_gets_a_record_too(on: Bench) -> None:
    """Nobody knows pressures, temperatures, flow: easier questions follow, and the interview still ends."""
    little = {
        **EASY,
        **dict.fromkeys(
            ("working_pressure", "fluid_temperature_max", "flow_rate", "layline", "cycle_rate"), "don't know"
        ),
        "relief_setting": "180 bar, smooth",
        "surroundings": "open air",
        "bore": "1/2 in",
        "pump_flow": "40 L/min",
    }
    session = started(on)
    asked = to_review(session, little)
    assert session.state == "review"
    assert len(asked) <= 20, asked
    assert session.standing().outcome == "provisional"
    assert session.standing().preferred is not None


def test_a_stop_costs_two_questions(on: Bench) -> None:
    session = started(on, "it weeps at the thread", "road brake")
    assert session.state == "referred"
    assert session.now.questions_asked <= 2
