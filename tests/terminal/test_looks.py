"""Does the page look as it did? Four pictures of the screen; all else is tested by its words.

They are drawn with a scripted session. After a change that is meant: `pytest tests/terminal/test_looks.py
--snapshot-update`, then look at each before it is kept.
"""

from __future__ import annotations

from typing import Any

from fake_session import FakeSession
from screen_helpers import screen_text, wait_for
from textual.pilot import Pilot

from interview.terminal.app import CounterApp
from interview.terminal.prompt import Prompt


async def _conversation(pilot: Pilot[int]) -> None:
    await wait_for(pilot, lambda: "Which line of the machine" in screen_text(pilot.app), "the first question")
    for line in ("pressure line [valve to ram]", "bad", "none"):
        pilot.app.screen.query_one(Prompt).value = line
        await pilot.press("enter")
    await wait_for(pilot, lambda: "What pressure does the line" in screen_text(pilot.app), "the third question")


async def _fits(pilot: Pilot[int]) -> None:
    await _conversation(pilot)
    await pilot.press("f4")
    await wait_for(pilot, lambda: "why not" in screen_text(pilot.app), "the candidates")
    await pilot.press("c", "down", "c")
    await wait_for(pilot, lambda: "en857-2sc 8" in screen_text(pilot.app), "the two compared")


def test_conversation_on_a_small_dark_screen(snap_compare: Any) -> None:
    assert snap_compare(CounterApp(FakeSession, look="dark"), terminal_size=(80, 24), run_before=_conversation)


def test_conversation_on_a_wide_light_screen(snap_compare: Any) -> None:
    assert snap_compare(CounterApp(FakeSession, look="light"), terminal_size=(120, 40), run_before=_conversation)


def test_conversation_in_the_terminals_own_colours(snap_compare: Any) -> None:
    assert snap_compare(CounterApp(FakeSession, look="terminal"), terminal_size=(80, 24), run_before=_conversation)


def test_two_candidates_compared(snap_compare: Any) -> None:
    assert snap_compare(CounterApp(FakeSession, look="dark"), terminal_size=(100, 30), run_before=_fits)
