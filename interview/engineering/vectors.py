"""The few vector operations in space that the angle of an assembly needs, on plain tuples of three floats."""

from __future__ import annotations

from math import cos, isfinite, radians, sin, sqrt

from interview.engineering.errors import EngineeringError

Vector = tuple[float, float, float]


def add(a: Vector, b: Vector) -> Vector:
    """Sum.

    >>> add((1.0, 0.0, 0.0), (0.0, 2.0, 0.0))
    (1.0, 2.0, 0.0)
    """
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def minus(a: Vector, b: Vector) -> Vector:
    """Difference.

    >>> minus((1.0, 0.0, 0.0), (0.0, 2.0, 0.0))
    (1.0, -2.0, 0.0)
    """
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def times(k: float, a: Vector) -> Vector:
    """A vector times a number.

    >>> times(2.0, (1.0, 0.0, 3.0))
    (2.0, 0.0, 6.0)
    """
    return (k * a[0], k * a[1], k * a[2])


def dot(a: Vector, b: Vector) -> float:
    """Scalar product.

    >>> dot((1.0, 2.0, 3.0), (1.0, 0.0, 1.0))
    4.0
    """
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product, right-handed.

    >>> cross((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    (0.0, 0.0, 1.0)
    """
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vector) -> float:
    """Length.

    >>> length((3.0, 4.0, 0.0))
    5.0
    """
    return sqrt(dot(a, a))


def unit(a: Vector, what: str = "direction") -> Vector:
    """The vector at length one.

    >>> unit((0.0, 0.0, 2.0))
    (0.0, 0.0, 1.0)
    """
    if not all(isfinite(x) and abs(x) <= 1e9 for x in a):
        raise EngineeringError(f"the {what} holds something that is not a number of this world")
    size = length(a)
    if size < 1e-9:
        raise EngineeringError(f"the {what} has no length; give three numbers of which at least one is not zero")
    return (a[0] / size, a[1] / size, a[2] / size)


def across(a: Vector, axis: Vector) -> Vector:
    """The part of a vector at right angles to a unit axis.

    >>> across((1.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    (0.0, 1.0, 0.0)
    """
    return minus(a, times(dot(a, axis), axis))


def turned(a: Vector, axis: Vector, angle_deg: float) -> Vector:
    """A vector turned about a unit axis, right-handed (Rodrigues).

    >>> [round(x, 9) for x in turned((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 90.0)]
    [0.0, 1.0, 0.0]
    """
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    return add(add(times(c, a), times(s, cross(axis, a))), times(dot(axis, a) * (1.0 - c), axis))


def mirrored_in(a: Vector, normal: Vector) -> Vector:
    """A vector mirrored in the plane across `normal`; unchanged where the normal has no length.

    >>> mirrored_in((1.0, 2.0, 0.0), (2.0, 0.0, 0.0))
    (-1.0, 2.0, 0.0)
    """
    square = dot(normal, normal)
    if square < 1e-24:
        return a
    return minus(a, times(2.0 * dot(normal, a) / square, normal))
