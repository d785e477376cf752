"""What is one function key away? The full views: help, what is known, topics, pictures. Esc goes back."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from interview.terminal.keys import Key, Keys
from interview.terminal.known import heading, known_line
from interview.terminal.rows import clean
from interview.terminal.status import STATES

if TYPE_CHECKING:
    from interview.dialogue.views import KnownLine, TopicLine

MEASURE = 84  # columns of a list: label and value stay within one glance
BESIDE = 5  # columns beside the text of a view: padding and scrollbar
BACK: Key = ("Esc", "back", "screen.leave")


Pages = Sequence[tuple[str, Content]]  # a title and a text each


class View(Screen[str | None]):
    """A full view over the conversation. Its answer, if any, is a line for the prompt."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "back", show=False),
        Binding("q", "leave", "back", show=False),
    ]

    def action_leave(self) -> None:
        self.dismiss(None)


class ListedView(View):
    """A view with one list in it; Enter, or a click on its word below, takes the line that is marked."""

    AUTO_FOCUS = "OptionList"

    def action_take(self) -> None:
        self.query_one(OptionList).action_select()


class TextView(View):
    """Pages of text under titles; one page is turned with tab where there are several."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab,right", "turn(1)", "next", show=False),
        Binding("shift+tab,left", "turn(-1)", "previous", show=False),
    ]
    AUTO_FOCUS = ".view"

    def __init__(self, draw: Callable[[int], Pages], width: int) -> None:
        """`draw` makes the pages for a width in cells; `width` is that of the screen."""
        super().__init__()
        self.draw = draw
        self.pages = draw(width - BESIDE)
        self.page = 0

    def compose(self) -> ComposeResult:
        yield Static("", classes="viewhead", markup=False)
        with VerticalScroll(classes="view"):
            yield Static("", classes="viewtext", markup=False)
        turn = [("Tab", "next picture", "screen.turn(1)")] if len(self.pages) > 1 else []
        yield Keys([("↑↓", "read", ""), *turn, BACK])

    def on_resize(self) -> None:
        self.pages = self.draw(self.size.width - BESIDE)
        self.action_turn(0)

    def action_turn(self, step: int) -> None:
        self.page = (self.page + step) % len(self.pages)
        title, text = self.pages[self.page]
        place = f"   {self.page + 1} of {len(self.pages)}" if len(self.pages) > 1 else ""
        self.query_one(".viewhead", Static).update(Content(f"{title}{place}"))
        self.query_one(".viewtext", Static).update(text)


class KnownView(ListedView):
    """Every fact by topic with its origin; Enter puts a correction of it into the prompt."""

    def __init__(self, lines: Sequence[KnownLine], titles: Mapping[str, str]) -> None:
        super().__init__()
        self.lines = lines
        self.titles = titles

    def compose(self) -> ComposeResult:
        yield Static("What is known", classes="viewhead", markup=False)
        if not self.lines:
            empty = "\nNothing yet. Esc, and say what you have; order does not matter."
            yield Static(empty, classes="viewnote", markup=False)
        yield OptionList(classes="list", markup=False)
        yield Keys([("↑↓", "choose a fact", ""), ("Enter", "correct it", "screen.take"), BACK])

    def on_resize(self) -> None:
        listed = self.query_one(OptionList)
        place = listed.highlighted
        width = min(self.size.width - 5, MEASURE)
        options: list[Option] = []
        for topic, group in groupby(self.lines, key=lambda line: line.topic):
            title = heading(self.titles.get(topic, topic), width)
            options.append(Option(Content("\n").append(title) if options else title, disabled=True))
            options.extend(Option(known_line(line, width, quiet=False), id=line.fact) for line in group)
        listed.clear_options()
        listed.add_options(options)
        listed.highlighted = place if place is not None else (1 if options else None)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(f"change {event.option.id} to ")


class TopicsView(ListedView):
    """The topics and how far each is; Enter goes there."""

    def __init__(self, topics: Sequence[TopicLine]) -> None:
        super().__init__()
        self.topics = topics

    def compose(self) -> ComposeResult:
        yield Static("Topics", classes="viewhead", markup=False)
        options = [
            Option(
                Content.assemble(
                    (f"{clean(line.title):<28}", "bold" if line.state == "now" else ""),
                    (STATES.get(line.state, line.state), "$faint"),
                ),
                id=line.topic,
            )
            for line in self.topics
        ]
        yield OptionList(*options, classes="list", markup=False)
        yield Keys([("↑↓", "choose", ""), ("Enter", "go there", "screen.take"), BACK])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(f"go {event.option.id}")
