"""Ends through the interview: from readings alone to a rating and a build, and where an end must stay open.

Thread limits as in the tests of identification: ASME B1.1 for unified threads, ISO 228-1 for pipe threads, ISO 965-1
for metric ones; ratings: SAE J514 (37 degree), ISO 6162-1 and SAE J518-1 (flange), ISO 8434-1 (24 degree), as restated.
"""

from __future__ import annotations

import pytest
from selection_jobs import answer, finding, judged, plain, said, standing

from interview.dialogue import events as ev
from interview.dialogue.session import Session
from interview.facts import Origin
from interview.record.assemble import record_of
from interview.selection.end_readings import contradicts, identified, recess_wanted
from interview.selection.finding import Finding, Remark, Verdict
from interview.selection.judge import Bench

OPENING = (
    "hose off a hay press, cover cracked, pressure line, three quarter inch bore, 150 bar, peaks 200 measured with a "
    "logger, HLP 46, oil to 70 C, air -10 to 35 C, 80 l/min, 900 mm long"
)


def spoken(on: Bench, *lines: str) -> Session:
    session = Session(on=on)
    session.open()
    for line in lines:
        session.say(line)
    return session


def hay_press(on: Bench) -> Session:
    """A worn male that nobody can name, and a flange head on a 90 degree elbow that nobody can name."""
    session = spoken(on, OPENING, "none", "male, straight")
    assert session.asked is not None and session.asked.parts == ("end_a_family",)
    for line in ("don't know", "don't know", "3", "26.4 mm, 12 tpi, 74 degrees"):
        session.say(line)
    for line in ("male", "don't know", "don't know", "1", "44.4 mm and 52.4 mm"):
        session.say(line)
    for line in ("none", "60 an hour, 1500 hours a year, 4 years", "build", "don't know", "3", "don't know"):
        session.say(line)
    return session


def test_a_worn_end_and_a_bent_flange_are_identified_rated_and_specified_from_readings(on: Bench) -> None:
    session = hay_press(on)
    known = session.known
    # 1-1/16-12 UN male 26.65 to 26.94 mm, worn by 0.25; code 61, 1 in: head 44.45, screws 52.4 mm (ISO 6162-1)
    assert [known.text(f"end_a_{w}") for w in ("family", "size", "gender", "form")] == [
        "flare37",
        "-12",
        "male",
        "straight",
    ]
    assert [known.text(f"end_b_{w}") for w in ("family", "size", "gender", "form")] == [
        "flange_c61",
        "1",
        "male",
        "elbow90",
    ]
    assert known.origin("end_a_family") is known.origin("end_b_family") is Origin.COMPUTED
    record = record_of(session)
    assert (record.outcome, record.ready_for, record.missing_for_build) == ("specified", "build", ())
    assert record.assembly is not None and record.assembly.rating is not None
    rated = {p.part: p.rating.value for p in record.assembly.parts if p.rating is not None}
    # SAE J514 rigid -12: 3,500 psi; ISO 6162-1, 1 in: 32 MPa, lower than SAE's 34.5; two wires at 3/4: 21.5 MPa
    assert rated == pytest.approx({"hose": 215, "end_a": 241, "end_b": 320}, rel=2e-3)
    assert record.assembly.limited_by == "hose"
    assert record.assembly.next_stronger == "with a stronger hose: 241 bar (3,500 psi)"


def test_the_unnamed_ends_were_measured_in_the_order_of_a_good_hand(on: Bench) -> None:
    asked = hay_press(on).now.asked_facts
    order = [asked.index(f"end_a_{w}") for w in ("family", "seals_at", "thread_diameter", "thread_pitch", "seat_angle")]
    assert order == sorted(order)
    assert asked.index("end_b_seals_at") < asked.index("end_b_head_diameter")
    assert "end_b_thread_diameter" not in asked  # a head that is clamped has no thread
    assert "end_a_head_diameter" not in asked


