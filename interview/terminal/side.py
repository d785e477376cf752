"""What stands beside the conversation on a wide screen: what is known, and what still fits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from interview.terminal.fits import BESIDE, BESIDE_SHORT, fits_content
from interview.terminal.known import known_content

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitView
    from interview.dialogue.views import KnownLine


class Side(VerticalScroll, can_focus=False):
    """Two texts under two headings, laid out anew at every width."""

    def __init__(self) -> None:
        super().__init__(id="side")
        self.known: Sequence[KnownLine] = ()
        self.fits: FitView | None = None
        self.titles: Mapping[str, str] = {}

    def compose(self) -> ComposeResult:
        yield Static("What still fits", classes="head", markup=False)
        yield Static("", id="fits", markup=False)
        yield Static("\nWhat is known", classes="head", markup=False)
        yield Static("", id="known", markup=False)

    def tell(self, known: Sequence[KnownLine], fits: FitView | None, titles: Mapping[str, str]) -> None:
        self.known, self.fits, self.titles = known, fits, titles
        self.lay_out()

    def on_resize(self) -> None:
        self.lay_out()

    def lay_out(self) -> None:
        width = self.scrollable_content_region.width
        if not self.display or width < 10:
            return
        if self.fits is not None:
            most = BESIDE if self.size.height > 30 else BESIDE_SHORT
            self.query_one("#fits", Static).update(fits_content(self.fits, width, most))
        self.query_one("#known", Static).update(known_content(self.known, width, self.titles))
