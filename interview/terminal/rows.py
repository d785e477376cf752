"""How does an event read in the conversation? Pure functions: an event becomes rows, each a margin word and a text.

Meaning is in the margin word and the sentence; colour only repeats it. No text is ever treated as markup.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from interview.dialogue import events as ev
from interview.dialogue.events import Event, Option

LONGEST_SAID = 800  # characters of one pasted line that the conversation repeats


@dataclass(frozen=True, slots=True)
class Row:
    """One entry of the book: the word in the margin, the text beside it, and what kind of entry it is."""

    label: str
    text: str
    kind: str
    options: tuple[Option, ...] = ()
    foot: str = ""  # below the options: what else may be typed


PUT = frozenset(
    ("asked", "result", "stop", "settled")
)  # kinds of entry that say what is on the table, or that nothing is


def clean(text: str) -> str:
    """Text that cannot move the cursor: control characters become a visible dot, tabs a space, newlines stay.

    >>> clean("1/2 [in]\\x1b[31m\\tred")
    '1/2 [in]·[31m red'
    """
    return "".join(
        c if c == "\n" else " " if c == "\t" else "·" if unicodedata.category(c) in ("Cc", "Cs") else c for c in text
    )


def said(text: str) -> Row:
    """What the person typed, shortened where somebody pasted a book."""
    shown = clean(text)
    if len(shown) > LONGEST_SAID:
        shown = f"{shown[:LONGEST_SAID]}… ({len(text):,} characters; all of them were read)"
    return Row("you", shown, "you")


def trouble(text: str) -> Row:
    """A fault of the program itself, in a sentence."""
    return Row("trouble", text, "trouble")


def rows_of(happened: Iterable[Event]) -> list[Row]:
    """Rows of one reply, in the order things happened, except that an emergency stands first."""
    ordered = sorted(happened, key=lambda event: not isinstance(event, ev.Emergency))
    return [row for event in ordered for row in _rows(event)]


def _rows(event: Event) -> list[Row]:
    match event:
        case ev.Asked():
            return _asked(event)
        case ev.Noted():
            label = {"read": "read off", "measured": "measured", "copied": "old hose"}.get(event.origin, "noted")
            return [Row(label, _joined(event.lines), "noted")]
        case ev.Unheard():
            return [Row("not taken", clean(event.text), "refused")]
        case ev.Refused():
            return [Row("won't do", clean(event.text), "refused")]
        case ev.Doubted():
            return [Row("which?", clean(event.text), "asked", event.options, clean(event.then))]
        case ev.Conflicted():
            return [Row("differs", clean(event.text), "asked", event.options, clean(event.then))]
        case ev.Computed():
            return [Row("worked out", clean(event.text), "worked")]
        case ev.Assumed():
            confirm = f"\nTo confirm: {event.confirm_by}" if event.confirm_by else ""
            return [Row("assumed", clean(event.text + confirm), "assumed")]
        case ev.Narrowed():
            return [Row("still fits", clean(event.text), "narrowed")]
        case ev.Warned():
            return [Row("take care", clean(event.text), "care")]
        case ev.Emergency():
            return [Row("EMERGENCY", clean(event.text), "emergency")]
        case ev.Referred():
            where = f"\n{event.where}" if event.where else ""
            return [Row("stops here", clean(event.text + where), "stop")]
        case ev.Explained():
            title = [Row("", clean(event.title), "title")] if event.title else []
            return [*title, Row("", _joined(event.lines), "explained")]
        case ev.Reviewed():
            return _reviewed(event)
        case ev.Settled():
            return [Row("settled", clean(event.text), "settled")]
        case ev.Undone():
            return [Row("taken back", clean(event.text), "noted")]
        case ev.Wrote():
            path = "" if event.path in event.text else f"\n{event.path}"
            return [Row("file", clean(event.text + path), "noted")]
        case ev.Left():
            return [Row("left", clean(event.text), "noted")]


def _joined(lines: Iterable[str]) -> str:
    return clean("\n".join(lines))


def _asked(event: ev.Asked) -> list[Row]:
    label = f"{event.step}." if event.step else "asks"
    if event.again:  # the error stands above; the question itself is still on the screen
        return [Row(label, clean(f"Still open. {_wanted(event)}".strip()), "hint")]
    foot = " ?  don't know"
    if event.many:
        none = "" if any(option.value == "none" for option in event.options) else "   ·   none of these: none"
        foot = f"several at once: 1 3{none}\n{foot}"
    elif not event.options and event.hint:
        foot = f"{event.hint}\n{foot}"
    return [Row(label, clean(event.text), "asked", event.options, clean(foot))]


def _wanted(event: ev.Asked) -> str:
    if event.options:
        return f"Wanted: a number from 1 to {len(event.options)}, the words, or ? for don't know."
    return f"Wanted: {event.hint}, or ? for don't know." if event.hint else "? for don't know."


def _reviewed(event: ev.Reviewed) -> list[Row]:
    rows = [Row("result", event.outcome, "result")]
    if event.lines:
        rows.append(Row("", _joined(event.lines), "explained"))
    if event.missing:
        rows.append(Row("missing", clean(f"for a build: {'; '.join(event.missing)}"), "missing"))
    build = "build: go on to what a build still needs\n" if event.missing else ""
    rows.append(
        Row(
            "now",
            f"accept: it stands as shown\n{build}save: keep it\nrecord FILE.md: write it\nor correct anything",
            "hint",
        )
    )
    return rows
