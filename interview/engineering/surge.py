"""How high does the pressure rise above the steady one, cause by cause?

Each function is one cause. Which of them apply to a line, and the interval they leave, is `surge_bracket`'s question.
"""

from __future__ import annotations

from math import pi, sqrt

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown, too_big
from interview.engineering.sources import area_ratio


def _positive_pressure(what: str, value: float) -> None:
    if not TINY <= value <= HUGE:
        raise not_positive(what, value, "Pa")


# --- relief valve -----------------------------------------------------------------------------------------------------


def relief_pressure(spring_rate: float, compression: float, seat_area: float) -> float:
    """Pressure at which a direct-acting relief valve stands with its spring compressed so far, Pa: `p = k x / A`.

    At the preload x0 it cracks, at x0 plus the lift it passes full flow (handbook, Esposito ch. 8). k in N/m.

    >>> round(relief_pressure(438e3, 0.00508, 484e-6) / 1e5, 1)
    46.0
    """
    if not TINY <= spring_rate <= HUGE:
        raise not_positive("spring rate", spring_rate, "N/m")
    if not 0.0 <= compression <= HUGE:
        raise negative("compression of the spring", compression, "m")
    if not TINY <= seat_area <= HUGE:
        raise not_positive("area of the valve seat", seat_area, "m2")
    return spring_rate * compression / seat_area


def relief_peak(setting: float, override: float) -> float:
    """Pressure at full flow through a relief valve, Pa: `p = p_set (1 + override)`.

    Override as a share: pilot-operated 0.05 to 0.15, direct-acting 0.20 to 0.50 (memory; the worked example of
    Esposito 8-1 has 0.50, handbook). A setting given at full flow already contains it.

    >>> round(relief_peak(210e5, 0.15) / 1e5, 1)
    241.5
    """
    if not TINY <= setting <= HUGE:
        raise not_positive("relief setting", setting, "Pa")
    if not 0.0 <= override <= 2.0:
        raise outside("override", override, "", 0.0, 2.0, "a share, 0.15 for 15 %")
    return setting * (1.0 + override)


# --- water hammer -----------------------------------------------------------------------------------------------------


def effective_modulus(
    oil_modulus: float, container_modulus: float, gas_share: float = 0.0, absolute_pressure: float = 1e5
) -> float:
    """Bulk modulus of oil in its container, Pa: `1/K = 1/K_oil + 1/K_container + x/(1.4 p)`.

    x is the share of undissolved gas by volume at the absolute pressure p (handbook).

    >>> round(effective_modulus(1.4e9, 0.4e9) / 1e9, 4)
    0.3111
    """
    if not TINY <= oil_modulus <= HUGE:
        raise not_positive("bulk modulus of the oil", oil_modulus, "Pa")
    if not TINY <= container_modulus <= HUGE:
        raise not_positive("modulus of the hose or tube", container_modulus, "Pa")
    if not 0.0 <= gas_share <= 0.5:
        raise outside("share of undissolved gas", gas_share, "", 0.0, 0.5, "a share, 0.01 for 1 %")
    if not TINY <= absolute_pressure <= HUGE:
        raise not_positive("absolute pressure", absolute_pressure, "Pa")
    return 1.0 / (1.0 / oil_modulus + 1.0 / container_modulus + gas_share / (1.4 * absolute_pressure))


def wave_speed(modulus: float, density: float) -> float:
    """Speed of a pressure wave, m/s: `c = sqrt(K / rho)` with the effective modulus (handbook).

    >>> round(wave_speed(effective_modulus(1.4e9, 0.4e9), 870.0))
    598
    """
    if not TINY <= modulus <= HUGE:
        raise not_positive("bulk modulus", modulus, "Pa")
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    return sqrt(modulus / density)


