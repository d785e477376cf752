"""Do records travel whole between stores, and is a file that will not do refused with nothing changed?"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from record_jobs import PROVISIONAL, SAWMILL, changed, fact_data

from interview.catalogue import CATALOGUE, Kind
from interview.record.digest import canonical, content_hash, text_hash
from interview.record.model import Record
from interview.record.store import Store, StoreError, open_store

# -- exchange ----------------------------------------------------------------------------------------------------------

value_of = st.one_of(st.text(max_size=30), st.floats(allow_nan=False, allow_infinity=False), st.booleans(), st.none())
texts = st.text(max_size=40)


@st.composite
def records(draw: st.DrawFn) -> Record:
    names = draw(st.lists(st.sampled_from(sorted(CATALOGUE)), unique=True, max_size=8))
    facts: dict[str, Any] = {}
    for name in names:
        kind = CATALOGUE[name].kind
        value = draw(st.lists(texts, max_size=3) if kind is Kind.MANY else value_of)
        facts[name] = fact_data(
            value, CATALOGUE[name].unit, draw(st.sampled_from(["stated", "read", "assumed"])), said=draw(texts)
        )
    return changed(
        facts=facts,
        headline=draw(texts),
        open=draw(st.lists(texts, max_size=3)),
        made=draw(texts),
        house_rules=draw(st.lists(texts)),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(first=records(), second=records(), note=texts)
def test_what_is_exported_imports_as_the_same(first: Record, second: Record, note: str) -> None:
    with open_store("sqlite://") as one, open_store("sqlite://") as two:
        number = one.save(first, note=note).number
        one.revise(number, second, based_on=1)
        text = one.export_json()
        taken = two.import_json(text)
        assert (taken.added, taken.already) == (2, 0)
        assert two.export_json() == text
        assert two.load(number, 1).record == first and two.load(number).record == second
        again = two.import_json(text)
        assert (again.added, again.already) == (0, 2) and two.count() == 1


def exported(store: Store) -> tuple[str, Any]:
    number = store.save(SAWMILL).number
    store.revise(number, PROVISIONAL, based_on=1)
    return number, json.loads(store.export_json())


def sealed(data: Any) -> str:
    return json.dumps(data | {"seal": text_hash(canonical(data["records"]))})


def test_an_import_that_will_not_do_changes_nothing(store: Store, tmp_path: Path) -> None:
    _, good = exported(store)

    def edited(change: Any) -> Any:
        data = json.loads(json.dumps(good))
        change(data)
        return data

    def other_headline(data: Any) -> None:
        data["records"][1]["record"]["headline"] = "other"

    cases = [
        ("not JSON, or was cut off", json.dumps(good)[:-200]),
        ("it is not JSON", "[" * 100_000),
        ("does not begin with hosewright_records", "{}"),
        ("does not begin with hosewright_records", "[1]"),
        ("a form this version does not know", json.dumps(good | {"hosewright_records": 2})),
        ("field this version does not know: extra", json.dumps(good | {"extra": 1})),
        ("its seal does not match", json.dumps(good | {"seal": "0" * 64})),
        ("its hash does not match", sealed(edited(other_headline))),
        ("extra", sealed(edited(lambda d: d["records"][0].update(extra=1)))),
        ("colour is not a field of a record", sealed(edited(lambda d: d["records"][0]["record"].update(colour="red")))),
        ("outcome is missing", sealed(edited(lambda d: d["records"][0]["record"].pop("outcome")))),
        ("lacks revision", sealed(edited(lambda d: d["records"][0].update(revision="1")))),
        ("no number and revision", sealed(edited(lambda d: d["records"][0].update(revision=0)))),
        ("would leave a gap", sealed(edited(lambda d: d["records"].pop(0)))),
        ("gives the field seal twice", json.dumps(good)[:-1] + ', "seal": "x"}'),
        ("NaN, which is no number", json.dumps(good).replace("206.8", "NaN")),
    ]
    with open_store(str(tmp_path / "other.sqlite")) as other:
        for words, text in cases:
            with pytest.raises(StoreError, match=words) as caught:
                other.import_json(text)
            assert "Nothing was changed" in str(caught.value)
            assert other.count() == 0
        assert other.import_json(json.dumps(good)).added == 2


def test_a_clash_of_contents_is_refused(store: Store, tmp_path: Path) -> None:
    number, good = exported(store)
    with open_store(str(tmp_path / "other.sqlite")) as other:
        first = good["records"][0]
        first["record"]["headline"] = "theirs"
        first["hash"] = content_hash(Record.model_validate(first["record"]))
        good["records"].pop()
        other.import_json(sealed(good))
        with pytest.raises(StoreError, match="in this store with other contents"):
            other.import_json(store.export_json())
        assert other.load(number).record.headline == "theirs"


def test_an_export_tells_how_far_it_is(store: Store) -> None:
    number, _ = exported(store)
    store.save(SAWMILL)
    told: list[tuple[int, int]] = []
    store.export_json(progress=lambda done, total: told.append((done, total)))
    assert told == [(1, 3), (2, 3), (3, 3)]
    told.clear()
    some = json.loads(store.export_json([number], progress=lambda done, total: told.append((done, total))))
    assert told == [(1, 2), (2, 2)] and {r["number"] for r in some["records"]} == {number}
