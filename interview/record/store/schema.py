"""How are records laid out in the store, and how does an older layout become today's?

One row a revision, never changed afterwards but for the mark of the newest. The contents of a record lie in a table of
their own, so that a search reads only the narrow columns; the search index holds them in the order results are shown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sqlalchemy import (
    Column,
    Connection,
    Float,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    select,
    update,
)

VERSION = 1

METADATA = MetaData()

META = Table(
    "hosewright_meta",
    METADATA,
    Column("name", String(40), primary_key=True),
    Column("value", String(200), nullable=False),
)

REVISION = Table(
    "hosewright_revision",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("number", String(32), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("newest", Integer, nullable=False),  # 1 for the last revision of its number
    Column("day", String(10), nullable=False),  # ISO date the record was made
    Column("saved", String(32), nullable=False),  # ISO date and time, UTC
    Column("customer", String(200), nullable=False),
    Column("machine", String(200), nullable=False),
    Column("tag", String(200), nullable=False),
    Column("customer_key", String(200), nullable=False),  # as searched: small letters, no accents
    Column("machine_key", String(200), nullable=False),
    Column("tag_key", String(200), nullable=False),
    Column("construction", String(80), nullable=False),
    Column("bore", Float),
    Column("pressure", Float),  # bar needed
    Column("rating", Float),  # bar, of the assembly
    Column("outcome", String(20), nullable=False),
    Column("ready_for", String(20), nullable=False),
    Column("headline", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("hash", String(64), nullable=False),
    UniqueConstraint("number", "revision"),
)
Index(
    "hosewright_search",
    *(REVISION.c[name] for name in ("newest", "day", "id", "number", "customer_key", "machine_key", "tag_key")),
    *(REVISION.c[name] for name in ("construction", "bore", "pressure", "outcome", "ready_for")),
)

CONTENT = Table(
    "hosewright_content",
    METADATA,
    Column("revision_id", ForeignKey(REVISION.c.id), primary_key=True),
    Column("packed", LargeBinary, nullable=False),  # the record's JSON, zlib: a record judges some 350 hoses
)

Step = Callable[[Connection], None]

# from a version to the next; every change of layout adds its step here and raises VERSION
STEPS: Mapping[int, Step] = {}


class NewerLayout(Exception):
    """The store was written by a later version of this program."""


def create(connection: Connection) -> None:
    METADATA.create_all(connection)
    connection.execute(META.insert().values(name="version", value=str(VERSION)))


def version(connection: Connection) -> int:
    """The layout the store is in. Raises ValueError where it does not say."""
    said = connection.execute(select(META.c.value).where(META.c.name == "version")).scalar_one_or_none()
    return int(said or "")


def upgrade(connection: Connection, have: int, want: int = VERSION, steps: Mapping[int, Step] = STEPS) -> None:
    """Brings a store to today's layout inside the transaction given: all steps or none."""
    if have > want:
        raise NewerLayout(have)
    for old in range(have, want):
        steps[old](connection)
        connection.execute(update(META).where(META.c.name == "version").values(value=str(old + 1)))
