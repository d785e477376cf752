"""Lines that were once heard as something dangerous; each was found by an independent reading of the program."""

from __future__ import annotations

import pytest

from interview.facts import Span
from interview.language.listen import listen
from interview.language.model import Misread
from interview.language.read import read_value


@pytest.mark.parametrize(
    ("line", "name", "value"),
    [
        ("4000 psi, spikes of two grand", "surge_pressure", pytest.approx(2000 * 6894.757, rel=1e-5)),
        ("hose length 3'6\" over the nuts", "overall_length", pytest.approx(1.0668)),
        ("overall 1 m 20", "overall_length", pytest.approx(1.2)),
        ("hose 2 metre ten", "overall_length", pytest.approx(2.1)),
        ("about a metre ten, seat to seat", "overall_length", pytest.approx(1.1)),
        ("two metre twenty seat to seat", "overall_length", pytest.approx(2.2)),
        ("BSP 1/2 male taper", "end_a_family", "bspt"),
        ("boat steering", "regulated_use", ("steering",)),
        ("the pump wants 0.9 bar absolute at the inlet", "pump_inlet_limit", pytest.approx(0.9e5)),
        ("JIC 12 on A, male pipe 3/4 on B", "end_a_size", "-12"),
        ("JIC 12 on A, male pipe 3/4 on B", "end_b_size", "3/4"),
        ("SAE 100R2AT-8", "bore", 8.0),
        ("SAE 100R2AT-8 1/2", "bore", 8.0),
        ("SAE 100R5-8", "marked_size", 8.0),
        ("EN 853 2SN DN16 5/8 WP 250 bar", "bore", 10.0),
        ("pump inlet needs at least 0.8 bar abs", "pump_inlet_limit", Span(0.8e5, None)),
        ("not less than 0.75 bar absolute at the inlet", "pump_inlet_limit", pytest.approx(0.75e5)),
        ("water glycol 46", "medium", "hfc"),
        ("ferrule came off with the wires in it", "failure_sign", ("fitting_blew_off_wires_left",)),
        ("in the hall 15 until 35 C", "ambient_temperature_max", pytest.approx(35.0)),
        ("oil runs 37 C", "fluid_temperature_max", pytest.approx(37.0)),
        ("split hose on the bucket cylinder, 1/2 bore", "bore", 8.0),
        ("2.5 inch cylinder, 1-1/4 rod", "cylinder_bore", pytest.approx(2.5 * 0.0254)),
        ("cherry picker, insulated", "regulated_use", ("person_lift", "insulated_boom")),
    ],
)
def test_the_line_is_heard_as_meant(line: str, name: str, value: object) -> None:
    heard = listen(line).fact(name)
    assert heard is not None
    assert (tuple(heard.value) if isinstance(heard.value, (list, tuple, set, frozenset)) else heard.value) == value


@pytest.mark.parametrize(
    ("line", "asked", "could_be"),
    [
        ("0.7 bar absolute at the pump", None, {"pump_inlet_limit", "vacuum"}),
        ("0.7 bar abs", None, {"pump_inlet_limit", "vacuum"}),
        ("JIC 12 on A, male pipe 3/4 on B", None, {"end_b_family"}),
        ("SAE 100R2AT-8 3/8", None, {"bore"}),
        ("R2AT-8, 3/8", None, {"bore"}),
        ("100R2AT -8 3/8 hose", None, {"bore"}),
        ("EN 853 2SN DN16 3/8 WP 250 bar", None, {"bore"}),
        *((number, "bore", {"bore"}) for number in ("6", "8", "10", "12", "16", "20")),
    ],
)
def test_what_the_line_does_not_settle_is_asked_back(line: str, asked: str | None, could_be: set[str]) -> None:
    heard = listen(line, asked=(asked,) if asked else ())
    assert any(set(u.could_be) == could_be for u in heard.unclear)
    assert not could_be & {f.name for f in heard.facts}
    assert heard.fact("bore") is None and heard.fact("working_pressure") is None


@pytest.mark.parametrize(
    ("number", "home", "bore"), [("13", "metric", 8.0), ("24", "metric", 24.0), ("12", "us", 12.0)]
)
def test_a_bare_size_with_one_meaning_is_taken(number: str, home: str, bore: float) -> None:
    heard = listen(number, asked=("bore",), home=home).fact("bore")
    assert heard is not None and heard.value == bore


def test_a_pipe_thread_is_american_or_british() -> None:
    (unclear,) = listen("JIC 12 on A, male pipe 3/4 on B").unclear
    assert [(r.name, r.value) for r in unclear.readings] == [("end_b_family", "npt"), ("end_b_family", "bspt")]


@pytest.mark.parametrize("line", ["100R17 8 21.0 MPa", "4SP 25 280 bar", "R2AT -12 3100 psi"])
def test_a_print_alone_never_closes_the_working_pressure(line: str) -> None:
    heard = listen(line)
    assert heard.fact("working_pressure") is None
    assert any({"working_pressure", "old_rating"} == set(u.could_be) for u in heard.unclear)


def test_a_flow_on_the_plate_is_the_pumps() -> None:
    assert listen("22 gpm on the plate").fact("flow_rate") is None


