"""How is a page written as Markdown?

Readable as plain text and when set. Everything is data: a name with bars, hashes or angle brackets shows as itself and
breaks no table.
"""

from __future__ import annotations

import re

from interview.record.documents.page import (
    NOT_FILED,
    Banner,
    Block,
    Filed,
    Heading,
    Lead,
    Page,
    PageBreak,
    Pairs,
    Picture,
    Points,
    SignLines,
    Table,
    Words,
)
from interview.record.documents.specification import specification
from interview.record.model import Record

ALWAYS = re.compile(r"([\\`*<\[\]|~])")
INNER_UNDERSCORE = re.compile(r"(?<![0-9A-Za-z])_|_(?![0-9A-Za-z])")
AT_START = re.compile(r"^([#>+=-])")
NUMBERED = re.compile(r"^(\d+)([.)])(?=\s|$)")
ENTITY = re.compile(r"&(?=#?\w+;)")
LINK = re.compile(r"\b(https?|ftp|mailto|www)([:.])", re.IGNORECASE)


def cell(text: str) -> str:
    """Data inside a line, so that no Markdown reader takes any of it for markup."""
    text = ALWAYS.sub(r"\\\1", text)
    text = INNER_UNDERSCORE.sub(r"\\_", text)
    text = ENTITY.sub(r"\\&", text)
    return LINK.sub(r"\1\\\2", text)  # no bare address becomes a link


def escaped(text: str) -> str:
    """Data that begins a line: no heading, list or quotation either."""
    text = AT_START.sub(r"\\\1", cell(text))
    return NUMBERED.sub(r"\1\\\2", text)


def render(page: Page) -> str:
    out: list[str] = []
    for block in page.blocks:
        out += [*_lines(block), ""]
    if page.foot:
        out += ["---", "", escaped(page.foot)]
    return "\n".join(out).rstrip("\n") + "\n"


def _lines(block: Block) -> list[str]:
    if isinstance(block, Heading):
        return [f"{'#' * block.level} {escaped(block.text)}"]
    if isinstance(block, Banner):
        return [f"> **{escaped(block.title)}**", ">", *(f"> - {escaped(text)}" for text in block.lines)]
    if isinstance(block, Lead):
        return [f"**{escaped(block.text)}**"]
    if isinstance(block, Words):
        return [escaped(block.text)]
    if isinstance(block, Points):
        return [f"- {escaped(text)}" for text in block.items]
    if isinstance(block, Pairs):
        return ["| | |", "|---|---|", *(_row((f"**{cell(a)}**", cell(b))) for a, b in block.rows)]
    if isinstance(block, Table):
        head = _row(tuple(cell(h) for h in block.head))
        return [head, "|" + "---|" * len(block.head), *(_row(tuple(cell(c) for c in row)) for row in block.rows)]
    if isinstance(block, Picture):
        return ["```text", *block.text.rstrip("\n").replace("```", "'''").split("\n"), "```"]
    if isinstance(block, SignLines):
        return [line for label in block.labels for line in (f"{escaped(label)}: {'.' * 40}", "")][:-1]
    assert isinstance(block, PageBreak)
    return ["---"]


def _row(cells: tuple[str, ...]) -> str:
    return f"| {' | '.join(cells)} |"


def markdown(record: Record, filed: Filed = NOT_FILED) -> str:
    """The specification record as Markdown."""
    return render(specification(record, filed))
