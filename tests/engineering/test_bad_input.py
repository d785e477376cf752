"""Can anything but a finite number or a sentence come out, and do the sentences say what would be right?"""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import math
import pkgutil
import typing
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from interview import engineering
from interview.engineering import (
    angle,
    flow,
    geometry,
    lengths,
    life,
    losses,
    moving,
    ports,
    sources,
    suction,
    surge,
    surge_bracket,
    viscosity,
)
from interview.engineering.errors import EngineeringError
from interview.engineering.ranges import Interval

# Inputs with a range of their own: plausible values there, so that the formula behind the guard is reached.
PLAUSIBLE: dict[str, tuple[float, float]] = {
    "temperature_c": (-80.0, 260.0), "t1_c": (-80.0, 260.0), "t2_c": (-80.0, 260.0), "zero_c": (269.0, 276.0),
    "pour_point_c": (-60.0, 10.0), "flash_point_c": (100.0, 260.0), "temperature_rise_k": (-1.0, 510.0),
    "volumetric_efficiency": (0.0, 1.1), "pump_efficiency": (0.0, 1.1), "discharge_coefficient": (0.0, 1.1),
    "relief_share": (-0.1, 1.1), "line_share": (-0.1, 1.1), "gas_share": (-0.1, 0.6), "override": (-0.1, 2.1),
    "exponent": (0.9, 3.1), "ratio": (0.9, 12.0), "burst_ratio": (0.05, 110.0), "tested_percent": (0.5, 1100.0),
    "bend_deg": (-10.0, 370.0), "angle_deg": (-10.0, 410.0), "one_deg": (-10.0, 410.0), "other_deg": (-10.0, 410.0),
    "wanted_deg": (-10.0, 410.0), "made_deg": (-10.0, 410.0), "near_hour": (-1.0, 13.0), "far_hour": (-1.0, 13.0),
    "altitude_m": (-600.0, 12000.0), "head_m": (-60.0, 1100.0), "tank_gauge_pa": (-2e5, 1e6),
    "contraction": (-0.1, 0.6), "elongation": (-0.1, 0.6), "slack_low": (-0.1, 1.1), "slack_high": (-0.1, 1.1),
    "expansion": (-0.001, 0.004), "expansion_per_k": (-0.01, 0.11), "coefficient": (-1e-8, 1.1e-7),
    "vi": (-10.0, 410.0), "vg": (0.5, 4000.0), "ssu": (10.0, 2000.0), "relative_roughness": (-0.01, 0.11),
    "load": (-1e6, 1e6), "re": (0.0, 1e6), "hours_per_year": (0.0, 9000.0), "viscosity_40_m2_s": (1e-6, 1e-3),
    "viscosity_100_m2_s": (1e-6, 1e-4), "viscosity1_m2_s": (1e-6, 1e-3), "viscosity2_m2_s": (1e-6, 1e-3),
    "at_100": (1.0, 80.0), "spread": (0.5, 20.0),
    "tested_cycles": (0.0, 1e6), "counts": (-1.0, 1e6), "rated": (0.0, 1e8), "diameters": (-1.0, 110.0),
}  # fmt: skip

LOOPED = {"t": 20.0, "re": 20.0}
NASTY = st.sampled_from([0.0, -0.0, -1.0, 1e-320, 1e-200, 1e-13, 1e13, 1e200, 1.7e308, math.inf, -math.inf, math.nan])
DECADES = st.floats(-13.0, 13.0).map(lambda e: 10.0**e)
COUNTER = st.floats(-4.0, 3.0).map(lambda e: 10.0**e)


def _number(name: str) -> st.SearchStrategy[float]:
    if name in PLAUSIBLE:
        usual = st.floats(*PLAUSIBLE[name])
        return st.one_of(usual, usual, usual, NASTY)
    return st.one_of(COUNTER, COUNTER, DECADES, NASTY)


