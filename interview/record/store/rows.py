"""What does a row of the store say of its record?"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Row

from interview.record.documents.page import Filed
from interview.record.documents.words import clean
from interview.record.model import Quantity, RangeQuantity, Record

NAMES = {"customer": "customer", "machine": "machine", "tag": "line_tag"}  # column and fact


@dataclass(frozen=True, slots=True)
class Found:
    """One revision as a list shows it."""

    number: str
    revision: int
    newest: bool
    day: str
    saved: str
    customer: str
    machine: str
    tag: str
    construction: str
    bore: float | None
    pressure: float | None  # bar needed
    rating: float | None  # bar, of the assembly
    outcome: str
    ready_for: str
    headline: str
    note: str
    hash: str

    @property
    def filed(self) -> Filed:
        return Filed(self.number, self.revision)


@dataclass(frozen=True, slots=True)
class Stored:
    """A revision with its record."""

    found: Found
    record: Record

    @property
    def filed(self) -> Filed:
        return self.found.filed


def search_key(text: str) -> str:
    """Small letters without accents, as searched."""
    plain = unicodedata.normalize("NFKD", clean(text, 2000).casefold())
    return "".join(c for c in plain if not unicodedata.combining(c))[:200]


def _whole(record: Record, fact: str) -> str:
    line = record.facts.get(fact)
    return str(line.value) if line is not None and line.value is not None else ""


def columns(record: Record) -> dict[str, Any]:
    """The columns a record is found by."""
    need = record.need.get("pressure")
    pressure = need.value if isinstance(need, Quantity) else need.high if isinstance(need, RangeQuantity) else None
    rating = record.assembly.rating if record.assembly else None
    names = {column: clean(_whole(record, fact), 140) for column, fact in NAMES.items()}
    keys = {f"{column}_key": search_key(_whole(record, fact)) for column, fact in NAMES.items()}
    return {
        **names,
        **keys,
        "construction": record.choice.construction[:80] if record.choice else "",
        "bore": record.choice.bore if record.choice else None,
        "pressure": pressure,
        "rating": rating.value if rating else None,
        "outcome": record.outcome[:20],
        "ready_for": record.ready_for[:20],
        "headline": clean(record.headline, 400),
    }


def mapping(row: Row[Any]) -> dict[str, Any]:
    return dict(row._mapping)


def found(row: dict[str, Any]) -> Found:
    wanted = {name: row[name] for name in Found.__dataclass_fields__}
    wanted["newest"] = bool(wanted["newest"])
    return Found(**wanted)
