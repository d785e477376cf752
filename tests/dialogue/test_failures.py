"""What a failure sign says, where it is said, and what it adds: a second cause always, a claim never.

Outside source of the wording rule: a counter may say "consistent with", never "caused by", unless a section was
examined (common practice of failure reports). Outside source of the vacuum rule: SAE J1273 as restated, a suction hose
must stand the vacuum; only 100R4 of SAE J517 has a vacuum rating. SAE J514: a 37 degree -8 has 3/4-16 UNF.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.failures import failures, file_faults, sign_lines
from interview.dialogue.lint import lint
from interview.dialogue.session import Session
from interview.facts import Fact, Known, Origin, Value
from interview.language.model import Heard
from interview.language.read import read_knows
from interview.record.assemble import record_of
from interview.resources import shipped
from interview.selection.choice import Ranking
from interview.selection.finding import Verdict
from interview.selection.judge import Bench, judge, known_with

SIGNS = CATALOGUE["failure_sign"].choices

KNOWS = {
    "regulated_use": ["none"],
    "line_function": "pressure",
    "machine": "loader",
    "bore": 8,
    "working_pressure": "180 bar",
    "surge_pressure": "200 bar",
    "medium": "hm",
    "fluid_temperature_max": "70 degC",
    "ambient_temperature_max": "35 degC",
    "ambient_temperature_min": "-10 degC",
    "flow_rate": "40 L/min",
    "overall_length": "900 mm",
    "burst_consequence": ["none"],
    **{
        f"end_{e}_{w}": v
        for e in "ab"
        for w, v in (
            ("family", "flare37"),
            ("size", "-8"),
            ("gender", "female"),
            ("form", "straight"),
            ("thread_diameter", "17.5 mm"),
            ("thread_pitch", "1.588 mm"),
            ("seat_angle", 74),
        )
    },
}


def told(session: Session, **facts: object) -> list[ev.Event]:
    """What the counter says to facts given."""
    return session.answer({name: read_knows(name, value) for name, value in facts.items()})


def explained(events: list[ev.Event]) -> tuple[str, ...]:
    return next((e.lines for e in events if isinstance(e, ev.Explained) and e.title == "How it failed"), ())


def test_every_sign_of_the_catalogue_has_an_entry() -> None:
    assert set(failures().signs) == set(SIGNS)
    assert len(SIGNS) == 29


@pytest.mark.parametrize("sign", SIGNS)
def test_a_sign_is_consistent_with_several_causes_and_claims_none(sign: str) -> None:
    lines = sign_lines(sign, sign)
    entry = failures().signs[sign]
    assert len(lines) == 3
    assert "consistent with" in lines[0] and len(entry.consistent_with) >= 2
    assert len(set(entry.consistent_with)) == len(entry.consistent_with)
    assert "caused by" not in " ".join(lines).lower()


def test_the_shipped_file_lints() -> None:
    assert file_faults(shipped("flows") / "failures.yaml") == []


@pytest.mark.parametrize(
    ("old", "new", "named"),
    [
        ("a pinhole in the tube", "due to a pinhole in the tube", "due to"),
        ("needs: [making, other_medium]", "needs: [crimp_diameter]", "needs"),
        ("cover_blister_oil:", "cover_blisters:", "cover_blisters"),
        (
            'consistent_with: ["a bend tighter than the hose allows", "a hose too long for its place", '
            '"careless fitting"]',
            "consistent_with: [one]",
            "consistent_with",
        ),
    ],
)
def test_the_lint_names_the_line_of_a_fault(tmp_path: Path, old: str, new: str, named: str) -> None:
    text = (shipped("flows") / "failures.yaml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "failures.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    faults = file_faults(path)
    assert faults and "failures.yaml: line" in faults[0] and named in faults[0]


def test_the_flow_lint_reads_the_failure_file(tmp_path: Path) -> None:
    assert any(fault.startswith("failures.yaml") or "failures.yaml" in fault for fault in lint(tmp_path))


def test_a_sign_is_explained_right_after_it_was_said_and_only_once(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    lines = explained(told(session, failure_sign=["collapsed"]))
    assert len(lines) == 3 and lines[0].startswith("Collapsed flat: consistent with")
    assert explained(told(session, regulated_use=["none"])) == ()


def test_of_many_signs_two_are_explained_and_the_record_has_all(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    signs = ["charred", "kinked", "twisted"]
    assert len(explained(told(session, failure_sign=signs))) == 6
    told(session, **KNOWS)
    advice = [a for a in record_of(session).advice if a.check == "failure"]
    assert len(advice) == 3 and all("consistent with" in a.text and a.source for a in advice)


def test_undo_explains_again(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    told(session, failure_sign=["pinhole"])
    session.say("undo")
    assert explained(told(session, failure_sign=["pinhole"]))


def test_a_referred_job_explains_no_failure(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    assert explained(told(session, regulated_use=["steam"], failure_sign=["tube_hardened"])) == ()
    assert [a for a in record_of(session).advice if a.check == "failure"] == []


@pytest.mark.parametrize(("line", "pulls"), [("suction", True), ("return", True), ("pressure", False)])
def test_a_collapsed_hose_needs_a_vacuum_rating_only_where_the_line_can_pull(on: Bench, line: str, pulls: bool) -> None:
    facts: dict[str, Value] = {"failure_sign": ("collapsed",), "line_function": line, "bore": 20.0}
    known = known_with(Known({n: Fact(n, v) for n, v in facts.items()}), on)
    judged = judge(known, on)
    at = {c.id: i for i, c in enumerate(on.candidates) if c.bore == 20}
    rated = {f.reason for f in judged.findings(at["en853-1sn"]) if f.check == "vacuum" and f.verdict is Verdict.FAILS}
    assert rated == ({"no_vacuum_rating"} if pulls else set())
    assert not any(f.check == "vacuum" and f.verdict is Verdict.FAILS for f in judged.findings(at["saej517-100r4"]))


def test_the_vacuum_of_a_collapsed_return_line_is_asked(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    told(
        session,
        failure_sign=["collapsed"],
        repeat_failure=False,
        regulated_use=["none"],
        line_function="return",
        machine="baler",
        bore=16,
        medium="hm",
        viscosity_grade=46,
        working_pressure="5 bar",
        surge_pressure="8 bar",
    )
    assert session.asked is not None and "vacuum" in session.asked.parts


def test_a_tired_braid_is_not_preferred_again(on: Bench) -> None:
    facts: dict[str, Value] = {"old_construction": "en853-2sn", "line_function": "pressure"}
    plain = judge(known_with(Known({n: Fact(n, v) for n, v in facts.items()}), on), on)
    facts["failure_sign"] = ("burst_fatigue",)
    tired = judge(known_with(Known({n: Fact(n, v) for n, v in facts.items()}), on), on)
    assert Ranking.of(plain.needs, on, "metric").old_id == "en853-2sn"
    assert Ranking.of(tired.needs, on, "metric").old_id is None


def gates(on: Bench, sign: Heard | None, repeat: bool) -> tuple[str, tuple[str, ...]]:
    session = Session(on=on)
    session.open()
    told(session, **KNOWS)
    session.answer({"failure_sign": sign, "repeat_failure": Heard("repeat_failure", repeat)})
    standing = session.standing()
    return standing.ready_for, standing.missing_for_build


@pytest.mark.parametrize(
    ("sign", "repeat", "ready"),
    [
        (None, True, "quote"),  # failed again, and nobody knows how: no third hose
        (("burst",), True, "quote"),  # it burst, but where is not said: no cause to look for yet
        (("abraded",), True, "build"),
        (None, False, "build"),
    ],
)
def test_a_repeat_without_a_cause_is_not_built(
    on: Bench, sign: tuple[str, ...] | None, repeat: bool, ready: str
) -> None:
    """The stop list of the trade: repeat failure within twelve months without a cause found (common practice)."""
    heard = None if sign is None else Heard("failure_sign", sign, Origin.STATED)
    got, missing = gates(on, heard, repeat)
    assert got == ready, missing
    assert ("failure_sign" in missing) == (ready == "quote")


def test_a_repeat_is_warned_of_on_the_record(on: Bench) -> None:
    session = Session(on=on)
    session.open()
    told(session, failure_sign=["abraded"], repeat_failure=True, **KNOWS)
    assert any(a.check == "failure" and "within a year" in a.text for a in record_of(session).advice)
