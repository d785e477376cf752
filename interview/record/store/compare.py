"""What differs between two revisions, field by field?

Lists are compared by what their lines are about (a fact, a candidate, a check), not by their place, so that one added
line does not make all later ones look changed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from interview.catalogue import CATALOGUE
from interview.record.documents.words import clean, fact_shown
from interview.record.model import FactLine, Record

KEYS = {
    "candidates": ("construction", "bore"),
    "findings": ("check",),
    "cautions": ("id",),
    "advice": ("check",),
    "assumptions": ("fact",),
    "parts": ("part",),
    "needs": ("name",),
}
ABSENT = ""


@dataclass(frozen=True, slots=True)
class Difference:
    """One field that is not the same; an empty side means it is not there."""

    field: str  # its place in the JSON: facts.working_pressure.value
    label: str  # in words: working pressure
    before: str
    after: str


def differences(before: Record, after: Record) -> tuple[Difference, ...]:
    """Every field that differs, facts first, each fact as one line where its value or origin changed."""
    out = _facts(before, after)
    kept = _judged_otherwise(before, after)
    one, two = (r.model_dump(mode="json", exclude={"facts"}) for r in kept)
    for field, a, b in _apart(one, two):
        out.append(Difference(field, field.replace("_", " ").replace(".", ", "), a, b))
    return tuple(out)


COMPARED = (
    "outcome",
    "ready_for",
    "missing_for_build",
    "facts",
    "needs",
    "choice",
    "assembly",
    "build",
    "open",
    "open_words",
)
UNTOLD = re.compile(r"facts\.\w+\.(?:turn|shown|because|unit_said)\Z")


def for_a_person(before: Record, after: Record) -> tuple[Difference, ...]:
    """What a person would compare: facts, needs, choice, assembly, build and what is open; not every candidate."""
    return tuple(
        d
        for d in differences(before, after)
        if re.split(r"[.[]", d.field, maxsplit=1)[0] in COMPARED and not UNTOLD.match(d.field)
    )


def unchanged(before: Record, after: Record) -> bool:
    """The same but for when it was made, in which turn things were said, and what was asked on the way there.

    Candidates are left out: they follow from the rest, and a value that went through JSON can move a
    margin's last digit.
    """

    def content(record: Record) -> dict[str, object]:
        told = record.model_dump(mode="json", exclude={"made", "asked", "facts", "candidates"})
        facts = {name: line.model_dump(mode="json", exclude={"turn"}) for name, line in record.facts.items()}
        return {**told, "facts": facts}

    return content(before) == content(after)


def _apart(before: object, after: object) -> Iterator[tuple[str, str, str]]:
    """Every leaf that is not the same in both: its place, and what stands there."""
    one, two = _flat(before), _flat(after)
    for field in dict.fromkeys([*one, *two]):
        a, b = one.get(field, ABSENT), two.get(field, ABSENT)
        if a != b:
            yield field, a, b


def _judged_otherwise(before: Record, after: Record) -> tuple[Record, Record]:
    """Both records with only those candidates that are not the same in both: most of some 350 are."""
    one, two = ({(c.construction, c.bore): c for c in r.candidates} for r in (before, after))
    if len(one) < len(before.candidates) or len(two) < len(after.candidates):
        return before, after
    first = tuple(c for key, c in one.items() if two.get(key) != c)
    second = tuple(c for key, c in two.items() if one.get(key) != c)
    return before.model_copy(update={"candidates": first}), after.model_copy(update={"candidates": second})


def _facts(before: Record, after: Record) -> list[Difference]:
    out = []
    for name in dict.fromkeys([*before.facts, *after.facts]):
        a, b = before.facts.get(name), after.facts.get(name)
        if a == b:
            continue
        label = CATALOGUE[name].label if name in CATALOGUE else name.replace("_", " ")
        if _told(a, before.home) != _told(b, after.home):
            out.append(Difference(f"facts.{name}", label, _told(a, before.home), _told(b, after.home)))
            continue
        assert a is not None and b is not None
        for field, was, now in _apart(a.model_dump(mode="json"), b.model_dump(mode="json")):
            out.append(Difference(f"facts.{name}.{field}", f"{label}, {field}", was, now))
    return out


def _told(line: FactLine | None, home: str) -> str:
    if line is None:
        return ABSENT
    value = fact_shown(line, home)
    return f"{value} ({line.origin})" if line.origin else value


def _flat(data: object, place: str = "", key: str = "") -> dict[str, str]:
    """Place to value for every leaf."""
    if isinstance(data, dict):
        out: dict[str, str] = {}
        for name, inner in data.items():
            out.update(_flat(inner, f"{place}.{name}" if place else name, name))
        return out
    if isinstance(data, list):
        out = {}
        times: dict[str, int] = {}
        for index, inner in enumerate(data):
            if isinstance(inner, dict) and key in KEYS:
                about = " ".join(str(inner[k]) for k in KEYS[key])
            elif isinstance(inner, (dict, list)):
                about = str(index + 1)
            else:
                about = clean(inner, 80)
            times[about] = times.get(about, 0) + 1
            again = f"#{times[about]}" if times[about] > 1 else ""
            out.update(_flat(inner, f"{place}[{about}]{again}"))
        return out
    return {place: "not known" if data is None else clean(data)}
