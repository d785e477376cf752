"""What stands on the first page? The greeting and the first question as they were at the last start.

They are shown while the tables and flows are still being read, so that nobody waits to read a question that is the same
every morning. When the interview is there, its own words are compared with the page and replace it where they differ.
A page is never answered: lines typed to it go to the interview, or back into the prompt where the page was out of date.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from interview import __version__
from interview.dialogue.events import Option
from interview.resources import shipped
from interview.terminal.rows import Row


def page_file(key: str, environ: Mapping[str, str]) -> Path:
    """Where the page of this kind of interview is kept: among the files that may be deleted at any time."""
    base = environ.get("XDG_CACHE_HOME") or environ.get("LOCALAPPDATA") or str(Path.home() / ".cache")
    return Path(base) / "hosewright" / f"first-page-{key}.json"


def stamp() -> str:
    """Changes when a flow file or the version changes; empty where the files cannot be seen."""
    try:
        files = sorted(shipped("flows").rglob("*.yaml"))
        return repr([__version__, os.name, *((str(p), p.stat().st_mtime_ns, p.stat().st_size) for p in files)])
    except OSError:
        return ""


def load_page(path: Path) -> list[Row]:
    """The page, or nothing where there is none, it is out of date or cannot be read."""
    try:
        saved = json.loads(path.read_text(encoding="utf-8"))
        if not saved["stamp"] or saved["stamp"] != stamp():
            return []
        return [
            Row(label, text, kind, tuple(Option(value, shown) for value, shown in options), foot)
            for label, text, kind, options, foot in saved["rows"]
        ]
    except (OSError, ValueError, TypeError, KeyError):
        return []


def save_page(path: Path, rows: Sequence[Row]) -> None:
    """Keeps the page for the next start; a disk that is full or read-only is no reason to say anything."""
    saved = [[r.label, r.text, r.kind, [[o.value, o.label] for o in r.options], r.foot] for r in rows]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside = path.with_suffix(f".{os.getpid()}")
        beside.write_text(json.dumps({"stamp": stamp(), "rows": saved}), encoding="utf-8")
        beside.replace(path)
    except OSError:
        return
