"""How many, how often, how long a day?"""

from __future__ import annotations

import re

from interview.facts import Span
from interview.language.convert import FAR_OUT, believable
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import Heard

_PER = {"minute": 60.0, "min": 60.0, "mins": 60.0, "hour": 1.0, "hr": 1.0, "second": 3600.0, "sec": 3600.0}


_CYCLES = frozenset(
    "cycle cycles stroke strokes times time lifts operations presses hits shifts tips loads bales pressings movements "
    "cycling pulses impulses".split()
)


_NOT_FROM = r"(?! (?:the|an?|my|our|his|this|that|it)\b(?! same))"  # "the big one off the pump"
_OFF = re.compile(
    rf"\s*(?:x\s+)?(?:-?off\b{_NOT_FROM}|"
    r"pcs\b|pieces?\b|of (?:them|these|those|'?em|the same)\b|nos\b|hoses\b|assemblies\b|"
    r"identical\b|units\b|sets?\b|"
    r"ea\b|each please\b|required\b|please\b|(?:[a-z0-9/.-]+ ){0,3}hoses\b|lengths?\b)"
)


_WANT = re.compile(
    r"(?:qty|quantity|quantities)(?: of| is|:)?\s*$|(?:need|want|make|order|do|supply|send|build|take|after)(?: me| "
    r"us| another| about| up)?\s*$"
)


_PLURAL = re.compile(
    r"\s*(?:$|[,.;!?]|off\b|please\b|of\b|for\b|by\b|made\b|like\b|the same\b|altogether\b|in total\b|this time\b)"
)


_HOURS_DAY = re.compile(r"\s*(?:a|per|each|every|/)\s?(?:day|shift)")


_HOURS_WEEK = re.compile(r"\s*(?:a|per|each|every|/)\s?week")


_YEAR = re.compile(r"\s*(?:a|per|each|every|/|in a)\s?(?:year|yr|annum)")


_WEEK = re.compile(r"\s*(?:a|per|each|/)\s?week")


def hear_counts(line: Line) -> None:
    """Counts, rates and duty; before numbers are bound to anything else."""
    for i, m in enumerate(line.measures):
        if m.taken:
            continue
        if m.unit == "" and (pairs := re.match(r"\s*pairs\b", line.low[m.end :])) is not None:
            put(line, "quantity", 2 * m.low, m.start, m.end + pairs.end(), "", m)
            continue
        _rate(line, m) or _duty(line, i, m) or _quantity(line, m)
    for pattern, number in (
        (r"\bonce (?:a|per|every|each) (minute|hour|second)\b", 1.0),
        (r"\btwice (?:a|per|every|each) (minute|hour|second)\b", 2.0),
        (r"\bevery (minute|second)\b", 1.0),
    ):
        found = re.search(pattern, line.low)
        if found and not any(f.name == "cycle_rate" for f in line.facts):
            put(line, "cycle_rate", number * _PER[found[1]], found.start(), found.end())
    _words_of_number(line)


def put(line: Line, name: str, value: float, start: int, end: int, unit: str = "", m: Measure | None = None) -> bool:
    heard = Heard(
        name,
        value,
        unit,
        line.said(start, end),
        hedged=bool(m and m.hedged),
        corrects=bool(m and m.corrects),
        start=start,
        end=end,
    )
    if m is not None:
        m.taken = True
    first, last = line.tokens_in(start, end)
    if not believable(name, value):
        line.open((name,), FAR_OUT, first, last, (heard,))
        return True
    line.facts.append(heard)
    line.used.update(range(first, last + 1))
    return True


def _rate(line: Line, m: Measure) -> bool:
    if m.is_range:
        return False
    words = line.words
    k = m.last + 1
    if m.unit == "":
        seen = False
        while (
            k < len(words) and k <= m.last + 3 and (words[k] in _CYCLES or words[k] in ("pressure", "full", "complete"))
        ):
            seen = seen or words[k] in _CYCLES
            k += 1
        if k + 1 < len(words) and words[k] in ("a", "per", "every", "each", "an", "/") and words[k + 1] in _PER:
            a, b = line.clause(m.first, frozenset({".", ";"}))
            near = seen or any(w in _CYCLES for w in words[a:b]) or "cycle_rate" in line.asked
            if near:
                return put(line, "cycle_rate", m.low * _PER[words[k + 1]], m.start, line.tokens[k + 1].end, "1/h", m)
    elif m.unit in ("s", "min", "h") and m.first and words[m.first - 1] == "every":
        a, b = line.clause(m.first, frozenset({".", ";"}))
        if any(w in _CYCLES for w in words[a:b]) or "cycle_rate" in line.asked or "every" in words[a:b]:
            seconds = m.low * {"s": 1.0, "min": 60.0, "h": 3600.0}[m.unit]
            if seconds > 0:
                return put(line, "cycle_rate", 3600.0 / seconds, line.tokens[m.first - 1].start, m.end, "1/h", m)
    return False


