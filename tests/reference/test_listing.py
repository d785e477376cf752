"""Can every value of the reference tables be listed with its tag and its source?"""

from __future__ import annotations

import json
from collections import Counter

import pytest

from interview.reference import listing
from interview.reference.tables import load_tables


def test_each_table_counts_its_values_by_tag() -> None:
    found = {row["table"]: row for row in listing.tables_json()}
    assert set(found) == set(listing.TABLES)
    assert (found["hoses"]["rows"], found["sizes"]["rows"], found["compatibility"]["rows"]) == (41, 357, 900)
    # how the verdicts of the 900 cells are tagged was counted apart from these tables, by whoever collected them
    values = [v for row in listing.rows_json("compatibility") for v in row["values"]]  # type: ignore[attr-defined]
    tags = Counter(v["tag"] for v in values if v["name"] == "verdict")
    assert tags == {"standard": 23, "restated": 54, "handbook": 64, "practice": 89, "memory": 670}
    # a verdict's source says nothing of the cap beside it
    caps = [v for v in values if v["name"] == "highest temperature"]
    assert caps and {v["tag"] for v in caps} == {"practice"}
    assert len(listing.tables()) == len(listing.TABLES) + 2


@pytest.mark.parametrize("table", listing.TABLES)
def test_every_row_has_a_key_of_its_own_and_is_found_by_it(table: str) -> None:
    rows = list(listing.entries(table))
    keys = [row.key.lower() for row in rows]
    assert len(set(keys)) == len(keys)
    assert listing.entry(table, rows[-1].key.upper()) == rows[-1]
    assert len(listing.rows(table)) == len(rows)
    json.dumps(listing.rows_json(table), allow_nan=False)


def test_a_row_shows_value_tag_and_source() -> None:
    text = "\n".join(listing.row("sizes", "en853-2sn 8"))
    assert "275 bar" in text and "180 mm" in text
    assert "restated" in text and "public tables" in text
    row = listing.row_json("sizes", "saej517-100r14a 5")
    values = {v["name"]: v for v in row["values"]}  # type: ignore[attr-defined]
    assert values["outside diameter"]["value"] is None
    assert values["working pressure"]["tag"] == "memory"
    assert "outside diameter: not known" in "\n".join(listing.row("sizes", "saej517-100r14a 5"))


def test_disagreements_say_what_was_taken() -> None:
    rows = listing.disagreements_json()
    assert all(row["said"] and row["taken"] for row in rows)
    subjects = {row["subject"] for row in rows}
    assert {"saej517-100r1at, bore 3", "saej517-100r15, bore 32"} <= subjects
    assert len(rows) > len(load_tables().disagreements)
    assert any(line.startswith("  taken: ") for line in listing.disagreements())


@pytest.mark.parametrize("ask", [lambda: listing.rows("hose"), lambda: listing.row("sizes", "en853-2sn 7")])
def test_a_wrong_name_is_answered_with_what_there_is(ask: object) -> None:
    with pytest.raises(ValueError, match=r"the tables are hoses, sizes|list the table to see its keys"):
        ask()  # type: ignore[operator]
