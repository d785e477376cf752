"""Saved twice, gone on with, compared: is a record that did not change left as it is, and told in its own units?"""

from __future__ import annotations

from pathlib import Path

import pytest
from record_jobs import SAWMILL, changed, fact_data

from interview.dialogue.events import Event
from interview.dialogue.fit_view import TOLD
from interview.dialogue.journal import Journal
from interview.plain import lines_of
from interview.record.model import Record
from interview.record.saving import CounterSession
from interview.record.store import StoreError, differences, open_store
from interview.record.store.compare import for_a_person, unchanged
from interview.selection.judge import Bench

US_JOB = (
    "hose off a wheel loader, pressure line, half inch, 2500 psi peaks 3200, AW46, oil to 180F, yard -10 to 100F, "
    "JIC 8 females both ends, 42 in"
)


def counter(on: Bench, url: str, home: str = "metric", journal: Journal | None = None) -> CounterSession:
    session = CounterSession(home=home, on=on, journal=journal)
    session.store_url = url
    session.open()
    return session


def told(events: list[Event]) -> str:
    return " ".join(word for event in events for line in lines_of(event) for word in line.split())


def number_of(session: CounterSession) -> str:
    assert session.now.revises is not None
    return session.now.revises[0]


def test_saved_twice_without_a_change_there_is_one_revision(on: Bench, path: Path) -> None:
    session = counter(on, str(path))
    session.say(US_JOB)
    assert "revision 1" in told(session.say("save"))
    number = number_of(session)
    assert told(session.say("save")) == f"Nothing changed since {number}, revision 1: no new revision was made."
    with open_store(str(path)) as store:
        assert len(store.history(number)) == 1


def test_a_change_or_a_note_makes_a_revision(on: Bench, path: Path) -> None:
    session = counter(on, str(path))
    session.say(US_JOB)
    session.say("save")
    assert "revision 2" in told(session.say("save asked by telephone"))
    session.say("change working pressure to 2600 psi")
    assert "revision 3" in told(session.say("save"))
    session.say("undo")
    assert "revision 4" in told(session.say("save"))


def test_gone_on_with_and_saved_unchanged_there_is_no_new_revision(on: Bench, path: Path) -> None:
    session = counter(on, str(path))
    session.say(US_JOB)
    session.say("save")
    number = number_of(session)
    again = counter(on, str(path))
    again.say(f"revise {number}")
    assert "no new revision was made" in told(again.say("save"))


@pytest.mark.parametrize("way", ["revise", "repeat"])
def test_a_us_job_gone_on_with_keeps_its_units_first(on: Bench, path: Path, tmp_path: Path, way: str) -> None:
    session = counter(on, str(path))
    session.say(US_JOB)
    session.say("save")
    assert session.home == "us"
    journal = Journal.start("metric", folder=tmp_path / "state")
    again = counter(on, str(path), journal=journal)
    again.say(f"{way} {number_of(session)}")
    assert again.home == "us"
    journal.close()
    assert journal.path is not None
    resumed = CounterSession(on=on)
    resumed.replay(Journal.open(journal.path))
    assert resumed.home == "us"
    resumed.say("change working pressure to 2600 psi")
    shown = next(line.shown for line in resumed.known_lines() if line.fact == "working_pressure")
    assert shown.startswith("2,600 psi")


def test_a_record_of_few_units_is_told_in_the_units_it_was_made_in(on: Bench, path: Path) -> None:
    """Nothing in it was said with a unit: only the record itself knows whose units come first."""
    session = counter(on, str(path), home="us")
    session.say("pressure line, AW46")
    session.say("save")
    again = counter(on, str(path))
    again.say(f"revise {number_of(session)}")
    assert again.home == "us"


# ---- comparing -------------------------------------------------------------------------------------------------------


def test_a_person_is_told_no_turns_and_no_candidates() -> None:
    data = changed(facts={"machine": fact_data("log turner, deck 2", turn=7)}).model_dump(mode="json")
    data["candidates"][0]["findings"][5]["verdict"] = "fits"
    data["sources"] = [*data["sources"], "another source"]
    after = Record.model_validate(data)
    everything = {d.field for d in differences(SAWMILL, after)}
    assert "facts.machine.turn" in everything and any(f.startswith("candidates[") for f in everything)
    assert for_a_person(SAWMILL, after) == ()


def test_what_a_person_compares_is_told() -> None:
    after = changed(
        facts={"overall_length": fact_data(1650.0, "mm", "measured")},
        outcome="provisional",
        open=["surge_pressure"],
    )
    assert [d.field.split(".")[0].split("[")[0] for d in for_a_person(SAWMILL, after)] == ["facts", "outcome", "open"]


def test_only_when_and_in_which_turn_is_no_change() -> None:
    later = SAWMILL.model_copy(update={"made": "2031-01-01T00:00:00", "asked": ("bore",)})
    assert unchanged(SAWMILL, later)
    assert not unchanged(SAWMILL, changed(facts={"quantity": fact_data(3.0)}))
    assert not unchanged(SAWMILL, changed(tables_version="another"))


# ---- where records are kept ------------------------------------------------------------------------------------------


def test_one_setting_moves_interviews_and_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOSEWRIGHT_STATE", str(tmp_path / "kept here"))
    with open_store() as store:
        assert store.place == str(tmp_path / "kept here" / "records.sqlite")


def test_a_place_that_cannot_be_made_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    monkeypatch.setenv("HOSEWRIGHT_STATE", str(tmp_path / "file" / "inside"))
    with pytest.raises(StoreError, match=r"cannot be made .*name another with --store"):
        open_store()


# ---- one figure for one row ------------------------------------------------------------------------------------------


def test_a_line_of_counterparts_shows_the_lowest_figure_of_its_rows(on: Bench) -> None:
    """100R16 at -8 prints 4,000 psi for 275 bar, its counterpart 2SC prints no psi: 275 bar is 3,988, floored 3,980."""
    session = CounterSession(home="us", on=on)
    session.open()
    session.say(US_JOB)
    lines = {(line.construction, line.bore): line for line in session.fit_lines(60).lines}
    assert lines["saej517-100r16", 8.0].rating == "3,980 psi (275 bar)"
    assert lines["saej517-100r19", 8.0].rating.startswith("4,000 psi")


def test_the_plain_list_says_where_it_stops(on: Bench) -> None:
    session = CounterSession(home="us", on=on)
    session.open()
    session.say(US_JOB)
    (event,) = session.say("fits")
    lines = list(lines_of(event))
    assert sum(" open: " in line or " fits, rated " in line for line in lines) == TOLD
    assert "These are the first 10" in told([event])
