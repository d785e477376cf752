"""Which numbers of a line are no figures of the job: a difference, an idle pressure, what once was, another's time?"""

from __future__ import annotations

import re

from interview.catalogue import CATALOGUE
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.pairing import Cue


def set_aside(line: Line) -> None:
    """Takes out of a line the numbers that nothing is to be made of."""
    for m in line.measures:
        pressure = m.measures == "pressure" or (m.unit == "" and any(_measured(a) == "pressure" for a in line.asked))
        unloaded = m.measures in ("", "pressure") and (_a_difference(line, m) or _unloaded(line, m))
        more = pressure and _MORE.match(line.low, m.end) is not None
        m.taken = m.taken or unloaded or more or _no_longer(line, m) or _warmer(line, m)
    _once(line)


_WARMER = re.compile(
    r"\s*(?:above|over|hotter than|warmer than|more than|higher than|below|under|cooler than|colder than|"
    r"less than|rise)"
    r"(?: (?:the|its|that|outside|normal|surrounding))*(?: (?:ambient|air|that|outside|normal|oil|tank|room|it)\b|\s*$)"
)
_RISE = re.compile(r"\b(?:rises?|delta ?t|difference|warms up|heats up|cools)(?: (?:of|is|by|about|another))* $")


def _warmer(line: Line, m: Measure) -> bool:
    """ "The oil runs 30 degrees over ambient": how much hotter one thing is than another is the temperature of none."""
    if m.measures not in ("temperature", "angle"):
        return False
    return _WARMER.match(line.low, m.end) is not None or _RISE.search(line.low[: m.start]) is not None


_MORE = re.compile(r"\s*(?:over|above|more|higher|extra|on top)\s*(?:$|[,.;!])")  # "goes 50 over"


def _measured(name: str) -> str:
    """What the fact of a question measures."""
    return CATALOGUE[name].measures


_WAS = re.compile(r"\b(?:was|were|used to (?:be|run on|have)|had been|originally|formerly)(?: (?:on|a|an|the|with))* $")


def _once(line: Line) -> None:
    """ "Was HLP, now bio": the medium that is no longer in it."""
    for fact in [f for f in line.facts if f.name in ("medium", "viscosity_grade")]:
        if _WAS.search(line.low[: fact.start]) and re.search(r"\bnow\b", line.low[fact.end :]):
            line.facts.remove(fact)


_ABOVE = re.compile(
    r"\s*(?:above|over|more than|higher than|below|under|less than|lower than|up on|down on|off) "
    r"(?:(?:the|our|its|that|what|normal|max(?:imum)?) )*"
    r"(?:working|work|system|relief|running|normal|operating|pressure|setting|rating|main|max(?:imum)?|it|that)\b"
)


def _a_difference(line: Line, m: Measure) -> bool:
    """ "Relief set 20 bar above working": how much higher one pressure is than another is neither."""
    return _ABOVE.match(line.low, m.end) is not None


_NO_LONGER = re.compile(r"\b(?:used to (?:be|run|work|sit)|had been|originally|formerly)(?: (?:at|on|about|set|to))* $")


def _no_longer(line: Line, m: Measure) -> bool:
    """ "Relief used to be 2500, I cranked it to 2750"."""
    return _NO_LONGER.search(line.low[: m.start]) is not None


_UNLOADED = re.compile(
    r"\s*(?:(?:at|on|when|while|in) )*(?:idle|idling|tick(?:ing)?[ -]?over|stand-?by|no load|neutral|"
    r"unloaded|cold start)\b"
)


def _unloaded(line: Line, m: Measure) -> bool:
    """ "120 bar at idle, 250 when she's working": what is there without a load is not what the hose must bear."""
    return _UNLOADED.match(line.low, m.end) is not None


_OTHERS = frozenset(
    "ram rams cylinder cylinders jaw jaws door press platen grapple grab claw bucket clamp boom arm lid gripper".split()
)


def of_another(line: Line, cue: Cue) -> bool:
    """ "The ram closes in 4 seconds": what shuts slowly is not the valve."""
    a, _ = line.clause(cue.first)
    before = set(line.words[a : cue.last])
    return bool(before & _OTHERS) and not before & {"valve", "valves", "spool", "solenoid", "poppet"}
