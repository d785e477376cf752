"""Is a record kept as it was saved, never overwritten, found again, and compared field by field?"""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import pytest
from record_jobs import BRICK_PRESS, PROVISIONAL, SAWMILL, changed, fact_data, with_customer

from interview.record.digest import content_hash
from interview.record.model import Quantity, Record
from interview.record.store import Store, StoreError, differences
from interview.record.store.listing import listing_csv

# -- saving and revising -----------------------------------------------------------------------------------------------


def test_what_is_saved_is_loaded_again(store: Store) -> None:
    found = store.save(SAWMILL, note="first")
    assert found.number.startswith("260302-") and found.revision == 1 and found.newest
    stored = store.load(found.number)
    assert stored.record == SAWMILL and stored.found.note == "first" and stored.found.hash == content_hash(SAWMILL)


def test_a_change_is_a_new_revision_and_the_old_one_stays(store: Store) -> None:
    number = store.save(SAWMILL).number
    second = store.revise(number, changed(headline="longer"), based_on=1, note="200 mm longer")
    assert second.revision == 2
    assert store.load(number, 1).record == SAWMILL
    assert store.load(number).record.headline == "longer"
    assert [(f.revision, f.newest) for f in store.history(number)] == [(1, False), (2, True)]
    assert [f.revision for f in store.find()] == [2] and store.count() == 1
    assert [f.revision for f in store.find(all_revisions=True)] == [2, 1]


def test_a_change_of_an_older_revision_is_refused(store: Store) -> None:
    number = store.save(SAWMILL).number
    store.revise(number, changed(headline="theirs"), based_on=1)
    with pytest.raises(StoreError, match="is at revision 2; the change began from revision 1"):
        store.revise(number, changed(headline="ours"), based_on=1)
    assert store.load(number).record.headline == "theirs"


def test_a_record_that_is_not_there_is_said_to_be_missing(store: Store) -> None:
    number = store.save(SAWMILL).number
    for call in (
        lambda: store.load("260302-NONE"),
        lambda: store.load(number, 7),
        lambda: store.history("x"),
        lambda: store.revise("x", SAWMILL, based_on=1),
        lambda: store.export_json(["x"]),
    ):
        with pytest.raises(StoreError, match="There is no record"):
            call()


