"""Does the listener keep its promises: recall, precision, nothing dangerous, bounded time, no crash?"""

from __future__ import annotations

import json

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from interview.catalogue import CATALOGUE
from interview.facts import Origin
from interview.language.hear import hear_json
from interview.language.listen import listen
from tests.language.score import PARTS, score

FULL = (
    "burst hose, pressure line, half inch, 2500 psi peaks 3200, AW46, oil to 180F, yard -10 to 100F, "
    "JIC 8 females both ends, 42 in"
)


@pytest.mark.parametrize("part", list(PARTS))
def test_recall_and_precision(part: str) -> None:
    """The thresholds that the outside set is held to."""
    total = score(PARTS[part])["all"]
    misses = "\n".join(total.misses) if part != "held out" else "the held-out part: its lines are not to be looked at"
    assert total.recall >= 0.95, misses
    assert total.precision >= 0.99, misses


SPOKEN = frozenset(
    "job_kind machine line_tag customer line_function regulated_use failure_sign repeat_failure burst_consequence "
    "accumulator layline old_construction old_rating marked_size hose_date assembly_date fitted_date bore_proven bore "
    "flow_rate pump_flow pump_displacement pump_speed cylinder_bore cylinder_rod cylinder_side throttled line_length "
    "lift altitude pump_inlet_limit pressure_loss_limit fluid_temperature_max fluid_temperature_min "
    "ambient_temperature_max ambient_temperature_min heat_source_distance surroundings shock cycle_rate hours_per_year "
    "wanted_life motion bend_plane vibration bend_radius_available wear exposure non_conductive flame_resistant "
    "people_near near_power_line medium viscosity_grade viscosity_index working_pressure surge_pressure relief_setting "
    "valve_closing_time vacuum end_a_family end_a_size end_a_gender end_a_form end_a_swivel end_a_rating end_a_seal "
    "end_a_metal end_a_thread_diameter end_a_thread_pitch end_a_seat_angle overall_length port_distance end_angle "
    "travel clearance_geometry quantity needed_by cleanliness proof_test certificate injury".split()
)


def test_there_are_enough_utterances() -> None:
    import yaml

    rows = [
        row for paths in PARTS.values() for path in paths for row in yaml.safe_load(path.read_text(encoding="utf-8"))
    ]
    assert len(rows) >= 300
    counts = {name: 0 for name in CATALOGUE}
    for row in rows:
        for name in set(row["facts"]) | set(row.get("unclear", [])):
            counts[name] += 1
    # End B is heard by the rules of end A; what only a question can bring up is heard as the answer to it.
    asked_only = {n for n in CATALOGUE if n not in SPOKEN}
    assert not [name for name, count in counts.items() if count < 2 and name not in asked_only]


def test_the_line_that_must_work() -> None:
    facts = {name: fact["value"] for name, fact in hear_json(listen(FULL))["facts"].items()}  # type: ignore[attr-defined]
    assert facts == {
        "job_kind": "failed_hose",
        "failure_sign": ["burst"],
        "line_function": "pressure",
        "bore": 8.0,
        "working_pressure": pytest.approx(172.369, abs=1e-3),
        "surge_pressure": pytest.approx(220.632, abs=1e-3),
        "medium": "hm",
        "viscosity_grade": 46.0,
        "fluid_temperature_max": pytest.approx(82.2222, abs=1e-3),
        "surroundings": "open_air",
        "ambient_temperature_min": pytest.approx(-23.3333, abs=1e-3),
        "ambient_temperature_max": pytest.approx(37.7778, abs=1e-3),
        "end_a_family": "flare37",
        "end_b_family": "flare37",
        "end_a_size": "-8",
        "end_b_size": "-8",
        "end_a_gender": "female",
        "end_b_gender": "female",
        "overall_length": pytest.approx(1066.8),
    }
    assert not listen(FULL).unclear


def test_the_contracts_example() -> None:
    got = hear_json(listen("3000 psi relief, spikes to 4200. 180 F. hello"))
    facts = got["facts"]
    assert isinstance(facts, dict) and set(facts) == {"relief_setting", "surge_pressure"}
    assert facts["relief_setting"]["said"] == "3000 psi relief" and facts["surge_pressure"]["said"] == "spikes to 4200"
    assert (
        facts["surge_pressure"]["value"] == pytest.approx(289.6, abs=0.1) and facts["surge_pressure"]["unit"] == "bar"
    )
    unclear = got["unclear"]
    assert isinstance(unclear, list) and unclear[0]["could_be"] == ["fluid_temperature_max", "ambient_temperature_max"]
    assert got["ignored"] == ["hello"]


