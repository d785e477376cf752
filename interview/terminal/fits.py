"""What still fits? Counts and candidates as text for the side column, the status line and the full view.

A verdict is a sign and a word, never a colour: + fits, ? open, × out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from interview.terminal.rows import clean

if TYPE_CHECKING:
    from interview.dialogue.fit_view import FitLine, FitView

SIGNS = {"fits": "+", "open": "?", "fails": "×"}
NOTHING_YET = "Nothing is ruled out yet: every hose of the tables stands until an answer speaks against it."
BESIDE = 6  # candidates in the side column; F4 has the rest
BESIDE_SHORT = 3  # the same on a screen of few lines


def counts(view: FitView) -> str:
    """The three numbers in words."""
    return f"{view.fits} fit · {view.open} open · {view.fails} out"


def verdict_words(line: FitLine) -> str:
    """Why it stands where it stands, in a few words."""
    if line.verdict == "fits":
        margin = f", {line.margin:.0%} to spare" if line.margin is not None else ""
        return f"fits{margin}"
    word = "out" if line.verdict == "fails" else line.verdict
    return f"{word}: {clean(line.blocked_by)}" if line.blocked_by else word


def shelf_words(line: FitLine) -> str:
    return f"; on the shelf: {clean(line.shelf)}" if line.shelf else ""


def fits_content(view: FitView, width: int, most: int = BESIDE) -> Content:
    """The side column: counts, then the candidates, the recommended one first and in bold."""
    parts = [Content.styled(counts(view), "$faint")]
    if not view.fits and not view.fails:
        return Content("\n").join([*parts, Content.styled(NOTHING_YET, "$faint")])
    parts.extend(beside_line(line, width) for line in view.lines[:most])
    if len(view.lines) > most:
        parts.append(Content.styled("F4 shows more, and why not", "italic $faint"))
    return Content("\n").join(parts)


def beside_line(line: FitLine, width: int) -> Content:
    """For the side column: the first choice with its reason whole, the others with as much as one line holds."""
    sign = SIGNS.get(line.verdict, "?")
    words = clean(line.name)
    if cell_len(words) + 2 > width:
        words = words.partition(" (")[0]  # the size in one way of saying it is enough here
    name = Content(f"{sign} {words}").truncate(width, ellipsis=True)
    told = f"{clean(line.rating or '').partition(' (')[0]}; {verdict_words(line)}"
    if line.recommended:
        return Content("\n").join([name.stylize("bold"), _indented(f"first choice, {told}{shelf_words(line)}", width)])
    if line.shelf:
        told = f"on the shelf; {told}"
    return Content("\n").join([name, Content(f"  {told}").truncate(width, ellipsis=True).stylize("$faint")])


def fit_line(line: FitLine, width: int) -> Content:
    """Sign, name and rating; below it the verdict in words and the twins."""
    sign = SIGNS.get(line.verdict, "?")
    name, rating = clean(line.name), clean(line.rating or "")
    first = width - 2 - cell_len(rating) - 1
    if cell_len(name) > first:
        name = Content(name).truncate(max(first, 8), ellipsis=True).plain
    gap = max(1, width - 2 - cell_len(name) - cell_len(rating))
    weight = "bold" if line.recommended else ""
    below = verdict_words(line)
    below += shelf_words(line)
    if line.recommended:
        below = f"first choice; {below}"
    if line.twins:
        below = f"{below}; counterpart: {', '.join(map(clean, line.twins))}"
    return Content.assemble(
        (f"{sign} {name}{' ' * gap}{rating}", weight),
        "\n",
        _indented(below, width),
    )


def _indented(text: str, width: int) -> Content:
    lines = Content(text).wrap(max(width - 2, 10))
    return Content("\n").join([Content("  ").append(line) for line in lines]).stylize("$faint")
