"""What does the way a hose failed say about the next one? The failure file, its words, and what it adds to the record.

A sign is consistent with several causes and proves none; an observation separates them. Nothing here says "caused by".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from interview.catalogue import CATALOGUE
from interview.facts import Known
from interview.resources import shipped
from interview.yaml_file import FileError, YamlFile, read_yaml, validated

Need = Literal[
    "radius",
    "spiral",
    "sleeve",
    "heat_shield",
    "vacuum_rating",
    "other_medium",
    "length",
    "rating",
    "larger_bore",
    "reroute",
    "other_end",
    "making",
    "cold_limit",
    "heat_limit",
    "no_twist",
    "cover",
    "plating",
    "conductive_tube",
    "gas_cover",
    "inspection",
    "cause_first",
]
Words = Annotated[str, Field(min_length=8, max_length=260)]
AT_ONCE = 2  # signs explained after one answer; the record carries all
CHECK = "failure"
CLAIMS = re.compile(r"\b(?:caused by|cause is|causes? the|due to|because of|proves)\b", re.IGNORECASE)


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Sign(Part):
    """One sign: the causes it is consistent with, what separates them, what the next hose needs."""

    consistent_with: Annotated[tuple[str, ...], Field(min_length=2)]
    separate_by: Words
    next_hose: Words
    needs: Annotated[tuple[Need, ...], Field(min_length=1)]
    source: str


class Repeat(Part):
    text: Words
    source: str


class Failures(Part):
    signs: dict[str, Sign]
    repeat: Repeat


@dataclass(frozen=True, slots=True)
class FailureAdvice:
    """One sign's words for the record."""

    text: str
    source: str


def read_failures(path: Path) -> tuple[Failures, YamlFile]:
    """The file and where everything in it stands. Raises FileError with file and line."""
    file = read_yaml(path)
    return validated(file, Failures), file


@cache
def failures() -> Failures:
    """The shipped failure file; a file with a fault is refused as a whole."""
    read, file = read_failures(shipped("flows") / "failures.yaml")
    fault = next(faults(read, file), None)
    if fault is not None:
        raise fault
    return read


def faults(read: Failures, file: YamlFile) -> Iterator[FileError]:
    """A sign nobody can say, one without an entry, words that claim more than was seen."""
    known = CATALOGUE["failure_sign"].choices
    for name, sign in read.signs.items():
        if name not in known:
            yield file.error(("signs", name), f"{name!r} is no failure sign; the signs are {', '.join(known)}")
        for key, text in (
            ("separate_by", sign.separate_by),
            ("next_hose", sign.next_hose),
            *(("consistent_with", cause) for cause in sign.consistent_with),
        ):
            claim = CLAIMS.search(text)
            if claim:
                said = f'{claim[0]!r} claims a cause; a counter may only say "consistent with"'
                yield file.error(("signs", name, key), said)
    for name in known:
        if name not in read.signs:
            yield file.error(("signs",), f"no entry for the failure sign {name}")


def file_faults(path: Path) -> list[str]:
    """For the lint: one line a fault."""
    try:
        read, file = read_failures(path)
    except FileError as error:
        return [str(error)]
    return [str(e) for e in faults(read, file)]


def sign_lines(name: str, said: str) -> tuple[str, str, str]:
    """What is told at the counter right after a sign was said: three lines. `said` is the sign in the flow's words."""
    sign = failures().signs[name]
    return (
        f"{said[:1].upper()}{said[1:]}: consistent with {_either(sign.consistent_with)}.",
        f"To tell them apart: {sign.separate_by}",
        f"The next hose: {sign.next_hose}",
    )


def fresh_signs(known: Known, told: frozenset[str]) -> tuple[str, ...]:
    """The signs said and not yet explained, as many as one answer may bring."""
    return tuple(s for s in known.many("failure_sign") or () if told_key(s) not in told)[:AT_ONCE]


def told_key(sign: str) -> str:
    return f"failure sign {sign}"


def failure_advice(known: Known, labels: Mapping[str, str]) -> tuple[FailureAdvice, ...]:
    """The record's advice, a sign each in the order said; and the warning of a hose that fails again and again."""
    lines = []
    for name in known.many("failure_sign") or ():
        sign = failures().signs[name]
        lines.append(FailureAdvice(" ".join(sign_lines(name, labels.get(name, name.replace("_", " ")))), sign.source))
    if known.flag("repeat_failure"):
        lines.append(FailureAdvice(failures().repeat.text, failures().repeat.source))
    return tuple(lines)


def next_hose_lines(known: Known) -> tuple[str, ...]:
    """For the review: only what the next hose needs, a line a sign."""
    signs = known.many("failure_sign") or ()
    return tuple(f"After what failed, the next hose: {failures().signs[name].next_hose}" for name in signs)


def _either(causes: tuple[str, ...]) -> str:
    return f"{'; '.join(causes[:-1])}; or {causes[-1]}"


__all__ = [
    "AT_ONCE",
    "CHECK",
    "FailureAdvice",
    "Failures",
    "failure_advice",
    "failures",
    "file_faults",
    "fresh_signs",
    "next_hose_lines",
    "sign_lines",
    "told_key",
]
