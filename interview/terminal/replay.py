"""How did that interview go? A saved one played turn by turn: step, run, pause, speed, back; why, and what fell.

For whoever trains others. It shows what it is given and asks no session.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.timer import Timer
from textual.widgets import Static

from interview.dialogue import events as ev
from interview.terminal.app import BookApp
from interview.terminal.conversation import Conversation
from interview.terminal.fits import counts, fits_content
from interview.terminal.keys import Keys, keys_of
from interview.terminal.rows import Row, clean, rows_of

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitLine, FitView
    from interview.training.replay import Replay, ShownTurn

PACES = (8.0, 4.0, 2.0, 1.0, 0.5)  # seconds a turn stays, slowest first


class ReplayScreen(Screen[None]):
    """The conversation of a saved interview, as far as it has been played."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "run", "run", tooltip="by itself, or pause"),
        Binding("right,n,enter", "step", "step", key_display="→"),
        Binding("left,b", "back", "back", key_display="←"),
        Binding("w", "why", "why"),
        Binding("f", "fell", "fell", tooltip="what the last answer put out"),
        Binding("f4", "fits", "fits", key_display="F4"),
        Binding("plus,equals_sign", "pace(1)", "fast", key_display="+", tooltip="faster"),
        Binding("minus", "pace(-1)", "slow", key_display="-", tooltip="slower"),
        Binding("pageup", "page(-1)", "earlier", show=False),
        Binding("pagedown", "page(1)", "later", show=False),
        Binding("escape,q", "leave", "leave", key_display="Esc"),
    ]

    def __init__(self, turns: Sequence[ShownTurn], *, title: str, story: str = "", teaches: str = "") -> None:
        super().__init__()
        self.turns = turns
        self.heading = title
        self.story = [Row("story", clean(story), "explained")] if story else []
        self.lesson = [Row("teaches", clean(teaches), "explained")] if teaches else []
        self.place = 0  # turns shown
        self.pace = 2
        self.timer: Timer | None = None

    def compose(self) -> ComposeResult:
        yield Static("", classes="viewhead -whole", markup=False)
        with Horizontal(id="book"):
            yield Conversation()
            with VerticalScroll(id="side", can_focus=False):
                yield Static("What still fits", classes="head", markup=False)
                yield Static("", id="fits", markup=False)
        yield Keys(keys_of(self.BINDINGS))

    def on_mount(self) -> None:
        self.conversation.write(self.story)
        self.action_step()

    @property
    def conversation(self) -> Conversation:
        return self.query_one(Conversation)

    @property
    def running(self) -> bool:
        return self.timer is not None

    @property
    def at_end(self) -> bool:
        return self.place >= len(self.turns)

    # ---- moving

    def action_step(self) -> None:
        if not self.at_end:
            rows = turn_rows(self.turns[self.place])
            self.place += 1
            self.conversation.to_end()
            self.conversation.write([*rows, *self.lesson] if self.at_end else rows)
        if self.at_end:
            self.pause()
        else:
            self.tell()

    def action_back(self) -> None:
        """One turn less. A replay that runs is paused by it."""
        if self.place > 1:
            self.place -= 1
            rows = [row for turn in self.turns[: self.place] for row in turn_rows(turn)]
            self.conversation.clear()
            self.conversation.write([*self.story, *rows])
            self.conversation.to_end()
        self.pause()

    def action_run(self) -> None:
        if self.running:
            self.pause()
        elif not self.at_end:
            self.play()

    def play(self) -> None:
        """From here by itself, at the present pace."""
        if self.timer is not None:
            self.timer.stop()
        self.timer = self.set_interval(PACES[self.pace], self.action_step)
        self.tell()

    def pause(self) -> None:
        if self.timer is not None:
            self.timer.stop()
            self.timer = None
        self.tell()

    def action_pace(self, step: int) -> None:
        self.pace = min(max(self.pace + step, 0), len(PACES) - 1)
        if self.running:
            self.play()
        else:
            self.tell()

    def action_page(self, direction: int) -> None:
        self.conversation.page(direction)

    def action_leave(self) -> None:
        self.app.exit(0)

    # ---- asking

    def action_why(self) -> None:
        """The reason of the question that is open at this point, and how to find out."""
        self.pause()
        asked = open_question(self.turns[: self.place])
        if asked is None:
            self.explain("Why", ["No question is open here."])
            return
        lines = [asked.why or "The saved interview carries no reason for it.", *([asked.how] if asked.how else [])]
        self.explain(f"Why: {asked.text}", lines)

    def action_fell(self) -> None:
        """The candidates that the last turn shown put out."""
        self.pause()
        if self.place < 2:
            self.explain("What fell", ["Nothing has been answered yet."])
            return
        before, after = self.turns[self.place - 2].fits, self.turns[self.place - 1].fits
        if before is None or after is None:
            self.explain("What fell", ["This replay was made without what fits."])
            return
        gone = fallen(before, after)
        lines = [f"{counts(before)}  →  {counts(after)}", *(f"× {line.name}: {line.blocked_by}" for line in gone)]
        rest = after.fails - before.fails - len(gone)
        if rest > 0:
            lines.append(f"{rest}{' more' if gone else ''} fell that the list of this turn does not name.")
        elif not gone:
            lines.append("None fell by this answer.")
        self.explain("What fell", lines)

    def action_fits(self) -> None:
        from interview.terminal.views import TextView

        fits = self.turns[self.place - 1].fits if self.place else None
        if fits is not None:
            most = len(fits.lines)
            self.app.push_screen(
                TextView(lambda width: [("What still fits", fits_content(fits, width, most))], self.size.width)
            )

    def explain(self, title: str, lines: Sequence[str]) -> None:
        self.conversation.to_end()
        self.conversation.write(rows_of([ev.Explained(title, tuple(lines))]))

    # ---- showing

    def on_resize(self) -> None:
        self.call_after_refresh(self.tell)

    def tell(self) -> None:
        state = "at the end" if self.at_end else "runs" if self.running else "paused"
        pace = f"{PACES[self.pace]:g} s a turn"
        self.query_one(".viewhead", Static).update(
            head(clean(self.heading), f"turn {self.place} of {len(self.turns)}, {state}, {pace}", self.size.width - 4)
        )
        (space, _, run), *rest = keys_of(self.BINDINGS)
        self.query_one(Keys).keys = [(space, "pause" if self.running else "run", run), *rest]
        side = self.query_one("#side", VerticalScroll)
        width = side.scrollable_content_region.width
        fits = self.turns[self.place - 1].fits if self.place else None
        if fits is not None and side.display and width > 10:
            self.query_one("#fits", Static).update(fits_content(fits, width))


