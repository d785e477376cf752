"""Where does the flow in a line come from, when it is not the pump's: cylinder, accumulator, open valve, load?"""

from __future__ import annotations

from math import pi, sqrt
from math import pow as power

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown, too_big


def _rod_too_big(bore_m: float, rod_m: float) -> EngineeringError:
    return EngineeringError(
        f"the rod is {shown(rod_m, 'm')} in a bore of {shown(bore_m, 'm')}; a rod is thinner than its cylinder, "
        "so the two may have been swapped"
    )


def cap_area(bore_m: float) -> float:
    """Piston area on the cap side, m²: `pi D² / 4`.

    >>> round(cap_area(0.080) * 1e4, 2)
    50.27
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("cylinder bore", bore_m, "m")
    return pi * bore_m * bore_m / 4.0


def rod_side_area(bore_m: float, rod_m: float) -> float:
    """Ring area on the rod side, m²: `pi (D² - d²) / 4`.

    >>> round(rod_side_area(0.080, 0.056) * 1e4, 2)
    25.64
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("cylinder bore", bore_m, "m")
    if not TINY <= rod_m <= HUGE:
        raise not_positive("rod diameter", rod_m, "m")
    if rod_m >= bore_m:
        raise _rod_too_big(bore_m, rod_m)
    return pi * (bore_m - rod_m) * (bore_m + rod_m) / 4.0


