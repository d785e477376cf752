"""What does the shop's shelf file say? A row an item of hose; nothing is taken on a guess."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from interview.catalogue import CATALOGUE
from interview.csv_file import CsvFile, read_csv
from interview.language.model import Heard, Misread
from interview.language.read import read_knows
from interview.language.show import show_rating
from interview.reference.model import PSI, Construction, HoseSize
from interview.reference.tables import Tables, load_tables
from interview.selection.checks.history import period, years
from interview.selection.house_rules import HouseRules
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
WOULD_DO = {
    "hose": "its type or id, like 2SC or en857-2sc",
    "bore": "-8, 1/2 or DN 12",
    "left": "42 m or 140 ft",
    "rating": "400 bar or 5800 psi",
    "dated": "2026-03-01 or 03/2026",
    "made": "2026-03-01, 1Q26 or 2026",
    "non_conductive": "yes or no",
}
EXAMPLE = ",".join(COLUMNS)
OFFERED = 5
# A column that is not read, and whose name says that it holds what decides: not to be passed over.
DECIDES = re.compile(
    r"rat(?:ed|ing)|press|\bwp\b|\bbar\b|psi|made|date|manufact|built|length|left|metre|meter|\bm\b|conduct|orange"
)
NO_PAPER = re.compile(r"(?:none|no|nil|n/?a|#n/?a|tbc|tbd|yes|ok|[\W_]*|\w)", re.IGNORECASE)
PRESSURE = re.compile(r"\d\s*(?:psi|bar|mpa|#)", re.IGNORECASE)
DASH = re.compile(r"(?:-|dash|#)\s*(\d+(?:\.5)?)", re.IGNORECASE)
FRACTION = re.compile(r"(\d+)\s*/\s*(\d+)(?:\s*(?:in|inch|\"))?", re.IGNORECASE)
METRES = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:m|metres?|meters?)", re.IGNORECASE)
LONGEST = 1000.0  # m on one reel
LIKELY = (0.25, 2.0)  # of the standard's row (our own bounds): beyond them a figure is more likely misread than meant


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
    file.no_column_twice(head)
    for i, column in enumerate(head):
        if column in COLUMNS:
            continue
        meant = difflib.get_close_matches(column, COLUMNS, 1, 0.75)
        if meant or DECIDES.search(column.replace("_", " ")):
            known = meant[0] if meant else f"one of {', '.join(COLUMNS[3:])}"
            raise file.error(file.head_line, f"the column {file.head[i]} is not read; name it {known}, or take it out")
    if missing := [name for name in NEEDED if name not in head]:
        raise file.error(file.head_line, f"no column {', '.join(missing)}; the columns are {EXAMPLE}")


def _item(file: CsvFile, line: int, row: Mapping[str, str], tables: Tables, rules: HouseRules, day: date) -> Item:
    if missing := [name for name in NEEDED if name not in row]:
        raise file.error(line, f"no {' and no '.join(missing)}; every item needs {', '.join(NEEDED)}")
    if PRESSURE.search(row["hose"]):
        raise file.error(line, f"hose: {row['hose']!r}: a pressure goes into the column rating")
    read = {c: _cell(file, line, c, row[c]) for c in READ_AS if c in row and c != "bore"}
    hose = str(read["hose"].value)
    entry = tables.constructions.get(hose)
    if entry is None:
        close = difflib.get_close_matches(hose.lower(), tables.constructions, OFFERED, 0.0)
        raise file.error(line, f"hose: {row['hose']!r} is no hose of the tables; one like {', '.join(close)} would do")
    size = _size(file, line, row["bore"], entry)
    document, made = row.get("document", ""), _date(file, line, "made", read, day)
    if document and NO_PAPER.fullmatch(document):
        raise file.error(
            line, f"document: {document!r} names no document; its number or title would do, or an empty cell"
        )
    rating = _number(file, line, "rating", row, read)
    if rating is not None and not LIKELY[0] <= rating / size.wp_select <= LIKELY[1]:
        says = show_rating(size.wp_select)
        raise file.error(line, f"rating: {row['rating']!r}: the standard's row says {says}; read the document again")
    left = _number(file, line, "left", row, read)
    if left is not None and not 0 < left <= LONGEST:
        raise file.error(line, f"left: {row['left']!r}: what is left is more than nothing and at most {LONGEST:g} m")
    since = period(made)
    return Item(
        name=row["item"],
        construction=hose,
        bore=size.bore,
        left=left,
        left_said=row.get("left", ""),
        rating=rating,
        psi=rating / PSI if rating is not None and read["rating"].unit == "psi" else None,
        document=document,
        dated=_date(file, line, "dated", read, day),
        made=made,
        non_conductive="non_conductive" in read and read["non_conductive"].value is True,
        too_old=since is not None and years(since[0], day) > rules.ages.hose_at_build,
    )


def _size(file: CsvFile, line: int, cell: str, entry: Construction) -> HoseSize:
    """The size that a cell names; on hose printed with the tube it mates with, a dash is that print."""
    dash, fraction = DASH.fullmatch(cell), FRACTION.fullmatch(cell)
    tubes = any(s.marked_dash is not None and s.marked_dash != s.bore for s in entry.sizes)
    wanted: float | None
    if dash and tubes:
        wanted, found = float(dash[1]), {s.marked_dash: s for s in entry.sizes}
    else:
        found = {s.bore: s for s in entry.sizes}
        if fraction and int(fraction[2]):
            wanted = 16 * int(fraction[1]) / int(fraction[2])
        else:
            read = {"bore": _cell(file, line, "bore", cell)}
            wanted = _number(file, line, "bore", {"bore": cell}, read)
    if wanted in found:
        return found[wanted]
    made = ", ".join(f"-{s.marked_dash if tubes and s.marked_dash is not None else s.bore:g}" for s in entry.sizes)
    printed = " as printed" if tubes else ""
    raise file.error(line, f"bore: {cell!r}: the tables have {entry.type} in {made}{printed} only")


def _date(file: CsvFile, line: int, column: str, read: Mapping[str, Heard], day: date) -> str:
    if column not in read:
        return ""
    said = str(read[column].value)
    since = period(said)
    if since is not None and since[0] > day:
        raise file.error(line, f"{column}: {read[column].said!r} has not come yet; read it again")
    return said


def _cell(file: CsvFile, line: int, column: str, cell: str) -> Heard:
    if column in WITH_UNIT and cell.replace(".", "", 1).replace(",", "", 1).isdigit():
        number = cell.isdigit() and len(cell) <= 3
        would = (
            WITH_UNIT[column]
            if column != "bore" or number
            else "{0} in or {0} mm"
            if len(cell) <= 4
            else WOULD_DO["bore"]
        )
        raise file.error(line, f"{column}: {cell!r}: {cell} of what? {would.format(cell)} would do")
    try:
        heard = read_knows(READ_AS[column], cell)
    except Misread as error:
        if column == "left" and (metres := METRES.fullmatch(cell)):
            return Heard("overall_length", float(metres[1].replace(",", ".")), "m", cell)
        why = error.why.replace(CATALOGUE[READ_AS[column]].label, column)
        raise file.error(line, f"{column}: {error.read!r}: {why}; {WOULD_DO[column]} would do") from error
    if heard.hedged:
        raise file.error(line, f"{column}: {cell!r}: one figure, and surely; {WOULD_DO[column]} would do")
    return heard


def _number(file: CsvFile, line: int, column: str, row: Mapping[str, str], read: Mapping[str, Heard]) -> float | None:
    """A cell that has to be one figure; None where the row has no such cell."""
    if column not in read:
        return None
    value = read[column].value
    if not isinstance(value, float):
        raise file.error(line, f"{column}: {row[column]!r}: one figure, please; {WOULD_DO[column]} would do")
    return value
