"""What can a face do with the record? Write it, keep it in the store, look one up, revise or repeat it: as typed lines.

A `CounterSession` is what faces talk to: what concerns records is done here, every other line is the interview's.
"""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from interview.dialogue import events as ev
from interview.dialogue.session import Session

if TYPE_CHECKING:
    from interview.record.documents.page import Filed
    from interview.record.store import Store

LINE = re.compile(
    r"/?(?:(?P<record>record)(?:\s+(?P<path>\S.*?))?(?P<over>\s+overwrite)?"
    r"|(?P<sheet>build sheet|tag|drawing)(?:\s+(?P<sheetpath>\S.*?))?(?P<sheetover>\s+overwrite)?"
    r"|(?P<save>save)(?:\s+(?P<note>\S.*))?"
    r"|(?P<records>records)(?:\s+(?P<word>\S.*))?"
    r"|(?P<open>revise|repeat)\s+(?P<number>[0-9A-Za-z-]{4,30}))\s*\Z",
    re.IGNORECASE,
)
ASK_AGAIN = {
    "revise": (),
    "repeat": (
        "medium",
        "viscosity_grade",
        "relief_setting",
        "working_pressure",
        "surge_pressure",
        "failure_sign",
        "repeat_failure",
        "regulated_use",
    ),
}


class CounterSession(Session):
    """An interview with the shop's drawer of records beside it."""

    store_url: str | None = None
    first_line: str = ""  # typed for the user at the start, in place of the first question: "revise NUMBER"

    def open(self) -> list[ev.Event]:
        """As `Session.open`, or what the first line brings."""
        events = super().open()
        line, self.first_line = self.first_line, ""
        return self.say(line) if line else events

    def say(self, text: str) -> list[ev.Event]:
        """Anything typed; see `Session.say`."""
        done = None if self.left else about_records(text, self, self.store_url)
        return super().say(text) if done is None else done


def about_records(text: str, session: Session, store_url: str | None = None) -> list[ev.Event] | None:
    """The events of a line that concerns records; None for every other line."""
    found = LINE.match(text.strip())
    if found is None or (found["open"] and not any(c.isdigit() for c in found["number"])):
        return None
    try:
        if found["record"]:
            return [_write(session, found["path"], "specification", bool(found["over"]))]
        if found["sheet"]:
            kind = found["sheet"].lower().replace(" ", "-")
            return [_write(session, found["sheetpath"], kind, bool(found["sheetover"]))]
        from interview.record.store import open_store

        with open_store(store_url) as store:
            if found["save"]:
                return [_save(session, store, found["note"] or "")]
            if found["records"]:
                from interview.record.store.commands import listed

                return [
                    ev.Explained("Records", tuple(listed(store, found["word"] or "")) or (f"None in {store.place}.",))
                ]
            return _open(session, store, found["open"].lower(), found["number"].upper())
    except ValueError as error:
        return [ev.Refused(text.strip(), str(error))]


def _now() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")


def _filed(session: Session) -> Filed:
    from interview.record.documents.page import NOT_FILED, Filed

    return Filed(*session.now.revises) if session.now.revises else NOT_FILED


def _write(session: Session, name: str | None, kind: str, overwrite: bool) -> ev.Event:
    """A document under the name typed, or under one that says what it is."""
    # The documents are imported when one is wanted: the first question does not wait for them.
    from interview.record.assemble import record_of
    from interview.record.documents.files import DocumentError, document_name, write_document
    from interview.record.documents.make import FORMS, make

    record, filed = record_of(session, made=_now()), _filed(session)
    path = Path(name or document_name(record, kind, FORMS[kind][0], filed)).expanduser()
    form = path.suffix.lower().lstrip(".")
    if form not in FORMS[kind]:
        raise DocumentError(f'"{name}": the ending says the kind of file; use .{", .".join(FORMS[kind])}.')
    written = write_document(path, make(record, kind, form, filed), overwrite=overwrite)
    return ev.Wrote(str(written), f"Written: {written}")


def _save(session: Session, store: Store, note: str) -> ev.Event:
    from interview.record.assemble import record_of
    from interview.record.store.compare import unchanged

    record = record_of(session, made=_now())
    if session.now.revises is not None:
        number, revision = session.now.revises
        if not note and unchanged(store.load(number, revision).record, record):
            return ev.Wrote(
                store.place, f"Nothing changed since {number}, revision {revision}: no new revision was made."
            )
        kept = store.revise(number, record, based_on=revision, note=note)
    else:
        kept = store.save(record, note=note)
    before, now = session.now.revises, (kept.number, kept.revision)
    for state in (*session.past, session.now):  # taking an answer back does not take back that it was saved
        if state.revises == before:
            state.revises = now
    return ev.Wrote(store.place, f"Kept as {kept.number}, revision {kept.revision}, in {store.place}.")


def _open(session: Session, store: Store, way: str, number: str) -> list[ev.Event]:
    from interview.record.recheck import decided_otherwise

    stored = store.load(number)
    facts = {n: line.model_dump(mode="json") for n, line in stored.record.facts.items()}
    otherwise = decided_otherwise(stored.record)
    told: list[ev.Event] = [ev.Explained(f"{number}, revision {stored.found.revision}", (stored.found.headline,))]
    if otherwise:
        told.append(ev.Explained("Today it would be decided otherwise", tuple(otherwise)))
    revises = (number, stored.found.revision) if way == "revise" else None
    job = "repeat" if way == "repeat" else stored.record.job
    return [*told, *session.take_over(facts, ASK_AGAIN[way], job=job, revises=revises, home=stored.record.home)]
