"""How is one of a shop's CSV files read? As a spreadsheet writes it, with the line every row begins on."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from interview.yaml_file import FileError

LARGEST = 50_000_000  # bytes


def _plain(cell: str) -> str:
    """A cell on one line and without control characters, which a terminal would obey."""
    return " ".join("".join(" " if unicodedata.category(c) == "Cc" else c for c in cell).split())


@dataclass(frozen=True, slots=True)
class CsvFile:
    """The first row that holds anything, and those below it; each with the line it begins on."""

    name: str
    head_line: int
    head: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]

    def no_column_twice(self, head: Sequence[str]) -> None:
        """Raises FileError for a name that stands twice in the head as it is read."""
        for i, column in enumerate(head):
            if column and column in head[:i]:
                raise self.error(self.head_line, f"the column {column} stands twice; keep one")

    def error(self, line: int, text: str) -> FileError:
        return FileError(f"{self.name}: line {line}: {text}")


def read_csv(path: Path, example: str) -> CsvFile:
    """A file in UTF-8, separated by comma, semicolon or tab.

    Raises FileError: file, line, what is wrong, what would do. `example` is a first line for whoever has an empty one.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise FileError(f"{path.name}: larger than {LARGEST // 1_000_000} MB; split it")
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise FileError(f"{path}: cannot be read ({error.strerror or error})") from error
    except UnicodeDecodeError as error:
        raise FileError(f"{path.name}: not UTF-8 text; save it as CSV UTF-8") from error
    if "\0" in text:
        raise FileError(f"{path.name}: not a CSV file: it holds bytes that are no text; save it as CSV UTF-8")
    first = next((line for line in text.splitlines() if line.strip()), "")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=max(",;\t", key=first.count), strict=True)
    rows: list[tuple[int, tuple[str, ...]]] = []
    begins = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((begins, tuple(map(_plain, cells))))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise FileError(f"{path.name}: line {begins}: not CSV ({error}); a quote opened has to be closed") from error
    if not rows:
        raise FileError(f"{path.name}: empty; the first line names the columns, for example {example}")
    file = CsvFile(path.name, *rows[0], tuple(rows[1:]))
    for line, row in file.rows:
        if len(row) > len(file.head):
            raise file.error(
                line,
                f"{len(row)} cells under {len(file.head)} columns; a cell that holds the separator has to stand in "
                "quotes",
            )
    return file
