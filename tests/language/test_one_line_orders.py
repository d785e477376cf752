"""Does a whole order in one line keep every part: heard, asked back, or named as unread?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen

PSI = 6894.757
AIR = ("ambient_temperature_max", "ambient_temperature_min")
ALL = ("fluid_temperature_max", "ambient_temperature_min", "ambient_temperature_max")
CONE = {f"end_{e}_{k}": v for e in "ab" for k, v in (("family", "cone24_L"), ("size", "15L"), ("gender", "female"))}
FLARE = {
    f"end_{e}_{k}": v
    for e in "ab"
    for k, v in (("family", "flare37"), ("size", "-8"), ("gender", "female"), ("swivel", True))
}


def heard(line: str, *asked: str, home: str = "metric", unit: str = "") -> dict[str, object]:
    last = {"length": unit} if unit else None
    return {f.name: f.value for f in listen(line, asked=asked, home=home, last_units=last).facts}


@pytest.mark.parametrize(
    ("line", "facts"),
    [
        (
            "HOSE BURST PRESSURE 1/2 3000PSI PEAKS 4000 OIL 180F JIC8 FEM SWVL X2",
            FLARE
            | {
                "job_kind": "failed_hose",
                "failure_sign": ("burst",),
                "line_function": "pressure",
                "bore": 8.0,
                "working_pressure": pytest.approx(3000 * PSI, rel=1e-6),
                "surge_pressure": pytest.approx(4000 * PSI, rel=1e-6),
                "fluid_temperature_max": pytest.approx(82.22, abs=0.01),
            },
        ),
        ("180 bar / 220 Spitze", {"working_pressure": 180e5, "surge_pressure": 220e5}),
        ("DKOL 15L M22x1,5 beidseitig", CONE),
        (
            "5k psi wp 6k pk",
            {
                "working_pressure": pytest.approx(5000 * PSI, rel=1e-6),
                "surge_pressure": pytest.approx(6000 * PSI, rel=1e-6),
            },
        ),
        (
            "-5psi 150F 20F amb",
            {
                "vacuum": pytest.approx(5 * PSI, rel=1e-6),
                "fluid_temperature_max": pytest.approx(65.56, abs=0.01),
                "ambient_temperature_min": pytest.approx(-6.67, abs=0.01),
            },
        ),
        ("3ft lift", {"lift": pytest.approx(0.9144)}),
        (
            "pressure hose 3/8 2500 psi",
            {"line_function": "pressure", "bore": 6.0, "working_pressure": pytest.approx(2500 * PSI, rel=1e-6)},
        ),
        ("1 inch suction hose with camlock", {"bore": 16.0, "line_function": "suction", "end_a_family": "other"}),
    ],
)
def test_every_part_is_heard(line: str, facts: dict[str, object]) -> None:
    listening = listen(line)
    assert {f.name: f.value for f in listening.facts} == facts
    assert not listening.unclear and not listening.ignored


def test_the_word_behind_a_temperature_is_not_of_the_flow_and_the_minus_is_quoted() -> None:
    listening = listen("200f max -20f min 30gpm")
    assert {f.name: f.value for f in listening.facts} == {"flow_rate": pytest.approx(30 * 3.785411784e-3 / 60)}
    assert [(u.said, set(u.could_be)) for u in listening.unclear] == [
        ("200f", {"fluid_temperature_max", "ambient_temperature_max"}),
        ("-20f", {"fluid_temperature_min", "ambient_temperature_min"}),
    ]


def test_a_gender_in_words_goes_before_the_one_in_a_name() -> None:
    assert heard("DKOL 15L male one end")["end_a_gender"] == "male"


@pytest.mark.parametrize(
    ("line", "ends"),
    [
        ("DKOL 15L", {"a": ("cone24_L", "female")}),
        ("DKOL M22x1.5", {"a": ("cone24_L", "female")}),
        ("DKO-L 15", {"a": ("cone24_L", "female")}),
        ("DKOS both ends", {"a": ("cone24_S", "female"), "b": ("cone24_S", "female")}),
        ("CES M30x2", {"a": ("cone24_S", "male")}),
        ("DKOL 15L to CEL 15L", {"a": ("cone24_L", "female"), "b": ("cone24_L", "male")}),
        ("DKOR 1/2", {"a": ("bspp_cone60", "female")}),
        ("DKM DN10", {"a": ("din60_metric", "female")}),
    ],
)
def test_a_name_that_means_a_nut_or_no_nut_tells_the_gender(line: str, ends: dict[str, tuple[str, ...]]) -> None:
    said = heard(line)
    for end in "ab":
        told = tuple(said[f"end_{end}_{key}"] for key in ("family", "gender") if f"end_{end}_{key}" in said)
        assert told == ends.get(end, ())


def test_a_lift_that_is_a_machine_is_no_suction_lift() -> None:
    assert "lift" not in heard("3 m lift table, hose burst")


def test_a_burst_pressure_is_still_not_the_working_pressure() -> None:
    assert "working_pressure" not in heard("half inch hose, burst pressure 900 bar")


def test_the_air_is_told_by_its_two_ends() -> None:
    listening = listen("-20F to 100F", asked=AIR)
    assert {f.name: f.value for f in listening.facts} == {
        "ambient_temperature_min": pytest.approx(-28.89, abs=0.01),
        "ambient_temperature_max": pytest.approx(37.78, abs=0.01),
    }
    assert {f.said for f in listening.facts} == {"-20F to 100F"}


@pytest.mark.parametrize("asked", [ALL, (ALL[0], ALL[2], ALL[1])])
def test_a_word_before_a_figure_is_not_of_the_figure_before_it(asked: tuple[str, ...]) -> None:
    assert heard("80 c, coldest -5, air 35", *asked) == {
        "fluid_temperature_max": 80.0,
        "ambient_temperature_min": -5.0,
        "ambient_temperature_max": 35.0,
    }


def test_what_is_left_must_be_above_the_air() -> None:
    assert "fluid_temperature_max" not in heard("20 C, coldest -5, air 35", *ALL)


@pytest.mark.parametrize("name", ["overall_length", "port_distance"])
def test_a_length_is_in_millimetres_after_a_bore_in_inches(name: str) -> None:
    assert heard("300", name, unit="in") == {name: pytest.approx(0.3)}
    assert heard("300", name) == {name: pytest.approx(0.3)}
    assert heard("42", name, home="us", unit="in") == {name: pytest.approx(42 * 0.0254)}


@pytest.mark.parametrize("asked", [(), ("failure_sign",), ("failure_sign", "repeat_failure")])
@pytest.mark.parametrize(
    "line", ["it went pop in the middle", "burst in mid-length", "burst in the middle", "blew mid span"]
)
def test_a_burst_in_the_middle_is_a_clean_one(line: str, asked: tuple[str, ...]) -> None:
    assert heard(line, *asked)["failure_sign"] == ("burst_clean",)


@pytest.mark.parametrize("line", ["a hose that went bang", "hose blew", "it blew"])
def test_a_bang_is_a_burst(line: str) -> None:
    assert heard(line, "failure_sign")["failure_sign"] == ("burst",)


@pytest.mark.parametrize("asked", [(), ("burst_consequence",), ("regulated_use",), ("machine",), ("layline",)])
@pytest.mark.parametrize(
    "line",
    [
        "it holds the load up",
        "the boom drops if it bursts",
        "holds the boom up",
        "a load hangs on it",
        "load hangs on it",
    ],
)
def test_a_load_that_hangs_on_it_drops(line: str, asked: tuple[str, ...]) -> None:
    assert heard(line, *asked) == {"burst_consequence": ("load_drops",)}


@pytest.mark.parametrize(
    ("line", "machine"),
    [
        ("crane boom hose", "crane boom"),
        ("hose off the crane boom", "crane boom"),
        ("machine wheel loader, customer Harl Farm", "wheel loader"),
        ("customer Harl Farm, machine wheel loader", "wheel loader"),
        ("customer Harl Farm, machine bale squeezer", "bale squeezer"),
    ],
)
def test_the_machine_is_named(line: str, machine: str) -> None:
    got = heard(line)
    assert got["machine"] == machine
    assert ("customer" in line) == (got.get("customer") == "Harl Farm")
