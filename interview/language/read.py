"""What is the value of one fact, read strictly: from a form, a scenario file, a command?"""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence
from functools import lru_cache

from interview.catalogue import CATALOGUE, FactSpec, Kind
from interview.facts import Origin, Span, Value
from interview.language import units
from interview.language.convert import JSON_UNIT, bare_bores, bare_unit, believable, bore_of, value_of
from interview.language.labels import find_labels
from interview.language.lexer import normalise, tokenise
from interview.language.listen import listen
from interview.language.measures import Measure, find_measures
from interview.language.model import SAID, Heard, Misread
from interview.language.years import OF_A_HOSE, year_alone

_EXAMPLE = {
    "pressure": "2500 psi or 172 bar",
    "temperature": "80 C or 180 F",
    "length": "1200 mm or 42 in",
    "flow": "45 L/min or 12 gpm",
    "displacement": "28 cc",
    "speed": "1450 rpm",
    "time": "50 ms",
    "angle": "90",
    "rate": "120 per hour",
    "hours": "2000",
    "years": "5",
    "size": "-8, 1/2 or DN 12",
    "grade": "46",
    "number": "150",
}
_WORD = re.compile(r"\s*[-./]*\s*([^\W\d_]{3,})")
_SIZE_WORDS = frozenset(
    "inch inches bore hose nominal dash size inside line tube printed marked max approx maybe about".split()
)
# What an id of these tables looks like; a sentence is none.
_TABLE_IDS = {
    "medium": re.compile(
        "h[hlmrvgs]|hetg|hees|hepg|hepr|hfae|hfas|hfb|hfc|hfd[rust]|hsmo|atf|utto|engine_oil|gear_oil|mil5606|mil83282|"
        "pe_aviation|castor|dot[345]|dot5_1|diesel|b100|petrol|kerosene|water|seawater|hotwater|coolant_meg|aus32|air|"
        "nitrogen|vacuum|breathing|oxygen|acetylene|lpg|natgas|hydrogen|co2|ammonia|refrig|steam|thermal_oil|acid_alkali|"
        "solvent|food|grease|slurry|unknown"
    ),
    "old_construction": re.compile(r"(?:saej|en|iso|din|sae)[a-z0-9]*-[a-z0-9]+|other|unknown"),
}
_RATE = re.compile(r"\s*(?:cycles? |times |strokes? )?(?:a|per|an|/)\s?(h(?:ou)?r?|min(?:ute)?|s(?:ec(?:ond)?)?)\b")
_TPI = re.compile(r"\s*(\d{1,2}(?:\.\d+)?)\s*(?:tpi|threads?\s*(?:per|an|to the|to an|/|a)\s*inch)\s*\.?\s*")
_TRAIL = re.compile(
    r"\s*(?:\([^()]*\)|gauge|vacuum|a year|per year|/year|/a|below atmospheric|abs(?:olute)?|hoses?|bore|long|"
    r"max(?:imum)?|min(?:imum)?|or so|"
    r"or more|at least|i think|approx\.?|give or take|more or less|-?ish|clockwise|counter[- ]?clockwise|a|an|per "
    r"hour)*[\s.]*$"
)
_LEAD = re.compile(
    r"^\s*(?:about|around|roughly|approx(?:imately)?\.?|circa|ca\.?|say|at least|up to|at most|max(?:imum)?\.?|"
    r"min(?:imum)?\.?|between|from|over|under|"
    r"more than|less than|no more than|dash|dn|vg|iso vg|#|~|nearly|i think|minus|maybe|probably)*\s*[-+#]?$"
)


def read_value(
    name: str, text: str, *, home: str = "metric", choices: Sequence[str] | None = None, bare: str = "asked"
) -> Heard:
    """Reads one fact's value. `bare="json"`: a bare number is in the fact's JSON unit. Raises Misread."""
    entry = CATALOGUE[name]
    said = text.strip()
    if not said:
        raise Misread(text, "nothing was written", f"{_would(entry, choices)} would do")
    if entry.kind is Kind.QUANTITY:
        return _quantity(entry, said, home, bare)
    if entry.kind is Kind.FLAG:
        return Heard(name, _flag(entry, said), "", said, end=len(said))
    if entry.kind is Kind.DAY:
        return Heard(name, _day(entry, said), "", said, end=len(said))
    if entry.kind is Kind.TEXT:
        return Heard(name, said, "", said, end=len(said))
    allowed = tuple(choices) if choices else entry.choices
    if entry.kind is Kind.MANY:
        return Heard(name, _many(entry, said, allowed), "", said, end=len(said))
    return Heard(name, _choice(entry, said, allowed), "", said, end=len(said))


