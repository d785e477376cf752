"""How much pressure does a line cost, and how much heat does that make?

Friction in three regimes: laminar below a Reynolds number of 2000, turbulent above 4000, and between them the larger of
the two neighbours, because nobody can say which holds there. A hose lining counts as smooth; a corrugated one does not.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log, log10, pi, sqrt
from math import pow as power

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, too_big
from interview.engineering.ranges import Bracket, Interval, Sign, bracket

LAMINAR = 2000.0
TURBULENT = 4000.0
SMOOTH_ROUGHNESS = 1.5e-6  # m, drawn tubing and hose lining at most (memory)
_LN10 = log(10.0)


def reynolds(velocity_m_s: float, bore_m: float, viscosity_m2_s: float) -> float:
    """Reynolds number: `Re = v d / nu` (handbook). Same as 7740·v[ft/s]·d[in]/nu[cSt].

    >>> round(reynolds(5.0, 0.050, 0.001))
    250
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not TINY <= viscosity_m2_s <= HUGE:
        raise not_positive("viscosity", viscosity_m2_s, "m2/s")
    if not 0.0 <= velocity_m_s <= HUGE:
        raise negative("velocity", velocity_m_s, "m/s")
    return velocity_m_s * bore_m / viscosity_m2_s


def haaland(re: float, relative_roughness: float = 0.0) -> float:
    """Darcy friction factor: `1/sqrt(f) = -1.8 log10((e/3.7d)^1.11 + 6.9/Re)` (Haaland 1983, handbook).

    Within 2 % of Colebrook for turbulent flow, Re 4000 to 1e8. Some pages print it without the 1.11, wrongly.

    >>> round(haaland(1e5, 1e-4), 6)
    0.018265
    """
    if not 10.0 <= re <= 1e60:
        raise outside("Reynolds number", re, "", 10.0, 1e60, "the formula is for turbulent flow")
    if not 0.0 <= relative_roughness <= 0.1:
        raise outside("relative roughness", relative_roughness, "", 0.0, 0.1)
    x = 1.8 * log10(power(relative_roughness / 3.7, 1.11) + 6.9 / re)
    return 1.0 / (x * x)


def colebrook(re: float, relative_roughness: float = 0.0) -> float:
    """Darcy friction factor: `1/sqrt(f) = -2 log10(e/3.7d + 2.51/(Re sqrt(f)))` (Colebrook 1939, handbook).

    Solved by Newton's method from Haaland's value; turbulent flow, Re 4000 to 1e8.

    >>> round(colebrook(1e5, 1e-4), 6)
    0.018514
    """
    if not 10.0 <= re <= 1e60:
        raise outside("Reynolds number", re, "", 10.0, 1e60, "the formula is for turbulent flow")
    if not 0.0 <= relative_roughness <= 0.1:
        raise outside("relative roughness", relative_roughness, "", 0.0, 0.1)
    rough, smooth = relative_roughness / 3.7, 2.51 / re
    x = -1.8 * log10(power(rough, 1.11) + 6.9 / re)
    for _ in range(3):
        inner = rough + smooth * x
        x -= (x + 2.0 * log10(inner)) / (1.0 + 2.0 / _LN10 * smooth / inner)
    return 1.0 / (x * x)


def churchill(re: float, relative_roughness: float = 0.0) -> float:
    """Darcy friction factor in one expression for all regimes (Churchill 1977, handbook).

    Smooth through the transition, which it therefore guesses; for a bound take `friction_factor`.

    >>> round(churchill(1e5, 1e-4), 6)
    0.018463
    """
    if not 1e-3 <= re <= 1e12:
        raise outside("Reynolds number", re, "", 1e-3, 1e12)
    if not 0.0 <= relative_roughness <= 0.1:
        raise outside("relative roughness", relative_roughness, "", 0.0, 0.1)
    a = power(2.457 * log(1.0 / (power(7.0 / re, 0.9) + 0.27 * relative_roughness)), 16.0)
    b = power(37530.0 / re, 16.0)
    return 8.0 * power(power(8.0 / re, 12.0) + power(a + b, -1.5), 1.0 / 12.0)