def test_a_layline_is_read_not_stated() -> None:
    heard = listen("EN 853 2SN DN16 WP 250 bar 3Q19")
    assert {f.name: f.origin for f in heard.facts} == dict.fromkeys(
        ("layline", "old_construction", "bore", "old_rating", "hose_date"), Origin.READ
    )


@pytest.mark.parametrize(
    "text", ["the oil went into his hand", "my mate got sprayed", "oil under the skin", "the jet pierced his finger"]
)
def test_words_of_an_injury_are_heard(text: str) -> None:
    assert listen(text).injury


@pytest.mark.parametrize(
    "text", ["no idea", "dunno", "?", "not sure", "haven't a clue", "I don't know", "couldn't tell you"]
)
def test_not_knowing_is_heard(text: str) -> None:
    heard = listen(text, asked=("working_pressure",))
    assert heard.dont_know and not heard.facts


@pytest.mark.parametrize("text", ["3000 psi working", "it rubs", "yes", "12 gpm"])
def test_knowing_is_not_taken_for_not_knowing(text: str) -> None:
    assert not listen(text).dont_know


NASTY = [
    "",
    " ",
    "\x00\x01\x1b[31m3000 psi",
    "‮3000 psi‬ relief",
    "🔥🔥 2500 psi 🔥",
    "'; DROP TABLE records; --",
    "[red]3000 psi[/red]",
    "<b>42 in</b>",
    "{{ 7*7 }}",
    "!!python/object:os.system 'ls'",
    "working_pressure: 2500 psi\nbore: 8\n- a\n- b\n",
    "9" * 400,
    "1/" * 200,
    "-" * 500,
    "½" * 100,
    "الضغط 200",
    "压力 200 bar",
    "a b" * 500,
    "1e999 bar",
    "٣٠٠ bar",
    "İİİ 3000 psi",
    "0/0 in",
    "1/0 in",
    "(((((((((",
    "\\d+(?P<x>",
    "%s %d {0}",
    "no " * 300,
    "JIC " * 200,
    "one end " * 200,
    "minus " * 200,
    "to to to -10 to to 20 to 30 F",
    "between and and between 3 and",
    "x" * 5000,
    "nineteen " * 100,
    "half " * 100,
    "oil " * 150,
    "3000 psi, no, " * 60,
    ", , , , ,",
    "one one one one end end end",
    "45 45 90 90 JIC",
]


@pytest.mark.parametrize("text", NASTY)
def test_nothing_typed_is_a_crash(text: str) -> None:
    json.dumps(hear_json(listen(text)))
    json.dumps(hear_json(listen(text, asked=("working_pressure", "end_a_family", "needed_by", "machine"), home="us")))


WORDS = st.sampled_from(
    "oil air psi bar 3000 -20 to 80 C F JIC 8 female both ends one end other , . ; relief peaks no not about up at "
    "least 1/2 in 42 half inch "
    "and a the hose DN16 18L code 61 flange three thousand hundred point minus 3Q19 friday 2SN EN 853 M18x1.5 x x45 "
    "90 ' \" # / - pump 28 cc "
    "cylinder 100/56 rod ? tag customer is machine by 5' 6\" every minute cycles hours a year day".split(" ")
)


@settings(max_examples=400, deadline=None)
@given(st.lists(WORDS, max_size=25).map(" ".join), st.sampled_from(["metric", "us"]))
@example("one end JIC other end , , same other end", "us")
def test_any_words_of_the_trade_are_taken(text: str, home: str) -> None:
    heard = listen(text, home=home)
    json.dumps(hear_json(heard))
    assert len({f.name for f in heard.facts}) == len(heard.facts)
    for fact in heard.facts:
        assert fact.name in CATALOGUE and 0 <= fact.start <= fact.end <= len(text)


@settings(max_examples=200, deadline=None)
@given(
    st.text(max_size=200), st.sampled_from([(), ("working_pressure",), ("end_b_size",), ("exposure",), ("needed_by",)])
)
def test_any_text_is_taken(text: str, asked: tuple[str, ...]) -> None:
    json.dumps(hear_json(listen(text, asked=asked)))


@pytest.mark.parametrize("unit", ["1234 ", "lorem ipsum 42 in "])
def test_a_very_long_paste_is_taken(unit: str) -> None:
    """100 kB and 10,000 numbers come back with an answer; the time they take is in the benchmark."""
    found = listen((unit * 20_000)[:100_000])
    assert len(found.facts) + len(found.unclear) + len(found.ignored) > 0
