"""Where does the person type? One line with recall of earlier lines; many pasted lines become one."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.widgets import Input
from textual.widgets.input import Selection

LONGEST = 100_000  # characters that one line may carry


def one_line(text: str) -> str:
    """Pasted lines joined, empty ones dropped.

    >>> one_line("half inch\\r\\n\\n2500 psi ")
    'half inch; 2500 psi'
    """
    return "; ".join(part for line in text[:LONGEST].splitlines() if (part := line.strip()))


class Prompt(Input):
    """Input with recall (up, down) and paste of several lines. It decides nothing: the screen does."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "recall(-1)", "Earlier line", show=False),
        Binding("down", "recall(1)", "Later line", show=False),
    ]

    def __init__(self) -> None:
        super().__init__(id="prompt", compact=True, select_on_focus=False)
        self.cursor_blink = False  # a blinking cursor is 2 kB a second on a slow link
        self.history: list[str] = []
        self._place = 0  # len(history): the line being written
        self._draft = ""

    def remember(self, line: str) -> None:
        """A line that was sent. The same line twice running is kept once."""
        if not self.history or self.history[-1] != line:
            self.history.append(line)
        self._place = len(self.history)
        self._draft = ""

    def put(self, text: str, *, selected: bool = False) -> None:
        """Text into the line, the cursor behind it; selected: typing replaces it, an arrow key keeps it."""
        self.value = text
        self.selection = Selection(0, len(text)) if selected else Selection.cursor(len(text))

    def action_recall(self, step: int) -> None:
        if self._place == len(self.history):
            self._draft = self.value
        place = min(max(self._place + step, 0), len(self.history))
        if place != self._place:
            self._place = place
            self.put(self._draft if place == len(self.history) else self.history[place])

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()  # the input would keep the first line alone
        text = one_line(event.text)
        if self.selection.is_empty:
            self.insert_text_at_cursor(text)
        else:
            self.replace(text, *self.selection)
