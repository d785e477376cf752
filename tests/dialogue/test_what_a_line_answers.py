"""Which question does a line answer? Yes and no, labels and numbers, a range asked back, a statement, an adapter."""

from __future__ import annotations

import pytest

from interview.dialogue import events as ev
from interview.dialogue.session import Session, bench
from interview.facts import Origin
from interview.selection.judge import Bench
from interview.selection.statement import written
from tests.dialogue.talks import started

KNOWN = (
    "press, pressure line, 180 bar peaks 210, HLP 46, 1/2 hose, 25 L/min, oil to 80 C, air -25 to 40 C, "
    "JIC 8 female straight both ends, 900 mm, burst clean"
)
SAFETY = ("people_near", "near_power_line", "vibration", "accumulator")


@pytest.fixture(scope="module")
def on() -> Bench:
    return bench(shelved=False)


def at_the_list(on: Bench, *lines: str) -> Session:
    return started(on, KNOWN, "none", *lines)


@pytest.mark.parametrize(
    "line",
    [
        "it does not rub",
        "it is dragged",
        "yes it moves",
        "it is in a tight spot",
        "no, but it moves",
        "no tight bend but it rubs",
        "yes",
        "it is",
        "yeah, it does",
    ],
)
def test_a_yes_or_no_to_a_list_says_nothing_of_what_nobody_mentioned(on: Bench, line: str) -> None:
    session = at_the_list(on, line)
    assert [name for name in SAFETY if session.said.has(name)] == []
    assert session.known.flag("non_conductive") is None


@pytest.mark.parametrize(
    ("line", "name", "value"),
    [
        ("it does not rub", "wear", "none"),
        ("it is dragged", "wear", "severe"),
        ("no tight bend but it rubs", "wear", "rubbing"),
        ("it travels", "motion", "travelling"),
        ("sparks, flame", "exposure", ("hot_particles", "flame")),
        ("people within a metre", "people_near", True),
    ],
)
def test_what_is_said_to_the_list_is_kept(on: Bench, line: str, name: str, value: object) -> None:
    assert at_the_list(on, line).said.value(name) == value


def test_a_tight_spot_opens_the_question_of_the_room(on: Bench) -> None:
    session = at_the_list(on, "it is in a tight spot")
    assert session.asked is not None and session.asked.parts == ("bend_radius_available",)
    denied = at_the_list(on, "no tight bend but it rubs")
    assert "bend_radius_available" not in denied.now.ticked


def test_what_moves_is_asked_back_and_never_fixed(on: Bench) -> None:
    session = at_the_list(on, "no, but it moves")
    assert not session.said.has("motion")
    assert {r.name for r in session.now.doubts[0].readings} == {"motion"}


def test_yes_to_a_list_is_told_what_would_do(on: Bench) -> None:
    session = at_the_list(on)
    refused = [e for e in session.say("yes") if isinstance(e, ev.Refused)]
    assert len(refused) == 1 and "which of them" in refused[0].text


@pytest.mark.parametrize(
    ("line", "name", "millimetres"),
    [
        ("6, exhaust 150 mm away", "heat_source_distance", 150.0),
        ("a furnace 800 mm off, sparks and flame", "heat_source_distance", 800.0),
    ],
)
def test_a_distance_in_the_list_is_the_hot_parts(on: Bench, line: str, name: str, millimetres: float) -> None:
    session = at_the_list(on, line)
    assert session.said.value(name) == pytest.approx(millimetres / 1000)
    assert not session.said.has("bend_radius_available")


@pytest.mark.parametrize("line", ["bend radius 150", "a tight bend, 150 mm", "tight bend of 150 mm", "2, 150 mm"])
def test_a_radius_in_the_list_is_the_bends(on: Bench, line: str) -> None:
    session = at_the_list(on, line)
    assert session.said.value("bend_radius_available") == pytest.approx(0.15)
    assert not session.said.has("heat_source_distance")


def test_a_bare_number_in_the_list_is_no_bend(on: Bench) -> None:
    session = at_the_list(on, "-12")
    assert not session.said.has("bend_radius_available") and not session.now.doubts


# ---- a figure asked back -----------------------------------------------------------------------------------------

FOREST = (
    "forwarder, pressure line, HM 46, 240 bar peaks 260, half inch, 30 L/min, oil to 110 C, forest -25 to 30 C, "
    "JIC 8 female both ends straight, 900 mm, burst clean"
)