def hose_modulus(bore_m: float, expansion_m3_per_m: float, pressure: float) -> float:
    """Modulus of a hose from its volumetric expansion, Pa: `K = V0 dp / dV` (ISO 6801 gives the test; handbook).

    No standard gives figures for wire-reinforced hydraulic hose; MIL-DTL-13719G limits brake hose to 64 MPa.

    >>> round(hose_modulus(0.00635, 3.41e-6, 6.894757e6) / 1e6, 1)
    64.0
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not TINY <= expansion_m3_per_m <= HUGE:
        raise not_positive("volumetric expansion per metre", expansion_m3_per_m, "m³/m")
    _positive_pressure("pressure of the expansion test", pressure)
    return pi * bore_m**2 / 4.0 * pressure / expansion_m3_per_m


def tube_modulus(youngs_modulus: float, wall_m: float, diameter_m: float) -> float:
    """Modulus of a thin metal tube, Pa: `K = E t / D` (handbook); wall at most a fifth of D (our own bound).

    >>> round(tube_modulus(206e9, 0.002, 0.016) / 1e9, 1)
    25.8
    """
    if not TINY <= youngs_modulus <= HUGE:
        raise not_positive("modulus of elasticity", youngs_modulus, "Pa")
    if not TINY <= diameter_m <= HUGE:
        raise not_positive("diameter of the tube", diameter_m, "m")
    if not TINY <= wall_m <= 0.2 * diameter_m:
        raise outside("wall of the tube", wall_m, "m", 0.0, 0.2 * diameter_m, "the formula is for thin walls")
    return youngs_modulus * wall_m / diameter_m


def joukowsky(density: float, speed_of_wave: float, velocity_change: float) -> float:
    """Rise when a flow is stopped faster than the wave returns, Pa: `dp = rho c dv` (Joukowsky; handbook).

    Holds for a closing time up to 2 L / c; the upper bound for any slower one.

    >>> round(joukowsky(870.0, 600.0, 7.894) / 1e5, 1)
    41.2
    """
    rise = density * speed_of_wave * velocity_change
    # the good case first: guards on both sides of each input cost more than the formula
    if density >= TINY and speed_of_wave >= TINY and velocity_change >= 0.0 and rise <= HUGE:
        return rise
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not TINY <= speed_of_wave <= HUGE:
        raise not_positive("wave speed", speed_of_wave, "m/s")
    if not 0.0 <= velocity_change <= HUGE:
        raise negative("change of velocity", velocity_change, "m/s")
    raise too_big("water hammer")


def closure(
    density: float, speed_of_wave: float, velocity_change: float, length_m: float, closing_time_s: float
) -> float:
    """Rise when a valve closes in a given time, Pa: Joukowsky's up to 2 L/c, then reduced by (2 L/c)/t (handbook).

    The reduction is the usual first approximation for a slower, even closure (Daugherty & Franzini ch. 13).

    >>> round(closure(870.0, 600.0, 7.894, 3.0, 0.005) / 1e5, 1)
    41.2
    >>> round(closure(870.0, 600.0, 7.894, 3.0, 0.050) / 1e5, 1)
    8.2
    """
    full = joukowsky(density, speed_of_wave, velocity_change)
    if not TINY <= length_m <= HUGE:
        raise not_positive("length of the line", length_m, "m")
    if not TINY <= closing_time_s <= HUGE:
        raise EngineeringError(
            f"the closing time is {shown(closing_time_s, 's')}; no valve closes in no time, so give the seconds its "
            "spool takes (0.02 to 0.1 s for a solenoid, from memory), or leave it unknown and the full hammer is taken"
        )
    return full * min(1.0, 2.0 * length_m / speed_of_wave / closing_time_s)


# --- cylinders and masses ---------------------------------------------------------------------------------------------


def rod_side_pressure(cap_pressure: float, cap_area: float, rod_side_area: float, load: float = 0.0) -> float:
    """Pressure on the rod side of a cylinder held back on that side, Pa: `(p A_cap - F) / A_rod_side` (handbook).

    F in newton resists the motion when positive and pulls when negative.

    >>> round(rod_side_pressure(100e5, 50e-4, 25e-4, 10e3) / 1e5)
    160
    """
    if not 0.0 <= cap_pressure <= HUGE:
        raise negative("pressure on the cap side", cap_pressure, "Pa")
    if not TINY <= cap_area <= HUGE:
        raise not_positive("cap area", cap_area, "m2")
    if not TINY <= rod_side_area <= HUGE:
        raise not_positive("rod-side area", rod_side_area, "m2")
    if rod_side_area >= cap_area:
        raise EngineeringError("the rod-side area has to be smaller than the cap area; the two may have been swapped")
    if not -HUGE <= load <= HUGE:
        raise outside("load", load, "N", -HUGE, HUGE)
    return max((cap_pressure * cap_area - load) / rod_side_area, 0.0)


def blocked_rod_side(cap_pressure: float, bore_m: float, rod_m: float) -> float:
    """Pressure of a rod side that cannot empty while the cap end is fed, Pa: `p D² / (D² - d²)` (handbook).

    >>> round(blocked_rod_side(210e5, 0.080, 0.056) / 1e5, 1)
    411.8
    """
    if not 0.0 <= cap_pressure <= HUGE:
        raise negative("pressure on the cap side", cap_pressure, "Pa")
    return cap_pressure * area_ratio(bore_m, rod_m)


def moving_mass(mass_kg: float, speed_m_s: float, oil_volume_m3: float, modulus: float) -> float:
    """Rise when trapped oil stops a mass, Pa: `dp = v sqrt(m K / V)`, from m v²/2 = dp² V / (2 K) (derived).

    >>> round(moving_mass(1000.0, 0.2, 2e-3, 0.7e9) / 1e5, 1)
    37.4
    """
    if not 0.0 <= mass_kg <= HUGE:
        raise negative("mass", mass_kg, "kg")
    if not 0.0 <= speed_m_s <= HUGE:
        raise negative("speed of the mass", speed_m_s, "m/s")
    if not TINY <= oil_volume_m3 <= HUGE:
        raise not_positive("volume of the trapped oil", oil_volume_m3, "m3")
    if not TINY <= modulus <= HUGE:
        raise not_positive("bulk modulus", modulus, "Pa")
    return speed_m_s * sqrt(mass_kg * modulus / oil_volume_m3)


def cushion_pressure(
    mass_kg: float, deceleration: float, drive_pressure: float, piston_area: float, cushion_area: float, friction: float
) -> float:
    """Mean pressure in a cylinder's cushion, Pa: `(m a + p1 A - F_friction) / (A - A_cushion)`.

    The piston is pushed on by p1 over the full area and stopped by the ring around the spear (handbook, Esposito 6-6).

    >>> round(cushion_pressure(680.0, 18.0, 51.7e5, 45.6e-4, 5.07e-4, 800.0) / 1e5)
    86
    """
    if not 0.0 <= mass_kg <= HUGE:
        raise negative("mass", mass_kg, "kg")
    if not 0.0 <= deceleration <= HUGE:
        raise negative("deceleration", deceleration, "m/s²")
    if not 0.0 <= drive_pressure <= HUGE:
        raise negative("driving pressure", drive_pressure, "Pa")
    if not TINY <= piston_area <= HUGE:
        raise not_positive("piston area", piston_area, "m2")
    if not TINY <= cushion_area <= HUGE:
        raise not_positive("area of the cushion spear", cushion_area, "m2")
    if not 0.0 <= friction <= HUGE:
        raise negative("friction force", friction, "N")
    ring = piston_area - cushion_area
    if ring < TINY:
        raise EngineeringError("the cushion spear has to be thinner than the piston; check the two areas")
    return max((mass_kg * deceleration + drive_pressure * piston_area - friction) / ring, 0.0)


def stopping_deceleration(speed_m_s: float, distance_m: float) -> float:
    """Even deceleration over a distance, m/s²: `a = v² / (2 s)`.

    >>> round(stopping_deceleration(0.5, 0.02), 2)
    6.25
    """
    if not 0.0 <= speed_m_s <= HUGE:
        raise negative("speed", speed_m_s, "m/s")
    if not TINY <= distance_m <= HUGE:
        raise not_positive("stopping distance", distance_m, "m")
    return speed_m_s**2 / (2.0 * distance_m)


def intensified_pressure(pressure: float, ratio: float) -> float:
    """Outlet pressure of an intensifier, Pa: `p2 = p1 ratio`, its flow falling by the same ratio (handbook).

    >>> round(intensified_pressure(35e5, 5.0) / 1e5)
    175
    """
    if not 0.0 <= pressure <= HUGE:
        raise negative("pressure", pressure, "Pa")
    if not 1.0 <= ratio <= 1000.0:
        raise outside("area ratio of the intensifier", ratio, "", 1.0, 1000.0)
    return pressure * ratio


def intensified_flow(flow_m3_s: float, ratio: float) -> float:
    """Outlet flow of an intensifier, m³/s: `Q2 = Q1 / ratio` (handbook).

    >>> round(intensified_flow(20 / 60000, 5.0) * 60000, 3)
    4.0
    """
    if not 0.0 <= flow_m3_s <= HUGE:
        raise negative("flow", flow_m3_s, "m3/s")
    if not 1.0 <= ratio <= 1000.0:
        raise outside("area ratio of the intensifier", ratio, "", 1.0, 1000.0)
    return flow_m3_s / ratio


# --- trapped oil ------------------------------------------------------------------------------------------------------


def trapped_oil(
    temperature_rise_k: float, expansion_per_k: float, oil_modulus: float, container_modulus: float | None = None
) -> float:
    """Rise in oil shut in and warmed, Pa: `dp = alpha dT / (1/K_oil + 1/K_container)`; rigid where none is given.

    Mineral oil: alpha 0.0007/K (Rabie p. 37, handbook). In rigid lines about 11 bar per kelvin (practice, good to
    half); in hose a few bar per kelvin. Linear, for rises of some tens of kelvin.

    >>> round(trapped_oil(1.0, 0.0007, 1.6e9) / 1e5, 1)
    11.2
    >>> round(trapped_oil(1.0, 0.0007, 1.6e9, 0.4e9) / 1e5, 2)
    2.24
    """
    if not 0.0 <= temperature_rise_k <= 500.0:
        raise outside("rise in temperature", temperature_rise_k, "K", 0.0, 500.0)
    if not 0.0 <= expansion_per_k <= 0.1:
        raise outside("expansion per kelvin", expansion_per_k, "/K", 0.0, 0.1)
    if container_modulus is None:
        if not TINY <= oil_modulus <= HUGE:
            raise not_positive("bulk modulus of the oil", oil_modulus, "Pa")
        return expansion_per_k * temperature_rise_k * oil_modulus
    return expansion_per_k * temperature_rise_k * effective_modulus(oil_modulus, container_modulus)


def compressed_volume_change(volume_m3: float, pressure_change: float, modulus: float) -> float:
    """Change of an oil volume under pressure, m³, negative when it is compressed: `dV = -V dp / K` (handbook).

    >>> round(compressed_volume_change(1.0e-3, 200e5, 1.6e9) * 1e6, 1)
    -12.5
    """
    if not 0.0 <= volume_m3 <= HUGE:
        raise negative("volume", volume_m3, "m3")
    if not -HUGE <= pressure_change <= HUGE:
        raise outside("change of pressure", pressure_change, "Pa", -HUGE, HUGE)
    if not TINY <= modulus <= HUGE:
        raise not_positive("bulk modulus", modulus, "Pa")
    change = -volume_m3 * pressure_change / modulus
    if abs(change) > volume_m3:
        raise too_big("change of volume")
    return change
