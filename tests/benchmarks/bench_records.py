"""Are the measures of the store and the documents met? Medians, among 100,000 records, on the machine at hand."""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "record"))

from measure import median_ms
from record_jobs import SAWMILL, changed, fact_data

from interview.record.documents.make import make
from interview.record.model import Record
from interview.record.store import Store, open_store
from interview.record.store.rows import columns
from interview.record.store.schema import CONTENT, REVISION

MANY = 100_000


def full(record: Record = SAWMILL) -> Record:
    """A record of true size: 357 candidates of twelve findings, as the engine judges them."""
    data = record.model_dump(mode="json")
    one = data["candidates"][0]
    findings = [
        {**f, "check": f"{f['check']} {n}", "why": "within its rating, as the table has it"}
        for n in (1, 2)
        for f in one["findings"]
    ]
    data["candidates"] += [
        {**one, "construction": f"c{n}", "verdict": "open", "findings": findings} for n in range(356)
    ]
    return Record.model_validate(data)


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    draw = random.Random(7)
    rows = []
    for n in range(1, MANY + 1):
        day = f"20{20 + n % 7}-{1 + n % 12:02d}-{1 + n % 28:02d}"
        mill, place = draw.choice(("Fernleigh", "Tanhouse", "Kilnbank")), draw.choice(("Mill", "Brick"))
        names = {
            "customer": f"{mill} {place} {n % 5000}",
            "machine": f"{draw.choice(['press', 'baler', 'winch'])} {n % 300}",
            "tag": f"LT-{n % 9973}",
        }
        row = columns(SAWMILL) | names | {f"{name}_key": text.lower() for name, text in names.items()}
        row |= {
            "bore": float(draw.choice([4, 6, 8, 10, 12])),
            "pressure": draw.uniform(20, 400),
            "day": day,
            "saved": day,
        }
        rows.append(
            row | {"id": n, "number": f"{n:06d}-TEST", "revision": 1, "newest": 1, "note": "", "hash": "0" * 64}
        )
    with open_store(str(tmp_path_factory.mktemp("many") / "many.sqlite")) as store:
        with store._writer.begin() as connection:
            connection.execute(REVISION.insert(), rows)
            connection.execute(CONTENT.insert(), [{"revision_id": n, "packed": b""} for n in range(1, MANY + 1)])
        yield store


SEARCHES: dict[str, dict[str, Any]] = {
    "customer": {"customer": "tanhouse brick 123"},
    "nobody": {"customer": "nobody at all"},
    "machine": {"machine": "winch 29"},
    "tag": {"tag": "LT-777"},
    "size": {"bore": 12.0},
    "pressure": {"pressure": (399.9, None)},
    "all three": {"bore": 8.0, "pressure": (100, 101), "customer": "kiln"},
    "date": {"since": "2026-06-01", "until": "2026-06-30"},
    "number": {"number": "099999"},
    "anywhere": {"text": "lt-9972"},
}


@pytest.mark.slow
@pytest.mark.parametrize("name", SEARCHES)
def test_find_among_100_000_within_50_ms(filled: Store, name: str) -> None:
    assert filled.count() >= MANY
    assert median_ms(lambda: filled.find(**SEARCHES[name])) <= 50


@pytest.mark.slow
def test_save_within_20_ms_among_100_000(filled: Store) -> None:
    record = full(changed(facts={"customer": fact_data("Speed Test")}))
    assert len(record.candidates) > 357
    assert median_ms(lambda: filled.save(record)) <= 20


def test_a_full_record_is_a_pdf_within_a_second(tmp_path: Path) -> None:
    record = full()
    assert median_ms(lambda: make(record, form="pdf"), 3) <= 1000