@pytest.mark.parametrize("choice", ["1", "air", "the air"])
def test_a_choice_never_lowers_what_the_same_line_told(on: Bench, choice: str) -> None:
    session = started(on, FOREST)
    assert "fluid_temperature_max" not in {r.name for r in session.now.doubts[0].readings}
    session.say(choice)
    assert session.said.value("fluid_temperature_max") == pytest.approx(110.0)
    assert session.said.value("ambient_temperature_min") == pytest.approx(-25.0)
    assert session.said.value("ambient_temperature_max") == pytest.approx(30.0)


def test_the_two_ends_of_a_range_are_one_option(on: Bench) -> None:
    session = started(on, "pressure line, -25 to 30 C")
    event = next(e for e in session.present() if isinstance(e, ev.Doubted))
    assert len(event.options) == 3  # the fluid, the air, none of these


def test_a_choice_against_an_earlier_line_is_a_conflict_and_the_hotter_governs(on: Bench) -> None:
    session = started(on, "pressure line, oil to 110 C", "none", "between -25 and 30 C")
    doubt = session.now.doubts[0]
    number = next(i for i, some in enumerate(doubt.options, 1) if some[0].name.startswith("fluid"))
    session.say(str(number))
    assert [c.name for c in session.now.ledger.conflicts()] == ["fluid_temperature_max"]
    assert session.said.value("fluid_temperature_max") == pytest.approx(110.0)
    assert len(session.now.ledger.history("fluid_temperature_max")) == 2


def test_several_numbers_are_taken_where_all_can_be_meant_and_refused_with_a_reason_where_not(on: Bench) -> None:
    both = started(on, "pressure line, -25 to 30 C")
    both.say("1, 2")
    assert both.said.value("fluid_temperature_max") == both.said.value("ambient_temperature_max") == pytest.approx(30.0)
    one = started(on, "pressure line, 70 C")
    assert len(one.now.doubts[0].options) > 1
    refused = [e for e in one.say("1, 2") if isinstance(e, ev.Refused)]
    assert refused and "One number" in refused[0].text and one.now.doubts


# ---- a maker's statement -------------------------------------------------------------------------------------------

ESTER = KNOWN.replace("HLP 46", "HEES 46")


@pytest.mark.parametrize(
    "line",
    ["not yet", "there isn't one", "pending", "nobody asked the maker", "no, not yet", "we don't have one", "none"],
)
def test_a_denied_statement_is_none(on: Bench, line: str) -> None:
    session = started(on, ESTER, "none")
    assert session.asked is not None and session.asked.parts == ("medium_statement",)
    session.say(line)
    fact = session.said.get("medium_statement")
    assert fact is not None and fact.value is None


@pytest.mark.parametrize("line", ["he said it is fine", "we have one"])
def test_a_statement_that_does_not_count_is_said_so_at_once(on: Bench, line: str) -> None:
    session = started(on, ESTER, "none")
    noted = [line for e in session.say(line) if isinstance(e, ev.Noted) for line in e.lines]
    assert any("counts only with the document's number and date" in n for n in noted)
    assert not written(session.said, "medium_statement")


def test_a_statement_with_number_and_date_counts_and_its_date_is_not_asked_back(on: Bench) -> None:
    session = started(on, ESTER, "none", "letter 4711 of 12 March 2024")
    assert written(session.said, "medium_statement") == "letter 4711 of 12 March 2024"
    assert not session.now.doubts


# ---- an adapter ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["11", "an adapter stays in at end A", "An adapter stays in at end A."])
def test_the_adapters_tick_by_number_and_word_for_word(on: Bench, line: str) -> None:
    session = at_the_list(on, line)
    assert session.asked is not None and session.asked.parts == ("adapter_a_family",)


def test_a_part_of_no_family_is_an_adapter_all_the_same(on: Bench) -> None:
    session = at_the_list(on, "11", "a swivel joint")
    assert session.said.value("adapter_a_family") == "other"


def test_a_tick_is_not_closed_by_none(on: Bench) -> None:
    session = at_the_list(on, "11")
    refused = [e for e in session.say("none") if isinstance(e, ev.Refused)]
    assert refused and not session.said.answered("adapter_a_family")
    assert session.asked is not None and session.asked.parts == ("adapter_a_family",)


