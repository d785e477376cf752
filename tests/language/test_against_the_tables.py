"""Do the copies that the listener keeps of thread tables still say what the reference tables say?

The room may not import the tables; what it repeats of them is held against them here, figure by figure.
"""

from __future__ import annotations

import pytest

from interview.engineering import threads
from interview.language.end_sizes import FAMILIES
from interview.language.thread_readings import _TAPER_PIPE, PIPE
from interview.reference.connections import load_connections


def test_the_parallel_pipe_threads_are_those_of_the_table() -> None:
    rows = {row.size: row for row in load_connections().families["bspp_cone60"].sizes}
    assert set(PIPE) == set(rows)
    for size, (outside, count) in PIPE.items():
        row = rows[size]
        assert row.male_od is not None and row.pitch is not None
        assert row.male_od[1] * 1000 == pytest.approx(round(outside, 2), abs=1e-9), size  # printed to the hundredth
        assert float(str(row.details["tpi"])) == count, size
        assert row.pitch * 1000 == pytest.approx(25.4 / count, abs=1e-9), size
        assert row.thread == f"G{size} (BSPP, {count:g} TPI)"


def test_the_parallel_pipe_threads_are_those_of_the_standard_to_the_thousandth() -> None:
    assert {size: outside for size, (outside, _) in PIPE.items()} == {s: threads.G_MAJOR[s] for s in PIPE}
    assert {size: count for size, (_, count) in PIPE.items()} == {s: threads.G_TPI[s] for s in PIPE}


def test_the_taper_pipe_threads_have_the_counts_of_the_table() -> None:
    rows = load_connections().families["npt"].sizes
    assert {row.size: float(str(row.details["tpi"])) for row in rows} == _TAPER_PIPE


def test_the_sizes_of_every_connection_are_those_of_the_table() -> None:
    table = {name: {row.size for row in family.sizes} for name, family in load_connections().families.items()}
    assert {name: set(sizes) for name, sizes in FAMILIES.items()} == {n: s for n, s in table.items() if n in FAMILIES}
    assert set(FAMILIES) <= set(table)