def _strategy(name: str, hint: Any) -> st.SearchStrategy[Any] | None:
    if hint is float:
        return _number(name)
    if hint is bool:
        return st.booleans()
    if hint == (float | None):
        return st.none() | _number(name)
    if hint == tuple[float, float]:
        return st.tuples(_number(name), _number(name))
    if hint == tuple[float, ...]:
        return st.lists(_number(name), max_size=3).map(tuple)
    if typing.get_origin(hint) is not None and typing.get_args(hint) == (float,):
        return st.lists(_number(name), max_size=4)
    if hint == float | Interval:
        return _number(name) | st.tuples(_number(name), _number(name))
    return None


def _functions() -> list[Any]:
    found = []
    for module in pkgutil.iter_modules(engineering.__path__, "interview.engineering."):
        short = module.name.rsplit(".", 1)[1]
        if short in {"errors", "threads", "vectors", "ranges", "ports", "surge_bracket"}:
            continue  # errors makes sentences; the others take more than numbers and have tests of their own
        loaded = importlib.import_module(module.name)
        for label, function in vars(loaded).items():
            if callable(function) and getattr(function, "__module__", "") == module.name and label[0] != "_":
                hints = typing.get_type_hints(function)
                hints.pop("return", None)
                taken = {
                    name: _strategy(name, hints.get(name, float))
                    for name, parameter in inspect.signature(function).parameters.items()
                    if parameter.kind is not inspect.Parameter.VAR_POSITIONAL
                }
                if inspect.isclass(function) or any(s is None for s in taken.values()):
                    continue
                found.append(pytest.param(function, taken, id=f"{short}.{label}"))
    return found


def _finite(result: Any) -> bool:
    if isinstance(result, str | bool) or result is None:
        return True
    if isinstance(result, float | int):
        return math.isfinite(result)
    if isinstance(result, Interval):
        return math.isfinite(result.low) and math.isfinite(result.high)
    if isinstance(result, dict):
        return all(_finite(k) and _finite(v) for k, v in result.items())
    if hasattr(result, "__iter__"):
        return all(_finite(r) for r in result)
    return all(_finite(getattr(result, name)) for name in result.__slots__)


def test_the_property_below_reaches_the_package() -> None:
    names = {p.id for p in _functions()}
    assert len(names) > 90
    assert {"flow.velocity", "losses.hose_loss", "viscosity.at", "life.damage", "moving.swing_length"} <= names


