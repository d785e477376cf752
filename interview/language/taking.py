"""How does a number become a fact, once it is known which one it is?"""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

from interview.catalogue import CATALOGUE
from interview.facts import Origin, Span, Value
from interview.language import units
from interview.language.convert import (
    FAR_OUT,
    PSI_FROM,
    bare_bores,
    bare_unit,
    believable,
    bore_of,
    other_comma,
    value_of,
)
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import Heard
from interview.language.pairing import Cue

THREADED = frozenset(
    "fitting fittings ends end coupling couplings nuts threads adapter port ports male female pipe thread nut full "
    "empty way of npt bsp bspp jic orfs plug union tee swivel flange flanges".split()
)


TUBE_DASH = ("saej517-100r5", "saej517-100r14a", "saej517-100r14b")  # their dash is the tube's they mate with
_US_BRITISH = ("gpm", "imp gpm")
_UNITS_OF = {"pressure": ("bar", "psi"), "length": ("mm", "in"), "flow": ("L/min", "gpm"), "temperature": ("°C", "°F")}
_FAR_APART = 10.0  # two figures of one kind in one line are seldom further apart than this (practice)
_BESIDE = 3.0


def _unit_of(line: Line, measure: Measure, name: str, asked: bool) -> str:
    """The unit of a bare number: the one last given for its kind, else the one given next; empty where it is open.

    A neighbour's unit that would belie the number is not borrowed: then only what it can still be is left.
    """
    kind = CATALOGUE[name].measures
    some = [m for m in line.measures if m.measures == kind]
    if kind == "length" and abs(measure.low) >= 100:  # the inches of a bore say nothing of the length of the hose
        some = [m for m in some if units.to_si(abs(m.high), m.unit) >= 0.1]
    before = [m for m in some if m.start < measure.start]
    after = [m for m in some if m.start > measure.start]
    near = before[-1] if before else after[0] if after else None
    if near is None:
        return bare_unit(name, measure.low, line.home, asked=asked) or ""
    if believable(name, value_of(measure, near.unit)) and not _belied(measure, near):
        return near.unit
    left = [u for u in _UNITS_OF.get(kind, ()) if believable(name, value_of(measure, u))]
    return "psi" if left == ["psi"] and abs(measure.low) >= PSI_FROM else ""


def _belied(measure: Measure, near: Measure) -> bool:
    """A bare number that its neighbour's unit puts far from the neighbour, and the other system's unit beside it.

    "Works at 210, spikes 4000 psi" and "ports 40 apart, hose 1100 mm": the number has a unit of its own, left unsaid.
    """
    if near.unit == "bar" and abs(measure.high) >= PSI_FROM:
        return True
    others = [u for u in _UNITS_OF.get(near.measures, ()) if u != near.unit]
    beside = units.to_si(abs(near.high), near.unit)
    if not others or not beside or not measure.high:
        return False

    def apart(unit: str) -> float:
        ratio = units.to_si(abs(measure.high), unit) / beside
        return max(ratio, 1 / ratio)

    return apart(near.unit) >= _FAR_APART and min(map(apart, others)) < _BESIDE


