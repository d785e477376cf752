"""Which connection is this end? From readings to every connection they allow, and the one observation to make next.

What the readings allow stays in the answer: a caliper is off by a tenth, crests wear, pitch blades have neighbours. The
true connection may therefore never be dropped by a reading that is right within those limits.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from interview.reference.connections import Connections
from interview.reference.model import ConnectionFamily, ConnectionSize
from interview.selection.identify_entries import Entry, best_observation, entries, spread
from interview.selection.identify_readings import CONES, MM, POSITIONS, BadReading, Readings, check, readings_from_mm
from interview.selection.mating import warning_text, warnings_among

__all__ = ["BadReading", "Identification", "Match", "Readings", "identify", "identify_json", "readings_from_mm"]

# Tolerances without a source beside them are our own bounds, wide enough that no right reading drops the connection.
NOISE = 0.15 * MM  # a caliper held by hand is a tenth off, and what it shows is rounded to a tenth
WEAR = 0.2 * MM  # crests worn: a male reads small, a female large (common practice, no source)
PITCH_NEAR = 0.125 * MM  # neighbours on a pitch gauge
PITCH_EXACT = 0.015 * MM  # counted over ten threads; 27 and 28 threads an inch differ by 0.034 mm
SEAT_NEAR = 2.0  # degrees to one side
RECESS_NEAR = 0.35 * MM
HEAD_UNDER, HEAD_OVER = 0.6 * MM, 0.2 * MM  # heads are made to plus nothing, minus 0.5 mm (memory)
SPACING_NEAR = 0.6 * MM
THICK_NEAR = 0.4 * MM
FEW = 12  # above that the warnings among the candidates would fill the screen and help nobody
THICK_HEAD = 14.2 * MM  # a machine maker's own head (memory)


@dataclass(frozen=True, slots=True)
class Match:
    """A connection that the readings allow, and why."""

    family: str
    size: str
    gender: str
    why: str


@dataclass(frozen=True, slots=True)
class Identification:
    """All that the readings allow, likeliest first. `separate_by` is the observation to make next, None where one is
    left or none can tell them apart; `observation` is its tell code."""

    candidates: tuple[Match, ...]
    separate_by: str | None
    warnings: tuple[str, ...]
    observation: str | None = None


def seats_meant(angle: float, connections: Connections) -> tuple[tuple[float, bool], ...]:
    """The seats of the tables (degrees to one side) that a reading may mean, each with: was it the full angle?"""
    known = {float(str(f.seal["seat_angle_deg"])) for f in connections.families.values() if f.seal["seat_angle_deg"]}
    return tuple(
        (side, full)
        for side in sorted(known)
        for full in (False, True)
        if abs((angle / 2.0 if full else angle) - side) <= SEAT_NEAR
    )


def _outside(value: float, limits: tuple[float, float]) -> float:
    return max(limits[0] - value, value - limits[1], 0.0)


def _diameter_allows(entry: Entry, diameter: float) -> bool:
    under, over = (NOISE + WEAR, NOISE) if entry.gender == "male" else (NOISE, NOISE + WEAR)
    slack = 0.006 * MM  # the limits are printed in hundredths
    return entry.limits[0] - under - slack <= diameter <= entry.limits[1] + over + slack


def _thread_matches(readings: Readings, connections: Connections, seats: frozenset[float] | None) -> list[Entry]:
    pitch, sure = readings.counted_pitch, readings.sure_of_pitch
    place = None if readings.seal_position is None else POSITIONS[readings.seal_position]
    cone = None if readings.cone is None else CONES[readings.cone]
    found = []
    for entry in entries(connections):
        if readings.gender is not None and entry.gender != readings.gender:
            continue
        if readings.diameter is not None and not _diameter_allows(entry, readings.diameter):
            continue
        if pitch is not None and abs(pitch - entry.pitch) > (PITCH_EXACT if sure else PITCH_NEAR):
            continue
        if readings.taper is not None and not entry.either_taper and entry.tapered != readings.taper:
            continue
        if readings.flank is not None and abs(readings.flank - entry.flank) > 2.0:
            continue
        if place is not None and place not in entry.positions:
            continue
        if seats is not None and entry.seat not in seats and not (entry.seat_optional and 30.0 in seats):
            continue
        if cone is not None and entry.cone != cone and not (entry.seat_optional and cone == "concave"):
            continue
        if readings.recess is not None and (entry.recess is None or abs(readings.recess - entry.recess) > RECESS_NEAR):
            continue
        found.append(entry)

    def rank(entry: Entry) -> tuple[bool, float, bool]:
        off = pitch is not None and abs(pitch - entry.pitch) > PITCH_EXACT
        away = 0.0 if readings.diameter is None else round(_outside(readings.diameter, entry.limits), 6)
        return off, away, not entry.row.ratings  # a family with a published rating is the likelier hose end

    return sorted(found, key=rank)


def _thread_why(entry: Entry, readings: Readings) -> str:
    low, high = entry.limits
    where = "over the crests" if entry.gender == "male" else "inside"
    parts = [f"{entry.row.thread}: {low / MM:.2f} to {high / MM:.2f} mm {where}"]
    if readings.diameter is not None:
        parts[0] += f", read {readings.diameter / MM:g}"
        if (away := _outside(readings.diameter, entry.limits)) > 0.006 * MM:
            worn = (readings.diameter < low) == (entry.gender == "male")
            parts[0] += f" ({away / MM:.2f} mm {'past it: worn crests' if worn else 'past it: an unsteady caliper'})"
    if (pitch := readings.counted_pitch) is not None and abs(pitch - entry.pitch) > PITCH_EXACT:
        parts.append(f"its pitch is {entry.pitch / MM:.3f} mm, next to the {pitch / MM:.3f} read")
    if entry.seat is not None:
        parts.append(f"{2 * entry.seat:g}° cone, {'nose' if entry.cone == 'convex' else 'hollow'} on this half")
    else:
        parts.append(f"seals by {entry.family.seal['method']}".removesuffix(" "))
    return "; ".join(parts)


def _mm(row: ConnectionSize, column: str) -> float:
    return float(str(row.details[column])) * MM


def _flange_matches(readings: Readings, connections: Connections) -> list[tuple[ConnectionFamily, ConnectionSize]]:
    found = []
    for family in connections.families.values():
        for row in family.sizes:
            if "head_dia_mm" not in row.details:
                continue
            head = _mm(row, "head_dia_mm")
            if readings.head is not None and not head - HEAD_UNDER <= readings.head <= head + HEAD_OVER:
                continue
            near = (
                ("bolt_long", "bolt_long_mm", SPACING_NEAR),
                ("bolt_short", "bolt_short_mm", SPACING_NEAR),
                ("head_thickness", "head_thickness_mm", THICK_NEAR),
            )
            if all(
                getattr(readings, name) is None or abs(getattr(readings, name) - _mm(row, column)) <= tolerance
                for name, column, tolerance in near
            ):
                found.append((family, row))
    return found


def _flanges(readings: Readings, connections: Connections) -> Identification:
    found = _flange_matches(readings, connections)
    matches = tuple(
        Match(
            family.id,
            row.size,
            readings.gender or "male",
            f"head {row.details['head_dia_mm']:g} mm across and {row.details['head_thickness_mm']:g} thick, screws "
            f"{row.details['bolt_long_mm']:g} x {row.details['bolt_short_mm']:g} mm apart",
        )
        for family, row in found
    )
    warnings = []
    thick = readings.head_thickness
    if thick is not None and abs(thick - THICK_HEAD) <= 0.6 * MM and not matches:
        warnings.append(
            "a head of code 62 diameter but about 14.2 mm thick is a machine maker's own: standard clamps do not hold "
            "it; ask the machine maker for head and clamps"
        )
    if readings.head is not None and abs(readings.head - 34 * MM) <= 0.6 * MM and not matches:
        warnings.append("a head of about 34 mm is a 5/8 size outside the SAE list (from memory); ask the machine maker")
    code = None
    if len(matches) > 1:
        choices: tuple[tuple[str, str, tuple[str, ...]], ...] = (
            ("HEAD", "head", ("head_dia_mm",)),
            ("SPACING", "bolt_long", ("bolt_long_mm", "bolt_short_mm")),
        )
        scored = [
            (spread([tuple(row.details[c] for c in columns) for _, row in found]), name)
            for name, reading, columns in choices
            if getattr(readings, reading) is None
        ]
        code = min(scored)[1] if scored else None
    return _answer(matches, code, warnings, connections)


def _twins(matches: tuple[Match, ...], connections: Connections) -> str:
    names = " and ".join(f"{connections.families[m.family].names[0]} {m.size}" for m in matches)
    families = {m.family for m in matches}
    tells = connections.identification.tells
    if families <= {"npt", "nptf"}:
        return f"{names}: {tells['DRYSEAL']}"
    if families <= {"bspp_cone60", "jis_g_inverted30"}:
        return f"{names}: {tells['SAMEFIT']}"
    return f"{names}: thread, cone and tube are the same; ask where the machine was built, and confirm with a sample"


def _answer(
    matches: tuple[Match, ...], code: str | None, warnings: list[str], connections: Connections
) -> Identification:
    if not matches:
        warnings.append("no connection of the tables fits these readings; measure again, or ask its maker")
    elif len(matches) > 1 and code is None:
        warnings.append(_twins(matches, connections))
    ends = [(m.family, m.size) for m in matches]
    if len(ends) <= FEW:
        warnings += [warning_text(w, connections) for w in warnings_among(ends, connections)]
    words = None if code is None else connections.identification.tells[code]
    return Identification(matches, words, tuple(dict.fromkeys(warnings)), code)


def _either(flange: Identification, thread: Identification, connections: Connections) -> Identification:
    """Readings of a flange and of a thread together: one of the two was not of this end."""
    note = "a flange head has no thread: either the head or the thread that was read belongs to another part"
    tell = connections.identification.tells["CLAMPED"]
    return Identification(
        thread.candidates + flange.candidates, tell, (note, *thread.warnings, *flange.warnings), "CLAMPED"
    )


def identify(readings: Readings, connections: Connections) -> Identification:
    """Every connection that the readings allow, and the one observation that splits them best.

    Raises BadReading where a reading cannot be.
    """
    check(readings)
    if readings.clamped or (readings.of_a_flange and readings.clamped is None and not readings.of_a_thread):
        return _flanges(readings, connections)
    if readings.of_a_flange and readings.clamped is None:
        flange = _flanges(replace(readings, clamped=True), connections)
        thread = identify(replace(readings, clamped=False), connections)
        return _either(flange, thread, connections)
    notes: list[str] = []
    seats = None
    if readings.seat_angle is not None:
        meant = seats_meant(readings.seat_angle, connections)
        seats = frozenset(side for side, _ in meant)
        notes += [
            f"a seat of {readings.seat_angle:g}° is taken as {'the full angle' if full else 'one side'}: "
            f"{side:g}° to a side, {2 * side:g}° across"
            for side, full in meant
        ] or [f"no seat of the tables has {readings.seat_angle:g}°; they have 24, 60, 74, 84 and 90° across"]
    if readings.tpi == 17.0:
        notes.append("no hose thread has 17 threads an inch; it is read as 1.5 mm")
    found = _thread_matches(readings, connections, seats)
    matches = tuple(Match(e.family.id, e.row.size, e.gender, _thread_why(e, readings)) for e in found)
    code = best_observation(found, readings) if len(found) > 1 else None
    return _answer(matches, code, notes, connections)


def identify_json(readings: Readings, connections: Connections) -> dict[str, object]:
    """The answer as the command prints it."""
    found = identify(readings, connections)
    return {
        "candidates": [
            {"family": m.family, "size": m.size, "gender": m.gender, "why": m.why} for m in found.candidates
        ],
        "separate_by": found.separate_by,
        "warnings": list(found.warnings),
    }
