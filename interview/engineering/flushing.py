"""How hard must a line be flushed to come clean? Turbulent flow in every part of it (ISO 23309)."""

from __future__ import annotations

from math import pi

from interview.engineering.errors import HUGE, TINY, not_positive, outside

RE_NEEDED = 4000.0  # ISO 23309 (standard, preview); other guidance is content with 3000


def flushing_velocity(viscosity_m2_s: float, bore_m: float, re: float = RE_NEEDED) -> float:
    """Velocity above which flow is turbulent, m/s: `Re nu / d` (ISO 23309, standard); = 4 nu[mm²/s]/d[mm].

    >>> round(flushing_velocity(46e-6, 0.0254), 3)
    7.244
    """
    if not TINY <= viscosity_m2_s <= HUGE:
        raise not_positive("viscosity", viscosity_m2_s, "m2/s")
    if not TINY <= bore_m <= HUGE:
        raise not_positive("bore", bore_m, "m")
    if not 2000.0 <= re <= 1e6:
        raise outside("Reynolds number for flushing", re, "", 2000.0, 1e6)
    return re * viscosity_m2_s / bore_m


def flushing_flow(viscosity_m2_s: float, bore_m: float, re: float = RE_NEEDED) -> float:
    """Flow above which flow is turbulent, m³/s: `Re nu pi d / 4` (ISO 23309, standard); L/min = 0.1885 nu d.

    >>> round(flushing_flow(46e-6, 0.0254) * 60000, 1)
    220.2
    """
    return flushing_velocity(viscosity_m2_s, bore_m, re) * pi * bore_m * bore_m / 4.0
