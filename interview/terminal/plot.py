"""How is a picture drawn in characters? Rows of bars and curves on one axis, by the plotting library, without colour.

Every picture carries its words below it, so that it can be read aloud.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

SOLID, ALLOWED, UNSURE = "█", "▒", "░"


@dataclass(frozen=True, slots=True)
class Bar:
    """One row: from `low` to `high`; beyond it, up to `unsure`, the part that is not certain."""

    label: str
    low: float
    high: float
    marker: str = SOLID
    unsure: float | None = None


def bars(rows: Sequence[Bar], limits: Sequence[float], unit: str, width: int) -> str:
    """Bars one below the other, the limits as upright lines through all of them."""
    plt = _library()
    plt.clear_figure()
    plt.limitsize(False, False)
    plt.theme("clear")
    plt.plotsize(max(width, 40), 2 * len(rows) + 5)  # frame, ticks and unit take four: every second line is a bar
    for place, row in enumerate(reversed(rows), 1):
        plt.plot([row.low, row.high], [place, place], marker=row.marker)
        if row.unsure is not None and row.unsure > row.high:
            plt.plot([row.high, row.unsure], [place, place], marker=UNSURE)
    for limit in limits:
        plt.vline(limit)
    plt.yticks(list(range(1, len(rows) + 1)), [row.label for row in reversed(rows)])
    plt.ylim(0.5, len(rows) + 0.5)
    ends = [v for row in rows for v in (row.low, row.high, row.unsure) if v is not None] + list(limits)
    low, high = min(ends), max(ends)
    ticks = round_ticks(low, high)
    plt.xlim(min(low, ticks[0]), max(high, ticks[-1]))
    plt.xticks(ticks, [f"{tick:g}" for tick in ticks])
    plt.xlabel(unit)
    return _text(plt.build())


def curves(
    lines: Sequence[tuple[Sequence[float], Sequence[float], str]], limit: float | None, across: str, width: int
) -> str:
    """Curves (x, y, marker) and one level line."""
    plt = _library()
    plt.clear_figure()
    plt.limitsize(False, False)
    plt.theme("clear")
    plt.plotsize(max(width, 40), 14)
    for x, y, marker in lines:
        plt.plot(list(x), list(y), marker=marker)
    if limit is not None:
        plt.hline(limit)
    plt.xlabel(across)
    return _text(plt.build())


def round_ticks(low: float, high: float) -> list[float]:
    """About five round values that span the range.

    >>> round_ticks(0.0, 7.6)
    [0.0, 2.0, 4.0, 6.0, 8.0]
    """
    span = (high - low) or 1.0
    raw = span / 5
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(f * power for f in (1.0, 2.0, 5.0, 10.0) if f * power >= raw)
    first, last = math.floor(low / step), math.ceil(high / step)
    return [round(i * step, 9) for i in range(first, last + 1)]


def _library() -> Any:
    """The plotting library, at the first picture: it carries no types and is not needed before."""
    import plotext  # type: ignore[import-untyped]

    return plotext


def _text(built: str) -> str:
    plain: str = _library().uncolorize(built)
    return "\n".join(line.rstrip() for line in plain.splitlines())
