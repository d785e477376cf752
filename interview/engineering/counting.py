"""How many pressure cycles of which size are in a recorded history? Rainflow counting as ASTM E1049 5.4.4 has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isfinite

from interview.engineering.errors import EngineeringError


@dataclass(frozen=True, slots=True)
class Cycle:
    """One counted cycle: its range, its highest value, and whether it counts whole (1.0) or half (0.5)."""

    range: float
    peak: float
    count: float


def turning_points(series: Sequence[float]) -> list[float]:
    """The peaks and valleys of a history, its first and last value included.

    >>> turning_points([0, 1, 2, 1, 1, 3])
    [0, 2, 1, 3]
    """
    points: list[float] = []
    for value in series:
        if not (isfinite(value) and abs(value) <= 1e15):
            raise EngineeringError("a value of the recorded history is not a number a gauge can show")
        if points and value == points[-1]:
            continue
        if len(points) >= 2 and (points[-1] - points[-2]) * (value - points[-1]) > 0:
            points[-1] = value
        else:
            points.append(value)
    return points


def rainflow(series: Sequence[float]) -> list[Cycle]:
    """The cycles of a history in the order they close, the unclosed rest as halves (ASTM E1049 5.4.4, restated).

    Four-point methods treat the unclosed rest otherwise: they agree in the closed cycles, not in the halves.

    >>> [(c.range, c.count) for c in rainflow([-2, 1, -3, 5, -1, 3, -4, 4, -2])][:3]
    [(3, 0.5), (4, 0.5), (4, 1.0)]
    """
    found: list[Cycle] = []
    stack: list[float] = []
    for point in turning_points(series):
        stack.append(point)
        while len(stack) >= 3:
            newest, previous = abs(stack[-1] - stack[-2]), abs(stack[-2] - stack[-3])
            if newest < previous:
                break
            if len(stack) == 3:
                found.append(Cycle(previous, max(stack[0], stack[1]), 0.5))
                stack.pop(0)
            else:
                found.append(Cycle(previous, max(stack[-3], stack[-2]), 1.0))
                del stack[-3:-1]
    found.extend(Cycle(abs(after - before), max(before, after), 0.5) for before, after in pairwise(stack))
    return found


def counted(series: Sequence[float]) -> dict[float, float]:
    """Count for each range, ascending (ASTM E1049 5.4.4).

    >>> counted([-2, 1, -3, 5, -1, 3, -4, 4, -2])
    {3: 0.5, 4: 1.5, 6: 0.5, 8: 1.0, 9: 0.5}
    """
    total: dict[float, float] = {}
    for cycle in rainflow(series):
        total[cycle.range] = total.get(cycle.range, 0.0) + cycle.count
    return dict(sorted(total.items()))
