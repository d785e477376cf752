"""Lines as people say them at a counter: is a number, a unit or a "no" ever heard as something else?

Each line showed a cause, and the cause was mended; not to hear a thing is harmless, since it is asked.
"""

from __future__ import annotations

import pytest

from interview.facts import Span
from interview.language.listen import listen

PSI = 6894.757293168361


def _heard(line: str, asked: str = "", home: str = "metric") -> dict[str, object]:
    return {f.name: f.value for f in listen(line, asked=asked.split(",") if asked else (), home=home).facts}


@pytest.mark.parametrize(
    ("line", "facts"),
    [
        ("oil must not go under 20 C", {"fluid_temperature_min": 20.0}),
        ("air not below -10 C, oil not above 80 C", {"ambient_temperature_min": -10.0, "fluid_temperature_max": 80.0}),
        (
            "oil 80 C, air never under minus 15 C, never more than 40 C",
            {"fluid_temperature_max": 80.0, "ambient_temperature_min": -15.0, "ambient_temperature_max": 40.0},
        ),
        (
            "shop stays above 50 F, never over 90 F",
            {"ambient_temperature_min": pytest.approx(10.0), "ambient_temperature_max": pytest.approx(290 / 9)},
        ),
    ],
)
def test_what_it_never_goes_under_is_the_coldest(line: str, facts: dict[str, object]) -> None:
    assert {n: v for n, v in _heard(line).items() if n.endswith(("_max", "_min"))} == facts


@pytest.mark.parametrize("line", ["oil 80, -20 to 40", "oil 80, air -20 to 40", "oil 80 C, air -20 to 40 C"])
def test_the_range_beside_the_oil_is_the_airs(line: str) -> None:
    asked = "fluid_temperature_max,ambient_temperature_min,ambient_temperature_max"
    assert _heard(line, asked) == {
        "fluid_temperature_max": 80.0,
        "ambient_temperature_min": -20.0,
        "ambient_temperature_max": 40.0,
    }


def test_a_range_beside_the_oil_is_asked_back_where_nothing_was_asked() -> None:
    heard = listen("oil 80 C, -20 to 40 C")
    assert {f.name: f.value for f in heard.facts} == {"fluid_temperature_max": 80.0}
    assert [u.said for u in heard.unclear] == ["-20 to 40 C"]


def test_a_season_is_no_topic_where_the_oil_was_asked() -> None:
    (unclear,) = listen("65 in winter 80 in summer", asked=("fluid_temperature_max",)).unclear
    assert [r.value for r in unclear.readings] == [65.0, 80.0]


def test_a_word_about_the_air_says_nothing_of_the_oil() -> None:
    asked = "fluid_temperature_max,ambient_temperature_min,ambient_temperature_max"
    assert _heard("oil 70 air down to -15 up to 38", asked) == {
        "fluid_temperature_max": 70.0,
        "ambient_temperature_min": -15.0,
        "ambient_temperature_max": 38.0,
    }


@pytest.mark.parametrize(
    ("line", "pressure"),
    [
        ("pressure never drops under 150 bar", Span(150e5, None)),
        ("pressure doesn't go below 90 bar or above 210", Span(90e5, None)),
        ("at least 200 bar working", Span(200e5, None)),
        ("working at no more than 200 bar", 200e5),
    ],
)
def test_the_least_pressure_is_never_the_whole_of_it(line: str, pressure: object) -> None:
    assert _heard(line)["working_pressure"] == pressure


