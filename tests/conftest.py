"""What every test shares: one bench of tables and rules, and no trace left in the user's folders."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.dialogue.session import bench
from interview.selection.judge import Bench


@pytest.fixture(scope="session")
def on() -> Bench:
    return bench()


@pytest.fixture(autouse=True)
def _own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOSEWRIGHT_STATE", str(tmp_path / "state"))
