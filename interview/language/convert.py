"""Is this number, for this fact, a value that can be believed; and what is it in SI?"""

from __future__ import annotations

from interview.catalogue import CATALOGUE
from interview.facts import Span, Value
from interview.language import units
from interview.language.measures import Measure
from interview.language.sizes import DASHES, DN_TO_DASH, dash_of_inch, dash_of_mm

FAR_OUT = "is that figure right? It is far outside what is usual"
HOME_UNIT = {
    "pressure": ("bar", "psi"),
    "temperature": ("°C", "°F"),
    "flow": ("L/min", "gpm"),
    "displacement": ("cc/rev", "in3/rev"),
}
JSON_UNIT = {
    "bar": "bar",
    "degC": "°C",
    "mm": "mm",
    "m": "m",
    "L/min": "L/min",
    "cm3/rev": "cc/rev",
    "rpm": "rpm",
    "s": "s",
    "deg": "deg",
    "1/h": "1/h",
    "h": "h",
    "year": "year",
}
PSI_FROM = 700.0  # a bare answer to a pressure question from here up is psi (contract)
OIL_F_FROM = 130.0  # no hydraulic oil is run at 130 °C; a bare figure from here up is degrees Fahrenheit


def plausible(name: str, si: float) -> bool:
    """Inside the catalogue's plausible limits."""
    limits = CATALOGUE[name].plausible
    if limits is None:
        return True
    factor = CATALOGUE[name].factor
    low, high = limits[0] * factor, limits[1] * factor  # half a percent: what rounding in the other unit may cost
    return low - 0.005 * abs(low) - 1e-12 <= si <= high + 0.005 * abs(high) + 1e-12


def value_of(measure: Measure, unit: str) -> Value:
    """A measure in a unit as SI: a number, or a range where one was said. "Up to" gives the maximum."""
    low, high = units.to_si(measure.low, unit), units.to_si(measure.high, unit)
    if measure.is_range:
        return Span(low, high) if low < high else low
    if measure.bound in ("at_least", "not_under"):
        return Span(low, None)
    return low


def ends_of(value: Value) -> tuple[float, ...]:
    """The numbers of a value."""
    if isinstance(value, Span):
        return tuple(v for v in (value.low, value.high) if v is not None)
    return (float(value),) if isinstance(value, float | int) and not isinstance(value, bool) else ()


def believable(name: str, value: Value) -> bool:
    """All numbers of a value are plausible for the fact."""
    return all(plausible(name, v) for v in ends_of(value))


def other_comma(measure: Measure, name: str, unit: str) -> bool:
    """True where a comma or a point could be read both ways and both values could be meant."""
    if measure.alt is None:
        return False
    return plausible(name, units.to_si(measure.alt, unit)) and plausible(name, units.to_si(measure.low, unit))


def bare_unit(name: str, number: float, home: str, *, asked: bool) -> str | None:
    """The unit of a bare number, where the question or the trade settles it. None: not settled."""
    kind = CATALOGUE[name].measures
    if kind == "pressure":
        if abs(number) >= PSI_FROM:
            return "psi"
        return "bar" if asked and home != "us" else None
    if kind == "temperature":
        if name == "fluid_temperature_max" and number >= OIL_F_FROM:
            return "°F"
        if not asked:
            return None
        if home == "us":
            return "°F" if (number < 60 and name.startswith("ambient")) or number > 110 else None
        return "°C" if number <= 100 else None
    if kind in ("speed",):
        return "rpm"
    if kind in ("rate", "hours", "years", "angle") and asked:
        return JSON_UNIT[CATALOGUE[name].unit]
    if not asked:
        return None
    if kind == "length":
        if CATALOGUE[name].unit == "m":
            return "m" if home != "us" else "ft"
        return "in" if home == "us" else "mm"
    if kind in HOME_UNIT:
        return HOME_UNIT[kind][home == "us"]
    return None


def bore_of(measure: Measure, *, dash: bool = False, dn: bool = False, asked: bool = False) -> float | None:
    """The bore in sixteenths of an inch; None where the number is no bore."""
    number = abs(measure.low)
    if dn:
        return dash_of_mm(number) if number == int(number) else None
    if dash or (measure.minus and measure.unit == ""):
        return float(number) if number in DASHES else None
    if measure.unit == "in":
        return dash_of_inch(number) if number <= 4 else None
    if measure.unit in ("mm", "cm"):
        return dash_of_mm(number * (10 if measure.unit == "cm" else 1)) if number <= 105 else None
    if measure.unit == "" and measure.form in ("frac", "mixed"):
        return dash_of_inch(number) if number <= 4 else None
    if measure.unit == "" and asked and len(some := bare_bores(number)) == 1:
        return some[0]
    return None


def bare_bores(number: float) -> tuple[float, ...]:
    """The bores a bare whole number can mean: as a dash, and as a DN.

    >>> bare_bores(12), bare_bores(13), bare_bores(24)
    ((12.0, 8.0), (8.0,), (24.0,))
    """
    as_dash = [float(number)] if number in DASHES else []
    as_dn = [float(DN_TO_DASH[int(number)])] if number in DN_TO_DASH else []
    return tuple(dict.fromkeys(as_dash + as_dn))
