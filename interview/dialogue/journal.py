"""Where is every answer before the next question appears? In a journal on disk, one JSON line an entry, fsynced.

A killed program goes on where it stood: the lines are replayed through the same engine. A half-written last line is
dropped (it was never answered). Files are private to the user.
"""

from __future__ import annotations

import contextlib
import errno
import fcntl
import json
import os
import re
import time
from collections.abc import Iterator
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Any

from platformdirs import user_state_path

from interview.facts import Known
from interview.language.show import show

VERSION = 1
MONTHS = "January February March April May June July August September October November December".split()


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
            raise _unstarted(error, folder) from error
        stem = f"interview-{time.strftime('%Y%m%d-%H%M%S')}-{os.getpid()}"
        journal = cls(next(p for n in count() if not (p := folder / f"{stem}{f'-{n}' if n else ''}.jsonl").exists()))
        try:
            journal.add({"journal": VERSION, "home": home, "job": job})
        except JournalError as error:
            cause = error.__cause__ if isinstance(error.__cause__, OSError) else error
            raise _unstarted(cause, folder) from error
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
        """Ended, and nothing was said since."""
        told = (e for e in reversed(self.entries) if "ended" in e or "said" in e or "facts" in e)
        return "ended" in next(told, {})

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
                f"the answer could not be kept on disk {_why(error, self.path.parent, 'answer again')}"
            ) from error

    def close(self) -> None:
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None


def unfinished(folder: Path | None = None, before: Path | None = None) -> Path | None:
    """The newest interview that was not ended, was answered at least once and is not in use; None without one.

    `before`: the newest of those older than this one.
    """
    folder = folder or journal_folder()
    with contextlib.suppress(OSError):
        for path in sorted(folder.glob("interview-*.jsonl"), reverse=True):
            if before is not None and path.name >= before.name:
                continue
            with contextlib.suppress(OSError):
                if _in_use(path):
                    continue
                journal = Journal.open(path)
                if not journal.ended and any(journal.lines()):
                    return path
    return None


def about(said: Known, home: str) -> dict[str, object]:
    """What an entry adds so that its interview is known again by its machine and bore; empty before either is known.

    It is what was known before the line of the entry: the line itself is not yet understood when it is kept.
    """
    words = [show(name, said[name].value, home) for name in ("machine", "bore") if said.has(name)]
    return {"about": ", ".join(words)} if words else {}


def offer(path: Path) -> str:
    """The sentence that offers an interview that was left: its machine and bore, and when."""
    return (
        f'An interview was left unfinished: {_named(path)}. "yes" or "resume" goes on with it; "no", or any answer, '
        "starts a new one."
    )


def left_offer(path: Path | None) -> tuple[Path | None, tuple[str, ...]]:
    """What stands after a "no" to the offer: the unfinished interview before that one, if any, and what is said."""
    older = unfinished(path.parent, path) if path is not None else None
    if older is None:
        return path, ('A new one, then; until it is begun "resume" still goes on with the one that was left.',)
    return older, (f'A new one, then. An older one is unfinished too: {_named(older)}; "resume" goes on with that.',)


def yes_or_no(text: str) -> bool | None:
    """A bare yes or no; None for anything else."""
    word = text.strip().strip(".!").lower()
    return True if word in ("yes", "y", "yes please") else False if word in ("no", "n", "no thanks") else None


def _named(path: Path) -> str:
    words, began = "", ""
    with contextlib.suppress(OSError):
        journal = Journal.open(path)
        words = next((str(e["about"]) for e in reversed(journal.entries) if e.get("about")), "")
        began = next((str(e["said"]) for e in journal.lines() if "said" in e), "")
    if not words:
        words = f'it began "{began if len(began) <= 60 else began[:57].rstrip() + "..."}"' if began else "one"
    return f"{words}, {_when(path)}"


def _when(path: Path) -> str:
    """When an interview began, as its name says: today, yesterday or the day, and the time."""
    stamp = re.match(r"interview-(\d{8}-\d{6})", path.name)
    try:
        began = datetime.strptime(stamp[1] if stamp else "", "%Y%m%d-%H%M%S")
    except ValueError:
        return "time not known"
    days = (datetime.now().date() - began.date()).days
    day = {0: "today", 1: "yesterday"}.get(days, f"on {began.day} {MONTHS[began.month - 1]} {began.year}")
    return f"{day} at {began:%H:%M}"


def _unstarted(error: OSError, folder: Path) -> JournalError:
    if error.errno in (errno.EEXIST, errno.ENOTDIR):
        why = f"({folder} is no folder); choose another with HOSEWRIGHT_STATE"
    else:
        why = _why(error, folder, "start again")
    return JournalError(f"the interview cannot begin: what is typed could not be kept on disk {why}")


def _why(error: OSError, folder: Path, then: str) -> str:
    """Why the disk would not, in brackets, and what would do."""
    if error.errno in (errno.EROFS, errno.EACCES, errno.EPERM):
        return f"({folder} can only be read); choose another folder with HOSEWRIGHT_STATE and start again"
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"(it is full); free some space in {folder}, then {then}"
    return f"({error.strerror}); mend that in {folder}, then {then}"


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
