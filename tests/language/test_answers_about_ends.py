"""Is an answer about an end heard as of the end that was asked about, and a thread's name as its readings?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen

READINGS_A = ("end_a_thread_diameter", "end_a_thread_pitch", "end_a_seat_angle", "end_a_tapered")
READINGS_B = tuple(name.replace("end_a", "end_b") for name in READINGS_A)
END_B = ("end_b_family", "end_b_size", "end_b_gender", "end_b_form")


def heard(line: str, *asked: str, home: str = "metric") -> dict[str, object]:
    return {f.name: f.value for f in listen(line, asked=asked, home=home).facts}


@pytest.mark.parametrize("asked", ["end_a_size", "end_a_family", "end_b_size", "end_b_family"])
@pytest.mark.parametrize("line", ["18L", "18l", "it's 18L"])
def test_a_cones_size_alone_names_the_end_that_was_asked(asked: str, line: str) -> None:
    end = asked[:5]
    listening = listen(line, asked=(asked,))
    assert {f.name: f.value for f in listening.facts} == {f"{end}_family": "cone24_L", f"{end}_size": "18L"}
    assert not listening.unclear and listening.facts[0].said == line[-3:]


@pytest.mark.parametrize("asked", [("end_b_family",), ("end_b_size",), END_B])
def test_its_form_goes_with_it(asked: tuple[str, ...]) -> None:
    assert heard("18L, 45 degrees", *asked) == {
        "end_b_family": "cone24_L",
        "end_b_size": "18L",
        "end_b_form": "elbow45",
    }


def test_unasked_it_is_still_asked_back_which_end_it_is() -> None:
    listening = listen("18L")
    assert not listening.facts and listening.unclear[0].could_be == ("end_a_family",)


def test_a_place_that_is_said_goes_before_the_end_that_was_asked() -> None:
    assert heard("the other end is 22L", "end_a_family") == {"end_b_family": "cone24_L", "end_b_size": "22L"}


def test_a_thread_alone_is_asked_back_of_the_end_that_was_asked() -> None:
    assert listen("M26x1.5", asked=("end_b_family",)).unclear[0].could_be == ("end_b_family",)


def test_a_cone_that_was_denied_is_not_taken() -> None:
    assert heard("not 18L, 22L", "end_a_family") == {"end_a_family": "cone24_L", "end_a_size": "22L"}


def test_the_two_sides_of_an_adapter_are_asked_back() -> None:
    listening = listen("adapter 18L to 1/2 BSP", asked=("adapter_a_family",))
    assert not listening.facts
    assert {u.could_be for u in listening.unclear} == {("adapter_a_family",), ("adapter_a_size",)}


def test_the_cone_of_an_adapter_is_the_adapters() -> None:
    assert heard("18L", "adapter_a_family") == {"adapter_a_family": "cone24_L", "adapter_a_size": "18L"}


@pytest.mark.parametrize(
    ("line", "diameter", "pitch"),
    [  # mm; ISO 261, ASME B1.1 and ISO 228-1 name a thread by its outside and its pitch
        ("M26x1.5", 26.0, 1.5),
        ("26x1.5", 26.0, 1.5),
        ("26 x 1,5 mm", 26.0, 1.5),
        ("M30 x 2", 30.0, 2.0),
        ("7/8-14", 22.225, 25.4 / 14),
        ("7/8-14 UNF", 22.225, 25.4 / 14),
        ("7/8 14 tpi", 22.225, 25.4 / 14),
        ("1-1/16-12", 26.9875, 25.4 / 12),
        ("G1/2 14 tpi", 20.955, 25.4 / 14),
        ("G 3/4, 14 tpi", 26.441, 25.4 / 14),
    ],
)
@pytest.mark.parametrize("asked", [READINGS_A, READINGS_B])
def test_the_name_of_a_thread_gives_its_readings(
    line: str, diameter: float, pitch: float, asked: tuple[str, ...]
) -> None:
    end = asked[0][:5]
    assert heard(line, *asked) == {
        f"{end}_thread_diameter": pytest.approx(diameter / 1000),
        f"{end}_thread_pitch": pytest.approx(pitch / 1000),
    }


def test_the_seat_and_the_taper_are_heard_beside_the_name() -> None:
    got = heard("M26x1.5, parallel, 24", *READINGS_A)
    assert got["end_a_seat_angle"] == 24.0 and got["end_a_tapered"] is False
    assert heard("7/8-14, 74 degrees", *READINGS_A)["end_a_seat_angle"] == 74.0


@pytest.mark.parametrize("line", ["1/2-14", "3/4 14 tpi", "1/2", "1-11.5", "M26x1.5 inside the nut"])
def test_what_a_name_does_not_say_of_the_diameter_is_asked_back(line: str) -> None:
    """A pipe size is no diameter, and a thread's name speaks of its outside, not of the inside of a female."""
    listening = listen(line, asked=READINGS_A)
    assert listening.fact("end_a_thread_diameter") is None
    assert any("end_a_thread_diameter" in u.could_be for u in listening.unclear)


