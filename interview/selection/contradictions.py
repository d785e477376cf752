"""Which answers cannot both be so? A spike below the steady pressure, a hottest below a coldest.

Until somebody settles it the adverse side of both governs, the job is at most provisional, and nothing is built.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.facts import Known, Origin

SAID = (Origin.STATED, Origin.READ, Origin.MEASURED, Origin.COPIED)
# what has to be at least what: the higher fact, the lower fact, the id of the sentence
ORDER = (
    ("surge_pressure", "working_pressure", "spike_below_steady"),
    ("fluid_temperature_max", "fluid_temperature_min", "fluid_reversed"),
    ("ambient_temperature_max", "ambient_temperature_min", "air_reversed"),
)


@dataclass(frozen=True, slots=True)
class Contradiction:
    """`high` should be the higher of the two facts and is surely the lower."""

    high: str
    low: str
    reason: str


def contradictions(known: Known) -> tuple[Contradiction, ...]:
    """The pairs that cannot be: both said by somebody, and apart beyond their ranges."""
    return tuple(
        Contradiction(high, low, reason)
        for high, low, reason in ORDER
        if (most := known.high(high)) is not None
        and (least := known.low(low)) is not None
        and most < least - 1e-6 * abs(least)
        and known.origin(high) in SAID
        and known.origin(low) in SAID
    )
