"""Which answers cannot both be so? A spike below the steady pressure, a hose shorter than the way between its ports.

Until somebody settles it the adverse side of both governs, the job is at most provisional, and nothing is built.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.facts import Known, Origin

SAID = (Origin.STATED, Origin.READ, Origin.MEASURED, Origin.COPIED)
# what has to be at least what: the higher fact, the lower fact, the id of the sentence, how both are shown
ORDER = (
    ("surge_pressure", "working_pressure", "spike_below_steady", "pressure"),
    ("relief_setting", "working_pressure", "relief_below_steady", "pressure"),
    ("fluid_temperature_max", "fluid_temperature_min", "fluid_reversed", "temperature"),
    ("ambient_temperature_max", "ambient_temperature_min", "air_reversed", "temperature"),
    ("cylinder_bore", "cylinder_rod", "rod_wider", "length"),
    ("overall_length", "port_distance", "shorter_than_ports", "length"),
)
# Where a route is named, its own least length says so, and more exactly.
SETTLED_BY = {"shorter_than_ports": "clearance_geometry"}


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
        for high, low, reason, _ in ORDER
        if not known.has(SETTLED_BY.get(reason, ""))
        and (most := known.high(high)) is not None
        and (least := known.low(low)) is not None
        and most < least - 1e-6 * abs(least)
        and known.origin(high) in SAID
        and known.origin(low) in SAID
    )
