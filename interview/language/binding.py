"""Which fact is each number of a line? Pressures, lengths, flows and the rest; temperatures have their own module."""

from __future__ import annotations

import re
from dataclasses import replace

from interview.facts import CATALOGUE, Origin, Span, Value
from interview.language import units
from interview.language.convert import bare_unit, believable, bore_of, other_comma, value_of
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import Heard
from interview.language.pairing import Cue, pair
from interview.language.sizes import DASHES

_GROUPS: dict[str, tuple[str, ...]] = {
    "pressure": (
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "old_rating",
        "end_a_rating",
        "end_b_rating",
        "adapter_a_rating",
        "adapter_b_rating",
        "pressure_loss_limit",
        "pump_inlet_limit",
        "vacuum",
    ),
    "length": (
        "bore",
        "overall_length",
        "port_distance",
        "travel",
        "bend_radius_available",
        "heat_source_distance",
        "line_length",
        "lift",
        "altitude",
        "cylinder_bore",
        "cylinder_rod",
        "end_a_thread_diameter",
        "end_a_thread_pitch",
    ),
    "flow": ("flow_rate", "pump_flow"),
    "displacement": ("pump_displacement",),
    "speed": ("pump_speed",),
    "time": ("valve_closing_time",),
    "years": ("wanted_life",),
    "hours": ("hours_per_year",),
    "angle": ("end_angle", "end_a_seat_angle"),
    "number": ("viscosity_index", "marked_size"),
}
_KIND_OF = {tag: kind for kind, tags in _GROUPS.items() for tag in tags}
# A bare number may take these by a cue close to it; every other cue needs a number with a unit.
_BARE = frozenset(
    {
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "old_rating",
        "viscosity_index",
        "marked_size",
        "end_a_rating",
        "cylinder_bore",
        "cylinder_rod",
    }
)
_THREADED = frozenset("male female pipe thread nut full empty way of npt bsp plug union tee swivel fitting".split())
_US_BRITISH = ("gpm", "imp gpm")


def _bare_cost(tag: str) -> float:
    return 1.6 if tag != "working_pressure" else 0.7


def bind(line: Line) -> None:
    """Turns the measures of a line into facts and open points."""
    _special(line)
    _in_turn(line)
    _inch_hose(line)
    for kind, tags in _GROUPS.items():
        _bind_kind(line, kind, tags)
    _uncued(line)


def _unit_near(line: Line, measure: Measure, kind: str) -> str:
    """The unit last given for a kind before a bare number, else the one given next."""
    before = [m.unit for m in line.measures if m.measures == kind and m.start < measure.start]
    after = [m.unit for m in line.measures if m.measures == kind and m.start > measure.start]
    return before[-1] if before else after[0] if after else ""


_INCH_HOSE = re.compile(
    r"(?:^|[,.;]\s*|\b(?:wire|spiral|braid|an?|the|of|one|this|that|for|is|it's|"
    r"its)\s+)(inch)\s+(?:[a-z-]+\s+){0,2}?(?:hose|bore|line|suction|return)\b"
)


def _inch_hose(line: Line) -> None:
    """An inch hose."""
    found = _INCH_HOSE.search(line.low)
    if found is None or any(f.name == "bore" for f in line.facts):
        return
    at = next((k for k, t in enumerate(line.tokens) if t.start == found.start(1)), None)
    if at is not None and at not in line.used and not any(m.start <= found.start(1) < m.end for m in line.measures):
        line.add("bore", 16.0, at, at, unit="in")


