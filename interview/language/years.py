"""Is this bare number a year of which a hose is, and nothing else?

A year is read only where a word of a date stands right before it, or where a date was asked for and nothing else said.
It stays a year: whoever reckons with it takes the day that makes the hose oldest.
"""

from __future__ import annotations

import re

from interview.language import units
from interview.language.line import Line
from interview.language.measures import Measure, counts_else

OF_A_HOSE = ("hose_date", "assembly_date", "fitted_date")
_YEAR = r"(?:19[6-9]\d|20[0-4]\d)"
# Words that leave no other meaning to the number behind them, and words that need an "in" or a "since" before it.
_PLAIN = re.compile(
    r"(?P<hose_date>(?:^|[,.;:]\s*|\b(?:hose|one|was|is|were|been)\s)(?:made|manufactured|produced)|"
    r"\b(?:made|manufactured|produced)(?= in\b)|\b(?:hose|one|it)(?:'s| is| was)? (?:dated|from)|"
    r"\bdate on (?:the )?hose|\bhose date)|"
    r"(?P<assembly_date>\b(?:assembled|crimped|assembly date|built|made up))|"
    r"(?P<fitted_date>\b(?:fitted|installed|been on(?: there| the machine)? since|went on|put (?:on|in)|"
    r"(?:last )?(?:changed|replaced)))"
)
_NEEDS_IN = re.compile(r"(?:built|made up|went on|put (?:on|in)|(?:last )?(?:changed|replaced))")
_BETWEEN = re.compile(
    r"(?:[\s:,]+(?:it|them|new|is|was|back|in|since|from|of|about|around|maybe|say|early|late|mid|the|year|sometime))*"
    r"[\s:-]*"
)
_IN = re.compile(r"\b(?:in|since|from|year)\b")
_NO_YEAR_BEHIND = re.compile(
    r"\s*(?:-|/|x|to|or|by|psi|series|model|type|hoses|pieces|pcs|off|of|times|units|ends|fittings)(?![a-z])|[.,/-]?\d"
)
_ALONE = re.compile(
    r"(?:(?:it|its|it's|was|is|in|from|since|about|around|roughly|maybe|probably|say|made|fitted|installed|built|dated|"
    r"back|early|late|mid|sometime|the|year|i|think|reckon|guess|so|hose|yes|yeah)\W+)*"
    rf"(?P<year>{_YEAR})(?:\W+(?:i|think|reckon|guess|or|so|thereabouts|maybe|probably|ish))*\W*"
)
_CODE = re.compile(r"\W*\d{2}(?:0[1-9]|1[0-2])\W*")


def year_alone(low: str) -> str:
    """The year that is all an answer says; empty where it says more. Four bare digits may be a year and a month.

    >>> year_alone("it's from 2014 i think"), year_alone("2014"), year_alone("2012"), year_alone("part number 2014")
    ('2014', '2014', '', '')
    """
    found = _ALONE.fullmatch(low.strip())
    return "" if found is None or _CODE.fullmatch(low) else found["year"]


def is_year(text: str) -> bool:
    """Whether these digits can be the year of a hose.

    >>> is_year("2012"), is_year("1911"), is_year("3000")
    (True, False, False)
    """
    return re.fullmatch(_YEAR, text) is not None


def hear_years(line: Line, asked: tuple[str, ...]) -> None:
    """The years of a line, each for the date whose word stands before it. `asked`: the dates a question was about."""
    alone = year_alone(line.low)
    for m in line.measures:
        if m.taken or m.unit or m.is_range or m.minus or m.form != "int" or not _a_year(line, m):
            continue
        of_a_hose = [a for a in asked if a in OF_A_HOSE]
        name = of_a_hose[0] if alone and len(of_a_hose) == 1 else _named(line, m)
        if name:
            line.add(name, f"{m.low:.0f}", m.first, m.last, hedged=m.hedged, corrects=m.corrects)
            m.taken = True


def _a_year(line: Line, m: Measure) -> bool:
    return (
        is_year(f"{m.low:g}")
        and units.match_unit(line.low, m.end) is None
        and not counts_else(line.low, m.end)
        and _NO_YEAR_BEHIND.match(line.low, m.end) is None
    )


def _named(line: Line, m: Measure) -> str:
    """The date whose word stands right before the number."""
    for found in _PLAIN.finditer(line.low, 0, m.start):
        between = line.low[found.end() : m.start]
        if not _BETWEEN.fullmatch(between):
            continue
        if _NEEDS_IN.fullmatch(found.group()) and not _IN.search(between):
            continue
        return str(found.lastgroup)
    return ""
