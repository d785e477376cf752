"""What a house rule puts in is no answer of the customer's: it stands under what is assumed, with how to confirm it.

DESIGN: a seal or metal nobody named is NBR to 100 degC in mineral oil, FKM above, zinc-plated steel; marked assumed.
"""

from __future__ import annotations

import pytest
from test_trade_words import paper, recorded

from interview.dialogue import events as ev
from interview.dialogue.review import review
from interview.dialogue.session import Session
from interview.language.read import read_knows
from interview.record.assemble import record_of
from interview.record.model import Record
from interview.selection.judge import Bench

SUCTION: dict[str, object] = {
    "regulated_use": "none",
    "line_function": "suction",
    "bore": 16,
    "flow_rate": 20,
    "medium": "hv",
    "viscosity_grade": 32,
    "vacuum": 0.2,
    "pump_inlet_limit": 0.7,
    "fluid_temperature_max": 60,
    "ambient_temperature_max": 35,
    "ambient_temperature_min": -5,
    "end_a_family": "bspp_cone60",
    "end_a_size": "1",
    "end_a_gender": "female",
    "end_a_form": "straight",
    "end_a_thread_diameter": 30.3,
    "end_a_thread_pitch": "11 tpi",
    "end_b_family": "bspp_cone60",
    "end_b_size": "1",
    "end_b_gender": "female",
    "end_b_form": "straight",
    "end_b_thread_diameter": 30.3,
    "end_b_thread_pitch": "11 tpi",
    "end_a_seat_angle": 60,
    "end_b_seat_angle": 60,
    "overall_length": 700,
    "near_power_line": "no",
}
NAMED = {f"end_{end}_{what}": value for end in "ab" for what, value in (("seal", "NBR"), ("metal", "STEEL_ZN"))}


def assumed(record: Record) -> dict[str, str]:
    return {line.fact: line.shown for line in record.assumptions}


def suction(on: Bench, **changes: object) -> tuple[Session, Record]:
    session = Session(on=on)
    session.open()
    session.answer({n: read_knows(n, v) for n, v in {**SUCTION, **changes}.items() if v is not None})
    return session, record_of(session)


def test_the_seal_of_a_suction_hose_is_assumed_and_said_so(on: Bench) -> None:
    session, record = suction(on)
    assert (record.outcome, record.ready_for) == ("specified", "build"), (record.open, record.missing_for_build)
    told = assumed(record)
    assert told == {f"end_{e}_{w}": v for e in "ab" for w, v in (("seal", "NBR"), ("metal", "zinc-plated steel"))}
    text = paper(record)
    assert "nothing is assumed" not in text
    assert "Assumed: please confirm" in text
    assert (
        "End A seal and end B seal: NBR, because house rule" in text
        and "To confirm: the end maker's data sheet" in text
    )
    told_on_screen = review(session)
    assert isinstance(told_on_screen, ev.Reviewed)
    assert any("end A seal and end B seal: NBR; confirm by" in line for line in told_on_screen.lines)
    assert all(line.confirm_by and line.why for line in record.assumptions)


def test_named_seals_and_metals_leave_nothing_assumed(on: Bench) -> None:
    _, record = suction(on, **NAMED)
    assert record.outcome == "specified" and not record.assumptions
    assert "no check is open and nothing is assumed" in paper(record)


@pytest.mark.parametrize(
    ("changes", "seal"),
    [
        ({}, "NBR"),
        ({"fluid_temperature_max": 105, "bore": 8, "old_construction": "saej517-100r12"}, "FKM"),
    ],
)
def test_the_house_rule_s_seal_goes_by_the_heat(on: Bench, changes: dict[str, object], seal: str) -> None:
    told = assumed(recorded(on, **changes))
    assert told["end_a_seal"] == told["end_b_seal"] == seal


def test_what_stays_open_or_has_no_seal_is_not_put_in(on: Bench) -> None:
    flare = assumed(recorded(on, end_a_family="flare37", end_b_family="flare37"))
    assert "end_a_seal" not in flare and flare["end_a_metal"] == "zinc-plated steel"
    glycol = recorded(on, medium="hfc", fluid_temperature_max=50)
    assert not assumed(glycol).keys() & {"end_a_seal", "end_a_metal"} and "end_a_metal" in glycol.open


def test_hours_and_years_nobody_said_are_assumed(on: Bench) -> None:
    """House rules: 2000 hours a year, and the service life of 6 years."""
    told = assumed(recorded(on, cycle_rate=60, wanted_life=3))
    assert "2,000 h" in told["hours_per_year"] and "wanted_life" not in told
    assert not assumed(recorded(on)).keys() & {"hours_per_year", "wanted_life"}
