"""What is the exact text of a record, and how is it known again?

The content hash is the SHA-256 of what the record says beyond its defaults, as JSON without spare space, fields in the
model's order and facts sorted by name: the same on every machine, the same after a later version has added a field, and
printed on every document, so that a page can be matched with the record it was made from.
"""

from __future__ import annotations

import hashlib
import json
import re
from typing import Any

from pydantic import ValidationError
from pydantic_core import PydanticSerializationError

from interview.record.model import Record

MAYBE_NOT_FINITE = re.compile(r"[:,\[](NaN|-?Infinity)[,}\]]")


class RecordTextError(ValueError):
    """The text is not a record; the message says what is wrong with it."""


def canonical(data: object) -> str:
    """JSON with sorted keys; NaN and infinity, which JSON does not know, are refused."""
    return json.dumps(data, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def canonical_record(record: Record) -> str:
    """The record's text: what the store keeps and the hash is taken of. No default of the model may ever change.

    Raises ValueError for a number that JSON does not know.
    """
    try:
        text = _sorted(record).model_dump_json(exclude_defaults=True)
    except PydanticSerializationError:
        text = _sorted(mended(record)).model_dump_json(exclude_defaults=True)
    if ("NaN" in text or "Infinity" in text) and MAYBE_NOT_FINITE.search(text):
        json.loads(text, parse_constant=_refuse)
    return text


def mended(record: Record) -> Record:
    """The record with a question mark for each half of a character: bytes a terminal sent that are no letters."""

    def whole(value: Any) -> Any:
        if isinstance(value, str):
            return value.encode("utf-8", "replace").decode()
        if isinstance(value, dict):
            return {whole(name): whole(inner) for name, inner in value.items()}
        return [whole(inner) for inner in value] if isinstance(value, (list, tuple)) else value

    return Record.model_validate(whole(record.model_dump()))


def text_hash(text: str | bytes) -> str:
    return hashlib.sha256(text.encode() if isinstance(text, str) else text).hexdigest()


def content_hash(record: Record) -> str:
    return text_hash(canonical_record(record))


def _sorted(record: Record) -> Record:
    """The same record with the order taken out of what has none."""
    facts = {
        name: line.model_copy(update={"value": dict(sorted(line.value.items()))})
        if isinstance(line.value, dict)
        else line
        for name, line in sorted(record.facts.items())
    }
    return record.model_copy(update={"facts": facts, "need": dict(sorted(record.need.items()))})


def _refuse(name: str) -> None:
    raise ValueError(f"{name} is no number")


def short_hash(digest: str) -> str:
    """The first twelve digits in groups of four: enough to compare by eye."""
    return " ".join(digest[i : i + 4] for i in range(0, 12, 4))


def record_json(record: Record) -> str:
    """The record as JSON to read: indented, one final line feed."""
    return json.dumps(mended(record).model_dump(mode="json"), ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def record_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a record."""
    schema = Record.model_json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def read_record(data: object) -> Record:
    """A record from JSON data. Unknown fields and wrong kinds are refused with the field named."""
    try:
        return Record.model_validate_json(data) if isinstance(data, (str, bytes)) else Record.model_validate(data)
    except ValidationError as error:
        raise RecordTextError(_worded(error)) from None


def _worded(error: ValidationError) -> str:
    first = error.errors()[0]
    place = ".".join(str(part) for part in first["loc"]) or "the text"
    if first["type"] == "extra_forbidden":
        text = f"{place} is not a field of a record"
    elif first["type"] == "missing":
        text = f"the field {place} is missing"
    elif first["type"] == "json_invalid":
        text = "it is not JSON"
    else:
        text = f"{place}: {first['msg'][:1].lower()}{first['msg'][1:]}"
    more = error.error_count() - 1
    return f"{text}, and {more} more" if more else text
