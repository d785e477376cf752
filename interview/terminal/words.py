"""Which words does the screen answer itself? The rest of what is typed goes to the interview untouched."""

from __future__ import annotations

SCREEN_WORDS = {
    "help": "help",
    "?help": "help",
    "keys": "help",
    "facts": "known",
    "known": "known",
    "fits": "fits",
    "topics": "topics",
    "pictures": "pictures",
    "drawing": "pictures",
    "look": "look",
    "look dark": "look('dark')",
    "look light": "look('light')",
    "look terminal": "look('terminal')",
}


def screen_action(text: str) -> str | None:
    """The screen's action behind a word, with or without the slash.

    >>> screen_action("/Fits"), screen_action("2500 psi")
    ('fits', None)
    """
    return SCREEN_WORDS.get(" ".join(text.strip().removeprefix("/").lower().split()))
