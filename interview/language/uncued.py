"""What of the numbers that no cue stands beside? The trade settles some, the rest is asked back."""

from __future__ import annotations

import re
from dataclasses import replace

from interview.catalogue import CATALOGUE
from interview.language import units
from interview.language.convert import bare_unit, believable, bore_of, value_of
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.taking import THREADED, heard_from, take, take_bore
from interview.language.thread_readings import reading_of

_WIDEST = 0.105  # m; no bore of the hose tables is wider
_SENTENCE = frozenset({";", "!", "?"})


def take_uncued(line: Line) -> None:
    """Numbers with a unit but without a cue: the trade settles some, the rest is asked back."""
    order = (
        len({f.name for f in line.facts}) + len(line.labels) + sum(1 for m in line.measures if not m.taken and m.unit)
    )
    among = order >= 2 or bool(line.facts)
    context = among or "hose" in line.words
    working_said = any(f.name == "working_pressure" for f in line.facts)
    # Of two ("2500 psi hose on a 3000 psi machine") neither is the plain one.
    alone = sum(m.measures == "pressure" and not m.taken for m in line.measures) == 1
    for m in line.measures:
        if (
            not m.taken
            and not m.unit
            and m.form in ("frac", "mixed")
            and context
            and not any(f.name == "bore" for f in line.facts)
        ):
            if {"thread", "threads", "nut", "nuts", "tpi", "port", "ports"} & set(
                line.words[slice(*line.clause(m.first, _SENTENCE))]
            ):
                continue
            if line.words[m.last + 1 : m.last + 2] and line.words[m.last + 1] in THREADED:
                continue
            if (
                line.clause(m.first) == (m.first, m.last + 1)
                or line.low[m.start : m.end].strip("- ")[:1].isdigit()
                or m.start == m.end - 1
            ):
                take_bore(line, m)
        if not m.taken and not m.unit and m.minus and m.form == "int" and _of_a_line(line, m):
            take_bore(line, m)
        if m.corrects and not m.taken and not m.unit and m.form in ("frac", "mixed") and "bore" not in line.asked:
            _corrected_size(line, m)
        if m.taken or not m.unit:
            continue
        kind = m.measures
        if reading := reading_of(line, m):
            take(line, reading, m, asked=True)
            continue
        if kind == "length" and m.unit == "in" and "vacuum" in line.asked:
            m.unit = "inHg"
            take(line, "vacuum", m, asked=True)
            continue
        if kind == "length" and "bore" in line.asked and not any(f.name == "bore" for f in line.facts):
            if take_bore(line, m, True):
                continue
            if not m.is_range and abs(units.to_si(m.low, m.unit)) < _WIDEST:
                line.open(("bore",), "no hose has that bore: which size is meant?", m.first, m.last, (), m.end)
                m.taken = True
                continue
        asked = next(
            (
                a
                for a in line.asked
                if CATALOGUE[a].measures == kind and kind and not any(f.name == a for f in line.facts)
            ),
            None,
        )
        if asked and kind != "temperature":
            take(line, asked, m, asked=True)
        elif kind == "pressure":
            if _of_the_system(line, m):
                working_said = take(line, "working_pressure", m)
            elif among and not working_said and not _waiting(line, m) and alone:
                working_said = take(line, "working_pressure", m)
            else:
                hose = line.words[m.last + 1 : m.last + 3][-1:] == ["hose"]
                ask_which(
                    line, m, ("working_pressure", "surge_pressure", "relief_setting", *(["old_rating"] if hose else []))
                )
        elif kind == "flow":
            take(line, "pump_flow" if _of_the_pump(line, m) else "flow_rate", m)
        elif kind == "speed":
            if driven(line, m):
                take(line, "pump_speed", m)
        elif kind == "length":
            _uncued_length(line, m, context)
        elif kind == "foot_or_minute":
            line.open(("overall_length",), "feet or minutes?", m.first, m.last, (), m.end)
            m.taken = True


def _corrected_size(line: Line, m: Measure) -> None:
    """ "Sorry, it's 3/8, no, 1/2" at another question: a size is put right, of what is asked back."""
    bore = bore_of(m)
    if bore is not None:
        reading = replace(heard_from(line, "bore", bore, "in", m, None), corrects=True)
        line.open(("bore",), "is that the bore of the hose?", m.first, m.last, (reading,), m.end)
        m.taken = True


def _of_a_line(line: Line, m: Measure) -> bool:
    """ "-16 suction": a dash right before the line it is the size of."""
    return bool(_LINES & set(line.words[m.last + 1 : m.last + 2]))


_THAT_IS_THE_PUMP = re.compile(
    r"(?:[\s,.;-]|\b(?:no|wait|sorry|hang on|actually|well)\b)*(?:that's|thats|that is|that was|it's) "
    r"(?:only |just )?(?:what )?the pump\b"
)


def _of_suction(line: Line) -> bool:
    return "line_length" in line.asked or any(f.name in ("lift", "vacuum") or f.value == "suction" for f in line.facts)


_LINES = frozenset("suction return pressure pilot drain".split())


