"""Is the angle the one a fitter would set, whoever looks and however the machine stands?"""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from interview.engineering.angle import (
    Arc,
    Straight,
    are_mirrored,
    clock_hour,
    difference,
    end_angle,
    from_clock,
    in_words,
    mirrored,
    normalised,
    twist_left,
)
from interview.engineering.errors import EngineeringError
from interview.engineering.ports import Laid, Port, lay
from interview.engineering.vectors import Vector, add, dot, length, minus, turned, unit

DOWN, UP, RIGHT, LEFT = (0.0, 0.0, -1.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)


@pytest.mark.parametrize(("hour", "angle"), [(6.0, 0.0), (3.0, 90.0), (12.0, 180.0), (9.0, 270.0), (4.5, 45.0)])
def test_clock_and_angle_are_the_same_thing(hour: float, angle: float) -> None:
    # near outlet at 6, counter-clockwise for one who looks along the hose from the near end (MIL-DTL-83796/5 figure 3)
    assert from_clock(6.0, hour) == angle
    assert clock_hour(angle) == hour
    # a sample held any other way up gives the same angle
    assert from_clock(1.0, (hour + 7.0) % 12.0) == angle


@pytest.mark.parametrize(
    ("angle", "words"),
    [
        (0.0, "6 o'clock, down"),
        (90.0, "3 o'clock, to the right"),
        (180.0, "12 o'clock, up"),
        (270.0, "9 o'clock, to the left"),
        (45.0, "half past 4, down to the right"),
        (165.0, "half past 12, up to the right"),
        (100.0, "between 2 and 3 o'clock, up to the right"),
        (170.0, "between 12 and 1 o'clock, up to the right"),
    ],
)
def test_the_angle_in_words(angle: float, words: str) -> None:
    assert in_words(angle) == f"near outlet down at 6 o'clock, far outlet at {words}"


def test_what_the_wrong_readings_would_give() -> None:
    # clockwise from near to far gives 360 less the angle: the slip to ask back about
    angle = end_angle(DOWN, RIGHT, [Straight(0.5)])
    assert angle == 90.0
    assert mirrored(angle) == 270.0 == end_angle(DOWN, LEFT, [Straight(0.5)])


@given(st.floats(0, 360), st.floats(0, 360))
@settings(deadline=None, database=None, derandomize=True)
def test_a_mirrored_pair_adds_up_to_a_full_turn(one: float, other: float) -> None:
    assert (normalised(one) + mirrored(one)) % 360.0 == pytest.approx(0.0, abs=1e-9)
    assert 0.0 <= difference(one, other) <= 180.0
    if 1e-3 < difference(one, mirrored(one)):
        assert are_mirrored(one, mirrored(one))


def test_twist_left_over_in_a_short_hose() -> None:
    # the tolerance of 3 degrees on half a metre
    assert twist_left(0.0, 357.0, 0.5) == 6.0


# --- from the ports in space ------------------------------------------------------------------------------------------


def _near_is_down(bend: float = 90.0) -> Port:
    """Under the hose: the port points up to it, so the outlet points down."""
    return Port((0.0, 0.0, 0.0), UP, bend)


@pytest.mark.parametrize(("outlet", "angle"), [(DOWN, 0.0), (RIGHT, 90.0), (UP, 180.0), (LEFT, 270.0)])
def test_two_elbows_on_a_straight_run(outlet: Vector, angle: float) -> None:
    far = Port((0.8, 0.0, 0.0), (-outlet[0], -outlet[1], -outlet[2]), 90.0)
    found = lay(_near_is_down(), far)
    assert found.angle_deg == pytest.approx(angle, abs=1e-6)
    assert found.free_length_m == pytest.approx(0.8, rel=1e-6)


def test_a_bend_of_a_right_angle_by_hand() -> None:
    # from +x up to +z: the near outlet, down at first, points to +x at the end; so a far outlet to +x is 0
    near = Port((0.0, 0.0, 0.0), UP, 90.0, leaves=(1.0, 0.0, 0.0))
    far = Port((0.5, 0.0, 0.5), (-1.0, 0.0, 0.0), 90.0, leaves=(0.0, 0.0, -1.0))
    assert lay(near, far).angle_deg == pytest.approx(0.0, abs=1e-6)
    sideways = Port((0.5, 0.0, 0.5), (0.0, 1.0, 0.0), 90.0, leaves=(0.0, 0.0, -1.0))
    assert lay(near, sideways).angle_deg == pytest.approx(90.0, abs=1e-6)


@pytest.mark.parametrize("turn", [0.0, 37.0, 90.0, 200.0, 333.0])
def test_in_a_plane_the_curve_does_not_matter(turn: float) -> None:
    """On a flat route the angle is the difference of the outlets' angles about the hose, whatever its length."""
    far_out = turned((0.0, 0.0, 1.0), (0.0, 1.0, 0.0), turn)
    near = Port((0.0, 0.0, 0.0), UP, 90.0, leaves=(0.0, 1.0, 0.0))
    far = Port((0.7, 0.0, 0.0), far_out, 90.0, leaves=(0.0, 1.0, 0.0))
    found = {lay(near, far, (), size).angle_deg for size in (None, 1.2, 1.6, 2.5)}
    expected = end_angle(
        DOWN,
        (-far_out[0], -far_out[1], -far_out[2]),
        [Arc((1.0, 0.0, 0.0), 0.35, 180.0)],
        start=(0.0, 1.0, 0.0),
    )
    for angle in found:
        assert angle is not None and difference(angle, expected) < 1e-6


