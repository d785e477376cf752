"""At which angle do the two ends stand to each other?"""

from __future__ import annotations

import re

from interview.language.counts import put
from interview.language.line import Line
from interview.language.model import Heard

_DIRECTION = re.compile(r"\b(?:(counter[- ]?clockwise|anti[- ]?clockwise|ccw)|(clockwise|cw))\b")


_OPPOSED = re.compile(
    r"\b(?:opposite (?:ways|directions|each other)|pointing opposite|180 (?:degrees |deg |° ?)?(?:apart|opposed|to "
    r"each other|out)|opposed to each other|back to back elbows)\b"
)


_ALIKE = re.compile(
    r"\b(?:(?:both|elbows|ends) (?:pointing|point|face|facing|looking) the same (?:way|direction)|in line with each "
    r"other|0 degrees? between)\b"
)


_HOURS = "one two three four five six seven eight nine ten eleven twelve".split()
_OCLOCK = re.compile(rf"\b(\d{{1,2}}|{'|'.join(_HOURS)}) o'?clock\b")


_TURN = re.compile(r"\b(three[ -]quarters?|quarter|half)(?: of)?(?: a)? (?:turn|circle|rotation)\b")
_WHICH_WAY = "clockwise or counter-clockwise, looking along the hose?"
_TURNS = {"quarter": 90.0, "half": 180.0, "three quarter": 270.0, "three quarters": 270.0}


def hear_angle(line: Line) -> None:
    """The angle between two bent ends: counter-clockwise as it is, clockwise the rest of the circle, 180 either way."""
    if any(f.name == "end_angle" for f in line.facts):
        return
    opposed, alike = _OPPOSED.search(line.low), _ALIKE.search(line.low)
    if opposed is not None or alike is not None:
        found = opposed or alike
        assert found is not None
        line.spend(*found.span())
        put(line, "end_angle", 180.0 if opposed else 0.0, found.start(), found.end(), "deg")
        return
    part = _TURN.search(line.low)
    if part is not None and (way := _DIRECTION.search(line.low)) is not None:  # a quarter of a circle, not 0.25 degrees
        line.spend(*part.span())
        angle = _TURNS[part[1].replace("-", " ")]
        put(line, "end_angle", angle if way[1] else 360.0 - angle, part.start(), part.end(), "deg")
        return
    clock = _OCLOCK.search(line.low)
    if clock is not None and re.search(r"end|elbow|fitting|angle|orient", line.low):
        hour = int(clock[1]) if clock[1].isdigit() else _HOURS.index(clock[1]) + 1
        first, last = line.tokens_in(*clock.span())
        line.spend(*clock.span())
        if hour == 6 or hour == 12:
            line.open(("end_angle",), "seen from which end, and counted from where?", first, last)
        else:
            readings = tuple(
                Heard("end_angle", float(a), "deg", line.said(clock.start(), clock.end()))
                for a in ((hour * 30) % 360, (360 - hour * 30) % 360)
            )
            line.open(("end_angle",), _WHICH_WAY, first, last, readings)
        return
    seats = [(c.first, c.last) for c in line.cues if c.tag == "end_a_seat_angle"]
    cues = [c for c in line.cues if c.tag == "end_angle" and not any(a <= c.first < b for a, b in seats)]
    for m in line.measures:
        if m.taken or m.unit not in ("deg", "") or m.is_range or not 0 <= m.low <= 360:
            continue
        near = any(abs(c.first - m.last) <= 5 or abs(m.first - c.last) <= 3 for c in cues)
        asked = "end_angle" in line.asked
        if (
            m.unit == ""
            and not asked
            and not (
                near
                and (
                    _DIRECTION.search(line.low)
                    or any(
                        "angle" in line.words[c.first : c.last] or "clocked" in line.words[c.first : c.last]
                        for c in cues
                    )
                )
            )
        ):
            continue
        if not (near or asked):
            continue
        turn = _DIRECTION.search(line.low)
        if m.low in (0.0, 180.0, 360.0):
            put(line, "end_angle", m.low % 360, m.start, m.end, "deg", m)
        elif turn is not None:
            angle = m.low if turn[1] else 360.0 - m.low
            put(line, "end_angle", angle, min(m.start, turn.start()), max(m.end, turn.end()), "deg", m)
        else:
            said = line.said(m.start, m.end)
            readings = tuple(Heard("end_angle", a, "deg", said) for a in (m.low, 360.0 - m.low))
            line.open(
                ("end_angle",),
                _WHICH_WAY,
                m.first,
                m.last,
                readings,
                m.end,
            )
            m.taken = True
        return
