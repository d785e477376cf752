"""Where is every answer before the next question appears? On disk; and killed anywhere, it stands where it stood."""

from __future__ import annotations

import json
import os
import stat
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from talks import EASY, EXPERIENCED, kinds, sense, words

from interview.dialogue import session as session_module
from interview.dialogue.journal import Journal, JournalError, journal_folder, unfinished
from interview.dialogue.session import Session, bench
from interview.selection.judge import Bench

BENCH = bench()
# Everything a person may type in one interview: facts, "don't know", doubts and their options, commands that change it.
TALK = [
    "it rubbed through on the frame",
    "none",
    "EN 853 2SN DN12 275 bar 3Q19",
    "undo",
    "EN 853 2SN DN12 275 bar",
    "pressure line",
    "later",
    "180 bar",
    "working pressure is 210 bar",
    "2",
    "180 F",
    "1",
    "don't know",
    "go to ends",
    "JIC -8 female straight both ends",
    "change working pressure to 200 bar",
    "remove overall length",
    "1200 mm",
    "smooth, relief 190 bar",
    "HLP 46",
    "oil to 65 C, air -5 to 30 C",
    "40 L/min",
    "none",
    "build",
    "Straße 5 °C ½ in",
    "why",
    "facts",
]


def kept(folder: Path, on: Bench, lines: list[str], home: str = "metric") -> Session:
    session = Session(on=on, home=home, journal=Journal.start(home, folder=folder))
    session.open()
    for line in lines:
        session.say(line)
    return session


def lines_on_disk(path: Path) -> list[str]:
    return [str(e["said"]) for e in map(json.loads, path.read_text(encoding="utf-8").splitlines()) if "said" in e]


def file_of(session: Session) -> Path:
    assert session.journal is not None and session.journal.path is not None
    return session.journal.path


