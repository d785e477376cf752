"""Does a record that the engine made, from a shipped scenario, come through documents and store as it is?"""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.record.assemble import record_of
from interview.record.digest import content_hash
from interview.record.documents.make import make
from interview.record.documents.words import clean
from interview.record.model import Record
from interview.record.store import Store
from interview.resources import shipped
from interview.selection.judge import Bench
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