def test_a_count_that_is_not_the_named_threads_is_asked_back() -> None:
    listening = listen("G1/2 19 tpi", asked=READINGS_A)
    assert not listening.facts
    assert listening.unclear[0].could_be == ("end_a_thread_diameter", "end_a_thread_pitch")


def test_a_name_that_settles_the_connection_is_no_reading() -> None:
    assert heard("M26x1.5 light series", *READINGS_A) == {"end_a_family": "cone24_L", "end_a_size": "18L"}


@pytest.mark.parametrize("line", ["26.0 mm, 1.5 mm pitch, 24 degrees", "19.0 mm, 16 tpi, 74 degrees"])
def test_readings_given_one_by_one_stay_as_they_were(line: str) -> None:
    assert set(heard(line, *READINGS_A)) == set(READINGS_A[:3])


@pytest.mark.parametrize("line", ["1/0", "7/0 14 tpi", "999x9", "M0x0", "80 by 45", "0-14"])
def test_what_no_thread_can_be_is_no_reading(line: str) -> None:
    assert not {"end_a_thread_diameter", "end_a_thread_pitch"} <= set(heard(line, *READINGS_A))


def test_end_b_the_same_takes_what_it_does_not_say_from_end_a() -> None:
    got = heard("end A ORFS -10 female straight, end B the same with a 90")
    assert (got["end_b_family"], got["end_b_size"], got["end_b_gender"]) == ("orfs", "-10", "female")
    assert (got["end_a_form"], got["end_b_form"]) == ("straight", "elbow90")


@pytest.mark.parametrize(
    "line", ["end A JIC 8 straight, other end same but 45", "end A JIC 8 straight, end B the same but a 45"]
)
def test_what_differs_goes_before_the_same(line: str) -> None:
    got = heard(line)
    assert (got["end_b_family"], got["end_b_size"]) == ("flare37", "-8")
    assert (got["end_a_form"], got["end_b_form"]) == ("straight", "elbow45")


@pytest.mark.parametrize("line", ["15S", "16L", "15S, 90"])
def test_a_size_that_no_series_has_settles_no_series(line: str) -> None:
    """The heavy series is rated higher: a slip of one letter must not choose it."""
    listening = listen(line, asked=("end_a_family", "end_a_size", "end_a_form"))
    assert not {"end_a_family", "end_a_size"} & {f.name for f in listening.facts}
    assert listening.unclear[0].could_be == ("end_a_family",) and "there is no 1" in listening.unclear[0].why


@pytest.mark.parametrize("line", ["21.9, 1.5, 24", "21.9 mm, 1.5, 24", "21.9, 1.5 mm, 24 degrees"])
@pytest.mark.parametrize("asked", [READINGS_A, READINGS_B])
def test_three_figures_are_the_readings_in_the_order_asked(line: str, asked: tuple[str, ...]) -> None:
    got = heard(line, *asked)
    assert [got[name] for name in asked[:3]] == [pytest.approx(0.0219), pytest.approx(0.0015), 24.0]


def test_an_angle_alone_is_the_reading_that_was_asked_and_no_name() -> None:
    assert set(heard("0.875 in, 14 tpi, 37 degrees", *READINGS_A)) == set(READINGS_A[:3])
    assert heard("37 degree flare", *READINGS_A) == {"end_a_family": "flare37"}
    assert heard("37 degrees, -8", "end_a_family", "end_a_size") == {"end_a_family": "flare37", "end_a_size": "-8"}


def test_the_spanner_of_a_nut_is_not_its_thread() -> None:
    listening = listen("M22x1.5 nut, 27 mm spanner", asked=READINGS_A)
    assert listening.fact("end_a_thread_diameter") is None


@pytest.mark.parametrize("line", ["19, 16, 74", "21.9, 24", "5, 1.5, 200"])
def test_figures_that_cannot_be_the_three_in_order_are_not_taken_for_them(line: str) -> None:
    assert not heard(line, *READINGS_A)


def test_an_answer_to_a_question_about_both_ends_is_of_both() -> None:
    got = heard("stainless, with EPDM", "end_a_metal", "end_b_metal", "end_a_seal", "end_b_seal")
    assert got == {"end_a_metal": "SS316", "end_b_metal": "SS316", "end_a_seal": "EPDM", "end_b_seal": "EPDM"}
    assert heard("stainless on end A", "end_a_metal", "end_b_metal") == {"end_a_metal": "SS316"}


def test_an_end_whose_pipe_thread_is_not_told_is_asked_back_beside_another_size() -> None:
    for line in ("JIC 12 on A, male pipe 3/4 on B", "A is face seal 12, male pipe 3/4 on B"):
        listening = listen(line)
        assert [u.could_be for u in listening.unclear] == [("end_b_family",)]
        sizes = {f.name: f.value for f in listening.facts if f.name.endswith("_size")}
        assert sizes == {"end_a_size": "-12", "end_b_size": "3/4"}
