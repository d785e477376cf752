"""Does every number of a line keep its own figure and its own unit, whatever stands beside it?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen

PSI = 6894.757293168361


@pytest.mark.parametrize("line", ["ports 900 apart, hose 1 m", "hose 1 m, ports 900 apart", "900 apart, hose 1 m"])
def test_a_bare_distance_keeps_its_figure_and_is_asked_for_its_unit(line: str) -> None:
    heard = listen(line)
    assert {f.name: f.value for f in heard.facts} == {"overall_length": 1.0}
    (unclear,) = heard.unclear
    assert unclear.said == "900" and unclear.could_be == ("port_distance",)
    assert [(r.unit, r.value) for r in unclear.readings] == [("mm", pytest.approx(0.9)), ("in", pytest.approx(22.86))]


@pytest.mark.parametrize(
    ("line", "fact", "value"),
    [
        ("ports 36 apart, hose 42 inches", "port_distance", 36 * 0.0254),
        ("ports 36 apart, hose 42 inches", "overall_length", 42 * 0.0254),
        ("hose 1200 long, ports 1 m apart", "port_distance", 1.0),
        ("length 1450, travel 0.6 m", "travel", 0.6),
        ("works at 200 bar, spikes 3500", "surge_pressure", 3500 * PSI),  # in bar it can be nothing
        ("pressure 200 bar working", "working_pressure", 200e5),
        ("relief 3000 psi, works at 2500", "working_pressure", 2500 * PSI),
        ("ports 900 apart, hose 1200 mm", "port_distance", 0.9),
    ],
)
def test_a_number_has_the_unit_that_can_be_its(line: str, fact: str, value: float) -> None:
    heard = listen(line).fact(fact)
    assert heard is not None and heard.value == pytest.approx(value)


@pytest.mark.parametrize(
    ("line", "said", "fact"),
    [
        ("works at 210, spikes 4000 psi", "210", "working_pressure"),
        ("relief 3000 psi, works at 180", "180", "working_pressure"),
        ("works at 200 bar, spikes 1500", "1500", "surge_pressure"),
        ("ports 40 apart, hose 1100 mm", "40", "port_distance"),
        ("hose 1200 long, ports 1 m apart", "1200", "overall_length"),
        ("hose is 1100, ports a metre apart", "1100", "overall_length"),
        ("oil 60, air 100 F", "60", "fluid_temperature_max"),
        ("oil 180, air 30 C", "180", "fluid_temperature_max"),
    ],
)
def test_a_neighbours_unit_that_belies_a_number_is_not_its_own(line: str, said: str, fact: str) -> None:
    heard = listen(line)
    assert heard.fact(fact) is None
    assert any(u.said == said and u.could_be == (fact,) and len(u.readings) == 2 for u in heard.unclear)


def test_two_words_for_one_fact_may_still_have_a_number_each() -> None:
    (unclear,) = listen("pressure 210 bar usually 180").unclear
    assert sorted(r.value for r in unclear.readings if isinstance(r.value, float)) == [180e5, 210e5]
