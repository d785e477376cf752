"""Does a record that the engine made, from a shipped scenario, come through documents and store as it is?"""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.dialogue.session import Session, bench
from interview.record.assemble import record_of
from interview.record.digest import content_hash
from interview.record.documents.make import make
from interview.record.documents.words import clean
from interview.record.model import Record
from interview.record.store import Store
from interview.resources import shipped
from interview.selection.judge import Bench
from interview.selection.shelf import Item
from interview.training.replay import play
from interview.training.scenario import load_scenario

SCENARIOS = sorted(shipped("scenarios").glob("*.yaml"))


def made(path: Path, on: Bench) -> Record:
    scenario, knows = load_scenario(path)
    return record_of(play(scenario, knows, on).session, made="2026-03-02T10:15:00")


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda p: p.stem)
def test_a_scenarios_record_is_written_out_and_kept(file: Path, on: Bench, store: Store) -> None:
    record = made(file, on)
    text = make(record).decode().replace("\\", "")
    assert ("NOT FOR BUILDING" in text) is (record.ready_for != "build")
    for line in record.facts.values():
        if line.value is not None and line.shown:
            assert clean(line.shown) in text
    for caution in record.cautions:
        assert clean(caution.text) in text
    for source in record.sources:
        assert clean(source) in text
    for kind, form in (("specification", "html"), ("build-sheet", "md"), ("tag", "txt"), ("drawing", "svg")):
        assert make(record, kind, form)
    drawn = make(record, "drawing", "txt").decode()
    assert max(map(len, drawn.split("\n"))) <= 76
    kept = store.load(store.save(record).number)
    assert content_hash(kept.record) == content_hash(record)
    assert kept.record.model_dump(mode="json") == record.model_dump(mode="json")


def test_a_record_ready_to_build_prints_its_sheet_on_one_page(on: Bench) -> None:
    """The sawmill's job with the gate lifted by hand: the engine's own texts at their true length."""
    import io

    from pypdf import PdfReader

    path = next(p for p in SCENARIOS if p.stem == "sawmill-log-turner")
    record = made(path, on).model_copy(update={"ready_for": "build", "missing_for_build": ()})
    pages = PdfReader(io.BytesIO(make(record, "build-sheet", "pdf"))).pages
    assert len(pages) == 1 and "Crimp as measured" in pages[0].extract_text()
    front = PdfReader(io.BytesIO(make(record, "specification", "pdf"))).pages[0].extract_text()
    assert "Accepted for the customer" in front


def test_the_checks_on_a_page_are_those_of_the_shelf_item_that_was_chosen() -> None:
    """Two candidates of one construction and bore: the table's row, and the item its maker rates higher."""
    on = bench(shelved=False)
    item = Item("rack 3", "en857-2sc", 8.0, rating=400e5, document="sheet 12", dated="2026-03-01")
    session = Session(on=Bench.of(on.tables, on.connections, on.rules, (item,)))
    session.open()
    session.say(
        "pressure line, half inch, 150 bar peaks 340, HLP 46, oil to 70C, air -10 to 35C, 40 l/min, 800 mm long"
    )
    session.say("both ends face seal -8 female straight")
    record = record_of(session)
    assert record.choice is not None and record.choice.stock_item == "rack 3" and record.choice.twins == ()
    assert record.chosen is not None and record.chosen.stock_item == "rack 3"
    assert {f.verdict for f in record.chosen.findings if f.check == "pressure"} == {"fits"}
    row = next(c for c in record.candidates if (c.construction, c.bore, c.stock_item) == ("en857-2sc", 8, None))
    assert {f.verdict for f in row.findings if f.check == "pressure"} == {"fails"}


def test_nobody_is_quoted_with_words_they_did_not_say() -> None:
    """A "none" to a list is no "fixed" and no "no" in the customer's mouth, and no "not known" either."""
    session = Session(on=bench(shelved=False))
    session.open()
    session.say("pressure line, half inch, 150 bar peaks 200, HLP 46, oil to 70C, air -10 to 35C, 40 l/min, 800 mm")
    session.say("both ends face seal -8 female straight")
    for _ in range(30):
        if session.asked is None or "motion" in session.asked.parts:
            break
        session.say("none" if "regulated_use" in session.asked.parts else "don't know")
    session.say("none")
    facts = record_of(session).facts
    assert facts["motion"].value == "fixed" and facts["motion"].said.startswith("none of the ")
    page = make(record_of(session)).decode()
    assert "room to bend" in page.split("Asked, and said not to apply")[1][:200].lower()
