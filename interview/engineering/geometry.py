"""How long must the hose be, and does its bend fit the place?

`radius` is the minimum bend radius to the inside of the bend, as the rubber hose standards give it (EN 853 6.2); the
centreline lies half an outside diameter further out. Lengths are free lengths of hose between the fittings unless a
name says overall.
"""

from __future__ import annotations

from math import acos, atan2, cos, degrees, pi, radians, sin, sqrt

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown

STRAIGHT_DIAMETERS = 1.5  # straight part before the first bend, in outside diameters (DGUV Regel 113-020, handbook)
STRAIGHT_DIAMETERS_GOOD = 2.0  # the same in FAA-H-8083-30 (handbook); below it a word of advice is due
CONTRACTION = 0.04  # shortening under pressure of rubber hydraulic hose (EN 854:2015 6.1.2, standard)
ELONGATION = 0.02  # lengthening under pressure, the same clause


def centreline_radius(radius: float, od: float) -> float:
    """Radius of the hose's centreline, m: `R = r + d/2`.

    r to the inside of the bend (EN 853 6.2, standard), d the outside diameter. Hose rated to the centreline
    (corrugated metal) does not need this.

    >>> round(centreline_radius(0.180, 0.022), 3)
    0.191
    """
    if not TINY <= radius <= HUGE:
        raise not_positive("bend radius", radius, "m")
    if not TINY <= od <= HUGE:
        raise not_positive("outside diameter of the hose", od, "m")
    return radius + od / 2.0


def minimum_spacing(radius: float, od: float) -> float:
    """Least distance between the axes of two parallel ports for a U-bend, m: `2 r + d` (SAE J343, standard).

    >>> round(minimum_spacing(0.180, 0.022), 3)
    0.382
    """
    return 2.0 * centreline_radius(radius, od)


def straight_before_bend(od: float, diameters: float = STRAIGHT_DIAMETERS) -> float:
    """Straight hose behind a fitting before the first bend, m: 1.5 d (DGUV 113-020), 2 d (FAA-H-8083-30) (handbook).

    >>> round(straight_before_bend(0.022), 3)
    0.033
    """
    if not TINY <= od <= HUGE:
        raise not_positive("outside diameter of the hose", od, "m")
    if not 0.0 <= diameters <= 100.0:
        raise outside("number of diameters kept straight", diameters, "", 0.0, 100.0)
    return diameters * od


def arc_length(bend_deg: float, radius: float, od: float) -> float:
    """Hose in a bend, along the centreline, m: `angle (r + d/2)` (SAE J343, standard).

    Some rubber handbooks take the inside radius and come out shorter by angle x d/2; the centreline is taken here.

    >>> round(arc_length(180.0, 0.180, 0.022), 4)
    0.6
    """
    if not 0.0 <= bend_deg <= 360.0:
        raise outside("bend angle", bend_deg, "°", 0.0, 360.0)
    return radians(bend_deg) * centreline_radius(radius, od)


def impulse_piece_length(radius: float, od: float, bend_deg: float = 180.0) -> float:
    """Free length of an impulse test piece, m: `angle (r + d/2) + 2 d`, d not under 25.4 mm in the 2 d term.

    SAE J343 and ISO 6803 (standard, as the published rationale gives it).

    >>> round(impulse_piece_length(0.100, 0.0125) * 1000, 2)
    384.59
    """
    return arc_length(bend_deg, radius, od) + 2.0 * max(od, 0.0254)


def u_bend_length(spacing: float, radius: float, od: float, straight: float = 0.0) -> float:
    """Hose between two parallel ports side by side, m: `pi C/2 + 2 s`.

    C is the distance of the port axes, s the straight part behind each fitting (derived; limit from SAE J343).

    >>> round(u_bend_length(0.400, 0.180, 0.022, 0.033), 4)
    0.6943
    """
    if not TINY <= radius <= HUGE:
        raise not_positive("bend radius", radius, "m")
    if not TINY <= od <= HUGE:
        raise not_positive("outside diameter of the hose", od, "m")
    if not TINY <= spacing <= HUGE:
        raise not_positive("distance between the ports", spacing, "m")
    if not 0.0 <= straight <= HUGE:
        raise negative("straight part", straight, "m")
    least = 2.0 * radius + od
    if spacing < least * (1.0 - 1e-9):
        raise EngineeringError(
            f"the ports are {shown(spacing, 'm')} apart and this hose bends back over {shown(least, 'm')} at least; "
            f"take elbows, or a hose that bends to {shown(max(spacing - od, 0.0) / 2.0, 'm')} inside, "
            "or set the ports further apart"
        )
    return pi * spacing / 2.0 + 2.0 * straight


