"""Which colours? Paper by day, lamp by night, or the terminal's own; NO_COLOR leaves plain letters.

Ink, a fainter ink for the margins, one blue for the person's own words, one red-brown for what must be minded. Nothing
is said by colour alone: every use repeats a word or a weight.
"""

from __future__ import annotations

from collections.abc import Mapping

from textual.theme import Theme

LOOKS = ("dark", "light", "terminal")


def theme_name(look: str) -> str:
    """The theme behind a look's word."""
    return f"counter-{look}"


def look_after(theme: str) -> str:
    """The look that follows the one of a theme, round and round.

    >>> look_after("counter-light"), look_after("counter-terminal")
    ('terminal', 'dark')
    """
    names = [theme_name(look) for look in LOOKS]
    return LOOKS[(names.index(theme) + 1) % len(LOOKS)]


def first_look(environ: Mapping[str, str]) -> str:
    """The look to begin with: as asked for in HOSEWRIGHT_LOOK, else by what the terminal says of its background.

    >>> first_look({"COLORFGBG": "0;15"}), first_look({"HOSEWRIGHT_LOOK": "terminal", "NO_COLOR": "1"}), first_look({})
    ('light', 'dark', 'dark')
    """
    wanted = environ.get("HOSEWRIGHT_LOOK", "")
    if wanted in LOOKS and allowed(wanted, environ):
        return wanted
    background = environ.get("COLORFGBG", "").rpartition(";")[2]
    return "light" if background in ("7", "15") else "dark"


def allowed(look: str, environ: Mapping[str, str]) -> bool:
    """Terminal colours under NO_COLOR would print black on black."""
    return look != "terminal" or not environ.get("NO_COLOR")


def themes() -> list[Theme]:
    """The three looks."""
    return [
        _paper(
            "dark",
            ink="#e4ded2",
            paper="#191817",
            faint="#9a9286",
            said="#9fc0dc",
            mind="#e0a184",
            rule="#4a463f",
            band="#24221f",
            bar="#6b655b",
            dark=True,
        ),
        _paper(
            "light",
            ink="#24211c",
            paper="#faf6ec",
            faint="#6f685c",
            said="#1c4a78",
            mind="#8f3015",
            rule="#c9c1b0",
            band="#efe9da",
            bar="#a9a08c",
            dark=False,
        ),
        Theme(
            name=theme_name("terminal"),
            ansi=True,
            dark=True,
            primary="ansi_blue",
            secondary="ansi_cyan",
            accent="ansi_cyan",
            warning="ansi_default",
            error="ansi_default",
            success="ansi_default",
            foreground="ansi_default",
            background="ansi_default",
            surface="ansi_default",
            panel="ansi_default",
            boost="ansi_default",
            variables={
                "ink": "ansi_default",
                "faint": "ansi_default",
                "said": "ansi_blue",
                "mind": "ansi_default",
                "rule": "ansi_default",
                "band": "ansi_default",
                "ansi-background": "ansi_default",
                "ansi-foreground": "ansi_default",
                "border-blurred": "ansi_default",
                "block-cursor-foreground": "ansi_black",
                "block-cursor-background": "ansi_white",
                "input-cursor-background": "ansi_default",
                "input-cursor-foreground": "ansi_default",
                "input-cursor-text-style": "reverse",
                "input-selection-background": "ansi_blue",
                "input-selection-foreground": "ansi_white",
                "screen-selection-background": "ansi_blue",
                "screen-selection-foreground": "ansi_white",
                "scrollbar": "ansi_white",
                "scrollbar-hover": "ansi_white",
                "scrollbar-active": "ansi_white",
                "scrollbar-background": "ansi_default",
                "scrollbar-background-hover": "ansi_default",
                "scrollbar-background-active": "ansi_default",
                "scrollbar-corner-color": "ansi_default",
            },
        ),
    ]


def _paper(
    name: str, *, ink: str, paper: str, faint: str, said: str, mind: str, rule: str, band: str, bar: str, dark: bool
) -> Theme:
    return Theme(
        name=theme_name(name),
        dark=dark,
        primary=said,
        secondary=faint,
        accent=said,
        warning=mind,
        error=mind,
        success=said,
        foreground=ink,
        background=paper,
        surface=paper,
        panel=band,
        boost=band,
        variables={
            "ink": ink,
            "faint": faint,
            "said": said,
            "mind": mind,
            "rule": rule,
            "band": band,
            "block-cursor-background": ink,
            "block-cursor-foreground": paper,
            "block-cursor-text-style": "none",
            "input-selection-background": rule,
            "screen-selection-background": rule,
            "scrollbar": bar,
            "scrollbar-background": paper,
            "scrollbar-corner-color": paper,
            "scrollbar-hover": faint,
            "scrollbar-active": faint,
            "scrollbar-background-hover": paper,
            "scrollbar-background-active": paper,
        },
    )
