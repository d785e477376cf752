"""Which units do people at a counter write, and what is one of each in SI?

The factors are exact by definition (NIST SP 811, appendix B) and written out, because importing pint costs more than a
whole line may; `quantity.py` derives the rare ones with pint, and a test derives all of them again.
Temperatures are the only units with an offset: `si = value * factor + offset`, in degree Celsius.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_POUND_FORCE = 0.45359237 * 9.80665  # N
_INCH = 0.0254
_US_GALLON = 231 * _INCH**3
_IMPERIAL_GALLON = 4.54609e-3


@dataclass(frozen=True, slots=True)
class MeasureUnit:
    """A unit as we print it, what it measures, and its pint name; `factor` None: pint is asked at first use."""

    name: str
    measures: str
    factor: float | None
    pint: str
    offset: float = 0.0
    us: bool | None = None  # True: inch-pound, False: metric, None: both


def _table() -> dict[str, MeasureUnit]:
    rows = [
        MeasureUnit("bar", "pressure", 1e5, "bar", us=False),
        MeasureUnit("psi", "pressure", _POUND_FORCE / _INCH**2, "psi", us=True),
        MeasureUnit("MPa", "pressure", 1e6, "megapascal", us=False),
        MeasureUnit("kPa", "pressure", 1e3, "kilopascal", us=False),
        MeasureUnit("mbar", "pressure", 1e2, "millibar", us=False),
        MeasureUnit("kgf/cm2", "pressure", 98066.5, "kilogram_force / centimeter ** 2", us=False),
        MeasureUnit("inHg", "pressure", 3386.389, "inHg", us=True),
        MeasureUnit("mmHg", "pressure", 133.322387415, "mmHg", us=False),
        MeasureUnit("Pa", "pressure", 1.0, "pascal", us=False),
        MeasureUnit("torr", "pressure", None, "torr", us=False),
        MeasureUnit("atm", "pressure", None, "standard_atmosphere"),
        MeasureUnit("mH2O", "pressure", None, "meter_H2O", us=False),
        MeasureUnit("inH2O", "pressure", None, "inch_H2O", us=True),
        MeasureUnit("°C", "temperature", 1.0, "degC", us=False),
        MeasureUnit("°F", "temperature", 5.0 / 9.0, "degF", offset=-160.0 / 9.0, us=True),
        MeasureUnit("mm", "length", 1e-3, "millimeter", us=False),
        MeasureUnit("cm", "length", 1e-2, "centimeter", us=False),
        MeasureUnit("m", "length", 1.0, "meter", us=False),
        MeasureUnit("km", "length", None, "kilometer", us=False),
        MeasureUnit("in", "length", _INCH, "inch", us=True),
        MeasureUnit("ft", "length", 0.3048, "foot", us=True),
        MeasureUnit("yd", "length", None, "yard", us=True),
        MeasureUnit("L/min", "flow", 1e-3 / 60, "liter / minute", us=False),
        MeasureUnit("L/s", "flow", 1e-3, "liter / second", us=False),
        MeasureUnit("L/h", "flow", None, "liter / hour", us=False),
        MeasureUnit("m3/h", "flow", 1.0 / 3600, "meter ** 3 / hour", us=False),
        MeasureUnit("gpm", "flow", _US_GALLON / 60, "us_gallon / minute", us=True),
        MeasureUnit("imp gpm", "flow", _IMPERIAL_GALLON / 60, "imperial_gallon / minute", us=True),
        MeasureUnit("cc/rev", "displacement", 1e-6, "centimeter ** 3", us=False),
        MeasureUnit("in3/rev", "displacement", _INCH**3, "inch ** 3", us=True),
        MeasureUnit("L/rev", "displacement", None, "liter", us=False),
        MeasureUnit("rpm", "speed", 1.0 / 60, "1 / minute"),
        MeasureUnit("s", "time", 1.0, "second"),
        MeasureUnit("ms", "time", 1e-3, "millisecond"),
        MeasureUnit("min", "time", 60.0, "minute"),
        MeasureUnit("deg", "angle", 1.0, "count"),
        MeasureUnit("1/h", "rate", 1.0, "count"),
        MeasureUnit("1/min", "rate", 60.0, "count"),
        MeasureUnit("1/s", "rate", 3600.0, "count"),
        MeasureUnit("h", "hours", 1.0, "count"),
        MeasureUnit("year", "years", 1.0, "count"),
        MeasureUnit("month", "years", 1.0 / 12, "count"),
        MeasureUnit("m/s", "velocity", 1.0, "meter / second", us=False),
        MeasureUnit("ft/s", "velocity", 0.3048, "foot / second", us=True),
    ]
    return {row.name: row for row in rows}


TABLE = _table()

# How each is written. Units of things that are no fact of ours are recognised so that their numbers can be let go.
SPELLINGS: dict[str, str] = {
    "bar": r"bars?(?:g|\s?\(?g\)?)?",
    "psi": (
        r"psi\s?\(?g\)?|psi|p\.s\.i\.?|lbs?\s?(?:/|per)\s?(?:sq(?:uare)?\.?\s?in(?:ch)?|in2|in²)|pounds per "
        r"square inch|#(?!\d)"
    ),
    "MPa": r"mpa|megapascals?|mega\s?pascals?|n/mm2|n/mm²",
    "kPa": r"kpa|kilopascals?",
    "mbar": r"mbar|millibars?",
    "kgf/cm2": r"kgf?\s?(?:/|per)\s?(?:cm\s?(?:2|²|\^2)|sq\.?\s?cm)|kilos? per square centimet(?:er|re)",
    "inHg": r"in\.?\s?hg|\"\s?hg|inch(?:es)? (?:of )?(?:hg|mercury|vacuum)|in\.? (?:of )?(?:mercury|vac(?:uum)?)",
    "mmHg": r"mm\s?hg|mm (?:of )?mercury|millimet(?:er|re)s? of mercury",
    "Pa": r"pa|pascals?",
    "torr": r"torr",
    "atm": r"atm|atmospheres?",
    "mH2O": r"m\s?h2o|m\s?wc|met(?:er|re)s? of water|mwg",
    "inH2O": r"in\.?\s?h2o|inch(?:es)? of water|in\.?\s?wc",
    "°C": r"(?:deg(?:rees?|s)?\.?|°|º)?\s?(?:c(?:elsius)?|centigrade)",
    "°F": r"(?:deg(?:rees?|s)?\.?|°|º)?\s?f(?:ahrenheit)?",
    "deg": r"deg(?:rees?|s)?\.?|grad|°|º",
    "mm": r"mms?|millimet(?:er|re)s?|millis|mill?(?!ion)s?",
    "cm": r"cms?|centimet(?:er|re)s?",
    "m": r"m|mtrs?|met(?:er|re)s?",
    "km": r"km|kilomet(?:er|re)s?",
    "in": r"in(?:ch(?:es)?|s)?|\"|''",
    "ft": r"f(?:oo|ee)?t",
    "'": r"'(?![a-z])",
    "L/min": (
        r"l(?:t|tr|itre|iter)?s?\s?(?:/|per|a|p/)\s?m(?:in(?:ute)?s?)?|l\.?p\.?m|litres? (?:a|per) min(?:ute)?|"
        r"liters? (?:a|per) min(?:ute)?|lit(?:er|re)s? in (?:the |a |one )?min(?:ute)?"
    ),
    "L/s": r"l(?:it(?:er|re)s?)?\s?(?:/|per|a)\s?s(?:ec(?:ond)?)?",
    "L/h": r"l(?:it(?:er|re)s?)?\s?(?:/|per|an)\s?h(?:r|our)?",
    "m3/h": r"m(?:3|³|\^3)\s?(?:/|per)\s?h(?:r|our)?|cubic met(?:er|re)s? (?:an|per) hour",
    "imp gpm": (
        r"(?:imp(?:erial)?\.?|uk|british) (?:gal(?:lon)?s?\.?\s?(?:/|per|a)\s?min(?:ute)?|gpm)|igpm|gpm "
        r"\(?imp(?:erial)?\)?"
    ),
    "gpm": r"(?:u\.?s\.?\s?)?(?:g\.?p\.?m|gal(?:lon)?s?\.?\s?(?:/|per|a)\s?m(?:in(?:ute)?)?)(?: us)?",
    "cc/rev": (
        r"cc(?:s|m)?(?:\s?(?:/|per|a)\s?rev(?:olution)?|/r)?|cm(?:3|³)\s?(?:(?:/|per)\s?(?:rev(?:olution)?|"
        r"u))?|ml\s?/\s?rev"
    ),
    "in3/rev": r"(?:cu(?:bic)?\.?\s?in(?:ch(?:es)?)?|in3|in³|ci)\.?(?:\s?(?:/|per|a)\s?rev(?:olution)?|r)?",
    "L/rev": r"l(?:it(?:er|re)s?)?\s?(?:/|per|a)\s?rev(?:olution)?",
    "rpm": r"r\.?p\.?m|r/min|revs?(?:\s?(?:/|per|a)\s?min(?:ute)?)?|rev(?:olution)?s per min(?:ute)?",
    "ms": r"ms(?:ec)?|milli\s?sec(?:ond)?s?|thousandths? of a second",
    "s": r"s(?:ec(?:ond)?s?)?",
    "min": r"min(?:ute)?s?",
    "h": r"h(?:(?:ou)?rs?)?",
    "day": r"days?",
    "week": r"weeks?",
    "month": r"months?",
    "year": r"y(?:ea)?rs?",
    "m/s": r"m\s?/\s?s(?:ec)?|met(?:er|re)s? (?:a|per) second",
    "ft/s": r"f(?:ee)?t\s?(?:/|per|a)\s?s(?:ec(?:ond)?)?|fps",
    "other": (
        r"kg|kilos?|kilograms?|g|grams?|t|tons?|tonnes?|lbs?|pounds?|volts?|v|kv|kilovolts?|amps?|hp|"
        r"horse(?:power)?|kw|watts?|w|n\s?m|"
        r"ft[- ]?lbs?|in[- ]?lbs?|kn|%|percent|per cent|c\s?st|centistokes|mm2/s|mm²/s|gal(?:lon)?s?|l|lit(?:er|"
        r"re)s?|ltrs?|"
        r"hz|db|mph|km/h|kph|quid|dollars?|bucks?|pounds?|euros?|£|€|\$|tpi|threads?(?: per inch)?|acres?|hectares?|"
        r"miles?|"
        r"bhp|mm2|mm²|shore|irhd|micron|µm|um"
    ),
}
# Longer spellings first where one begins another; `in` and one-letter units are guarded by what follows.
_ORDER = (
    (
        "psi inHg mmHg inH2O mH2O kgf/cm2 MPa kPa mbar bar L/min L/s L/h m3/h imp gpm gpm in3/rev L/rev cc/rev rpm "
        "°C °F m/s ft/s "
        "ms mm cm km"
    )
    .replace("imp gpm", "imp_gpm")
    .split()
)
_REST = ["other", "deg", "in", "ft", "'", "month", "min", "m", "s", "h", "day", "week", "year", "torr", "atm", "Pa"]
_IN_GUARD = (
    r"(?!\s+(?:the|a|an|stock|winter|summer|spring|autumn|fall|total|use|here|there|my|our|your|his|it|all|each|"
    r"every|front|and out|"
    r"case|time|length|(?:19|20)\d\d|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|service|oil|this|that|use|one|"
    r"cold|hot|there)\b)"
)


def _pattern() -> re.Pattern[str]:
    parts: list[str] = []
    for name in [n.replace("_", " ") for n in _ORDER] + _REST:
        body = SPELLINGS[name]
        guard = _IN_GUARD if name == "in" else ""
        parts.append(f"(?P<u{len(parts)}>(?:{body})(?![a-z0-9]|-[a-z]){guard})")
    return re.compile(r"[ \t]{0,2}-?(?:" + "|".join(parts) + ")")


_NAMES = [n.replace("_", " ") for n in _ORDER] + _REST
_UNIT = _pattern()
_GLUED_HASH = re.compile(r"#(?!\d)")


def match_unit(text: str, at: int) -> tuple[str, int] | None:
    """The unit written at `at` (a blank before it allowed) and where it ends."""
    found = _UNIT.match(text, at)
    if found is None:
        hash_sign = _GLUED_HASH.match(text, at)
        return ("psi", hash_sign.end()) if hash_sign else None
    group = found.lastgroup
    assert group is not None
    return _NAMES[int(group[1:])], found.end()


def factor(name: str) -> float:
    """SI value of one of the unit (without the offset of a temperature)."""
    unit = TABLE[name]
    if unit.factor is not None:
        return unit.factor
    from interview.language.quantity import pint_factor  # pint only where a rare unit is really said

    return pint_factor(name)


def to_si(value: float, name: str) -> float:
    """A number in a unit, as SI (degree Celsius for temperatures).

    >>> round(to_si(180, "°F"), 6)
    82.222222
    """
    return value * factor(name) + TABLE[name].offset


def from_si(si: float, name: str) -> float:
    """The inverse of `to_si`."""
    return (si - TABLE[name].offset) / factor(name)


def measures(name: str) -> str:
    """What a unit measures; "other" for units of things that are no fact."""
    row = TABLE.get(name)
    return row.measures if row else "other"