def _bind_kind(line: Line, kind: str, tags: tuple[str, ...]) -> None:
    some = [
        m
        for m in line.measures
        if not m.taken
        and (m.measures == kind or (m.unit in ("", "'", "other") and m.measures in ("", "foot_or_minute")))
    ]
    if not some:
        return
    cylinder = line.has_mark("cylinder") or ("rod" in line.words and "bore" in line.words)
    some = [
        m for m in some if m.unit or not any(c.first <= m.first < c.last and c.last - c.first > 1 for c in line.cues)
    ]
    cues = [
        c
        for c in line.cues
        if (c.tag in tags or c.tag == "not_ours" or (c.tag == "flooded" and kind == "length"))
        and (c.tag.endswith("_rating") or not any(k in line.end_used for k in range(c.first, c.last)))
        and not (c.tag in ("cylinder_bore", "cylinder_rod") and not cylinder)
    ]
    if cylinder:
        for c in cues:
            if (
                c.tag == "bore"
                and line.words[c.first : c.last] == ["bore"]
                and "hose" not in line.words[max(0, c.first - 2) : c.last + 2]
            ):
                c.tag = "cylinder_bore"
    cues = _without_echo(cues)
    if not cues or not some:
        return
    pairs = pair(line.words, some, cues, _fits)
    for index, (cue, price) in pairs.items():
        measure = some[index]
        if measure.unit == "" and ((cue.tag not in _BARE and cue.tag != "not_ours") or price > _bare_cost(cue.tag)):
            dashed = (
                measure.form in ("frac", "mixed")
                or measure.minus
                or line.words[measure.first - 1 : measure.first] in (["#"], ["dash"])
            )
            if cue.tag == "bore" and dashed and price < 2.8:
                pass
            elif not (cue.tag in ("overall_length", "port_distance") and price < 1.2):
                continue
        if cue.tag == "not_ours":
            if price < 1.3 and measure.measures in (
                "",
                "pressure",
                "length",
                "other",
                "speed",
                "hours",
                "years",
                "time",
                kind,
            ):
                measure.taken = True
            continue
        if cue.tag == "lift" and line.words[cue.first : cue.last] == ["lift"] and "suction" not in line.words:
            continue
        if cue.tag == "flooded":
            measure.low, measure.high = -measure.high, -measure.low
            take(line, "lift", measure, cue)
            continue
        if cue.tag == "pump_speed" and not _driven(line, measure):
            measure.taken = True
            continue
        take(line, cue.tag, measure, cue)


def _fits(tag: str, measure: Measure) -> bool:
    """A length that is no bore leaves the word hose to another number."""
    if tag == "cylinder_bore" and measure.measures == "length":
        return believable(tag, units.to_si(measure.low, measure.unit))
    return tag != "bore" or bore_of(measure) is not None or (measure.unit == "" and measure.low in DASHES)


