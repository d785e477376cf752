"""How do the screen tests wait and read? By condition, never by sleep; by plain text, never by pixels."""

from __future__ import annotations

import time
from collections.abc import Callable

from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

PATIENCE = 8.0  # seconds; a condition that has not come true by then will not


async def wait_for(pilot: Pilot[object], condition: Callable[[], bool], description: str) -> None:
    """Lets the app run until the condition holds; fails with the description and the screen as it stands."""
    end = time.monotonic() + PATIENCE
    while not condition():
        if time.monotonic() > end:
            raise AssertionError(f"waited in vain for: {description}\n{screen_text(pilot.app)}")
        await pilot.pause()


async def shows(pilot: Pilot[object], words: str) -> None:
    """Waits until these words stand on the screen, however they are broken into lines."""
    await wait_for(pilot, lambda: words in squeezed(screen_text(pilot.app)), f"{words!r} on the screen")


def screen_text(app: App[object]) -> str:
    """What stands on the screen, as lines of text."""
    return screen_lines(app.screen)


def screen_lines(screen: Screen[object]) -> str:
    strips = screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


def squeezed(text: str) -> str:
    """Words only: margins, rules and line breaks gone, so that a wrapped sentence can be looked for."""
    return " ".join(text.replace("│", " ").split())
