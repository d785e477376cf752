"""How does a face write the record? "record FILE" as a command: Markdown, HTML, PDF or JSON by the file's ending."""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path

from interview.dialogue import events as ev
from interview.dialogue.session import Session
from interview.record.assemble import record_of
from interview.record.documents.files import DocumentError, write_document
from interview.record.documents.make import make

COMMAND = re.compile(r"/?record(?:\s+(?P<path>.+?))?(?P<over>\s+overwrite)?\s*\Z", re.IGNORECASE)


def save_command(text: str, session: Session) -> list[ev.Event] | None:
    """The events of a "record FILE" line; None where the line is something else."""
    found = COMMAND.match(text.strip())
    if found is None:
        return None
    name = found["path"] or "record.md"
    path = Path(name).expanduser()
    if path.suffix.lower() not in (".md", ".html", ".pdf", ".json"):
        return [ev.Refused(name, f"\"{name}\": the ending says the kind of file; use .md, .html, .pdf or .json.")]
    record = record_of(session, made=datetime.now().astimezone().isoformat(timespec="seconds"))
    try:
        written = write_document(path, make(record, form=path.suffix.lower()[1:]), overwrite=bool(found["over"]))
    except DocumentError as error:
        return [ev.Refused(name, str(error))]
    return [ev.Wrote(str(written), f"Written: {written}")]
