"""The installed program, run as a person would run it: in a process of its own, with its own state folder."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Ran:
    code: int
    out: str
    err: str


def run(folder: Path, *arguments: str, typed: str | bytes = "", **environment: str) -> Ran:
    """Runs `python -m interview` in `folder`; stdin is `typed`."""
    settings = {
        **os.environ,
        "HOSEWRIGHT_STATE": str(folder / "state"),
        "PYTHONPATH": str(ROOT),
        "LC_ALL": "C.UTF-8",
        "HOME": str(folder),
        "XDG_DATA_HOME": str(folder / "data"),
        **environment,
    }
    done = subprocess.run(
        [sys.executable, "-m", "interview", *arguments],
        cwd=folder,
        env=settings,
        timeout=60,
        capture_output=True,
        check=False,
        input=typed if isinstance(typed, bytes) else typed.encode("utf-8"),
    )
    return Ran(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8", "replace"))


def refused(ran: Ran) -> str:
    """Exit 2, nothing on stdout, one line on stderr that is no traceback."""
    assert ran.code == 2, ran
    assert ran.out == ""
    lines = ran.err.splitlines()
    assert len(lines) == 1 and lines[0].strip(), ran.err
    assert "Traceback" not in ran.err and "Error:" not in ran.err
    return lines[0]
