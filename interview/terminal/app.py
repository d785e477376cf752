"""How does the screen start and stop? The Textual app: looks, command palette, faults, and the way out.

Nothing heavy is imported here: the session and the unit library come up in threads after the first paint.
"""

from __future__ import annotations

import io
import os
import shutil
import sys
import textwrap
import traceback
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console
from textual.app import App, SystemCommand
from textual.screen import Screen

from interview.terminal.counter import CounterScreen
from interview.terminal.first_page import page_file
from interview.terminal.looks import LOOKS, allowed, first_look, theme_name, themes

if TYPE_CHECKING:
    from interview.dialogue.session import Session

    Pictures = Callable[[Session, int], Sequence[tuple[str, str]]]

# columns from which the side column stands, and widens
BREAKPOINTS = [(0, "-narrow"), (100, "-wide"), (120, "-wider"), (140, "-vast")]

SORRY = (
    "hosewright had to stop: something went wrong inside the program. Everything you typed is kept; start it again and "
    "it goes on where it stood."
)


def _nothing() -> None:
    return None


class BookApp(App[int]):
    """What every app of this room shares: looks, and faults that end in a sentence."""

    CSS_PATH = "interview.tcss"
    TITLE = "hosewright"
    COMMAND_PALETTE_BINDING = "ctrl+p"
    HORIZONTAL_BREAKPOINTS = BREAKPOINTS

    def __init__(self, *, look: str | None = None, fault_log: Path | None = None) -> None:
        super().__init__()
        self.fault_log = fault_log
        self.farewell = ""
        self.faults: list[Exception] = []
        self._last_words = io.StringIO()  # of a fault that ends the program: Textual tells it here, not on the screen
        self.error_console = Console(file=self._last_words)
        for theme in themes():
            self.register_theme(theme)
        wanted = look if look in LOOKS and allowed(look, os.environ) else first_look(os.environ)
        self.theme = theme_name(wanted)

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return {name: "ansi_default" for name in ("ink", "faint", "said", "mind", "rule", "band")}

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Only what applies on the screen that is shown, in the words of its keys."""
        actions: set[str] = set()
        for binding in screen.active_bindings.values():
            key = binding.binding
            if binding.node is screen and key.show and binding.enabled and key.action not in actions:
                actions.add(key.action)
                told = f"{key.tooltip}: the key {key.key}" if key.tooltip else f"the key {key.key}"
                yield SystemCommand(key.description, told, _runner(self, screen, key.action))
        for look in LOOKS:
            if theme_name(look) != self.theme and allowed(look, os.environ):
                yield SystemCommand(f"look {look}", "other colours", _look(self, look))

    def note_fault(self, error: Exception) -> None:
        """Keeps a fault for whoever mends the program; the person at the counter reads a sentence instead."""
        self.faults.append(error)
        self._keep_fault("".join(traceback.format_exception(error)))

    def _keep_fault(self, text: str) -> None:
        if self.fault_log is None:
            return
        try:
            with self.fault_log.open("a", encoding="utf-8") as log:
                log.write(text)
        except OSError:
            self.fault_log = None

    def run_to_end(self) -> int:
        """Full-screen; 0 when it was left, 1 when the program itself failed: a sentence says so, the log says why."""
        self.run()
        if words := self._last_words.getvalue():
            self._keep_fault(words)
            print(textwrap.fill(SORRY, shutil.get_terminal_size().columns), file=sys.stderr)
        elif self.farewell:
            print(self.farewell)
        return self.return_code or 0

    async def action_quit(self) -> None:
        """ctrl+q: by way of the screen, so that the session hears of it."""
        if isinstance(self.screen_stack[0], CounterScreen):
            self.screen_stack[0].action_leave()
        else:
            self.leave("")

    def leave(self, words: str) -> None:
        """Closes the app; the words are printed on the terminal that comes back."""
        self.farewell = words
        self.exit(0)


class CounterApp(BookApp):
    """The interview on a screen."""

    def __init__(
        self,
        session_factory: Callable[[], Session],
        *,
        pictures: Pictures | None = None,
        warm: Callable[[], None] = _nothing,
        look: str | None = None,
        fault_log: Path | None = None,
        page: Path | None = None,
    ) -> None:
        super().__init__(look=look, fault_log=fault_log)
        self.page = page
        self.session_factory = session_factory
        self.pictures = pictures
        self.warm = warm

    def get_default_screen(self) -> CounterScreen:
        return CounterScreen(self.session_factory, self.pictures, self.page)


def run(
    session_factory: Callable[[], Session],
    *,
    warm: Callable[[], None] = _nothing,
    fault_log: Path | None = None,
    page_key: str | None = None,
) -> int:
    """Runs the interview; the exit status is that of `BookApp.run_to_end`.

    `page_key` names the kind of interview (job and units); with it the first page of the last start is shown while the
    session is being built. `warm` is called in a thread once the first question is shown: for imports that the first
    answer will need.
    """
    page = page_file(page_key, os.environ) if page_key else None
    return CounterApp(session_factory, warm=warm, fault_log=fault_log, page=page).run_to_end()


def _runner(app: App[int], screen: Screen[object], action: str) -> Callable[[], None]:
    def go() -> None:
        app.call_later(app.run_action, action, screen)

    return go


def _look(app: App[int], look: str) -> Callable[[], None]:
    def go() -> None:
        app.theme = theme_name(look)

    return go
