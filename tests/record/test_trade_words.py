"""Is the record worded as the trade words it? No ids of tables, no figure without meaning, nothing left off unsaid."""

from __future__ import annotations

import pytest

from interview.dialogue.session import Session
from interview.language.read import read_knows
from interview.record.assemble import record_of
from interview.record.documents import words as w
from interview.record.documents.make import make
from interview.record.model import Record
from interview.selection.judge import Bench

JOB: dict[str, object] = {
    "regulated_use": "none",
    "line_function": "pressure",
    "bore": 8,
    "flow_rate": 40,
    "working_pressure": 160,
    "surge_pressure": 220,
    "medium": "hm",
    "fluid_temperature_max": 60,
    "ambient_temperature_max": 16.5,
    "ambient_temperature_min": -10,
    "end_a_family": "orfs",
    "end_a_size": "-8",
    "end_a_gender": "female",
    "end_a_form": "straight",
    "end_b_family": "orfs",
    "end_b_size": "-8",
    "end_b_gender": "female",
    "end_b_form": "straight",
    "overall_length": 900,
    "near_power_line": "no",
}


def recorded(on: Bench, home: str = "metric", **changes: object) -> Record:
    """The record of what is known; a value of None leaves a fact out."""
    session = Session(on=on, home=home)
    session.open()
    session.answer({n: read_knows(n, v) for n, v in {**JOB, **changes}.items() if v is not None})
    return record_of(session)


def paper(record: Record) -> str:
    return make(record).decode()


@pytest.mark.parametrize(
    ("need", "limit", "cold", "text"),
    [
        (16.5, 100, False, "+83.5 °C (+150 °F)"),
        (-10, -40, True, "+30 °C (+54 °F)"),
        (110, 100, False, "−10 °C (−18 °F)"),
    ],
)
def test_what_is_to_spare_in_heat_and_cold_is_a_difference(need: float, limit: float, cold: bool, text: str) -> None:
    assert w.degrees(need, limit, cold=cold) == text
    first, second = text.removesuffix(")").split(" (")
    assert w.degrees(need, limit, "us", cold=cold) == f"{second} ({first})"


def test_no_ratio_of_degrees_stands_on_paper(on: Bench) -> None:
    rows = [line for line in paper(recorded(on)).splitlines() if line.startswith(("| fluid ", "| ambient "))]
    assert len(rows) == 4
    for row in rows:
        margin = row.split("|")[4]
        assert "°C" in margin and "%" not in margin, row
    assert "+83.5 °C" in next(r for r in rows if r.startswith("| ambient hot"))
