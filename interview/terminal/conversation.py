"""What was said so far? The conversation column, which follows the newest entry unless somebody scrolled up.

A reply longer than the column stands with its beginning at the top, so that what was understood is read before what
follows from it; a message says when something stands below.

Only the newest entries are widgets; the older ones are kept as rows and come back with page up at the top, so that a
day-long interview costs no more than a short one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import Literal

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from interview.terminal.entry import Entry
from interview.terminal.rows import PUT, Row

SHOWN = 240  # entries that are widgets at one time
SLACK = 60  # trimmed in lots, so that most answers remove nothing
BATCH = 120  # entries that one page up brings back


Below = Literal["", "more", "question"]  # what stands below what is shown: nothing, something, the open question


class Conversation(VerticalScroll, can_focus=False):
    """Rows in, entries out."""

    below: reactive[Below] = reactive[Below]("")

    class BelowChanged(Message):
        """Something else stands below what is shown, or nothing more does."""

    def __init__(self, rows: Sequence[Row] = ()) -> None:
        super().__init__(id="conversation")
        self.rows = list(rows)
        self._first = 0  # index of the oldest row that is a widget
        self._earlier = Static("", id="earlier", markup=False)
        self._reply: tuple[Entry, Entry] | None = None  # first and last entry of a reply until it has its place
        self._top: Widget | None = None  # what stands at the top while somebody reads; a resize leaves it there
        self._laid_out = self.size  # the size that scroll positions belong to

    def compose(self) -> ComposeResult:
        yield self._earlier
        entries = [Entry(row) for row in self.rows]
        self._reply = (entries[0], entries[-1]) if entries else None
        yield from entries

    def write_reply(self, rows: Sequence[Row]) -> None:
        """Adds the entries of a reply, to be read from its first one. Replies that come at once are one."""
        entries = self.write(rows)
        if not entries:
            return
        begun = self._reply[0] if self._reply is not None and not _placed(self._reply[0]) else entries[0]
        self._reply = begun, entries[-1]
        self.release_anchor()
        self.call_after_refresh(self._find_place)

    def write(self, rows: Sequence[Row]) -> list[Entry]:
        """Adds entries at the end."""
        entries = [Entry(row) for row in rows]
        self.rows.extend(rows)
        self.mount_all(entries)
        if len(self.rows) - self._first > SHOWN + SLACK and not self._reading_back:
            self._trim()
        return entries

    def clear(self) -> None:
        """Forgets everything: a replay went back."""
        self.rows.clear()
        self._first, self._reply, self._top = 0, None, None
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

    def watch_below(self) -> None:
        self.post_message(self.BelowChanged())

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        super().watch_scroll_y(old_value, new_value)
        if self.size == self._laid_out:  # else the position is still that of the old layout
            self._look()

    def on_resize(self) -> None:
        self._find_place()

    def _find_place(self) -> None:
        """The column or what is in it was laid out anew: what is to be read is brought into view."""
        if self._reply is not None and _placed(self._reply[1]):
            self._show_reply(self._reply[0])
        elif self.size != self._laid_out and self._top is not None:
            self.scroll_to_widget(self._top, animate=False, top=True, immediate=True)
        self._laid_out = self.size
        self._look()

    def _show_reply(self, first: Entry) -> None:
        """A reply that fits is shown with what stands before it; a longer one from its beginning."""
        self._reply = None
        if self.virtual_size.height - first.virtual_region.y > self.scrollable_content_region.height:
            self.scroll_to_widget(first, animate=False, top=True, immediate=True)
        else:
            self.anchor()

    def _look(self) -> None:
        """Whether something stands below, and what is at the top meanwhile."""
        self._top = None
        if self.scroll_y >= self.max_scroll_y - 1:
            self.below = ""
            return
        end = self.scroll_y + self.scrollable_content_region.height
        entries = (child for child in reversed(self.children) if isinstance(child, Entry))
        put = next((entry for entry in entries if entry.row.kind in PUT), None)
        self.below = "question" if put is not None and put.virtual_region.bottom > end else "more"
        if self.children:
            place = bisect_right(self.children, self.scroll_y, key=lambda child: child.virtual_region.bottom)
            self._top = self.children[min(place, len(self.children) - 1)]

    @property
    def on_table(self) -> Row | None:
        """The entry that a number answers now; a question further up is past."""
        put = next((row for row in reversed(self.rows) if row.kind in PUT), None)
        return put if put is not None and put.options else None

    @property
    def _reading_back(self) -> bool:
        return self.scroll_y < self.max_scroll_y - 1 and self.max_scroll_y > 0

    def _trim(self) -> None:
        first = len(self.rows) - SHOWN
        self.remove_children(list(self.query(Entry))[: first - self._first])
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


def _placed(entry: Entry) -> bool:
    return entry.size.width > 0
