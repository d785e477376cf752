"""One entry of the counter book: a margin word, a ruled line, the text.

The margin is painted into the left padding, so that one widget makes one entry and a selection copies the text alone.
"""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.content import Content
from textual.geometry import Region, Size
from textual.selection import Selection
from textual.strip import Strip
from textual.style import Style
from textual.widget import Widget

from interview.dialogue.events import Option
from interview.terminal.rows import Row, clean

MARGIN = 12  # cells left of the rule; the padding of .entry in the stylesheet is MARGIN + 2


class Entry(Widget):
    """Shows one Row. Options are laid out anew at every width: in two columns where they are many and short."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"entry--label", "entry--rule"}

    def __init__(self, row: Row) -> None:
        super().__init__(classes=f"entry -{row.kind}", markup=False)
        self.row = row
        self._wide = 0

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        if width != self._wide:
            self._wide = width
            self._layout_cache.clear()
        return super().get_content_height(container, viewport, width)

    def render(self) -> Content:
        parts = [Content.styled(self.row.text, "bold") if self.row.options or self.row.foot else Content(self.row.text)]
        if self.row.options:
            parts.append(options_content(self.row.options, self._wide or self.content_size.width))
        if self.row.foot:
            parts.append(Content.styled(self.row.foot, "$faint"))
        return Content("\n").join(parts)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        return selection.extract(self.render().plain), "\n"

    def render_lines(self, crop: Region) -> list[Strip]:
        strips = super().render_lines(crop)
        if crop.x > 0:
            return strips
        label_style = self.get_component_rich_style("entry--label")
        rule_style = self.get_component_rich_style("entry--rule")
        return [
            Strip.join([self._margin(crop.y + i, label_style, rule_style), strip.crop(MARGIN + 1)])
            for i, strip in enumerate(strips)
        ]

    def _margin(self, line: int, label_style: RichStyle, rule_style: RichStyle) -> Strip:
        first = self.styles.padding.top
        label = self.row.label if line == first else ""
        before = " " * (MARGIN - 1 - len(label))
        return Strip(
            [Segment(before, rule_style), Segment(label, label_style), Segment(" │", rule_style)], MARGIN + 1
        )


def options_content(options: tuple[Option, ...], width: int) -> Content:
    """The numbered answers; a click on one answers with its number."""
    cells = [_option(number, option) for number, option in enumerate(options, 1)]
    widest = max(cell.cell_length for cell in cells)
    columns = max(1, min(3, (width + 2) // (widest + 2))) if len(cells) > 6 else 1
    if columns == 1:
        return Content("\n").join(cells)
    rows = -(-len(cells) // columns)
    lines: list[Content] = []
    for r in range(rows):
        line = Content("")
        for cell in cells[r::rows]:
            line = line.append(cell.pad_right(widest + 2 - cell.cell_length))
        lines.append(line)
    return Content("\n").join(lines)


def _option(number: int, option: Option) -> Content:
    click = Style.from_meta({"@click": f"screen.choose({number})"})
    return Content.assemble((f"{number:>2}", "bold"), "  ", clean(option.label)).stylize(click)
