"""What do the readings of an end say? Facts to readings, and whether an end is positively identified.

Three readings or no answer: diameter, pitch, and the seat angle where the family seals on a cone. Because it screws in
proves nothing.
"""

from __future__ import annotations

from interview.facts import Known, Origin
from interview.reference.connections import Connections
from interview.selection.identify import Identification, identify
from interview.selection.identify_readings import BadReading, Readings

IDENTIFIED = (Origin.READ, Origin.MEASURED)


def readings_of(known: Known, end: str) -> Readings | None:
    """The readings taken of `end_a` or `end_b`; None where diameter or pitch is missing."""
    diameter, pitch = known.value(f"{end}_thread_diameter"), known.value(f"{end}_thread_pitch")
    if not isinstance(diameter, float) or not isinstance(pitch, float):
        return None
    seat = known.value(f"{end}_seat_angle")
    return Readings(gender=known.text(f"{end}_gender"), diameter=diameter, pitch=pitch,
                    seat_angle=seat if isinstance(seat, float) else None)


def identification(known: Known, end: str, connections: Connections) -> Identification | None:
    """What the readings allow; None without readings or where a reading cannot be."""
    readings = readings_of(known, end)
    if readings is None:
        return None
    try:
        return identify(readings, connections)
    except BadReading:
        return None


def single(found: Identification) -> tuple[str, str, str] | None:
    """The one connection left (family, size, gender); None where several are."""
    kinds = {(m.family, m.size, m.gender) for m in found.candidates}
    return kinds.pop() if len(kinds) == 1 else None


def contradicts(known: Known, end: str, connections: Connections) -> Identification | None:
    """The identification, where the readings leave no room for the connection that was named."""
    family, size = known.text(f"{end}_family"), known.text(f"{end}_size")
    if not family or family == "other" or known.origin(f"{end}_family") is Origin.COMPUTED:
        return None
    found = identification(known, end, connections)
    if found is None or not found.candidates:
        return found
    if any(m.family == family and (size is None or m.size.lower().lstrip("-") == size.lower().lstrip("-")) for m in found.candidates):
        return None
    return found


def identified(known: Known, end: str, connections: Connections) -> bool:
    """Positively identified: read from a marking, measured, or named and borne out by the readings."""
    family = known.text(f"{end}_family")
    if not family:
        return False
    if known.origin(f"{end}_family") in IDENTIFIED:
        return True
    if readings_of(known, end) is None or contradicts(known, end, connections) is not None:
        return False
    entry = connections.families.get(family)
    cone = entry is not None and entry.seal.get("seat_angle_deg")
    return not cone or known.has(f"{end}_seat_angle")
