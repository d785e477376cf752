"""What can the line's own settings put into it? The relief valve's setting, and a rod side that throttles or blocks.

A spike that somebody names does not make these less: the line stands at the relief setting whenever it stalls, and a
blocked rod side multiplies it by the area ratio.
"""

from __future__ import annotations

from collections.abc import Callable

from interview.facts import Known

Pair = tuple[float | None, float | None]
RESTS_ON = "line_function relief_setting cylinder_bore cylinder_rod cylinder_side throttled"
ELSEWHERE = ("return", "suction", "case_drain")  # the main relief valve is not in these lines


def area_ratio(view: Known) -> tuple[tuple[float, float] | None, tuple[str, ...]]:
    """Cap area over rod-side area, least and most; None where bore or rod is not known or impossible."""
    bores = view.low("cylinder_bore"), view.high("cylinder_bore")
    rods = view.low("cylinder_rod"), view.high("cylinder_rod")
    if (
        bores[0] is None
        or bores[1] is None
        or rods[0] is None
        or rods[1] is None
        or not 0 < rods[0] <= rods[1] < bores[0]
    ):
        return None, ()
    return (1 / (1 - (rods[0] / bores[1]) ** 2), 1 / (1 - (rods[1] / bores[0]) ** 2)), ("cylinder_bore", "cylinder_rod")


def pressure_of_settings(known: Known) -> tuple[Pair, str]:
    """Pascal, and which setting it is: `relief_setting`, `rod_side`, or "" where none is known for this line."""
    if known.text("line_function") in ELSEWHERE:
        return (None, None), ""
    relief = known.low("relief_setting"), known.high("relief_setting")
    ratio, _ = area_ratio(known)
    if ratio is not None and known.text("cylinder_side") == "rod" and known.flag("throttled"):
        base = _higher(known.low, relief[0]), _higher(known.high, relief[1])
        if base[0] is not None or base[1] is not None:
            return (scaled(base[0], ratio[0]), scaled(base[1], ratio[1])), "rod_side"
    return (relief, "relief_setting") if relief != (None, None) else (relief, "")


def _higher(side: Callable[[str], float | None], relief: float | None) -> float | None:
    both = [v for v in (side("working_pressure"), relief) if v is not None]
    return max(both, default=None)


def scaled(value: float | None, factor: float) -> float | None:
    """A side of a range times a factor; an open side stays open."""
    return None if value is None else value * factor