def test_a_number_that_is_taken_is_drawn_again(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    letters = iter("AAAA" + "AAAA" + "BBBB")
    monkeypatch.setattr("secrets.choice", lambda _: next(letters))
    assert store.save(SAWMILL).number == "260302-AAAA"
    assert store.save(SAWMILL).number == "260302-BBBB"


# -- finding -----------------------------------------------------------------------------------------------------------


def test_records_are_found_by_what_people_remember(store: Store) -> None:
    a = store.save(SAWMILL).number
    b = store.save(
        changed(BRICK_PRESS, made="2026-05-01T08:00:00", need={"pressure": {"value": 120, "unit": "bar"}})
    ).number
    c = store.save(
        changed(PROVISIONAL, facts={"customer": fact_data("Müller % Söhne_"), "line_tag": fact_data("X9")})
    ).number

    def numbers(**by: Any) -> set[str]:
        return {f.number for f in store.find(**by)}

    assert numbers() == {a, b, c}
    assert numbers(customer="SAWMILL") == {a}
    assert numbers(customer="muller") == {c} and numbers(customer="MÜLLER") == {c}
    assert numbers(customer="%") == {c} and numbers(customer="e_") == {c} and numbers(customer="\\") == set()
    assert numbers(machine="brick") == {b}
    assert numbers(tag="lt-07") == {a}
    assert numbers(bore=4.0) == {b} and numbers(bore=10.0) == {a, c}
    assert numbers(pressure=(200, 210)) == {a, c} and numbers(pressure=(None, 150)) == {b}
    assert numbers(since="2026-05-01") == {b} and numbers(until="2026-03-02") == {a, c}
    assert numbers(construction="en853-1sn") == {b}
    assert numbers(ready_for="quote") == {c} and numbers(outcome="specified") == {a, b}
    assert numbers(number=a.lower()) == {a}
    assert numbers(customer="sawmill", bore=4.0) == set()
    assert numbers(text="sawmill") == {a} and numbers(text="brick") == {b} and numbers(text="x9") == {c}
    assert numbers(text=b.lower()) == {b} and numbers(text="260302") == {a, b, c} and numbers(text="nobody") == set()
    assert [f.number for f in store.find(limit=1)] == [b]  # the newest first


HOSTILE = (
    "'; DROP TABLE hosewright_revision; --",
    "%_\\",
    "=1+1",
    "../..",
    "\u202ex\x00y",
    "שלום",
    "x" * 10_000,
    "\n\r\t",
)


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_names_are_kept_and_found(store: Store, name: str) -> None:
    record = with_customer(name)
    number = store.save(record, note=name).number
    assert store.load(number).record == record
    if name.strip().isprintable():
        assert [f.number for f in store.find(customer=name)] == [number]
    shown = store.find()[0].customer
    assert len(shown) < 201 and shown.isprintable()
    assert store.count() == 1


# -- comparing ---------------------------------------------------------------------------------------------------------


def test_two_revisions_are_compared_field_by_field(store: Store) -> None:
    number = store.save(SAWMILL).number
    later = changed(
        facts={"overall_length": fact_data(1650.0, "mm", "measured"), "wear": fact_data("rubbing")},
        build=SAWMILL.build.model_dump(mode="json") | {"overall_length_mm": 1650.0},
        cautions=[c.model_dump() for c in reversed(SAWMILL.cautions)],
    )
    store.revise(number, later, based_on=1)
    found = {d.field: (d.before, d.after) for d in store.compare(number, 1, 2)}
    assert found == {
        "facts.overall_length": ("1450 mm (57 1/16 in) (measured)", "1650 mm (64 15/16 in) (measured)"),
        "facts.wear": ("", "rubbing (stated)"),
        "build.overall_length_mm": ("1450.0", "1650.0"),
    }
    assert store.compare(number, 1, 1) == ()


def test_one_verdict_changed_is_one_difference() -> None:
    data = SAWMILL.model_dump(mode="json")
    data["candidates"][0]["findings"][5]["verdict"] = "fits"
    (only,) = differences(SAWMILL, Record.model_validate(data))
    assert only.field == "candidates[en853-2sn 10.0].findings[bend].verdict"
    assert (only.before, only.after) == ("open", "fits")


def test_every_field_of_a_fact_counts() -> None:
    (only,) = differences(SAWMILL, changed(facts={"machine": fact_data("log turner, deck 2", said="the log turner")}))
    assert only.field == "facts.machine.said" and only.after == "the log turner"


# -- the hash ----------------------------------------------------------------------------------------------------------


def test_the_hash_is_of_the_contents_only() -> None:
    assert content_hash(SAWMILL) == content_hash(Record.model_validate_json(SAWMILL.model_dump_json()))
    assert content_hash(SAWMILL) != content_hash(changed(headline="other"))
    turned = Record.model_validate(SAWMILL.model_dump() | {"facts": dict(reversed(SAWMILL.facts.items()))})
    assert list(turned.facts) != list(SAWMILL.facts) and content_hash(turned) == content_hash(SAWMILL)
    shuffled = Record(**{name: getattr(SAWMILL, name) for name in reversed(list(Record.model_fields))})
    assert content_hash(shuffled) == content_hash(SAWMILL)


def test_half_a_letter_from_a_terminal_is_kept_as_a_question_mark(store: Store) -> None:
    number = store.save(with_customer("Caf\udce9")).number
    assert store.load(number).record == with_customer("Caf?")
    assert json.loads(store.export_json())["records"][0]["record"]["facts"]["customer"]["value"] == "Caf?"


def test_a_number_json_does_not_know_is_not_saved(store: Store) -> None:
    record = SAWMILL.model_copy(update={"need": {"pressure": Quantity(value=float("nan"), unit="bar")}})
    with pytest.raises(StoreError, match="NaN is no number"):
        store.save(record)
    assert store.count() == 0
    said = with_customer('they said ":NaN," and {"x":Infinity}')
    assert store.load(store.save(said).number).record == said


def test_a_list_goes_into_a_spreadsheet_without_formulas(store: Store) -> None:
    store.save(with_customer('=HYPERLINK("http://x.example","y")'), note="+1")
    rows = list(csv.DictReader(io.StringIO(listing_csv(store.find()))))
    assert rows[0]["customer"].startswith("'=HYPERLINK") and rows[0]["bore"] == "10.0" and rows[0]["note"] == "+1"
    assert rows[0]["number"] == store.find()[0].number