def test_every_line_is_on_disk_before_the_next_question(
    tmp_path: Path, on: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Read inside: while the next question is being chosen, the line is in the file already."""
    session = kept(tmp_path, on, [])
    path, seen = file_of(session), []
    choose = session_module.next_turn

    def looking(now: object) -> object:
        seen.append(lines_on_disk(path))
        return choose(now)  # type: ignore[arg-type]

    monkeypatch.setattr(session_module, "next_turn", looking)
    said: list[str] = []
    for line in (EXPERIENCED, "none", "yes it ran well", "none", "40 cycles an hour"):
        said.append(line)
        session.say(line)
        assert seen and seen[-1] == said


def test_a_journal_is_private_to_the_user(tmp_path: Path, on: Bench) -> None:
    session = kept(tmp_path / "state", on, ["180 bar"])
    assert stat.S_IMODE(file_of(session).stat().st_mode) == 0o600
    assert stat.S_IMODE((tmp_path / "state").stat().st_mode) == 0o700


def test_the_folder_is_the_one_that_is_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOSEWRIGHT_STATE", str(tmp_path / "elsewhere"))
    assert journal_folder() == tmp_path / "elsewhere"


def resumed(path: Path, on: Bench) -> Session:
    session = Session(on=on)
    session.replay(Journal.open(path))
    return session


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(count=st.integers(0, len(TALK)), torn=st.integers(0, 30), home=st.sampled_from(["metric", "us"]))
def test_killed_after_any_line_it_stands_where_it_stood(
    tmp_path_factory: pytest.TempPathFactory, count: int, torn: int, home: str
) -> None:
    """A half-written line after it was never answered: it is dropped."""
    folder = tmp_path_factory.mktemp("state")
    session = kept(folder, BENCH, TALK[:count], home)
    path = file_of(session)
    session.journal.close()  # type: ignore[union-attr]
    half = (json.dumps({"said": "working pressure 350 bar"}) + "\n").encode()[:torn]
    with path.open("ab") as file:
        file.write(half)
    again = resumed(path, BENCH)
    assert sense(again) == sense(session)
    for line in ("35 ft long", "facts"):
        assert kinds(again.say(line)) == kinds(session.say(line))
    assert sense(again) == sense(session)


def test_after_going_on_the_journal_is_written_on(tmp_path: Path, on: Bench) -> None:
    first = kept(tmp_path, on, ["pressure line, 180 bar"])
    path = file_of(first)
    first.journal.close()  # type: ignore[union-attr]
    second = resumed(path, on)
    second.say("HLP 46")
    second.journal.close()  # type: ignore[union-attr]
    assert lines_on_disk(path) == ["pressure line, 180 bar", "HLP 46"]
    assert sense(resumed(path, on)) == sense(second)


def test_the_next_start_offers_to_go_on(tmp_path: Path, on: Bench) -> None:
    first = kept(tmp_path, on, ["pressure line, 180 bar"])
    first.journal.close()  # type: ignore[union-attr]
    earlier = unfinished(tmp_path)
    assert earlier == file_of(first)
    second = Session(on=on, journal=Journal.start("metric", folder=tmp_path), earlier=earlier)
    assert "resume" in words(second.open())
    second.say("resume")
    assert sense(second) == sense(first)
    assert second.journal is not None and second.journal.path == earlier


def test_an_interview_that_was_accepted_is_not_offered_again(tmp_path: Path, on: Bench) -> None:
    session = kept(tmp_path, on, [EXPERIENCED])
    while session.asked is not None:
        session.say(EASY.get(session.asked.parts[0], "don't know"))
    session.say("accept")
    assert session.state == "settled"
    session.journal.close()  # type: ignore[union-attr]
    assert unfinished(tmp_path) is None
    assert resumed(file_of(session), on).state == "settled"


def test_a_journal_in_use_or_without_an_answer_is_not_offered(tmp_path: Path, on: Bench) -> None:
    empty = kept(tmp_path, on, [])
    empty.journal.close()  # type: ignore[union-attr]
    assert unfinished(tmp_path) is None
    assert unfinished(tmp_path / "nowhere") is None


def test_two_interviews_at_once_keep_to_their_own_files(tmp_path: Path, on: Bench) -> None:
    one = kept(tmp_path, on, ["pressure line"])
    two = Session(on=on, journal=Journal(tmp_path / "interview-other.jsonl"))
    assert two.journal is not None
    two.journal.add({"journal": 1, "home": "metric", "job": "failed_hose"})
    two.open()
    for a, b in (("180 bar", "return line"), ("HLP 46", "20 bar")):
        one.say(a)
        two.say(b)
    assert lines_on_disk(file_of(one)) == ["pressure line", "180 bar", "HLP 46"]
    assert lines_on_disk(file_of(two)) == ["return line", "20 bar"]
    assert unfinished(tmp_path) is None, "both are in use"
    one.journal.close()  # type: ignore[union-attr]
    assert unfinished(tmp_path) == file_of(one)


def test_two_started_in_one_second_by_one_program_have_two_files(tmp_path: Path) -> None:
    one, two = Journal.start("metric", folder=tmp_path), Journal.start("us", folder=tmp_path)
    assert one.path != two.path


# ---- when the disk will not ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("fault", ["full", "short"])
def test_a_full_disk_loses_nothing_and_says_so(
    tmp_path: Path, on: Bench, monkeypatch: pytest.MonkeyPatch, fault: str
) -> None:
    session = kept(tmp_path, on, ["pressure line"])
    before, raw = sense(session), file_of(session).read_bytes()
    write = os.write

    def failing(handle: int, data: bytes) -> int:
        if fault == "full":
            raise OSError(28, "No space left on device")
        return write(handle, data[: len(data) // 2])

    with monkeypatch.context() as patched:
        patched.setattr(os, "write", failing)
        with pytest.raises(JournalError, match=r"could not be kept on disk .*free some space"):
            session.say("180 bar")
    assert sense(session) == before
    assert file_of(session).read_bytes() == raw
    session.say("180 bar")
    assert lines_on_disk(file_of(session)) == ["pressure line", "180 bar"]
    session.journal.close()  # type: ignore[union-attr]
    assert sense(resumed(file_of(session), on)) == sense(session)


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("x")
    with pytest.raises(JournalError, match="HOSEWRIGHT_STATE"):
        Journal.start("metric", folder=blocked / "state")


# ---- files that are not ours ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"\n",
        b"hello\n",
        b"{}\n",
        b"[]\n",
        b'{"journal": 99}\n',
        b"\x89PNG\r\n\x1a\n\x00\n",
        b'{"said": "180 bar"}\n',
        b'{"journal": 1, "home": "metric"}\n{broken\n',
        b'{"journal": 1}',
        b"null\n",
        b'{"journal": 1}\n\xff\xfe\n',
    ],
)
def test_a_foreign_file_is_refused_and_left_alone(tmp_path: Path, raw: bytes) -> None:
    path = tmp_path / "interview-foreign.jsonl"
    path.write_bytes(raw)
    with pytest.raises(JournalError) as caught:
        Journal.open(path)
    assert "\n" not in str(caught.value)
    assert path.read_bytes() == raw
    assert unfinished(tmp_path) is None


def test_a_file_that_is_gone(tmp_path: Path) -> None:
    with pytest.raises(JournalError, match="cannot be read"):
        Journal.open(tmp_path / "gone.jsonl")


@settings(max_examples=80, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_a_journal_or_a_sentence(tmp_path_factory: pytest.TempPathFactory, raw: bytes) -> None:
    path = tmp_path_factory.mktemp("j") / "interview-x.jsonl"
    path.write_bytes(b'{"journal": 1, "home": "metric", "job": "failed_hose"}\n' + raw)
    try:
        journal = Journal.open(path)
    except JournalError as error:
        assert "\n" not in str(error)
    else:
        assert journal.home == "metric"


def test_odd_characters_survive(tmp_path: Path, on: Bench) -> None:
    odd = "½ in at 80 °C, Ø 12, “quoted”, \U0001f527, \udce4"
    session = kept(tmp_path, on, [odd])
    session.journal.close()  # type: ignore[union-attr]
    assert sense(resumed(file_of(session), on)) == sense(session)
