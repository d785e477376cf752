"""Is an interview that was left offered in words, gone on with by a yes, and what when the disk will not?"""

from __future__ import annotations

import errno
import json
import os
import re
from pathlib import Path

import pytest
from command_line import refused, run

from interview.dialogue.events import Event, Explained, Left
from interview.dialogue.journal import Journal, JournalError, unfinished
from interview.dialogue.session import Session
from interview.plain import lines_of
from interview.selection.judge import Bench


def begun(folder: Path, on: Bench, *lines: str, stamp: str, home: str = "metric") -> Path:
    """An interview that was left, begun at a time of our choosing."""
    path = folder / f"interview-{stamp}-1.jsonl"
    folder.mkdir(exist_ok=True)
    journal = Journal(path)
    journal.add({"journal": 1, "home": home, "job": "failed_hose"})
    session = Session(on=on, home=home, journal=journal)
    session.open()
    for line in lines:
        session.say(line)
    journal.close()
    return path


def next_start(folder: Path, on: Bench) -> Session:
    return Session(on=on, journal=Journal.start("metric", folder=folder), earlier=unfinished(folder))


def told(events: list[Event]) -> str:
    return " ".join(word for event in events for line in lines_of(event) for word in line.split())


LOADER = ("wheel loader, pressure line, half inch", "working pressure 180 bar")


def test_the_offer_names_machine_bore_and_time(tmp_path: Path, on: Bench) -> None:
    path = begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    offer = told(next_start(tmp_path, on).open())
    assert "wheel loader" in offer and "1/2 in (-8, DN 12)" in offer and "on 5 March 2024 at 14:05" in offer
    assert path.stem not in offer


def test_before_anything_is_known_of_it_the_offer_says_how_it_began(tmp_path: Path, on: Bench) -> None:
    begun(tmp_path, on, "180 bar", stamp="20240305-140512")
    assert 'it began "180 bar", on 5 March 2024' in told(next_start(tmp_path, on).open())


@pytest.mark.parametrize("word", ["yes", "Y", "Yes.", "resume"])
def test_a_yes_goes_on_with_it(tmp_path: Path, on: Bench, word: str) -> None:
    path = begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    session.open()
    session.say(word)
    assert session.journal is not None and session.journal.path == path
    assert session.said.low("working_pressure") == pytest.approx(18e6)


def test_a_no_starts_a_new_one_and_is_no_answer(tmp_path: Path, on: Bench) -> None:
    path = begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    session.open()
    asked = session.asked
    events = session.say("no")
    assert "A new one, then" in told(events)
    assert session.asked == asked and not session.past
    session.say("return line")
    assert session.journal is not None and session.journal.path != path
    assert not session.said.has("machine")


def test_only_directly_after_the_offer_is_a_yes_its_answer(tmp_path: Path, on: Bench) -> None:
    begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    session.open()
    session.say("return line")
    session.say("yes")
    assert not session.said.has("machine")


def test_a_no_names_the_one_before_it(tmp_path: Path, on: Bench) -> None:
    older = begun(tmp_path, on, "garden tractor, half inch", "90 bar", stamp="20240304-090000")
    begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    assert "wheel loader" in told(session.open())
    words = told(session.say("no"))
    assert "An older one is unfinished too" in words and "tractor" in words and "4 March 2024 at 09:00" in words
    session.say("resume")
    assert session.journal is not None and session.journal.path == older


@pytest.mark.parametrize("line", ["brake hose for a log trailer", "oxygen line for a welding shop"])
def test_a_referred_one_that_was_left_is_ended_and_the_older_one_is_offered(
    tmp_path: Path, on: Bench, line: str
) -> None:
    older = begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    session.open()
    session.say("no")
    session.say(line)
    assert session.state == "referred"
    assert session.say("quit") == [Left("Everything typed is kept.")]
    assert session.journal is not None
    session.journal.close()
    assert unfinished(tmp_path) == older


def test_what_is_corrected_after_it_was_accepted_is_offered_again(tmp_path: Path) -> None:
    path = tmp_path / "interview-20240305-140512-1.jsonl"
    entries: list[dict[str, object]] = [
        {"journal": 1, "home": "metric", "job": "failed_hose"},
        {"said": "180 bar"},
        {"said": "accept"},
        {"ended": "accepted"},
    ]
    path.write_text("".join(json.dumps(e) + "\n" for e in entries), encoding="utf-8")
    assert unfinished(tmp_path) is None
    path.write_text("".join(json.dumps(e) + "\n" for e in [*entries, {"said": "200 bar"}]), encoding="utf-8")
    assert unfinished(tmp_path) == path


# ---- when the disk will not ------------------------------------------------------------------------------------------


def failing(monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    def write(handle: int, data: bytes) -> int:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "write", write)


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.EPERM])
def test_a_folder_that_can_only_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    failing(monkeypatch, number)
    with pytest.raises(JournalError) as caught:
        Journal.start("metric", folder=tmp_path)
    assert f"{tmp_path} can only be read" in str(caught.value)
    assert "choose another folder with HOSEWRIGHT_STATE" in str(caught.value)
    assert "space" not in str(caught.value)


def test_a_disk_full_at_the_start_asks_for_no_enter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The program has ended by then: there is nothing to press Enter in."""
    failing(monkeypatch, errno.ENOSPC)
    with pytest.raises(JournalError) as caught:
        Journal.start("metric", folder=tmp_path)
    assert str(caught.value).endswith(f"(it is full); free some space in {tmp_path}, then start again")


def test_a_disk_full_in_the_middle_asks_for_the_answer_again(
    tmp_path: Path, on: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = Session(on=on, journal=Journal.start("metric", folder=tmp_path))
    session.open()
    failing(monkeypatch, errno.ENOSPC)
    with pytest.raises(JournalError, match=r"it is full.*answer again\Z"):
        session.say("180 bar")


def test_the_plain_interview_says_it_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "state").write_text("no folder", encoding="utf-8")
    told = refused(run(tmp_path, "--plain", typed="quit\n"))
    assert re.search(r"state is no folder\); choose another with HOSEWRIGHT_STATE", told)


def test_plain_yes_after_the_offer(tmp_path: Path) -> None:
    run(tmp_path, "--plain", typed="wheel loader, pressure line, half inch\nworking pressure 180 bar\n")
    ran = run(tmp_path, "--plain", typed="yes\nfacts\n")
    assert ran.code == 0 and "wheel loader, 1/2 in (-8, DN 12), today at" in " ".join(ran.out.split())
    assert "Going on where it stood." in ran.out and "180 bar" in ran.out.split("Going on where it stood.")[1]


def test_an_explanation_is_not_kept_as_a_line(tmp_path: Path, on: Bench) -> None:
    begun(tmp_path, on, *LOADER, stamp="20240305-140512")
    session = next_start(tmp_path, on)
    session.open()
    assert isinstance(session.say("no")[0], Explained)
    assert session.journal is not None and list(session.journal.lines()) == []
