"""What does the name of a thread say, where its readings are asked for: M26x1.5, 7/8-14, G1/2?

A metric or an inch thread is named by its outside diameter and its pitch. A pipe thread is named by neither: of those
only the parallel ones (G) have one diameter along their length, and that is in ISO 228-1. The name never speaks of the
inside of a female, so that what the calipers say is asked there.
"""

from __future__ import annotations

import itertools
import re

from interview.language import units
from interview.language.convert import believable
from interview.language.counts import put
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import Heard
from interview.language.wording import denied

_INCH = 0.0254  # m
_COARSEST = 0.005  # m; no hose end has a coarser pitch, nor so thin a thread
# Outside diameter in mm and threads an inch of the parallel pipe thread G, from ISO 228-1 (restated).
PIPE = {
    "1/8": (9.728, 28.0),
    "1/4": (13.157, 19.0),
    "3/8": (16.662, 19.0),
    "1/2": (20.955, 14.0),
    "5/8": (22.911, 14.0),
    "3/4": (26.441, 14.0),
    "1": (33.249, 11.0),
    "1-1/4": (41.91, 11.0),
    "1-1/2": (47.803, 11.0),
    "2": (59.614, 11.0),
}
# What is written like an inch thread and is a taper pipe thread of ASME B1.20.1 (restated): its outside is another.
_TAPER_PIPE = {"1/8": 27.0, "1/4": 18.0, "3/8": 18.0, "1/2": 14.0, "3/4": 14.0, "1": 11.5, "1-1/4": 11.5, "1-1/2": 11.5,
               "2": 11.5}  # fmt: skip
_READINGS = re.compile(r"(end_[ab])_(?:thread_diameter|thread_pitch|seat_angle)")
_LOOKED_AT = re.compile(r"(end_[ab])_(?:thread_diameter|thread_pitch|seat_angle|tapered|seals_at|recess|gender)")
_FEMALE = re.compile(
    r"\b(?:females?|fem|nuts?|internal thread|inside (?:measures?|reads?|is|of the (?:nut|thread)|the nut|diameter|"
    r"thread)|(?:measures?|measured|reads?|mm) inside|inside(?= (?:about )?\d))\b"
)
_MALE = re.compile(r"\b(?:males?|outside thread|external thread)\b")
_MEASURES = re.compile(r"\bthreads?\b[^,;.\d]{0,24}\b(?:measures?|reads?|is|comes to|across)\b(?: about| roughly)? $")
_METRIC = re.compile(
    r"(?<![\w.,/-])m?\s?(?P<d>\d{1,3}(?:[.,]\d)?)\s?(?:mm\s?)?(?:x|by)\s?(?P<p>\d(?:[.,]\d{1,2})?)(?:\s?mm)?(?![\w/]|[.,]\d)"
)
_PARALLEL = re.compile(r"\bg\s?(?P<s>(?:\d[ -])?\d/\d|[12])(?:\s?[ab])?(?![\w/]|[.,]\d)")
_PART = r"(?:2|4|8|16|32|64)"
_COUNT = r"(?P<n>\d{1,2}(?:\.5)?)"
_TPI = r"(?:tpi|threads?\b(?: (?:per|an|to the) inch)?)"
_UNIFIED = re.compile(
    rf"(?<![\w.,/-])(?P<s>(?:\d[ -])?\d{{1,2}}/{_PART}|[12])(?:\s?(?:in(?:ch)?|\"))?"
    rf"(?:\s?(?:-|x|by)\s?{_COUNT}(?:\s?{_TPI})?|[ ,]{{1,2}}{_COUNT.replace('<n>', '<c>')}\s?{_TPI})"
    rf"(?:\s?(?:unf?|unc|unjf|uns)\b)?(?![\w/]|[.,]\d)"
)
_FRACTION = re.compile(
    rf"(?<![\w.,/-])(?P<s>(?:\d[ -])?\d{{1,2}}/{_PART})(?:\s?(?:in(?:ch)?|\"))?(?![\w/]|[.,]\d|\s?-)"
)

_ANY_COUNT = re.compile(rf"\b{_COUNT}\s?{_TPI}")
_PIPE_SIZE = "a pipe size is not a diameter: what do the calipers say over the crests?"
_EITHER = "an inch thread of that diameter, or a pipe thread of that size?"
_INSIDE = "that is the thread's outside; what do the calipers say inside the nut?"


def names_a_thread(said: str) -> bool:
    """Whether these words give a diameter by a thread's name, which is that of its outside.

    >>> names_a_thread("M18x1.5"), names_a_thread("G1/2 14 tpi"), names_a_thread("17.5 mm")
    (True, True, False)
    """
    low = said.lower()
    return any(name.search(low) for name in (_METRIC, _PARALLEL, _UNIFIED, _FRACTION))


