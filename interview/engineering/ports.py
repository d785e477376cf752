"""Which angle, and about which length, does an assembly between two ports of a machine need?

The ports are given by where they are and which way they point; the hose is laid between them as a smooth curve (through
way points, where there are any), and the near outlet is carried along it without twist by rotation-minimising frames
(double reflection, Wang et al. 2008). The angle is exact for the curve; the curve is a likely one, not the only one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin

from interview.engineering.angle import difference, seen_from_near
from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown
from interview.engineering.vectors import Vector, across, add, cross, dot, length, minus, mirrored_in, times, unit

_STEPS = 64  # samples for each part of the curve (our own bound)


@dataclass(frozen=True, slots=True)
class Port:
    """A port of the machine and the end that goes on it.

    `position` in m; `direction` points out of the port; `bend_deg` is the bend of the hose end (0 straight, 45, 90);
    `leaves` is the way the hose runs off a bent end (towards the other port where not given); `drop_m` is the distance
    from the port to the hose's axis at a bent end, or to the hose itself at a straight one.
    """

    position: Vector
    direction: Vector
    bend_deg: float = 0.0
    leaves: Vector | None = None
    drop_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Laid:
    """The hose as laid: angle (None where an end is straight), free length and tightest centreline radius in m."""

    angle_deg: float | None
    free_length_m: float
    tightest_radius_m: float
    points: tuple[Vector, ...]


def hose_direction(port: Port, towards: Vector) -> Vector:
    """The way the hose leaves an end, a unit vector at the end's bend to the port's direction.

    >>> [round(x, 9) for x in hose_direction(Port((0, 0, 0), (0, 0, 1), 90.0), towards=(1, 0, 0.5))]
    [1.0, 0.0, 0.0]
    """
    out = unit(port.direction, "direction of a port")
    if not 0.0 <= port.bend_deg <= 135.0:
        raise outside("bend of a hose end", port.bend_deg, "°", 0.0, 135.0)
    if port.bend_deg < 1e-6:
        return out
    wanted = port.leaves if port.leaves is not None else minus(towards, port.position)
    sideways = across(unit(wanted, "way the hose leaves its end"), out)
    if length(sideways) < 1e-6:
        raise EngineeringError(
            "a port that faces straight along the way to the other takes its bent end turned to any side; "
            "which way the hose leaves it has to be given"
        )
    side = unit(sideways)
    return add(times(cos(radians(port.bend_deg)), out), times(sin(radians(port.bend_deg)), side))


def _hermite(p: Vector, q: Vector, tp: Vector, tq: Vector, reach: float) -> list[tuple[Vector, Vector]]:
    """Points and tangents of a cubic from p to q."""
    found = []
    m, n = times(reach, tp), times(reach, tq)
    for i in range(_STEPS + 1):
        s = i / _STEPS
        a, b, c, d = 2 * s**3 - 3 * s**2 + 1, s**3 - 2 * s**2 + s, -2 * s**3 + 3 * s**2, s**3 - s**2
        point = add(add(times(a, p), times(b, m)), add(times(c, q), times(d, n)))
        a, b, c, d = 6 * s**2 - 6 * s, 3 * s**2 - 4 * s + 1, -6 * s**2 + 6 * s, 3 * s**2 - 2 * s
        slope = add(add(times(a, p), times(b, m)), add(times(c, q), times(d, n)))
        found.append((point, slope))
    return found


def _curve(knots: Sequence[Vector], first: Vector, last: Vector, stretch: float) -> list[tuple[Vector, Vector]]:
    tangents = [first]
    for before, after in zip(knots, knots[2:], strict=False):
        tangents.append(unit(minus(after, before), "step between way points"))
    tangents.append(last)
    found: list[tuple[Vector, Vector]] = []
    for i in range(len(knots) - 1):
        chord = length(minus(knots[i + 1], knots[i]))
        part = _hermite(knots[i], knots[i + 1], tangents[i], tangents[i + 1], stretch * chord)
        found.extend(part if not found else part[1:])
    # a cubic may stand still for a moment; such a sample has no direction and its neighbours speak for it
    return [(point, unit(slope)) for point, slope in found if length(slope) > 1e-7]


def _length(curve: Sequence[tuple[Vector, Vector]]) -> float:
    return sum(length(minus(b[0], a[0])) for a, b in pairwise(curve))


def _tightest(curve: Sequence[tuple[Vector, Vector]]) -> float:
    """Least radius of the circles through three neighbouring points."""
    least = 1e6
    for (a, _), (b, _), (c, _) in zip(curve, curve[1:], curve[2:], strict=False):
        ab, bc, ca = minus(b, a), minus(c, b), minus(a, c)
        area = length(cross(ab, bc))
        if area > 1e-15:
            least = min(least, length(ab) * length(bc) * length(ca) / (2.0 * area))
    return least


def carry(vector: Vector, curve: Sequence[tuple[Vector, Vector]]) -> Vector:
    """A vector carried along points and tangents of a curve without twist (double reflection, Wang et al. 2008).

    >>> carry((0, 0, 1), [((0, 0, 0), (1, 0, 0)), ((1, 0, 0), (1, 0, 0))])
    (0.0, 0.0, 1.0)
    """
    carried = vector
    for (p, t), (q, u) in pairwise(curve):
        step = minus(q, p)
        carried = mirrored_in(carried, step)
        carried = mirrored_in(carried, minus(u, mirrored_in(t, step)))
    return carried


def _stretched(knots: Sequence[Vector], first: Vector, last: Vector, wanted: float) -> list[tuple[Vector, Vector]]:
    """The curve whose length is the one wanted."""
    low, high = 0.05, 1.0
    straight = sum(length(minus(b, a)) for a, b in pairwise(knots))
    if wanted < straight * 1.001:
        raise EngineeringError(
            f"{shown(wanted, 'm')} of hose does not reach; the shortest way between its ends is {shown(straight, 'm')}"
        )
    while _length(_curve(knots, first, last, high)) < wanted:
        high *= 2.0
        if high > 64.0:
            raise EngineeringError(f"{shown(wanted, 'm')} of hose is far too long for ports this close together")
    shortest = _length(_curve(knots, first, last, low))
    if wanted < shortest:
        raise EngineeringError(
            f"{shown(wanted, 'm')} of hose is too short to leave its ends the way they point; "
            f"it takes more than {shown(shortest, 'm')}"
        )
    for _ in range(24):
        middle = (low + high) / 2.0
        if _length(_curve(knots, first, last, middle)) < wanted:
            low = middle
        else:
            high = middle
    return _curve(knots, first, last, (low + high) / 2.0)


def lay(near: Port, far: Port, via: Sequence[Vector] = (), free_length_m: float | None = None) -> Laid:
    """Lay a hose between two ports and read its angle, free length and tightest bend.

    The angle by the rule of MIL-DTL-83796/5 (standard), the way of carrying it by Wang et al. 2008 (handbook). Moving
    or turning the whole machine, or swapping the two ends, changes nothing. With `free_length_m` the curve is stretched
    to that length.

    >>> found = lay(Port((0, 0, 0), (0, 0, 1), 90.0), Port((0.8, 0, 0), (0, 0, 1), 90.0))
    >>> found.angle_deg, round(found.free_length_m, 3)
    (0.0, 0.8)
    """
    for port in (near, far):
        if not 0.0 <= port.drop_m <= HUGE:
            raise negative("drop of a hose end", port.drop_m, "m")
        if not all(-1e6 <= x <= 1e6 for x in port.position):
            raise EngineeringError("the position of a port holds something that is not a number of metres")
    if not all(-1e6 <= x <= 1e6 for point in via for x in point):
        raise EngineeringError("a way point holds something that is not a number of metres")
    if free_length_m is not None and not TINY <= free_length_m <= HUGE:
        raise not_positive("free length of hose", free_length_m, "m")
    if length(minus(near.position, far.position)) < 1e-4:
        raise EngineeringError("the two ports are in the same place; give where each is along all three axes")
    begins = hose_direction(near, via[0] if via else far.position)
    comes_in = hose_direction(far, via[-1] if via else near.position)
    ends = times(-1.0, comes_in)
    out_near, out_far = unit(near.direction), unit(far.direction)
    knots = [
        add(near.position, times(near.drop_m, out_near)),
        *via,
        add(far.position, times(far.drop_m, out_far)),
    ]
    if any(length(minus(b, a)) < 1e-4 for a, b in pairwise(knots)):
        raise EngineeringError("two points of the route are in the same place; no hose fits between them")
    if free_length_m is None:
        curve = _curve(knots, begins, ends, 1.0)
    else:
        curve = _stretched(knots, begins, ends, free_length_m)
    angle = None
    if near.bend_deg >= 1e-6 and far.bend_deg >= 1e-6:
        outlet = across(times(-1.0, out_near), begins)
        if abs(dot(curve[0][1], begins) - 1.0) > 1e-6:
            raise EngineeringError("the route turns back on itself at its near end; give way points")
        angle = seen_from_near(carry(unit(outlet), curve), times(-1.0, out_far), ends)
    return Laid(angle, _length(curve), _tightest(curve), tuple(point for point, _ in curve))


def held_angle(near: Port, far: Port, free_length_m: float | None = None) -> tuple[float, float]:
    """The angle between two bent ends, and how far the lie of the hose leaves it open, both in degrees.

    The hose is laid as `lay` does it, and once more a quarter longer (a twentieth where its length is given: both our
    own bounds). In a route that stays in one plane the two agree; where it does not, the ports alone do not decide.

    >>> held_angle(Port((0, 0, 0), (0, 0, 1), 90.0), Port((0.8, 0, 0), (0, 1, 0), 90.0))
    (90.0, 0.0)
    """
    laid = lay(near, far, free_length_m=free_length_m)
    if laid.angle_deg is None:
        raise EngineeringError("an angle is stated only between two bent ends, and one of these is straight")
    longer = laid.free_length_m * (1.25 if free_length_m is None else 1.05)
    other = lay(near, far, free_length_m=longer).angle_deg
    assert other is not None
    return laid.angle_deg, difference(laid.angle_deg, other)
