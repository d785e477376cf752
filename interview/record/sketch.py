"""What does the assembly look like, as far as the record knows?

One reading of the record for all drawings: both ends, how the second end points seen from the first, the length and
its points, and the part that limits the assembly. What is not known stays None and is drawn as not known.

The angle follows the contract: looking along the hose from end A with A's outlet pointing down (6 o'clock),
counter-clockwise to B's outlet. So 90 degrees is 3 o'clock, which in a side view with A on the left points at the
reader.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from interview.record.documents.words import (
    PART_WORDS,
    assembly_psi,
    capital,
    clean,
    hose,
    length,
    rating,
    shown,
    tolerance,
)
from interview.record.model import Record


@dataclass(frozen=True, slots=True)
class EndSketch:
    letter: str
    family: str  # in words, "" where not known
    size: str
    gender: str  # male | female | ""
    form: str  # straight | elbow45 | elbow90 | ""
    flange: bool
    limits: bool

    @property
    def bent(self) -> bool:
        return self.form in ("elbow45", "elbow90")

    @property
    def connection(self) -> str:
        return " ".join(part for part in (self.family, self.size) if part) or "connection not known"

    @property
    def manner(self) -> str:
        gender = "flange head" if self.flange else self.gender or "male or female?"
        form = {"straight": "straight", "elbow45": "45° elbow", "elbow90": "90° elbow"}.get(self.form, "form not known")
        return f"{gender}, {form}"


@dataclass(frozen=True, slots=True)
class AssemblySketch:
    a: EndSketch
    b: EndSketch
    angle: float | None  # None: not known, or no two bent ends
    length: str
    points: str
    hose: str
    limited_by: str  # hose | end_a | end_b | adapter | ""
    limit_words: str
    home: str

    @property
    def needs_angle(self) -> bool:
        return self.a.bent and self.b.bent

    @property
    def angle_words(self) -> str:
        if not self.needs_angle:
            return ""
        if self.angle is None:
            return "Angle between the ends not known: it must be measured before anybody turns an end."
        return (
            f"Looking along the hose from A to B with A's outlet down (6 o'clock): "
            f"B points to {clock(self.angle)}, {degrees(self.angle)} counter-clockwise from A."
        )


def degrees(angle: float) -> str:
    return f"{round(angle % 360, 1):g}°"


def clock(angle: float) -> str:
    """Where B's outlet stands on a clock face with A's at 6, to the half hour."""
    halves = round((6 - (angle % 360) / 30) * 2) % 24
    hours, half = divmod(halves, 2)
    return f"half past {hours or 12}" if half else f"{hours or 12} o'clock"


def direction(angle: float) -> tuple[float, float]:
    """B's outlet on the clock face seen from A: right and up, A's being (0, -1)."""
    turn = math.radians(angle)
    return math.sin(turn), -math.cos(turn)


def ways(angle: float) -> list[str]:
    """How the side view sees B's outlet: one or two of down, up, at you, away from you."""
    right, up = direction(angle)
    return [
        word
        for word, so in (
            ("down", up < -0.38),
            ("up", up > 0.38),
            ("at you", right > 0.38),
            ("away from you", right < -0.38),
        )
        if so
    ]


def way_words(view: AssemblySketch) -> str:
    """What the side view alone would not show of B's direction; empty where it shows it all."""
    if not view.needs_angle:
        return ""
    if view.angle is None:
        return "direction not known"
    words = ways(view.angle)
    return "" if words in (["down"], ["up"]) else f"points {' and '.join(words)}"


def _value(record: Record, name: str) -> str:
    line = record.facts.get(name)
    return str(line.value) if line is not None and line.value is not None else ""


def _end(record: Record, letter: str) -> EndSketch:
    side = f"end_{letter.lower()}"
    limited = record.assembly.limited_by if record.assembly else None
    raw = _value(record, f"{side}_family")
    return EndSketch(
        letter=letter,
        family=clean(shown(record, f"{side}_family"), 60),
        size=clean(shown(record, f"{side}_size"), 30),
        gender=_value(record, f"{side}_gender"),
        form=_value(record, f"{side}_form"),
        flange="flange" in raw.lower() or raw.lower().startswith("iso6162"),
        limits=limited == side,
    )


def sketch(record: Record) -> AssemblySketch:
    build, assembly = record.build, record.assembly
    angle = build.end_angle_deg
    if angle is None and (line := record.facts.get("end_angle")) is not None and isinstance(line.value, (int, float)):
        angle = float(line.value)
    a, b = _end(record, "A"), _end(record, "B")
    if build.overall_length_mm is not None:
        overall = f"overall {length(build.overall_length_mm, record.home)}"
        if build.length_tolerance_mm is not None:
            overall += f" {tolerance(build.length_tolerance_mm)}"
    elif said := shown(record, "overall_length"):
        overall = f"overall {said}"
    else:
        overall = "overall length not known"
    limited_by = (assembly.limited_by if assembly else None) or ""
    limit_words = ""
    if limited_by and assembly is not None and assembly.rating is not None:
        bears = rating(assembly.rating.value, record.home, assembly_psi(assembly))
        limit_words = f"{capital(PART_WORDS.get(limited_by, 'the adapter'))} limits the assembly: {bears}"
    elif assembly is not None and assembly.rating is None and record.choice is not None:
        limit_words = "Rating of the assembly not known"
    return AssemblySketch(
        a,
        b,
        angle if a.bent and b.bent else None,
        overall,
        clean(build.measuring_points, 160),
        clean(hose(record).partition(", shelf item")[0], 70),  # the item stands above the drawing
        limited_by,
        limit_words,
        record.home,
    )