def right_angle_length(
    leg_a: float, leg_b: float, radius: float, od: float, straight: float = 0.0, bend: float | None = None
) -> float:
    """Hose for a route with one right angle, m: `(a - R) + (b - R) + pi R/2` (derived).

    a and b run from the crossing of the two axes to where the hose leaves its fitting; R is the centreline radius of
    the bend, the tightest one where `bend` is not given.

    >>> round(right_angle_length(0.600, 0.400, 0.320, 0.028) * 1000, 2)
    856.65
    """
    least = centreline_radius(radius, od)
    if not 0.0 <= straight <= HUGE:
        raise negative("straight part", straight, "m")
    centre = least if bend is None else bend
    if not least * (1.0 - 1e-9) <= centre <= HUGE:
        raise EngineeringError(
            f"a bend of {shown(centre, 'm')} to the centreline was asked for; this hose needs {shown(least, 'm')}"
        )
    for leg in (leg_a, leg_b):
        if not TINY <= leg <= HUGE:
            raise not_positive("leg of the right angle", leg, "m")
        if leg < (centre + straight) * (1.0 - 1e-9):
            raise EngineeringError(
                f"one leg is {shown(leg, 'm')}; with this bend and the straight part behind the fitting a leg "
                f"has to be {shown(centre + straight, 'm')} at least"
            )
    return (leg_a - centre) + (leg_b - centre) + pi * centre / 2.0


def offset_angle(offset: float, centre_radius: float) -> float:
    """Angle of each of the two equal bends of an offset, degrees: `acos(1 - a/2R)`, 90 where a > 2 R (derived).

    >>> round(offset_angle(0.050, 0.310), 2)
    23.17
    """
    if not 0.0 <= offset <= HUGE:
        raise negative("offset", offset, "m")
    if not TINY <= centre_radius <= HUGE:
        raise not_positive("centreline radius", centre_radius, "m")
    if offset >= 2.0 * centre_radius:
        return 90.0
    return degrees(acos(1.0 - offset / (2.0 * centre_radius)))


def offset_projection(offset: float, centre_radius: float, straight: float = 0.0) -> float:
    """Least distance along the axes that an offset takes, m: `2 R sin(alpha) + 2 s` (derived).

    >>> round(offset_projection(0.050, 0.310, 0.145) * 1000, 2)
    533.93
    """
    if not 0.0 <= straight <= HUGE:
        raise negative("straight part", straight, "m")
    return 2.0 * centre_radius * sin(radians(offset_angle(offset, centre_radius))) + 2.0 * straight


def offset_length(offset: float, centre_radius: float, straight: float = 0.0, distance: float | None = None) -> float:
    """Hose for two parallel axes set off by `offset`, ports facing each other, m: `2 R alpha + 2 s` (derived).

    With `distance` (port to port along the axes) the surplus over the least projection stays straight; a distance
    below it is refused with the shortest that would do. An offset beyond 2 R is drawn out into a smooth S over the
    distance, `t^2 = D^2 + (a - 2R)^2 - (2R)^2`, `alpha = atan((a - 2R)/D) + atan(2R/t)`, D the distance less both
    straight parts and t the straight piece between the arcs; never less than an offset of 2 R takes.

    >>> round(offset_length(0.050, 0.310, 0.145) * 1000, 2)
    540.7
    >>> round(offset_length(0.500, 0.14075, 0.032, 0.600) * 1000, 1)
    821.7
    """
    least = offset_projection(offset, centre_radius, straight)
    if distance is not None:
        if not TINY <= distance <= HUGE:
            raise not_positive("distance between the ports", distance, "m")
        if distance < least * (1.0 - 1e-9):
            raise EngineeringError(
                f"the ports are {shown(distance, 'm')} apart along the axes; an offset of {shown(offset, 'm')} "
                f"with this bend needs {shown(least, 'm')} at least"
            )
    surplus = 0.0 if distance is None else max(distance - least, 0.0)
    along_the_axes = 2.0 * centre_radius * radians(offset_angle(offset, centre_radius)) + 2.0 * straight + surplus
    if offset <= 2.0 * centre_radius:
        return along_the_axes
    drawn_out = _drawn_out(offset, 2.0 * centre_radius, least + surplus - 2.0 * straight) + 2.0 * straight
    return max(along_the_axes, drawn_out)