def area_ratio(bore_m: float, rod_m: float) -> float:
    """Cap area over rod-side area, above 1: `D² / (D² - d²)` (handbook).

    >>> round(area_ratio(0.080, 0.056), 4)
    1.9608
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("cylinder bore", bore_m, "m")
    if not TINY <= rod_m <= HUGE:
        raise not_positive("rod diameter", rod_m, "m")
    if rod_m >= bore_m:
        raise _rod_too_big(bore_m, rod_m)
    # the product form keeps the difference of two near-equal squares exact
    return bore_m * bore_m / ((bore_m - rod_m) * (bore_m + rod_m))


def cap_return_flow(rod_side_flow: float, bore_m: float, rod_m: float) -> float:
    """Flow pushed out of the cap end while the pump feeds the rod side, m³/s: `Q D² / (D² - d²)` (handbook).

    The return hose, its filter and the tank line carry this, more than the pump gives.

    >>> round(cap_return_flow(20 / 60000, 0.080, 0.056) * 60000, 1)
    39.2
    """
    if not 0.0 <= rod_side_flow <= HUGE:
        raise negative("flow into the rod side", rod_side_flow, "m3/s")
    return rod_side_flow * area_ratio(bore_m, rod_m)


def rod_return_flow(cap_side_flow: float, bore_m: float, rod_m: float) -> float:
    """Flow pushed out of the rod side while the pump feeds the cap end, m³/s: `Q (D² - d²) / D²` (handbook).

    >>> round(rod_return_flow(40 / 60000, 0.080, 0.056) * 60000, 1)
    20.4
    """
    if not 0.0 <= cap_side_flow <= HUGE:
        raise negative("flow into the cap end", cap_side_flow, "m3/s")
    return cap_side_flow / area_ratio(bore_m, rod_m)


def speed(flow_m3_s: float, area_m2: float) -> float:
    """Piston speed, m/s: `v = Q / A` (handbook).

    >>> round(speed(20 / 60000, cap_area(0.080)), 4)
    0.0663
    """
    if not TINY <= area_m2 <= HUGE:
        raise not_positive("piston area", area_m2, "m2")
    if not 0.0 <= flow_m3_s <= HUGE:
        raise negative("flow", flow_m3_s, "m3/s")
    return flow_m3_s / area_m2


def pressure_for_load(force_n: float, area_m2: float) -> float:
    """Pressure that carries a load, Pa: `p = F / A` (handbook); friction and back pressure left out.

    >>> round(pressure_for_load(50e3, cap_area(0.080)) / 1e5, 1)
    99.5
    """
    if not TINY <= area_m2 <= HUGE:
        raise not_positive("piston area", area_m2, "m2")
    if not 0.0 <= force_n <= HUGE:
        raise negative("load", force_n, "N")
    return force_n / area_m2


def stroke_flow(area_m2: float, stroke_m: float, time_s: float) -> float:
    """Flow that moves a piston through its stroke in a time, m³/s: `Q = A s / t` (handbook).

    Also the flow a load drives out by itself, when the time is the one it takes running ahead of the pump.

    >>> round(stroke_flow(cap_area(0.080), 0.6, 5.0) * 60000, 1)
    36.2
    """
    if not TINY <= area_m2 <= HUGE:
        raise not_positive("piston area", area_m2, "m2")
    if not TINY <= stroke_m <= HUGE:
        raise not_positive("stroke", stroke_m, "m")
    if not TINY <= time_s <= HUGE:
        raise not_positive("time for the stroke", time_s, "s")
    return area_m2 * stroke_m / time_s


def load_driven_flow(area_m2: float, load_speed_m_s: float) -> float:
    """Flow a load pushes out at its own speed, m³/s: `Q = A v` (handbook); can exceed anything the pump gives.

    >>> round(load_driven_flow(cap_area(0.080), 0.25) * 60000, 1)
    75.4
    """
    if not TINY <= area_m2 <= HUGE:
        raise not_positive("piston area", area_m2, "m2")
    if not 0.0 <= load_speed_m_s <= HUGE:
        raise negative("speed of the load", load_speed_m_s, "m/s")
    return area_m2 * load_speed_m_s


def regeneration_speed(pump_flow_m3_s: float, cap_area_m2: float, rod_side_area_m2: float) -> float:
    """Piston speed with the rod side joined to the cap end, m/s: `v = Q / (A_cap - A_rod_side)`.

    The difference of the two sides is the rod's own area (handbook, Esposito ch. 9).

    >>> round(regeneration_speed(40 / 60000, 50.27e-4, 25.64e-4), 3)
    0.271
    """
    if not TINY <= rod_side_area_m2 <= HUGE:
        raise not_positive("rod-side area", rod_side_area_m2, "m2")
    if not TINY <= cap_area_m2 <= HUGE:
        raise not_positive("cap area", cap_area_m2, "m2")
    if not 0.0 <= pump_flow_m3_s <= HUGE:
        raise negative("pump flow", pump_flow_m3_s, "m3/s")
    rod = cap_area_m2 - rod_side_area_m2
    if rod < TINY:
        raise EngineeringError("the cap area is the larger one, by the area of the rod; the two may have been swapped")
    return pump_flow_m3_s / rod


def regeneration_cap_flow(pump_flow_m3_s: float, cap_area_m2: float, rod_side_area_m2: float) -> float:
    """Flow in the cap-end hose during regeneration, m³/s: `Q A_cap / A_rod` (handbook, Esposito ch. 9).

    >>> round(regeneration_cap_flow(40 / 60000, 50.27e-4, 25.64e-4) * 60000, 1)
    81.6
    """
    return regeneration_speed(pump_flow_m3_s, cap_area_m2, rod_side_area_m2) * cap_area_m2


def regeneration_rod_flow(pump_flow_m3_s: float, cap_area_m2: float, rod_side_area_m2: float) -> float:
    """Flow in the rod-end hose during regeneration, m³/s: `Q (A_cap - A_rod) / A_rod` (handbook, Esposito ch. 9).

    >>> round(regeneration_rod_flow(40 / 60000, 50.27e-4, 25.64e-4) * 60000, 1)
    41.6
    """
    return regeneration_speed(pump_flow_m3_s, cap_area_m2, rod_side_area_m2) * rod_side_area_m2


def _gas_ratio(high_abs_pa: float, low_abs_pa: float, exponent: float) -> float:
    if not TINY <= low_abs_pa <= HUGE:
        raise not_positive("lower absolute pressure of the accumulator", low_abs_pa, "Pa")
    if not TINY <= high_abs_pa <= HUGE:
        raise not_positive("higher absolute pressure of the accumulator", high_abs_pa, "Pa")
    if not 1.0 <= exponent <= 3.0:
        raise outside("gas exponent", exponent, "", 1.0, 3.0, "1 for slow, 1.4 for fast discharge of nitrogen")
    ratio = power(high_abs_pa / low_abs_pa, 1.0 / exponent)
    if ratio - 1.0 < TINY:
        raise EngineeringError(
            "an accumulator gives oil only between a higher and a lower pressure; the two are equal or swapped"
        )
    return ratio


def accumulator_delivery(
    gas_volume_m3: float, precharge_abs_pa: float, high_abs_pa: float, low_abs_pa: float, exponent: float = 1.4
) -> float:
    """Oil an accumulator gives between two pressures, m³: `V0 (p0/p_hi)^(1/n) ((p_hi/p_lo)^(1/n) - 1)`.

    Gas law p V^n = const, absolute pressures, n = 1 slow (above about 3 min), 1.4 fast (handbook). The real exponent
    of nitrogen rises above about 200 bar (memory). The precharge may not exceed the lower pressure.

    >>> round(accumulator_delivery(10e-3, 91e5, 201e5, 101e5) * 1000, 2)
    3.6
    """
    if not TINY <= gas_volume_m3 <= HUGE:
        raise not_positive("gas volume", gas_volume_m3, "m3")
    if not TINY <= precharge_abs_pa <= HUGE:
        raise not_positive("absolute precharge pressure", precharge_abs_pa, "Pa")
    ratio = _gas_ratio(high_abs_pa, low_abs_pa, exponent)
    if precharge_abs_pa > low_abs_pa:
        raise EngineeringError(
            f"the precharge ({shown(precharge_abs_pa, 'Pa')}) is above the lower working pressure "
            f"({shown(low_abs_pa, 'Pa')}); below its precharge an accumulator is empty"
        )
    return gas_volume_m3 * power(precharge_abs_pa / high_abs_pa, 1.0 / exponent) * (ratio - 1.0)


def accumulator_size(
    delivery_m3: float, precharge_abs_pa: float, high_abs_pa: float, low_abs_pa: float, exponent: float = 1.4
) -> float:
    """Gas volume that gives a delivery, m³; the gas law of `accumulator_delivery` solved for V0 (handbook).

    >>> round(accumulator_size(3.6e-3, 91e5, 201e5, 101e5) * 1000, 1)
    10.0
    """
    if not TINY <= delivery_m3 <= HUGE:
        raise not_positive("oil wanted", delivery_m3, "m3")
    share = accumulator_delivery(1.0, precharge_abs_pa, high_abs_pa, low_abs_pa, exponent)
    size = delivery_m3 / share if share > TINY else HUGE
    if size >= HUGE:
        raise too_big("size of the accumulator")
    return size


def mean_flow(volume_m3: float, time_s: float) -> float:
    """Mean flow of a discharge, m³/s: `Q = V / t`; the peak is higher, see `orifice_flow` (handbook).

    >>> round(mean_flow(3.6e-3, 2.0) * 60000, 1)
    108.0
    """
    if not 0.0 <= volume_m3 <= HUGE:
        raise negative("volume", volume_m3, "m3")
    if not TINY <= time_s <= HUGE:
        raise not_positive("time", time_s, "s")
    return volume_m3 / time_s


def orifice_flow(
    diameter_m: float, pressure_drop_pa: float, density: float, discharge_coefficient: float = 0.8
) -> float:
    """Flow through a sharp opening, m³/s: `Q = Cd A sqrt(2 dp / rho)` (handbook, Esposito ch. 8).

    Turbulent flow, incompressible. A line on an accumulator is sized for this at the full pressure drop, not for the
    pump. Cd 0.8 as in the worked example there; 0.6 for a sharp edge (memory).

    >>> round(orifice_flow(0.006, 150e5, 870.0, 0.7) * 60000, 0)
    221.0
    """
    if not TINY <= diameter_m <= HUGE:
        raise not_positive("diameter of the opening", diameter_m, "m")
    if not 0.0 <= pressure_drop_pa <= HUGE:
        raise negative("pressure drop", pressure_drop_pa, "Pa")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not 0.05 <= discharge_coefficient <= 1.0:
        raise outside("discharge coefficient", discharge_coefficient, "", 0.05, 1.0)
    return discharge_coefficient * pi * diameter_m**2 / 4.0 * sqrt(2.0 * pressure_drop_pa / density)
