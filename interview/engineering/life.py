"""How many impulses does a construction's type test speak for, and when has a duty used them up?

The method is that of SAE J1927 as far as it is public (restated): a straight line on log-log axes from the burst
pressure at one cycle to the impulse-tested point, and a linear damage sum. The anchors are minimum requirements, so
the line is a reference and not the hose. Ten per cent on the peak is a factor of about three in life.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown, too_big

_LOG_LIMIT = 600.0  # exp beyond this leaves the range of a float


@lru_cache(maxsize=1024)
def line_slope(tested_cycles: float, tested_percent: float, burst_ratio: float = 4.0) -> float:
    """Exponent m of the pressure-life line: `m = ln N / ln(burst / tested)`, pressures over rated.

    SAE J1927 anchors (restated): 400 % of rated at 1 cycle and 133 % at 200 000 cycles give 11.1.

    >>> round(line_slope(200_000, 133), 2)
    11.09
    """
    if not 2.0 <= tested_cycles <= HUGE:
        raise outside("number of test cycles", tested_cycles, "", 2.0, HUGE)
    if not 1.0 <= tested_percent <= 1000.0:
        raise outside("test pressure in per cent of rated", tested_percent, "%", 1.0, 1000.0, "133 for 133 %")
    if not 0.1 <= burst_ratio <= 100.0:
        raise outside("burst pressure over rated", burst_ratio, "", 0.1, 100.0)
    ratio = burst_ratio * 100.0 / tested_percent
    if ratio < 1.01:
        raise EngineeringError(
            f"a hose cannot be impulse-tested at {tested_percent:.4g} % of rated when it bursts at "
            f"{burst_ratio * 100:.4g} %; the test pressure has to be well below burst"
        )
    return log(tested_cycles) / log(ratio)


def allowed_cycles(
    pressure: float, rated: float, tested_cycles: float, tested_percent: float, burst_ratio: float = 4.0
) -> float:
    """Cycles the pressure-life line allows at a peak pressure: `N = (burst ratio x rated / p)^m`.

    SAE J1927 as restated; stated for peaks from 100 % to 200 % of rated of wire-reinforced hose. Below that the line
    is extrapolated. `pressure` and `rated` share any one unit. A life from an unmeasured peak is an order of magnitude.

    >>> round(allowed_cycles(207e5, 207e5, 200_000, 133) / 1e6, 1)
    4.7
    >>> round(allowed_cycles(1.33 * 207e5, 207e5, 200_000, 133))
    200000
    """
    if not TINY <= pressure <= HUGE:
        raise not_positive("peak pressure", pressure, "Pa")
    if not TINY <= rated <= HUGE:
        raise not_positive("rated pressure", rated, "Pa")
    power = line_slope(tested_cycles, tested_percent, burst_ratio) * log(burst_ratio * rated / pressure)
    if power > _LOG_LIMIT:
        raise too_big("number of cycles at so low a pressure")
    return exp(power)


def pressure_for_cycles(
    cycles: float, rated: float, tested_cycles: float, tested_percent: float, burst_ratio: float = 4.0
) -> float:
    """Peak pressure at which the line allows a number of cycles, in the unit of `rated`; the inverse (restated).

    >>> round(pressure_for_cycles(200_000, 207.0, 200_000, 133), 1)
    275.3
    """
    if not 1.0 <= cycles <= HUGE:
        raise outside("number of cycles", cycles, "", 1.0, HUGE)
    if not TINY <= rated <= HUGE:
        raise not_positive("rated pressure", rated, "Pa")
    return burst_ratio * rated * exp(-log(cycles) / line_slope(tested_cycles, tested_percent, burst_ratio))


def damage(
    peaks: Sequence[float],
    counts: Sequence[float],
    rated: float,
    tested_cycles: float,
    tested_percent: float,
    burst_ratio: float = 4.0,
) -> float:
    """Share of life used by blocks of cycles, Miner's sum: `D = sum n_i / N(p_i)`; life is used up at 1 (restated).

    >>> round(damage([1.0, 1.33, 1.5], [60, 6, 1], 1.0, 200_000, 133) * 1e5, 2)
    6.17
    """
    if len(peaks) != len(counts) or not peaks:
        raise EngineeringError(f"{len(peaks)} peaks and {len(counts)} counts were given; each peak needs one count")
    total = 0.0
    for peak, count in zip(peaks, counts, strict=True):
        if not 0.0 <= count <= HUGE:
            raise negative("number of cycles", count, "")
        allowed = allowed_cycles(peak, rated, tested_cycles, tested_percent, burst_ratio)
        if allowed <= TINY:
            raise EngineeringError(
                f"a peak of {shown(peak, 'Pa')} is far above the burst pressure of a hose rated {shown(rated, 'Pa')}; "
                "no number of cycles can be stated"
            )
        total += count / allowed
    return total


def hours_to_cycles(cycles: float, cycles_per_hour: float) -> float:
    """Running hours until a number of cycles is reached: `t = N / rate`.

    >>> hours_to_cycles(200_000, 400)
    500.0
    """
    if not 0.0 <= cycles <= HUGE:
        raise negative("number of cycles", cycles, "")
    if not TINY <= cycles_per_hour <= HUGE:
        raise not_positive("number of cycles an hour", cycles_per_hour, "")
    return cycles / cycles_per_hour


def years_to_cycles(cycles: float, cycles_per_hour: float, hours_per_year: float) -> float:
    """Years until a number of cycles is reached: `t = N / (rate x hours a year)`; at most 8784 h make a year.

    >>> round(years_to_cycles(200_000, 60, 2000), 4)
    1.6667
    """
    if not 0.01 <= hours_per_year <= 8784.0:
        raise outside("running time a year", hours_per_year, "h", 0.01, 8784.0)
    return hours_to_cycles(cycles, cycles_per_hour) / hours_per_year


def life_band(cycles: float, spread: float) -> tuple[float, float]:
    """Life as (low, high) with a spread factor to either side.

    About 3 for 10 per cent and 8 for 20 per cent doubt on the peak: 1.1^11 = 2.9 and 1.2^11 = 7.4 (derived from the
    line). The type-tested count stays the centre.

    >>> life_band(300_000, 3.0)
    (100000.0, 900000.0)
    """
    if not 0.0 <= cycles <= HUGE:
        raise negative("number of cycles", cycles, "")
    if not 1.0 <= spread <= 1000.0:
        raise outside("spread factor", spread, "", 1.0, 1000.0)
    return cycles / spread, cycles * spread
