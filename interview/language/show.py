"""How is a value written for a person: their unit first, the other beside it?"""

from __future__ import annotations

import math
import re
from decimal import ROUND_DOWN, Context
from functools import lru_cache

from interview.catalogue import CATALOGUE, Kind
from interview.facts import Span, Value, tidy
from interview.language.model import SAID
from interview.language.sizes import size_text
from interview.language.units import TABLE, from_si

PSI = 6894.757293168361  # Pa (NIST SP 811, exact by definition of pound-force and inch)
# metric unit, inch-pound unit
PAIRS: dict[str, tuple[str, str]] = {
    "pressure": ("bar", "psi"), "temperature": ("°C", "°F"), "length": ("mm", "in"), "flow": ("L/min", "gpm"),
    "displacement": ("cc/rev", "in3/rev"), "velocity": ("m/s", "ft/s"), "distance": ("m", "ft"),
}  # fmt: skip
ALONE: dict[str, str] = {"speed": "rpm", "time": "s", "angle": "deg", "rate": "1/h", "hours": "h", "years": "year"}
_YEAR = re.compile(r"\d{4}")
_SUFFIX = {"deg": "°", "1/h": " per hour", "h": " h a year"}


def _number(value: float, unit: str) -> str:
    if value == 0:
        return "0"
    size = abs(value)
    if unit in ("°C", "°F"):
        text = f"{value:.0f}" if abs(value - round(value)) < 0.25 or size >= 100 else f"{value:.1f}"
    elif size >= 100:
        text = f"{value:,.0f}"
    elif size >= 10:
        text = f"{value:.1f}"
    elif size >= 1:
        text = f"{value:.2f}"
    else:
        text = f"{value:.3g}" if size >= 1e-3 else f"{value:.6f}"
    if "." in text and "e" not in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _one(value: Value, unit: str) -> str:
    """A number or range in one unit."""

    def text(si: float) -> str:
        return _number(from_si(si, unit), unit)

    suffix = _SUFFIX.get(unit, f" {unit}")
    if isinstance(value, Span):
        if value.low is not None and value.high is not None:
            return f"{text(value.low)} to {text(value.high)}{suffix}"
        if value.low is not None:
            return f"at least {text(value.low)}{suffix}"
        return f"up to {text(value.high)}{suffix}" if value.high is not None else "any"
    assert isinstance(value, float | int)
    if unit == "year":
        number = text(value)
        return f"{number} year" if number == "1" else f"{number} years"
    return f"{text(value)}{suffix}"


@lru_cache(maxsize=4096)  # the figures of the tables are shown again and again
def _pair(kind: str, value: Value, home: str, said: str | None) -> str:
    if kind in ALONE:
        return _one(value, ALONE[kind])
    if kind not in PAIRS:
        numbers = (
            [value] if isinstance(value, float | int) else [v for v in (_low(value), _high(value)) if v is not None]
        )
        return " to ".join(_number(float(v), "") for v in numbers)
    metric, inch = PAIRS[kind]
    first, second = (inch, metric) if home == "us" else (metric, inch)
    if said and said in TABLE and TABLE[said].us is not None:
        first, second = said, (metric if TABLE[said].us else inch)
    return f"{_one(value, first)} ({_one(value, second).removeprefix('at least ').removeprefix('up to ')})"


def _low(value: Value) -> float | None:
    return value.low if isinstance(value, Span) else None


def _high(value: Value) -> float | None:
    return value.high if isinstance(value, Span) else None


def show(fact_name: str, value: Value, home: str = "metric", *, unit: str | None = None) -> str:
    """A fact's value in words, in the unit it was said in (or the user's), the other system beside it.

    >>> show("working_pressure", 2500 * 6894.757293168361, unit="psi")
    '2,500 psi (172 bar)'
    """
    entry = CATALOGUE[fact_name]
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(part.replace("_", " ") for part in value) if value else "none"
    if isinstance(value, str):
        if entry.kind is Kind.DAY:
            return f"{value}, only the year was given" if _YEAR.fullmatch(value) else value.removeprefix(SAID)
        return value.replace("_", " ") if entry.kind in (Kind.CHOICE, Kind.MANY) else value
    kind = entry.measures
    if kind == "size":
        parts = [value] if not isinstance(value, Span) else [v for v in (value.low, value.high) if v is not None]
        if fact_name == "marked_size":
            return " to ".join(f"-{_number(v, '')}" for v in parts)
        return " to ".join(size_text(v) for v in parts)
    if kind == "grade":
        numbers = [value] if not isinstance(value, Span) else [v for v in (value.low, value.high) if v is not None]
        return "VG " + " to ".join(_number(v, "") for v in numbers)
    if kind == "length" and entry.unit == "m":
        kind = "distance"
    return _pair(kind, value, home, unit)


def psi_borne(bar: float, printed: float | None = None) -> int:
    """A rating in psi: what its row prints, else the conversion rounded down to the ten (below 100 psi to the unit)."""
    if printed is not None:
        return math.floor(printed)
    exact = bar * 1e5 / PSI
    near = round(exact / 50) * 50  # 206.8 bar is the print of 3000 psi
    if near and abs(near - exact) < 1:
        return near
    step = 10 if exact >= 100 else 1
    return math.floor(exact / step + 1e-6) * step


@lru_cache(maxsize=4096)
def show_rating(pascal: float, home: str = "metric", printed: float | None = None) -> str:
    """What a part bears, never rounded up; `printed` is the figure its row prints in psi.

    >>> show_rating(275e5), show_rating(275e5, "us", 4000.0)
    ('275 bar (3,980 psi)', '4,000 psi (275 bar)')
    """
    bar = tidy(pascal / 1e5)
    kept = Context(prec=4, rounding=ROUND_DOWN).create_decimal(repr(bar))
    metric, inch = f"{kept.normalize():f} bar", f"{psi_borne(bar, printed):,} psi"
    return f"{inch} ({metric})" if home == "us" else f"{metric} ({inch})"


def show_quantity(kind: str, si: float, home: str = "metric") -> str:
    """A plain quantity in both systems: pressure, temperature, length, distance, flow, velocity, ...

    >>> show_quantity("velocity", 5.0)
    '5 m/s (16.4 ft/s)'
    """
    return _pair(kind, si, home, None)
