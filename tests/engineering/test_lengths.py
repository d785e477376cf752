"""Do the length formulas hold against the geometry itself, laid out point by point?"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.engineering import geometry, lengths, moving

radii = st.floats(0.03, 0.5)
ods = st.floats(0.008, 0.07)
travels = st.floats(0.0, 2.0)
straights = st.floats(0.0, 0.2)


@given(radii, ods, travels, straights, st.booleans())
@settings(deadline=None, database=None, derandomize=True)
def test_a_moving_loop_keeps_its_straight_parts_everywhere(
    radius: float, od: float, travel: float, straight: float, middle: bool
) -> None:
    """Walk the moving end through its stroke: the two legs of the loop share what the bend leaves over."""
    hose = moving.loop_length(radius, od, travel, straight, middle)
    bend = math.pi * geometry.centreline_radius(radius, od)
    start = -travel / 2 if middle else 0.0
    shortest = math.inf
    for step in range(21):
        moved = start + travel * step / 20
        fixed_leg = (hose - bend + moved) / 2
        shortest = min(shortest, fixed_leg, fixed_leg - moved)
    assert shortest == pytest.approx(straight, abs=1e-9)
    assert moving.check_loop(hose * (1 + 1e-6), radius, od, travel, straight, middle) >= 0.0
    assert moving.loop_bend(hose, travel, straight, middle) == pytest.approx(bend / math.pi)


def test_half_the_stroke_is_too_short_when_the_fixed_end_stands_at_one_end_of_it() -> None:
    half = moving.loop_length(0.18, 0.022, 0.6, 0.033)
    with pytest.raises(ValueError, match="shortest is 1266 mm"):
        moving.check_loop(half, 0.18, 0.022, 0.6, 0.033, fixed_at_mid_stroke=False)


@given(st.floats(0.05, 5.0), st.floats(1.0001, 2.5))
@settings(deadline=None, database=None, derandomize=True)
def test_the_bow_of_a_slack_hose_is_an_arc_of_its_length(chord: float, stretch: float) -> None:
    hose = chord * stretch
    height = geometry.bow_height(chord, hose)
    # radius of the circle through both ports and the top of the bow, then its arc
    radius = (chord**2 / 4 + height**2) / (2 * height)
    half = math.atan2(chord / 2, radius - height)
    assert 2 * half * radius == pytest.approx(hose, rel=1e-6)


@given(st.floats(0.1, 3.0), st.floats(1.0, 1.05))
@settings(deadline=None, database=None, derandomize=True)
def test_the_quick_bow_is_within_one_per_cent_up_to_five_per_cent_of_slack(chord: float, stretch: float) -> None:
    exact, quick = geometry.bow_height(chord, chord * stretch), geometry.bow_height_quick(chord, chord * stretch)
    assert quick == pytest.approx(exact, rel=0.01, abs=1e-5 * chord)


@given(st.floats(0.0, 1.0), radii, straights, st.floats(0.01, 0.5))
@settings(deadline=None, database=None, derandomize=True)
def test_an_offset_ends_where_the_other_port_is(offset: float, centre: float, straight: float, extra: float) -> None:
    """Walk along the two arcs: the end has to be `offset` to the side and `distance` ahead."""
    offset = min(offset, 2 * centre)
    distance = geometry.offset_projection(offset, centre, straight) + extra
    hose = geometry.offset_length(offset, centre, straight, distance)
    alpha = math.radians(geometry.offset_angle(offset, centre))
    ahead = 2 * straight + extra + 2 * centre * math.sin(alpha)
    aside = 2 * centre * (1 - math.cos(alpha))
    assert ahead == pytest.approx(distance, abs=1e-9)
    assert aside == pytest.approx(offset, abs=1e-8)
    assert hose == pytest.approx(2 * straight + extra + 2 * centre * alpha)
    assert hose >= math.hypot(distance, offset) - 1e-9


@given(st.floats(0.0, 1.0), radii, straights, st.floats(0.0, 2.0))
@settings(deadline=None, database=None, derandomize=True)
def test_an_offset_wider_than_two_radii_is_a_smooth_s(
    past: float, centre: float, straight: float, extra: float
) -> None:
    """The angle is found by halving, not by the formula: turned by it, the S ends at the other port."""
    offset = 2 * centre + past
    along = 2 * centre + extra
    low, high = 0.0, math.pi / 2
    for _ in range(80):  # the straight piece that reaches ahead leaves less to the side the flatter the arcs are
        turn = (low + high) / 2
        between = (along - 2 * centre * math.sin(turn)) / max(math.cos(turn), 1e-15)
        low, high = (
            (turn, high) if 2 * centre * (1 - math.cos(turn)) + between * math.sin(turn) < offset else (low, turn)
        )
    smooth = 2 * centre * turn + between + 2 * straight
    hose = geometry.offset_length(offset, centre, straight, along + 2 * straight)
    at_two_radii = geometry.offset_length(2 * centre, centre, straight, along + 2 * straight)
    if extra > 1e-3:  # nearer than that the halving itself is at its end
        assert hose == pytest.approx(max(smooth, at_two_radii), rel=1e-6)
    square = math.pi * centre + past + 2 * straight + extra
    assert at_two_radii - 1e-9 <= hose <= square + 1e-9, "a wider offset takes no less, and never more than two corners"
    assert hose >= math.hypot(along + 2 * straight, offset) - 1e-9


@given(radii, straights, st.lists(st.floats(0.0, 2.0), min_size=2, max_size=6), st.floats(0.0, 1.0))
@settings(deadline=None, database=None, derandomize=True)
def test_a_wider_offset_takes_no_less_hose(centre: float, straight: float, offsets: list[float], extra: float) -> None:
    distance = geometry.offset_projection(3 * centre, centre, straight) + extra
    takes = [geometry.offset_length(offset, centre, straight, distance) for offset in sorted(offsets)]
    assert all(one <= other + 1e-9 for one, other in pairwise(takes))


def test_lengths_of_sae_j1405_and_j343_confirm_each_other() -> None:
    # 4.142 r + 3.57 d is J1405's flexing length, printed apart from J343's rule (restated); d from 25.4 mm up
    for radius, od in ((0.1, 0.0254), (0.24, 0.03), (0.42, 0.038)):
        ours = geometry.impulse_piece_length(radius, od) + radius
        assert ours == pytest.approx(4.142 * radius + 3.57 * od, rel=5e-4)


@pytest.mark.parametrize(
    ("length", "plus", "minus", "relative", "band"),
    [
        # rows of DIN 20066 as restated; the rows themselves live with the reference tables
        (0.500, 0.007, -0.003, False, (0.497, 0.507)),
        (1.000, 0.020, -0.006, False, (0.994, 1.020)),
        (2.000, 0.020, -0.006, False, (1.994, 2.020)),
        (3.000, 0.015, -0.005, True, (2.985, 3.045)),
        # the symmetric American habit: within 1 %
        (1.500, 0.010, -0.010, True, (1.485, 1.515)),
    ],
)
def test_a_tolerance_row_becomes_a_band(
    length: float, plus: float, minus: float, relative: bool, band: tuple[float, float]
) -> None:
    found = lengths.length_band(length, plus, minus, relative)
    assert found == pytest.approx(band)
    assert lengths.within_band(band[0], found) and lengths.within_band(band[1], found)
    assert not lengths.within_band(band[0] - 1e-4, found) and not lengths.within_band(band[1] + 1e-4, found)


def test_length_quoted_three_ways_is_one_length() -> None:
    """Overall, free plus ends, cut plus cut-off figures."""
    free, end_a, end_b = 0.800, 0.045, 0.062
    overall = lengths.overall_length(free, end_a, end_b)
    # the hose goes 20 mm into each end
    cut = lengths.cut_length(overall, end_a - 0.020, end_b - 0.020)
    assert cut == pytest.approx(free + 0.040)


def test_a_hose_that_was_tight_gets_enough_to_shorten() -> None:
    least, most = lengths.length_for_tight_hose(1.0668)
    assert lengths.length_under_pressure(least)[0] > 1.0668
    assert least < geometry.straight_run_length(1.0668) * 1.01 < most
    assert lengths.slack_share(least, 1.0668, 0.0, 0.0) > 0.0
    assert lengths.slack_share(1.0668, 1.0668, 0.0, 0.0) == pytest.approx(-0.04)
