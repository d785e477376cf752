"""Killed with SIGKILL at any moment: no answered line is lost, and the interview goes on where it stood.

A child process interviews and says over a pipe which questions have appeared; the parent kills it after a random delay.
Whatever question had appeared, the line before it must be in the journal; and the journal must be readable and replay
to the same question.
"""

from __future__ import annotations

import os
import random
import select
import signal
import time
from pathlib import Path

import pytest

from interview.dialogue.journal import Journal
from interview.dialogue.session import Session
from interview.selection.judge import Bench

LINES = (
    "burst hose, pressure line, half inch",
    "none",
    "AW46",
    "2500 psi peaks 3200",
    "oil to 180 F",
    "air -10 to 100 F",
    "JIC 8 females both ends",
    "42 in",
    "yes",
    "none",
)
KILLS = 200


def _child(journal_path: Path, on: Bench, pipe: int) -> None:
    journal = Journal(journal_path)
    journal.add({"journal": 1, "home": "us", "job": "failed_hose"})
    session = Session(home="us", journal=journal, on=on)
    session.open()
    os.write(pipe, b"s")
    for number, line in enumerate(LINES):
        session.say(line)
        os.write(pipe, bytes([number]))
    os._exit(0)


def _killed_run(path: Path, on: Bench, delay: float) -> int:
    """Starts an interview, kills it `delay` after its first question, and says how many lines were answered."""
    read_end, write_end = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            _child(path, on, write_end)
        finally:
            os._exit(1)
    os.close(write_end)
    try:
        assert os.read(read_end, 1) == b"s"
        end = time.monotonic() + delay
        while (left := end - time.monotonic()) > 0:
            select.select([], [], [], left)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        seen = b""
        while chunk := os.read(read_end, 64):
            seen += chunk
        return len(seen)
    finally:
        os.close(read_end)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_two_hundred_kills_lose_no_answer(tmp_path: Path, on: Bench) -> None:
    chance = random.Random(20661)
    cut_short = 0
    for kill in range(KILLS):
        path = tmp_path / f"interview-{kill}.jsonl"
        answered = _killed_run(path, on, chance.uniform(0.0, 0.05))
        journal = Journal.open(path)
        kept = [str(entry["said"]) for entry in journal.lines()]
        assert kept == list(LINES[: len(kept)])
        assert len(kept) >= answered, f"kill {kill}: {answered} questions appeared, {len(kept)} lines kept"
        cut_short += answered < len(LINES)
    assert cut_short > KILLS / 4, "the kills came too late to prove anything"


def test_goes_on_where_it_stood(tmp_path: Path, on: Bench) -> None:
    for count in range(len(LINES) + 1):
        whole = Session(home="us", on=on)
        whole.open()
        path = tmp_path / f"interview-{count}.jsonl"
        journal = Journal(path)
        journal.add({"journal": 1, "home": "us", "job": "failed_hose"})
        for line in LINES[:count]:
            whole.say(line)
            journal.add({"said": line})
        journal.close()
        again = Session(home="us", on=on)
        again.replay(Journal.open(path))
        assert again.state == whole.state
        assert dict(again.said) == dict(whole.said)
        assert (again.asked.parts if again.asked else None) == (whole.asked.parts if whole.asked else None)
