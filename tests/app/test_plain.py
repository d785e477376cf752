"""The interview line by line: a whole one as golden text, everything odd that can be typed, and a program cut off."""

from __future__ import annotations

import io
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from command_line import ROOT, Ran, run

from interview.dialogue.session import Session
from interview.plain import WIDTH, converse
from interview.selection.judge import Bench

GOLDEN = Path(__file__).parent / "golden"
SHORT = (
    "burst hose, pressure line, half inch, 2500 psi peaks 3200, AW46, oil to 180F, yard -10 to 100F, "
    "JIC 8 females both ends, 42 in\n"
    "why\nnone\nyes it ran well\nfacts\nnone\n40 cycles an hour\nwhy not 1SN\naccept\nquit\n"
)


def talk(on: Bench, typed: str, home: str = "metric") -> str:
    """A whole plain interview in this process."""
    session, out = Session(on=on, home=home), io.StringIO()
    converse(session, session.open(), io.StringIO(typed), out, prompt=False)
    return out.getvalue()


def sound(ran: Ran) -> str:
    assert ran.code == 0, ran.err
    assert ran.err == ""
    assert "Traceback" not in ran.out
    return ran.out


# ---- golden text -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "typed", "home"),
    [
        ("one-line", SHORT, "us"),
        ("stop", "brake hose for a log trailer\nquit\n", "metric"),
        ("injury", "a jet of oil went into my hand\nquit\n", "metric"),
    ],
)
def test_a_short_interview_word_for_word(on: Bench, name: str, typed: str, home: str) -> None:
    """Golden text; HOSEWRIGHT_GOLDEN=write writes it anew after a change of wording that was meant."""
    path = GOLDEN / f"{name}.txt"
    told = talk(on, typed, home)
    if os.environ.get("HOSEWRIGHT_GOLDEN") == "write":
        path.write_bytes(told.encode("utf-8"))
    wanted = path.read_bytes()
    assert b"\r" not in wanted
    assert told == wanted.decode("utf-8")


def test_golden_text_fits_the_page() -> None:
    for path in GOLDEN.glob("*.txt"):
        assert max(len(line) for line in path.read_text(encoding="utf-8").splitlines()) <= WIDTH


# ---- everything odd --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "odd",
    [
        "[red]pressure[/red] [psi] max [/b]",
        "1/2 [in] [SAE J518] flange",
        "\x1b[31mred\x1b[0m \x07\x08",
        "a\x00b",
        "\u202eright to left",
        "asdf jkl",
        "no idea",
        "keine Ahnung, der Schlauch ist geplatzt",
        "我不知道",
        "шланг лопнул",
        "💥",
        "%n%s%x",
        "{0} {name}",
        "$(reboot)",
        "-" * 500,
        "1" * 400,
        "1e999 bar",
        "nan bar",
        "inf psi",
        "-0 bar",
        "9**9**9 m",
    ],
)
def test_anything_typed_gets_an_answer(on: Bench, odd: str) -> None:
    told = talk(on, f"{odd}\n{odd}\nquit\n")
    assert "Traceback" not in told
    assert told.rstrip().endswith("the next start offers to go on from here.")
    assert not any(ord(c) < 32 and c != "\n" for c in told), "a control character came through"


def test_a_hundred_kilobytes_on_one_line(tmp_path: Path) -> None:
    told = sound(run(tmp_path, "--plain", typed="x" * 100_000 + "\n" + "2500 psi " * 11_000 + "\n"))
    assert len(told) < 20_000


def test_nothing_typed_at_all(tmp_path: Path) -> None:
    told = sound(run(tmp_path, "--plain"))
    assert "1. " in told and "kept" in told


def test_brackets_come_back_as_typed(on: Bench) -> None:
    assert "[SAE J518] [red]" in talk(on, "[SAE J518] [red]\nquit\n")


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    told = sound(run(tmp_path, "--plain", typed=b"\xff\xfe\xbd in\n180 bar working pressure\nquit\n"))
    assert "180 bar" in told


