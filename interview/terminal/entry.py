"""One entry of the counter book: a margin word, a ruled line, the text.

The margin is painted into the left padding, so that one widget makes one entry and a selection copies the text alone.
"""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.content import Content
from textual.css.styles import RulesMap
from textual.geometry import Region
from textual.message import Message
from textual.selection import Selection
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual
from textual.widget import Widget

from interview.dialogue.events import Option
from interview.terminal.hanging import hanging
from interview.terminal.rows import Row, clean

MARGIN = 12  # cells left of the rule; the padding of .entry in the stylesheet is MARGIN + 2

RUN_IN = 12  # more answers than this, too long for columns, are set as a paragraph


class RowText(Visual):
    """A Row as text for the width it is shown at: options stand in columns where they are many and short."""

    def __init__(self, row: Row) -> None:
        self.row = row
        self._laid: tuple[int, Content] = (0, Content(""))

    def at(self, width: int) -> Content:
        """The text at this width, in cells; the last one is kept."""
        if self._laid[0] != width:
            self._laid = (width, self._lay_out(width))
        return self._laid[1]

    def _lay_out(self, width: int) -> Content:
        row = self.row
        text = Content.styled(row.text, "bold") if row.options or row.foot else Content(row.text)
        parts = [hanging(text, width) if "\n  " in row.text else text]
        if row.options:
            parts.append(options_content(row.options, width))
        if row.foot:
            parts.append(Content.styled(row.foot, "$faint"))
        return Content("\n").join(parts)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        return self.at(container_width).get_optimal_width(rules, container_width)

    def get_height(self, rules: RulesMap, width: int) -> int:
        return self.at(width).get_height(rules, width)

    def render_strips(self, width: int, height: int | None, style: Style, options: RenderOptions) -> list[Strip]:
        return self.at(width).render_strips(width, height, style, options)


class Entry(Widget):
    """Shows one Row, its word in the margin."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"entry--label", "entry--rule"}

    class Chosen(Message):
        """A numbered answer of this entry was clicked."""

        def __init__(self, row: Row, number: int) -> None:
            super().__init__()
            self.row = row
            self.number = number

    def __init__(self, row: Row) -> None:
        super().__init__(classes=f"entry -{row.kind}", markup=False)
        self.row = row
        self._text = RowText(row)

    def render(self) -> RowText:
        return self._text

    def action_choose(self, number: int) -> None:
        self.post_message(self.Chosen(self.row, number))

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        return selection.extract(self._text.at(self.content_size.width).plain), "\n"

    def render_lines(self, crop: Region) -> list[Strip]:
        strips = super().render_lines(crop)
        if crop.x > 0:
            return strips
        label_style = self.get_component_rich_style("entry--label")
        rule_style = self.get_component_rich_style("entry--rule")
        filters, paper = self.get_line_filters(), self.background_colors[1]
        lines = []
        for i, strip in enumerate(strips):
            margin = self._margin(crop.y + i, label_style, rule_style)
            for line_filter in filters:  # the text has been through them already (NO_COLOR, terminal colours)
                margin = margin.apply_filter(line_filter, paper)
            lines.append(Strip.join([margin, strip.crop(MARGIN + 1)]))
        return lines

    def _margin(self, line: int, label_style: RichStyle, rule_style: RichStyle) -> Strip:
        first = self.styles.padding.top
        label = self.row.label if line == first else ""
        before = " " * (MARGIN - 1 - len(label))
        return Strip([Segment(before, rule_style), Segment(label, label_style), Segment(" │", rule_style)], MARGIN + 1)


def options_content(options: tuple[Option, ...], width: int) -> Content:
    """The numbered answers; a click on one answers with its number."""
    cells = [_option(number, option) for number, option in enumerate(options, 1)]
    for count in (3, 2) if len(cells) > 6 else ():
        rows = -(-len(cells) // count)
        columns = [cells[i : i + rows] for i in range(0, len(cells), rows)]
        widths = [max(cell.cell_length for cell in column) + 2 for column in columns]
        if sum(widths) - 2 <= width:
            lines = []
            for r in range(rows):
                row = [
                    column[r].pad_right(w - column[r].cell_length)
                    for column, w in zip(columns, widths, strict=True)
                    if r < len(column)
                ]
                lines.append(Content("").join(row))
            return Content("\n").join(lines)
    return Content("\n").join(cells) if len(cells) <= RUN_IN else _run_in(options, width)


def _run_in(options: tuple[Option, ...], width: int) -> Content:
    """Many long answers as a paragraph, so that the question stays on a small screen; no answer is broken."""
    lines, line = [], Content("")
    for number, option in enumerate(options, 1):
        cell = _option(number, option, f"{number} ")
        if line and line.cell_length + 3 + cell.cell_length > width:
            lines.append(line)
            line = Content("")
        line = line.append("   ").append(cell) if line else cell
    return Content("\n").join([*lines, line])


def _option(number: int, option: Option, head: str = "") -> Content:
    click = Style.from_meta({"@click": f"choose({number})"})
    return Content.assemble((head or f"{number:>2}  ", "bold"), clean(option.label)).stylize(click)
