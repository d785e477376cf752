"""How long do tables, identification and listening take? A table, with ratios to reading the bytes or half the text.

Run: python tests/benchmarks/bench_tables_and_words.py
"""

from __future__ import annotations

from functools import partial
from pathlib import Path

from measure import median_ms

from interview.language.listen import listen
from interview.reference.connections import load_connections
from interview.reference.tables import Tables
from interview.selection.identify import identify
from interview.selection.identify_entries import entries
from interview.selection.identify_readings import Readings

DATA = Path(__file__).resolve().parents[2] / "interview" / "reference" / "data"
LINE = (
    "burst hose, pressure line, half inch, 2500 psi peaks 3200, AW46, oil to 180F, yard -10 to 100F, "
    "JIC 8 females both ends, 42 in"
)
LONG = (
    "3000 psi, ",
    "oil to 80 C and air -10 to 40 F, ",
    "JIC 8 female one end, ",
    "word salad here ",
    "no 3000 no ",
    "1/2 ",
)


def all_tables() -> None:
    tables = Tables()
    load_connections.cache_clear()
    assert tables.constructions and tables.fluids and tables.refer_rules and tables.materials and tables.cells
    assert load_connections().families


def main() -> None:
    read = median_ms(lambda: [path.read_bytes() for path in DATA.glob("*.csv")])
    tables = median_ms(all_tables)
    print(f"{'all tables, typed and checked':44}{tables:9.1f} ms   limit 60   {tables / read:6.1f} x reading the bytes")
    connections = load_connections()
    some = entries(connections)[::10]
    each = median_ms(
        lambda: [identify(Readings(gender=e.gender, diameter=e.limits[0], pitch=e.pitch), connections) for e in some]
    )
    print(f"{'one identification':44}{each / len(some):9.2f} ms   limit 5")
    listen(LINE)
    print(f"{'the one-line job, warm':44}{median_ms(lambda: listen(LINE)):9.2f} ms   limit 3")
    for unit in LONG:
        text = unit * 2000
        two = median_ms(partial(listen, text[:2000]), 5)
        four = median_ms(partial(listen, text[:4000]), 3)
        print(f"{'2 kB of ' + repr(unit[:24]):44}{two:9.1f} ms   limit 50   4 kB takes {four / two:.1f} x")


if __name__ == "__main__":
    main()