def test_no_tty_means_plain(tmp_path: Path) -> None:
    assert sound(run(tmp_path, typed="quit\n")) == sound(run(tmp_path, "--plain", "--fresh", typed="quit\n"))


@pytest.mark.parametrize(
    ("locale", "shows"), [("en_US.UTF-8", "2,500 psi (172 bar)"), ("de_DE.UTF-8", "2,500 psi (172 bar)")]
)
def test_a_value_is_shown_as_typed_with_the_other_beside_it(tmp_path: Path, locale: str, shows: str) -> None:
    assert shows in sound(
        run(tmp_path, "--plain", typed="working pressure 2500 psi\nquit\n", LC_ALL=locale, PYTHONUTF8="1")
    )


# ---- cut off ---------------------------------------------------------------------------------------------------------


def test_an_interview_cut_off_goes_on(tmp_path: Path) -> None:
    sound(run(tmp_path, "--plain", typed="it rubbed through\nnone\npressure line, 180 bar working pressure\n"))
    told = sound(run(tmp_path, "--plain", typed="resume\nfacts\n"))
    assert "unfinished" in told and "rubbed through" in told and "180 bar" in told
    fresh = sound(run(tmp_path, "--plain", "--fresh", typed="facts\n"))
    assert "unfinished" not in fresh and "180 bar" not in fresh


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_killed_after_an_answer_nothing_is_lost(tmp_path: Path, how: signal.Signals) -> None:
    """The next question is on stdout: the answer before it is on disk, whatever happens now."""
    settings = {
        **os.environ,
        "HOSEWRIGHT_STATE": str(tmp_path / "state"),
        "PYTHONPATH": str(ROOT),
        "PYTHONUNBUFFERED": "1",
    }
    with subprocess.Popen(
        [sys.executable, "-m", "interview", "--plain"],
        cwd=tmp_path,
        env=settings,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdin is not None and process.stdout is not None and process.stderr is not None
        process.stdin.write(b"pressure line, 180 bar working pressure\n")
        process.stdin.flush()
        questions = 0
        for raw in process.stdout:
            questions += re.match(rb"\d+\. ", raw) is not None
            if questions == 2:  # the first one, and what stands after the answer
                break
        process.send_signal(how)
        assert b"Traceback" not in process.stderr.read()
        process.wait(30)
    told = sound(run(tmp_path, "--plain", typed="resume\nfacts\n"))
    assert "working pressure: 180 bar" in told


def test_a_state_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "state").write_text("a file stands here")
    ran = run(tmp_path, "--plain", typed="180 bar\n")
    assert ran.code == 2 and len(ran.err.splitlines()) == 1 and "HOSEWRIGHT_STATE" in ran.err


# ---- the record ------------------------------------------------------------------------------------------------------


def test_the_record_is_written_and_never_over_a_file_unasked(tmp_path: Path) -> None:
    typed = SHORT.replace("accept\nquit\n", "record job.md\nrecord job.md\nquit\n")
    told = sound(run(tmp_path, "--plain", "--units", "us", typed=typed))
    written = (tmp_path / "job.md").read_text(encoding="utf-8")
    assert "NOT FOR BUILDING" in written.split("\n\n")[0] + written[:400]
    assert "3,200 psi" in written
    assert told.count("Written: ") == 1 and "job.md" in told
    (tmp_path / "job.md").write_text("mine", encoding="utf-8")
    sound(run(tmp_path, "--plain", "--fresh", typed=typed))
    assert (tmp_path / "job.md").read_text(encoding="utf-8") == "mine"


def test_a_record_without_a_name_gets_one_that_says_what_it_is(tmp_path: Path) -> None:
    typed = SHORT.replace("accept\nquit\n", "machine is the log turner\nrecord\nquit\n")
    sound(run(tmp_path, "--plain", "--units", "us", typed=typed))
    names = [path.name for path in tmp_path.glob("*.md")]
    assert len(names) == 1 and re.fullmatch(r"specification-[a-z-]*log-turner-\d{4}-\d\d-\d\d\.md", names[0])
