"""A store of its own for every test."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from interview.record.store import Store, open_store

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "records.sqlite"


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    with open_store(str(path), clock=lambda: NOON) as opened:
        yield opened
