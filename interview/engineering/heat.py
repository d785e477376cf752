"""How much heat do the losses make, and how much warmer does the oil get?"""

from __future__ import annotations

from interview.engineering.errors import HUGE, TINY, negative, not_positive, outside


def power(pressure: float, flow: float) -> float:
    """Hydraulic power, and the heat made where a pressure drops, W: `P = dp Q` (handbook); kW = bar·L/min/600.

    >>> round(power(600e5, 1 / 60000))
    1000
    """
    if not 0.0 <= pressure <= HUGE:
        raise negative("pressure", pressure, "Pa")
    if not 0.0 <= flow <= HUGE:
        raise negative("flow", flow, "m3/s")
    return pressure * flow


def temperature_rise(pressure_drop: float, density: float, specific_heat: float = 1880.0) -> float:
    """Warming of a fluid that is throttled, K: `dT = dp / (rho c)` (handbook); about 6 K for 100 bar in oil.

    All heat stays in the fluid. c in J/(kg K): mineral oil 1800 to 1900 (memory).

    >>> round(temperature_rise(70e5, 895.0, 1800.0), 1)
    4.3
    """
    if not 0.0 <= pressure_drop <= HUGE:
        raise negative("pressure drop", pressure_drop, "Pa")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not TINY <= specific_heat <= HUGE:
        raise not_positive("specific heat", specific_heat, "J/(kg K)")
    return pressure_drop / (density * specific_heat)


def system_heat(pressure: float, flow: float, pump_efficiency: float, relief_share: float, line_share: float) -> float:
    """Heat a simple system makes, W: pump loss, share over the relief valve, the line's share of the rest.

    `p Q (1/eta - 1) + p Q s_relief + p Q (1 - s_relief) s_line` (handbook, Esposito ch. 11).

    >>> round(system_heat(70e5, 0.00126, 0.85, 0.5, 0.1))
    6407
    """
    if not 0.05 <= pump_efficiency <= 1.0:
        raise outside("efficiency of the pump", pump_efficiency, "", 0.05, 1.0, "a share, 0.85 for 85 %")
    for what, share in (("share over the relief valve", relief_share), ("share lost in the lines", line_share)):
        if not 0.0 <= share <= 1.0:
            raise outside(what, share, "", 0.0, 1.0, "a share, 0.5 for 50 %")
    useful = power(pressure, flow)
    return useful * (1.0 / pump_efficiency - 1.0 + relief_share + (1.0 - relief_share) * line_share)