_HEAD = re.compile(r"\b(?:heads?|face|across)\b")
_SCREWS = re.compile(r"\b(?:bolts?|screws?|holes?|spacing|apart|cent(?:re|er)s?)\b")


def _flange(line: Line) -> None:
    """ "47.6 mm head, 57.2 mm bolts": each length by the word in its own stretch, where a flange is measured."""
    for end in ("end_a", "end_b"):
        pair = (f"{end}_head_diameter", f"{end}_bolt_spacing")
        if not set(pair) & set(line.asked):
            continue
        for m in line.measures:
            a, b = line.clause(m.first)
            said = line.low[line.tokens[a].start : line.tokens[b - 1].end]
            words = [name for name, what in zip(pair, (_HEAD, _SCREWS), strict=True) if what.search(said)]
            if m.taken or m.is_range or m.unit not in ("", "mm", "in") or len(words) != 1:
                continue
            if sum(a <= other.first < b for other in line.measures) > 1:
                continue
            unit = m.unit or "mm"
            value = m.low * (_INCH if unit == "in" else 1e-3)
            if believable(words[0], value):
                put(line, words[0], value, m.start, m.end, unit, m)


_OVER = re.compile(r"\s*(?:mm\s*)?(?:inside|outside|over|across|dia(?:meter)?|on the (?:thread|crests))\b")


def _first_figure(line: Line, end: str) -> None:
    """ "17.5 inside, 16 tpi, 74 deg": a bare figure said of the thread is its diameter in millimetres."""
    name = f"{end}_thread_diameter"
    if name not in line.asked or any(f.name == name for f in line.facts):
        return
    bare = [m for m in line.measures if not m.taken and m.unit == "" and not m.is_range and not m.minus]
    bare = [m for m in bare if m.low >= 1000 * _COARSEST and believable(name, m.low / 1000)]
    told = [m for m in bare if _OVER.match(line.low, m.end)]
    if not told and len(line.measures) > 1 and bare and bare[0] is line.measures[0]:
        told = bare[:1] if line.measures[1].unit in ("other", "mm", "deg") else []
    if len(told) == 1:
        m = told[0]
        put(line, name, m.low / 1000, m.start, m.end, "mm", m)


def hear_thread_readings(line: Line) -> None:
    """Diameter and pitch from a thread's name, where a question about the readings of an end is open."""
    _flange(line)
    looked_at = next((m[1] for a in line.asked if (m := _LOOKED_AT.fullmatch(a))), None)
    if looked_at is not None:
        _gender(line, looked_at)
        _measured(line, looked_at)
    end = next((m[1] for a in line.asked if (m := _READINGS.fullmatch(a))), None)
    if end is None:
        return
    if (found := _METRIC.search(line.low)) is not None:
        pitch = float(found["p"].replace(",", ".")) / 1000
        _take(line, end, found, float(found["d"].replace(",", ".")) / 1000, pitch, "mm")
    elif (found := _PARALLEL.search(line.low)) is not None:
        outside, count = PIPE.get(found["s"].replace(" ", "-"), (None, 0.0))
        counted = _ANY_COUNT.search(line.low)
        if outside is not None and counted is not None and abs(float(counted["n"]) - count) > 0.01:
            first, last = line.tokens_in(found.start(), counted.end())
            names = (f"{end}_thread_diameter", f"{end}_thread_pitch")
            line.open(names, f"G {found['s']} has {count:g} threads an inch: which was read?", first, last)
            line.spend(found.start(), counted.end())
        elif outside is not None:
            _take(line, end, found, outside / 1000, None, "mm")
    elif (found := _UNIFIED.search(line.low)) is not None:
        size = found["s"].replace(" ", "-")
        count = float(found["n"] or found["c"])
        if not 5 <= count <= 48:
            return
        pipe = count == _TAPER_PIPE.get(size) or count == PIPE.get(size, (0.0, 0.0))[1]
        _take(line, end, found, None if pipe else _inches(size), _INCH / count, "tpi")
    elif f"{end}_thread_diameter" in line.asked and (found := _FRACTION.search(line.low)) is not None:
        _fraction(line, end, found)
    else:
        _in_order(line, end)
        _first_figure(line, end)


def _gender(line: Line, end: str) -> None:
    """Who measures inside, or speaks of the nut, has a female in hand."""
    name = f"{end}_gender"
    if any(f.name == name for f in line.facts):
        return
    said = [("female", m) for m in _FEMALE.finditer(line.low)] + [("male", m) for m in _MALE.finditer(line.low)]
    firm = [(g, m) for g, m in said if denied(line, line.tokens_in(*m.span())[0]) < 0]
    if firm and len({g for g, _ in firm}) == 1:
        gender, m = firm[0]
        line.add(name, gender, *line.tokens_in(*m.span()))