def friction_factor(re: float, relative_roughness: float = 0.0) -> float:
    """Darcy friction factor: 64/Re below 2000, Colebrook above 4000, between them the larger of 64/Re and f(4000).

    The engineer's limits of the handbooks; the rule for the transition is common practice, a quarter above laminar.
    Nobody knows better there: Churchill's blend lies up to 8 % higher still, Colebrook drawn on down to 2000 24 %.

    >>> [round(friction_factor(re), 4) for re in (1000.0, 3000.0, 20000.0)]
    [0.064, 0.0399, 0.0259]
    """
    if not TINY <= re <= 1e60:
        raise not_positive("Reynolds number", re, "")
    if not 0.0 <= relative_roughness <= 0.1:
        raise outside("relative roughness", relative_roughness, "", 0.0, 0.1)
    if re < LAMINAR:
        return 64.0 / re
    if re > TURBULENT:
        return colebrook(re, relative_roughness)
    return max(64.0 / re, colebrook(TURBULENT, relative_roughness))


def hose_loss(
    flow: float,
    bore_m: float,
    length_m: float,
    viscosity_m2_s: float,
    density: float,
    roughness_m: float = 0.0,
    fittings_k: float = 0.0,
) -> float:
    """Pressure lost along a hose and its fittings, Pa: `(f L/d + sum K) rho v² / 2` (Darcy and Weisbach, handbook).

    Flow in m³/s, K as for `fitting_loss`. Bends of a hose with R/d above 10 are neglected (common practice, no source).

    >>> round(hose_loss(60 / 60000, 0.0127, 3.0, 46e-6, 870.0) / 1e5, 2)
    2.56
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 0.0 <= flow <= HUGE:
        raise negative("flow", flow, "m3/s")
    if not TINY <= viscosity_m2_s <= HUGE:
        raise not_positive("viscosity", viscosity_m2_s, "m2/s")
    if not 0.0 <= length_m <= HUGE:
        raise negative("length of the line", length_m, "m")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not 0.0 <= roughness_m <= 0.1 * bore_m:
        raise outside("roughness of the wall", roughness_m, "m", 0.0, 0.1 * bore_m)
    if not 0.0 <= fittings_k <= HUGE:
        raise negative("sum of the fittings' K", fittings_k, "")
    v = 4.0 * flow / (pi * bore_m * bore_m)
    head = density * v * v / 2.0
    re = v * bore_m / viscosity_m2_s
    if re < LAMINAR:
        # written out, so that no flow at all needs no special case
        return 32.0 * viscosity_m2_s * density * v * length_m / (bore_m * bore_m) + fittings_k * head
    f = friction_factor(min(re, 1e60), roughness_m / bore_m)
    return (f * length_m / bore_m + fittings_k) * head


HOSE_LOSS_SIGNS: Mapping[str, Sign] = {
    "flow": "+",
    "bore_m": "-",
    "length_m": "+",
    "viscosity_m2_s": "?",
    "density": "+",
    "fittings_k": "+",
}


def switch_viscosities(flow: float, bore_m: float) -> tuple[float, float]:
    """Viscosities just on either side of the jump from turbulent to laminar flow, m²/s: `v d / 2000`.

    >>> [round(v * 1e6, 2) for v in switch_viscosities(60 / 60000, 0.0127)]
    [50.13, 50.13]
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 0.0 <= flow <= HUGE:
        raise negative("flow", flow, "m3/s")
    jump = 4.0 * flow / (pi * bore_m) / LAMINAR
    return jump * (1.0 - 1e-9), jump * (1.0 + 1e-9)


def hose_loss_range(
    flow: float | Interval,
    bore_m: float | Interval,
    length_m: float | Interval,
    viscosity_m2_s: float | Interval,
    density: float | Interval,
    fittings_k: float | Interval = 0.0,
) -> Bracket:
    """Least and most pressure lost when any input is a range; both branches are tried where the flow may switch.

    >>> found = hose_loss_range(60 / 60000, 0.0127, 3.0, Interval(41.4e-6, 60e-6), Interval(820.0, 900.0))
    >>> round(found.low / 1e5, 2), round(found.high / 1e5, 2)
    (1.93, 2.64)
    """
    return bracket(
        hose_loss,
        HOSE_LOSS_SIGNS,
        switch={"viscosity_m2_s": lambda at: switch_viscosities(at["flow"], at["bore_m"])},
        flow=flow,
        bore_m=bore_m,
        length_m=length_m,
        viscosity_m2_s=viscosity_m2_s,
        density=density,
        fittings_k=fittings_k,
    )


