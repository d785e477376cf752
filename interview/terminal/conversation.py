"""What was said so far? The conversation column, which follows the newest entry unless somebody scrolled up.

Only the newest entries are widgets; the older ones are kept as rows and come back with page up at the top, so that a
day-long interview costs no more than a short one.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from interview.terminal.entry import Entry
from interview.terminal.rows import Row

SHOWN = 240  # entries that are widgets at one time
SLACK = 60  # trimmed in lots, so that most answers remove nothing
BATCH = 120  # entries that one page up brings back


class Conversation(VerticalScroll, can_focus=False):
    """Rows in, entries out."""

    def __init__(self, rows: Sequence[Row] = ()) -> None:
        super().__init__(id="conversation")
        self.rows = list(rows)
        self._first = 0  # index of the oldest row that is a widget
        self._earlier = Static("", id="earlier", markup=False)

    def compose(self) -> ComposeResult:
        yield self._earlier
        yield from (Entry(row) for row in self.rows)

    def on_mount(self) -> None:
        self.anchor()

    def write(self, rows: Sequence[Row]) -> None:
        """Adds entries at the end."""
        self.rows.extend(rows)
        self.mount_all([Entry(row) for row in rows])
        if len(self.rows) - self._first > SHOWN + SLACK and not self._reading_back:
            self._trim()

    def clear(self) -> None:
        """Forgets everything: a replay went back."""
        self.rows.clear()
        self._first = 0
        self.remove_children("Entry")
        self._tell_earlier()

    def page(self, direction: int) -> None:
        """One page up or down; at the top, earlier entries come back first."""
        if direction < 0 and self._first and self.scroll_y < 2:
            self._bring_back()
        elif direction < 0:
            self.scroll_page_up(animate=False)
        else:
            self.scroll_page_down(animate=False)

    def to_end(self) -> None:
        """Back to the newest entry."""
        self.anchor()

    def to_emergency(self) -> None:
        """The last emergency text at the top of the screen, and there it stays until somebody goes on."""
        entry = self.query("Entry.-emergency").last(Entry)
        self.release_anchor()
        self.call_after_refresh(self.scroll_to_widget, entry, animate=False, top=True, force=True)

    @property
    def _reading_back(self) -> bool:
        return self.scroll_y < self.max_scroll_y - 1 and self.max_scroll_y > 0

    def _trim(self) -> None:
        first = len(self.rows) - SHOWN
        with self.app.batch_update():
            for entry in list(self.query(Entry))[: first - self._first]:
                entry.remove()
        self._first = first
        self._tell_earlier()

    def _bring_back(self) -> None:
        first = max(0, self._first - BATCH)
        back = [Entry(row) for row in self.rows[first : self._first]]
        oldest = next(iter(self.query(Entry)), None)
        self._first = first
        self._tell_earlier()
        self.mount_all(back, before=oldest)
        if oldest is not None:
            self.call_after_refresh(self.scroll_to_widget, oldest, animate=False, top=True)

    def _tell_earlier(self) -> None:
        self._earlier.display = self._first > 0
        self._earlier.update(Content(f"{self._first:,} earlier entries: page up brings them back"))
