"""Which numbers say by their form alone which fact they are: DN 12, 10 inHg, 100/56, 0.8 bar absolute, an inch hose?"""

from __future__ import annotations

import re
from dataclasses import replace

from interview.facts import Origin
from interview.language import units
from interview.language.convert import value_of
from interview.language.cylinders import across_the_piston, cylinder_pair
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.sizes import DASHES
from interview.language.taking import heard_from, is_marked, take, take_bore


def bind_by_form(line: Line) -> None:
    """All numbers of a line that need no word beside them."""
    _height(line)
    _to_the_side(line)
    _special(line)
    _bare_dash(line)
    _inch_hose(line)
    _sized_pressure(line)


_OF_AN_INLET = frozenset(("lift", "line_length", "altitude", "vacuum", "pump_inlet_limit"))
_UP_AT = re.compile(r"\b(?:at|works at|up at|altitude(?: of| is)?|elevation(?: of| is)?)(?: about| around)? $")
_A_HEIGHT = 300.0  # m; no suction line is so long and no pump stands so high above its oil, so it is above the sea


def _height(line: Line) -> None:
    """ "1.8 m long, at 2000 m": where a suction line is asked about, so great a height is above the sea."""
    if not _OF_AN_INLET & set(line.asked):
        return
    for m in line.measures:
        if m.taken or m.measures != "length" or m.is_range or units.to_si(m.low, m.unit) < _A_HEIGHT:
            continue
        if _UP_AT.search(line.low[: m.start]) is not None or "above the sea" in line.low[m.end : m.end + 16]:
            take(line, "altitude", m)


_SIDEWAYS = re.compile(r"\s*(?:(?:off )?(?:to|on) (?:the|one) side|sideways|sidewards|to one side|across)\b")


def _to_the_side(line: Line) -> None:
    """ "Offset, 900 mm, 500 mm to the side", where the way the hose runs is asked."""
    if not {"clearance_geometry", "port_distance", "port_offset"} & set(line.asked):
        return
    for m in line.measures:
        if not m.taken and m.measures == "length" and _SIDEWAYS.match(line.low, m.end) is not None:
            take(line, "port_offset", m)


_OF_A_HOSE = frozenset(("hose", "hoses", "line", "lines", "pipe"))


def _bare_dash(line: Line) -> None:
    """ "Pressure line, -8, 150 bar": a dash number alone between commas is the size of the hose that is spoken of."""
    facts = {f.name for f in line.facts}
    if any("temperature" in a or a.endswith("_size") for a in line.asked) or facts & {"bore", "marked_size"}:
        return
    if not (_OF_A_HOSE & set(line.words) or facts & {"line_function", "old_construction"}):
        return
    if any(f"{end}_family" in facts and f"{end}_size" not in facts for end in ("end_a", "end_b")):
        return  # it may be the size of that end
    found = [
        m
        for i, m in enumerate(line.measures)
        if m.minus
        and not (m.taken or m.unit or m.is_range)
        and m.form == "int"
        and abs(m.low) in DASHES
        and _alone(line, m)
        and not (i and line.measures[i - 1].measures == "temperature")
        and not any(c.tag in ("fluid_temperature", "ambient_temperature") and c.last < m.first for c in line.cues)
    ]
    if len(found) == 1:
        m = found[0]
        line.add("bore", abs(float(m.low)), m.first, m.last, unit="dash")
        m.taken = True


def _alone(line: Line, m: Measure) -> bool:
    before, after = line.low[: m.start].rstrip(" -"), line.low[m.end :].lstrip()
    return before[-1:] in ("", ",", ";") and after[:1] in ("", ",", ";", ".")


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


_SIZED = re.compile(r"\b(?:burst|blown|failed|hose|line) (pressure) (?=\d{1,2}/\d{1,2}\b)")


def _sized_pressure(line: Line) -> None:
    """ "Hose burst, pressure, 1/2", without its commas: a size behind the word makes it the line's."""
    found = _SIZED.search(line.low)
    if found is not None and not any(f.name == "line_function" for f in line.facts):
        line.add("line_function", "pressure", *line.tokens_in(*found.span(1)))


