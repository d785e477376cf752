"""Is what is measured of an end taken for that reading, and for nothing else?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen

READINGS = ("end_a_thread_diameter", "end_a_thread_pitch", "end_a_seat_angle")
EXAMPLE = "17.5 mm, 16 tpi, 74 degrees; 26.0 mm, 1.5 mm pitch, 24 degrees"


@pytest.mark.parametrize("end", ["end_a", "end_b"])
@pytest.mark.parametrize("line", ["female, inside 17.5 mm, 16 tpi, 74 degree", "inside measures 17.5 mm, 16 tpi, 74"])
def test_a_length_at_a_measuring_question_is_that_reading(line: str, end: str) -> None:
    asked = tuple(name.replace("end_a", end) for name in READINGS)
    heard = listen(line, asked=asked)
    assert {f.name: f.value for f in heard.facts} == {
        f"{end}_gender": "female",
        f"{end}_thread_diameter": pytest.approx(0.0175),
        f"{end}_thread_pitch": pytest.approx(0.0254 / 16),
        f"{end}_seat_angle": 74.0,
    }
    assert not heard.unclear


def test_the_two_examples_in_one_line_are_asked_back_and_no_bore() -> None:
    heard = listen(EXAMPLE, asked=READINGS)
    assert not heard.facts
    assert {u.could_be for u in heard.unclear} == {(name,) for name in READINGS}


@pytest.mark.parametrize("line", ["11/16", "17.5 mm", "11/16 inch", "13/16 hose, 200 bar", "9/16 inch bore hose"])
@pytest.mark.parametrize("asked", [("bore",), ()])
def test_what_no_hose_is_made_in_is_no_bore(line: str, asked: tuple[str, ...]) -> None:
    assert listen(line, asked=asked).fact("bore") is None


@pytest.mark.parametrize(("line", "bore"), [("7/8", 14.0), ("10.3 mm", 6.5), ("1/2", 8.0), ("1-1/8 inch", 18.0)])
def test_the_bores_of_the_tables_are_taken(line: str, bore: float) -> None:
    heard = listen(line, asked=("bore",)).fact("bore")
    assert heard is not None and heard.value == bore


@pytest.mark.parametrize("end", ["end_a", "end_b"])
def test_a_thread_that_is_measured_settles_no_sealing_place(end: str) -> None:
    heard = listen("thread inside measures 22", asked=(f"{end}_seals_at",))
    assert {f.name: f.value for f in heard.facts} == {
        f"{end}_gender": "female",
        f"{end}_thread_diameter": pytest.approx(0.022),
    }


@pytest.mark.parametrize("line", ["nut", "it has a nut", "inside measures 22 mm", "internal thread"])
def test_who_speaks_of_the_nut_has_a_female(line: str) -> None:
    heard = listen(line, asked=("end_a_seals_at",))
    assert heard.fact("end_a_seals_at") is None
    gender = heard.fact("end_a_gender")
    assert gender is not None and gender.value == "female"


@pytest.mark.parametrize("line", ["no nut", "not female"])
def test_a_denied_nut_is_no_female(line: str) -> None:
    assert listen(line, asked=("end_a_seals_at",)).fact("end_a_gender") is None


@pytest.mark.parametrize("line", ["thread", "on the thread", "it seals on the thread", "nothing but the thread itself"])
def test_a_thread_that_seals_is_the_sealing_place(line: str) -> None:
    heard = listen(line, asked=("end_a_seals_at",)).fact("end_a_seals_at")
    assert heard is not None and heard.value == "thread"
