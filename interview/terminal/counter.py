"""What happens at the counter? The main screen: it hands what is typed to the session and shows what comes back.

The screen decides (when a line is sent, what goes back into the prompt); widgets only show. It holds no rule of the
interview.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from functools import partial, wraps
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static
from textual.worker import get_current_worker

from interview.dialogue import events as ev
from interview.dialogue.events import Event
from interview.terminal.conversation import Conversation
from interview.terminal.entry import Entry
from interview.terminal.first_page import load_page, save_page
from interview.terminal.keys import Keys, keys_of
from interview.terminal.looks import allowed, look_after, theme_name
from interview.terminal.prompt import Prompt
from interview.terminal.rows import rows_of, said, trouble
from interview.terminal.sentences import (
    EMERGENCY_FIRST,
    EMPTY_LINE,
    NOT_SHOWN,
    NOT_YET,
    PAST,
    READ_FIRST,
    READ_ON,
    Wanting,
    below_words,
    placeholder,
    sorry,
    unread_stop,
)
from interview.terminal.side import Side
from interview.terminal.status import StatusLine
from interview.terminal.words import screen_action

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitLine
    from interview.dialogue.session import Session
    from interview.terminal.app import Pictures


def minded(action: Callable[[CounterScreen], None]) -> Callable[[CounterScreen], None]:
    """A view that cannot be shown is a sentence in the conversation; the interview goes on."""

    @wraps(action)
    def careful(screen: CounterScreen) -> None:
        try:
            action(screen)
        except Exception as error:
            screen.counter.note_fault(error)
            screen.conversation.write([trouble(NOT_SHOWN)])

    return careful


class CounterScreen(Screen[None]):
    """Conversation, prompt, one status line; beside it on wide screens what is known and what still fits."""

    AUTO_FOCUS = "#prompt"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "help", "help", key_display="F1"),
        Binding("f2", "why", "why, how", key_display="F2"),
        Binding("f3", "known", "known", key_display="F3"),
        Binding("f4", "fits", "fits", key_display="F4"),
        Binding("f5", "take_back", "take back", key_display="F5"),
        Binding("f6", "topics", "topics", key_display="F6"),
        Binding("f8", "skip", "don't know", key_display="F8"),  # before F7, which a narrow screen can leave out
        Binding("f7", "pictures", "pictures", key_display="F7"),
        Binding("pageup", "page(-1)", "earlier", show=False),
        Binding("pagedown", "page(1)", "later", show=False),
        Binding("escape", "to_end", "newest", show=False),
    ]

    def __init__(
        self, session_factory: Callable[[], Session], pictures: Pictures | None = None, page: Path | None = None
    ) -> None:
        super().__init__()
        self.session_factory = session_factory
        self.pictures = pictures
        self.page = page  # file of the first page, or None: no page is shown before the session is there
        self.session: Session | None = None
        self.waiting: list[str] = []  # lines typed before the session was there
        self.first_page = load_page(page) if page is not None else []
        self.broken = False  # the session could not be opened at all
        self.wanting: Wanting | None = None  # what waits for a line

    def compose(self) -> ComposeResult:
        with Horizontal(id="book"):
            yield Conversation(self.first_page)
            yield Side()
        yield StatusLine()
        with Horizontal(id="line"):
            yield Static("›", id="mark", markup=False)
            yield Prompt()
        yield Keys(
            [*keys_of(self.BINDINGS), ("ctrl+p", "more", "app.command_palette"), ("ctrl+q", "leave", "screen.leave")]
        )

    def on_mount(self) -> None:
        self.call_after_refresh(self.begin)

    # ---- the session comes up after the first paint

    def begin(self) -> None:
        """Builds the session in a thread: a key typed meanwhile is not lost."""
        self.run_worker(self._open, thread=True, exit_on_error=False, name="open")

    def _open(self) -> None:
        worker = get_current_worker()
        try:
            session = self.session_factory()
            happened = session.open()
        except Exception as error:
            if not worker.is_cancelled:  # the screen may be gone by now
                self.app.call_from_thread(self._unopened, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._opened, session, happened)

    def _opened(self, session: Session, happened: Sequence[Event]) -> None:
        self.session = session
        waiting, self.waiting = self.waiting, []
        rows = rows_of(happened)
        if self.first_page and rows == self.first_page:
            self.take_in(happened)
        else:
            if self.first_page:
                self.conversation.clear()
            if self.first_page and rows[-1:] != self.first_page[-1:]:  # what was typed was typed to another question
                self.prompt.put("; ".join([*waiting, *([self.prompt.value] if self.prompt.value else [])]))
                waiting = []
            self.show(happened)
        for line in waiting:
            self.say(line)
        if self.page is not None and rows != self.first_page and session.earlier is None:  # an offer is of one day
            self.run_worker(partial(save_page, self.page, rows), thread=True, exit_on_error=False, name="page")
        self.run_worker(self.counter.warm, thread=True, exit_on_error=False, name="warm")

    def _unopened(self, error: Exception) -> None:
        self.counter.note_fault(error)
        self.broken = True
        self.prompt.put("; ".join(self.waiting) or self.prompt.value)
        self.conversation.write([trouble(f"The interview could not be opened: {error}. ctrl+q leaves.")])

    @property
    def counter(self) -> CounterApp:
        return self.app  # type: ignore[return-value]

    @property
    def conversation(self) -> Conversation:
        return self.query_one(Conversation)

    @property
    def prompt(self) -> Prompt:
        return self.query_one(Prompt)

    @property
    def status(self) -> StatusLine:
        return self.query_one(StatusLine)

    # ---- what is typed

    @on(Prompt.Submitted)
    def submitted(self, event: Prompt.Submitted) -> None:
        line = event.value.strip()
        if not line:
            if self.conversation.below:
                self.conversation.page(1)
            else:
                self.status.note = EMPTY_LINE
            return
        if self.conversation.below == "question" and unread_stop(self.wanting, line):
            self.conversation.to_end()
            self.status.note = READ_FIRST
            return
        self.prompt.remember(line)
        self.prompt.put("")
        action = screen_action(line)
        if action is not None:
            self.call_later(self.run_action, action)
        else:
            self.say(line)

    def say(self, line: str, *, shown: bool = True) -> None:
        """One line to the session. Where it fails, the line is back in the prompt and nothing else has changed."""
        if self.broken:
            self.prompt.put(line)
            return
        if self.session is None:
            self.waiting.append(line)
            self.status.note = NOT_YET
            return
        try:
            happened = self.session.say(line)
        except Exception as error:
            self.counter.note_fault(error)
            self.conversation.to_end()
            self.conversation.write([said(line), trouble(sorry(error))])
            self.prompt.put(line)
            return
        if shown:
            self.conversation.write([said(line)])
        self.show(happened)
        if shown and any(isinstance(event, ev.Refused) for event in happened):
            self.prompt.put(line, selected=True)

    def show(self, happened: Sequence[Event]) -> None:
        """Events in, widgets out."""
        rows = rows_of(happened)
        self.conversation.write_reply(rows)
        self.take_in(happened)
        if any(row.kind == "emergency" for row in rows):
            self.status.note = EMERGENCY_FIRST

    def take_in(self, happened: Sequence[Event]) -> None:
        """All that a reply changes beside the conversation."""
        self.wanting = next((event for event in reversed(happened) if isinstance(event, Wanting)), self.wanting)
        self.tell_below()
        self.refresh_sides()
        left = next((event for event in happened if isinstance(event, ev.Left)), None)
        if left is not None:
            self.counter.leave(left.text)

    @on(Conversation.BelowChanged)
    def tell_below(self) -> None:
        """What the prompt takes: an answer, or first an Enter that reads on."""
        below = self.conversation.below
        self.status.below = below_words(self.wanting if below == "question" else None) if below else ""
        if below:
            self.prompt.placeholder = READ_ON
        elif self.wanting is not None:
            self.prompt.placeholder = placeholder(self.wanting)

    @minded
    def refresh_sides(self) -> None:
        if self.session is None:
            return
        topics = self.session.topic_lines()
        fits = self.session.fit_lines()
        self.status.topics, self.status.fits, self.status.note = topics, fits, ""
        self.query_one(Side).tell(self.session.known_lines(), fits, {t.topic: t.title for t in topics})

    # ---- keys and words

    @on(Entry.Chosen)
    def choose(self, event: Entry.Chosen) -> None:
        """A click on a numbered answer: it answers its own question, while that is the one on the table."""
        if event.row is self.conversation.on_table:
            self.say(str(event.number))
        else:
            self.status.note = PAST

    def action_why(self) -> None:
        self.say("why", shown=False)
        self.say("how", shown=False)

    def action_skip(self) -> None:
        self.say("?")

    def action_take_back(self) -> None:
        self.say("undo", shown=False)

    def action_page(self, direction: int) -> None:
        self.conversation.page(direction)

    def action_to_end(self) -> None:
        self.conversation.to_end()

    def action_leave(self) -> None:
        if self.session is None:
            self.counter.leave("")
        else:
            self.say("quit", shown=False)

    def action_help(self) -> None:
        from interview.terminal.help_text import HELP
        from interview.terminal.views import TextView

        lines = [Content.styled(line, "bold" if line.partition(" (")[0].isupper() else "") for line in HELP.split("\n")]
        page = ("Help", Content("\n").join(lines))
        self.app.push_screen(TextView(lambda _: [page], self.size.width))

    @minded
    def action_known(self) -> None:
        from interview.terminal.views import KnownView

        if self.session is not None:
            titles = {t.topic: t.title for t in self.session.topic_lines()}
            self.app.push_screen(KnownView(self.session.known_lines(), titles), self._put)

    @minded
    def action_fits(self) -> None:
        from interview.terminal.fits_view import FitsView

        session = self.session
        if session is None:
            return

        def why(line: FitLine) -> Sequence[Event]:
            return session.why_not(f"{line.construction} {line.bore:g}")

        self.app.push_screen(FitsView(session.fit_lines, why))

    @minded
    def action_topics(self) -> None:
        from interview.terminal.views import TopicsView

        if self.session is not None:
            self.app.push_screen(TopicsView(self.session.topic_lines()), self._go)

    @minded
    def action_pictures(self) -> None:
        from interview.terminal.views import TextView

        self.app.push_screen(TextView(self._drawn, self.size.width))

    def _drawn(self, width: int) -> list[tuple[str, Content]]:
        pages: list[tuple[str, Content]] = []
        if self.session is not None:
            if self.pictures is None:
                from interview.terminal.pictures import pictures

                self.pictures = pictures
            drawn = self.pictures(self.session, width)
            pages = [(title, Content.from_text(text, markup=False)) for title, text in drawn]
        return pages or [("Pictures", Content("Nothing to draw yet: flow, pressure or temperature are not known."))]

    def action_look(self, look: str = "") -> None:
        """Another look; without a word, the one after the present."""
        wanted = look or look_after(self.app.theme)
        if not allowed(wanted, os.environ):
            self.status.note = "NO_COLOR is set: terminal colours are off."
            return
        self.app.theme = theme_name(wanted)

    def _put(self, line: str | None) -> None:
        if line:
            self.prompt.put(line)

    def _go(self, line: str | None) -> None:
        if line:
            self.say(line)


if TYPE_CHECKING:
    from interview.terminal.app import CounterApp
