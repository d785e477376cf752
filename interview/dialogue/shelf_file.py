"""What does the shop's shelf file say? A row an item of hose; nothing is taken on a guess."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from interview.catalogue import CATALOGUE
from interview.csv_file import CsvFile, read_csv
from interview.language.model import Heard, Misread
from interview.language.read import read_knows
from interview.reference.tables import Tables, load_tables
from interview.selection.checks.history import period, years
from interview.selection.house_rules import HouseRules
from interview.selection.needs import PSI
from interview.selection.shelf import Item

NEEDED = ("item", "hose", "bore")
READ_AS = {  # which fact a column is read like
    "hose": "old_construction",
    "bore": "bore",
    "left": "overall_length",
    "rating": "working_pressure",
    "dated": "assembly_date",
    "made": "hose_date",
    "non_conductive": "non_conductive",
}
COLUMNS = (*NEEDED, "left", "rating", "document", "dated", "made", "non_conductive")
WITH_UNIT = {"bore": "-{0}, DN {0} or the size in inches", "left": "{0} m or {0} ft", "rating": "{0} bar or {0} psi"}
EXAMPLE = ",".join(COLUMNS)
OFFERED = 5


def load_shelf(path: Path, rules: HouseRules, day: date) -> tuple[Item, ...]:
    """The items of a shelf file, as old as they are on `day`.

    Raises FileError: file, line, what is wrong, what would do.
    """
    file = read_csv(path, EXAMPLE)
    head = tuple(name.lower().replace(" ", "_") for name in file.head)
    _check_head(file, head)
    tables = load_tables()
    items: list[Item] = []
    for line, cells in file.rows:
        row = {name: cell for name, cell in zip(head, cells, strict=False) if cell}
        item = _item(file, line, row, tables, rules, day)
        if any(other.name == item.name for other in items):
            raise file.error(line, f"the item {item.name} stands twice; one row an item")
        items.append(item)
    return tuple(items)


def _check_head(file: CsvFile, head: tuple[str, ...]) -> None:
    for i, column in enumerate(head):
        if column and column in head[:i]:
            raise file.error(file.head_line, f"the column {column} stands twice; keep one")
        if column not in COLUMNS and (meant := difflib.get_close_matches(column, COLUMNS, 1, 0.75)):
            raise file.error(file.head_line, f"the column {column} is none; write {meant[0]}, or a name less like it")
    if missing := [name for name in NEEDED if name not in head]:
        raise file.error(file.head_line, f"no column {', '.join(missing)}; the columns are {EXAMPLE}")


def _item(file: CsvFile, line: int, row: Mapping[str, str], tables: Tables, rules: HouseRules, day: date) -> Item:
    if missing := [name for name in NEEDED if name not in row]:
        raise file.error(line, f"no {' and no '.join(missing)}; every item needs {', '.join(NEEDED)}")
    read = {column: _cell(file, line, column, row[column]) for column in READ_AS if column in row}
    hose, bore = str(read["hose"].value), _number(file, line, "bore", row, read)
    entry = tables.constructions.get(hose)
    if entry is None:
        close = difflib.get_close_matches(hose.lower(), tables.constructions, OFFERED, 0.0)
        raise file.error(line, f"hose: {row['hose']!r} is no hose of the tables; one like {', '.join(close)} would do")
    if bore not in [size.bore for size in entry.sizes]:
        made = ", ".join(f"-{size.bore:g}" for size in entry.sizes)
        raise file.error(line, f"bore: {row['bore']!r}: the tables have {entry.type} in {made} only")
    rating = _number(file, line, "rating", row, read)
    made_on = str(read["made"].value) if "made" in read else ""
    since = period(made_on)
    return Item(
        name=row["item"],
        construction=hose,
        bore=bore,
        left=_number(file, line, "left", row, read),
        left_said=row.get("left", ""),
        rating=rating,
        psi=rating / PSI if rating is not None and read["rating"].unit == "psi" else None,
        document=row.get("document", ""),
        dated=str(read["dated"].value) if "dated" in read else "",
        made=made_on,
        non_conductive="non_conductive" in read and read["non_conductive"].value is True,
        too_old=since is not None and years(since[0], day) > rules.ages.hose_at_build,
    )


def _cell(file: CsvFile, line: int, column: str, cell: str) -> Heard:
    fact = READ_AS[column]
    if column in WITH_UNIT and cell.replace(".", "", 1).replace(",", "", 1).isdigit():
        would = WITH_UNIT[column] if column != "bore" or cell.isdigit() else "{0} in or {0} mm"
        raise file.error(line, f"{column}: {cell!r}: {cell} of what? {would.format(cell)} would do")
    try:
        return read_knows(fact, cell)
    except Misread as error:
        raise file.error(line, f"{column}: {error.read!r}: {error.why}; {error.would_do}") from error


def _number(file: CsvFile, line: int, column: str, row: Mapping[str, str], read: Mapping[str, Heard]) -> float | None:
    """A cell that has to be one figure; None where the row has no such cell."""
    if column not in read:
        return None
    value = read[column].value
    if not isinstance(value, float):
        raise file.error(line, f"{column}: {row[column]!r}: {CATALOGUE[READ_AS[column]].label} takes one figure here")
    return value