def take(
    line: Line,
    name: str,
    measure: Measure,
    cue: Cue | None = None,
    *,
    asked: bool = False,
    origin: Origin = Origin.STATED,
) -> bool:
    """Makes a fact of a measure. False where it cannot be one."""
    asked = asked or name in line.asked
    if measure.unit == "'":
        readings = (
            tuple(Heard(name, measure.low * f, "ft") for f in (0.3048,)) if CATALOGUE[name].measures == "length" else ()
        )
        line.open((name,), "feet or minutes?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    if name == "bore":
        return take_bore(line, measure, asked)
    kind = CATALOGUE[name].measures
    unit = measure.unit
    if kind in ("number", "grade", "size"):
        value: Value = float(measure.low) if not measure.is_range else Span(measure.low, measure.high)
        if unit not in ("", "other") and kind != "size":
            return False
        return _settle(line, name, value, "", measure, cue, origin)
    if not unit:
        unit = _unit_of(line, measure, name, asked)
        if not unit:
            choices = _UNITS_OF.get(kind, ())
            readings = tuple(heard_from(line, name, value_of(measure, u), u, measure, cue) for u in choices)
            readings = tuple(r for r in readings if believable(name, r.value))
            line.open(
                (name,),
                f"which unit: {' or '.join(choices)}?" if choices else "which unit?",
                measure.first,
                measure.last,
                readings,
                measure.end,
            )
            measure.taken = True
            return True
    if units.measures(unit) != kind:
        return False
    if name == "vacuum" and measure.low < 0:
        measure.low, measure.high = -measure.high, -measure.low
    if unit == "gpm" and (line.has_mark("british") or re.search(r"\bimp", line.low)):
        readings = tuple(heard_from(line, name, value_of(measure, u), u, measure, cue) for u in _US_BRITISH)
        line.open((name,), "US or imperial gallons?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    if other_comma(measure, name, unit):
        readings = (heard_from(line, name, value_of(measure, unit), unit, measure, cue),
                    heard_from(line, name, units.to_si(measure.alt or 0.0, unit), unit, measure, cue))  # fmt: skip
        line.open((name,), "thousands or a decimal comma?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    return _settle(line, name, value_of(measure, unit), unit, measure, cue, origin)


def _span(measure: Measure, cue: Cue | None) -> tuple[int, int]:
    if cue is None:
        return measure.first, measure.last
    return min(measure.first, cue.first), max(measure.last, cue.last - 1)


def heard_from(line: Line, name: str, value: Value, unit: str, measure: Measure, cue: Cue | None) -> Heard:
    first, last = _span(measure, cue)
    start, end = line.tokens[first].start, max(line.tokens[last].end, measure.end)
    start = min(start, measure.start)
    return Heard(name, value, unit, line.said(start, end), Origin.STATED, measure.hedged, measure.corrects, start, end)


def _settle(line: Line, name: str, value: Value, unit: str, measure: Measure, cue: Cue | None, origin: Origin) -> bool:
    if name == "working_pressure" and _printed(line, measure):
        name, origin = "old_rating", Origin.READ
    heard = replace(heard_from(line, name, value, unit, measure, cue), origin=origin)
    measure.taken = True
    if name == "old_rating" and any(f.name == name and _alike(f.value, value) for f in line.facts):
        return True  # the same rating in the other unit
    first, last = _span(measure, cue)
    if not believable(name, value):
        line.open(
            (name,),
            FAR_OUT,
            measure.first,
            measure.last,
            (heard,),
            measure.end,
        )
        return True
    line.facts.append(heard)
    line.used.update(range(first, last + 1))
    return True


def _alike(one: Value, two: Value) -> bool:
    return isinstance(one, float) and isinstance(two, float) and abs(one - two) <= 0.01 * max(one, two)


def _printed(line: Line, measure: Measure) -> bool:
    """Words of a print in the clause: the pressure is what the old hose carries on it."""
    a, b = line.clause(measure.first, frozenset({".", ";"}))
    before = line.words[a : measure.first]
    said = line.words[max(a, measure.first - 2) : measure.first]
    if (
        {"says", "reads", "said"} & set(said)
        and {"wire", "hose", "old", "spiral", "print"} & set(line.words[a:b])
        and not {"gauge", "plate", "logger"} & set(before)
    ):
        return True
    if _read_out(line, a, measure):
        return True
    if "but" in before:  # "the print reads 2SN but we run 250 bar"
        before = before[len(before) - before[::-1].index("but") :]
    if {"marked", "printed", "stamped", "layline", "print", "lettering"} & set(before):
        return True
    return any(x == "hose" and y in ("says", "reads", "said") for x, y in itertools.pairwise(before))


def _read_out(line: Line, a: int, measure: Measure) -> bool:
    """ "It says on it 100R1AT dash 12 1500 psi": behind a construction that is read off, so is the pressure."""
    made = [k for k, label in line.label_at.items() if label.kind == "construction" and a <= k < measure.first]
    if not made or any(w in _OF_THE_MACHINE for w in line.words[made[-1] : measure.first]):
        return False
    return any(w in ("says", "reads", "read", "see", "print", "printed") for w in line.words[a : made[0]])


_OF_THE_MACHINE = frozenset(
    "gauge plate logger pump relief valve working running run runs works system we machine but".split()
)


def take_bore(line: Line, measure: Measure, asked: bool = False) -> bool:
    before = line.words[measure.first - 1] if measure.first else ""
    dash = (measure.minus and not measure.unit) or before in ("dash", "#")
    dn = before == "dn"
    if measure.is_range:
        return False
    plain = asked and not (dash or dn or measure.unit) and measure.form not in ("frac", "mixed")
    if plain and len(some := bare_bores(measure.low)) > 1:
        if line.home != "us":  # where no hose is sized by DN, a bare number is a dash
            readings = tuple(
                heard_from(line, "bore", b, u, measure, None) for b, u in zip(some, ("dash", "dn"), strict=True)
            )
            line.open(("bore",), "a dash or a DN?", measure.first, measure.last, readings, measure.end)
            measure.taken = True
            return True
        dash = True
    bore = bore_of(measure, dash=dash, dn=dn, asked=asked)
    if bore is None or not believable("bore", bore):
        return False
    measure.taken = True
    start = line.tokens[measure.first - 1].start if dn or before == "dash" else measure.start
    end = max(measure.end, line.tokens[measure.last].end)
    line.facts.append(
        Heard(
            "bore",
            bore,
            measure.unit or ("dn" if dn else "dash" if dash else "in"),
            line.said(start, end),
            hedged=measure.hedged,
            corrects=measure.corrects,
            start=start,
            end=end,
        )
    )
    line.used.update(range(measure.first - (1 if dn else 0), measure.last + 1))
    return True


def is_marked(line: Line, m: Measure) -> bool:
    """A dash that is print on the hose, or of a construction whose dash is the tube it mates with."""
    if any(label.data in TUBE_DASH for label in line.labels):
        return True
    return any(c.tag == "marked_size" and 0 <= m.first - c.last <= 2 for c in line.cues)