def read_knows(name: str, value: object) -> Heard:
    """A value of a scenario's `knows`: a YAML scalar or list. A bare number is in the JSON unit. Raises Misread."""
    if name not in CATALOGUE:
        raise Misread(name, "is not a fact", "a fact name of the contract would do")
    entry = CATALOGUE[name]
    said = ", ".join(str(v) for v in value) if isinstance(value, list) else str(value)
    if isinstance(value, dict) or value is None:
        raise Misread(said, f"{name} takes one value", f"{_would(entry, None)} would do")
    if entry.kind is Kind.FLAG:
        if isinstance(value, bool):
            return Heard(name, value, "", "yes" if value else "no")
        return read_value(name, said)
    if entry.kind is Kind.MANY:
        if isinstance(value, bool):
            if value:
                raise Misread(said, f"{name} takes a list", f"{_would(entry, None)} would do")
            return Heard(name, (), "", "none")
        parts = value if isinstance(value, list) else [value]
        if not parts:
            return Heard(name, (), "", "none")
        out: list[str] = []
        for part in parts:
            out.extend(_many(entry, str(part), entry.choices))
        return Heard(name, tuple(dict.fromkeys(out)), "", said)
    if isinstance(value, list):
        raise Misread(said, f"{name} takes one value, not a list", f"{_would(entry, None)} would do")
    if isinstance(value, bool):
        raise Misread(said, f"{name} does not take yes or no", f"{_would(entry, None)} would do")
    if entry.kind is Kind.QUANTITY and isinstance(value, int | float):
        number = float(value) * entry.factor
        if name == "bore" and value < 0:
            number = -number
        if not believable(name, number):
            raise Misread(said, _far(entry), f"{_would(entry, None)} would do")
        unit = JSON_UNIT.get(entry.unit, entry.unit)
        return Heard(name, number, unit, said)
    if entry.kind is Kind.DAY and isinstance(value, datetime.date):
        return Heard(name, value.isoformat(), "", said)
    if entry.kind is Kind.IDENT and isinstance(value, float) and value == int(value):
        said = str(int(value))
    return read_value(name, said, bare="json")


def _would(entry: FactSpec, choices: Sequence[str] | None) -> str:
    allowed = tuple(choices) if choices else entry.choices
    if allowed:
        return ("one of " if entry.kind is not Kind.MANY else "any of ") + ", ".join(allowed)
    if entry.kind is Kind.FLAG:
        return "yes or no"
    if entry.kind is Kind.DAY:
        return "a date like 2026-03-14, a month 2026-03 or a quarter 2026-Q1"
    if entry.kind is Kind.QUANTITY:
        return _EXAMPLE.get(entry.measures, "a number")
    return "an id of the table" if entry.kind is Kind.IDENT else "a word or two"


def _far(entry: FactSpec) -> str:
    assert entry.plausible is not None
    low, high = entry.plausible
    return f"{entry.label} lies between {low:g} and {high:g} {entry.unit}".strip()


def _flag(entry: FactSpec, said: str) -> bool:
    low = said.lower().strip(" .!")
    if low in ("yes", "y", "true", "yeah", "yep", "yup", "aye", "sure", "correct"):
        return True
    if low in ("no", "n", "false", "nope", "nah", "none", "never"):
        return False
    heard = listen(said, asked=(entry.name,)).fact(entry.name)
    if heard is None or not isinstance(heard.value, bool):
        raise Misread(said, f"{entry.label} is answered with yes or no", "yes or no would do")
    return heard.value


