"""The same interview line by line on stdin and stdout: for pipes, screen readers, slow links. It only renders."""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Callable, Iterable, Iterator
from typing import TextIO

from interview.dialogue import events as ev
from interview.dialogue.journal import JournalError
from interview.dialogue.session import Session

WIDTH = 78
RAGGED = re.compile(r"[^\S ]|  |^ | $")  # space that wrapping would mend


def wrapped(text: str, indent: str = "", first: str | None = None) -> str:
    """Text wrapped to the page, with a hanging indent."""
    start = indent if first is None else first
    if len(start) + len(text) <= WIDTH and not RAGGED.search(text):
        return start + text  # most lines are short, and the wrapping of text costs more than the judging of hoses
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=start,
        subsequent_indent=indent,
        break_long_words=True,
        break_on_hyphens=False,
    )


def lines_of(event: ev.Event) -> Iterator[str]:
    """One event as lines of plain text."""
    match event:
        case ev.Asked():
            yield from _asked(event)
        case ev.Noted():
            for line in event.lines:
                yield wrapped(line, "    ", "  + ")
        case ev.Unheard() | ev.Computed() | ev.Narrowed() | ev.Undone() | ev.Left() | ev.Settled() | ev.Wrote():
            yield wrapped(event.text, "    ", "  = " if isinstance(event, ev.Computed) else "  ")
        case ev.Refused():
            yield wrapped(event.text, "    ", "  x ")
        case ev.Assumed():
            how = event.confirm_by or "ask whoever runs the machine"
            yield wrapped(f"Assumed: {event.text} To confirm: {how}.", "    ", "  ~ ")
        case ev.Warned():
            yield wrapped(f"CAUTION. {event.text}", "    ", "  ! ")
        case ev.Emergency():
            yield "*" * WIDTH
            yield wrapped(event.text)
            yield "*" * WIDTH
        case ev.Referred():
            yield ""
            yield wrapped(event.text)
            yield wrapped(f"Where to go: {event.where}")
        case ev.Doubted() | ev.Conflicted():
            yield ""
            yield wrapped(event.text)
            for i, option in enumerate(event.options, 1):
                yield wrapped(option.label, "      ", f"  {i:>2}. ")
            if event.then:
                yield wrapped(event.then, "  ")
        case ev.Explained():
            if event.title:
                yield ""
                yield event.title
            for line in event.lines:
                yield wrapped(line, "    ", "  " if event.title else "")
        case ev.Reviewed():
            yield ""
            yield f"Review: {event.outcome}"
            for line in event.lines:
                yield wrapped(line, "    ", "  ")
            if event.missing:
                yield wrapped("Missing for build: " + "; ".join(event.missing) + ".", "    ", "  ")
            yield wrapped(
                '"accept" lets it stand, "build" goes on to what a build needs, "change X to Y" corrects, '
                '"save" keeps it, "record FILE.md" writes it.',
                "    ",
                "  ",
            )


def _asked(event: ev.Asked) -> Iterator[str]:
    if not event.again:
        yield ""
        yield wrapped(event.text, "   ", f"{event.step}. ")
        if len(event.options) > 12:
            yield wrapped("; ".join(f"{i} {o.label}" for i, o in enumerate(event.options, 1)), "   ")
        else:
            for i, option in enumerate(event.options, 1):
                yield wrapped(option.label, "      ", f"  {i:>2}. ")
    if event.hint:
        yield wrapped(f"({event.hint})", "    ", "   ")


def write(events: Iterable[ev.Event], out: TextIO) -> None:
    for event in events:
        for line in lines_of(event):
            out.write(line + "\n")
    out.flush()


def converse(
    session: Session,
    events: Iterable[ev.Event],
    source: TextIO | None = None,
    out: TextIO | None = None,
    *,
    prompt: bool = True,
    warm: Callable[[], None] = lambda: None,
) -> None:
    """Runs until the user leaves or the input ends. `warm` loads what the first answer needs."""
    source, out = source or sys.stdin, out or sys.stdout
    write(events, out)
    out.flush()
    warm()
    while not session.left:
        if prompt:
            out.write("> ")
            out.flush()
        line = source.readline()
        if not line:
            write(session.leave(), out)
            return
        try:
            write(session.say(line), out)
        except JournalError as error:
            write([ev.Refused(line.strip(), str(error))], out)
