"""Is a temperature the hottest or the coldest, by the words around it?"""

from __future__ import annotations

from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.pairing import Cue

_STOPS = frozenset({".", ";", "!", "?"})
_WEAK = frozenset(
    "to gets runs hits reaches running goes sits stays up climbs".split()
)  # they say less than "coldest" does
LINKS = frozenset(
    ", and or to up down at max min in the it can go get about - but then is with of a say around from".split()
)


def same_breath(line: Line, one: Measure, two: Measure) -> bool:
    """Whether nothing but linking words stands between two temperatures, so that one topic is of both."""
    between = range(one.last + 1, two.first)
    steering = {k for m in line.marks if m.tag in ("hottest", "coldest") for k in range(m.first, m.last)}
    return len(between) <= 8 and all(
        line.words[k] in LINKS or k in steering or line.tokens[k].start < one.end for k in between
    )


def _told_before(line: Line, first: int, last: int) -> bool:
    """ "It's 20 below some mornings, oil around 170": the word is of a clause that has a figure of its own."""
    a, _ = line.clause(first - 1)
    return "," in line.words[first:last] and any(t.number is not None for t in line.tokens[a:first])


def extreme_of(
    line: Line, m: Measure, cue: Cue | None, before: Measure | None, after: Measure | None, others: list[Cue]
) -> str:
    """hottest or coldest, by the nearest such word between the neighbouring temperatures.

    A word behind the name of the other topic is of that one: "oil 70 air down to -15".
    """
    a = before.last + 1 if before else 0
    b = after.first if after else len(line.words)
    best: tuple[float, str] | None = None
    for mark in line.marks:
        if mark.tag not in ("hottest", "coldest") or not (a <= mark.first and mark.last <= b):
            continue
        words = line.words[mark.last : m.first] if mark.last <= m.first else line.words[m.last + 1 : mark.first]
        if any(w in _STOPS for w in words) or len(words) > 7:
            continue
        if cue is not None and mark.last <= cue.first < m.first and _told_before(line, mark.last, cue.first):
            continue
        if any(m.last < c.first < mark.first or mark.last <= c.first < m.first for c in others):
            continue
        if before is not None and mark.last <= m.first and _trails(line, before, m, mark.first):
            continue
        if mark.first > m.last and after is not None and _leads(line, m, mark.first, mark.last, after):
            continue
        cost = len(words) + 3.0 * sum(w in (",", "and", "but") for w in words) + (0.5 if mark.first > m.last else 0.0)
        if mark.tag == "hottest" and line.words[mark.last - 1] in _WEAK | {"at"} and line.words[mark.first] in _WEAK:
            cost += 3.0
        if best is None or cost < best[0]:
            best = (cost, mark.tag)
    return best[1] if best else ""


def _trails(line: Line, before: Measure, m: Measure, first: int) -> bool:
    """ "200F max -20F min": each word stands right behind its figure, and none is of the next one."""
    return not line.low[before.end : line.tokens[first].start].strip() and any(
        x.tag in ("hottest", "coldest")
        and x.first > m.last
        and not line.low[m.end : line.tokens[x.first].start].strip()
        for x in line.marks
    )


def _leads(line: Line, m: Measure, first: int, last: int, after: Measure) -> bool:
    """ "80 C, coldest -5": a word behind a comma and right before the next figure is of that one."""
    return "," in line.words[m.last + 1 : first] and all(
        w in LINKS - {",", "or", "and"} or (line.tokens[k].start < after.start and w == "-")
        for k, w in enumerate(line.words[last : after.first], last)
    )
