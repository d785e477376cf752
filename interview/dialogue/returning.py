"""How does an interview come back? From a stored record's facts, or from its journal, whose lines are said again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.journal import Journal
from interview.dialogue.machine import REVIEW
from interview.dialogue.state import State
from interview.facts import Fact, Origin, from_json_value

if TYPE_CHECKING:
    from interview.dialogue.session import Session


def take_over(
    session: Session,
    facts: Mapping[str, Mapping[str, object]],
    ask_again: Sequence[str] = (),
    *,
    job: str | None = None,
    revises: tuple[str, int] | None = None,
    home: str | None = None,
) -> list[ev.Event]:
    """Facts of a stored record, but for those that may have changed since; they are asked again.

    `facts` carry value (JSON unit), origin, said, unit said; `home` is the record's: whose units come first. What
    stood here makes room (undo brings it back).
    Raises ValueError for what is no value of a fact.
    """
    taken: dict[str, object] = {n: dict(f) for n, f in facts.items()}
    session.keep({"facts": taken, "again": list(ask_again), "job": job, "revises": revises, "home": home})
    session.new_turn()
    session.now = State(home=home or session.home, job=job or session.now.job, revises=revises)
    session.now.ledger.put(Fact("job_kind", session.now.job, Origin.COMPUTED, because="the flow it runs in"))
    session.asked, session.to_ask = None, None
    for name, stored in facts.items():
        origin = Origin(str(stored.get("origin", "stated")))
        if (
            name in ("job_kind", *ask_again)
            or name not in CATALOGUE
            or origin in (Origin.COMPUTED, Origin.ASSUMED, Origin.UNKNOWN)
        ):
            continue
        session.now.ledger.put(
            Fact(
                name,
                from_json_value(name, stored.get("value")),
                origin,
                str(stored.get("said", "")),
                str(stored.get("unit_said", "")),
                session.turn,
                bool(stored.get("hedged", False)),
            ),
            corrects=True,
        )
    session.changed()
    return session.go_on()


def resume(session: Session) -> list[ev.Event]:
    """Goes on with the interview that was left: its lines are replayed, its journal is written on."""
    if session.earlier is None or session.past:
        return [ev.Explained("", ("There is no unfinished interview to go on with.",))]
    journal = Journal.open(session.earlier)
    if session.journal is not None:
        session.journal.discard()
    return replay(session, journal)


def replay(session: Session, journal: Journal) -> list[ev.Event]:
    """Stands where the journal stands, and writes on in it."""
    session.begin(journal.home, journal.job)
    session.open()
    for entry in list(journal.lines()):
        if "facts" in entry:
            revises = entry.get("revises")
            take_over(
                session,
                entry["facts"],
                entry.get("again", ()),
                job=entry.get("job"),
                revises=(str(revises[0]), int(revises[1])) if revises else None,
                home=entry.get("home"),
            )
        else:
            session.say(str(entry["said"]))
    session.journal = journal
    if journal.ended and session.state == REVIEW:
        session.conversation.move("accept")
    return session.open()
