"""Do words that answer nothing stay unread, and does a denial settle no stop?"""

from __future__ import annotations

import pytest

from interview.catalogue import CATALOGUE
from interview.language.listen import listen
from interview.language.model import Misread
from interview.language.read import read_value
from interview.reference.tables import load_tables

SENTENCES = ["inch and a quarter sorry", "it lifts loads not people", "sorry its 3/8 no 1/2", "no one knows", "spike",
             "what is a spike"]  # fmt: skip


@pytest.mark.parametrize("line", SENTENCES)
@pytest.mark.parametrize("asked", ["medium", "old_construction", "layline"])
def test_a_sentence_is_no_id_and_no_print(line: str, asked: str) -> None:
    for both in ((asked,), ("layline", "old_construction")):
        heard = listen(line, asked=both)
        assert not heard.facts
    if CATALOGUE[asked].kind.value == "ident":
        with pytest.raises(Misread):
            read_value(asked, line)


def test_every_id_of_the_tables_can_be_read() -> None:
    for medium in load_tables().fluids:
        assert read_value("medium", medium.upper()).value == medium
    for construction in load_tables().constructions:
        assert read_value("old_construction", construction).value == construction


@pytest.mark.parametrize("print_", ["TWO WIRE 1/2 210 BAR", "2SN 1/2", "HYD HOSE"])
def test_a_print_is_still_taken(print_: str) -> None:
    assert listen(print_, asked=("layline", "old_construction")).facts


@pytest.mark.parametrize("line", ["not steering", "its not a man lift", "not a person lift", "it's not for brakes"])
def test_a_denied_use_is_no_stop(line: str) -> None:
    heard = listen(line, asked=("regulated_use",))
    assert heard.fact("regulated_use") is None


def test_a_use_said_and_denied_in_one_line_is_asked_back() -> None:
    heard = listen("power steering hose no not steering, tractor hydraulic line", asked=("regulated_use",))
    assert heard.fact("regulated_use") is None
    assert [u.could_be for u in heard.unclear] == [("regulated_use",)]


@pytest.mark.parametrize("line", ["not that I know of", "not as far as I know", "Not that I am aware of."])
@pytest.mark.parametrize("asked", ["regulated_use", "exposure", "accumulator"])
def test_not_that_i_know_is_not_none(line: str, asked: str) -> None:
    heard = listen(line, asked=(asked,))
    assert heard.dont_know and not heard.facts


@pytest.mark.parametrize(
    "line", ["orbital steer on a loader", "steering unit", "hydrostatic steer", "steer cylinder hose", "steering"]
)
def test_steering_in_other_words_is_steering(line: str) -> None:
    heard = listen(line, asked=("regulated_use",)).fact("regulated_use")
    assert heard is not None and heard.value == ("steering",)


@pytest.mark.parametrize("line", ["none", "None.", "nothing", "no"])
@pytest.mark.parametrize(
    "asked",
    [
        ("flow_rate", "bore_proven"),
        ("end_a_thread_diameter", "end_a_thread_pitch", "end_a_seat_angle", "end_a_tapered"),
        ("end_b_thread_diameter", "end_b_thread_pitch", "end_b_seat_angle", "end_b_tapered"),
    ],
)
def test_none_to_a_question_of_several_kinds_answers_no_flag(line: str, asked: tuple[str, ...]) -> None:
    assert not listen(line, asked=asked).facts


def test_none_to_a_list_beside_a_flag_is_the_lists() -> None:
    heard = listen("none", asked=("failure_sign", "repeat_failure"))
    assert {f.name: f.value for f in heard.facts} == {"failure_sign": ()}
    assert listen("none", asked=("repeat_failure",)).fact("repeat_failure") is not None
