"""What is known? The facts by topic, with their origin in a word, as text for the side column and the full view."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from interview.terminal.rows import clean

if TYPE_CHECKING:
    from interview.dialogue.views import KnownLine

ORIGINS: Mapping[str, str] = {
    "stated": "said",
    "read": "read off",
    "measured": "measured",
    "copied": "old hose",
    "computed": "worked out",
    "assumed": "assumed",
    "unknown": "not known",
}


def origin_word(line: KnownLine) -> str:
    """The origin in a word; a doubtful one says so."""
    word = ORIGINS.get(line.origin, line.origin)
    return f"{word}, in doubt" if line.doubtful else word


def known_content(lines: Iterable[KnownLine], width: int, titles: Mapping[str, str]) -> Content:
    """The side column: a heading a topic, a line or two a fact; what is not marked was said."""
    parts: list[Content] = []
    for topic, group in groupby(lines, key=lambda line: line.topic):
        parts.append(heading(titles.get(topic, topic), width))
        parts.extend(known_line(line, width, quiet=True) for line in group)
    if not parts:
        return Content.styled("Nothing yet. Say what you have; order does not matter.", "$faint")
    parts.append(Content.styled("\nUnmarked: as said.", "$faint"))
    return Content("\n").join(parts)


def heading(title: str, width: int) -> Content:
    """A topic's name and a thin rule to the edge."""
    name = clean(title)
    return Content.assemble((name, "bold"), " ", ("─" * max(0, width - cell_len(name) - 1), "$rule"))


def known_line(line: KnownLine, width: int, *, quiet: bool) -> Content:
    """Label, value, origin. `quiet` leaves out the word of what was simply said."""
    label, shown, word = clean(line.label), clean(line.shown), origin_word(line)
    mark = "" if quiet and word == "said" else word
    tail = f"  {mark}" if mark else ""
    room = width - cell_len(label) - cell_len(shown) - cell_len(tail)
    if room >= 2:
        return Content.assemble((label, "$faint"), " " * room, shown, (tail, "italic $faint"))
    second = max(1, width - cell_len(shown) - cell_len(tail))
    return Content.assemble((label, "$faint"), "\n", " " * second, shown, (tail, "italic $faint"))
