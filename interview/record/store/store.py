"""Where are records kept, and how are they found again?

Revisions are immutable: a change is a new revision, saved only if nobody saved one meanwhile.
"""

from __future__ import annotations

import secrets
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from types import TracebackType
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, func, or_, select, update
from sqlalchemy.exc import IntegrityError

from interview.record.digest import RecordTextError, canonical_record, content_hash, read_record, text_hash
from interview.record.documents.words import clean
from interview.record.model import Record
from interview.record.store import connect, exchange
from interview.record.store.compare import Difference, for_a_person
from interview.record.store.connect import StoreError, worded
from interview.record.store.rows import Found, Stored, columns, found, mapping, search_key
from interview.record.store.schema import CONTENT, REVISION

LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"  # none that is taken for another when read over the telephone
SHOWN = 50


@dataclass(frozen=True, slots=True)
class Imported:
    added: int
    already: int


def _now() -> datetime:
    return datetime.now(UTC)


class Store:
    """An open store. Close it, or use it with `with`."""

    def __init__(
        self, url: str | None = None, *, busy_seconds: float = 5.0, clock: Callable[[], datetime] = _now
    ) -> None:
        self._url = connect.address(url)
        self._clock = clock
        self._engine = connect.connect(self._url, busy_seconds)
        self._writer = self._engine.execution_options(writes=True)

    @property
    def place(self) -> str:
        return connect.shown(self._url)

    def close(self) -> None:
        self._engine.dispose()

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # -- saving ----------------------------------------------------------------------------------------------------

    def save(self, record: Record, *, note: str = "") -> Found:
        """Files a new record under a new number, as revision 1."""
        for _ in range(20):
            number = self._new_number()
            try:
                with worded(self._url), self._writer.begin() as connection:
                    return self._insert(connection, number, 1, record, note, self._stamp())
            except _Taken:
                continue
        raise StoreError("No free record number was found today; nothing was saved. Try again.")

    def revise(self, number: str, record: Record, *, based_on: int, note: str = "") -> Found:
        """Files the next revision. `based_on` is the revision the change began from; it must still be the newest."""
        with worded(self._url), self._writer.begin() as connection:
            newest = self._newest(connection, number)
            if newest != based_on:
                raise StoreError(
                    f"Record {number} is at revision {newest}; the change began from revision {based_on}. "
                    "Somebody saved meanwhile: look at the newer revision first. Nothing was saved."
                )
            connection.execute(update(REVISION).where(REVISION.c.number == number).values(newest=0))
            return self._insert(connection, number, newest + 1, record, note, self._stamp())

    def _stamp(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds")

    def _new_number(self) -> str:
        return f"{self._clock():%y%m%d}-{''.join(secrets.choice(LETTERS) for _ in range(4))}"

    def _insert(
        self, connection: Connection, number: str, revision: int, record: Record, note: str, saved: str
    ) -> Found:
        try:
            text = canonical_record(record).encode()
        except ValueError as error:
            raise StoreError(f"The record cannot be written as JSON ({error}); nothing was saved.") from None
        row = columns(record) | {
            "number": number,
            "revision": revision,
            "newest": 1,
            "saved": saved,
            "note": clean(note, 2000),
            "hash": text_hash(text),
        }
        row["day"] = record.made[:10] or saved[:10]
        try:
            done = connection.execute(REVISION.insert().values(**row))
        except IntegrityError:
            raise _Taken(
                f"Record {number}, revision {revision}, was saved by another program meanwhile. Nothing was saved."
            ) from None
        key = done.inserted_primary_key
        assert key is not None
        connection.execute(CONTENT.insert().values(revision_id=key[0], packed=zlib.compress(text, 1)))
        return found(row)

    # -- finding ---------------------------------------------------------------------------------------------------

    def find(
        self,
        *,
        text: str = "",
        number: str = "",
        customer: str = "",
        machine: str = "",
        tag: str = "",
        construction: str = "",
        bore: float | None = None,
        pressure: tuple[float | None, float | None] = (None, None),
        since: str = "",
        until: str = "",
        outcome: str = "",
        ready_for: str = "",
        all_revisions: bool = False,
        limit: int = SHOWN,
    ) -> list[Found]:
        """The newest first.

        Names are found by any part of them, `text` in any of the names or as the beginning of the number; `bore` in
        sixteenths of an inch, `pressure` as the range in bar that was needed, `since` and `until` as ISO dates, both
        included.
        """
        c = REVISION.c
        wanted: list[ColumnElement[bool]] = []
        if not all_revisions:
            wanted.append(c.newest == 1)
        names = (c.customer_key, c.machine_key, c.tag_key)
        if key := search_key(text):
            anywhere = [column.contains(key, autoescape=True) for column in names]
            wanted.append(or_(*anywhere, c.number.between(key.upper(), f"{key.upper()}~")))
        for column, part in zip(names, (customer, machine, tag), strict=True):
            if key := search_key(part):
                wanted.append(column.contains(key, autoescape=True))
        for column, exact in ((c.construction, construction), (c.outcome, outcome), (c.ready_for, ready_for)):
            if exact:
                wanted.append(column == exact)
        if begin := number.strip().upper():
            wanted.append(c.number.between(begin, f"{begin}~"))
        if bore is not None:
            wanted.append(c.bore == bore)
        low, high = pressure
        if low is not None:
            wanted.append(c.pressure >= low)
        if high is not None:
            wanted.append(c.pressure <= high)
        if since:
            wanted.append(c.day >= since)
        if until:
            wanted.append(c.day <= until)
        keys = select(c.id).where(*wanted).order_by(c.day.desc(), c.id.desc()).limit(max(0, limit))
        query = select(REVISION).where(c.id.in_(keys)).order_by(c.day.desc(), c.id.desc())
        with worded(self._url), self._engine.connect() as connection:
            return [found(mapping(row)) for row in connection.execute(query)]

    def count(self) -> int:
        """How many records there are, each once."""
        query = select(func.count()).select_from(REVISION).where(REVISION.c.newest == 1)
        with worded(self._url), self._engine.connect() as connection:
            return int(connection.execute(query).scalar_one())

    def history(self, number: str) -> list[Found]:
        """All revisions of a record, the oldest first."""
        query = select(REVISION).where(REVISION.c.number == number).order_by(REVISION.c.revision)
        with worded(self._url), self._engine.connect() as connection:
            rows = [found(mapping(row)) for row in connection.execute(query)]
        if not rows:
            raise StoreError(f"There is no record {clean(number, 40)} in {self.place}.")
        return rows

    def load(self, number: str, revision: int | None = None) -> Stored:
        """A record by its number; the newest revision unless one is named. Its hash is checked."""
        query = self._texts().where(REVISION.c.number == number)
        query = query.where(REVISION.c.newest == 1 if revision is None else REVISION.c.revision == revision)
        with worded(self._url), self._engine.connect() as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            which = f" with a revision {revision}" if revision is not None else ""
            raise StoreError(f"There is no record {clean(number, 40)}{which} in {self.place}.")
        return self._stored(row)

    def each(self, *, all_revisions: bool = False) -> Iterator[Stored]:
        """Every record, read one at a time: for checking them again, or for an export."""
        numbers = select(REVISION.c.id).order_by(REVISION.c.number, REVISION.c.revision)
        if not all_revisions:
            numbers = numbers.where(REVISION.c.newest == 1)
        with worded(self._url), self._engine.connect() as connection:
            keys = list(connection.execute(numbers).scalars())
        for key in keys:
            with worded(self._url), self._engine.connect() as connection:
                row = connection.execute(self._texts().where(REVISION.c.id == key)).one()
            yield self._stored(row)

    def compare(self, number: str, before: int, after: int) -> tuple[Difference, ...]:
        """What differs between two revisions, of what a person would compare."""
        return for_a_person(self.load(number, before).record, self.load(number, after).record)

    @staticmethod
    def _texts() -> Any:
        return select(REVISION, CONTENT.c.packed).join(CONTENT, CONTENT.c.revision_id == REVISION.c.id)

    def _stored(self, row: Row[Any]) -> Stored:
        values = mapping(row)
        packed = values.pop("packed")
        head = found(values)
        try:
            text = zlib.decompress(packed)
            record = read_record(text)
        except (RecordTextError, zlib.error) as error:
            raise StoreError(f"Record {head.number}, revision {head.revision}, cannot be read: {error}.") from None
        if text_hash(text) != head.hash:
            raise StoreError(
                f"Record {head.number}, revision {head.revision}, is not as it was saved: its hash does not match. "
                "Do not build from it; bring back a copy of the store."
            )
        return Stored(head, record)

    @staticmethod
    def _newest(connection: Connection, number: str) -> int:
        newest = connection.execute(select(func.max(REVISION.c.revision)).where(REVISION.c.number == number)).scalar()
        if newest is None:
            raise StoreError(f"There is no record {clean(number, 40)}; nothing was saved.")
        return int(newest)

    # -- exchange --------------------------------------------------------------------------------------------------

    def export_json(
        self, numbers: list[str] | None = None, progress: Callable[[int, int], None] = lambda done, total: None
    ) -> str:
        """Records with all their revisions as one JSON file; all records unless numbers are given.

        `progress` is told how many revisions are done, and of how many.
        """
        if numbers is None:
            with worded(self._url), self._engine.connect() as connection:
                total = int(connection.execute(select(func.count()).select_from(REVISION)).scalar_one())
            stored: Iterator[Stored] = self.each(all_revisions=True)
        else:
            heads = [found for number in dict.fromkeys(numbers) for found in self.history(number)]
            total = len(heads)
            stored = (self.load(head.number, head.revision) for head in heads)
        entries = []
        for done, one in enumerate(stored, start=1):
            entries.append(
                exchange.Entry(one.found.number, one.found.revision, one.found.saved, one.found.note, one.record)
            )
            progress(done, total)
        return exchange.to_json(entries)

    def import_json(self, text: str | bytes) -> Imported:
        """Takes over the records of an export: all of them or, with a StoreError, none."""
        entries = sorted(exchange.from_json(text), key=lambda e: (e.number, e.revision))
        added = 0
        with worded(self._url), self._writer.begin() as connection:
            for entry in entries:
                added += self._take(connection, entry)
        return Imported(added, len(entries) - added)

    def _take(self, connection: Connection, entry: exchange.Entry) -> int:
        known = {
            revision: digest
            for revision, digest in connection.execute(
                select(REVISION.c.revision, REVISION.c.hash).where(REVISION.c.number == entry.number)
            )
        }
        if entry.revision in known:
            if known[entry.revision] != content_hash(entry.record):
                raise StoreError(
                    f"Record {entry.number}, revision {entry.revision}, is in this store with other contents. "
                    "Nothing was changed."
                )
            return 0
        if entry.revision != max(known, default=0) + 1:
            raise StoreError(
                f"Record {entry.number}: revision {entry.revision} would leave a gap after revision "
                f"{max(known, default=0)}. Nothing was changed."
            )
        connection.execute(update(REVISION).where(REVISION.c.number == entry.number).values(newest=0))
        self._insert(connection, entry.number, entry.revision, entry.record, entry.note, entry.saved[:32])
        return 1


class _Taken(StoreError):
    """The number is in use."""


def open_store(url: str | None = None, *, busy_seconds: float = 5.0, clock: Callable[[], datetime] = _now) -> Store:
    """Opens the store at a file or URL, by default in the user's data directory; made at first use.

    Raises StoreError with a sentence where it cannot be used; nothing is then changed.
    """
    return Store(url, busy_seconds=busy_seconds, clock=clock)
