"""By which angle are the two bent ends of an assembly turned against each other?

The rule of SAE J517 as MIL-DTL-83796/5 quotes it (standard): hold the assembly straight and look along it from the near
end, the near outlet pointing down; the angle runs counter-clockwise to the far outlet, 0 to 360 degrees. The number is
the same from either end. An outlet direction points from the hose out through the end, into the port.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees

from interview.engineering.errors import HUGE, TINY, EngineeringError, not_positive, outside
from interview.engineering.vectors import Vector, across, cross, dot, length, turned, unit

TOLERANCE_LIMIT_M = 0.61  # 2 ft
TOLERANCE_SHORT, TOLERANCE_LONG = 3.0, 5.0  # degrees (MIL-DTL-83796/5 figure 3, standard)


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight part of the route, m."""

    length_m: float


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular bend: towards which direction, at which centreline radius (m), by how many degrees."""

    toward: Vector
    radius_m: float
    degrees: float


Route = Sequence[Straight | Arc]


def normalised(angle_deg: float) -> float:
    """An angle as it is written, from 0 up to but not including 360; anything outside 0 to 360 is refused.

    >>> normalised(360.0)
    0.0
    >>> normalised(400.0)
    Traceback (most recent call last):
    ...
    interview.engineering.errors.EngineeringError: the angle is 400; it runs from 0 to 360 degrees (400 would be 40)
    """
    if 0.0 <= angle_deg <= 360.0:
        return angle_deg % 360.0
    if not -1e6 <= angle_deg <= 1e6:
        raise EngineeringError("the angle is not a number between 0 and 360 degrees")
    raise EngineeringError(
        f"the angle is {angle_deg:g}; it runs from 0 to 360 degrees ({angle_deg:g} would be {angle_deg % 360.0:g})"
    )


def seen_from_near(near_carried: Vector, far_outlet: Vector, tangent: Vector) -> float:
    """Counter-clockwise angle from the carried near outlet to the far one, for a viewer looking along the tangent.

    >>> seen_from_near((0, 0, -1), (0, 1, 0), (1, 0, 0))
    270.0
    """
    a, b = across(near_carried, tangent), across(far_outlet, tangent)
    for which, part in (("near", a), ("far", b)):
        if length(part) < 1e-6:
            raise EngineeringError(
                f"the {which} outlet points along the hose, so this end is straight; "
                "an angle is stated only between two bent ends"
            )
    # rounded, so that a hair below a full turn is written 0 and not 360
    return round(degrees(atan2(-dot(tangent, cross(a, b)), dot(a, b))), 9) % 360.0


def end_angle(near_outlet: Vector, far_outlet: Vector, route: Route, start: Vector = (1.0, 0.0, 0.0)) -> float:
    """Angle between two bent ends along a route of straights and bends, degrees (MIL-DTL-83796/5, standard).

    `start` is the direction in which the hose leaves the near end. The near outlet is carried along without twist,
    which on circular bends is the bend's own rotation, exactly; then `theta = -atan2(t . (a x b), a . b)`.

    >>> end_angle((0, 0, -1), (0, -1, 0), [Straight(0.5)])
    90.0
    >>> round(end_angle((0, 0, -1), (-1, 0, 0), [Arc((0, 1, 0), 0.2, 90), Arc((0, 0, 1), 0.2, 90)]), 6)
    270.0
    """
    tangent = unit(start, "direction of the hose at the near end")
    carried = unit(near_outlet, "direction of the near outlet")
    far = unit(far_outlet, "direction of the far outlet")
    if length(across(carried, tangent)) < 1e-6:
        raise EngineeringError(
            "the near outlet points along the hose, so this end is straight; "
            "an angle is stated only between two bent ends"
        )
    for part in route:
        if isinstance(part, Straight):
            if not TINY <= part.length_m <= HUGE:
                raise not_positive("straight part of the route", part.length_m, "m")
            continue
        if not TINY <= part.radius_m <= HUGE:
            raise not_positive("bend radius", part.radius_m, "m")
        if not 0.0 <= part.degrees <= 360.0:
            raise outside("bend of the route", part.degrees, "°", 0.0, 360.0)
        sideways = across(unit(part.toward, "direction a bend turns to"), tangent)
        if length(sideways) < 1e-6:
            raise EngineeringError("a bend turns to a side of the hose; the direction given runs along the hose itself")
        axis = unit(cross(tangent, sideways))
        tangent = unit(turned(tangent, axis, part.degrees))
        carried = turned(carried, axis, part.degrees)
    return seen_from_near(carried, far, tangent)


def from_clock(near_hour: float, far_hour: float) -> float:
    """Angle from a sample held straight and read like a clock from its near end, degrees (derived from the rule).

    >>> from_clock(6.0, 3.0)
    90.0
    """
    for hour in (near_hour, far_hour):
        if not 0.0 <= hour <= 12.0:
            raise outside("hour on the clock", hour, "o'clock", 0.0, 12.0)
    return (near_hour - far_hour) * 30.0 % 360.0 % 360.0


def clock_hour(angle_deg: float) -> float:
    """Hour to which the far outlet points when the near one points to 6, above 0 up to 12 (derived).

    >>> clock_hour(270.0)
    9.0
    """
    return (6.0 - normalised(angle_deg) / 30.0) % 12.0 or 12.0


def in_words(angle_deg: float) -> str:
    """The angle as it is said to a fitter and echoed to a customer.

    >>> in_words(90.0)
    "near outlet down at 6 o'clock, far outlet at 3 o'clock, to the right"
    >>> in_words(225.0)
    "near outlet down at 6 o'clock, far outlet at half past 10, up to the left"
    """
    return f"near outlet down at 6 o'clock, {far_in_words(angle_deg)}, {_side(normalised(angle_deg))}"


def far_in_words(angle_deg: float) -> str:
    """Where the far outlet points while the near one points down.

    >>> far_in_words(90.0)
    "far outlet at 3 o'clock"
    """
    hour = clock_hour(angle_deg)
    whole, rest = int(hour), hour - int(hour)
    if rest < 1e-9:
        said = f"{whole} o'clock"
    elif abs(rest - 0.5) < 1e-9:
        said = f"half past {whole or 12}"
    else:
        said = f"between {whole or 12} and {whole + 1} o'clock"
    return f"far outlet at {said}"


def _side(angle_deg: float) -> str:
    upright = "up" if 90.0 < angle_deg < 270.0 else "down"
    if angle_deg in (0.0, 180.0):
        return upright
    side = "to the right" if angle_deg < 180.0 else "to the left"
    return side if angle_deg in (90.0, 270.0) else f"{upright} {side}"


def mirrored(angle_deg: float) -> float:
    """Angle of the mirror-image assembly, as on the other side of a machine, degrees: `360 - theta` (derived).

    >>> mirrored(90.0), mirrored(180.0)
    (270.0, 180.0)
    """
    return (360.0 - normalised(angle_deg)) % 360.0


def are_mirrored(one_deg: float, other_deg: float) -> bool:
    """Whether two assemblies are a left and a right one: their angles add up to a full turn and differ (derived).

    >>> are_mirrored(90.0, 270.0), are_mirrored(180.0, 180.0)
    (True, False)
    """
    return difference(mirrored(one_deg), other_deg) < 1e-6 and difference(one_deg, other_deg) > 1e-6


def difference(one_deg: float, other_deg: float) -> float:
    """How far two angles are apart the shorter way round, 0 to 180 degrees.

    >>> difference(355.0, 5.0)
    10.0
    """
    apart = abs(normalised(one_deg) - normalised(other_deg))
    return min(apart, 360.0 - apart)


def tolerance(length_m: float) -> float:
    """Permitted deviation either way, degrees: 3 up to 2 ft (0.61 m), 5 above (MIL-DTL-83796/5 figure 3, standard).

    >>> tolerance(0.600), tolerance(0.700)
    (3.0, 5.0)
    """
    if not TINY <= length_m <= HUGE:
        raise not_positive("length of the assembly", length_m, "m")
    return TOLERANCE_SHORT if length_m <= TOLERANCE_LIMIT_M else TOLERANCE_LONG


def twist_left(wanted_deg: float, made_deg: float, free_length_m: float) -> float:
    """Twist in a hose made to another angle than its place wants, degrees per metre of free length (derived).

    >>> twist_left(90.0, 93.0, 0.5)
    6.0
    """
    if not TINY <= free_length_m <= HUGE:
        raise not_positive("free length of hose", free_length_m, "m")
    return difference(wanted_deg, made_deg) / free_length_m