def _of_the_pump(line: Line, m: Measure) -> bool:
    """A pump or its plate named just before the flow, or just after it, with no other thing between."""
    if _THAT_IS_THE_PUMP.match(line.low, m.end):
        return True
    for span in (line.words[max(0, m.first - 9) : m.first][::-1], line.words[m.last + 1 : m.last + 7]):
        for word in span:
            if word in ("pump", "plate"):
                return "suction" not in span
            if word in ("and", ",", ".", ";", "to", "hose", "line", "tank", "for"):
                break
    return False


def _of_the_system(line: Line, m: Measure) -> bool:
    """ "On a 3000 psi system"."""
    return re.match(r" (?:system|circuit)\b", line.low[m.end :]) is not None


def _waiting(line: Line, m: Measure) -> bool:
    """A word like "spikes" in the same sentence that got no number of its own: the number may be its."""
    a, b = line.clause(m.first, frozenset({".", ";"}))
    which = line.words[m.first - 1 : m.first] in (["main"], ["port"], ["secondary"])
    if which and {"relief", "reliefs"} & set(line.words):
        return True
    return any(
        c.tag in ("surge_pressure", "relief_setting")
        and a <= c.first < b
        and not all(k in line.used for k in range(c.first, c.last))
        for c in line.cues
    )


def driven(line: Line, m: Measure) -> bool:
    """A speed beside an engine or a wheel is not the pump's, unless the pump is named too."""
    a, b = line.clause(m.first, frozenset({".", ";"}))
    words = line.words[a:b]
    return (
        "pump" in words
        or any(f.name == "pump_displacement" for f in line.facts)
        or not {"engine", "wheel", "drill", "spindle", "pto", "fan"} & set(words)
    )


_NEUTRAL = frozenset(
    "needs about hose hoses it it's is a an the of need want i we roughly around long just say and at total made "
    "spare up one x in or so please each "
    "i'd would be like got maybe probably line with for to by be that this have approx ' \" only another little "
    "new".split()
)


def _plainly(line: Line, m: Measure) -> bool:
    """Nothing in the clause but words of an order: then a length is the hose's own."""
    a, b = line.clause(m.first)
    left, right = (
        line.words[max(a, m.first - 1) : m.first],
        [line.words[k] for k in range(m.last + 1, min(b, m.last + 5)) if line.tokens[k].start >= m.end][:1],
    )
    if set(left) & {"within", "at", "from", "by", "under", "over", "every", "per"} or set(right) & _PLACED:
        return False
    if (
        "hose" in line.words[a:b]
        or sum(1 for x in line.measures if a <= x.first < b)
        + sum(1 for k in range(a, b) if line.masked[k] or k in line.end_used)
        >= 3
    ):
        return True
    for k in range(a, b):
        if m.first <= k <= m.last or (line.tokens[k].start >= m.start and line.tokens[k].start < m.end):
            continue
        word = line.words[k]
        if (
            word in _NEUTRAL
            or k in line.end_used
            or line.masked[k]
            or line.tokens[k].number is not None
            or word in ("-", "/", "dn", "mm", "bar", "psi")
        ):
            continue
        if any(f.name in _ORDERED and f.start <= line.tokens[k].start < f.end for f in line.facts) or any(
            x.start <= line.tokens[k].start < x.end for x in line.measures
        ):
            continue
        return False
    return True


_PLACED = frozenset(
    "away from off above below of up down high wide tall deep thick back ahead apart per under over each".split()
)


_ORDERED = frozenset(
    "bore line_function quantity working_pressure surge_pressure relief_setting flow_rate medium viscosity_grade "
    "old_construction job_kind failure_sign "
    "fluid_temperature_max machine needed_by customer shock".split()
)


def ask_which(line: Line, m: Measure, names: tuple[str, ...]) -> None:
    unit = m.unit or bare_unit(names[0], m.high, line.home, asked=False)
    some = [n for n in names if n in CATALOGUE and unit]
    readings = tuple(heard_from(line, n, value_of(m, unit), unit, m, None) for n in some if unit)
    line.open(names, "which is it?", m.first, m.last, tuple(r for r in readings if believable(r.name, r.value)), m.end)
    m.taken = True


def _uncued_length(line: Line, m: Measure, context: bool) -> None:
    mm = abs(units.to_si(m.low, m.unit)) * 1000
    crowded = len(line.facts) + sum(1 for x in line.measures if not x.taken and x.unit and x is not m) >= 2
    bore_known = any(f.name == "bore" for f in line.facts)
    long_known = any(f.name == "overall_length" for f in line.facts)
    if (
        m.unit == "in"
        and mm <= 51
        and context
        and not bore_known
        and m.form in ("frac", "mixed", "int", "words")
        and not m.is_range
    ):
        if (m.form in ("frac", "mixed") or crowded) and take_bore(line, m):
            return
    if not _plainly(line, m):
        return
    rivals = [
        x
        for x in line.measures
        if x is not m and not x.taken and x.measures == "length" and units.to_si(x.low, x.unit) >= 0.15
    ]
    if rivals:
        ask_which(line, m, ("overall_length", "port_distance"))
        return
    a, b = line.clause(m.first)
    if line.words[a : m.first] in (["line"], ["pipe"]) and line.tokens[b - 1].end <= m.end and _of_suction(line):
        take(line, "line_length", m)
        return
    if context and not long_known and mm >= 150 and not line.has_mark("cylinder", *line.clause(m.first)):
        take(line, "overall_length", m)
        return
    ask_which(line, m, ("overall_length", "port_distance") if mm >= 100 else ("bore", "overall_length"))
