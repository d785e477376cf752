"""How do records travel between stores?

As one JSON file with every revision, each with its content hash, and a seal over the whole. An import takes all or
nothing: an unknown field, a wrong hash, a gap or a clash refuses the file.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from interview.record.digest import RecordTextError, canonical, content_hash, read_record, text_hash
from interview.record.model import Record
from interview.record.store.connect import StoreError

FORMAT = 1
TOP = {"hosewright_records", "seal", "records"}
ENTRY = {"number": str, "revision": int, "saved": str, "note": str, "hash": str, "record": dict}


@dataclass(frozen=True, slots=True)
class Entry:
    """One revision as it travels."""

    number: str
    revision: int
    saved: str
    note: str
    record: Record


def to_json(entries: Iterable[Entry]) -> str:
    records = [
        {
            "number": e.number,
            "revision": e.revision,
            "saved": e.saved,
            "note": e.note,
            "hash": content_hash(e.record),
            "record": e.record.model_dump(mode="json"),
        }
        for e in entries
    ]
    data = {"hosewright_records": FORMAT, "seal": text_hash(canonical(records)), "records": records}
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def from_json(text: str | bytes) -> list[Entry]:
    """The revisions of a file. Raises StoreError with what is wrong and where."""
    try:
        data: Any = json.loads(text, parse_constant=_refuse_constant, object_pairs_hook=_no_twice)
    except StoreError:
        raise
    except (ValueError, RecursionError):
        raise StoreError(
            "The file is not an export of records: it is not JSON, or was cut off. Nothing was changed."
        ) from None
    if not isinstance(data, dict) or "hosewright_records" not in data:
        raise StoreError(
            "The file is not an export of records: it does not begin with hosewright_records. Nothing was changed."
        )
    if data["hosewright_records"] != FORMAT:
        raise StoreError(
            f"The file is of a form this version does not know ({data['hosewright_records']!r}). Nothing was changed."
        )
    if unknown := sorted(set(data) - TOP):
        raise StoreError(f"The file holds a field this version does not know: {unknown[0]}. Nothing was changed.")
    records = data.get("records")
    if not isinstance(records, list) or not isinstance(data.get("seal"), str):
        raise StoreError("The file lacks its records or its seal. Nothing was changed.")
    entries = [_entry(place, item) for place, item in enumerate(records, start=1)]
    if text_hash(canonical(records)) != data["seal"]:
        raise StoreError("The file was changed after it was exported: its seal does not match. Nothing was changed.")
    return entries


def _entry(place: int, item: Any) -> Entry:
    where = f"Record {place} of the file"
    if not isinstance(item, dict):
        raise StoreError(f"{where} is not a record. Nothing was changed.")
    if unknown := sorted(set(item) - set(ENTRY)):
        raise StoreError(f"{where} holds a field this version does not know: {unknown[0]}. Nothing was changed.")
    for name, kind in ENTRY.items():
        if not isinstance(item.get(name), kind) or isinstance(item.get(name), bool):
            raise StoreError(f"{where} lacks {name}, or it is of a wrong kind. Nothing was changed.")
    if not 1 <= len(item["number"]) <= 32 or item["revision"] < 1:
        raise StoreError(f"{where} has no number and revision that can be. Nothing was changed.")
    try:
        record = read_record(item["record"])
    except RecordTextError as error:
        raise StoreError(f"{where} ({item['number']}) cannot be read: {error}. Nothing was changed.") from None
    if content_hash(record) != item["hash"]:
        raise StoreError(
            f"{where} ({item['number']}, revision {item['revision']}) was changed after it was exported: its hash does "
            "not match. Nothing was changed."
        )
    return Entry(item["number"], item["revision"], item["saved"], item["note"], record)


def _refuse_constant(name: str) -> None:
    raise StoreError(f"The file holds {name}, which is no number. Nothing was changed.")


def _no_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    data = dict(pairs)
    if len(data) != len(pairs):
        names = [name for name, _ in pairs]
        double = next(name for name in names if names.count(name) > 1)
        raise StoreError(f"The file gives the field {double} twice. Nothing was changed.")
    return data
