"""How is a page written as Markdown?

Readable as plain text and when set. Everything is data: a name with bars, hashes or angle brackets shows as itself and
breaks no table.
"""

from __future__ import annotations

import re

from interview.record.documents import page as p

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


def render(page: p.Page) -> str:
    """The page as Markdown."""
    out: list[str] = []
    for block in page.blocks:
        out += [*_lines(block), ""]
    if page.foot:
        out += ["---", "", escaped(page.foot)]
    return "\n".join(out).rstrip("\n") + "\n"


def _lines(block: p.Block) -> list[str]:
    match block:
        case p.Heading():
            return [f"{'#' * block.level} {escaped(block.text)}"]
        case p.Banner():
            return [f"> **{escaped(block.title)}**", ">", *(f"> - {escaped(text)}" for text in block.lines)]
        case p.Lead():
            return [f"**{escaped(block.text)}**"]
        case p.Words():
            return [escaped(block.text)]
        case p.Points():
            return [f"- {escaped(text)}" for text in block.items]
        case p.Pairs():
            return ["| | |", "|---|---|", *(_row((f"**{cell(a)}**", cell(b))) for a, b in block.rows)]
        case p.Table():
            head = _row(tuple(cell(h) for h in block.head))
            return [head, "|" + "---|" * len(block.head), *(_row(tuple(cell(c) for c in row)) for row in block.rows)]
        case p.Picture():
            return ["```text", *block.text.rstrip("\n").replace("```", "'''").split("\n"), "```"]
        case p.SignLines():
            return [line for label in block.labels for line in (f"{escaped(label)}: {'.' * 40}", "")][:-1]
        case p.PageBreak():
            return ["---"]


def _row(cells: tuple[str, ...]) -> str:
    return f"| {' | '.join(cells)} |"
