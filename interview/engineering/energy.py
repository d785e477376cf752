"""What is stored in the line, and with what force does it come apart?"""

from __future__ import annotations

from math import pi

from interview.engineering.errors import HUGE, TINY, negative, not_positive, outside


def volume(bore_m: float, length_m: float) -> float:
    """Fluid in a line, m³: `pi d² L / 4`.

    >>> round(volume(0.0127, 1.0) * 1000, 4)
    0.1267
    """
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 0.0 <= length_m <= HUGE:
        raise negative("length of the line", length_m, "m")
    return pi * bore_m * bore_m * length_m / 4.0


def stored_energy(pressure: float, volume_m3: float, oil_modulus: float, hose_modulus: float) -> float:
    """Energy in oil and hose under pressure, J: `p² V / 2 (1/K_oil + 1/K_hose)` (derived).

    Undissolved gas or an accumulator, where there is one, holds far more.

    >>> round(stored_energy(280e5, volume(0.0254, 2.0), 1.4e9, 0.4e9))
    1277
    """
    if not 0.0 <= pressure <= HUGE:
        raise negative("pressure", pressure, "Pa")
    if not 0.0 <= volume_m3 <= HUGE:
        raise negative("volume", volume_m3, "m3")
    if not TINY <= oil_modulus <= HUGE:
        raise not_positive("bulk modulus of the oil", oil_modulus, "Pa")
    if not TINY <= hose_modulus <= HUGE:
        raise not_positive("modulus of the hose", hose_modulus, "Pa")
    return pressure * pressure * volume_m3 / 2.0 * (1.0 / oil_modulus + 1.0 / hose_modulus)


def end_thrust(pressure: float, diameter_m: float) -> float:
    """Force that pushes a hose end off, N: `p pi d² / 4` (derived).

    d is the insert's sealing diameter, the bore at least; the hose's outside diameter gives an upper bound.

    >>> round(end_thrust(280e5, 0.0254))
    14188
    """
    if not 0.0 <= pressure <= HUGE:
        raise negative("pressure", pressure, "Pa")
    if not TINY <= diameter_m <= HUGE:
        raise not_positive("diameter", diameter_m, "m")
    return pressure * pi * diameter_m * diameter_m / 4.0


def jet_from_pressure(pressure: float, bore_m: float, discharge_coefficient: float = 0.8) -> float:
    """Reaction of an open end while the pressure lasts, N: `2 C p A` (derived; C memory); behind it an accumulator.

    >>> round(jet_from_pressure(200e5, 0.0127))
    4054
    """
    if not 0.05 <= discharge_coefficient <= 1.0:
        raise outside("discharge coefficient", discharge_coefficient, "", 0.05, 1.0)
    return 2.0 * discharge_coefficient * end_thrust(pressure, bore_m)


def jet_from_flow(density: float, flow: float, bore_m: float) -> float:
    """Steady reaction of an open end fed by the pump alone, N: `rho Q² / A` (derived).

    >>> round(jet_from_flow(870.0, 100 / 60000, 0.0254), 2)
    4.77
    """
    if not TINY <= density <= HUGE:
        raise not_positive("density", density, "kg/m³")
    if not 0.0 <= flow <= HUGE:
        raise negative("flow", flow, "m3/s")
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    return density * flow * flow * 4.0 / (pi * bore_m * bore_m)