@pytest.mark.parametrize(
    ("line", "asked", "facts"),
    [
        ("relief set 20 bar above working, working is 180 bar", "", {"working_pressure": 180e5}),
        ("relief is 20 over the working pressure", "", {}),
        ("gauge shows 120 bar at idle, 250 when she's working", "", {}),
        ("burst was at 220 bar, relief is 200 bar", "", {"relief_setting": 200e5}),
        ("ram closes in 4 seconds, valve in 50 ms", "", {}),
        ("the valve closes in 50 ms", "", {"valve_closing_time": 0.05}),
        ("1200 mm +/- 5 overall", "", {}),
        ("length 1200 mm plus or minus 10", "", {"overall_length": 1.2}),
        ("1 m 5 long", "", {}),
        ("ring me on 01632 960 145, order 4500, hose 3/8", "", {"bore": 6.0}),
        ("order 4, half inch", "", {"quantity": 4.0, "bore": 8.0}),
        ("rated 350 bar fittings", "", {"end_a_rating": 350e5}),
        ("hundred eighty bar working, two twenty peak", "", {"working_pressure": 180e5, "surge_pressure": 220e5}),
        ("couple hundred bar working", "", {}),
        ("no more than the relief, 210", "surge_pressure", {"surge_pressure": 210e5}),
        ("relief used to be 2500, I cranked it to 2750", "", {}),
        ("its 3/8 no wait that's the fitting the hose is half inch", "", {"bore": 8.0}),
        ("relief 250 bar, no that's the pump, relief 220 bar", "", {"relief_setting": 220e5}),
        ("relief 250 bar, no that's wrong, 220", "", {"relief_setting": 220e5}),
        ("2500 psi working, no, that's 2600", "", {"working_pressure": pytest.approx(2600 * PSI)}),
        ("oil runs 30 degrees over ambient, ambient 35 C", "", {"ambient_temperature_max": 35.0}),
        ("oil is 20 C hotter than that in summer", "", {}),
        ("40 C above ambient", "", {}),
        ("oil preheated to 15 C", "", {"fluid_temperature_min": 15.0}),
        ("250 bar WP 1000 bar BP", "", {"working_pressure": 250e5}),
        ("1/2 inch hose 3/8 fitting", "", {"bore": 8.0}),
        ("code 62 flange 1 inch 47.6 head", "", {"end_a_family": "flange_c62", "end_a_size": "1"}),
        ("flange 3/4 code 62 38 mm head", "", {"end_a_family": "flange_c62", "end_a_size": "3/4"}),
        (
            "20S 90 compact elbow, other end 3/4 flange 6000",
            "",
            {
                "end_a_family": "cone24_S",
                "end_a_size": "20S",
                "end_a_form": "elbow90",
                "end_b_family": "flange_c62",
                "end_b_size": "3/4",
            },
        ),
        ("pressure switch at 160 bar", "", {}),
        ("port reliefs 320 bar, main 280 bar", "", {"relief_setting": 320e5}),
        ("length 1200, no, that's over the nuts 1180 mm", "", {}),
        ("2500 psi working, sorry, 2600 when hot", "", {"working_pressure": pytest.approx(2600 * PSI)}),
        ("210 with no spikes", "working_pressure,surge_pressure", {"shock": "smooth"}),
        ("never spikes over 240", "working_pressure,surge_pressure", {"surge_pressure": 240e5}),
        (
            "dunno the spikes but 2500 psi running",
            "working_pressure,surge_pressure",
            {"working_pressure": pytest.approx(2500 * PSI)},
        ),
        ("about 3 thou", "working_pressure", {"working_pressure": pytest.approx(3000 * PSI)}),
        ("goes 50 over", "surge_pressure", {}),
        ("30 bar above relief", "surge_pressure", {}),
        ("last one did 6 months", "wanted_life", {}),
        ("2 pairs", "quantity", {"quantity": 4.0}),
        ("8 hours, 200 days", "hours_per_year", {"hours_per_year": 1600.0}),
        ("8 hours", "hours_per_year", {}),
        ("8", "hours_per_year", {}),
        ("was HLP, now HVLP", "medium", {"medium": "hv"}),
        (
            "hose is 3 and a half feet, ports 30 inches",
            "",
            {"overall_length": pytest.approx(42 * 0.0254), "port_distance": pytest.approx(30 * 0.0254)},
        ),
        ("350 bar working 420 peak -30 to 80", "", {"working_pressure": 350e5, "surge_pressure": 420e5}),
        ("hose for 12 mm pipe", "", {}),
        (
            "it says on it SAE 100R1AT dash 12 1500 PSI MSHA",
            "",
            {"old_construction": "saej517-100r1at", "bore": 12.0, "old_rating": pytest.approx(1500 * PSI)},
        ),
        (
            "I read 2SC-08 WP 350 bar 5100 psi 03/22 on it",
            "",
            {"old_construction": "en857-2sc", "bore": 8.0, "old_rating": 350e5},
        ),
        (
            "print reads 2SN but we run 250 bar",
            "",
            {"old_construction": "en853-2sn", "working_pressure": 250e5},
        ),
    ],
)
def test_a_number_is_given_to_no_fact_it_does_not_mean(line: str, asked: str, facts: dict[str, object]) -> None:
    assert _heard(line, asked) == facts


