"""How thick is the oil at a temperature, and how dense?

Viscosities are kinematic, in m²/s (1 mm²/s = 1 cSt = 1e-6 m²/s). An oil is known by two points of its viscosity, or by
its ISO grade and viscosity index. Water-based fluids do not follow these curves.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from functools import lru_cache
from math import exp, log, log10
from math import pow as power

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown
from interview.engineering.ranges import Bracket, Interval, Sign, bracket
from interview.engineering.viscosity_index_table import AT_100, INDEX_0, INDEX_100

D341_LOW, D341_HIGH = 2e-6, 20.0  # m²/s, the range in which ASTM D341's straight line holds
GRADE_BAND = 0.10  # ISO 3448: the grade is the middle of a band of +-10 % at 40 °C (restated)
BARUS_LOW, BARUS_HIGH = 1.5e-8, 2.4e-8  # 1/Pa, mineral oil (memory)
OIL_EXPANSION = 0.0007  # per kelvin, mineral oil (Rabie p. 37, handbook)
ZERO_C = 273.15
_COLDEST, _HOTTEST = -70.0, 250.0  # our own bound: no hydraulic oil is at work beyond, what lies there is a slip
_LOG_LOW, _LOG_HIGH = log10(log10(D341_LOW * 1e6 + 0.7)), log10(log10(D341_HIGH * 1e6 + 0.7))


def _walther(viscosity_m2_s: float) -> float:
    if not D341_LOW <= viscosity_m2_s <= D341_HIGH:
        raise outside("viscosity", viscosity_m2_s, "m2/s", D341_LOW, D341_HIGH, "ASTM D341, mineral oil")
    return log10(log10(viscosity_m2_s * 1e6 + 0.7))


def _check_temperature(temperature_c: float) -> None:
    if not _COLDEST <= temperature_c <= _HOTTEST:
        raise outside("oil temperature", temperature_c, "°C", _COLDEST, _HOTTEST)


def walther_constants(
    t1_c: float, viscosity1_m2_s: float, t2_c: float, viscosity2_m2_s: float, zero_c: float = ZERO_C
) -> tuple[float, float]:
    """A and B of `log10 log10(v + 0.7) = A - B log10 T` through two points (ASTM D341, restated).

    v in mm²/s inside the formula, T in kelvin. Valid from 2 to 2e7 mm²/s for mineral oils, not near the pour point.
    Some worksheets take 273 for the zero; that shifts A and B in the third decimal and the viscosity by under 0.1 %.

    >>> [round(x, 4) for x in walther_constants(40.0, 32e-6, 100.0, 5.4e-6, zero_c=273.0)]
    [9.5259, 3.7449]
    """
    _check_temperature(t1_c)
    _check_temperature(t2_c)
    if not 270.0 <= zero_c <= 275.0:
        raise outside("zero of the Celsius scale", zero_c, "K", 270.0, 275.0)
    if abs(t2_c - t1_c) < 1.0:
        raise EngineeringError("the two temperatures are (nearly) the same; two points lie apart, as 40 and 100 °C")
    w1, w2 = _walther(viscosity1_m2_s), _walther(viscosity2_m2_s)
    if (w1 - w2) * (t2_c - t1_c) <= 0.0:
        raise EngineeringError("the oil would not get thinner when warmer; the two viscosities may have been swapped")
    x1 = log10(t1_c + zero_c)
    slope = (w1 - w2) / (log10(t2_c + zero_c) - x1)
    return w1 + slope * x1, slope


def _on_line(constant: float, slope: float, temperature_c: float, zero_c: float) -> float:
    w = constant - slope * log10(temperature_c + zero_c)
    if not _LOG_LOW <= w <= _LOG_HIGH:
        thick = "thicker than 2e7" if w > _LOG_HIGH else "thinner than 2"
        raise EngineeringError(
            f"at {temperature_c:.4g} °C this oil would be {thick} mm²/s, outside the range of ASTM D341; "
            "the temperature or the grade must be another"
        )
    return (power(10.0, power(10.0, w)) - 0.7) * 1e-6


def between(
    temperature_c: float,
    t1_c: float,
    viscosity1_m2_s: float,
    t2_c: float,
    viscosity2_m2_s: float,
    zero_c: float = ZERO_C,
) -> float:
    """Viscosity at a temperature from two known points, m²/s (ASTM D341, restated; range as `walther_constants`).

    >>> round(between(60.0, 40.0, 404e-6, 100.0, 28e-6) * 1e6, 3)
    132.126
    """
    _check_temperature(temperature_c)
    constant, slope = walther_constants(t1_c, viscosity1_m2_s, t2_c, viscosity2_m2_s, zero_c)
    return _on_line(constant, slope, temperature_c, zero_c)


def _basic_values(at_100: float) -> tuple[float, float]:
    """L and H in mm²/s for a viscosity at 100 °C in mm²/s."""
    if at_100 >= AT_100[-1]:
        return (
            0.8353 * at_100 * at_100 + 14.67 * at_100 - 216.0,
            0.1684 * at_100 * at_100 + 11.85 * at_100 - 97.0,
        )
    i = bisect_right(AT_100, at_100)
    share = (at_100 - AT_100[i - 1]) / (AT_100[i] - AT_100[i - 1])
    return (
        INDEX_0[i - 1] + share * (INDEX_0[i] - INDEX_0[i - 1]),
        INDEX_100[i - 1] + share * (INDEX_100[i] - INDEX_100[i - 1]),
    )


def viscosity_index(viscosity_40_m2_s: float, viscosity_100_m2_s: float) -> float:
    """Viscosity index from the viscosities at 40 and 100 °C (ASTM D2270, ISO 2909, restated).

    Up to 100: `100 (L - U) / (L - H)`; above: `(10^N - 1) / 0.00715 + 100`, `N = (log H - log U) / log Y`.
    U at 40 °C, Y at 100 °C, at least 2 mm²/s.

    >>> round(viscosity_index(73.30e-6, 8.86e-6)), round(viscosity_index(22.83e-6, 5.05e-6))
    (92, 156)
    """
    if not 2e-6 <= viscosity_100_m2_s <= 2e-3:
        raise outside("viscosity at 100 °C", viscosity_100_m2_s, "m2/s", 2e-6, 2e-3, "the range of ASTM D2270")
    if not viscosity_100_m2_s < viscosity_40_m2_s <= 0.1:
        raise outside("viscosity at 40 °C", viscosity_40_m2_s, "m2/s", viscosity_100_m2_s, 0.1, "more than hot")
    thin, thick = viscosity_100_m2_s * 1e6, viscosity_40_m2_s * 1e6
    low, high = _basic_values(thin)
    return index_from_basic(thick, low, high, thin)


def index_from_basic(at_40: float, basic_l: float, basic_h: float, at_100: float) -> float:
    """Viscosity index from the standard's own basic values, all in mm²/s (ASTM D2270, restated).

    >>> round(index_from_basic(73.30, 119.94, 69.48, 8.86), 2)
    92.43
    """
    for what, value in (("viscosity at 40 °C", at_40), ("basic value L", basic_l), ("basic value H", basic_h)):
        if not TINY <= value <= HUGE:
            raise not_positive(what, value, "mm²/s")
    if not 2.0 <= at_100 <= 1e4:
        raise outside("viscosity at 100 °C", at_100, "mm²/s", 2.0, 1e4)
    if at_40 > basic_h:
        if basic_l - basic_h < TINY:
            raise EngineeringError("the basic value L of ASTM D2270 is larger than H; the two may have been swapped")
        return 100.0 * (basic_l - at_40) / (basic_l - basic_h)
    exponent = log(basic_h / at_40) / log(at_100)
    if exponent > 2.0:
        raise EngineeringError("the viscosity at 40 °C is far too low for the one at 100 °C; no oil is that flat")
    return (power(10.0, exponent) - 1.0) / 0.00715 + 100.0


@lru_cache(maxsize=512)
def at_100_for(vg: float, vi: float) -> float:
    """Viscosity at 100 °C of an oil of so many mm²/s at 40 °C and a viscosity index, m²/s (ASTM D2270 inverted).

    >>> round(at_100_for(46.0, 100.0) * 1e6, 2)
    6.76
    """
    if not 2.2 <= vg <= 3600.0:
        raise outside("ISO viscosity grade", vg, "", 2.2, 3600.0, "ISO 3448 runs from VG 2 to VG 3200")
    if not 0.0 <= vi <= 400.0:
        raise outside("viscosity index", vi, "", 0.0, 400.0, "95 to 100 for mineral oil, 140 and more for multigrade")
    exponent = log10(1.0 + 0.00715 * (vi - 100.0)) if vi > 100.0 else 0.0

    def at_40(at_100: float) -> float:
        basic_l, basic_h = _basic_values(at_100)
        if vi > 100.0:
            return basic_h / power(at_100, exponent)
        return basic_l - vi / 100.0 * (basic_l - basic_h)

    low, high = 2.0, 400.0
    if at_40(low) > vg:
        raise EngineeringError(
            f"an oil of VG {vg:.4g} with a viscosity index of {vi:.4g} is thinner than 2 mm²/s at 100 °C, "
            "where ASTM D2270 ends; take two points from its data sheet"
        )
    for _ in range(60):
        middle = (low + high) / 2.0
        if at_40(middle) < vg:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0 * 1e-6


@lru_cache(maxsize=512)
def _constants(vg: float, vi: float) -> tuple[float, float]:
    return walther_constants(40.0, vg * 1e-6, 100.0, at_100_for(vg, vi))


def at(
    temperature_c: float,
    vg: float,
    vi: float,
    pour_point_c: float | None = None,
    flash_point_c: float | None = None,
) -> float:
    """Viscosity at a temperature of an oil of ISO grade `vg` and viscosity index `vi`, m²/s.

    ASTM D2270 inverted for the second point, then ASTM D341 (both restated). The grade is the middle of a band of
    +-10 %: carry it as an interval. Below the pour point there is no viscosity to state, above the flash point no duty.

    >>> [round(at(t, 46, 100) * 1e6, 1) for t in (-10.0, 20.0, 40.0, 80.0)]
    [1502.8, 134.5, 46.0, 11.1]
    """
    if not _COLDEST <= temperature_c <= _HOTTEST:
        raise outside("oil temperature", temperature_c, "°C", _COLDEST, _HOTTEST)
    if pour_point_c is not None and not -100.0 <= pour_point_c <= 100.0:
        raise outside("pour point", pour_point_c, "°C", -100.0, 100.0)
    if flash_point_c is not None and not 40.0 <= flash_point_c <= 500.0:
        raise outside("flash point", flash_point_c, "°C", 40.0, 500.0)
    if pour_point_c is not None and temperature_c < pour_point_c:
        raise EngineeringError(
            f"{temperature_c:.4g} °C is below the oil's pour point of {pour_point_c:.4g} °C; it does not flow there, "
            "so the oil is warmed first or another grade is used"
        )
    if flash_point_c is not None and temperature_c > flash_point_c:
        raise EngineeringError(
            f"{temperature_c:.4g} °C is above the oil's flash point of {flash_point_c:.4g} °C; no system runs there"
        )
    constant, slope = _constants(vg, vi)
    return _on_line(constant, slope, temperature_c, ZERO_C)


# Warmer is thinner; a higher index is thinner below 40 °C and thicker above it, so both ends are tried.
AT_SIGNS: Mapping[str, Sign] = {"temperature_c": "-", "vg": "+", "vi": "?"}


def at_range(temperature_c: float | Interval, vg: float | Interval, vi: float | Interval) -> Bracket:
    """Least and most viscosity when temperature, grade (in mm²/s at 40 °C) or index is a range, m²/s; see `at`.

    >>> found = at_range(Interval(-10.0, 50.0), Interval(41.4, 50.6), Interval(90.0, 160.0))
    >>> round(found.low * 1e6, 1), round(found.high * 1e6)
    (26.9, 1988)
    """
    return bracket(at, AT_SIGNS, temperature_c=temperature_c, vg=vg, vi=vi)


def grade_band(vg: float) -> tuple[float, float]:
    """Least and most viscosity at 40 °C of an ISO grade, m²/s: +-10 % (ISO 3448, restated).

    >>> [round(v * 1e6, 1) for v in grade_band(46)]
    [41.4, 50.6]
    """
    if not 1.0 <= vg <= 3600.0:
        raise outside("ISO viscosity grade", vg, "", 1.0, 3600.0)
    return vg * (1.0 - GRADE_BAND) * 1e-6, vg * (1.0 + GRADE_BAND) * 1e-6


def from_ssu(ssu: float) -> float:
    """Viscosity from Saybolt seconds universal, m²/s: 0.220 S - 135/S from 100 up, 0.226 S - 195/S from 32 (handbook).

    Within 2 % of the tables of ASTM D2161.

    >>> round(from_ssu(230.0) * 1e6, 1)
    50.0
    """
    if not 32.0 <= ssu <= 1e6:
        raise outside("viscosity in Saybolt seconds", ssu, "SSU", 32.0, 1e6, "below 32 the scale does not reach")
    if ssu >= 100.0:
        return (0.220 * ssu - 135.0 / ssu) * 1e-6
    return (0.226 * ssu - 195.0 / ssu) * 1e-6


def under_pressure(viscosity_m2_s: float, pressure: float, coefficient: float = BARUS_HIGH) -> float:
    """Viscosity under pressure, m²/s: Barus `v e^(alpha p)`, alpha 1.5 to 2.4e-8 per Pa (memory).

    An upper bound for pressure lines up to about 1000 bar (memory).

    >>> round(under_pressure(46e-6, 200e5, BARUS_LOW) / 46e-6, 2)
    1.35
    """
    if not TINY <= viscosity_m2_s <= HUGE:
        raise not_positive("viscosity", viscosity_m2_s, "m2/s")
    if not 0.0 <= pressure <= 5e8:
        raise outside("pressure", pressure, "Pa", 0.0, 5e8)
    if not 0.0 <= coefficient <= 1e-7:
        raise outside("pressure coefficient of viscosity", coefficient, "1/Pa", 0.0, 1e-7)
    return viscosity_m2_s * exp(coefficient * pressure)


def density(temperature_c: float, density_15: float, expansion: float = OIL_EXPANSION) -> float:
    """Density at a temperature, kg/m³: `rho15 (1 - alpha (t - 15))`, alpha 0.0007/K for mineral oil (handbook, Rabie).

    >>> round(density(60.0, 870.0), 1)
    842.6
    """
    _check_temperature(temperature_c)
    if not TINY <= density_15 <= HUGE:
        raise not_positive("density", density_15, "kg/m³")
    if not 0.0 <= expansion <= 0.003:
        raise outside("expansion per kelvin", expansion, "/K", 0.0, 0.003)
    return density_15 * (1.0 - expansion * (temperature_c - 15.0))


def density_under_pressure(density_kg_m3: float, pressure: float, modulus: float = 1.6e9) -> float:
    """Density under pressure, kg/m³: `rho (1 + p/K)`, linear, for p well below K (handbook).

    K 1.6e9 Pa where none is given: mineral oil, common practice, no source. Refused above a fifth of K, our own bound.

    >>> round(density_under_pressure(870.0, 300e5), 1)
    886.3
    """
    if not TINY <= density_kg_m3 <= HUGE:
        raise not_positive("density", density_kg_m3, "kg/m³")
    if not 0.0 <= pressure <= HUGE:
        raise negative("pressure", pressure, "Pa")
    if not TINY <= modulus <= HUGE:
        raise not_positive("bulk modulus", modulus, "Pa")
    if pressure > 0.2 * modulus:
        raise EngineeringError(
            f"{shown(pressure, 'Pa')} is beyond the linear range of a modulus of {shown(modulus, 'Pa')}"
        )
    return density_kg_m3 * (1.0 + pressure / modulus)
