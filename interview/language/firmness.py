"""How firmly is a number said: about, at least, up to, never under?"""

from __future__ import annotations

import re

_HEDGES = frozenset(
    "about around round roughly approx approximately circa ca say maybe probably nearly almost somewhere ~ "
    "perhaps".split()
)
_SKIP = frozenset("a an the of at is be to in it set".split())
_AFTER_HEDGE = re.compile(
    r"[\s,]*(?:-?ish\b|or so\b|or thereabouts|give or take|more or less|approx|roughly|\(?i (?:think|reckon|guess|"
    r"believe)|if i remember|"
    r"as far as i know|from memory|probably|maybe|ballpark)"
)
_LOOSE = re.compile(
    r"[^\d.;]{0,26}?\b(?:give or take|or thereabouts|or so|more or less|i think|i reckon|i guess|or something like "
    r"that)\b"
)
_AFTER_MORE = re.compile(
    r"\s*(?:or more|or better|and up|and over|minimum|plus\b(?!\s*(?:or\b|/|minus|-))|at least|\+(?!\s*/))"
)
_AFTER_LESS = re.compile(r"\s*(?:tops|at most|or less|at the most|max(?:imum)?\b)")
_AT_LEAST = re.compile(
    r"(?:at least|no less than|not less than|more than|minimum(?: of)?|min\.?|over|above|upwards of|in excess of|"
    r"better than|north of)\s*$"
)
_UP_TO = re.compile(
    r"(?:up to|no more than|not more than|less than|at most|max\.?|maximum(?: of)?|under|not over|never over|below|"
    r"(?:not|never|n't|no)\s+(?:\w+\s+){0,2}(?:over|above|more than|beyond|past))\s*$"
)
_NOT_UNDER = re.compile(r"(?:not|never|n't|no)\s+(?:\w+\s+){0,2}(?:below|under|less than|lower than)\s*$")
_THINK = re.compile(
    r"(?:i think|i reckon|i guess|i believe|i'd say|should be|must be about|ballpark|from memory)[^.;]{0,24}$"
)


def how_firm(low: str, start: int, end: int) -> tuple[bool, str]:
    """Whether the number from `start` to `end` is hedged, and its bound: at_least, not_under, up_to or none.

    >>> how_firm("about 200 bar or more", 6, 13)
    (True, 'at_least')
    """
    before = low[max(0, start - 40) : start]
    clause = re.split(r"[,;:.]\s|[,;]", before)[-1]
    after = low[end : end + 24]
    words = clause.replace("~", " ~ ").split()
    while words and words[-1] in _SKIP:
        words.pop()
    hedged = (
        _LOOSE.match(low, end) is not None
        or (bool(words) and words[-1] in _HEDGES)
        or _THINK.search(clause) is not None
        or _AFTER_HEDGE.match(after) is not None
    )
    if _NOT_UNDER.search(clause):
        return hedged, "not_under"
    if _UP_TO.search(clause) or _AFTER_LESS.match(after):
        return hedged, "up_to"
    return hedged, "at_least" if _AT_LEAST.search(clause) or _AFTER_MORE.match(after) else ""
