"""What could be seen of each size, and which one observation splits a set of them best?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from functools import lru_cache

from interview.reference.connections import Connections
from interview.reference.model import ConnectionFamily, ConnectionSize
from interview.selection.identify_readings import MM, Readings

OPTIONAL_CONE = ("npt", "nptf", "bspt")  # taper males that may carry a 60° hollow cone for a swivel


@dataclass(frozen=True, slots=True)
class Entry:
    """One size of one family seen from one side."""

    family: ConnectionFamily
    row: ConnectionSize
    gender: str
    limits: tuple[float, float]
    pitch: float
    tapered: bool
    either_taper: bool
    flank: float
    seat: float | None
    seat_optional: bool
    cone: str | None
    position: str
    positions: frozenset[str]
    recess: float | None


def _cone(family: ConnectionFamily, gender: str) -> str | None:
    male = family.seal["male_cone"]
    if male is None:
        return None
    return str(male) if gender == "male" else {"convex": "concave", "concave": "convex"}[str(male)]


def _position(family: ConnectionFamily, gender: str, cone: str | None) -> tuple[str, frozenset[str]]:
    """How the seal place would be called, and all names that are right for it."""
    place = str(family.seal["position"])
    if place in ("face", "base", "shoulder"):
        # the ring sits on the male: a female without one says nothing against it
        return place, frozenset({place} if gender == "male" else {place, "none"})
    if place == "thread":
        also = {"bore", "cone"} if gender == "male" and family.id in OPTIONAL_CONE else set()
        return place, frozenset({place, "none", *also})
    if place == "bottom" and gender == "female":
        return "bottom", frozenset({"bottom", "none"})
    if place == "bottom":
        return "nose", frozenset({"nose", "bottom", "cone", "none"})
    if gender == "female":
        return "cone", frozenset({"cone", "nose", "bore", "none"})
    return ("nose" if cone == "convex" else "bore"), frozenset({"nose" if cone == "convex" else "bore", "cone", "none"})


def _recess(row: ConnectionSize) -> float | None:
    bore = row.details.get("male_bore_mm")
    return bore * MM if isinstance(bore, float) else None


@lru_cache(maxsize=4)
def entries(connections: Connections) -> tuple[Entry, ...]:
    found = []
    for family in connections.families.values():
        seat, flank = family.seal["seat_angle_deg"], family.thread["flank_angle_deg"]
        for row in family.sizes:
            for gender, limits in (("male", row.male_od), ("female", row.female_id)):
                if limits is None or row.pitch is None or not isinstance(flank, float):
                    continue
                cone = _cone(family, gender)
                position, positions = _position(family, gender, cone)
                metric_taper = family.id == "metric_taper" and gender == "female"
                found.append(
                    Entry(
                        family,
                        row,
                        gender,
                        limits,
                        row.pitch,
                        tapered=family.thread["taper"] is True and not metric_taper,
                        either_taper=gender == "female" and family.id in ("bspt", "metric_taper"),
                        flank=flank,
                        seat=seat if isinstance(seat, float) else None,
                        seat_optional=gender == "male" and family.id in OPTIONAL_CONE,
                        cone=cone,
                        position=position,
                        positions=positions,
                        recess=_recess(row),
                    )
                )
    return tuple(found)


def spread(labels: list[Hashable]) -> int:
    """The smaller, the better the observation splits the set: sum of the squares of the groups."""
    return sum(count * count for count in Counter(labels).values())


def _observations(readings: Readings) -> list[tuple[str, Callable[[Entry], Hashable | None]]]:
    """Observations not yet made, easiest first. A None label: this entry cannot be observed so."""
    every: list[tuple[str, bool, Callable[[Entry], Hashable | None]]] = [
        ("GENDER", readings.gender is None, lambda e: e.gender),
        ("CONE_SIDE", readings.cone is None, lambda e: e.cone),
        ("SEAL_POS", readings.seal_position in (None, "none"), lambda e: e.position),
        ("SEAT", readings.seat_angle is None, lambda e: e.seat),
        ("BORE", readings.recess is None, lambda e: None if e.recess is None else round(e.recess / MM, 2)),
        ("TAPER", readings.taper is None, lambda e: e.tapered),
        ("PITCH", not readings.sure_of_pitch, lambda e: round(e.pitch / MM, 3)),
        ("FLANK", readings.flank is None, lambda e: e.flank),
        ("DIA", readings.diameter is None, lambda e: e.limits),
    ]
    return [(code, label) for code, open_, label in every if open_]


def best_observation(found: list[Entry], readings: Readings) -> str | None:
    best: tuple[int, str] | None = None
    for code, label in _observations(readings):
        labels = [label(entry) for entry in found]
        if None in labels:
            continue
        left = spread(labels)
        if left < len(found) ** 2 and (best is None or left < best[0]):
            best = left, code
    return None if best is None else best[1]
