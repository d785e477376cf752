"""How is a store opened safely, and what does a failure say?

SQLite files are private to their owner; every write takes the write lock at its start, so two programs wait for each
other in place of overwriting. Messages are for the person at the counter and name no password.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, inspect, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import StaticPool

from interview.record.store import schema

HEADER = b"SQLite format 3\x00"


class StoreError(ValueError):
    """The store cannot do what was asked; the message says why, and that nothing was changed."""


def default_place() -> Path:
    """Where records are kept if nobody says otherwise: in HOSEWRIGHT_STATE, or in the user's data folder.

    Made at first use, private. Raises StoreError where it cannot be made.
    """
    from platformdirs import user_data_path

    named = os.environ.get("HOSEWRIGHT_STATE")
    folder = Path(named).expanduser() if named else user_data_path("hosewright", appauthor=False)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"The folder for records, {folder}, cannot be made ({error.strerror}); name another with --store."
        ) from None
    return folder / "records.sqlite"


def address(url: str | None) -> URL:
    """The address of a store: a URL, or the path of a file."""
    if url is None or not url.strip():
        return URL.create("sqlite", database=str(default_place()))
    if "://" not in url:
        return URL.create("sqlite", database=str(Path(url).expanduser()))
    try:
        return make_url(url)
    except (ArgumentError, ValueError):
        raise StoreError(
            f"{url!r} is not the address of a store; give a file, or an address such as sqlite:///records.sqlite"
        ) from None


def shown(url: URL) -> str:
    """The address in words, without its password."""
    if url.get_backend_name() == "sqlite" and url.database:
        return str(url.database)
    return url.render_as_string(hide_password=True)


def connect(url: URL, busy_seconds: float) -> Engine:
    """An engine on the store, checked to be one and brought to today's layout."""
    sqlite = url.get_backend_name() == "sqlite"
    if sqlite:
        _prepare_file(url)
    options: dict[str, Any] = {}
    if sqlite:
        options["connect_args"] = {"timeout": busy_seconds, "check_same_thread": False}
        if url.database in (None, "", ":memory:"):
            options["poolclass"] = StaticPool  # one connection, or each would have a store of its own
    try:
        engine = create_engine(url, **options)
    except (NoSuchModuleError, ModuleNotFoundError, ArgumentError, TypeError):
        raise StoreError(
            f"{shown(url)}: this installation has no driver for such a store; use a SQLite file."
        ) from None
    if sqlite:
        _sqlite_habits(engine)
    try:
        _check_layout(engine, url)
    except BaseException:
        engine.dispose()
        raise
    return engine


def _prepare_file(url: URL) -> None:
    name = url.database
    if name in (None, "", ":memory:") or str(name).startswith("file:"):
        return
    path = Path(str(name))
    try:
        if path.is_dir():
            raise StoreError(f"{path} is a folder; name the file of the store, for example {path / 'records.sqlite'}")
        if not path.parent.is_dir():
            raise StoreError(f"There is no folder {path.parent}; make it first, or choose another place.")
        if not path.exists():
            os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
            return
        with path.open("rb") as file:
            start = file.read(len(HEADER))
    except StoreError:
        raise
    except PermissionError:
        raise StoreError(f"{path} may not be opened; ask its owner, or choose another store.") from None
    except (OSError, ValueError) as error:
        told = getattr(error, "strerror", None) or "the name cannot be used"
        raise StoreError(f"{path} cannot be opened as a store ({told}).") from None
    if start and start != HEADER:
        raise StoreError(f"{path} is not a record store and was left as it is; choose another file.")


def _sqlite_habits(engine: Engine) -> None:
    @event.listens_for(engine, "connect")
    def on_connect(raw: sqlite3.Connection, _record: object) -> None:
        raw.isolation_level = None  # transactions begin where we say
        raw.execute("PRAGMA foreign_keys = ON")
        raw.execute("PRAGMA synchronous = FULL")

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _check_layout(engine: Engine, url: URL) -> None:
    with worded(url):
        with engine.connect() as connection:
            tables = set(inspect(connection).get_table_names())
            known = schema.META.name in tables
            have = _version(connection, url) if known else None
        if have == schema.VERSION:
            return
        if not known and tables and url.get_backend_name() == "sqlite":
            raise StoreError(
                f"{shown(url)} is a database of something else and was left as it is; choose another file."
            )
        with engine.execution_options(writes=True).begin() as connection:
            # asked again under the write lock: another program may have done it meanwhile
            if schema.META.name not in inspect(connection).get_table_names():
                schema.create(connection)
                return
            try:
                schema.upgrade(connection, _version(connection, url))
            except schema.NewerLayout as newer:
                raise StoreError(
                    f"{shown(url)} was written by a later version of this program (layout {newer}, this one knows "
                    f"{schema.VERSION}); it was left as it is. Install the later version."
                ) from None


def _version(connection: Connection, url: URL) -> int:
    try:
        return schema.version(connection)
    except ValueError:
        raise StoreError(
            f"{shown(url)} does not say in which layout it is: it is damaged. Bring back a copy."
        ) from None


@contextmanager
def worded(url: URL) -> Iterator[None]:
    """Turns what the database says into a sentence."""
    try:
        yield
    except DBAPIError as error:
        raise StoreError(_sentence(error, shown(url))) from None
    except SQLAlchemyError as error:
        raise StoreError(f"The record store {shown(url)} failed: {str(error).splitlines()[0][:200]}") from None


def _sentence(error: DBAPIError, place: str) -> str:
    name = str(getattr(error.orig, "sqlite_errorname", ""))
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return f"The record store {place} is in use by another program; nothing was saved. Try again in a moment."
    if name.startswith("SQLITE_READONLY"):
        return f"The record store {place} can only be read; nothing was saved. Choose another store with --store."
    if name.startswith("SQLITE_NOTADB"):
        return (
            f"{place} is not a record store, or is damaged; it was left as it is. Bring back a copy or choose another."
        )
    if name.startswith("SQLITE_CORRUPT"):
        return f"The record store {place} is damaged or only half written. Bring back a copy; nothing was changed."
    if name.startswith("SQLITE_FULL"):
        return f"The disk of {place} is full; nothing was saved. Make room and save again."
    if name.startswith("SQLITE_CANTOPEN"):
        return f"The record store {place} cannot be opened; look whether the folder is there and may be written."
    if name.startswith("SQLITE_IOERR"):
        return f"The disk of {place} failed while it was used; nothing was saved."
    return f"The record store {place} failed: {str(error.orig).splitlines()[0][:200] if str(error.orig) else name}"
