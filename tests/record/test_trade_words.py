"""Is the record worded as the trade words it? No ids of tables, no figure without meaning, nothing left off unsaid."""

from __future__ import annotations

import re

import pytest

from interview.dialogue.session import Session
from interview.facts import Origin
from interview.language.model import Heard
from interview.language.read import read_knows
from interview.record.assemble import record_of
from interview.record.documents import words as w
from interview.record.documents.make import make
from interview.record.model import Record
from interview.reference.model import Evidence, Tag, source_said
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


# ---- no ids ----------------------------------------------------------------------------------------------------------

ID = re.compile(r"\b(?:saej517|en85[3-7]|iso\d{4,5})-[a-z0-9]+\b|\b[a-z]+_[a-z_]+\b|\bSTEEL_\w+|\(memory\) \(memory\)")
JOBS: dict[str, dict[str, object]] = {
    "plain": {},
    "an adapter": {"adapter_a_family": "orfs", "adapter_a_size": "-8"},
    "weld spatter": {"exposure": "hot_particles", "end_a_metal": "STEEL_ZN"},
    "zinc in water-glycol": {
        "medium": "hfc",
        "fluid_temperature_max": 50,
        "end_a_metal": "STEEL_ZN",
        "end_a_seal": "NBR",
    },
    "ester": {"medium": "hees"},
    "ester by a spiral": {"medium": "hetg", "working_pressure": 300, "surge_pressure": 380},
    "only a flow": {"bore": None},
    "too much": {"working_pressure": 600, "surge_pressure": 700},
    "nothing but a pressure": {n: None for n in JOB if n not in ("working_pressure", "line_function")},
    "thermoplastic": {"non_conductive": "yes", "working_pressure": 90, "surge_pressure": 100},
    "heat": {"fluid_temperature_max": 160, "ambient_temperature_max": 60, "working_pressure": 30, "surge_pressure": 40},
    "suction": {
        "line_function": "suction",
        "bore": 24,
        "vacuum": 0.3,
        "working_pressure": None,
        "surge_pressure": None,
    },
}


@pytest.mark.parametrize("job", JOBS)
def test_no_id_of_a_table_stands_on_paper(on: Bench, job: str) -> None:
    record = recorded(on, **JOBS[job])
    text = re.sub("“[^”]*”", "", paper(record).replace("\\", ""))  # what is quoted is the customer's own
    assert not ID.findall(text)
    for f in (f for c in record.candidates for f in c.findings):
        assert not ID.findall(f"{f.need} {f.have} {f.why}"), f
    for figure in ("not available", "4 x WP", "from memory (from memory", "from memory (memory"):
        assert figure not in text


def test_what_eats_zinc_is_said_in_words(on: Bench) -> None:
    record = recorded(on, **JOBS["zinc in water-glycol"])
    told = [f.why for c in record.candidates for f in c.findings if f.check == "seals"]
    assert told and all("zinc-plated steel" in t for t in told)
    assert any("with hot particles about" in a.text for a in recorded(on, **JOBS["weld spatter"]).advice)


def test_who_excludes_a_fluid_and_who_else_sells_the_hose_go_by_standard_and_type(on: Bench) -> None:
    told = [
        f.why for c in recorded(on, **JOBS["ester by a spiral"]).candidates for f in c.findings if "excludes" in f.why
    ]
    assert told and all(re.match(r"(SAE J517|EN 85\d|ISO \d+)", t) for t in told)
    record = recorded(on, old_construction="en857-2sc")
    assert record.choice is not None and "iso11237-r16s" in record.choice.twins  # the JSON keeps the ids
    assert "ISO 11237 R16S" in paper(record)


def test_an_adapter_goes_by_its_name(on: Bench) -> None:
    record = recorded(on, **JOBS["an adapter"])
    assert record.assembly is not None
    adapter = next(p for p in record.assembly.parts if p.part == "adapter")
    assert adapter.what == "the adapter at end A: O-ring face seal, -8"


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("not available", "from memory, no source at hand"),
        ("from memory", "from memory, no source at hand"),
        ("4 x WP", "four times the working pressure (memory)"),
        ("EN 857 table 1", "EN 857 table 1 (memory)"),
    ],
)
def test_a_source_that_is_none_says_so_once(source: str, said: str) -> None:
    assert source_said(source, "memory") == said == Evidence(Tag.MEMORY, source).said


def test_a_bore_worked_out_is_no_dash_and_no_fraction_of_344ths(on: Bench) -> None:
    assert w.quantity(25.63, "dash") == "40.7 mm (1.6 in)"
    assert w.quantity(25.63, "dash", "us") == "1.6 in (40.7 mm)"
    assert (w.quantity(8, "dash"), w.quantity(6.5, "dash")) == ("-8 (1/2 in)", "-6.5 (13/32 in)")
    window = next(line for line in paper(recorded(on, bore=None)).splitlines() if line.startswith("| **bore** |"))
    assert re.fullmatch(r"\| \*\*bore\*\* \| [\d.]+ mm \([\d.]+ in\) to [\d.]+ mm \([\d.]+ in\) \|", window)


def test_rejections_left_out_are_counted(on: Bench) -> None:
    record = recorded(on, bore=None, working_pressure=600, surge_pressure=700)
    fails = sum(c.verdict == "fails" for c in record.candidates)
    assert fails > 300
    assert len(record.why_not) == 61 and record.why_not[-1].startswith(f"{fails - 60} more fail as well")
    assert f"{fails - 60} more fail as well" in paper(record)
    assert not any("more fail" in line for line in recorded(on).why_not)


def test_what_is_missing_is_a_question_and_no_hazard(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    heard = {n: read_knows(n, v) for n, v in JOB.items()}
    session.answer({**heard, "near_power_line": Heard("near_power_line", None, said="no idea", origin=Origin.UNKNOWN)})
    record = record_of(session)
    assert "near_power_line" in record.missing_for_build
    text = paper(record)
    assert "whether a live line is near: not known" in text and "- near a live line" not in text


def test_a_recalled_figure_goes_by_what_it_is(on: Bench) -> None:
    told = recorded(
        on, old_construction="en857-2sc", clearance_geometry="straight_run", port_distance=1200
    ).memory_values
    assert any(t.startswith("inside diameter: from memory (EN 857 table 1)") for t in told)
    assert any(t.startswith("change in length under pressure: from memory (EN 857)") for t in told)