def fitting_loss(k: float, velocity_m_s: float, density: float) -> float:
    """Pressure lost over a fitting, Pa: `K rho v² / 2` (handbook).

    Elbow 0.75 to 0.9, gate valve 0.19, check valve 4, globe valve 10 (Esposito, handbook). K from turbulent data is too
    low for laminar flow; `two_k` corrects it.

    >>> round(fitting_loss(4.0, 6.0, 870.0) / 1e5, 3)
    0.626
    """
    if not 0.0 <= k <= HUGE:
        raise negative("K of the fitting", k, "")
    if not 0.0 <= velocity_m_s <= HUGE:
        raise negative("velocity", velocity_m_s, "m/s")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    return k * density * velocity_m_s * velocity_m_s / 2.0


def two_k(re: float, k_laminar: float, k_turbulent: float, bore_m: float) -> float:
    """K of a fitting at any Reynolds number: `K1/Re + K_inf (1 + 1/d[in])` (Hooper 1981, handbook).

    For a standard threaded elbow K1 = 800, K_inf = 0.40.

    >>> round(two_k(300.0, 800.0, 0.40, 0.0254), 2)
    3.47
    """
    if not TINY <= re <= HUGE:
        raise not_positive("Reynolds number", re, "")
    if not 0.0 <= k_laminar <= HUGE:
        raise negative("K1 of the fitting", k_laminar, "")
    if not 0.0 <= k_turbulent <= HUGE:
        raise negative("K of the fitting in turbulent flow", k_turbulent, "")
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    return k_laminar / re + k_turbulent * (1.0 + 0.0254 / bore_m)


def insert_k(insert_bore_m: float, hose_bore_m: float) -> float:
    """K of a hose end's narrower insert, on the velocity inside it: `0.5 (1 - b²) + (1 - b²)²`, b = d/D (memory).

    Textbook form of a sharp contraction and expansion; newer correlations of a sharp edge lie up to 20 % higher.

    >>> round(insert_k(0.0095, 0.0127), 3)
    0.414
    """
    if not TINY <= insert_bore_m <= HUGE:
        raise not_positive("bore of the insert", insert_bore_m, "m")
    if not TINY <= hose_bore_m <= HUGE:
        raise not_positive("bore of the hose", hose_bore_m, "m")
    if insert_bore_m > hose_bore_m:
        raise EngineeringError("the insert is wider than the hose it sits in; the two bores may have been swapped")
    narrow = 1.0 - (insert_bore_m / hose_bore_m) ** 2
    return 0.5 * narrow + narrow * narrow


def equivalent_length(k: float, bore_m: float, friction: float) -> float:
    """Length of hose that loses as much as a fitting, m: `K d / f` (handbook).

    >>> round(equivalent_length(10.0, 0.0254, 0.0676), 2)
    3.76
    """
    if not 0.0 <= k <= HUGE:
        raise negative("K of the fitting", k, "")
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 1e-6 <= friction <= HUGE:
        raise not_positive("friction factor", friction, "")
    return k * bore_m / friction


def drop_velocity(pressure_drop: float, k: float, density: float) -> float:
    """Velocity a pressure drop drives through a resistance, m/s: `sqrt(2 dp / (K rho))` (handbook).

    >>> round(drop_velocity(0.626e5, 4.0, 870.0), 1)
    6.0
    """
    if not 0.0 <= pressure_drop <= HUGE:
        raise negative("pressure drop", pressure_drop, "Pa")
    if not 1e-6 <= k <= HUGE:
        raise not_positive("K of the resistance", k, "")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    speed = sqrt(2.0 * pressure_drop / (k * density))
    if speed > HUGE:
        raise too_big("velocity")
    return speed