def head(title: str, place: str, width: int) -> Content:
    """The title and the place in one line, or in two where one is too short.

    >>> head("A winch", "turn 1 of 2", 24).plain, head("A winch", "turn 1 of 2", 20).plain
    ('A winch   turn 1 of 2', 'A winch\\nturn 1 of 2')
    """
    gap = "   " if cell_len(title) + 3 + cell_len(place) <= width else "\n"
    return Content(f"{title}{gap}{place}")


def turn_rows(turn: ShownTurn) -> list[Row]:
    """A turn as entries: the customer's words first."""
    words = [Row("customer", clean(turn.said), "you")] if turn.said else []
    return [*words, *rows_of(turn.events)]


def open_question(turns: Sequence[ShownTurn]) -> ev.Asked | None:
    """The last question asked in these turns."""
    return next((e for turn in reversed(turns) for e in reversed(turn.events) if isinstance(e, ev.Asked)), None)


def fallen(before: FitView, after: FitView) -> list[FitLine]:
    """Candidates that stood before and fail after, in the order they were listed. One that is no longer listed at all
    counts only where the later list still says that it fails: a list is cut short, and absence proves nothing."""
    stood = {(line.construction, line.bore) for line in before.lines if line.verdict != "fails"}
    return [line for line in after.lines if line.verdict == "fails" and (line.construction, line.bore) in stood]


class ReplayApp(BookApp):
    """One replay on the screen."""

    def __init__(
        self, turns: Sequence[ShownTurn], *, title: str, story: str = "", teaches: str = "", look: str | None = None
    ) -> None:
        super().__init__(look=look)
        self.turns, self.heading, self.story, self.teaches = turns, title, story, teaches

    def get_default_screen(self) -> ReplayScreen:
        return ReplayScreen(self.turns, title=self.heading, story=self.story, teaches=self.teaches)


def show_replay(played: Replay) -> int:
    """Plays a scenario's interview on the screen; the exit status is that of `BookApp.run_to_end`."""
    scenario = played.scenario
    app = ReplayApp(played.turns, title=scenario.title, story=scenario.story, teaches=scenario.teaches or "")
    return app.run_to_end()