def _day(entry: FactSpec, said: str) -> str:
    low = normalise(said)
    labels = [x for x in find_labels(low, said) if x.kind in ("date", "month", "quarter", "weekday", "day_unclear")]
    if entry.name in OF_A_HOSE and (year := year_alone(low)):
        return year
    if len(labels) == 1 and labels[0].kind == "day_unclear":
        raise Misread(said, "day and month could be swapped", "2026-03-14, or the month by name would do")
    if len(labels) == 1 and labels[0].kind != "weekday":
        if labels[0].kind == "date":
            try:
                datetime.date.fromisoformat(labels[0].data)
            except ValueError as error:
                raise Misread(said, f"there is no such day ({error})", "2026-03-14 would do") from None
        return labels[0].data
    if len(labels) == 1:
        return SAID + re.sub(r"^(?:by|on|before|for|come) (?:the )?", "", labels[0].data)
    raise Misread(said, f"{entry.label} is a date", f"{_would(entry, None)} would do")


@lru_cache(maxsize=4096)
def _plain(text: str) -> str:
    return re.sub(r"[\s_-]+", "_", text.strip().lower())


def _choice(entry: FactSpec, said: str, allowed: Sequence[str]) -> str:
    wanted = _plain(said)
    for choice in allowed:
        if wanted == _plain(choice):
            return choice
    if entry.name in _TABLE_IDS and not allowed and _TABLE_IDS[entry.name].fullmatch(said.lower()):
        return said.lower()
    heard = listen(said, asked=(entry.name,)).fact(entry.name)
    if heard is not None and isinstance(heard.value, str) and (not allowed or heard.value in allowed):
        return heard.value
    if entry.name in _TABLE_IDS and not allowed:
        raise Misread(
            said, f"that is no id for {entry.label}", "the words on the label, or an id of the table, would do"
        )
    if entry.kind is Kind.IDENT and not allowed:
        if re.fullmatch(r"[A-Za-z0-9][\w./ -]{0,40}|-\d{1,2}", said):
            return said
        raise Misread(said, f"that is no id for {entry.label}", "an id of the table would do")
    raise Misread(said, f"that is no choice for {entry.label}", f"one of {', '.join(allowed)} would do")


def _many(entry: FactSpec, said: str, allowed: Sequence[str]) -> tuple[str, ...]:
    if _plain(said) in ("none", "no", "nothing", "[]", ""):
        return ("none",) if "none" in entry.choices else ()
    out: list[str] = []
    for part in re.split(r"\s*[,;]\s*|\s+and\s+", said.strip("[] ")):
        match = next((c for c in allowed if _plain(part) == _plain(c)), None)
        if match is None:
            heard = listen(part, asked=(entry.name,)).fact(entry.name)
            if heard is None or not isinstance(heard.value, tuple):
                raise Misread(said, f"{part!r} is no choice for {entry.label}", f"any of {', '.join(allowed)} would do")
            out.extend(heard.value)
        else:
            out.append(match)
    return tuple(dict.fromkeys(out))


def _quantity(entry: FactSpec, said: str, home: str, bare: str) -> Heard:
    if len(said) > 200:
        raise Misread(said[:40] + "…", "that is more than one figure", f"{_would(entry, None)} would do")
    low = re.sub(r"\s*\([^()]*\)\s*$", "", normalise(said))  # the same value in the other unit
    if entry.name.endswith("_thread_pitch") and (count := _TPI.fullmatch(low)) and 5.0 <= float(count[1]) <= 48.0:
        return Heard(entry.name, 0.0254 / float(count[1]), "mm", said, end=len(said))
    tokens = tokenise(low)
    measures = find_measures(low, tokens, [False] * len(tokens))
    if entry.measures in ("grade", "size") and not measures:  # VG46, DN16
        low = re.sub(r"(?<=[a-z])(?=\d)", " ", low)
        tokens = tokenise(low)
        measures = find_measures(low, tokens, [False] * len(tokens))
    if len(measures) != 1:
        why = "no number was found" if not measures else "that is more than one figure"
        raise Misread(said, why, f"{_would(entry, None)} would do")
    m = measures[0]
    lead, trail = low[: m.start], low[m.end :]
    if entry.measures == "size":
        word = _WORD.match(trail)
        if word and word[1] not in _SIZE_WORDS:  # a spreadsheet makes 3-Apr of 3/4
            raise Misread(
                said, f"{word[1]!r} is no word for a size; a date made of a fraction?", "-12 or 3/4 in would do"
            )
        return _size(entry, m, said, lead, home, bare)
    value, unit = _in_unit(entry, m, said, low, home, bare)
    rate = _RATE.match(trail)
    if rate and entry.measures == "rate":
        trail = trail[rate.end() :]
    if not _LEAD.match(lead) or not _TRAIL.match(trail):
        raise Misread(
            said, f"{(lead + trail).strip()!r} is not understood beside the number", f"{_would(entry, None)} would do"
        )
    if not believable(entry.name, value):
        raise Misread(said, _far(entry), f"{_would(entry, None)} would do")
    return Heard(entry.name, value, unit, said, Origin.STATED, m.hedged, end=len(said))


