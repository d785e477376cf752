"""What do the words that steer do? Take back, correct, ask again, put off, jump, accept, go on to a build."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.agenda import answered, due_parts
from interview.dialogue.machine import REFERRED, REVIEW

if TYPE_CHECKING:
    from interview.dialogue.session import Session
    from interview.language.model import Heard


def undo(session: Session) -> list[ev.Event]:
    """Takes back the last turn."""
    if not session.past:
        return [ev.Undone("There is nothing to take back.")]
    session.now = session.past.pop()
    session.changed()
    session.asked, session.to_ask = None, None
    return [ev.Undone("The last answer is taken back."), *session.go_on()]


def correct(session: Session, name: str, heard: Heard) -> list[ev.Event]:
    """A correction: supersedes, and what rested on the old value is worked out anew."""
    session.new_turn()
    return [*session.put([heard], corrects=True), *session.go_on()]


def reopen(session: Session, names: Sequence[str]) -> list[ev.Event]:
    """Takes facts back and asks for them again."""
    session.new_turn()
    session.now.ledger.withdraw(names)
    session.now.offered = session.now.offered - set(names)
    session.changed()
    return session.go_on()


def put_off(session: Session) -> list[ev.Event]:
    """Comes back to the present question at the end."""
    if session.to_ask is None:
        return [ev.nothing_open()]
    session.now.skipped = session.now.skipped | set(session.to_ask.parts)
    return session.go_on()


def go_to(session: Session, topic: str) -> list[ev.Event]:
    """Jumps to a topic: its open questions first, or what is known of it to be corrected."""
    situation = session.situation()
    others = {f for t in session.flow.job.turns for f in t.asks if CATALOGUE[f].topic != topic}
    here = [t for t in session.flow.job.turns if t.asks and CATALOGUE[t.asks[0]].topic == topic]
    if any(due_parts(t, situation) for t in here):
        session.now.skipped = frozenset(f for f in others if not answered(f, situation))
        return session.go_on()
    lines = [line for line in session.known_lines() if line.topic == topic]
    said = tuple(f"{line.label}: {line.shown}" for line in lines) or ("Nothing is open here.",)
    return [ev.Explained(f"{session.flow.title(topic)}: nothing is open", (*said, "To correct: change FACT to VALUE."))]


def accept(session: Session) -> list[ev.Event]:
    """Settles the specification as reviewed."""
    if session.state != REVIEW:
        if session.state == REFERRED:
            return [ev.Explained("", ('This job was referred: there is nothing to accept. "change" corrects a fact.',))]
        return [ev.Explained("", ('There is still something to ask; "later" puts a question off.',))]
    session.keep({"ended": "accepted"})
    session.conversation.move("accept")
    return [ev.Settled('Accepted as it stands. "save" keeps it in the store; "record FILE.md" writes it.')]


def build(session: Session) -> list[ev.Event]:
    """Goes on to what a build still needs."""
    session.new_turn()
    session.now.for_build = True
    missing = set(session.standing().missing_for_build)
    again = [n for n in missing if n in CATALOGUE and session.said.answered(n) and not session.said.has(n)]
    session.now.ledger.withdraw(again)
    session.now.offered = frozenset()
    session.changed()
    return session.go_on()
