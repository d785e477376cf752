"""What three people saw at the counter and stumbled over: the new hire, the experienced hand, the trainer."""

from __future__ import annotations

import pytest
from talks import EXPERIENCED, started, to_review, words

from interview.dialogue import events as ev
from interview.dialogue.review import headline
from interview.dialogue.session import Session
from interview.selection.judge import Bench


def knows_nothing(on: Bench) -> tuple[Session, list[ev.Event]]:
    session = started(on)
    told: list[ev.Event] = []
    while session.state != "review":
        told = session.say("?")
    return session, told


def test_a_question_nobody_answered_stays_as_it_was_put(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none")
    before = session.asked
    assert before is not None and "flow_rate" in before.parts and len(before.parts) > 1
    told = session.say("straight both ends")
    assert any(isinstance(e, ev.Noted) for e in told)
    assert session.asked is not None
    assert (session.asked.text, session.asked.parts, session.asked.step) == (before.text, before.parts, before.step)


def test_who_knows_nothing_is_told_what_to_find_out_first(on: Bench) -> None:
    _, told = knows_nothing(on)
    review = next(e for e in told if isinstance(e, ev.Reviewed))
    assert review.ready_for == "none"
    found = [line for line in review.lines if line.startswith("To find out ")]
    assert len(found) == 3 and any("Follow it: from the tank to the pump" in line for line in found)


def test_a_topic_of_unknowns_is_never_settled(on: Bench) -> None:
    session, _ = knows_nothing(on)
    assert "done" not in {line.state for line in session.topic_lines()}


def test_with_everything_said_every_topic_is_settled(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", "straight both ends", "12 gpm", "none", "60 an hour")
    assert session.state == "review"
    assert {line.state for line in session.topic_lines()} == {"done"}


def test_with_no_question_open_a_dont_know_repeats_nothing(on: Bench) -> None:
    session, _ = knows_nothing(on)
    assert [type(e) for e in session.say("?")] == [ev.Explained]
    assert session.state == "review"


def test_readings_that_speak_against_the_name_are_told_at_once(on: Bench) -> None:
    session = started(
        on, EXPERIENCED, "none", "straight both ends", "12 gpm", "none", "60 an hour", "build", "don't know"
    )
    told = words(session.say("19.0 mm, 14 tpi, 74 degrees"))
    assert "the readings speak against 37" in told and "Measure again" in told


def test_missing_for_a_build_says_how_far_a_thing_is_known(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", "straight both ends", "12 gpm", "none")
    review = next(e for e in session.say("60 an hour") if isinstance(e, ev.Reviewed))
    assert any(m.startswith("end A connection: named (37") and "measure it" in m for m in review.missing)


@pytest.mark.parametrize(("spike", "shown"), [("don't know", True), ("peaks 300 bar on the logger", False)])
def test_a_hose_that_falls_for_an_assumed_spike_says_assumed(on: Bench, spike: str, shown: bool) -> None:
    session = started(on, "burst hose, pressure line, half inch, 195 bar, HLP 46")
    session.say("none")
    for _ in range(6):
        if session.known.has("surge_pressure"):
            break
        session.say(spike)
    told = words(session.why_not("2SC 8"))
    assert ("(assumed) is above" in told) is shown
    assert "is above" in told


ELBOWS = ("none", "12 gpm", "90 degree elbows both ends")


def test_who_has_no_sample_gives_the_ports_instead(on: Bench) -> None:
    session = started(on, EXPERIENCED, *ELBOWS)
    for question, answer in (
        ("end_angle", "?"),
        ("end_a_clock", "?"),
        ("port_a_faces", "up"),
        ("port_b_faces", "to my left"),
        ("port_b_right", "0 mm right, level, 620 away"),
    ):
        assert session.asked is not None and session.asked.parts[0] == question
        told = words(session.say(answer))
    assert "Angle between the ends: 90" in told and session.known.value("end_angle") == 90.0


def test_ports_that_do_not_settle_the_angle_say_what_would(on: Bench) -> None:
    session = started(on, EXPERIENCED, *ELBOWS, "?", "?", "up", "left")
    told = words(session.say("600 mm right, 200 mm up, 300 mm away"))
    assert "do not settle the angle" in told and "Lay a piece of hose or wire" in told
    assert "end_angle" in session.standing().missing_for_build


def test_the_name_of_a_thread_is_not_what_a_female_measures(on: Bench) -> None:
    """3/4-16 is 19.05 mm outside; inside its nut it is 17.5 (ASME B1.1 limits), and 19 inside is another thread."""
    session = started(
        on, EXPERIENCED, "none", "straight both ends", "12 gpm", "none", "60 an hour", "build", "don't know"
    )
    told = words(session.say("3/4-16, 74 degrees"))
    assert "outside of the thread" in told and session.known.value("end_a_seat_angle") == 74.0
    assert not session.known.has("end_a_thread_diameter") and session.known.has("end_a_thread_pitch")
    assert session.asked is not None and session.asked.parts[0] == "end_a_thread_diameter"
    session.say("17.5 mm")
    assert session.known.value("end_a_thread_diameter") == 0.0175


def test_nor_where_the_end_turns_out_to_be_female(on: Bench) -> None:
    males = EXPERIENCED.replace("JIC 8 females both ends", "JIC 8 males both ends")
    session = started(on, males, "none", "straight both ends", "12 gpm", "none", "60 an hour", "build", "don't know")
    session.say("3/4-16, 74 degrees")
    assert session.known.value("end_a_thread_diameter") == 0.01905
    told = words(session.say("change end A gender to female"))
    assert "outside of the thread" in told and not session.known.has("end_a_thread_diameter")


# ---- what is asked back stays on the table -------------------------------------------------------------------------


def test_an_answer_that_was_asked_back_does_not_vanish(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none")
    session.say("actually it's 3500 psi")
    assert session.state == "clarifying"
    told = words(session.say("flexing, one plane"))
    assert session.state == "clarifying" and session.known.value("motion") == "flexing" and "3500" in told
    assert "Choose a number" in words(session.say("well well"))
    assert session.state == "clarifying"
    choice = session.now.doubts[0].readings.index(
        next(r for r in session.now.doubts[0].readings if r.name == "working_pressure")
    )
    session.say(str(choice + 1))
    assert session.state != "clarifying" and session.known.high("working_pressure") == pytest.approx(3500 * 6894.757)


def test_what_was_asked_back_may_be_said_again_in_words(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none")
    session.say("actually it's 3500 psi")
    session.say("the working pressure is 3500 psi")
    assert session.state != "clarifying" and session.known.high("working_pressure") == pytest.approx(3500 * 6894.757)


def test_under_a_conflict_the_hidden_question_is_not_answered(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", "working pressure is 3000 psi")
    assert session.state == "conflict"
    hidden = session.to_ask
    assert hidden is not None
    for line in ("dunno", "none", "well well"):
        assert "Choose a number" in words(session.say(line)), line
    assert not any(session.said.answered(part) for part in hidden.parts)
    session.say("1")
    assert session.state != "conflict"


# ---- said to be so, and nobody knows how far -----------------------------------------------------------------------


def review_lines(session: Session) -> list[str]:
    return [line for event in session.present() if isinstance(event, ev.Reviewed) for line in event.lines]


@pytest.mark.parametrize(("tick", "fact"), [("it moves", "motion"), ("a tight bend", "bend_radius_available")])
def test_what_is_ticked_and_not_known_stays_open(on: Bench, tick: str, fact: str) -> None:
    session = started(on, EXPERIENCED, "none", "straight both ends", "12 gpm")
    assert session.asked is not None and session.asked.many
    session.say(str([o.value for o in session.asked.options].index(fact) + 1))
    for _ in range(12):
        if session.state == "review":
            break
        session.say("?" if session.asked is not None and fact in session.asked.parts else "none")
    standing = session.standing()
    assert standing.outcome == "provisional" and fact in standing.open and fact in standing.missing_for_build, tick
    assert "nobody knows whether it moves" not in " ".join(review_lines(session))


def test_the_same_hose_failed_before_is_the_first_thing_said(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", "it failed before this year", "straight both ends", "12 gpm", "none")
    review = next(e for e in session.say("60 an hour") if isinstance(e, ev.Reviewed))
    assert review.lines[1].startswith("The same hose failed before")


def test_skip_puts_a_question_off(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none")
    put_off = session.asked
    session.say("skip")
    assert session.asked is not None and put_off is not None and session.asked.parts != put_off.parts


def test_hoses_fall_with_the_assumption_that_fells_them(on: Bench) -> None:
    """Not a turn before: "96 fewer" with no reason beside it frightens."""
    session = started(on, "burst hose, pressure line, half inch, 3000 psi, AW46, oil to 180F, yard -10 to 100F")
    session.say("none")
    for _ in range(12):
        told = session.say("?")
        fewer = [e for e in told if isinstance(e, ev.Narrowed)]
        if fewer:
            assert any(isinstance(e, ev.Assumed) for e in told)
            return
    raise AssertionError("the assumed spike was never told")


def test_none_to_several_things_is_no_no_to_one(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none")
    assert session.asked is not None and set(session.asked.parts) >= {"flow_rate", "bore_proven"}
    session.say("none")
    assert not session.said.has("bore_proven")


def test_where_only_an_assumed_spike_fails_them_all_it_is_said_to_be_assumed(on: Bench) -> None:
    """1.5 x 420 = 630 bar by house rule, and nothing of an inch carries it; nobody has measured 630."""
    job = "pressure line, 1 inch, 380 bar, relief 420 bar, HM 46, oil to 70 C, air 10 to 40 C, 180 L/min"
    for spike, assumed in (("don't know", True), ("630 bar", False)):
        session = started(on, job)
        to_review(session, {"surge_pressure": spike, "shock": "some shock", "relief_setting": "420 bar"})
        told = headline(session.standing(), "metric")
        assert session.standing().outcome == "unmatched" and told.startswith("No hose of the tables passes.")
        assert ("The spike of 630 bar (9,137 psi) is assumed: measured it may be lower" in told) is assumed


def test_what_is_too_long_for_a_line_is_said_to_be_cut(on: Bench) -> None:
    session = started(on)
    told = session.say("burst hose, half inch, 180 bar, " * 200 + "road brake")
    assert words(told).strip().startswith("Too long for one line\nOnly the first 4,000 of 6,410 characters were read")
    assert session.said.low("bore") == 8 and not session.said.has("regulated_use")


def test_who_cannot_read_the_print_is_still_asked_for_the_bore(on: Bench) -> None:
    """A plug gauge reads what the print no longer does."""
    session = started(on, "hose burst", "none")
    assert session.asked is not None and session.asked.parts[0] == "layline"
    session.say("don't know")
    assert session.asked.parts == ("bore",) and session.said.answered("layline") and not session.said.answered("bore")
    session.say("don't know")
    assert session.said.answered("bore") and "bore" not in session.asked.parts
