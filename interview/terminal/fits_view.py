"""What still fits, and why not? The candidates one below the other; Enter says why, c sets two side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from interview.dialogue.events import Event
from interview.terminal.fits import counts, fit_line, verdict_words
from interview.terminal.hanging import hanging
from interview.terminal.keys import Keys
from interview.terminal.rows import clean, rows_of
from interview.terminal.views import BACK, MEASURE, ListedView

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitLine, FitView

STEP = 40  # candidates shown at first, and how many more each time


class FitsView(ListedView):
    """Asks `look(limit)` for candidates and `why(line)` for reasons; it knows no rule of its own."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c", "compare", "compare", show=False),
        Binding("m", "more", "more", show=False),
        Binding("right", "read(1)", "read on", show=False),
        Binding("left", "read(-1)", "read back", show=False),
    ]

    def __init__(self, look: Callable[[int], FitView], why: Callable[[FitLine], Sequence[Event]]) -> None:
        super().__init__()
        self.look = look
        self.why = why
        self.limit = STEP
        self.shown = look(STEP)
        self.marked: FitLine | None = None

    def compose(self) -> ComposeResult:
        yield Static("What still fits, and why not", classes="viewhead", markup=False)
        yield Static("", classes="viewnote", id="counts", markup=False)
        yield OptionList(classes="list", markup=False)
        with VerticalScroll(id="detail", can_focus=False):
            yield Static("", markup=False)
        yield Keys(
            [
                ("↑↓", "choose", ""),
                ("Enter", "why", "screen.take"),
                ("c", "compare two", "screen.compare"),
                ("m", "more", "screen.more"),
                ("← →", "read on", "screen.read(1)"),
                BACK,
            ]
        )

    def on_resize(self) -> None:
        self.fill()

    def fill(self) -> None:
        view = self.shown
        left = view.fits + view.open + view.fails - len(view.lines)
        more = f" · {len(view.lines)} shown, m shows more" if left > 0 else ""
        self.query_one("#counts", Static).update(Content(f"{counts(view)}{more}"))
        listed = self.query_one(OptionList)
        place = listed.highlighted or 0
        width = min(self.size.width - 5, MEASURE)
        listed.clear_options()
        listed.add_options([Option(fit_line(line, width)) for line in view.lines])
        listed.highlighted = min(place, len(view.lines) - 1) if view.lines else None

    @property
    def chosen(self) -> FitLine | None:
        place = self.query_one(OptionList).highlighted
        return None if place is None else self.shown.lines[place]

    def on_option_list_option_selected(self) -> None:
        if (line := self.chosen) is not None:
            self.tell(hanging(reasons(line, self.why(line)), self.size.width - 6))

    def action_more(self) -> None:
        self.limit += STEP
        self.shown = self.look(self.limit)
        self.fill()

    def action_read(self, direction: int) -> None:
        """Turns the reasons below the list a page on or back."""
        detail = self.query_one("#detail", VerticalScroll)
        if direction > 0:
            detail.scroll_page_down(animate=False)
        else:
            detail.scroll_page_up(animate=False)

    def action_compare(self) -> None:
        line = self.chosen
        if line is None:
            return
        if self.marked is None or self.marked == line:
            self.marked = line
            self.tell(Content(f"{clean(line.name)}: choose another one, then c again."))
            return
        one, self.marked = self.marked, None
        self.tell(side_by_side(one, self.why(one), line, self.why(line), self.size.width - 6))

    def tell(self, content: Content) -> None:
        detail = self.query_one("#detail", VerticalScroll)
        detail.add_class("-shown")
        detail.query_one(Static).update(content)
        detail.scroll_home(animate=False)


def reasons(line: FitLine, happened: Sequence[Event]) -> Content:
    """The answer to "why", under the candidate's name."""
    told = [row.text for row in rows_of(happened) if row.kind != "title"]
    if not told or not told[0].startswith(line.name):
        told.insert(0, f"{clean(line.name)}  {verdict_words(line)}")
    head, _, rest = "\n".join(told).partition("\n")
    return Content.assemble((head, "bold"), "\n", rest)


def side_by_side(
    one: FitLine, why_one: Sequence[Event], other: FitLine, why_other: Sequence[Event], width: int
) -> Content:
    """Two candidates in two columns; below one another where the screen is too narrow for that."""
    left, right = reasons(one, why_one), reasons(other, why_other)
    if width < 70:
        return Content("\n\n").join([hanging(left, width), hanging(right, width)])
    column = (width - 3) // 2
    lefts, rights = hanging(left, column).split("\n"), hanging(right, column).split("\n")
    lines = []
    for i in range(max(len(lefts), len(rights))):
        a = lefts[i] if i < len(lefts) else Content("")
        b = rights[i] if i < len(rights) else Content("")
        lines.append(Content.assemble(a.pad_right(max(0, column - a.cell_length)), (" │ ", "$rule"), b))
    return Content("\n").join(lines)
