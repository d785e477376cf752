"""A figure given to the question asked belongs there; a dash alone is the hose's size; a loop drive says what it is."""

from __future__ import annotations

import pytest

from interview.language.listen import listen

READINGS = ("thread_diameter", "thread_pitch", "seat_angle", "tapered")


@pytest.mark.parametrize("end", ["end_a", "end_b"])
@pytest.mark.parametrize(
    "line", ["17.5 inside, 16 tpi, 74 deg", "17.5, 16 tpi, 74 deg", "17.5 mm inside, 16 tpi, 74 deg"]
)
def test_a_bare_diameter_of_a_thread_is_millimetres_and_no_temperature(end: str, line: str) -> None:
    heard = listen(line, asked=[f"{end}_{r}" for r in READINGS])
    got = {f.name: f.value for f in heard.facts}
    assert got[f"{end}_thread_diameter"] == pytest.approx(0.0175)
    assert got[f"{end}_thread_pitch"] == pytest.approx(0.0254 / 16)
    assert got[f"{end}_seat_angle"] == pytest.approx(74.0)
    assert not heard.unclear


@pytest.mark.parametrize("end", ["end_a", "end_b"])
@pytest.mark.parametrize(
    "line",
    ["47.6 mm head, 57.2 mm bolts", "head 47.6, screws 57.2 centre to centre", "57.2 mm screw spacing, head 47.6 mm"],
)
def test_head_and_screws_are_both_taken(end: str, line: str) -> None:
    heard = listen(line, asked=[f"{end}_head_diameter", f"{end}_bolt_spacing"])
    got = {f.name: f.value for f in heard.facts}
    assert got == {f"{end}_head_diameter": pytest.approx(0.0476), f"{end}_bolt_spacing": pytest.approx(0.0572)}
    assert not heard.unclear


def test_a_suction_line_takes_its_length_and_its_height() -> None:
    heard = listen("0.6 m above the oil, 1.8 m long, at 2000 m", asked=("lift", "line_length"))
    got = {f.name: f.value for f in heard.facts}
    assert got == {"lift": pytest.approx(0.6), "line_length": pytest.approx(1.8), "altitude": pytest.approx(2000.0)}
    assert not heard.unclear


def test_a_length_is_the_hoses_where_no_suction_line_is_asked() -> None:
    assert listen("1.8 m long").fact("overall_length") is not None


def test_the_side_of_an_offset() -> None:
    heard = listen("offset, 900 mm, 500 mm to the side", asked=("clearance_geometry", "port_distance"))
    got = {f.name: f.value for f in heard.facts}
    assert got["clearance_geometry"] == "offset"
    assert got["port_distance"] == pytest.approx(0.9) and got["port_offset"] == pytest.approx(0.5)


@pytest.mark.parametrize("line", ["pressure line, -8, 150 bar", "-8, hose, 150 bar", "hydraulic hose, -8"])
def test_a_dash_alone_in_a_line_about_a_hose_is_its_size(line: str) -> None:
    fact = listen(line).fact("bore")
    assert fact is not None and fact.value == 8.0


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("pressure line, -8, 150 bar", ("ambient_temperature_min",)),
        ("pressure line, oil to 80 C, air to 40, -20", ()),
        ("pressure line, oil to 80 C, -20", ()),
        ("150 bar, -8", ()),
        ("pressure line, JIC, -8", ()),
        ("pressure line, -8", ("end_a_size",)),
    ],
)
def test_a_dash_that_may_be_something_else_is_no_bore(line: str, asked: tuple[str, ...]) -> None:
    assert listen(line, asked=asked).fact("bore") is None


@pytest.mark.parametrize("line", ["hydrostatic drive loop hose", "closed loop hose", "hose of the hydrostatic loop"])
def test_a_loop_hose_is_a_pressure_line_of_a_closed_loop(line: str) -> None:
    heard = listen(line)
    got = {f.name: f.value for f in heard.facts}
    assert got == {"line_function": "pressure", "cooling": "closed_loop"}


@pytest.mark.parametrize(
    ("line", "function"),
    [("case drain of the hydrostatic drive", "case_drain"), ("return line of the hydrostatic drive", "return")],
)
def test_another_line_of_a_hydrostatic_drive_stays_what_it_is(line: str, function: str) -> None:
    got = {f.name: f.value for f in listen(line).facts}
    assert got == {"line_function": function, "cooling": "closed_loop"}


def test_hydrostatic_steering_is_still_steering() -> None:
    got = {f.name: f.value for f in listen("hydrostatic steering").facts}
    assert got == {"regulated_use": ("steering",)}


@pytest.mark.parametrize("home", ["metric", "us"])
@pytest.mark.parametrize("air", ["air -25 to 40", "air from -25 to 40"])
def test_a_bare_range_takes_the_unit_last_given_in_the_line(home: str, air: str) -> None:
    heard = listen(f"oil to 80 C, {air}, 900 mm", home=home)
    got = {f.name: f.value for f in heard.facts}
    assert got["ambient_temperature_min"] == pytest.approx(-25.0)
    assert got["ambient_temperature_max"] == pytest.approx(40.0)
    assert not heard.unclear and not heard.ignored