def _measured(line: Line, end: str) -> None:
    """ "Thread inside measures 22" where the seat was asked: a reading, and a bare one is in millimetres."""
    name = f"{end}_thread_diameter"
    if name in line.asked:
        return
    for m in line.measures:
        unit = m.unit or ("mm" if line.home != "us" else "")
        if m.taken or m.is_range or unit not in ("mm", "in") or _MEASURES.search(line.low[: m.start]) is None:
            continue
        value = m.low * (_INCH if unit == "in" else 1e-3)
        if believable(name, value):
            put(line, name, value, m.start, m.end, unit, m)
            return


def reading_of(line: Line, m: Measure) -> str:
    """The fact of a length or an angle given to a question about a thread; empty where none was asked."""
    end = next((x[1] for a in line.asked if (x := _READINGS.fullmatch(a))), None)
    if end is None or m.is_range or m.measures not in ("length", "angle"):
        return ""
    if m.measures == "angle":
        name = f"{end}_seat_angle"
    else:
        name = f"{end}_thread_diameter" if units.to_si(m.low, m.unit) >= _COARSEST else f"{end}_thread_pitch"
    return name if name in line.asked and believable(name, units.to_si(m.low, m.unit)) else ""


def _in_order(line: Line, end: str) -> None:
    """Three bare figures are the three readings in the order they were asked in: "21.9, 1.5, 24"."""
    some = line.measures
    if not {f"{end}_thread_diameter", f"{end}_thread_pitch", f"{end}_seat_angle"} <= set(line.asked) or len(some) != 3:
        return
    if any(m.taken or m.is_range or m.minus or m.unit not in ("", "mm", "deg") for m in some) or some[2].unit == "mm":
        return
    between = [line.low[a.end : b.start] for a, b in itertools.pairwise(some)]
    if line.low[: some[0].start].strip() or any(b.strip() not in (",", ";", "/", "and", ", and") for b in between):
        return
    values = (some[0].low / 1000, some[1].low / 1000, some[2].low)
    names = (f"{end}_thread_diameter", f"{end}_thread_pitch", f"{end}_seat_angle")
    if not all(believable(name, value) for name, value in zip(names, values, strict=True)):
        return
    for name, value, m in zip(names, values, some, strict=True):
        put(line, name, value, m.start, m.end, "deg" if name.endswith("angle") else "mm", m)


def _fraction(line: Line, end: str, found: re.Match[str]) -> None:
    """An inch fraction alone: where a pipe thread has that size too, its diameter is another."""
    size = found["s"].replace(" ", "-")
    first, last = line.tokens_in(*found.span())
    if size not in PIPE or any(k in line.end_used for k in range(first, last + 1)):
        _take(line, end, found, _inches(size), None, "in")
        return
    name, said = f"{end}_thread_diameter", line.said(*found.span())
    outside = (_inches(size), PIPE[size][0] / 1000)
    readings = tuple(Heard(name, d, "mm", said, start=found.start(), end=found.end()) for d in outside)
    line.open((name,), _EITHER, first, last, readings)
    line.spend(*found.span())


def _inches(size: str) -> float:
    """The metres of an inch size.

    >>> _inches("1-1/16"), _inches("7/8"), _inches("1")
    (0.0269875, 0.022225, 0.0254)
    """
    whole, _, part = size.rpartition("-") if "/" in size else (size, "", "")
    over, _, under = part.partition("/")
    inches = (float(whole) if whole else 0.0) + (float(over) / float(under) if under else 0.0)
    return round(inches * _INCH, 9)


def _take(line: Line, end: str, found: re.Match[str], diameter: float | None, pitch: float | None, unit: str) -> None:
    """Both readings, unless the words were about which connection it is; what the name does not say is asked."""
    first, last = line.tokens_in(*found.span())
    if any(k in line.end_used for k in range(first, last + 1)):
        return
    across, along = f"{end}_thread_diameter", f"{end}_thread_pitch"
    if (diameter is not None and not believable(across, diameter)) or (
        pitch is not None and not believable(along, pitch)
    ):
        return
    said = line.said(*found.span())
    inside = bool({"female", "nut", "inside", "internal"} & set(line.words))
    if diameter is not None and not inside:
        line.facts.append(
            Heard(across, diameter, "mm" if unit == "mm" else "in", said, start=found.start(), end=found.end())
        )
    else:
        line.open((across,), _INSIDE if inside else _PIPE_SIZE, first, last)
    if pitch is not None:
        line.facts.append(Heard(along, pitch, unit, said, start=found.start(), end=found.end()))
    line.spend(*found.span())
    line.used.update(range(first, last + 1))
