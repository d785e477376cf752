"""Where does one port lie from the other? A distance and its way: right, left, up, down, away, towards."""

from __future__ import annotations

import re

from interview.language.convert import bare_unit, value_of
from interview.language.counts import put
from interview.language.line import Line
from interview.language.measures import Measure

_WAYS = (
    ("port_b_right", 1.0, r"(?:to )?(?:the |my |your )?right|right of"),
    ("port_b_right", -1.0, r"(?:to )?(?:the |my |your )?left|left of"),
    ("port_b_up", 1.0, r"up(?:wards)?|higher|above|over it"),
    ("port_b_up", -1.0, r"down(?:wards)?|lower|below|under(?:neath)?"),
    ("port_b_away", 1.0, r"away(?: from me)?|farther|further|deeper|behind|back|ahead|forwards?"),
    ("port_b_away", -1.0, r"towards?(?: me| us| you)?|nearer|closer|in front|this side"),
)
_AFTER = [(name, sign, re.compile(rf"\s*(?:{ways})\b")) for name, sign, ways in _WAYS]
_BEFORE = [(name, sign, re.compile(rf"(?:{ways})(?: by| of it)?[ :]*$")) for name, sign, ways in _WAYS]
_LEVEL = (
    ("port_b_up", re.compile(r"\b(?:same height|same level|(?:dead )?level(?: with(?: it| a)?)?)\b")),
    ("port_b_right", re.compile(r"\b(?:straight above|straight below|same line|dead in line)\b")),
    ("port_b_away", re.compile(r"\b(?:flush|same face|same plane|same depth)\b")),
)


_NOTHING = re.compile(r"\s*(?:none|nothing|zero|nil|neither|level|not at all|same)\W*$")
PLACE = ("port_b_right", "port_b_up", "port_b_away")


def hear_place(line: Line) -> None:
    """Signed distances of port B from port A, when that is what was asked."""
    asked = [name for name in line.asked if name in PLACE]
    if not asked:
        return
    for i, m in enumerate(line.measures):
        way = _way(line, m) if not m.taken and m.measures in ("", "length") else None
        if way is None:
            continue
        name, sign, start, end = way
        near = [n.unit for n in (*line.measures[:i][::-1], *line.measures[i:]) if n.measures == "length"]
        unit = m.unit or next(iter(near), None) or bare_unit(name, m.low, line.home, asked=True) or ""
        value = value_of(m, unit) if unit else None
        if isinstance(value, float):
            put(line, name, sign * value, min(m.start, start), max(m.end, end), unit, m)
    for name, level in _LEVEL:
        if (found := level.search(line.low)) is not None and not any(f.name == name for f in line.facts):
            put(line, name, 0.0, *found.span())
    if len(asked) == 1 and not line.facts and (found := _NOTHING.match(line.low)) is not None:
        put(line, asked[0], 0.0, *found.span())


def _way(line: Line, m: Measure) -> tuple[str, float, int, int] | None:
    """Which way a distance goes: the fact, its sign, and where the words stand; what follows a number goes first."""
    for name, sign, words in _AFTER:
        if (found := words.match(line.low, m.end)) is not None:
            return name, sign, *found.span()
    before = line.low[: m.start]
    for name, sign, words in _BEFORE:
        if (found := words.search(before)) is not None:
            return name, sign, *found.span()
    return None
