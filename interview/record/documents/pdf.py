"""How is a page written as PDF?

With the fonts every reader has, so that nothing is embedded and a page takes milliseconds. They hold the western
letters only: other letters are replaced by their plain form where there is one, else by a question mark, and the foot
then says that the HTML form shows them all.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

from fpdf import FPDF
from fpdf.enums import XPos, YPos

from interview.record.documents import page as p
from interview.record.figure import Disc, Figure, Label, Stroke

SPOKEN = {
    "≥": "at least ",
    "≤": "at most ",
    "−": "-",
    "◄": "<",
    "→": "->",
    "Ω": "ohm",
    "∅": "Ø",
    "‑": "-",
    "₂": "2",
    "³": "³",
}
ENCODING = "windows-1252"
MARGIN = 14.0  # mm
SANS = "Helvetica"
SETTINGS = (
    (0.7, 2.2),
    (0.63, 1.7),
    (0.56, 1.3),
    (0.5, 1.1),
)  # picture as share of the page width, room to write in; mm
SMALLEST = 6.2  # points, of words in a picture
MM_PER_POINT = 25.4 / 72


def western(text: str) -> tuple[str, bool]:
    """The text in western letters, and whether any had to be given up."""
    out: list[str] = []
    lost = False
    for char in text:
        for piece in SPOKEN.get(char, char):
            try:
                piece.encode(ENCODING)
                out.append(piece)
                continue
            except UnicodeEncodeError:
                pass
            plain = "".join(c for c in unicodedata.normalize("NFKD", piece) if not unicodedata.combining(c))
            try:
                plain.encode(ENCODING)
                out.append(plain)
                lost = lost or not plain
            except UnicodeEncodeError:
                out.append("?")
                lost = True
    return "".join(out), lost


class _Paper(FPDF):
    """A page of ours: foot line with page number, and one way in for all words."""

    def __init__(self, page: p.Page, picture: float, by_hand: float) -> None:
        super().__init__(format="letter" if page.letter else "A4")
        self.core_fonts_encoding = ENCODING
        self.foot = page.foot
        self.picture, self.by_hand = picture, by_hand
        self.lost = False
        self.set_auto_page_break(True, 14)
        self.set_margins(MARGIN, 11)
        self.set_title(self.said(page.title))
        self.set_creator("hosewright")

    def said(self, text: str) -> str:
        plain, lost = western(text)
        self.lost = self.lost or lost
        return plain

    def footer(self) -> None:
        self.set_y(-11)
        self.set_font(SANS, "", 7)
        self.set_text_color("#56606b")
        note = " · not all letters can be shown here; the HTML form shows them" if self.lost else ""
        self.cell(self.epw - 20, 4, self.said(f"{self.foot}{note}"))
        self.cell(20, 4, f"page {self.page_no()} of {{nb}}", align="R")
        self.set_text_color("#1d2733")


def render(page: p.Page) -> bytes:
    """The page as PDF."""
    return bytes(_set(page, *_setting(page)).output())


def _setting(page: p.Page) -> tuple[float, float]:
    """The widest setting in which the front keeps to one sheet; the widest of all where none does."""
    if page.one_sheet:
        breaks = [place for place, block in enumerate(page.blocks) if isinstance(block, p.PageBreak)]
        front = replace(page, blocks=page.blocks[: breaks[0]] if breaks else page.blocks)
        return next((setting for setting in SETTINGS if _set(front, *setting).page_no() == 1), SETTINGS[0])
    return SETTINGS[0]


def _set(page: p.Page, picture: float, by_hand: float) -> _Paper:
    paper = _Paper(page, picture, by_hand)
    paper.set_creation_date(datetime(2000, 1, 1, tzinfo=UTC))  # the same record gives the same bytes
    paper.add_page()
    paper.set_text_color("#1d2733")
    for place, block in enumerate(page.blocks):
        following = page.blocks[place + 1] if place + 1 < len(page.blocks) else None
        _block(paper, block, following)
    return paper


def _block(paper: _Paper, block: p.Block, following: p.Block | None) -> None:
    match block:
        case p.Heading():
            _heading(paper, block, following)
        case p.Banner():
            _banner(paper, block)
        case p.Lead():
            _words(paper, block.text, "B", 11.5)
        case p.Words():
            _words(paper, block.text)
        case p.Points():
            for text in block.items:
                _point(paper, text)
        case p.Pairs():
            _grid(paper, [], block.rows, (26, 74), bold_first=True)
        case p.Table():
            widths = block.widths or tuple(1 for _ in block.head)
            _grid(paper, block.head, block.rows, widths, by_hand=block.by_hand)
        case p.Picture():
            _figure(paper, block.figure)
        case p.SignLines():
            _sign(paper, block)
        case p.PageBreak():
            paper.add_page()


def _heading(paper: _Paper, block: p.Heading, following: p.Block | None) -> None:
    size = {1: 16.0, 2: 11.0}.get(block.level, 9.5)
    room = 30.0  # a heading never stands alone at the foot of a page
    if isinstance(following, p.Picture):
        room = 12 + following.figure.height * paper.picture * paper.epw / following.figure.width
    if paper.will_page_break(room):
        paper.add_page()
    paper.ln(1.0 if block.level == 1 else 1.8)
    paper.set_font(SANS, "B", size)
    paper.multi_cell(0, size * 0.45, paper.said(block.text), new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")
    if block.level == 2:
        paper.set_draw_color("#8a94a0")
        paper.set_line_width(0.15)
        paper.line(paper.l_margin, paper.get_y() + 0.4, paper.w - paper.r_margin, paper.get_y() + 0.4)
    paper.ln(0.8)


def _banner(paper: _Paper, block: p.Banner) -> None:
    top, page = paper.get_y(), paper.page_no()
    paper.ln(2)
    paper.set_text_color("#a3341c")
    paper.set_font(SANS, "B", 15)
    paper.set_x(paper.l_margin + 3)
    paper.cell(0, 7, paper.said(block.title), new_x=XPos.LMARGIN, new_y=YPos.NEXT)
    paper.set_text_color("#1d2733")
    columns = 2 if len(block.lines) > 3 else 1
    for row in range(0, len(block.lines), columns):
        y = bottom = paper.get_y()
        for column, text in enumerate(block.lines[row : row + columns]):
            paper.set_y(y)
            _point(paper, text, 3 + column * paper.epw / 2, (paper.epw - 6) / columns)
            bottom = max(bottom, paper.get_y())
        paper.set_y(bottom)
    paper.ln(1.5)
    if paper.page_no() == page:
        paper.set_draw_color("#a3341c")
        paper.set_line_width(0.7)
        paper.rect(paper.l_margin, top, paper.epw, paper.get_y() - top)
    paper.ln(1.5)


def _words(paper: _Paper, text: str, style: str = "", size: float = 9.0) -> None:
    paper.set_font(SANS, style, size)
    paper.multi_cell(0, size * 0.46, paper.said(text), new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")
    paper.ln(0.8)


def _point(paper: _Paper, text: str, inset: float = 0, wide: float = 0) -> None:
    paper.set_font(SANS, "", 9)
    paper.set_x(paper.l_margin + inset)
    paper.cell(3.5, 3.9, "•")
    width = (wide or paper.epw - inset) - 3.5
    paper.multi_cell(width, 3.9, paper.said(text), new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")


def _grid(
    paper: _Paper,
    head: Sequence[str],
    rows: Sequence[tuple[str, ...]],
    widths: tuple[int, ...],
    *,
    bold_first: bool = False,
    by_hand: bool = False,
) -> None:
    """Rows of cells that break between rows; the head is repeated on every page."""
    total = sum(widths)
    spans = [paper.epw * share / total for share in widths]
    size, line = (8.8, 3.8) if bold_first else (8.0, 3.5)

    def print_row(cells: tuple[str, ...], bold: bool) -> None:
        texts = [paper.said(text) for text in cells]
        tall = 1
        for place, (text, span) in enumerate(zip(texts, spans, strict=True)):
            paper.set_font(SANS, "B" if bold or (bold_first and place == 0) else "", size)
            lines = paper.multi_cell(span - 1.5, line, text, dry_run=True, output="LINES", align="L")
            assert isinstance(lines, list)
            tall = max(tall, len(lines))
        height = tall * line + (paper.by_hand if by_hand and not bold else 0.8)
        if paper.will_page_break(height):
            paper.add_page()
            if head and not bold:
                print_row(tuple(head), True)
        left, top = paper.l_margin, paper.get_y()
        for place, (text, span) in enumerate(zip(texts, spans, strict=True)):
            paper.set_font(SANS, "B" if bold or (bold_first and place == 0) else "", size)
            paper.set_xy(left, top + 0.4)
            paper.multi_cell(span - 1.5, line, text, align="L")
            left += span
        paper.set_draw_color("#c8ced5")
        paper.set_line_width(0.1)
        paper.line(paper.l_margin, top + height, paper.w - paper.r_margin, top + height)
        paper.set_xy(paper.l_margin, top + height)

    if head:
        print_row(tuple(head), True)
    for row in rows:
        print_row(row, False)
    paper.ln(0.8)


def _figure(paper: _Paper, figure: Figure) -> None:
    """The figure in the middle of the page, its words being real text."""
    scale = paper.picture * paper.epw / figure.width  # mm per point of the figure
    height = figure.height * scale
    if paper.will_page_break(height + 2):
        paper.add_page()
    left, top = paper.l_margin + (1 - paper.picture) / 2 * paper.epw, paper.get_y() + 1
    points = scale / MM_PER_POINT
    for item in figure.items:
        if isinstance(item, Stroke):
            paper.set_draw_color(item.ink)
            paper.set_line_width(item.width * scale)
            paper.set_dash_pattern(*(d * scale for d in item.dash[:2])) if item.dash else paper.set_dash_pattern()
            if item.fill:
                paper.set_fill_color(item.fill)
            path = [(left + x * scale, top + y * scale) for x, y in item.points]
            if item.closed:
                paper.polygon(path, style="DF" if item.fill else "D")
            else:
                paper.polyline(path)
        elif isinstance(item, Disc):
            paper.set_draw_color(item.ink)
            paper.set_line_width(item.width * scale)
            paper.set_dash_pattern()
            if item.fill:
                paper.set_fill_color(item.fill)
            paper.circle(
                left + item.x * scale, top + item.y * scale, item.radius * scale, style="DF" if item.fill else "D"
            )
        elif isinstance(item, Label):
            paper.set_font(SANS, "B" if item.bold else "", max(SMALLEST, item.size * points))
            paper.set_text_color(item.ink)
            text = paper.said(item.text)
            wide = paper.get_string_width(text)
            shift = {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
            paper.text(left + item.x * scale - shift, top + item.y * scale, text)
    paper.set_dash_pattern()
    paper.set_text_color("#1d2733")
    paper.set_xy(paper.l_margin, top + height + 1)


def _sign(paper: _Paper, block: p.SignLines) -> None:
    if paper.will_page_break(18):
        paper.add_page()
    paper.ln(8)
    gap = 8.0
    wide = (paper.epw - gap * (len(block.labels) - 1)) / len(block.labels)
    y = paper.get_y()
    paper.set_draw_color("#1d2733")
    paper.set_line_width(0.25)
    paper.set_font(SANS, "", 8)
    for place, label in enumerate(block.labels):
        x = paper.l_margin + place * (wide + gap)
        paper.line(x, y, x + wide, y)
        paper.set_xy(x, y + 0.6)
        paper.cell(wide, 4, paper.said(label))
    paper.set_xy(paper.l_margin, y + 6)
