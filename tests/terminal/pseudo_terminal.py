"""A real terminal for a program under test: a pseudo-terminal whose screen is kept by pyte, read by condition."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import TracebackType

import pyte

PATIENCE = 20.0
# what the tests' own surroundings may say and the program must not hear; COLUMNS would override the true size
SETTINGS = ("NO_COLOR", "COLORFGBG", "COLUMNS", "LINES", "HOSEWRIGHT_LOOK", "PYTEST_CURRENT_TEST")


class PseudoTerminal:
    """Starts a program at a size; `wait` reads until the screen meets a condition."""

    def __init__(
        self, command: Sequence[str], columns: int, rows: int, *, folder: Path, environ: Mapping[str, str] | None = None
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.received = 0
        self.ended = False
        clean = {k: v for k, v in os.environ.items() if k not in SETTINGS}
        full = {**clean, "TERM": "xterm-256color", "COLORTERM": "truecolor", "LANG": "C.UTF-8", **(environ or {})}
        master, slave = pty.openpty()  # sized before the program starts, so that it never sees another size
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        self.started = time.perf_counter()
        self.pid = os.fork()
        if self.pid == 0:
            os.close(master)
            os.login_tty(slave)
            os.chdir(folder)
            os.execvpe(command[0], list(command), full)
        os.close(slave)
        self.master = master

    def __enter__(self) -> PseudoTerminal:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if not self.ended:
            os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.master)

    def send(self, text: str) -> None:
        os.write(self.master, text.encode())

    def resize(self, columns: int, rows: int) -> None:
        fcntl.ioctl(self.master, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        self.screen.resize(rows, columns)

    def read(self, seconds: float) -> int:
        """Feeds what arrives within `seconds` (returns after the first lot); the number of bytes."""
        ready, _, _ = select.select([self.master], [], [], seconds)
        if not ready:
            return 0
        try:
            data = os.read(self.master, 1 << 16)
        except OSError:
            data = b""
        if not data:
            self.ended = True
            return 0
        self.received += len(data)
        # DECRQM and kitty queries carry a $ or > that this version of pyte prints; they draw nothing on a terminal
        self.stream.feed(_drop_queries(data))
        return len(data)

    def wait(self, condition: Callable[[str], bool], description: str) -> str:
        end = time.monotonic() + PATIENCE
        while not condition(text := self.text()):
            if self.ended or time.monotonic() > end:
                raise AssertionError(f"waited in vain for: {description}\n{text}")
            self.read(0.05)
        return text

    def wait_for_bytes(self, words: bytes) -> float:
        """Milliseconds from the start until these bytes have come; drawing the screen would cost more than they do."""
        came = b""
        while words not in came:
            if time.perf_counter() - self.started > PATIENCE:
                raise AssertionError(f"waited in vain for the bytes {words!r}")
            if select.select([self.master], [], [], 0.05)[0]:
                came += os.read(self.master, 1 << 16)
        return (time.perf_counter() - self.started) * 1000

    def quiet(self, seconds: float) -> int:
        """Bytes that arrive within `seconds` although nobody touches anything."""
        before, end = self.received, time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0 and not self.ended:
            self.read(left)
        return self.received - before

    def settle(self) -> None:
        """Reads until nothing has come for a fifth of a second."""
        while self.read(0.2):
            pass

    def finish(self) -> int:
        """Reads until the program ends; its exit status."""
        end = time.monotonic() + PATIENCE
        while not self.ended:
            if time.monotonic() > end:
                raise AssertionError(f"the program did not end\n{self.text()}")
            self.read(0.1)
        return os.waitstatus_to_exitcode(os.waitid(os.P_PID, self.pid, os.WEXITED | os.WNOWAIT).si_status << 8)

    def text(self) -> str:
        return "\n".join(self.lines())

    def lines(self) -> list[str]:
        return [line.rstrip() for line in self.screen.display]

    def memory(self) -> float:
        """Resident megabytes of the program now."""
        status = Path(f"/proc/{self.pid}/status").read_text(encoding="ascii")
        return int(next(line.split()[1] for line in status.splitlines() if line.startswith("VmRSS"))) / 1024


def _drop_queries(data: bytes) -> bytes:
    import re

    return re.sub(rb"\x1b\[[?>=<][0-9;]*(?:\$p|u|m|q)|\x1bP.*?\x1b\\", b"", data, flags=re.S)
