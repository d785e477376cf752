"""At which pressures is an assembly tested?"""

from __future__ import annotations

from interview.engineering.errors import HUGE, TINY, not_positive, outside

PROOF_RATIO = 2.0  # ISO 6605:2017 5.2.1 (standard)
BURST_RATIO = 4.0  # SAE J1927's 400 % (restated); other services have other ratios
LEAK_SHARE = 0.70  # of the least burst pressure, ISO 6605 and SAE J343 (memory)
PROOF_HOLD_S = (30.0, 60.0)  # ISO 6605:2017 5.2 (standard), SAE J343 (restated)


def proof_pressure(rating: float, ratio: float = PROOF_RATIO) -> float:
    """Proof pressure, Pa: twice the maximum working pressure of the assembly (ISO 6605:2017 5.2.1, standard).

    >>> proof_pressure(276e5) / 1e5
    552.0
    """
    if not TINY <= rating <= HUGE:
        raise not_positive("maximum working pressure", rating, "Pa")
    if not 1.0 <= ratio <= 10.0:
        raise outside("proof pressure over working pressure", ratio, "", 1.0, 10.0)
    return rating * ratio


def burst_pressure(rating: float, ratio: float = BURST_RATIO) -> float:
    """Least burst pressure, Pa: four times the maximum working pressure for hydraulic hose (SAE J1927, restated).

    >>> burst_pressure(276e5) / 1e5
    1104.0
    """
    if not TINY <= rating <= HUGE:
        raise not_positive("maximum working pressure", rating, "Pa")
    if not 1.0 <= ratio <= 20.0:
        raise outside("burst pressure over working pressure", ratio, "", 1.0, 20.0)
    return rating * ratio


def leakage_test_pressure(rating: float, ratio: float = BURST_RATIO) -> float:
    """Pressure of the leakage test, Pa: 70 % of the least burst pressure (ISO 6605, SAE J343; memory).

    A type test that uses up the specimen, not a test of the assembly that is delivered.

    >>> round(leakage_test_pressure(276e5) / 1e5, 1)
    772.8
    """
    return LEAK_SHARE * burst_pressure(rating, ratio)
