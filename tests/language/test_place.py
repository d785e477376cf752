"""Where one port lies from the other, as a person with a tape says it."""

from __future__ import annotations

import pytest

from interview.language.listen import listen

PLACE = ("port_b_right", "port_b_up", "port_b_away")


@pytest.mark.parametrize(
    ("said", "right", "up", "away"),
    [
        ("600 mm right, 200 mm up, 0 away", 600, 200, 0),
        ("24 in to the left, 8 in down, 3 in back", -609.6, -203.2, 76.2),
        ("right 600, down 50, towards me 120", 600, -50, -120),
        ("600 mm right, 250 lower, flush", 600, -250, 0),
        ("half a metre to my left, level, 4 inches nearer", -500, 0, -101.6),
        ("2 ft right, same height, 3 in further", 609.6, 0, 76.2),
    ],
)
def test_three_distances_with_their_ways(said: str, right: float, up: float, away: float) -> None:
    heard = listen(said, asked=PLACE)
    found = {f.name: f.value for f in heard.facts}
    assert not heard.unclear and not heard.ignored
    assert found == {name: pytest.approx(mm / 1e3) for name, mm in zip(PLACE, (right, up, away), strict=True)}


@pytest.mark.parametrize(
    ("said", "mm"),
    [("0", 0), ("level", 0), ("none", 0), ("200 down", -200), ("200", 200), ("-200 mm", -200), ("8 in lower", -203.2)],
)
def test_one_distance_alone(said: str, mm: float) -> None:
    heard = listen(said, asked=("port_b_up",))
    assert [f.value for f in heard.facts] == [pytest.approx(mm / 1e3)]


def test_a_bare_number_takes_the_unit_of_its_neighbour() -> None:
    heard = listen("600 mm right, 250 up", asked=PLACE, home="us")
    assert {f.name: f.value for f in heard.facts} == {
        "port_b_right": pytest.approx(0.6),
        "port_b_up": pytest.approx(0.25),
    }


def test_a_distance_out_of_all_bounds_is_asked_back() -> None:
    heard = listen("600 m right", asked=PLACE)
    assert not heard.facts and heard.unclear[0].could_be == ("port_b_right",)


@pytest.mark.parametrize("said", ["600 mm right, 200 mm up", "the port is 300 lower"])
def test_unasked_it_is_no_place(said: str) -> None:
    assert not [f for f in listen(said).facts if f.name in PLACE]


@pytest.mark.parametrize(
    ("said", "way"),
    [
        ("up", "up"),
        ("to the left", "left"),
        ("it looks down", "down"),
        ("towards me", "towards"),
        ("away from me", "away"),
    ],
)
def test_the_way_a_port_faces(said: str, way: str) -> None:
    assert [f.value for f in listen(said, asked=("port_a_faces",)).facts] == [way]
