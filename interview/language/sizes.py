"""Which bore is meant by an inch fraction, a dash, a DN or millimetres?

A nominal size is its dash: 1/2 in, -8 and DN 12 are 8. The pairs are those of the hose standards (ISO 4397 sizes as the
hose tables print them); a true bore that is no nominal size is rounded to half a sixteenth of an inch.
"""

from __future__ import annotations

from fractions import Fraction

DN_TO_DASH: dict[int, float] = {
    3: 2,
    4: 2.5,
    5: 3,
    6: 4,
    8: 5,
    10: 6,
    12: 8,
    13: 8,
    16: 10,
    19: 12,
    20: 12,
    25: 16,
    31: 20,
    32: 20,
    38: 24,
    40: 24,
    50: 32,
    51: 32,
    60: 38,
    63: 40,
    65: 40,
    76: 48,
    80: 48,
    90: 56,
    100: 64,
    102: 64,
}
DASH_TO_DN: dict[float, int] = {
    2: 3,
    3: 5,
    4: 6,
    5: 8,
    6: 10,
    8: 12,
    10: 16,
    12: 19,
    16: 25,
    20: 31,
    24: 38,
    32: 51,
    40: 63,
    48: 76,
    56: 90,
    64: 100,
}
# Whole sixteenths that a hose is made in, by the hose tables; 11/16 is a thread, never a bore. Halves are tube sizes.
_MADE = frozenset({2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 29, 32, 36, 38, 40, 48, 50, 56, 63, 64})
DASHES = frozenset({2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 32, 40, 48, 64})


def dash_of_inch(inch: float) -> float | None:
    """Sixteenths of an inch; None where the fraction is no multiple of a sixteenth, or no hose is made in it.

    >>> dash_of_inch(0.5), dash_of_inch(11 / 16)
    (8.0, None)
    """
    dash = inch * 16
    return round(dash) * 1.0 if abs(dash - round(dash)) < 1e-6 and round(dash) in _MADE else None


def dash_of_mm(mm: float) -> float | None:
    """A nominal millimetre size is its dash; any other bore is rounded to half a sixteenth. None: no hose is made so.

    >>> dash_of_mm(12), dash_of_mm(10.3)
    (8.0, 6.5)
    """
    if mm == int(mm) and int(mm) in DN_TO_DASH:
        return float(DN_TO_DASH[int(mm)])
    dash = round(mm / 25.4 * 16 * 2) / 2
    return dash if dash % 1 or dash in _MADE else None


def inch_text(inch: float) -> str:
    """1.25 as the trade writes it.

    >>> inch_text(1.25)
    '1-1/4'
    """
    part = Fraction(inch).limit_denominator(64)
    whole, rest = divmod(part.numerator, part.denominator)
    if not rest:
        return str(whole)
    fraction = f"{rest}/{part.denominator}"
    return f"{whole}-{fraction}" if whole else fraction


def size_text(dash: float) -> str:
    """A bore in all three ways.

    >>> size_text(8)
    '1/2 in (-8, DN 12)'
    """
    if dash != int(dash):
        return f"{dash / 16 * 25.4:.1f} mm"
    dn = DASH_TO_DN.get(dash)
    return f"{inch_text(dash / 16)} in (-{int(dash)}{f', DN {dn}' if dn else ''})"