def _drawn_out(offset: float, two_radii: float, along: float) -> float:
    """Two equal arcs and the straight piece between them, m, of an S over `along` and `offset`."""
    aside = offset - two_radii
    between = sqrt(max(along * along + aside * aside - two_radii * two_radii, 0.0))
    return two_radii * (atan2(aside, along) + atan2(two_radii, between)) + between


def straight_run_length(distance: float, contraction: float = CONTRACTION) -> float:
    """Least hose between two rigid ports in line, m: `c / (1 - contraction)`.

    4 % shortening under pressure for rubber hydraulic hose (EN 854 6.1.2, standard; other limits in the standards of
    spiral and thermoplastic hose). The 5 to 8 % of NAVEDTRA 14105 and FAA-H-8083-30 (handbook) includes it.

    >>> round(straight_run_length(1.0), 4)
    1.0417
    """
    if not TINY <= distance <= HUGE:
        raise not_positive("distance between the ports", distance, "m")
    if not 0.0 <= contraction <= 0.5:
        raise outside("shortening under pressure", contraction, "", 0.0, 0.5, "a share, 0.04 for 4 %")
    return distance / (1.0 - contraction)


def bow_height(chord: float, length: float) -> float:
    """How far a slack hose bows to the side, m, exact for a circular arc (derived).

    Solves `sin(x)/x = chord/length` for half the arc angle x, then `h = length (1 - cos x) / (2 x)`.

    >>> round(bow_height(1.0, 1.05) * 1000, 2)
    137.95
    """
    if not TINY <= chord <= HUGE:
        raise not_positive("distance between the ports", chord, "m")
    if not TINY <= length <= HUGE:
        raise not_positive("length of hose", length, "m")
    if length < chord * (1.0 - 1e-12):
        raise EngineeringError(
            f"{shown(length, 'm')} of hose does not reach over {shown(chord, 'm')}; "
            f"with 4 % shortening under pressure {shown(chord / (1.0 - CONTRACTION), 'm')} would"
        )
    if length <= chord * (1.0 + 1e-12):
        return 0.0
    low, high, share = 0.0, pi, chord / length
    for _ in range(60):
        half = (low + high) / 2.0
        if sin(half) > share * half:
            low = half
        else:
            high = half
    half = (low + high) / 2.0
    return length * (1.0 - cos(half)) / (2.0 * half)


def bow_height_quick(chord: float, length: float) -> float:
    """The same by the flat-arc formula, m: `sqrt(3 c (L - c) / 8)`; good to 1 % up to 5 % of slack (derived).

    >>> round(bow_height_quick(1.0, 1.05) * 1000, 1)
    136.9
    """
    if not TINY <= chord <= HUGE:
        raise not_positive("distance between the ports", chord, "m")
    if not chord <= length <= HUGE:
        raise EngineeringError(f"the hose has to be at least as long as the distance of {shown(chord, 'm')}")
    return sqrt(3.0 * chord * (length - chord) / 8.0)


def change_in_length_percent(before: float, under_pressure: float) -> float:
    """Change in length under pressure, per cent: `(l1 - l0) / l0 x 100` (ISO 6605 5.3, ISO 1402, standard).

    >>> round(change_in_length_percent(0.500, 0.488), 2)
    -2.4
    """
    if not TINY <= before <= HUGE:
        raise not_positive("length before", before, "m")
    if not TINY <= under_pressure <= HUGE:
        raise not_positive("length under pressure", under_pressure, "m")
    return (under_pressure - before) / before * 100.0