def _in_unit(entry: FactSpec, m: Measure, said: str, low: str, home: str, bare: str) -> tuple[Value, str]:
    kind = entry.measures
    would = f"{_would(entry, None)} would do"
    if m.unit == "'":
        raise Misread(said, "that mark could be feet or minutes", would)
    if kind in ("number", "grade"):
        if m.unit not in ("",):
            raise Misread(said, f"{entry.label} has no unit", would)
        return value_of_plain(m), ""
    if kind == "rate":
        rate = _RATE.match(low[m.end :])
        unit = {"h": "1/h", "m": "1/min", "s": "1/s"}[rate[1][0]] if rate else "1/h"
        return value_of(m, unit), unit
    if kind == "vacuum":
        kind = "pressure"
    unit = m.unit
    if kind in ("hours", "years", "angle") and unit in ("", "h", "year", "deg", "month"):
        return value_of(m, unit or JSON_UNIT[entry.unit]), unit or JSON_UNIT[entry.unit]
    if unit == "deg" and kind == "temperature":
        unit = ""
    if not unit:
        chosen = JSON_UNIT.get(entry.unit) if bare == "json" else bare_unit(entry.name, m.high, home, asked=True)
        if chosen is None:
            raise Misread(said, "the unit is missing", would)
        unit = chosen
    if units.measures(unit) != kind:
        raise Misread(said, f"{unit} does not measure {entry.label}", would)
    if (
        m.alt is not None
        and bare != "json"
        and believable(entry.name, units.to_si(m.alt, unit))
        and believable(entry.name, units.to_si(m.low, unit))
    ):
        raise Misread(
            said,
            "the comma could stand for thousands or for decimals",
            "the number without a comma, or with a point, would do",
        )
    if entry.name == "vacuum" and m.low < 0:
        m.low, m.high = -m.high, -m.low
    return value_of(m, unit), unit


def value_of_plain(m: Measure) -> Value:
    """A bare number or range."""
    if m.is_range and m.low < m.high:
        return Span(m.low, m.high)
    return Span(m.low, None) if m.bound in ("at_least", "not_under") else m.low


def _size(entry: FactSpec, m: Measure, said: str, lead: str, home: str, bare: str) -> Heard:
    dn = re.search(r"\bdn\s*$", lead) is not None
    dash = m.minus or re.search(r"(?:dash|#|-)\s*$", lead) is not None
    plain = not (dn or m.unit or m.form in ("frac", "mixed"))
    several = plain and not dash and len(bare_bores(m.low)) > 1
    would = f"{_would(entry, None)} would do"
    if m.is_range:
        raise Misread(said, f"{entry.label} is one size", would)
    if bare == "json" and plain:
        value: float | None = abs(m.low)
    elif entry.name == "marked_size" and not m.unit:
        value = abs(m.low)
    elif several and home != "us":
        raise Misread(said, "that could be a dash or a DN", f"-{m.low:g} or DN {m.low:g} would do")
    else:
        value = bore_of(m, dash=dash or several, dn=dn, asked=True)
    if value is None or not believable(entry.name, value):
        raise Misread(said, f"that is no {entry.label}", would)
    return Heard(
        entry.name, float(value), m.unit or ("dn" if dn else "dash"), said, Origin.STATED, m.hedged, end=len(said)
    )
