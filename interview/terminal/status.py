"""Where are we? One ruled line: the topics, the one being asked, and how many candidates still fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitView
    from interview.dialogue.views import TopicLine

STATES = {"done": "settled", "now": "asked now", "open": "some open", "later": "still to come"}


class StatusLine(Widget):
    """The rule between the conversation and the prompt, with words on it. A passing note takes the topics' place."""

    ALLOW_SELECT = False

    topics: reactive[Sequence[TopicLine]] = reactive[Sequence["TopicLine"]](())
    fits: reactive[FitView | None] = reactive["FitView | None"](None)
    note: reactive[str] = reactive("")  # until the next reply
    below: reactive[str] = reactive("")  # what stands below, while something does

    def __init__(self) -> None:
        super().__init__(id="status", markup=False)

    def render(self) -> Content:
        return status_content(self.topics, self.fits, self.size.width, self.note or self.below)


def status_content(topics: Sequence[TopicLine], fits: FitView | None, width: int, note: str = "") -> Content:
    """Left the topics, by name where they fit and by count where not; right the candidates; a rule between."""
    if fits is None and not note:
        return Content.styled("─" * width, "$rule")
    right = f" {fits.fits} fit · {fits.open} open " if fits is not None else ""
    if cell_len(note) > width - cell_len(right) - 6:
        right = ""  # F4 has the candidates; a note is read now or never
    room = width - cell_len(right) - 6
    left = Content.styled(note, "bold") if note else _named(topics)
    if left.cell_length > room:
        left = _counted(topics) if not note else left.truncate(max(room, 4), ellipsis=True)
    rule = max(0, width - left.cell_length - cell_len(right) - 5)
    return Content.assemble(("── ", "$rule"), left, " ", ("─" * rule, "$rule"), right, ("─", "$rule"))


def _named(topics: Sequence[TopicLine]) -> Content:
    parts = []
    for line in topics:
        if line.state == "now":
            parts.append(Content.styled(f"▸ {line.topic}", "bold"))
        elif line.state == "done":
            parts.append(Content.styled(f"{line.topic} ✓", "$faint"))
        elif line.state == "open":
            parts.append(Content.styled(f"{line.topic} …", "$faint"))
        else:
            parts.append(Content.styled(line.topic, "$faint"))
    return Content("  ").join(parts)


def _counted(topics: Sequence[TopicLine]) -> Content:
    now = next((line.topic for line in topics if line.state == "now"), "")
    done = sum(line.state == "done" for line in topics)
    told = (f"{done} of {len(topics)} topics settled", "$faint")
    return Content.assemble((f"▸ {now}", "bold"), "   ", told) if now else Content.assemble(told)
