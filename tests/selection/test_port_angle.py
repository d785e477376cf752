"""The angle of two elbows from where the ports of a machine lie and which way they face.

The rule is MIL-DTL-83796/5 figure 3 (standard): look along the hose from the near end, near outlet down,
counter-clockwise to the far outlet. Cases worked by hand; an outlet points into its
port, so it points against the way the port faces.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.engineering.angle import difference, from_clock
from interview.facts import Fact, Known
from interview.selection.judge import Bench, known_with
from interview.selection.port_angle import FACES, angle_of_ports, ports_apart

PLACES = {"right": "port_b_right", "away": "port_b_away", "up": "port_b_up"}


def machine(a: str, b: str, *, form: str = "elbow90", **place: float) -> Known:
    """Two bent ends, two ports, distances in m."""
    said: dict[str, object] = {"port_a_faces": a, "port_b_faces": b, "end_a_form": form, "end_b_form": form}
    said |= {name: float(place.get(way, 0.0)) for way, name in PLACES.items()}
    return Known({name: Fact(name, value) for name, value in said.items()})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("a", "b", "place", "angle"),
    [
        ("up", "up", {"right": 0.8}, 0.0),  # two ports side by side: both outlets down
        ("up", "down", {"right": 0.8}, 180.0),
        ("up", "left", {"away": 0.8}, 90.0),  # looking away: outlets at 6 and at 3 o'clock
        ("up", "right", {"away": 0.8}, 270.0),  # at 6 and at 9
        ("left", "up", {"away": 0.8}, 270.0),  # at 3 and at 6: nine hours against the clock
        ("up", "towards", {"right": 0.8}, 270.0),  # looking right, away is on the left hand: outlets at 6 and at 9
        ("up", "left", {"right": 0.6, "up": 0.25}, 0.0),  # in one plane round a corner, both outlets inside the bend
    ],
)
def test_cases_worked_by_hand(a: str, b: str, place: dict[str, float], angle: float) -> None:
    found = angle_of_ports(machine(a, b, **place))
    assert found is not None and found.angle == pytest.approx(angle)


HOURS = {"up": 6.0, "left": 3.0, "down": 12.0, "right": 9.0}  # looking away from oneself, where the outlet points


@pytest.mark.parametrize("a", HOURS)
@pytest.mark.parametrize("b", HOURS)
@settings(max_examples=5, deadline=None)
@given(away=st.floats(0.3, 3.0))
def test_a_hose_running_straight_away_is_read_like_a_clock(a: str, b: str, away: float) -> None:
    found = angle_of_ports(machine(a, b, away=away))
    assert found is not None and found.angle == pytest.approx(from_clock(HOURS[a], HOURS[b]) % 360.0)


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(sorted(FACES)),
    st.sampled_from(sorted(FACES)),
    st.tuples(*[st.integers(-2000, 2000)] * 3),
    st.sampled_from(["elbow45", "elbow90"]),
)
def test_the_number_is_the_same_from_either_port_or_left_open(
    a: str, b: str, place: tuple[int, int, int], form: str
) -> None:
    """Swapping the ports changes nothing; the person stands still, so the distances change their sign."""
    there = dict(zip(PLACES, (p / 1000 for p in place), strict=True))
    back = {way: -p for way, p in there.items()}
    one, other = angle_of_ports(machine(a, b, form=form, **there)), angle_of_ports(machine(b, a, form=form, **back))
    assert one is not None and other is not None
    if one.angle is None or other.angle is None:
        assert one.why or other.why
    else:
        assert difference(one.angle, other.angle) <= 1.0


def test_a_winding_route_leaves_the_angle_open() -> None:
    found = angle_of_ports(machine("up", "left", right=0.6, up=0.2, away=0.3))
    assert found is not None and found.angle is None and "leave it open by" in found.why


def test_ports_that_face_each_other_leave_it_open() -> None:
    found = angle_of_ports(machine("up", "left", right=0.6))
    assert found is not None and found.angle is None and "turned to any side" in found.why


def test_ports_in_one_place_are_refused_in_words() -> None:
    found = angle_of_ports(machine("up", "left"))
    assert found is not None and found.angle is None and "same place" in found.why


@pytest.mark.parametrize("gone", ["port_a_faces", "port_b_up", "end_b_form"])
def test_with_a_fact_missing_nothing_is_said(gone: str) -> None:
    assert angle_of_ports(machine("up", "up", right=0.8).without([gone])) is None


def test_a_straight_end_has_no_angle() -> None:
    straight = machine("up", "up", right=0.8).with_fact(Fact("end_b_form", "straight"))
    assert angle_of_ports(straight) is None


def test_what_was_read_off_the_sample_goes_before_the_ports(on: Bench) -> None:
    clock = machine("up", "up", right=0.8)
    for name, hour in (("end_a_clock", 6.0), ("end_b_clock", 3.0)):
        clock = clock.with_fact(Fact(name, hour))
    assert known_with(clock, on).value("end_angle") == 90.0
    assert known_with(machine("up", "up", right=0.8), on).value("end_angle") == 0.0


def test_a_length_that_does_not_reach_is_told(on: Bench) -> None:
    assert ports_apart(machine("up", "up", right=0.3, up=0.4)) == pytest.approx(0.5)
    short = machine("up", "up", right=0.9).with_fact(Fact("overall_length", 0.8)).with_fact(Fact("bore", 8.0))
    found = angle_of_ports(short)
    assert found is not None and found.angle is None and "does not reach" in found.why
    assert math.isclose(ports_apart(short) or 0.0, 0.9)
