"""Which angle do the ports of the machine ask for? Facts to ports, and the angle where they decide it.

Seen by a person who stands before the machine: x to the right, y away, z up. A bent end is taken to be turned so that
the hose runs off towards the other port, as a fitter does it (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from interview.engineering.angle import tolerance
from interview.engineering.errors import EngineeringError
from interview.engineering.ports import Port, held_angle
from interview.engineering.vectors import Vector, length
from interview.facts import Known

FACES: dict[str, Vector] = {
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
    "away": (0.0, 1.0, 0.0),
    "towards": (0.0, -1.0, 0.0),
}
PLACE = ("port_b_right", "port_b_away", "port_b_up")
SAID = ("port_a_faces", "port_b_faces", *PLACE)
BENDS = {"elbow45": 45.0, "elbow90": 90.0}


@dataclass(frozen=True, slots=True)
class PortAngle:
    """`angle` in degrees by the rule of MIL-DTL-83796/5, None where the ports leave it open; then `why` says so."""

    angle: float | None
    why: str


def angle_of_ports(known: Known) -> PortAngle | None:
    """The angle between two bent ends from the ports they go on; None where a fact of the ports is not known."""
    faces = known.text("port_a_faces"), known.text("port_b_faces")
    forms = known.text("end_a_form"), known.text("end_b_form")
    place = _place(known)
    if faces[0] not in FACES or faces[1] not in FACES or forms[0] not in BENDS or forms[1] not in BENDS:
        return None
    if place is None:
        return None
    overall = known.value("overall_length")
    return _angle(
        Port((0.0, 0.0, 0.0), FACES[faces[0]], BENDS[forms[0]]),
        Port(place, FACES[faces[1]], BENDS[forms[1]]),
        overall if isinstance(overall, float) else None,
    )


def _place(known: Known) -> Vector | None:
    """Port B seen from port A, m."""
    right, away, up = (known.value(n) for n in PLACE)
    if isinstance(right, float) and isinstance(away, float) and isinstance(up, float):
        return right, away, up
    return None


def ports_apart(known: Known) -> float | None:
    """The straight way between the two ports, m; None where they were not placed."""
    place = _place(known)
    return None if place is None else length(place)


@lru_cache(maxsize=64)  # every trial answer of an interview asks again about the same two ports
def _angle(near: Port, far: Port, overall: float | None) -> PortAngle:
    try:
        angle, play = held_angle(near, far, overall)
    except EngineeringError as error:
        return PortAngle(None, str(error))
    allowed = tolerance(overall if overall is not None else 0.5)
    if play > allowed:
        return PortAngle(
            None,
            f"these ports leave it open by {play:.0f} degrees or more, by the way the hose lies, and an assembly holds "
            f"{allowed:g}",
        )
    return PortAngle(float(round(angle)) % 360.0, "")
