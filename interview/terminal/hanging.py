"""How is a line too long for its column broken? What was indented stays indented, so that a list keeps its shape."""

from __future__ import annotations

from textual.content import Content


def hanging(text: Content, width: int) -> Content:
    """Every line wrapped to the width; the rest of an indented line two cells further in than its beginning.

    >>> hanging(Content("why\\n  open: the hottest air"), 16).plain
    'why\\n  open: the\\n    hottest air'
    """
    lines: list[Content] = []
    for line in text.split("\n", allow_blank=True):
        indent = len(line.plain) - len(line.plain.lstrip(" "))
        if line.cell_length <= width or indent == 0 or width < indent + 12:
            lines.extend(line.wrap(max(width, 1)) or [line])
            continue
        first, *rest = line[indent:].wrap(width - indent - 2)
        lines.append(first.pad_left(indent))
        lines.extend(more.pad_left(indent + 2) for more in rest)
    return Content("\n").join(lines)