@pytest.mark.parametrize(
    ("line", "asked", "name", "value"),
    [
        ("elbows set at 45 degrees anticlockwise", "adapter_a_family", "end_angle", 45.0),
        ("cone24_L", "adapter_b_family", "adapter_b_family", "cone24_L"),
        ("bspp_port", "end_b_family", "end_b_family", "bspp_port"),
        ("JIC 8", "port_b_size", "port_b_family", "flare37"),
        ("yes, brakes", "regulated_use", "regulated_use", ("road_brake",)),
        ("insulated", "regulated_use", "regulated_use", ("insulated_boom",)),
        ("for food, chocolate pump", "regulated_use", "regulated_use", ("food",)),
        ("no, no brakes", "regulated_use", "regulated_use", ("none",)),
        ("it lifts a man up in a basket", "regulated_use", "regulated_use", ("person_lift",)),
        ("stamped 3000 on the valve", "relief_setting", "relief_setting", pytest.approx(3000 * 6894.757, rel=1e-5)),
        ("rated 315", "end_b_rating", "end_b_rating", pytest.approx(315e5)),
        ("22", "flow_rate", "flow_rate", pytest.approx(22e-3 / 60)),
        ("22 a minute", "flow_rate", "flow_rate", pytest.approx(22e-3 / 60)),
    ],
)
def test_the_answer_is_heard_as_meant(line: str, asked: str, name: str, value: object) -> None:
    heard = listen(line, asked=(asked,))
    assert {f.name: f.value for f in heard.facts if not f.name.endswith("_size")} == {name: value}


@pytest.mark.parametrize(
    "line", ["no it's just a baler", "nothing like that, it's a log splitter", "no, a plain loader."]
)
def test_a_denial_with_a_machine_settles_that_no_use_is_regulated(line: str) -> None:
    heard = listen(line, asked=("regulated_use",)).fact("regulated_use")
    assert heard is not None and heard.value == ("none",)


@pytest.mark.parametrize(
    "line", ["no it's just a boat", "no, just the brakes", "no it's just a thing for my mate", "no, just a roof bolter"]
)
def test_a_denial_with_more_words_than_a_machine_settles_no_regulated_use(line: str) -> None:
    heard = listen(line, asked=("regulated_use",)).fact("regulated_use")
    assert heard is None or heard.value == ("road_brake",)


@pytest.mark.parametrize("line", ["rated 3000", "it is marked 250", "stamped 3000 on the valve"])
def test_a_bare_number_on_a_plate_is_no_crash(line: str) -> None:
    heard = listen(line)
    assert heard.unclear and not heard.facts


@pytest.mark.parametrize(
    "line",
    [
        "the pump makes 100 litres a minute and this line gets half",
        "pump 60 l/min, the line needs 2 hoses",
        "pump 60 l/min, the cylinder takes 80 strokes",
    ],
)
def test_what_is_no_flow_is_not_taken_for_one(line: str) -> None:
    assert listen(line).fact("flow_rate") is None


@pytest.mark.parametrize("line", ["37 hoses please", "air 37", "oil 37 degrees", "it's 37 long", "air 24 degrees"])
def test_a_bare_37_is_no_flare(line: str) -> None:
    listening = listen(line)
    assert listening.fact("end_a_family") is None
    assert not any("end_a_family" in u.could_be for u in listening.unclear)


def test_a_question_when_it_can_be_here_is_no_date() -> None:
    assert listen("can it be here by noon?").fact("needed_by") is None


def test_a_stroke_before_a_thin_rod_is_no_bore() -> None:
    assert listen("24 inch cylinder, 1 inch rod").fact("cylinder_bore") is None


def test_an_answer_in_words_leaves_the_figure_beside_it() -> None:
    facts = {f.name: f.value for f in listen("one, 600", asked=("bend_plane", "travel")).facts}
    assert facts == {"bend_plane": "one", "travel": pytest.approx(0.6)}


def test_the_words_of_an_answer_are_no_machine() -> None:
    asked = ("line_function", "machine")
    assert listen("goes back to tank", asked=asked).fact("machine") is None
    named = listen("bale squeezer, return line", asked=asked).fact("machine")
    assert named is not None and named.value == "bale squeezer"


def test_an_insulated_lift_is_both_uses() -> None:
    heard = listen("cherry picker, insulated", asked=("regulated_use",)).fact("regulated_use")
    assert heard is not None and heard.value == ("person_lift", "insulated_boom")


def test_a_form_asks_back_what_could_be_a_dash_or_a_dn() -> None:
    with pytest.raises(Misread, match="a dash or a DN"):
        read_value("bore", "12")
    assert read_value("bore", "12", home="us").value == 12.0
    assert read_value("bore", "DN 12").value == read_value("bore", "-8").value == 8.0
    assert read_value("bore", "12", bare="json").value == 12.0


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("customer Harl's Shed, burst hose in the yard", "open_air"),
        ("the company is Cold Store Logistics", None),
        ("it stands in a shed", "indoors"),
    ],
)
def test_the_shed_in_a_firms_name_is_not_where_the_hose_sits(line: str, place: str | None) -> None:
    heard = listen(line)
    found = heard.fact("surroundings")
    assert (found.value if found is not None else None) == place and not heard.unclear