def test_two_readings_name_nothing_and_the_seat_is_asked_for(on: Bench) -> None:
    session = spoken(on, OPENING, "none", "male, straight", "don't know", "don't know", "don't know")
    events = session.say("22.3 mm, 14 tpi")
    told = [e for e in events if isinstance(e, ev.Explained) and "not identified" in e.title]
    assert told and "37° flare -10" in told[0].lines[0] and "BSP parallel, 60° cone 5/8" in told[0].lines[0]
    assert not session.known.has("end_a_family")
    record = record_of(session)
    assert "end_a_family" in record.missing_for_build and record.ready_for == "none"
    advice = [a.text for a in record.advice if a.check == "readings"]
    assert advice and "5/8" in advice[0]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("26.4 mm, pitch 9 mm", "a pitch of 9 mm is far from any hose thread"),
        ("300 mm, 12 tpi", "a thread diameter of 300 mm cannot be"),
        ("26.4 mm, 12 tpi, 200 degrees", "a seat of 200° cannot be"),
    ],
)
def test_a_reading_that_cannot_be_is_asked_back_with_what_it_may_mean(on: Bench, line: str, words: str) -> None:
    session = spoken(on, OPENING, "none", "male, straight", "don't know", "don't know", "3")
    doubts = [e for e in session.say(line) if isinstance(e, ev.Doubted)]
    assert len(doubts) == 1 and words in doubts[0].text
    assert session.state == "clarifying"


def test_no_word_is_taken_for_a_connection_that_is_none(on: Bench) -> None:
    session = spoken(on, OPENING, "none", "male, straight")
    events = session.say("no idea mate, a nose")
    assert not session.said.has("end_a_family")
    assert any(isinstance(e, ev.Refused | ev.Asked) for e in events)


# ---- a thread of two series ----------------------------------------------------------------------------------------

M30 = {
    "end_a_family": "cone24_S",
    "end_a_size": "20S",
    "end_a_gender": "female",
    "end_a_thread_diameter": 28.0,
    "end_a_thread_pitch": 2.0,
    "end_a_seat_angle": 24,
}


def test_the_heavy_name_is_not_borne_out_by_a_thread_the_light_series_has_too(on: Bench) -> None:
    """M30x2 is 20S at 400 bar and 22L at 160 (ISO 8434-1): without the recess the name may be wrong by 240 bar."""
    known = said(**M30)
    assert contradicts(known, "end_a", on.connections) is None
    assert recess_wanted(known, "end_a", on.connections)
    assert not identified(known, "end_a", on.connections)
    assert identified(said(**M30, end_a_recess=20.0), "end_a", on.connections)


def test_a_recess_of_the_light_tube_contradicts_the_heavy_name(on: Bench) -> None:
    known = said(**M30, end_a_recess=22.0)
    found = contradicts(known, "end_a", on.connections)
    assert found is not None and {(m.family, m.size) for m in found.candidates} == {("cone24_L", "22L")}
    assert not identified(known, "end_a", on.connections)


def test_a_name_that_can_only_err_to_the_safe_side_stands(on: Bench) -> None:
    light = {**M30, "end_a_family": "cone24_L", "end_a_size": "22L"}
    assert identified(said(**light), "end_a", on.connections)


# ---- flange heads --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("head", "borne_out"), [(47.6, True), (44.4, False), (None, False)])
def test_a_flange_is_identified_by_its_head(on: Bench, head: float | None, borne_out: bool) -> None:
    """Code 62, 1 in: 47.63 mm; code 61, 1 in: 44.45 (SAE J518 as restated)."""
    known = said(
        end_a_family="flange_c62",
        end_a_size="1",
        end_a_gender="male",
        **({} if head is None else {"end_a_head_diameter": head}),
    )
    assert identified(known, "end_a", on.connections) is borne_out


