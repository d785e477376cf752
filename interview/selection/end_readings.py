"""What do the readings of an end say? Facts to readings, and whether an end is positively identified.

Three readings or no answer: diameter, pitch, and the seat angle where the family seals on a cone. Because it screws in
proves nothing.
"""

from __future__ import annotations

from functools import lru_cache

from interview.facts import Known, Origin
from interview.reference.connections import Connections
from interview.selection.identify import Identification, identify
from interview.selection.identify_readings import BadReading, Readings

IDENTIFIED = (Origin.READ, Origin.MEASURED)
READINGS = (
    "head_diameter",
    "bolt_spacing",
    "thread_diameter",
    "thread_pitch",
    "seat_angle",
    "seals_at",
    "tapered",
    "recess",
)  # facts of an end without its prefix
SERIES = ("cone24_L", "cone24_S")


def readings_of(known: Known, end: str) -> Readings | None:
    """The readings taken of `end_a` or `end_b`; None where neither head nor diameter and pitch were read."""

    def number(what: str) -> float | None:
        value = known.value(f"{end}_{what}")
        return value if isinstance(value, float) else None

    gender, place = known.text(f"{end}_gender"), known.text(f"{end}_seals_at")
    head, spacing = number("head_diameter"), number("bolt_spacing")
    if head is not None or (spacing is not None and place == "clamped"):
        return Readings(gender=gender, head=head, bolt_long=spacing, clamped=True)
    diameter, pitch = number("thread_diameter"), number("thread_pitch")
    if diameter is None or pitch is None:
        return None
    return Readings(
        gender=gender,
        diameter=diameter,
        pitch=pitch,
        seat_angle=number("seat_angle"),
        taper=known.flag(f"{end}_tapered"),
        seal_position=None if place == "clamped" else place,
        recess=number("recess"),
    )


def identification(known: Known, end: str, connections: Connections) -> Identification | None:
    """What the readings allow; None without readings or where a reading cannot be."""
    readings = readings_of(known, end)
    return None if readings is None else _identification(readings, connections)


@lru_cache(maxsize=64)  # every trial answer of an interview asks again about the same two ends
def _identification(readings: Readings, connections: Connections) -> Identification | None:
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
    if any(
        m.family == family and (size is None or m.size.lower().lstrip("-") == size.lower().lstrip("-"))
        for m in found.candidates
    ):
        return None
    return found


def identified(known: Known, end: str, connections: Connections) -> bool:
    """Read off a marking, measured, or named and borne out by the readings."""
    family = known.text(f"{end}_family")
    if not family:
        return False
    if known.origin(f"{end}_family") in IDENTIFIED:
        return True
    found = identification(known, end, connections)
    if found is None or contradicts(known, end, connections) is not None or recess_wanted(known, end, connections):
        return False
    entry = connections.families.get(family)
    cone = entry is not None and entry.seal.get("seat_angle_deg")
    return not cone or known.has(f"{end}_seat_angle")


def recess_wanted(known: Known, end: str, connections: Connections) -> bool:
    """True where the readings bear out the name as well as a weaker series with the very same thread and cone.

    M14 to M52 serve a light and a heavy 24 degree size each: only the recess behind the cone, or the nose that goes
    into it, tells them apart (ISO 8434-1 thread tables as restated). A name that errs only to the safe side stands.
    """
    family, size = known.text(f"{end}_family"), known.text(f"{end}_size")
    if family not in SERIES or size is None or known.has(f"{end}_recess"):
        return False
    found, named = identification(known, end, connections), _pressure(family, size, connections)
    return found is not None and any(
        _pressure(m.family, m.size, connections) < named for m in found.candidates if m.family in SERIES
    )


def _pressure(family: str, size: str, connections: Connections) -> float:
    rated = connections.rating(family, size, gender=None)
    return rated.pressure if rated is not None else 0.0
