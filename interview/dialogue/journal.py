"""Where is every answer before the next question appears? In a journal on disk, one JSON line an entry, fsynced.

A killed program goes on where it stood: the lines are replayed through the same engine. A half-written last line is
dropped (it was never answered). Files are private to the user.
"""

from __future__ import annotations

import contextlib
import fcntl
import json
import os
import time
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

from platformdirs import user_state_path

VERSION = 1


class JournalError(OSError):
    """The journal cannot be written; the sentence says what to do. Nothing typed is lost: it is still on screen."""


def journal_folder() -> Path:
    """Where interviews are kept: HOSEWRIGHT_STATE, or the user's state folder."""
    override = os.environ.get("HOSEWRIGHT_STATE")
    return Path(override) if override else user_state_path("hosewright", appauthor=False)


class Journal:
    """An append-only file of what was typed. `path` None keeps it in memory only (replay, tests)."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = path
        self.entries: list[dict[str, object]] = []
        self._handle: int | None = None

    @classmethod
    def start(cls, home: str, job: str = "failed_hose", folder: Path | None = None) -> Journal:
        """A new journal file in the state folder. Raises JournalError where it cannot be written."""
        folder = folder or journal_folder()
        try:
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        except OSError as error:
            raise JournalError(
                f"interviews cannot be kept in {folder} ({error.strerror}); set HOSEWRIGHT_STATE to a folder "
                "that can be written"
            ) from error
        stem = f"interview-{time.strftime('%Y%m%d-%H%M%S')}-{os.getpid()}"
        journal = cls(next(p for n in count() if not (p := folder / f"{stem}{f'-{n}' if n else ''}.jsonl").exists()))
        journal.add({"journal": VERSION, "home": home, "job": job})
        return journal

    @classmethod
    def open(cls, path: Path) -> Journal:
        """An existing journal, to go on with. Raises JournalError with a sentence where it is no journal."""
        journal = cls(path)
        try:
            raw = path.read_bytes()
        except OSError as error:
            raise JournalError(f"{path} cannot be read ({error.strerror})") from error
        complete = raw.rfind(b"\n") + 1
        for number, line in enumerate(raw[:complete].splitlines(), 1):
            try:
                entry = json.loads(line)
            except ValueError as error:
                raise JournalError(
                    f"{path.name}: line {number} is not an entry of an interview; the lines before it are "
                    "good, delete the rest to go on"
                ) from error
            if isinstance(entry, dict):
                journal.entries.append(entry)
        if not journal.entries or journal.entries[0].get("journal") != VERSION:
            raise JournalError(f"{path.name} is not an interview of this version")
        if complete < len(raw):
            with path.open("r+b") as handle:
                handle.truncate(complete)
        return journal

    def discard(self) -> None:
        """Removes a journal in which nothing was said yet."""
        if self.path is not None and not any(self.lines()):
            self.close()
            self.path.unlink(missing_ok=True)

    @property
    def home(self) -> str:
        return str(self.entries[0].get("home", "metric")) if self.entries else "metric"

    @property
    def ended(self) -> bool:
        return any("ended" in entry for entry in self.entries)

    @property
    def job(self) -> str:
        return str(self.entries[0].get("job", "failed_hose")) if self.entries else "failed_hose"

    def lines(self) -> Iterator[dict[str, Any]]:
        """What was typed, in order."""
        return (entry for entry in self.entries if "said" in entry or "facts" in entry)

    def add(self, entry: dict[str, object]) -> None:
        """Appends one entry and waits until it is on disk."""
        self.entries.append(entry)
        if self.path is None:
            return
        data = (json.dumps(entry, ensure_ascii=False) + "\n").encode("utf-8", "surrogatepass")
        try:
            if self._handle is None:
                self._handle = os.open(self.path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
                _lock(self._handle)
            before = os.fstat(self._handle).st_size
            written = os.write(self._handle, data)
            if written < len(data):
                os.ftruncate(self._handle, before)
                raise OSError(28, "no space left")
            os.fsync(self._handle)
        except OSError as error:
            self.entries.pop()
            raise JournalError(
                f"the answer could not be kept on disk ({error.strerror}); free some space in "
                f"{self.path.parent}, then press Enter again"
            ) from error

    def close(self) -> None:
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None


def unfinished(folder: Path | None = None) -> Path | None:
    """The newest interview that was not ended, was answered at least once and is not in use; None without one."""
    folder = folder or journal_folder()
    with contextlib.suppress(OSError):
        for path in sorted(folder.glob("interview-*.jsonl"), reverse=True):
            with contextlib.suppress(JournalError):
                journal = Journal.open(path)
                if not journal.ended and any(journal.lines()) and not _in_use(path):
                    return path
    return None


def _lock(handle: int) -> bool:
    """Marks a journal as in use while this program runs; False where another one has it."""
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _in_use(path: Path) -> bool:
    """True where a running program writes it; the lock goes with the process, however it ends."""
    handle = os.open(path, os.O_RDONLY)
    try:
        return not _lock(handle)
    finally:
        os.close(handle)
