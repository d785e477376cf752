"""How long is a hose whose end travels, and does a given length still bend wide enough?

A loop between two parallel legs, the moving end running along the legs. Half the stroke is enough only where the fixed
end stands opposite the middle of the travel; opposite one end of the travel the whole stroke is needed.
"""

from __future__ import annotations

from math import pi

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, shown
from interview.engineering.geometry import centreline_radius


def loop_length(
    radius: float,
    od: float,
    travel: float,
    straight: float = 0.0,
    fixed_at_mid_stroke: bool = True,
    spacing: float | None = None,
) -> float:
    """Free length of a moving U-loop, m: `pi R + 2 s + T/2` at mid-stroke, `+ T` at one end of the stroke (derived).

    R is half the spacing of the legs, the tightest bend where no spacing is given; s the straight part at each end.
    For a spacing that changes, take the widest here and check `minimum_spacing` at the narrowest.

    >>> round(loop_length(0.180, 0.022, 0.600, 0.033) * 1000, 2)
    966.04
    >>> round(loop_length(0.180, 0.022, 0.600, 0.033, fixed_at_mid_stroke=False) * 1000, 2)
    1266.04
    """
    if not TINY <= radius <= HUGE:
        raise not_positive("bend radius", radius, "m")
    if not TINY <= od <= HUGE:
        raise not_positive("outside diameter of the hose", od, "m")
    if not 0.0 <= travel <= HUGE:
        raise negative("travel", travel, "m")
    if not 0.0 <= straight <= HUGE:
        raise negative("straight part", straight, "m")
    least = 2.0 * radius + od
    share = travel / 2.0 if fixed_at_mid_stroke else travel
    if spacing is None:
        return pi * least / 2.0 + 2.0 * straight + share
    if not TINY <= spacing <= HUGE:
        raise not_positive("spacing of the two legs", spacing, "m")
    if spacing < least * (1.0 - 1e-9):
        raise EngineeringError(
            f"the legs of the loop are {shown(spacing, 'm')} apart; this hose needs {shown(least, 'm')} at least, "
            "or a construction that bends tighter"
        )
    return pi * spacing / 2.0 + 2.0 * straight + share


def loop_bend(length: float, travel: float, straight: float = 0.0, fixed_at_mid_stroke: bool = True) -> float:
    """Centreline radius a loop of a given length can have at the end of its travel, m (`loop_length` solved for R).

    >>> round(loop_bend(0.96605, 0.600, 0.033), 4)
    0.191
    """
    if not TINY <= length <= HUGE:
        raise not_positive("length of hose", length, "m")
    if not 0.0 <= straight <= HUGE:
        raise negative("straight part", straight, "m")
    if not 0.0 <= travel <= HUGE:
        raise negative("travel", travel, "m")
    used = 2.0 * straight + (travel / 2.0 if fixed_at_mid_stroke else travel)
    if length - used < TINY:
        raise EngineeringError(
            f"{shown(length, 'm')} of hose is used up by the travel and the straight parts ({shown(used, 'm')}); "
            f"nothing is left for the bend, so the hose has to be longer than {shown(used, 'm')} by its bend"
        )
    return (length - used) / pi


def check_loop(
    length: float,
    radius: float,
    od: float,
    travel: float,
    straight: float = 0.0,
    fixed_at_mid_stroke: bool = True,
) -> float:
    """Bend left in reserve, m: inside radius of the loop less the hose's minimum; refuses a loop too short.

    >>> round(check_loop(1.2, 0.180, 0.022, 0.600, 0.033), 3)
    0.074
    >>> check_loop(0.9, 0.180, 0.022, 0.600, 0.033)
    Traceback (most recent call last):
    ...
    interview.engineering.errors.EngineeringError: 900 mm of hose is too short for this loop; the shortest is 966 mm
    """
    shortest = loop_length(radius, od, travel, straight, fixed_at_mid_stroke)
    if not TINY <= length <= HUGE:
        raise not_positive("length of hose", length, "m")
    if length < shortest * (1.0 - 1e-9):
        raise EngineeringError(
            f"{shown(length, 'm')} of hose is too short for this loop; the shortest is {shown(shortest, 'm')}"
        )
    return loop_bend(length, travel, straight, fixed_at_mid_stroke) - centreline_radius(radius, od)


def swing_length(distances: tuple[float, ...], contraction: float = 0.04) -> float:
    """Free length for an end that swings or pivots, m: the longest port distance over the movement, with shortening.

    The positions have to include the farthest one; the loop at the nearest is a matter of `bow_height` (practice).

    >>> round(swing_length((0.80, 0.95, 0.60)), 4)
    0.9896
    """
    if not distances:
        raise EngineeringError("no position was given; the port distance in every position of the movement is needed")
    for distance in distances:
        if not TINY <= distance <= HUGE:
            raise not_positive("port distance", distance, "m")
    if not 0.0 <= contraction <= 0.5:
        raise EngineeringError("the shortening under pressure is a share between 0 and 0.5, 0.04 for 4 %")
    return max(distances) / (1.0 - contraction)
