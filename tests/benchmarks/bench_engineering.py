"""Is an engineering function within three times the same formula written inline, and is one answer's worth fast?

Not part of the ordinary tests; run it as `python -m pytest tests/benchmarks/bench_engineering.py -s`. Ratios are
compared, the best of several rounds each, so that a busy machine slows both sides alike.
"""

from __future__ import annotations

import timeit
from collections.abc import Callable
from math import log, log10, pi, sqrt
from typing import Any

import pytest

from interview.engineering import flow, geometry, life, losses, moving, ports, sources, suction, surge, viscosity
from interview.engineering.ranges import Interval

MOST_TIMES_INLINE = 3.0
ONE_ANSWER_S = 0.010
ALL_GEOMETRY_S = 0.005

NAMES = {"pi": pi, "sqrt": sqrt, "log": log, "log10": log10}
Q, D, L, NU, RHO = 60 / 60000, 0.0127, 3.0, 20e-6, 870.0

LAMINAR = """
v = 4.0 * Q / (pi * D * D)
head = RHO * v * v / 2.0
if v * D / NUC < 2000.0:
    32.0 * NUC * RHO * v * L / (D * D) + K * head
"""
TURBULENT = """
v = 4.0 * Q / (pi * D * D)
re = v * D / NU
x = 1.8 * log10(6.9 / re)
x = -x
for _ in range(3):
    inner = 2.51 / re * x
    x -= (x + 2.0 * log10(inner)) / (1.0 + 2.0 / 2.302585092994046 * (2.51 / re) / inner)
1.0 / (x * x) * L / D * RHO * v * v / 2.0
"""

CASES: dict[str, tuple[str, str, dict[str, Any]]] = {
    "velocity": ("f(Q, D)", "4.0 * Q / (pi * D * D)", {"f": flow.velocity}),
    "bore for a velocity": ("f(Q, 6.0)", "sqrt(4.0 * Q / (pi * 6.0))", {"f": flow.bore_for}),
    "pump flow": ("f(V, N, E)", "V * N * E", {"f": flow.pump_flow, "V": 28e-6, "N": 25.0, "E": 0.95}),
    "area ratio": ("f(B, R)", "B * B / ((B - R) * (B + R))", {"f": sources.area_ratio, "B": 0.08, "R": 0.056}),
    "water hammer": ("f(RHO, C, V)", "RHO * C * V", {"f": surge.joukowsky, "C": 900.0, "V": 5.0}),
    "laminar loss": ("f(Q, D, L, NUC, RHO)", LAMINAR, {"f": losses.hose_loss, "NUC": 800e-6, "K": 0.0}),
    "turbulent loss": ("f(Q, D, L, NU, RHO)", TURBULENT, {"f": losses.hose_loss}),
    "atmosphere": ("f(H)", "101325.0 * (1.0 - 2.25577e-5 * H) ** 5.2559", {"f": suction.atmosphere, "H": 1500.0}),
    "viscosity at a temperature": (
        "f(T, 46, 100)",
        "(10.0 ** (10.0 ** (A - B * log10(T + 273.15))) - 0.7) * 1e-6",
        {
            "f": viscosity.at,
            "T": 20.0,
            "A": viscosity.walther_constants(40.0, 46e-6, 100.0, 6.76e-6)[0],
            "B": viscosity.walther_constants(40.0, 46e-6, 100.0, 6.76e-6)[1],
        },
    ),
    "cycles allowed": (
        "f(P, 207e5, 200000, 133)",
        "exp(log(200000) / log(4.0 * 100.0 / 133) * log(4.0 * 207e5 / P))",
        {"f": life.allowed_cycles, "P": 250e5, "exp": __import__("math").exp},
    ),
    "bend of a U": (
        "f(C, R, O, S)",
        "pi * C / 2.0 + 2.0 * S if C >= 2.0 * R + O else None",
        {"f": geometry.u_bend_length, "C": 0.4, "R": 0.18, "O": 0.022, "S": 0.033},
    ),
    "moving loop": (
        "f(R, O, T, S)",
        "pi * (R + O / 2.0) + 2.0 * S + T / 2.0",
        {"f": moving.loop_length, "R": 0.18, "O": 0.022, "T": 0.6, "S": 0.033},
    ),
}


def _best(statement: str, names: dict[str, Any]) -> float:
    timer = timeit.Timer(statement, globals=names)
    loops = 20_000
    return min(timer.repeat(repeat=7, number=loops)) / loops


@pytest.mark.parametrize("case", CASES)
def test_within_three_times_the_same_formula_inline(case: str) -> None:
    call, inline, extra = CASES[case]
    names = {**NAMES, "Q": Q, "D": D, "L": L, "NU": NU, "RHO": RHO, **extra}
    # two figures of some ten nanoseconds each waver by a tenth: the best of three measurements counts
    ours, bare = min(((_best(call, names), _best(inline, names)) for _ in range(3)), key=lambda pair: pair[0] / pair[1])
    print(f"{case}: {ours * 1e9:.0f} ns, inline {bare * 1e9:.0f} ns, {ours / bare:.2f} times")
    assert ours <= MOST_TIMES_INLINE * bare


def _seconds(work: Callable[[], object], rounds: int = 20) -> float:
    return min(timeit.repeat(work, repeat=rounds, number=1))


def test_all_geometry_of_one_answer() -> None:
    near = ports.Port((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 90.0)
    far = ports.Port((0.8, 0.3, 0.2), (0.0, 1.0, 0.2), 45.0)

    def work() -> None:
        ports.lay(near, far, ((0.4, 0.2, 0.3),))
        geometry.bow_height(1.0, 1.05)
        geometry.offset_length(0.05, 0.31, 0.145, 0.6)
        geometry.right_angle_length(0.6, 0.4, 0.18, 0.022)
        geometry.u_bend_length(0.4, 0.18, 0.022)
        moving.check_loop(1.3, 0.18, 0.022, 0.6, 0.033)

    spent = _seconds(work)
    print(f"geometry of one answer: {spent * 1e3:.2f} ms")
    assert spent <= ALL_GEOMETRY_S


def test_follow_ups_of_one_answer_with_ranges() -> None:
    def work() -> None:
        for grade in (32.0, 46.0, 68.0):
            cold = viscosity.at_range(Interval(-20.0, 0.0), grade, Interval(95.0, 160.0))
            for bore in (0.0159, 0.019, 0.0254, 0.0318, 0.0381):
                losses.hose_loss_range(Interval(1e-4, 1e-3), bore, Interval(1.0, 3.0), cold, Interval(820.0, 900.0))
                suction.line_inlet_range(
                    Interval(1e-4, 1e-3), bore, 2.0, cold, Interval(820.0, 900.0), Interval(-0.5, 0.5)
                )

    spent = _seconds(work)
    print(f"fifteen bores with losses and inlet as ranges: {spent * 1e3:.2f} ms")
    assert spent <= ONE_ANSWER_S
