"""Is a number word of a sentence left alone, and still a figure where it is one?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen


@pytest.mark.parametrize("asked", ["flow_rate", "surge_pressure", "working_pressure", "quantity", "bore"])
@pytest.mark.parametrize(
    "line",
    [
        "no one knows",
        "nobody knows",
        "none of us knows",
        "no idea who knows",
        "one of those things, never measured",
        "nobody's sure",
    ],
)
def test_that_nobody_knows_is_not_known(asked: str, line: str) -> None:
    heard = listen(line, asked=(asked,))
    assert heard.dont_know and not heard.facts and not heard.unclear


@pytest.mark.parametrize("home", ["metric", "us"])
@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("only the one on the gauge", "surge_pressure"),
        ("the big one", "surge_pressure"),
        ("the big one", "flow_rate"),
        ("the one on the left", "bore"),
        ("the two stage pump", "pump_flow"),
        ("the two stage pump", "flow_rate"),
        ("it has four bolts", "overall_length"),
    ],
)
def test_a_number_word_of_a_sentence_is_no_figure(line: str, asked: str, home: str) -> None:
    heard = listen(line, asked=(asked,), home=home, last_units={"pressure": "bar", "flow": "L/min", "length": "in"})
    assert not heard.facts and not heard.unclear


def test_it_is_no_temperature_either() -> None:
    heard = listen("11 gpm two stage pump", asked=("fluid_temperature_max",), home="us")
    assert {f.name for f in heard.facts} == {"pump_flow"} and not heard.unclear


@pytest.mark.parametrize("asked", [("motion",), ("bore",), ("bore_proven", "bore")])
def test_one_way_is_no_bore(asked: tuple[str, ...]) -> None:
    heard = listen("it flexes, one way", asked=asked, home="us", last_units={"length": "in"})
    assert {f.name for f in heard.facts} == {"motion"} and not heard.unclear


def test_one_off_a_pump_is_no_quantity() -> None:
    heard = listen("the big one off the pump, about an inch and a half", asked=("bore",))
    assert {f.name: f.value for f in heard.facts} == {"bore": 24.0}


def test_who_says_that_no_one_knows_corrects_no_figure_before_it() -> None:
    facts = {f.name: f.value for f in listen("200 bar, no one knows the peak", asked=("working_pressure",)).facts}
    assert facts == {"working_pressure": pytest.approx(2e7)}


@pytest.mark.parametrize(
    ("line", "asked", "value"),
    [
        ("one", "quantity", 1.0),
        ("two of them", "quantity", 2.0),
        ("just the one", "quantity", 1.0),
        ("one inch", "bore", 16.0),
        ("five", "wanted_life", 5.0),
        ("about five years", "wanted_life", 5.0),
        ("forty", "flow_rate", 40e-3 / 60),
        ("no, eight", "wanted_life", 8.0),
        ("two bar", "surge_pressure", 2e5),
        ("three thousand, no, thirty-five hundred", "working_pressure", 3500 * 6894.757),
    ],
)
def test_alone_or_with_a_unit_or_as_a_count_it_is_one(line: str, asked: str, value: float) -> None:
    heard = listen(line, asked=(asked,)).fact(asked)
    assert heard is not None and heard.value == pytest.approx(value, rel=1e-5)