def _without_echo(cues: list[Cue]) -> list[Cue]:
    """Of overlapping cues the longest stays."""
    out: list[Cue] = []
    for cue in sorted(cues, key=lambda c: (c.first, -(c.last - c.first))):
        if out and cue.first < out[-1].last:
            if cue.last - cue.first > out[-1].last - out[-1].first:
                out[-1] = cue
            continue
        out.append(cue)
    return out


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
    if measure.unit == "'":
        readings = (
            tuple(Heard(name, measure.low * f, "ft") for f in (0.3048,)) if CATALOGUE[name].measures == "length" else ()
        )
        line.open((name,), "feet or minutes?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    if name == "bore":
        return _take_bore(line, measure, asked)
    kind = CATALOGUE[name].measures
    unit = measure.unit
    if kind in ("number", "grade", "size"):
        value: Value = float(measure.low) if not measure.is_range else Span(measure.low, measure.high)
        if unit not in ("", "other") and kind != "size":
            return False
        return _settle(line, name, value, "", measure, cue, origin)
    if not unit:
        unit = _unit_near(line, measure, kind) or bare_unit(name, measure.low, line.home, asked=asked) or ""
        if not unit and abs(measure.low) >= 700 and kind == "pressure":
            unit = "psi"
        if not unit:
            choices = {
                "pressure": ("bar", "psi"),
                "length": ("mm", "in"),
                "flow": ("L/min", "gpm"),
                "temperature": ("°C", "°F"),
            }.get(kind, ())
            readings = tuple(_heard(line, name, value_of(measure, u), u, measure, cue) for u in choices)
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
        readings = tuple(_heard(line, name, value_of(measure, u), u, measure, cue) for u in _US_BRITISH)
        line.open((name,), "US or imperial gallons?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    if other_comma(measure, name, unit):
        readings = (_heard(line, name, value_of(measure, unit), unit, measure, cue),
                    _heard(line, name, units.to_si(measure.alt or 0.0, unit), unit, measure, cue))  # fmt: skip
        line.open((name,), "thousands or a decimal comma?", measure.first, measure.last, readings, measure.end)
        measure.taken = True
        return True
    return _settle(line, name, value_of(measure, unit), unit, measure, cue, origin)


def _span(measure: Measure, cue: Cue | None) -> tuple[int, int]:
    if cue is None:
        return measure.first, measure.last
    return min(measure.first, cue.first), max(measure.last, cue.last - 1)


def _heard(line: Line, name: str, value: Value, unit: str, measure: Measure, cue: Cue | None) -> Heard:
    first, last = _span(measure, cue)
    start, end = line.tokens[first].start, max(line.tokens[last].end, measure.end)
    start = min(start, measure.start)
    return Heard(name, value, unit, line.said(start, end), Origin.STATED, measure.hedged, measure.corrects, start, end)


def _settle(line: Line, name: str, value: Value, unit: str, measure: Measure, cue: Cue | None, origin: Origin) -> bool:
    if name == "working_pressure" and _printed(line, measure):
        name, origin = "old_rating", Origin.READ
    heard = replace(_heard(line, name, value, unit, measure, cue), origin=origin)
    measure.taken = True
    first, last = _span(measure, cue)
    if not believable(name, value):
        line.open(
            (name,),
            "is that figure right? It is far outside what is usual",
            measure.first,
            measure.last,
            (heard,),
            measure.end,
        )
        return True
    line.facts.append(heard)
    line.used.update(range(first, last + 1))
    return True


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
    if {"marked", "printed", "stamped", "layline", "print", "lettering"} & set(before):
        return True
    return any(x == "hose" and y in ("says", "reads", "said") for x, y in zip(before, before[1:], strict=False))


def _take_bore(line: Line, measure: Measure, asked: bool = False) -> bool:
    before = line.words[measure.first - 1] if measure.first else ""
    dash = (measure.minus and not measure.unit) or before in ("dash", "#")
    dn = before == "dn"
    if measure.is_range:
        return False
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


def _special(line: Line) -> None:
    """Numbers whose form alone says what they are."""
    words = line.words
    cylinder = line.has_mark("cylinder")
    for i, m in enumerate(line.measures):
        if m.taken:
            continue
        before = words[m.first - 1] if m.first else ""
        after = words[m.last + 1] if m.last + 1 < len(words) else ""
        if before in ("dash", "#") and not m.unit and _marked(line, m):
            line.add("marked_size", float(m.low), m.first - 1, m.last, unit="dash", origin=Origin.READ)
            m.taken = True
        elif (before == "dn" and not m.unit) or (before == "dash" and not m.unit):
            _take_bore(line, m)
        elif m.measures == "pressure" and (m.unit in ("inHg", "mmHg", "torr", "inH2O", "mH2O") or m.high < 0):
            if not any(c.tag == "pump_inlet_limit" and abs(c.first - m.last) < 6 for c in line.cues):
                take(line, "vacuum", m)
        elif m.measures == "pressure" and re.match(r"\s*\(?(?:abs\b|absolute|a\b)", line.low[m.end : m.end + 11]):
            take(line, "pump_inlet_limit", m)
        elif (
            cylinder
            and i + 1 < len(line.measures)
            and re.fullmatch(r"\s*(?:mm)?\s*[/x]\s*|\s*by\s*", line.low[m.end : line.measures[i + 1].start])
        ):
            _cylinder_pair(line, m, line.measures[i + 1])
        elif m.measures == "displacement":
            take(line, "pump_displacement", m)
            follower = line.measures[i + 1] if i + 1 < len(line.measures) else None
            if (
                follower
                and follower.unit == ""
                and re.fullmatch(
                    r"(?:\s*pump)?\s*(?:at|@|,|and|x|turning at|turning|running at|doing)\s*",
                    line.low[m.end : follower.start],
                )
            ):
                if 100 <= follower.low <= 6000:
                    follower.unit = "rpm"
                    take(line, "pump_speed", follower)
        elif (
            m.unit == "other"
            and re.match(r"\s*-?(?:tpi|threads)", line.low[line.tokens[m.last].end :])
            and 4 <= m.low <= 32
        ):
            name = "end_a_thread_pitch"
            line.add(name, 0.0254 / m.low, m.first, m.last, unit="tpi", hedged=m.hedged)
            m.taken = True
        elif (
            m.measures == "length"
            and m.unit == "in"
            and after in ("of",)
            and words[m.last + 2 : m.last + 3] == ["vacuum"]
        ):
            m.unit = "inHg"
            take(line, "vacuum", m)


def _marked(line: Line, m: Measure) -> bool:
    """A dash that is print on the hose, or of a construction whose dash is the tube it mates with."""
    if any(label.data in ("saej517-100r5", "saej517-100r14a", "saej517-100r14b") for label in line.labels):
        return True
    return any(c.tag == "marked_size" and 0 <= m.first - c.last <= 2 for c in line.cues)


def _in_turn(line: Line) -> None:
    """ "Working/peak 200/300 bar": two cues and two numbers in the same order."""
    cues = sorted((c for c in line.cues if c.tag in _GROUPS["pressure"]), key=lambda c: c.first)
    for c, d in zip(cues, cues[1:], strict=False):
        if d.first - c.last != 1 or line.words[c.last] not in ("/", "and", "&"):
            continue
        some = [m for m in line.measures if not m.taken and 0 <= m.first - d.last <= 2][:1]
        if not some:
            continue
        at = line.measures.index(some[0])
        both = line.measures[at : at + 2]
        if (
            len(both) == 2
            and both[1].measures == "pressure"
            and re.fullmatch(r"\s*(?:/|and|&)\s*", line.low[both[0].end : both[1].start])
        ):
            both[0].unit = both[0].unit or both[1].unit
            take(line, c.tag, both[0])
            take(line, d.tag, both[1])


def _cylinder_pair(line: Line, one: Measure, two: Measure) -> None:
    unit = one.unit or two.unit or ("in" if one.low < 13 and line.home == "us" else "mm")
    if units.measures(unit) != "length" or one.low <= two.low:
        return
    one.unit, two.unit = unit, unit
    take(line, "cylinder_bore", one)
    take(line, "cylinder_rod", two)


def _uncued(line: Line) -> None:
    """Numbers with a unit but without a cue: the trade settles some, the rest is asked back."""
    order = (
        len({f.name for f in line.facts}) + len(line.labels) + sum(1 for m in line.measures if not m.taken and m.unit)
    )
    among = order >= 2 or bool(line.facts)
    context = among or "hose" in line.words
    working_said = any(f.name == "working_pressure" for f in line.facts)
    for m in line.measures:
        if (
            not m.taken
            and not m.unit
            and m.form in ("frac", "mixed")
            and context
            and not any(f.name == "bore" for f in line.facts)
        ):
            if line.words[m.last + 1 : m.last + 2] and line.words[m.last + 1] in _THREADED:
                continue
            if line.low[m.start : m.end].strip("- ")[:1].isdigit() or m.start == m.end - 1:
                _take_bore(line, m)
        if m.taken or not m.unit:
            continue
        kind = m.measures
        if kind == "length" and m.unit == "in" and "vacuum" in line.asked:
            m.unit = "inHg"
            take(line, "vacuum", m, asked=True)
            continue
        if (
            kind == "length"
            and "bore" in line.asked
            and not any(f.name == "bore" for f in line.facts)
            and _take_bore(line, m, True)
        ):
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
            if among and not working_said and not _waiting(line, m):
                working_said = take(line, "working_pressure", m)
            else:
                hose = line.words[m.last + 1 : m.last + 3][-1:] == ["hose"]
                _ask_which(
                    line, m, ("working_pressure", "surge_pressure", "relief_setting", *(["old_rating"] if hose else []))
                )
        elif kind == "flow":
            take(line, "pump_flow" if _of_the_pump(line, m) else "flow_rate", m)
        elif kind == "speed":
            if _driven(line, m):
                take(line, "pump_speed", m)
        elif kind == "length":
            _uncued_length(line, m, context)
        elif kind == "foot_or_minute":
            line.open(("overall_length",), "feet or minutes?", m.first, m.last, (), m.end)
            m.taken = True


def _of_the_pump(line: Line, m: Measure) -> bool:
    """A pump named just before the flow, or just after it, with no other thing between."""
    for span in (line.words[max(0, m.first - 9) : m.first][::-1], line.words[m.last + 1 : m.last + 7]):
        for word in span:
            if word == "pump":
                return "suction" not in span
            if word in ("and", ",", ".", ";", "to", "hose", "line", "tank", "for"):
                break
    return False


def _waiting(line: Line, m: Measure) -> bool:
    """A word like "spikes" in the same sentence that got no number of its own: the number may be its."""
    a, b = line.clause(m.first, frozenset({".", ";"}))
    return any(
        c.tag in ("surge_pressure", "relief_setting")
        and a <= c.first < b
        and not all(k in line.used for k in range(c.first, c.last))
        for c in line.cues
    )


def _driven(line: Line, m: Measure) -> bool:
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


def _ask_which(line: Line, m: Measure, names: tuple[str, ...]) -> None:
    readings = tuple(_heard(line, n, value_of(m, m.unit), m.unit, m, None) for n in names if n in CATALOGUE)
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
        if (m.form in ("frac", "mixed") or crowded) and _take_bore(line, m):
            return
    if not _plainly(line, m):
        return
    if context and not long_known and mm >= 150 and not line.has_mark("cylinder", *line.clause(m.first)):
        take(line, "overall_length", m)
        return
    _ask_which(line, m, ("overall_length", "port_distance") if mm >= 100 else ("bore", "overall_length"))