def _duty(line: Line, i: int, m: Measure) -> bool:
    if m.unit == "" and m.low <= 24 and line.low.strip(" .!") == line.low[m.start : m.end]:
        return "hours_per_year" in line.asked and not m.is_range and _a_day_or_a_year(line, m)
    if m.unit != "h":
        return False
    after = line.low[m.end : m.end + 24]
    if _YEAR.match(after) or re.match(r"\s*(?:annually|yearly|pa\b|p\.a)", after):
        if m.is_range or m.bound == "at_least":
            m.taken = True
            line.add(
                "hours_per_year",
                Span(m.low, m.high if m.is_range else None),
                m.first,
                m.last,
                unit="h",
                hedged=m.hedged,
            )
            return True
        return put(line, "hours_per_year", m.low, m.start, m.end, "h", m)
    follower = line.measures[i + 1] if i + 1 < len(line.measures) else None
    day = _HOURS_DAY.match(after)
    if (
        follower is not None
        and follower.unit == "day"
        and follower.start - m.end < 24
        and (day or re.match(r"\s*(?:x|by|,|for)\s*$", line.low[m.end : follower.start]))
    ):
        tail = line.low[follower.end : follower.end + 20]
        if _WEEK.match(tail):
            weeks = line.measures[i + 2] if i + 2 < len(line.measures) else None
            if weeks is not None and weeks.unit == "week":
                weeks.taken = True
                follower.taken = True
                return put(line, "hours_per_year", m.low * follower.low * weeks.low, m.start, weeks.end, "h", m)
            follower.taken = True
            m.taken = True
            readings = tuple(
                Heard("hours_per_year", m.low * follower.low * w, "h", line.said(m.start, follower.end))
                for w in (50.0, 52.0)
            )
            line.open(("hours_per_year",), "how many weeks a year?", m.first, follower.last, readings, follower.end)
            return True
        follower.taken = True
        return put(line, "hours_per_year", m.low * follower.low, m.start, follower.end, "h", m)
    if "hours_per_year" in line.asked and m.low <= 24 and not m.is_range and not day and not _HOURS_WEEK.match(after):
        return _a_day_or_a_year(line, m)
    if day or _HOURS_WEEK.match(after):
        m.taken = True
        line.open(("hours_per_year",), "how many days (or weeks) a year?", m.first, m.last, (), m.end)
        return True
    return False


def _a_day_or_a_year(line: Line, m: Measure) -> bool:
    """ "8 hours" to the hours a year: nobody builds a hose for one day, so that it is asked back."""
    reading = Heard("hours_per_year", m.low, "h", line.said(m.start, m.end), start=m.start, end=m.end)
    line.open(("hours_per_year",), "a day, or in the whole year?", m.first, m.last, (reading,), m.end)
    m.taken = True
    return True


def _quantity(line: Line, m: Measure) -> bool:
    if m.unit not in ("",) or m.is_range or m.minus or m.form not in ("int", "words") or m.low < 1 or m.low > 5000:
        return False
    if m.first in line.used:
        return False
    if m.first and line.words[m.first - 1] in ("the", "this", "that", "a"):
        return False
    before = line.low[max(0, m.start - 28) : m.start]
    after = line.low[m.end : m.end + 40]
    first = not any(f.name == "quantity" for f in line.facts)
    wanted = _WANT.search(before)
    if wanted and wanted.group().strip().startswith("order") and m.low >= 100 and not _OFF.match(after):
        return False  # "order 4500" is its number
    if first and wanted and wanted.group().strip().startswith(("qty", "quantit")):
        return put(line, "quantity", m.low, m.start, m.end, "", m)
    if re.match(
        r"\s*(?:wire|spiral|braid|ply|year|month|week|day|inch|end|both|weeks|of the (?:ends|fittings))", after
    ):
        return False
    if (
        line.tokens[m.last].text == "one"
        and not wanted
        and re.match(r"\s*of (?:them|these|those)\b(?!\s*(?:$|[,.;!]|please))", after)
    ):
        return False  # "one of those things", "one of them blew"
    if _OFF.match(after):
        strict = re.match(
            rf"\s*(?:x\s+)?(?:-?off\b{_NOT_FROM}|"
            r"pcs\b|pieces?\b|of (?:them|these|those|'?em)|nos\b|identical|hoses\b|assemblies)",
            after,
        )
        if strict or (wanted and first):
            return put(line, "quantity", m.low, m.start, m.end, "", m)
        if (
            first
            and re.match(r"\s*(?:[a-z0-9/.-]+ ){1,3}hoses\b", after)
            and (m.start == 0 or line.low[: m.start].strip(" ,") == "")
        ):
            return put(line, "quantity", m.low, m.start, m.end, "", m)
    if (
        first
        and wanted
        and not wanted.group().strip().startswith("for")
        and _PLURAL.match(after)
        and line.tokens[m.last].text != "one"
    ):
        return put(line, "quantity", m.low, m.start, m.end, "", m)
    return False


def _words_of_number(line: Line) -> None:
    if any(f.name == "quantity" for f in line.facts):
        return
    found = re.search(
        r"\b(?:(half a dozen)|(two dozen)|((?:a|one) dozen)|((?:a|matched|one) pair of (?:them|these|hoses|those)|a "
        r"pair\b|in pairs)|(just (?:the )?one(?: of (?:them|these))?(?=\s*(?:$|[,.;!]|"
        r"please|this time|hose|off(?! the)|to|for|needed|wanted))))",
        line.low,
    )
    if found is None:
        return
    value = (6.0, 24.0, 12.0, 2.0, 1.0)[next(i for i, g in enumerate(found.groups()) if g)]
    if found[5] and re.match(r"\s*(?:end|side|wire|plane|way|direction)", line.low[found.end() :]):
        return
    line.spend(*found.span())
    put(line, "quantity", value, found.start(), found.end())