@pytest.mark.parametrize(
    "line",
    [
        "between 2000 and 2500 psi, spikes double that",
        "two and a half thousand psi, spikes three two",
        "thirty-five hundred psi, relief four",
    ],
)
def test_a_cue_that_says_something_of_its_own_takes_no_number_before_the_comma(line: str) -> None:
    assert not {"surge_pressure", "relief_setting"} & set(_heard(line))


@pytest.mark.parametrize("line", ["1/2 inch 2500 psi hose on a 3000 psi machine", "fittings 350 bar, hose 280 bar"])
def test_of_two_pressures_without_a_word_neither_is_the_plain_one(line: str) -> None:
    heard = listen(line)
    assert heard.fact("working_pressure") is None
    assert len([u for u in heard.unclear if "working_pressure" in u.could_be]) == 2


def test_the_pressure_of_the_system_is_said_to_be_so() -> None:
    assert _heard("2500 psi hose on a 3000 psi system") == {"working_pressure": pytest.approx(3000 * PSI)}


def test_two_counts_are_asked_back() -> None:
    heard = listen("1 off 1200 mm, 2 off 900 mm")
    assert heard.fact("quantity") is None
    assert [[r.value for r in u.readings] for u in heard.unclear if u.could_be == ("quantity",)] == [[1.0, 2.0]]


def test_a_cold_morning_says_nothing_of_the_oil() -> None:
    assert _heard("it's 20 below some mornings, oil around 170", home="us") == {
        "fluid_temperature_max": pytest.approx(76.667, abs=0.01)
    }


@pytest.mark.parametrize(
    ("line", "ends"),
    [
        ("JIC 8 and half inch BSP", ("-8", "1/2")),
        ("JIC 8 and a half inch BSP", ("-8", "1/2")),
        ("JIC 12 one end and three quarter BSP other", ("-12", "3/4")),
    ],
)
def test_a_size_and_a_part_of_an_inch_are_two_ends(line: str, ends: tuple[str, str]) -> None:
    said = _heard(line)
    assert (said["end_a_size"], said["end_b_size"]) == ends
    assert "overall_length" not in said


def test_no_more_than_puts_nothing_right() -> None:
    (heard,) = listen("no more than 250", asked=("working_pressure",)).facts
    assert not heard.corrects
    (heard,) = listen("no, 250", asked=("working_pressure",)).facts
    assert heard.corrects


@pytest.mark.parametrize(
    ("line", "sizes", "forms"),
    [
        ("end A BSP 1/2 female, end B same but 3/4", ("1/2", "3/4"), (None, None)),
        ("end A BSP 1/2 female, end B same, 3/4 hose", ("1/2", "1/2"), (None, None)),
        ("JIC 8 female both ends, 90 on one", ("-8", "-8"), ("elbow90", None)),
        ("JIC 8 both ends, one 45 one straight", ("-8", "-8"), ("elbow45", "straight")),
        ("8 JIC no 10 JIC", ("-10", None), (None, None)),
        ("JIC 8, no, JIC 10", ("-10", None), (None, None)),
        ("not JIC 8 but JIC 10", ("-10", None), (None, None)),
    ],
)
def test_what_is_said_of_one_end_stays_with_it(
    line: str, sizes: tuple[str | None, ...], forms: tuple[str | None, ...]
) -> None:
    said = _heard(line)
    assert tuple(said.get(f"end_{e}_size") for e in "ab") == sizes
    assert tuple(said.get(f"end_{e}_form") for e in "ab") == forms
