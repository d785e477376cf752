"""How fast is the engine? A table with ratios against baselines measured in the same run; not collected by pytest.

    python tests/benchmarks/bench_engine.py

Exit status 1 where a measure of the issue is not met.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

EMPTY_APP = """
from textual.app import App
from textual.widgets import Input
class Empty(App):
    def compose(self): yield Input()
    async def on_ready(self): self.exit()
Empty().run(headless=True)
"""
PLAIN = """
import os, sys
from interview.cli import main
class Page:
    def __init__(self): self.text = ""
    def write(self, text):
        self.text += text
        if "What broke" in self.text: os._exit(0)
    def flush(self): pass
    def isatty(self): return False
sys.stdout = Page()
main(["--plain", "--fresh"])
os._exit(1)
"""
TABLES = """
import time
from interview.reference.tables import load_tables
from interview.reference.connections import load_connections
t = time.perf_counter()
tables = load_tables()
for name in ("constructions", "fluids", "refer_rules", "materials", "cells", "group_caps", "quick_rules",
             "disagreements", "metal_couples", "service", "iso_vg", "length_bands"):
    getattr(tables, name)
load_connections()
print((time.perf_counter() - t) * 1e3)
"""
REPLAY = """
import contextlib, io, sys, time
from interview.cli import main
files = sys.stdin.read().split()
with contextlib.redirect_stdout(io.StringIO()):
    main(["replay", files[0]])
    started = time.perf_counter()
    met = main(["replay", *form, *files]) == 0
print((time.perf_counter() - started) * 1e3 if met else float("nan"))
"""


def process(code: str, times: int, given: str = "") -> tuple[float, list[str]]:
    """Median wall time of a fresh interpreter, ms, and what each printed; bytecode is compiled before."""
    took, printed = [], []
    with tempfile.TemporaryDirectory() as folder:
        settings = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        settings |= {"PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": f"{folder}/bytecode", "HOSEWRIGHT_STATE": folder}
        for _ in range(times + 1):
            started = time.perf_counter()
            done = subprocess.run(
                [sys.executable, "-c", code],
                cwd=folder,
                capture_output=True,
                text=True,
                check=True,
                timeout=60,
                input=given,
                env=settings,
            )
            took.append((time.perf_counter() - started) * 1e3)
            printed.append(done.stdout)
    return statistics.median(took[1:]), printed[1:]


def loaded(times: int) -> float:
    return statistics.median(float(printed) for printed in process(TABLES, times)[1])


def answers() -> list[float]:
    """Every answer of every shipped scenario, judged and the next question chosen: ms each."""
    from interview.dialogue.session import Session, bench
    from interview.training import replay
    from interview.training.scenario import load_scenario

    took: list[float] = []

    class Timed(Session):
        def _timed(self, act: Callable[[], object]) -> object:
            started = time.perf_counter()
            done = act()
            took.append((time.perf_counter() - started) * 1e3)
            return done

        def say(self, text):  # type: ignore[no-untyped-def]
            return self._timed(lambda: Session.say(self, text))

        def answer(self, given, said=()):  # type: ignore[no-untyped-def]
            return self._timed(lambda: Session.answer(self, given, said))

    on = bench()
    files = sorted((ROOT / "scenarios").glob("*.yaml"))
    scenarios = [load_scenario(path) for path in files]
    replay.play(*scenarios[0], on)  # what is loaded once is loaded
    plain, replay.Session = replay.Session, Timed  # type: ignore[misc]
    try:
        for scenario, knows in scenarios:
            replay.play(scenario, knows, on)
    finally:
        replay.Session = plain  # type: ignore[misc]
    return took


def hundred_runs(form: list[str]) -> float:
    """Seconds for the command `replay` with 100 scenarios, in one process; not a number where one is not met."""
    files = sorted(str(path) for path in (ROOT / "scenarios").glob("*.yaml"))
    hundred = [files[i % len(files)] for i in range(100)]
    return (
        statistics.median(float(printed) for printed in process(f"form = {form!r}{REPLAY}", 3, " ".join(hundred))[1])
        / 1e3
    )


def main() -> int:
    empty, _ = process(EMPTY_APP, 5)
    plain, _ = process(PLAIN, 5)
    bare, _ = process("pass", 5)
    tables = loaded(5)
    took = answers()
    verdicts, records = hundred_runs([]), hundred_runs(["--json"])
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    rows: list[tuple[str, float, str, float | None, str]] = [
        ("empty Python process", bare, "ms", None, "baseline"),
        ("empty Textual app with one Input, start to ready", empty, "ms", None, "baseline"),
        (
            "plain mode, start to first question",
            plain,
            "ms",
            1.6 * empty,
            f"{plain / empty:.2f} x the empty app",
        ),
        ("all reference tables loaded", tables, "ms", 40.0, f"{tables / bare:.2f} x an empty process"),
        (f"an answer judged, next question chosen ({len(took)}): median", statistics.median(took), "ms", 20.0, ""),
        ("the same: 95 of 100", sorted(took)[int(0.95 * len(took))], "ms", None, ""),
        ("the same: worst", max(took), "ms", 50.0, ""),
        ("100 scenario runs in one process, told and judged", verdicts, "s", 2.0, f"{verdicts * 10:.1f} ms each"),
        ("the same with whole records as JSON (1.2 MB each)", records, "s", None, f"{records * 10:.1f} ms each"),
        ("peak memory of this process", peak, "MB", 130.0, ""),
    ]
    print(f"{'measure':<58}{'found':>10}  {'limit':>10}  ")
    missed = 0
    for name, value, unit, limit, note in rows:
        over = limit is not None and not value <= limit  # a value that is no number is over too
        missed += over
        shown = f"{limit:.1f} {unit}" if limit is not None else ""
        print(f"{name:<58}{value:>7.1f} {unit:<2}  {shown:>10}  {'OVER ' if over else ''}{note}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