def _example(function: Callable[..., Any]) -> dict[str, Any]:
    """The inputs of the first call of the function in its own docstring."""
    names = {**vars(importlib.import_module(function.__module__)), "Interval": Interval}
    for example in doctest.DocTestParser().get_examples(inspect.getdoc(function) or ""):
        for node in ast.walk(ast.parse(example.source)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == function.__name__:
                # an unknown name is the one the example loops over; 20 is a fair value of each of those
                args = [eval(ast.unparse(a), {**LOOPED, **names}) for a in node.args]
                given_by_name = {k.arg: eval(ast.unparse(k.value), names) for k in node.keywords if k.arg}
                return dict(inspect.signature(function).bind(*args, **given_by_name).arguments)
    raise AssertionError(f"{function.__name__} has no example that calls it")


@pytest.mark.parametrize(("function", "taken"), _functions())
def test_a_finite_number_or_a_sentence(function: Callable[..., Any], taken: dict[str, st.SearchStrategy[Any]]) -> None:
    """Around its own example, with any input made wild: wild enough to break it, near enough to reach the formula."""
    example = _example(function)
    answered = 0

    @settings(max_examples=30, deadline=None, database=None, suppress_health_check=list(HealthCheck), derandomize=True)
    @given(data=st.data())
    def runs(data: st.DataObject) -> None:
        nonlocal answered
        wild = data.draw(st.sets(st.sampled_from(sorted(taken)), max_size=2), label="wild")
        inputs = {}
        for name, strategy in taken.items():
            if name in wild:
                inputs[name] = data.draw(strategy, label=name)
            elif isinstance(usual := example.get(name), float):
                inputs[name] = usual * data.draw(st.sampled_from([1.0, 0.9, 1.02, 1.3]), label=name)
            elif name in example:
                inputs[name] = usual
        for name, value in inputs.items():
            if isinstance(value, tuple) and typing.get_type_hints(function)[name] == float | Interval:
                inputs[name] = Interval(*value) if value[0] <= value[1] and all(map(math.isfinite, value)) else value[0]
        try:
            result = function(**inputs)
        except EngineeringError as error:
            words = str(error).split()
            assert len(words) > 5 and "nan" not in words and "inf" not in words
        else:
            answered += 1
            assert _finite(result)

    runs()
    assert answered >= 5, "the formula itself was hardly reached"


point = st.tuples(*[st.one_of(st.floats(-2, 2), st.integers(-1, 1).map(float), NASTY)] * 3)


@settings(max_examples=100, deadline=None, database=None, derandomize=True)
@given(
    positions=st.tuples(point, point),
    directions=st.tuples(point, point),
    bends=st.tuples(st.sampled_from([0.0, 45.0, 90.0, 200.0]), st.sampled_from([0.0, 45.0, 90.0])),
    via=st.lists(point, max_size=2),
    wanted=st.none() | st.floats(0, 5),
)
def test_a_finite_angle_or_a_sentence(
    positions: Any, directions: Any, bends: Any, via: Any, wanted: float | None
) -> None:
    near, far = (ports.Port(p, d, b) for p, d, b in zip(positions, directions, bends, strict=True))
    try:
        found = ports.lay(near, far, via, wanted)
    except EngineeringError as error:
        assert len(str(error)) > 20
    else:
        assert math.isfinite(found.free_length_m) and math.isfinite(found.tightest_radius_m)
        assert found.angle_deg is None or 0.0 <= found.angle_deg < 360.0


@settings(max_examples=100, deadline=None, database=None, derandomize=True)
@given(
    steady=_number("pressure").map(lambda p: p * 1e6),
    relief=st.none() | st.floats(1e5, 5e7) | NASTY,
    kind=st.sampled_from(["pilot", "direct", "unknown", "other"]),
    velocity=st.none() | st.floats(0, 20) | NASTY,
    line=st.sampled_from(["wire", "textile", "rigid", "unknown"]),
    length=st.none() | st.floats(0, 50) | NASTY,
    closing=st.none() | st.tuples(st.floats(0, 1), st.floats(0, 1)),
    rod_side=st.none() | st.tuples(st.floats(0.01, 0.2), st.floats(0.01, 0.2)),
    mass=st.none() | st.builds(surge_bracket.StoppedMass, st.floats(0, 1e4), st.floats(0, 2), st.floats(0, 1)),
    warming=st.none() | st.floats(-5, 100) | NASTY,
)
def test_a_finite_surge_or_a_sentence(
    steady: float, relief: Any, kind: str, velocity: Any, line: str, length: Any, closing: Any, rod_side: Any,
    mass: Any, warming: Any,
) -> None:  # fmt: skip
    try:
        found = surge_bracket.bracket(
            steady, relief_setting=relief, relief_kind=kind, velocity=velocity, line=line, length=length,
            closing_time=closing, rod_side=rod_side, stopped_mass=mass, trapped_warming_k=warming,
        )  # fmt: skip
    except EngineeringError as error:
        assert len(str(error)) > 20
    else:
        assert math.isfinite(found.high) and steady <= found.low <= found.high
        assert all(c.low <= c.high <= found.high and c.basis for c in found.contributions)
        assert found.governing.high == found.high


SENTENCES: list[tuple[str, Callable[[], Any], list[str]]] = [
    ("a bore of nothing", lambda: flow.velocity(0.001, 0.0), ["bore is 0 mm", "above zero"]),
    ("a negative bore", lambda: flow.velocity(0.001, -0.0127), ["bore is -12.7 mm", "above zero"]),
    ("no number", lambda: flow.velocity(math.nan, 0.0127), ["flow is not a number"]),
    ("an efficiency in per cent", lambda: flow.pump_flow(28e-6, 25.0, 95.0), ["0.05 to 1", "0.9 for 90 %"]),
    ("a rod as thick as the bore", lambda: sources.area_ratio(0.08, 0.08), ["rod is 80 mm", "thinner", "swapped"]),
    ("rod and bore swapped", lambda: surge.blocked_rod_side(2e7, 0.056, 0.08), ["rod is 80 mm", "bore of 56 mm"]),
    ("precharge too high", lambda: sources.accumulator_delivery(0.01, 150e5, 200e5, 100e5), ["150 bar", "100 bar"]),
    ("below the pour point", lambda: viscosity.at(-40.0, 46, 100, -30.0), ["-40 °C", "pour point of -30 °C", "warmed"]),
    ("above the flash point", lambda: viscosity.at(210.0, 46, 100, None, 200.0), ["flash point of 200 °C"]),
    ("too hot for D341", lambda: viscosity.at(150.0, 10, 100), ["thinner than 2 mm²/s", "ASTM D341"]),
    ("a viscosity outside D341", lambda: viscosity.between(20.0, 40.0, 1e-6, 100.0, 5e-7), ["1 mm²/s", "2 mm²/s"]),
    ("an index of 4000", lambda: viscosity.at(20.0, 46, 4000), ["viscosity index is 4000", "0 to 400"]),
    ("viscosities swapped", lambda: viscosity.between(20.0, 40.0, 5e-6, 100.0, 46e-6), ["thinner", "swapped"]),
    ("90 km up", lambda: suction.atmosphere(90_000.0), ["90000 m", "11000 m"]),
    ("a closing time of nothing", lambda: surge.closure(870, 900, 5, 3, 0.0), ["closing time is 0 s", "0.02 to 0.1 s"]),
    ("a negative length", lambda: losses.hose_loss(0.001, 0.0127, -1.0, 46e-6, 870), ["line is -1000 mm"]),
    ("no peak", lambda: life.allowed_cycles(0.0, 2e7, 2e5, 133), ["peak pressure is 0 bar", "above zero"]),
    ("test pressure above burst", lambda: life.line_slope(2e5, 500), ["500 %", "400 %", "below burst"]),
    ("an angle of 400", lambda: angle.normalised(400.0), ["400", "0 to 360", "would be 40"]),
    ("an angle along the hose", lambda: angle.end_angle((1, 0, 0), (0, 0, 1), []), ["near", "straight"]),
    ("ports on each other", lambda: ports.lay(ports.Port((0, 0, 0), (0, 0, 1)), ports.Port((0, 0, 0), (0, 0, 1))),
     ["same place", "three axes"]),
    ("ports too close for a U-bend", lambda: geometry.u_bend_length(0.30, 0.18, 0.022), ["300 mm", "382 mm", "139 mm"]),
    ("a leg too short", lambda: geometry.right_angle_length(0.15, 0.4, 0.18, 0.022), ["150 mm", "191 mm at least"]),
    ("an offset over too short a way", lambda: geometry.offset_length(0.05, 0.31, 0.145, 0.5), ["500 mm", "533.9 mm"]),
    ("a loop too short", lambda: moving.check_loop(0.9, 0.18, 0.022, 0.6, 0.033), ["900 mm", "shortest is 966 mm"]),
    ("a loop all travel", lambda: moving.loop_bend(0.3, 0.6), ["300 mm", "longer than 300 mm"]),
    ("legs of a loop too close", lambda: moving.loop_length(0.18, 0.022, 0.6, 0.0, True, 0.3), ["300 mm", "382 mm"]),
    ("a hose shorter than its distance", lambda: geometry.bow_height(1.0, 0.9), ["900 mm", "1042 mm would"]),
    ("ends longer than the hose", lambda: lengths.cut_length(0.05, 0.03, 0.03), ["60 mm", "50 mm", "no hose"]),
    ("a negative distance", lambda: geometry.straight_run_length(-1.0), ["distance between the ports is -1000 mm"]),
]  # fmt: skip


@pytest.mark.parametrize(("call", "words"), [pytest.param(c, w, id=name) for name, c, w in SENTENCES])
def test_the_sentence_says_what_is_wrong_and_what_would_be_right(call: Callable[[], Any], words: list[str]) -> None:
    with pytest.raises(EngineeringError) as caught:
        call()
    for word in words:
        assert word in str(caught.value)