def test_a_head_against_the_name_leaves_every_hose_open(on: Bench) -> None:
    judgement = judged(
        on, **plain(end_b_family="flange_c62", end_b_size="1", end_b_gender="male", end_b_head_diameter=44.4)
    )
    found = finding(judgement, "identity", "en853-2sn", 10)
    assert found.verdict is Verdict.OPEN and found.hangs_on == ("end_b_family",)
    assert "code 61" in str(found.data["could"])


# ---- what an end goes onto -----------------------------------------------------------------------------------------


def mates(on: Bench, **facts: object) -> Finding | Remark | None:
    return answer(judged(on, **plain(**facts)), "mates", "en853-2sn", 10)


@pytest.mark.parametrize(
    ("end", "port", "verdict"),
    [
        (("orfs", "-10"), ("orfs", "-10"), Verdict.FITS),
        (("orfs", "-12"), ("flare37", "-14"), Verdict.FAILS),  # 1-3/16-12 both (SAE J1453, J514): W04
        (("cone24_L", "22L"), ("cone24_S", "20S"), Verdict.FAILS),  # M30x2 both (ISO 8434-1): W10
        (("flange_c61", "1"), ("flange_c62", "1"), Verdict.FAILS),
        (("orfs", "-10"), ("orfs", None), Verdict.OPEN),
        (("orfs", "-10"), ("other", "3/4"), None),
        (("orfs", "-10"), ("none", None), None),
    ],
)
def test_an_end_and_what_it_goes_onto(
    on: Bench, end: tuple[str, str], port: tuple[str, str | None], verdict: Verdict | None
) -> None:
    gender = "male" if end[0].startswith("flange") else "female"
    found = mates(
        on,
        end_a_family=end[0],
        end_a_size=end[1],
        end_a_gender=gender,
        port_a_family=port[0],
        port_a_size=... if port[1] is None else port[1],
    )
    assert (found.verdict if isinstance(found, Finding) else None) is verdict


def test_a_taper_in_a_parallel_port_fails_and_is_unmatched(on: Bench) -> None:
    stands = standing(
        on,
        **plain(
            end_a_family="bspt",
            end_a_size="3/4",
            end_a_gender="male",
            end_a_rating=200,
            port_a_family="bspp_port",
            port_a_size="3/4",
        ),
    )
    assert (stands.outcome, stands.ready_for) == ("unmatched", "none")


def test_an_adapter_between_takes_the_port_out_of_it(on: Bench) -> None:
    assert (
        mates(
            on,
            end_a_family="orfs",
            end_a_size="-10",
            port_a_family="flare37",
            port_a_size="-10",
            adapter_a_family="flare37",
            adapter_a_size="-10",
        )
        is None
    )


def test_what_an_end_goes_onto_is_asked_only_where_it_is_ticked(on: Bench) -> None:
    session = spoken(on, OPENING, "none", "JIC 12 both ends, female, straight")
    assert session.asked is not None and "port_a_family" in session.asked.parts
    number = session.asked.parts.index("port_a_family") + 1
    session.say(str(number))
    assert session.asked.parts == ("port_a_family",)
    session.say("orfs")
    assert session.asked.parts == ("port_a_size",)


# ---- metals --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("metal", "exposure", "warned"),
    [("steel_zn", ["salt_water"], True), ("ss316", [], True), ("brass", [], False)],
)
def test_a_metal_is_warned_of_what_it_must_not_be_screwed_to(
    on: Bench, metal: str, exposure: list[str], warned: bool
) -> None:
    """Zinc beside stainless is eaten first (galvanic series, common practice); brass in the dry is near enough."""
    found = answer(judged(on, **plain(end_a_metal=metal, exposure=exposure)), "couples", "en853-2sn", 10)
    warning = str(found.data["text"]) if isinstance(found, Remark) else ""
    assert ("zinc is eaten first" in warning) is (warned and metal in ("steel_zn", "ss316"))
