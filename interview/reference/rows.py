"""How is a table of ours read? CSV rows with their place, and cells as numbers; a fault names file and line."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator
from pathlib import Path

from interview.reference.model import Evidence, Tag

DATA = Path(__file__).resolve().parent / "data"
MM, MPA, KPA, GPA, PER_MM2 = 1e-3, 1e6, 1e3, 1e9, 1e-6


class TableError(ValueError):
    """A table that will not do: file and line, what is wrong, what would be right."""


class Row:
    """One row by column name. An empty cell is None: not known, never zero."""

    __slots__ = ("cells", "line", "name")

    def __init__(self, name: str, line: int, cells: dict[str, str]) -> None:
        self.name, self.line, self.cells = name, line, cells

    def fault(self, text: str) -> TableError:
        return TableError(f"{self.name}: line {self.line}: {text}")

    def text(self, column: str) -> str:
        return self.cells[column]

    def need(self, column: str) -> str:
        if not self.cells[column]:
            raise self.fault(f"{column} is empty; it must be given")
        return self.cells[column]

    def words(self, column: str) -> tuple[str, ...]:
        return tuple(self.cells[column].split())

    def parts(self, column: str) -> tuple[str, ...]:
        return tuple(p.strip() for p in self.cells[column].split("; ") if p.strip())

    def number(self, column: str, factor: float = 1.0) -> float | None:
        text = self.cells[column]
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            raise self.fault(f"{column} is {text!r}; a number would be right") from None
        if not math.isfinite(value):
            raise self.fault(f"{column} is {text!r}; a finite number would be right")
        return value * factor

    def positive(self, column: str, factor: float = 1.0) -> float | None:
        value = self.number(column, factor)
        if value is not None and value <= 0:
            raise self.fault(f"{column} is {self.cells[column]}; it must be above zero")
        return value

    def sure(self, column: str, factor: float = 1.0) -> float:
        value = self.positive(column, factor)
        if value is None:
            raise self.fault(f"{column} is empty; a number must be given")
        return value

    def flag(self, column: str) -> bool | None:
        text = self.cells[column]
        if text in ("", "yes", "no"):
            return None if not text else text == "yes"
        raise self.fault(f"{column} is {text!r}; yes, no or nothing would be right")

    def tag(self, column: str) -> Tag:
        try:
            return Tag(self.cells[column])
        except ValueError:
            raise self.fault(f"{column} is {self.cells[column]!r}; it must be one of {', '.join(Tag)}") from None


def rows(name: str, folder: Path | None = None) -> Iterator[Row]:
    """The rows of `data/<name>.csv`."""
    path = (folder or DATA) / f"{name}.csv"
    try:
        with path.open(encoding="utf-8", newline="") as handle:
            reader = csv.reader(handle)
            head = next(reader)
            for cells in reader:
                if len(cells) != len(head):
                    raise TableError(f"{path.name}: line {reader.line_num}: {len(cells)} cells where the heading has {len(head)}")
                yield Row(path.name, reader.line_num, dict(zip(head, cells, strict=True)))
    except OSError as error:
        raise TableError(f"{path.name}: cannot be read ({error.strerror})") from error
    except (StopIteration, UnicodeDecodeError, csv.Error) as error:
        raise TableError(f"{path.name}: not a table in UTF-8 with a heading") from error


def evidence_rows(name: str, folder: Path | None = None) -> dict[str, Evidence]:
    """A table of evidence by key."""
    made: dict[str, Evidence] = {}
    for row in rows(name, folder):
        key = row.need("key")
        if key in made:
            raise row.fault(f"the key {key} stands twice")
        restated = row.number("restatements")
        made[key] = Evidence(row.tag("tag"), row.text("source"), None if restated is None else int(restated),
                             row.text("confidence") or None, row.text("note"))
    return made
