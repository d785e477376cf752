"""What stands on a page, whatever it is printed in?

A page is a list of blocks in plain text. The Markdown, HTML and PDF writers escape and set them; none adds a word.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from interview.record.figure import Figure


@dataclass(frozen=True, slots=True)
class Heading:
    text: str
    level: int = 2


@dataclass(frozen=True, slots=True)
class Banner:
    """A warning nobody should overlook, with its reasons."""

    title: str
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lead:
    """The one sentence that matters."""

    text: str


@dataclass(frozen=True, slots=True)
class Words:
    text: str


@dataclass(frozen=True, slots=True)
class Points:
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pairs:
    """Label and value, line by line."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Table:
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[int, ...] = ()  # shares of the page width
    by_hand: bool = False  # cells to be written into: rows are taller


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing: lines of text for a terminal or Markdown, a figure for paper; `says` is read out instead of it."""

    text: str
    figure: Figure
    says: str


@dataclass(frozen=True, slots=True)
class SignLines:
    """Lines to be written on by hand."""

    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PageBreak:
    pass


Printed = Heading | Banner | Lead | Words | Points | Pairs | Table | Picture | SignLines
Block = Printed | PageBreak


@dataclass(frozen=True, slots=True)
class Page:
    title: str
    blocks: tuple[Block, ...]
    foot: str = ""
    letter: bool = False  # US Letter instead of A4
    one_sheet: bool = False  # what stands before the first page break is set closer rather than run over one sheet


@dataclass(frozen=True, slots=True)
class Filed:
    """Under which number a record is kept; empty while it is in no store."""

    number: str = ""
    revision: int = 0

    def __str__(self) -> str:
        return f"{self.number}, revision {self.revision}" if self.number else "not yet filed"


NOT_FILED = Filed()


@dataclass(slots=True)
class Sheet:
    """Collects blocks; what has no content leaves no heading behind."""

    blocks: list[Block] = field(default_factory=list)

    def add(self, *blocks: Block) -> None:
        self.blocks.extend(blocks)

    def points(self, title: str, items: tuple[str, ...], before: str = "", level: int = 2) -> None:
        if items:
            self.add(Heading(title, level))
            if before:
                self.add(Words(before))
            self.add(Points(items))

    def table(
        self,
        title: str,
        head: tuple[str, ...],
        rows: Sequence[tuple[str, ...]],
        widths: tuple[int, ...] = (),
        level: int = 2,
        before: str = "",
    ) -> None:
        if rows:
            self.add(Heading(title, level))
            if before:
                self.add(Words(before))
            self.add(Table(head, tuple(rows), widths))
