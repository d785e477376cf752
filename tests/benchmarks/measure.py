"""How long does a call take? The median of several, so that one pause of the machine does not count."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable


def median_ms(call: Callable[[], object], times: int = 9) -> float:
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        call()
        taken.append((time.perf_counter() - began) * 1000)
    return statistics.median(taken)
