"""How quick is the app in a real terminal? One table, ratios in one run.

Run by hand: `python tests/benchmarks/bench_app.py [script and arguments in place of the program]`.

Start is measured from the start of the process to the words on the screen, in turn with the smallest Textual app that
has one Input. Key to screen is the time from the key written to the first answer of the program. Idle is what it sends
while nobody touches anything.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "terminal"))

from pseudo_terminal import PseudoTerminal

ROOT = Path(__file__).resolve().parent.parent.parent
ROUNDS = 9
QUESTION = b"?  don't know"  # stands under every question, and nowhere before the first
SMALLEST = """
from textual.app import App
from textual.widgets import Input
class Smallest(App):
    def compose(self):
        yield Input(placeholder="an empty app")
Smallest().run()
"""
LIMITS = {
    "start to first question / smallest app": 1.5,
    "key to screen at 200 messages, median ms": 30.0,
    "idle output, bytes in 5 s": 0.0,
    "memory after 60 answers, MB": 130.0,
}


def started(command: Sequence[str], words: bytes, home: Path) -> float:
    """Milliseconds until the words have been written to the terminal."""
    with PseudoTerminal(command, 100, 30, folder=ROOT, environ=_own(home)) as terminal:
        return terminal.wait_for_bytes(words)


def key_to_screen(terminal: PseudoTerminal, keys: str) -> list[float]:
    times = []
    for key in keys:
        terminal.settle()
        before = time.perf_counter()
        terminal.send(key)
        while not terminal.read(1.0):
            pass
        times.append((time.perf_counter() - before) * 1000)
    return times


def answer(terminal: PseudoTerminal, line: str, done: Callable[[str], bool]) -> None:
    terminal.send(line)
    terminal.wait(lambda text: line[-20:] in text, f"{line} in the prompt")
    terminal.send("\r")
    terminal.wait(done, f"an answer to {line}")
    terminal.settle()


def _own(home: Path) -> dict[str, str]:
    return {"XDG_STATE_HOME": str(home), "XDG_DATA_HOME": str(home), "XDG_CACHE_HOME": str(home), "HOME": str(home)}


def main() -> int:
    program = [sys.executable, "-m", "interview", "--fresh"] if len(sys.argv) < 2 else [sys.executable, *sys.argv[1:]]
    results: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        smallest, ours = [], []
        started(program, QUESTION, home)  # byte code and caches as on any second start
        for _ in range(ROUNDS):
            smallest.append(started([sys.executable, "-c", SMALLEST], b"n empty app", home))
            ours.append(started(program, QUESTION, home))
        print(
            f"smallest app {statistics.median(smallest):.0f} ms, first question {statistics.median(ours):.0f} ms "
            f"(medians of {ROUNDS})"
        )
        results["start to first question / smallest app"] = statistics.median(ours) / statistics.median(smallest)
        with PseudoTerminal(program, 100, 30, folder=ROOT, environ=_own(home)) as terminal:
            terminal.wait(lambda text: " 1." in text and " fit · " in text, "the first question and the session")
            terminal.settle()
            terminal.quiet(2.0)  # imports that go on behind the first question
            results["idle output, bytes in 5 s"] = float(terminal.quiet(5.0))
            print(f"memory at the first question {terminal.memory():.0f} MB, bytes so far {terminal.received}")
            for turn in range(60):
                answer(terminal, f"change working_pressure to {100 + turn} bar", lambda text: "you" in text)
            results["memory after 60 answers, MB"] = terminal.memory()
            for _ in range(70):
                answer(terminal, "why", lambda text: "you" in text)
            before = terminal.received
            times = key_to_screen(terminal, "half inch 2500 psi peaks")
            results["key to screen at 200 messages, median ms"] = statistics.median(times)
            print(
                f"key to screen: median {statistics.median(times):.1f} ms, worst {max(times):.1f} ms, "
                f"{(terminal.received - before) / len(times):.0f} bytes a key"
            )
    missed = 0
    for name, limit in LIMITS.items():
        value = results[name]
        verdict = "met" if value <= limit else "MISSED"
        missed += value > limit
        print(f"{name:<45} {value:8.2f}   limit {limit:6.1f}   {verdict}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
