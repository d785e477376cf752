"""Is the "one" of a sentence a figure? Alone, with a unit or as a count it is; in "the big one" it is a word."""

from __future__ import annotations

from interview.language.line import Line
from interview.language.measures import Measure

_LARGEST = 12  # words up to twelve stand in sentences for other things than a figure: "two stage", "one of those"
_BESIDE = frozenset(
    "about around roughly approximately approx say maybe probably only just it is its be that was er um i think reckon "
    "guess no nope sorry wait so well mate please , . ; ! - ~ or at to of".split()
)
_BEFORE = frozenset("dash size number # dn vg grade quantity qty minus plus".split())


def nobody(line: Line, m: Measure) -> bool:
    """The "one" of "no one knows"; "no, one" is a correction."""
    return m.form == "words" and line.words[m.first] == "one" and line.words[m.first - 1 : m.first] == ["no"]


def mere_word(line: Line, m: Measure) -> bool:
    """True where a small number in words is no figure: without a unit, and other words in its answer."""
    if m.form != "words" or m.unit or m.minus or m.is_range or not 0 < m.low <= _LARGEST or " " in _text(line, m):
        return False
    words = line.words
    if m.first and words[m.first - 1] in _BEFORE:
        return False
    if m.first and words[m.first - 1] in ("the", "this", "that", "big", "other") and _text(line, m) == "one":
        return True
    a, b = line.clause(m.first, frozenset({",", ".", ";", "!", "?"}))
    near = [x for x in line.measures if a <= x.first < b]
    rest = [
        k
        for k in range(a, b)
        if words[k] not in _BESIDE
        and not any(x.first <= k <= x.last or x.start <= line.tokens[k].start < x.end for x in near)
    ]
    if not rest:
        return False
    if _text(line, m) == "one":
        return True
    cued = {k for c in line.cues if c.tag in line.asked and a <= c.first < b for k in range(c.first, c.last)}
    return not cued or any(k not in cued and words[k] not in ("the", "a") for k in rest)


def _text(line: Line, m: Measure) -> str:
    return line.tokens[m.first].text if m.first == m.last else " "