@pytest.mark.parametrize(
    "lines", [("11", "its maker states 250 bar"), ("11", "a swivel joint", "its maker states 250 bar")]
)
def test_what_its_maker_states_is_the_adapters_rating(on: Bench, lines: tuple[str, ...]) -> None:
    session = at_the_list(on, *lines)
    assert session.said.value("adapter_a_rating") == pytest.approx(25e6)
    assert session.said.origin("adapter_a_rating") is not Origin.UNKNOWN
    assert session.said.value("working_pressure") == pytest.approx(18e6) and not session.now.doubts


@pytest.mark.parametrize("line", ["-12", "-12, its maker states 250 bar"])
def test_a_dash_beside_the_adapter_is_its_size(on: Bench, line: str) -> None:
    session = at_the_list(on, "11", "orfs", line)
    assert session.said.value("adapter_a_size") == "-12"
    assert not session.now.doubts and not session.said.has("bend_radius_available")


# ---- units, series, flanges, the print ------------------------------------------------------------------------------


def test_a_range_in_doubt_for_its_unit_is_one_option_and_the_unit_chosen_holds_for_the_line(on: Bench) -> None:
    session = started(on, "pressure line, oil to 60, air 5 to 40")
    session.say("1")
    assert not session.now.doubts
    assert session.said.value("fluid_temperature_max") == pytest.approx(60.0)
    assert session.said.value("ambient_temperature_min") == pytest.approx(5.0)
    assert session.said.value("ambient_temperature_max") == pytest.approx(40.0)


@pytest.mark.parametrize("again", ["24 deg", "24 degree cone"])
def test_a_seat_reading_does_not_reopen_a_named_series(on: Bench, again: str) -> None:
    session = started(
        on, KNOWN.replace("JIC 8 female straight both ends", "24 degree cone 16S both ends"), "none", again
    )
    assert not session.now.doubts
    assert session.said.value("end_a_family") == "cone24_S" and session.said.value("end_a_size") == "16S"


@pytest.mark.parametrize("code", ["61", "62"])
def test_a_flange_is_not_asked_whether_it_is_male_or_female(on: Bench, code: str) -> None:
    session = started(
        on, KNOWN.replace("JIC 8 female straight both ends", f"code {code} flange 1/2 in both ends"), "none"
    )
    asked: list[str] = []
    for _ in range(30):
        if session.asked is None:
            break
        asked += session.asked.parts
        session.say("don't know")
    session.build()
    for _ in range(4):
        asked += session.asked.parts if session.asked is not None else ()
        session.say("don't know")
    assert "end_a_form" in asked
    assert not [a for a in asked if a.endswith("_gender")]
    assert not [m for m in session.standing().missing_for_build if m.endswith("_gender")]


def test_the_print_is_asked_before_a_build_though_the_bore_was_given(on: Bench) -> None:
    session = started(on, KNOWN, "none")
    before: list[str] = []
    for _ in range(30):
        if session.asked is None:
            break
        before += session.asked.parts
        session.say("none" if "motion" in session.asked.parts else "don't know")
    assert "layline" not in before  # the quote is not made longer by it
    session.build()
    assert session.asked is not None and session.asked.parts[0] == "layline"
    session.say("EN 853 2SN DN12 275 bar 3Q19")
    assert session.said.value("old_construction") == "en853-2sn"
    assert session.said.value("hose_date") == "2019-Q3"


def test_a_print_that_was_read_is_not_asked_again(on: Bench) -> None:
    session = started(on, KNOWN, "none", "EN 853 2SN DN12 275 bar 3Q19")
    for _ in range(30):
        if session.asked is None:
            break
        session.say("none" if "motion" in session.asked.parts else "don't know")
    asked: list[str] = []
    session.build()
    for _ in range(30):
        if session.asked is None:
            break
        asked += session.asked.parts
        session.say("don't know")
    assert asked and "layline" not in asked


def test_an_option_number_before_its_figure(on: Bench) -> None:
    session = started(on, KNOWN.replace("900 mm, ", ""), "none", "don't know")
    assert session.asked is not None and session.asked.parts == ("clearance_geometry", "port_distance")
    session.say("4, 900 mm, 500 mm to the side")
    assert session.said.value("clearance_geometry") == "offset"
    assert session.said.value("port_distance") == pytest.approx(0.9)
    assert session.said.value("port_offset") == pytest.approx(0.5)
