"""Lines that were once heard as something dangerous; each was found by an independent reading of the program."""

from __future__ import annotations

import pytest

from interview.language.listen import listen


@pytest.mark.parametrize(
    ("line", "name", "value"),
    [
        ("4000 psi, spikes of two grand", "surge_pressure", pytest.approx(2000 * 6894.757, rel=1e-5)),
        ("hose length 3'6\" over the nuts", "overall_length", pytest.approx(1.0668)),
        ("overall 1 m 20", "overall_length", pytest.approx(1.2)),
        ("BSP 1/2 male taper", "end_a_family", "bspt"),
        ("boat steering", "regulated_use", ("steering",)),
    ],
)
def test_the_line_is_heard_as_meant(line: str, name: str, value: object) -> None:
    heard = listen(line).fact(name)
    assert heard is not None
    assert (tuple(heard.value) if isinstance(heard.value, (list, tuple, set, frozenset)) else heard.value) == value


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
    ],
)
def test_the_answer_is_heard_as_meant(line: str, asked: str, name: str, value: object) -> None:
    heard = listen(line, asked=(asked,))
    assert {f.name: f.value for f in heard.facts if not f.name.endswith("_size")} == {name: value}
