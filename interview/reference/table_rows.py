"""How is one of our CSV tables read? Rows with their place, cells with a type; a fault names file, line and cure."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NoReturn

from interview.reference.model import Tag, Window

DATA = Path(__file__).resolve().parent / "data"
Steps = tuple[tuple[float | None, float], ...]  # up to which bore (None: every bore), and the value
TAGS = {tag.value: tag for tag in Tag}


class TableError(ValueError):
    """A reference table is damaged: which file and line, what is wrong, what would be right."""

    def __init__(self, file: str, line: int, wrong: str, right: str) -> None:
        self.file, self.line, self.wrong, self.right = file, line, wrong, right
        super().__init__(f"{file}, line {line}: {wrong}; {right}")


class Row:
    """One line of a table. An empty cell is None: not known."""

    __slots__ = ("_at", "_cells", "file", "line")

    def __init__(self, file: str, line: int, at: dict[str, int], cells: list[str]) -> None:
        self.file, self.line, self._at, self._cells = file, line, at, cells

    def fault(self, wrong: str, right: str) -> NoReturn:
        raise TableError(self.file, self.line, wrong, right)

    def text(self, column: str) -> str:
        return self._cells[self._at[column]]

    def needed(self, column: str) -> str:
        text = self._cells[self._at[column]]
        return text or self.fault(f"{column} is empty", "every row needs it")

    def number(self, column: str, factor: float = 1.0, *, signed: bool = False) -> float | None:
        text = self._cells[self._at[column]]
        return self.figure(column, text, signed=signed) * factor if text else None

    def figure(self, column: str, text: str, *, signed: bool = False) -> float:
        """The number a piece of a cell holds."""
        try:
            value = float(text)
        except ValueError:
            self.fault(f"{column} is {text!r}", "a number with a decimal point, or nothing where it is not known")
        if not -1e9 < value < 1e9 or (value < 0 and not signed):
            self.fault(f"{column} is {text}", "a finite number is wanted" if signed else "a positive number is wanted")
        return value

    def some(self, column: str, factor: float = 1.0, *, signed: bool = False) -> float:
        """A number that may not be missing."""
        value = self.number(column, factor, signed=signed)
        return value if value is not None else self.fault(f"{column} is empty", "a number is wanted in every row")

    def flag(self, column: str) -> bool | None:
        text = self._cells[self._at[column]]
        if text in ("yes", "no", ""):
            return None if not text else text == "yes"
        self.fault(f"{column} is {text!r}", "yes, no, or nothing where it is not known")

    def choice(self, column: str, choices: tuple[str, ...]) -> str:
        text = self._cells[self._at[column]]
        return text if text in choices else self.fault(f"{column} is {text!r}", f"one of: {', '.join(choices)}")

    def words(self, column: str) -> tuple[str, ...]:
        """Symbols apart by blanks."""
        return tuple(self._cells[self._at[column]].split())

    def items(self, column: str) -> tuple[str, ...]:
        """Phrases apart by a bar."""
        text = self._cells[self._at[column]]
        return tuple(text.split(" | ")) if text else ()

    def span(self, column: str) -> tuple[float, float] | None:
        """`-40..100`."""
        text = self._cells[self._at[column]]
        if not text:
            return None
        low, dots, high = text.partition("..")
        if not dots:
            self.fault(f"{column} is {text!r}", "two numbers with two dots between are wanted, as -40..100")
        pair = self.figure(column, low, signed=True), self.figure(column, high, signed=True)
        return pair if pair[0] <= pair[1] else self.fault(f"{column} is {text!r}", "the lower number comes first")

    def window(self, column: str) -> Window | None:
        pair = self.span(column)
        return Window(*pair) if pair else None

    def steps(self, column: str) -> Steps:
        """`16:125 32:100` is 125 up to bore 16 and 100 up to bore 32; `*:133` holds for every bore."""
        found: list[tuple[float | None, float]] = []
        for part in self.words(column):
            upto, colon, value = part.partition(":")
            if not colon:
                self.fault(f"{column} has {part!r}", "steps are written bore:value, as 16:125 32:100, or *:133")
            bound = None if upto == "*" else self.figure(column, upto)
            if bound is not None and found and found[-1][0] is not None and bound <= found[-1][0]:
                self.fault(f"{column} has {part!r} after a larger bore", "steps run from the smallest bore upward")
            found.append((bound, self.figure(column, value)))
        return tuple(found)

    def tag(self, column: str = "tag") -> Tag:
        text = self._cells[self._at[column]]
        return TAGS[text] if text in TAGS else self.fault(f"{column} is {text!r}", f"one of: {', '.join(TAGS)}")


def stepped(steps: Steps, bores: list[float], factor: float = 1.0) -> dict[float, float]:
    """Spreads steps over bores; a bore beyond the last step is left out.

    >>> stepped(((16.0, 125.0), (32.0, 100.0)), [8.0, 20.0, 40.0])
    {8.0: 125.0, 20.0: 100.0}
    """
    spread: dict[float, float] = {}
    for bore in bores:
        for upto, value in steps:
            if upto is None or bore <= upto:
                spread[bore] = value * factor
                break
    return spread


def read_rows(folder: Path, name: str, columns: str) -> Iterator[Row]:
    """The rows of one table, whose heading must be these columns (apart by blanks) in this order."""
    path = folder / name
    try:
        handle = path.open(encoding="utf-8", newline="")
    except OSError:
        raise TableError(name, 0, "the file is missing or cannot be read", "reinstall, or put it back") from None
    wanted = columns.split()
    with handle:
        reader = csv.reader(handle, strict=True)
        try:
            head = next(reader, [])
            if head != wanted:
                raise TableError(name, 1, f"the heading is {','.join(head)}", f"it should be {','.join(wanted)}")
            at = {column: i for i, column in enumerate(head)}
            for cells in reader:
                if len(cells) != len(head):
                    raise TableError(name, reader.line_num, f"{len(cells)} cells", f"the heading has {len(head)}")
                yield Row(name, reader.line_num, at, cells)
        except (csv.Error, UnicodeDecodeError) as fault:
            raise TableError(name, reader.line_num, f"not CSV in UTF-8 ({fault})", "check the quotes") from None


def unique(row: Row, seen: Mapping[str, object], key: str) -> str:
    """The key, or a fault where an earlier row has it."""
    return key if key not in seen else row.fault(f"{key} is there twice", "every id stands once")
