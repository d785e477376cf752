"""How fast does the fluid run in a bore, which bore does a flow need, and what does a pump or motor pass?"""

from __future__ import annotations

from math import pi, sqrt

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, too_big


def velocity(flow_m3_s: float, bore_m: float) -> float:
    """Mean velocity in a full line, m/s: `v = 4 Q / (pi d²)`.

    Q in m³/s, d the true bore in m (not the nominal size). Continuity, exact for any fluid in a full pipe (handbook).
    Same as 21.2207·Q[L/min]/d[mm]² and 0.4085·Q[US gpm]/d[in]².

    >>> round(velocity(60 / 60000, 0.0127), 3)
    7.894
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 0.0 <= flow_m3_s <= HUGE:
        raise negative("flow", flow_m3_s, "m3/s")
    return 4.0 * flow_m3_s / (pi * bore_m * bore_m)


def bore_for(flow_m3_s: float, velocity_m_s: float) -> float:
    """Bore at which a flow runs at a given velocity, m: `d = sqrt(4 Q / (pi v))`.

    Continuity solved for d (handbook). The least standard bore not below it is the size to take.

    >>> round(bore_for(60 / 60000, 6.0) * 1000, 2)
    14.57
    """
    if not TINY <= velocity_m_s <= HUGE:
        raise not_positive("velocity", velocity_m_s, "m/s")
    if not 0.0 <= flow_m3_s <= HUGE:
        raise negative("flow", flow_m3_s, "m3/s")
    return sqrt(4.0 * flow_m3_s / (pi * velocity_m_s))


def flow_at(velocity_m_s: float, bore_m: float) -> float:
    """Flow that gives a velocity in a bore, m³/s: `Q = v pi d² / 4`; the threshold to ask about (handbook).

    >>> round(flow_at(6.0, 0.0127) * 60000, 1)
    45.6
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 0.0 <= velocity_m_s <= HUGE:
        raise negative("velocity", velocity_m_s, "m/s")
    return velocity_m_s * pi * bore_m * bore_m / 4.0


def _machine_slip(displacement_m3: float, speed_rev_s: float, volumetric_efficiency: float) -> EngineeringError:
    """What is wrong with the plate of a pump or motor."""
    if not TINY <= displacement_m3 <= HUGE:
        return not_positive("displacement", displacement_m3, "m3/rev")
    if not 0.0 <= speed_rev_s <= HUGE:
        return negative("speed", speed_rev_s, "rev/s")
    if not 0.05 <= volumetric_efficiency <= 1.0:
        return outside("volumetric efficiency", volumetric_efficiency, "", 0.05, 1.0, "a share, 0.9 for 90 %")
    return too_big("flow")


def pump_flow(displacement_m3: float, speed_rev_s: float, volumetric_efficiency: float = 1.0) -> float:
    """Flow a pump delivers, m³/s: `Q = V n eta`, V per revolution in m³, n in rev/s (handbook).

    The efficiency left at 1 is the careful choice for sizing a line.

    >>> round(pump_flow(28e-6, 1500 / 60, 0.95) * 60000, 1)
    39.9
    """
    flow = displacement_m3 * speed_rev_s * volumetric_efficiency
    if (
        displacement_m3 < TINY
        or speed_rev_s < 0.0
        or volumetric_efficiency < 0.05
        or volumetric_efficiency > 1.0
        or not flow <= HUGE  # also where one of the three is NaN
    ):
        raise _machine_slip(displacement_m3, speed_rev_s, volumetric_efficiency)
    return flow


def motor_flow(displacement_m3: float, speed_rev_s: float, volumetric_efficiency: float = 0.9) -> float:
    """Flow a motor needs, m³/s: `Q = V n / eta` (handbook); 0.9 where the plate gives none (practice).

    >>> round(motor_flow(100e-6, 600 / 60, 0.9) * 60000, 1)
    66.7
    """
    if (
        displacement_m3 < TINY
        or speed_rev_s < 0.0
        or not 0.05 <= volumetric_efficiency <= 1.0
        or not displacement_m3 * speed_rev_s <= HUGE
    ):
        raise _machine_slip(displacement_m3, speed_rev_s, volumetric_efficiency)
    return displacement_m3 * speed_rev_s / volumetric_efficiency


def gear_displacement(outside_diameter_m: float, inside_diameter_m: float, width_m: float) -> float:
    """Displacement of an external gear pump, m³/rev: `V = pi/4 (Do² - Di²) L` (handbook, Esposito ch. 5).

    Do is the outside diameter of the gear teeth, Di the inside one, L the width; for a pump without a readable plate.

    >>> round(gear_displacement(0.075, 0.050, 0.025) * 1e6, 1)
    61.4
    """
    if not TINY <= inside_diameter_m <= HUGE:
        raise not_positive("inside diameter of the gear", inside_diameter_m, "m")
    if not TINY <= outside_diameter_m <= HUGE:
        raise not_positive("outside diameter of the gear", outside_diameter_m, "m")
    if not TINY <= width_m <= HUGE:
        raise not_positive("width of the gear", width_m, "m")
    if inside_diameter_m >= outside_diameter_m:
        raise EngineeringError(
            "the inside diameter of a gear is smaller than its outside diameter; the two may have been swapped"
        )
    return pi / 4.0 * (outside_diameter_m**2 - inside_diameter_m**2) * width_m