def test_the_curve_is_as_long_as_the_hose() -> None:
    near = Port((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    far = Port((0.9, 0.3, 0.1), (-1.0, 0.0, 0.0))
    for wanted in (1.0, 1.3, 2.0):
        assert lay(near, far, (), wanted).free_length_m == pytest.approx(wanted, rel=1e-4)
    with pytest.raises(EngineeringError, match="shortest way between its ends is 953"):
        lay(near, far, (), 0.9)


def test_tightest_bend_of_a_round_route() -> None:
    # stretched to the length of a quarter circle, the smooth curve is nearly that quarter circle
    near = Port((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    far = Port((0.4, 0.4, 0.0), (0.0, -1.0, 0.0))
    found = lay(near, far, (), math.pi / 2 * 0.4)
    assert found.tightest_radius_m == pytest.approx(0.4, rel=0.05)


def test_a_straight_end_needs_no_angle() -> None:
    assert lay(Port((0, 0, 0), (1, 0, 0)), Port((0.8, 0, 0), (0, 0, 1), 90.0)).angle_deg is None


def test_a_bent_end_that_may_turn_anywhere_asks_for_its_way() -> None:
    with pytest.raises(EngineeringError, match="which way the hose leaves it has to be given"):
        lay(Port((0, 0, 0), (1, 0, 0), 90.0), Port((0.8, 0, 0), (0, 0, 1), 90.0))


coordinate = st.floats(-1.0, 1.0)
space = st.tuples(coordinate, coordinate, coordinate)
direction = space.filter(lambda v: 0.2 < length(v))


def _laid(near: Port, far: Port, via: tuple[Vector, ...]) -> Laid:
    try:
        found = lay(near, far, via)
    except EngineeringError:
        assume(False)
        raise
    # where a curve all but stops or turns on the spot its frame is a matter of the sampling
    assume(found.tightest_radius_m > 0.02)
    return found


@settings(max_examples=60, deadline=None, database=None, derandomize=True)
@given(
    here=space,
    there=space,
    out_near=direction,
    out_far=direction,
    leaves_near=direction,
    leaves_far=direction,
    bends=st.tuples(st.sampled_from([45.0, 90.0]), st.sampled_from([45.0, 90.0])),
    via=st.lists(space, max_size=1).map(tuple),
    axis=direction,
    turn=st.floats(0.0, 360.0),
    shift=space,
)
def test_moving_turning_and_swapping_change_nothing(
    here: Vector, there: Vector, out_near: Vector, out_far: Vector, leaves_near: Vector, leaves_far: Vector,
    bends: Any, via: tuple[Vector, ...], axis: Vector, turn: float, shift: Vector,
) -> None:  # fmt: skip
    assume(length(minus(here, there)) > 0.2)
    near, far = Port(here, out_near, bends[0], leaves_near), Port(there, out_far, bends[1], leaves_far)
    found = _laid(near, far, via)
    assert found.angle_deg is not None

    def move(p: Vector) -> Vector:
        return add(turned(p, unit(axis), turn), shift)

    def turn_only(v: Vector) -> Vector:
        return turned(v, unit(axis), turn)

    moved = lay(
        Port(move(here), turn_only(out_near), bends[0], turn_only(leaves_near)),
        Port(move(there), turn_only(out_far), bends[1], turn_only(leaves_far)),
        tuple(move(p) for p in via),
    )
    assert moved.angle_deg is not None and difference(moved.angle_deg, found.angle_deg) < 1e-5
    assert moved.free_length_m == pytest.approx(found.free_length_m, rel=1e-9)

    swapped = lay(far, near, via[::-1])
    assert swapped.angle_deg is not None and difference(swapped.angle_deg, found.angle_deg) < 1e-5

    def mirror(v: Vector) -> Vector:
        return (-v[0], v[1], v[2])

    other_side = lay(
        Port(mirror(here), mirror(out_near), bends[0], mirror(leaves_near)),
        Port(mirror(there), mirror(out_far), bends[1], mirror(leaves_far)),
        tuple(mirror(p) for p in via),
    )
    assert other_side.angle_deg is not None
    assert difference(other_side.angle_deg, mirrored(found.angle_deg)) < 1e-5


def test_random_bends_are_the_same_from_either_end() -> None:
    chance = random.Random(7)
    for _ in range(200):
        route: list[Straight | Arc] = []
        back: list[Straight | Arc] = []
        tangent: Vector = (1.0, 0.0, 0.0)
        near = unit((0.0, chance.uniform(-1, 1), chance.uniform(-1, 1)))
        for _ in range(chance.randint(1, 4)):
            side = unit(tuple(chance.gauss(0, 1) for _ in range(3)))  # type: ignore[arg-type]
            flat = minus(side, tuple(dot(side, tangent) * c for c in tangent))  # type: ignore[arg-type]
            turn = chance.uniform(10, 170)
            route.append(Arc(side, 0.2, turn))
            axis = unit(
                (
                    tangent[1] * flat[2] - tangent[2] * flat[1],
                    tangent[2] * flat[0] - tangent[0] * flat[2],
                    tangent[0] * flat[1] - tangent[1] * flat[0],
                )
            )
            after = turned(tangent, axis, turn)
            # walked backwards a bend turns to where the hose came from
            back.insert(0, Arc((-tangent[0], -tangent[1], -tangent[2]), 0.2, turn))
            tangent = after
        far = unit(tuple(chance.gauss(0, 1) for _ in range(3)))  # type: ignore[arg-type]
        there = end_angle(near, far, route)
        home = end_angle(far, near, back, start=(-tangent[0], -tangent[1], -tangent[2]))
        assert difference(there, home) < 1e-6
