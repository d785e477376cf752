"""Does the installed program work in a real terminal? A pseudo-terminal, read with an independent emulator (pyte)."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from pseudo_terminal import PseudoTerminal

ROOT = Path(__file__).resolve().parent.parent.parent
PROGRAM = [sys.executable, "-m", "interview", "--fresh", "--units", "us"]
JOB = "burst hose, pressure line, half inch, 2500 psi peaks 3200, AW46, JIC 8 females both ends, 42 in"


def terminal(columns: int, rows: int, folder: Path, **environ: str) -> PseudoTerminal:
    names = ("HOSEWRIGHT_STATE", "XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "HOME")
    own = {name: str(folder) for name in names}
    return PseudoTerminal(PROGRAM, columns, rows, folder=ROOT, environ={**own, **environ})


def opened(at: PseudoTerminal) -> str:
    return at.wait(lambda text: "  1.  │" in text.replace(" │", "  │") and " fit · " in text, "the first question")


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (100, 30), (120, 40), (160, 50)])
def test_one_line_job_help_and_leave(columns: int, rows: int, tmp_path: Path) -> None:
    with terminal(columns, rows, tmp_path) as at:
        opened(at)
        at.settle()
        lines = at.lines()
        assert lines[-2].startswith(" ›") and lines[-1].startswith(" F1 help")
        assert lines[-1].endswith("leave") and "? " in "\n".join(lines)
        at.send(JOB)
        at.wait(lambda text: "42 in" in text, "the line in the prompt")
        at.send("\r")
        at.wait(lambda text: "bore: 1/2 in" in text, "what was understood")
        if rows == 24:
            at.wait(lambda text: "More below, then question" in text, "the note that more follows")
            at.send("\r")
        at.wait(lambda text: "fewer" in text or "still fits" in text, "what the answer changed")
        if columns >= 100:
            at.wait(lambda text: "first choice" in text and "What is known" in text, "what is known and fits beside")
        at.send("\x1bOP")  # F1
        at.wait(lambda text: "HOW IT GOES" in text, "the help")
        at.send("\x1b")
        at.wait(lambda text: " › " in text and "HOW IT GOES" not in text, "the conversation again")
        at.settle()
        assert at.quiet(1.0) == 0  # nothing moves while nobody touches anything
        at.send("\x11")
        assert at.finish() == 0
    kept = "".join(path.read_text(encoding="utf-8", errors="replace") for path in tmp_path.rglob("*") if path.is_file())
    assert JOB in kept


def test_resizing_keeps_the_question_on_the_screen(tmp_path: Path) -> None:
    with terminal(80, 24, tmp_path) as at:
        opened(at)
        at.resize(132, 43)
        at.wait(lambda text: "What still fits" in text and "don't know" in text, "the wide layout")
        at.resize(60, 20)
        text = at.wait(lambda text: "What still fits" not in text and "don't know" in text, "the narrow layout")
        assert all(len(line) <= 60 for line in text.splitlines())


def test_no_color_writes_no_colour(tmp_path: Path) -> None:
    with terminal(80, 24, tmp_path, NO_COLOR="1", HOSEWRIGHT_LOOK="terminal") as at:
        opened(at)
        at.settle()
        cells = [cell for row in at.screen.buffer.values() for cell in row.values()]
        colours = {colour for cell in cells for colour in (cell.fg, cell.bg) if colour != "default"}
        # Textual turns colours into greys under NO_COLOR; what matters is that none is a hue and ink differs from paper
        assert all(c[0:2] == c[2:4] == c[4:6] for c in colours if len(c) == 6), colours
        assert all(cell.fg != cell.bg for cell in cells if cell.data.strip() and cell.fg != "default")


BREAKS = """
import sys
from pathlib import Path
sys.path.insert(0, {here!r})
from fake_session import FakeSession
from interview.terminal import conversation
from interview.terminal.app import run
def page(self, direction):
    raise RuntimeError("deep inside")
conversation.Conversation.page = page
sys.exit(run(FakeSession, fault_log=Path({log!r})))
"""


def test_a_fault_that_ends_the_program_ends_it_with_a_sentence(tmp_path: Path) -> None:
    """The guard of `error_console`: Textual must go on telling its faults there, and only there."""
    log = tmp_path / "faults.log"
    program = [sys.executable, "-c", BREAKS.format(here=str(Path(__file__).parent), log=str(log))]
    with PseudoTerminal(program, 80, 24, folder=ROOT, environ={"HOME": str(tmp_path)}) as at:
        at.wait(lambda text: "Which line of the machine" in text, "the first question")
        at.send("\x1b[5~")  # page up
        assert at.finish() == 1
        text = " ".join(at.text().split())
        assert "Everything you typed is kept" in text
        assert "Traceback" not in text and "deep inside" not in text
    assert "RuntimeError: deep inside" in log.read_text(encoding="utf-8")
