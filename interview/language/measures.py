"""Which quantities does a line hold: number, unit, range, hedge and bound?

A measure keeps its number in the unit it was said in; binding turns it into SI once it is known what it measures.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from interview.language import units
from interview.language.firmness import how_firm
from interview.language.lexer import Token

_US_UNITS = frozenset(("psi", "gpm", "imp gpm", "in", "ft", "°F", "rpm", "h", "in3/rev"))
_LENGTH_BEHIND = re.compile(r" (?:long|overall|over|end|tip|feet|foot|ft|met(?:re|er)s?|m)\b")
_ONE_DIGIT = re.compile(r"\s(\d)(?=\s*(?:[,;.)](?!\d)|$)|\s+(?:long|over|overall|between|end|from)\b)")
_OF_THE_LAST = re.compile(r"\s*(?:min|max)\.?\s*")  # "-20F min 30 gpm": the least of the cold, not of the flow
_TOLERANCE = re.compile(
    r"(?:\+\s*/|±|\bplus\s*(?:or|/|and)(?:\s*minus)?|\bplus minus|\bgive or take|\btolerance(?: of| is)?:?)$"
)
_RANGE = re.compile(
    r"\s*(?:to|/(?=\s?[-+])|-|\.\.+|through|thru|up to|until|til+|and)\s*"
    r"(?=[-+]?(?:minus |plus |neg(?:ative)? )?[\d.½¼¾a-z])"
)
_OF_AN = re.compile(r"\s*-?(?:of )?an?(?= (?:inch|metre|meter|mtr|foot|second|bar|litre|liter))")
_GROWN = frozenset("dn jic orfs orb npt nptf bsp bspp bspt ofs dkol dkos x dash".split())  # jic8, dn16
_THOUSANDS = re.compile(r"\s?k(?=\s|$|[,;.)]|psi|#|lb)")
_MULTIPLY = re.compile(r"\s+(thousand|thou|grand|hundred)\b")


@dataclass(slots=True)
class Measure:
    """A number (or range) with its unit, as said. `unit` "" is a bare number; `first` and `last` are token indices."""

    low: float
    high: float
    unit: str
    start: int
    end: int
    first: int
    last: int
    form: str
    alt: float | None = None
    is_range: bool = False
    hedged: bool = False
    bound: str = ""  # at_least | not_under | up_to
    minus: bool = False
    taken: bool = False
    corrects: bool = False

    @property
    def measures(self) -> str:
        return "" if not self.unit else ("foot_or_minute" if self.unit == "'" else units.measures(self.unit))


def find_measures(low: str, tokens: list[Token], masked: list[bool]) -> list[Measure]:
    """All measures outside the masked tokens, in order."""
    found: list[Measure] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        if token.text == "inch" and not masked[i] and (half := _inch_and(tokens, i)) is not None:
            half.hedged, half.bound = how_firm(low, half.start, half.end)
            found.append(half)
            i = half.last + 1
            continue
        if token.text in ("a", "one") and not masked[i] and (whole := _a_metre(low, tokens, i)) is not None:
            whole.hedged, whole.bound = how_firm(low, whole.start, whole.end)
            found.append(whole)
            i = whole.last + 1
            continue
        if (
            token.number is None
            or masked[i]
            or (token.glued and i and tokens[i - 1].kind == "w" and tokens[i - 1].text not in _GROWN)
        ):
            i += 1
            continue
        measure = _one(low, tokens, i)
        if measure is None:
            i += 1
            continue
        joined = (
            _feet_and_inches(low, tokens, masked, measure)
            or _metres_and_centimetres(low, tokens, masked, measure)
            or _ranged(low, tokens, masked, measure)
        )
        measure = joined or measure
        if found and _a_tolerance(low, measure):
            i = measure.last + 1
            continue
        cold = found[-1].end if found and found[-1].measures == "temperature" else -1
        if not (0 <= cold and _OF_THE_LAST.fullmatch(low, cold, measure.start)):
            measure.hedged, measure.bound = how_firm(low, measure.start, measure.end)
        found.append(measure)
        i = measure.last + 1
        while i < len(tokens) and tokens[i].start < measure.end:
            i += 1
    return found


def _a_tolerance(low: str, measure: Measure) -> bool:
    """The 5 of "1200 mm +/- 5", which is no figure of its own."""
    before = low[max(0, measure.start - 24) : measure.start].rstrip(" -")
    return _TOLERANCE.search(before) is not None or (measure.minus and before.endswith(" plus"))


def _centimetres(token: Token) -> float:
    """The ten of "a metre ten", in metres; 0 where it is none."""
    number = token.number
    return number.value / 100 if number is not None and number.form == "words" and 10 <= number.value < 100 else 0.0


def _ends_there(low: str, at: int) -> bool:
    """No unit and nothing counted behind a number."""
    return units.match_unit(low, at) is None and not counts_else(low, at)


def _a_metre(low: str, tokens: list[Token], i: int) -> Measure | None:
    """A metre; a foot and a half."""
    if i + 1 >= len(tokens) or tokens[i + 1].text not in ("metre", "meter", "foot", "yard", "mtr"):
        return None
    unit = {"foot": "ft", "yard": "yd"}.get(tokens[i + 1].text, "m")
    last, value = i + 1, 1.0
    if (
        i + 3 < len(tokens)
        and tokens[i + 2].text == "and"
        and (part := tokens[i + 3].number) is not None
        and part.form == "frac"
    ):
        last, value = i + 3, 1 + part.value
    elif (
        i + 2 < len(tokens)
        and unit == "m"
        and (cm := _centimetres(tokens[i + 2]))
        and _ends_there(low, tokens[i + 2].end)
    ):
        last, value = i + 2, 1 + cm
    return Measure(value, value, unit, tokens[i].start, tokens[last].end, i, last, "words")


def _inch_and(tokens: list[Token], i: int) -> Measure | None:
    """An inch and a half."""
    if (
        i + 2 >= len(tokens)
        or tokens[i + 1].text != "and"
        or (number := tokens[i + 2].number) is None
        or number.form != "frac"
    ):
        return None
    value = 1 + number.value
    return Measure(value, value, "in", tokens[i].start, tokens[i + 2].end, i, i + 2, "mixed")


def _one(low: str, tokens: list[Token], i: int) -> Measure | None:
    token = tokens[i]
    number = token.number
    assert number is not None
    value, alt, end = number.value, number.alt, token.end
    if (k := _THOUSANDS.match(low, end)) is not None and number.form in ("int", "dec"):
        value, alt, end = value * 1000, None, k.end()
    elif (times := _MULTIPLY.match(low, end)) is not None and number.form in ("int", "dec"):
        value, alt, end = value * (100 if times[1] == "hundred" else 1000), None, times.end()
    last = i
    if number.form == "int" and (half := _and_a_part(low, tokens, i)) is not None:
        value, end, last = value + half, tokens[i + 2].end, i + 2
    minus, start, first = number.minus, token.start, i
    if i and tokens[i - 1].text in ("minus", "negative", "neg"):
        minus, start, first = True, tokens[i - 1].start, i - 1
    elif minus:
        start -= 1
    unit = ""
    if (
        number.form == "frac"
        and (of := _OF_AN.match(low, end)) is not None
        and units.match_unit(low, of.end()) is not None
    ):
        end = of.end()
    got = units.match_unit(low, end) or (units.match_unit(low, end + 1) if low[end : end + 1] == "+" else None)
    if got is not None and not (
        number.form in ("words", "spoken", "frac") and token.text in ("one",) and got[0] in ("m", "s", "h")
    ):
        unit, end = got
    elif low[end : end + 1].isalpha() and low[end - 1].isdigit():
        return None  # a number grown together with letters that are no unit: a model, a type, a code
    below = re.match(r"\s*(?:degrees? )?below(?: zero| freezing)?\b(?! the| a)", low[end : end + 24])
    if below and not minus and unit in ("", "°C", "°F", "deg"):
        minus, end = True, end + below.end()
    sign = -1.0 if minus else 1.0
    if number.form == "thou" and unit in _US_UNITS:
        alt = None  # nobody who writes psi or gpm writes a decimal comma
    return Measure(sign * value, sign * value, unit, start, end, first, last, number.form,
                   None if alt is None else sign * alt, minus=minus)  # fmt: skip


def _and_a_part(low: str, tokens: list[Token], i: int) -> float | None:
    """The half of "3 and a half feet"; "JIC 8 and half inch BSP" are two."""
    if i + 2 >= len(tokens) or tokens[i + 1].text != "and" or (part := tokens[i + 2].number) is None:
        return None
    if part.form != "frac" or tokens[i + 2].text[:1].isdigit() or (i and tokens[i - 1].text in _GROWN):
        return None
    own = tokens[i + 2].text.startswith("a ") or _LENGTH_BEHIND.match(low, tokens[i + 2].end) is not None
    return part.value if own else None


def _feet_and_inches(low: str, tokens: list[Token], masked: list[bool], one: Measure) -> Measure | None:
    marked = one.unit == "" and re.match(r"['\u2019\u2032]\s?\d", low[one.end : one.end + 3]) is not None  # 3'6"
    if one.unit not in ("ft", "'") and not marked:
        return None
    j = _token_at(tokens, one.end + marked, one.last)
    if j is not None and tokens[j].text == "and" and one.unit == "ft":
        j += 1
    if j is None or j >= len(tokens) or tokens[j].number is None or masked[j] or tokens[j].start - one.end > 5:
        return None
    inches = _one(low, tokens, j)
    if (
        inches is None
        or inches.minus
        or not 0 <= inches.low < 12
        or (inches.unit != "in" and not (inches.unit == "" and (one.unit == "ft" or marked)))
    ):
        return None
    if inches.unit == "" and not marked and low[one.end : tokens[j].start].strip():
        return None
    total = one.low * 12 + inches.low
    return Measure(total, total, "in", one.start, inches.end, one.first, inches.last, "dec")


def _metres_and_centimetres(low: str, tokens: list[Token], masked: list[bool], one: Measure) -> Measure | None:
    """One metre twenty, written "1 m 20": two bare digits right after the metres, and nothing they could count."""
    if one.unit != "m" or one.form not in ("int", "words") or one.minus:
        return None
    j = _token_at(tokens, one.end, one.last)
    if j is not None and not masked[j] and (cm := _centimetres(tokens[j])) and _ends_there(low, tokens[j].end):
        return Measure(one.low + cm, one.low + cm, "m", one.start, tokens[j].end, one.first, j, "dec")
    if one.form != "int":
        return None
    if (odd := _ONE_DIGIT.match(low, one.end)) is not None:  # 1.05 or 1.5 m? Not to be told, and no figure of its own
        last = next(k for k in range(one.last, len(tokens)) if tokens[k].end >= odd.end(1))
        return Measure(one.low, one.high, "other", one.start, odd.end(1), one.first, last, "dec")
    rest = re.match(r"\s(\d\d)(?=\s*(?:[,;.)](?!\d)|$)|\s+(?:long|over|overall|between|end|from)\b)", low[one.end :])
    j = _token_at(tokens, one.end, one.last)
    if rest is None or j is None or masked[j] or tokens[j].number is None:
        return None
    total = one.low + int(rest[1]) / 100
    return Measure(total, total, "m", one.start, one.end + rest.end(1), one.first, j, "dec")


def _token_at(tokens: list[Token], at: int, after: int) -> int | None:
    for j in range(after + 1, min(after + 6, len(tokens))):
        if tokens[j].start >= at:
            return j
    return None


def _ranged(low: str, tokens: list[Token], masked: list[bool], one: Measure) -> Measure | None:
    link = _RANGE.match(low, one.end)
    if link is None:
        return None
    joint = link.group().strip()
    if joint == "and" and not re.search(r"between\s*$", low[max(0, one.start - 10) : one.start]):
        return None
    if joint == "-" and low[one.start - 1 : one.start] == "-" and not one.minus:
        return None
    if joint == "-" and (one.form == "frac" or (link.group()[0] == " " and link.group()[-1] == "-")):
        return None
    j = _token_at(tokens, link.end(), one.last)
    while (
        j is not None
        and j < len(tokens)
        and (tokens[j].text in ("minus", "neg", "negative", "-", "+", "plus", "about"))
    ):
        j += 1
    if j is None or j >= len(tokens) or tokens[j].number is None or masked[j] or tokens[j].start - link.end() > 9:
        return None
    two = _one(low, tokens, j)
    if two is None:
        return None
    if joint == "-" and two.minus and low[tokens[j].start - 1] == "-" and low[one.end : tokens[j].start].strip() == "-":
        two.low = two.high = abs(two.low)  # the dash was the range's own
    if one.unit and two.unit and one.measures != two.measures:
        return None
    if one.unit and not two.unit and one.unit != "deg":
        return (
            None
            if joint == "-"
            else Measure(*_ends(one, two), one.unit, one.start, two.end, one.first, two.last, two.form, is_range=True)
        )
    unit = two.unit if one.unit in ("", "deg", two.unit) else ""
    if not unit and one.unit:
        a = units.to_si(one.low, one.unit)
        one.low, unit = units.from_si(a, two.unit), two.unit
    return Measure(*_ends(one, two), unit or one.unit, one.start, two.end, one.first, two.last, two.form, is_range=True)


def _ends(one: Measure, two: Measure) -> tuple[float, float]:
    """An upside-down range is kept as said; binding refuses it where it matters. 15-20 thousand reads both alike."""
    return (one.low, two.low) if one.low <= two.low else (two.low, one.low)


# What a bare number counts when it counts something else than was asked: strokes, hours, pieces, money.
_COUNTED = re.compile(
    r"\W*(?:(?:times|strokes?|cycles?|shots?|goes)\b|(?:an?|per|each|every|/)\s*(?:an?\s*)?(?:hours?|hrs?|h|minutes?|mins?|"
    r"years?|days?|shifts?|weeks?|seconds?)\b|(?:years?|yrs?|hours?|hrs?|days?|weeks?|months?|"
    r"of (?:them|those|these)|off|pieces?|pcs|euros?|dollars?|bucks|quid|percent|%|volts?|"
    r"amps?|kw|hp|people|men|times)\b)"
)


def counts_else(low: str, at: int) -> bool:
    """True where the words behind a bare number say that it counts something: strokes an hour, years, pieces."""
    return _COUNTED.match(low, at) is not None
