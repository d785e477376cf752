"""How does a document reach the disk without harm?

Whole or not at all: written beside its place, forced to disk, then moved there in one step. Never over an existing file
unless told. Readable by its owner only, since it holds customer data.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import secrets
import stat
import unicodedata
from pathlib import Path

from interview.record.documents.page import NOT_FILED, Filed
from interview.record.model import Record

LONGEST_NAME = 120
RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)(\.|$)", re.IGNORECASE)  # device names of one system
STANDS = "{target} exists already and was left as it is; choose another name, or overwrite it."
FULL = "The disk of {folder} is full; nothing was written. Make room or choose another disk."
FORBIDDEN = "Writing into {folder} is not allowed; choose another place."
SENTENCES = {
    errno.ENOSPC: FULL,
    errno.EDQUOT: FULL,
    errno.ENOENT: "There is no folder {folder}; make it first, or choose another place.",
    errno.ENOTDIR: "{folder} is not a folder; choose another place.",
    errno.EEXIST: STANDS,
    errno.EACCES: FORBIDDEN,
    errno.EPERM: FORBIDDEN,
    errno.EROFS: "{folder} can only be read; choose another place.",
    errno.ENAMETOOLONG: "The file name is too long ({length} characters); choose a shorter one.",
}


class DocumentError(ValueError):
    """The document cannot be made or written; the message says why and what would do."""


def safe_name(text: str) -> str:
    """Words of a customer as a piece of a file name: letters, digits and hyphens, never a path or a device."""
    plain = unicodedata.normalize("NFKD", text)
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    name = re.sub(r"[^\w]+", "-", plain.lower()).replace("_", "-").strip("-")
    name = re.sub(r"-{2,}", "-", name)[:40].strip("-")
    return f"x-{name}" if RESERVED.match(name) else name


def document_name(record: Record, kind: str, ending: str, filed: Filed = NOT_FILED) -> str:
    """A file name that says what it is: kind, customer, machine, number. Safe on every system."""
    said = [str(line.value) for name in ("customer", "machine") if (line := record.facts.get(name)) and line.value]
    parts = [kind, *said, f"{filed.number}-r{filed.revision}" if filed.number else record.made[:10]]
    name = "-".join(piece for piece in map(safe_name, parts) if piece)
    return f"{name[:LONGEST_NAME]}.{safe_name(ending) or 'txt'}"


def write_document(path: str | Path, text: str | bytes, *, overwrite: bool = False) -> Path:
    """Writes the document and returns where it stands. Raises DocumentError with a sentence; nothing then changed."""
    target = _place(path)
    data = text.encode("utf-8", "replace") if isinstance(text, str) else text
    beside = target.with_name(f".{secrets.token_hex(8)}.part")
    try:
        _refuse_what_stands(target, overwrite)
        try:
            _write_new(beside, data)
            _move(beside, target, overwrite)
        finally:
            with contextlib.suppress(FileNotFoundError):
                beside.unlink()
        _settle(target.parent)
    except OSError as error:
        raise DocumentError(_worded(error, target)) from None
    return target


def _place(path: str | Path) -> Path:
    raw = os.fspath(path)
    if not raw.strip():
        raise DocumentError("A file name is needed, for example record.md")
    if any(unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") for c in raw):
        raise DocumentError(
            "The file name holds a control character or a hidden sign; write it with letters, digits, dots and hyphens."
        )
    if raw.endswith(("/", os.sep)):
        raise DocumentError(f"{raw} names a folder; add the name of the file, for example {raw}record.md")
    try:
        place = Path(raw).expanduser()
    except RuntimeError:
        raise DocumentError(f"There is no home folder to put {raw} in; write the whole path.") from None
    if place.name in ("", ".", ".."):
        raise DocumentError(f"{raw} names a folder; add the name of the file, for example record.md")
    if os.name == "nt" and RESERVED.match(place.name):
        raise DocumentError(f"{place.name} is the name of a device on this system; choose another.")
    return place


def _refuse_what_stands(target: Path, overwrite: bool) -> None:
    try:
        mode = target.lstat().st_mode
    except FileNotFoundError:
        return
    if stat.S_ISDIR(mode):
        raise DocumentError(f"{target} is a folder; add the name of the file, for example {target / 'record.md'}")
    if not overwrite:
        raise DocumentError(STANDS.format(target=target))
    if not stat.S_ISREG(mode):
        raise DocumentError(f"{target} is not an ordinary file and was left as it is; choose another name.")
    if not os.access(target, os.W_OK):
        raise DocumentError(f"{target} is protected against writing and was left as it is; choose another name.")


def _write_new(path: Path, data: bytes) -> None:
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    with open(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _move(beside: Path, target: Path, overwrite: bool) -> None:
    if overwrite:
        os.replace(beside, target)
        return
    try:
        os.link(beside, target)  # fails where somebody else made the file meanwhile
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links: claim the name first
        os.close(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
        os.replace(beside, target)


def _settle(folder: Path) -> None:
    """Makes the new name last through a power cut, where the system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _worded(error: OSError, target: Path) -> str:
    code = error.errno
    if code in SENTENCES:
        return SENTENCES[code].format(target=target, folder=target.parent, length=len(target.name))
    return f"{target} could not be written ({os.strerror(code) if code else error}); choose another place."