def _special(line: Line) -> None:
    """Numbers whose form alone says what they are."""
    words = line.words
    cylinder = line.has_mark("cylinder") or "cylinder_bore" in line.asked
    for i, m in enumerate(line.measures):
        if m.taken:
            continue
        before = words[m.first - 1] if m.first else ""
        after = words[m.last + 1] if m.last + 1 < len(words) else ""
        if before in ("dash", "#") and not m.unit and is_marked(line, m):
            line.add("marked_size", float(m.low), m.first - 1, m.last, unit="dash", origin=Origin.READ)
            m.taken = True
        elif m.measures == "length" and before in _ONTO and _PIPE.match(line.low, m.end):
            m.taken = True  # the pipe's, measured over its outside
        elif (before == "dn" and not m.unit) or (before == "dash" and not m.unit):
            take_bore(line, m)
        elif m.measures == "pressure" and (m.unit in ("inHg", "mmHg", "torr", "inH2O", "mH2O") or m.high < 0):
            if not any(c.tag == "pump_inlet_limit" and abs(c.first - m.last) < 6 for c in line.cues):
                take(line, "vacuum", m)
        elif m.measures == "pressure" and _ABSOLUTE.match(line.low, m.end):
            _absolute(line, m)
        elif (
            cylinder
            and i + 1 < len(line.measures)
            and re.fullmatch(r"\s*(?:mm)?\s*[/x]\s*|\s*by\s*", line.low[m.end : line.measures[i + 1].start])
        ):
            cylinder_pair(line, m, line.measures[i + 1])
        elif m.measures == "length" and across_the_piston(line, i):
            take(line, "cylinder_bore", m)
        elif m.measures == "displacement" and _of_a_motor(line, m):
            m.taken = True
        elif m.measures == "displacement":
            take(line, "pump_displacement", m)
            follower = line.measures[i + 1] if i + 1 < len(line.measures) else None
            if (
                follower
                and follower.unit == ""
                and re.fullmatch(
                    r"(?:[ a-z]{0,14}\bpump)?\s*(?:at|@|,|and|x|turning at|turning|running at|doing)\s*",
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


_PIPE = re.compile(r"\s*(?:pipe|tube|tubing)\b")


_ONTO = frozenset("for onto suit fit join".split())


_ABSOLUTE = re.compile(r"\s*\(?(?:abs\b|absolute|a\b)")


_NOT_UNDER = re.compile(
    r"(?:(?:not|never|n't|no) (?:\w+ ){0,2}(?:below|under|less than|lower than)|at least|minimum(?: of)?) ?$"
)


_ATMOSPHERE = 101_325.0  # Pa, the standard atmosphere


def _absolute(line: Line, m: Measure) -> None:
    """An absolute pressure is what the pump's maker demands, or what a gauge shows: words say which."""
    a, b = line.clause(m.first, frozenset({".", ";"}))
    demanded = (
        m.bound == "at_least"
        or _NOT_UNDER.search(line.low[: m.start]) is not None
        or any(
            c.tag == "pump_inlet_limit"
            and a <= c.first < b
            and not m.start <= line.tokens[c.first].start < m.end  # "bar abs" demands nothing
            for c in line.cues
        )
    )
    if demanded or "pump_inlet_limit" in line.asked:
        m.bound = "" if m.bound == "not_under" else m.bound  # what is demanded is this figure
        take(line, "pump_inlet_limit", m)
        return
    limit = heard_from(line, "pump_inlet_limit", value_of(m, m.unit), m.unit, m, None)
    below = _ATMOSPHERE - units.to_si(m.high, m.unit)
    readings = (limit, replace(limit, name="vacuum", value=below)) if below > 0 else (limit,)
    why = "the least the pump may have at its inlet, or what is measured there?"
    line.open(("pump_inlet_limit", "vacuum"), why, m.first, m.last, readings, m.end)
    m.taken = True


def _of_a_motor(line: Line, m: Measure) -> bool:
    """What a motor or an engine swallows is not the pump's."""
    a, b = line.clause(m.first)
    words = set(line.words[a:b])
    return bool(words & {"motor", "motors", "engine", "accumulator", "bottle"}) and "pump" not in words
