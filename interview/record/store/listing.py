"""How does a list of records go into a spreadsheet? One row a revision, every cell safe."""

from __future__ import annotations

from collections.abc import Iterable

from interview.record.documents.csv_cells import csv_text
from interview.record.store.rows import Found

COLUMNS = (
    "number",
    "revision",
    "day",
    "customer",
    "machine",
    "tag",
    "construction",
    "bore",
    "pressure",
    "rating",
    "outcome",
    "ready_for",
    "headline",
    "note",
    "hash",
)


def listing_csv(rows: Iterable[Found]) -> str:
    """The rows as CSV; pressures in bar, bore in sixteenths of an inch."""
    return csv_text(COLUMNS, ([getattr(row, name) for name in COLUMNS] for row in rows))
