"""What is wrong with an input, and what would be right? One error for the whole package.

The guards in the functions are written inline (a call for each argument would cost more than the formulas themselves);
the sentences are made here, in the units people at the counter use.
"""

from __future__ import annotations

import math

# Both our own bounds, for the float and not for the trade.
TINY = 1e-12  # below this a positive SI quantity of this trade is a slip, and its square may underflow
HUGE = 1e12  # above it likewise, and its powers may overflow

_SHOWN = {
    "m": (1e3, "mm"),
    "m2": (1e6, "mm²"),
    "m3": (1e3, "L"),
    "m3/rev": (1e6, "cm³/rev"),
    "m3/s": (6e4, "L/min"),
    "m2/s": (1e6, "mm²/s"),
    "Pa": (1e-5, "bar"),
    "rev/s": (60.0, "rpm"),
}


class EngineeringError(ValueError):
    """An input the formula cannot be used with; the text says what is wrong and what would be right."""


def shown(value: float, unit: str) -> str:
    """A quantity in the unit people at the counter use.

    >>> shown(0.0127, "m")
    '12.7 mm'
    """
    if math.isnan(value):
        return "not a number"
    factor, name = _SHOWN.get(unit, (1.0, unit))
    if not math.isfinite(value * factor):
        return "endless"
    value *= factor
    # people do not read 9e+04
    figure = f"{value:.0f}" if 1e4 <= abs(value) < 1e9 else f"{value:.4g}"
    return f"{figure} {name}".rstrip()


def not_positive(what: str, value: float, unit: str) -> EngineeringError:
    """For a quantity that has to be above zero.

    >>> str(not_positive("bore", 0.0, "m"))
    'the bore is 0 mm; it has to be a number above zero, of a size this trade knows'
    """
    return EngineeringError(
        f"the {what} is {shown(value, unit)}; it has to be a number above zero, of a size this trade knows"
    )


def negative(what: str, value: float, unit: str) -> EngineeringError:
    """For a quantity that may be zero but not less."""
    return EngineeringError(
        f"the {what} is {shown(value, unit)}; it has to be zero or more, and of a size this trade knows"
    )


def outside(what: str, value: float, unit: str, low: float, high: float, why: str = "") -> EngineeringError:
    """For a quantity that has to lie between two limits.

    >>> str(outside("altitude", 90e3, "", 0.0, 11e3))
    'the altitude is 90000; it has to be from 0 to 11000'
    """
    reason = f" ({why})" if why else ""
    return EngineeringError(
        f"the {what} is {shown(value, unit)}; it has to be from {shown(low, unit)} to {shown(high, unit)}{reason}"
    )


def too_big(what: str) -> EngineeringError:
    """For inputs that are each in order but together give a result beyond any use."""
    return EngineeringError(
        f"the {what} comes out beyond any figure of this trade; one of the numbers given must be a slip of unit"
    )
