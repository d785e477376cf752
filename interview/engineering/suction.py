"""Does the pump get its oil? The absolute pressure at its inlet decides, not the velocity in the hose."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, pi, sqrt
from math import pow as to_the

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown
from interview.engineering.losses import hose_loss, switch_viscosities
from interview.engineering.ranges import Bracket, Interval, Sign, bracket

GRAVITY = 9.80665
# Least absolute inlet pressure of a pump whose maker's figure is not to hand (common practice, no source).
INLET_NORMAL = 0.8e5
WEATHER = 0.03  # a low takes about this share off the standard atmosphere (practice)


def atmosphere(altitude_m: float) -> float:
    """Air pressure of the standard atmosphere, Pa: `101325 (1 - 2.25577e-5 h)^5.2559` (ISO 2533, restated).

    From 500 m below the sea to 11 000 m, where the formula's layer ends. Weather takes up to 3 % more (practice).

    >>> round(atmosphere(1524.0) / 1e5, 3)
    0.843
    """
    if not -500.0 <= altitude_m <= 11000.0:
        raise EngineeringError(
            f"an altitude of {shown(altitude_m, '')} m cannot be; from -500 to 11000 m there are machines at work"
        )
    return 101325.0 * to_the(1.0 - 2.25577e-5 * altitude_m, 5.2559)


def inlet_pressure(
    altitude_m: float,
    density: float,
    head_m: float,
    line_loss_pa: float,
    tank_gauge_pa: float = 0.0,
    other_losses_pa: float = 0.0,
) -> float:
    """Absolute pressure at the pump inlet, Pa: `p_air + p_tank + rho g z - losses` (handbook).

    z = `head_m` is the oil level above the pump, negative for lift. Other losses are strainer, filter, valves. Where
    the sum would fall below nothing the answer is 0: the line cannot carry this flow.

    >>> round(inlet_pressure(2000.0, 870.0, -0.5, 0.12e5) / 1e5, 3)
    0.632
    """
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not -50.0 <= head_m <= 1000.0:
        raise outside("oil level above the pump", head_m, "m of height", -50.0, 1000.0)
    if not 0.0 <= line_loss_pa <= HUGE * HUGE:
        raise negative("loss in the line", line_loss_pa, "Pa")
    if not -1.1e5 <= tank_gauge_pa <= HUGE:
        raise outside("pressure in the tank", tank_gauge_pa, "Pa", -1.1e5, HUGE)
    if not 0.0 <= other_losses_pa <= HUGE:
        raise negative("loss in strainer and valves", other_losses_pa, "Pa")
    inlet = atmosphere(altitude_m) + tank_gauge_pa + density * GRAVITY * head_m - line_loss_pa - other_losses_pa
    return max(inlet, 0.0)


def line_inlet(
    flow: float,
    bore_m: float,
    length_m: float,
    viscosity_m2_s: float,
    density: float,
    head_m: float,
    altitude_m: float = 0.0,
    fittings_k: float = 0.0,
    tank_gauge_pa: float = 0.0,
    other_losses_pa: float = 0.0,
) -> float:
    """Absolute pressure at the pump inlet straight from the suction line's data, Pa (`hose_loss`, `inlet_pressure`).

    >>> round(line_inlet(60 / 60000, 0.038, 1.5, 1503e-6, 890.0, -0.4) / 1e5, 3)
    0.586
    """
    loss = hose_loss(flow, bore_m, length_m, viscosity_m2_s, density, 0.0, fittings_k)
    return inlet_pressure(altitude_m, density, head_m, loss, tank_gauge_pa, other_losses_pa)


LINE_INLET_SIGNS: Mapping[str, Sign] = {
    "flow": "-",
    "bore_m": "+",
    "length_m": "-",
    "viscosity_m2_s": "?",
    "density": "?",
    "head_m": "+",
    "altitude_m": "-",
    "fittings_k": "-",
    "tank_gauge_pa": "+",
    "other_losses_pa": "-",
}


def line_inlet_range(
    flow: float | Interval,
    bore_m: float | Interval,
    length_m: float | Interval,
    viscosity_m2_s: float | Interval,
    density: float | Interval,
    head_m: float | Interval,
    altitude_m: float | Interval = 0.0,
    fittings_k: float | Interval = 0.0,
    tank_gauge_pa: float | Interval = 0.0,
    other_losses_pa: float | Interval = 0.0,
) -> Bracket:
    """Least and most inlet pressure when any input is a range, Pa absolute.

    >>> found = line_inlet_range(60 / 60000, 0.038, Interval(1.0, 2.0), Interval(30e-6, 1650e-6), 890.0,
    ...                          Interval(-0.5, -0.3))
    >>> round(found.low / 1e5, 3), round(found.high / 1e5, 3)
    (0.396, 0.982)
    """
    return bracket(
        line_inlet,
        LINE_INLET_SIGNS,
        switch={"viscosity_m2_s": lambda at: switch_viscosities(at["flow"], at["bore_m"])},
        flow=flow,
        bore_m=bore_m,
        length_m=length_m,
        viscosity_m2_s=viscosity_m2_s,
        density=density,
        head_m=head_m,
        altitude_m=altitude_m,
        fittings_k=fittings_k,
        tank_gauge_pa=tank_gauge_pa,
        other_losses_pa=other_losses_pa,
    )


def vacuum_needed(altitude_m: float, inlet_abs_pa: float, can_be_shut: bool = False) -> float:
    """Vacuum rating a suction hose needs, Pa below the air: `p_air - p_inlet`; the whole air where a valve can shut it.

    Hose collapse depends on the difference to the outside; ratings are stated at sea level (practice).

    >>> round(vacuum_needed(2000.0, 0.632e5) / 1e5, 3)
    0.163
    """
    if not 0.0 <= inlet_abs_pa <= HUGE:
        raise negative("absolute pressure at the inlet", inlet_abs_pa, "Pa")
    air = atmosphere(altitude_m)
    return air if can_be_shut else max(air - inlet_abs_pa, 0.0)


def acceleration_loss(density: float, length_m: float, flow_change_m3_s2: float, bore_m: float) -> float:
    """Pressure that speeding up the column of oil takes, Pa: `rho L (dQ/dt) / A` (handbook); for long suction lines.

    >>> round(acceleration_loss(870.0, 3.0, 0.001 / 0.5, 0.038) / 1e5, 3)
    0.046
    """
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not 0.0 <= length_m <= HUGE:
        raise negative("length of the line", length_m, "m")
    if not 0.0 <= flow_change_m3_s2 <= HUGE:
        raise negative("change of flow", flow_change_m3_s2, "m³/s²")
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    return density * length_m * flow_change_m3_s2 * 4.0 / (pi * bore_m * bore_m)


def water_vapour_pressure(temperature_c: float) -> float:
    """Vapour pressure of water, Pa absolute (Wagner and Pruss, IAPWS; coefficients from memory, held against CoolProp).

    Counts for water-based fluids, whose inlet pressure has to stay well above it; from 0.01 to 200 °C. Mineral oil's
    own vapour pressure is negligible.

    >>> round(water_vapour_pressure(50.0) / 1e5, 4)
    0.1235
    """
    if not 0.01 <= temperature_c <= 200.0:
        raise outside("temperature of the water", temperature_c, "°C", 0.01, 200.0, "below 0 it freezes")
    kelvin = temperature_c + 273.15
    x = 1.0 - kelvin / 647.096
    x_half = sqrt(x)
    series = x * (
        -7.85951783
        + 1.84408259 * x_half
        + x * x * (-11.7866497 + 22.6807411 * x_half - 15.9618719 * x + 1.80122502 * to_the(x, 4.5))
    )
    return 22.064e6 * exp(647.096 / kelvin * series)
