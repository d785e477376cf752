"""May these two ends meet? What the tables pair, what only seems to fit, and what must never be put together.

That two threads screw together proves nothing. Whatever no table pairs is never called a mate.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from interview.reference.connections import AdapterEdge, Connections, InterchangeWarning, LooseThread, Rated
from interview.reference.model import COMMON_PRACTICE, ConnectionFamily, ConnectionSize, Evidence, Tag, normal_size

SEVERITY = {"critical": 0, "high": 1, "medium": 2, "low": 3}
NEAR = 0.6e-3  # m; diameters that a hand takes for equal (our own bound, common practice, no source)
PITCH_NEAR = 0.125e-3  # m; pitches that a nut starts on (our own bound, common practice, no source)
COMPUTED = Evidence(Tag.COMPUTED, "geometry of the basic thread sizes; an indicator, not a safety calculation")
NEEDS_ADAPTER = "an adapter, or another hose end, is needed"
FAMILY_ONLY = COMMON_PRACTICE


class Meeting(StrEnum):
    MATES = "mates"
    MATES_WITH_WARNING = "mates with warning"
    MUST_NOT = "must not meet"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class End:
    """One half of a joint; None where it is not known."""

    family: str | None
    size: str | None = None
    gender: str | None = None


@dataclass(frozen=True, slots=True)
class Joint:
    """What becomes of two ends. `severity` is empty for a mate; `because` names the table row."""

    meeting: Meeting
    reason: str
    result: str = ""
    severity: str = ""
    because: str = ""
    evidence: Evidence | None = None


@dataclass(frozen=True, slots=True)
class Hazard:
    """Something that this end is mistaken for, or goes into, though it must not."""

    severity: str
    partner: str
    text: str
    because: str
    evidence: Evidence


def family_name(family: str, connections: Connections) -> str:
    known = connections.families.get(family)
    return family if known is None else known.names[0]


def warning_text(warning: InterchangeWarning, connections: Connections) -> str:
    """The warning as one passage: who, why, what comes of it, how to tell."""
    a, b = family_name(warning.a, connections), family_name(warning.b, connections)
    return f"{a} and {b}: {warning.reason}; {warning.result}. To tell them apart: {warning.tell_apart.rstrip('?')}."


def _thread(row: ConnectionSize) -> str | None:
    return None if row.thread is None else row.thread.split(" (")[0]


def _alike(one: ConnectionSize, other: ConnectionSize) -> bool:
    """Could a hand take the two for the same size?"""
    if _thread(one) is not None and _thread(one) == _thread(other):
        return True
    if one.male_od and other.male_od:
        apart = abs(sum(one.male_od) - sum(other.male_od)) / 2.0
        return apart <= NEAR or normal_size(one.size) == normal_size(other.size)
    if one.thread is None and other.thread is None:
        heads = [float(str(row.details["head_dia_mm"])) for row in (one, other)]
        return abs(heads[0] - heads[1]) < 4.0 or one.size == other.size
    return False


def _holds(warning: InterchangeWarning, one: End, other: End, connections: Connections) -> bool:
    """Does the warning speak of these two ends? Sizes that are not known count as the ones it names."""
    for first, second in ((one, other), (other, one)):
        if (first.family, second.family) != (warning.a, warning.b):
            continue
        if first.size is None or second.size is None:
            return True
        if warning.sizes:
            wanted = (normal_size(first.size), normal_size(second.size))
            if any(
                (normal_size(a), normal_size(b)) == wanted or (normal_size(a) == wanted[0] and not b)
                for a, b in warning.sizes
            ):
                return True
            continue
        rows = [connections.size(str(end.family), str(end.size)) for end in (first, second)]
        if rows[0] is not None and rows[1] is not None and _alike(rows[0], rows[1]):
            return True
    return False


def _warning_between(one: End, other: End, connections: Connections) -> InterchangeWarning | None:
    found = [w for w in connections.warnings if _holds(w, one, other, connections)]
    return min(found, key=lambda w: SEVERITY[w.severity]) if found else None


def _loose_between(male: ConnectionSize, female: ConnectionSize, connections: Connections) -> LooseThread | None:
    return next(
        (row for row in connections.loose_threads if (row.male, row.female) == (male.thread, female.thread)), None
    )


def _loose_text(row: LooseThread) -> str:
    turns = "spins in freely" if row.free_turns is None else f"goes in {row.free_turns:g} turns before it binds"
    return f"a {row.male} male {turns} in a {row.female} thread, on {row.flank_overlap_pct:g} % of the flank"


def _opposite(gender: str | None) -> str | None:
    return {"male": "female", "female": "male"}.get(gender or "")


def meet(hose: End, other: End, connections: Connections) -> Joint:
    """What becomes of a hose end and what it is to be joined to. A missing gender is taken to suit the other's.

    Unknown family or size: unknown, unless the families must not meet in any size.
    """
    for end in (hose, other):
        if end.family is None or end.family not in connections.families:
            return Joint(Meeting.UNKNOWN, "one of the two ends is not identified; measure it before they are joined")
        if end.size is not None and connections.size(end.family, end.size) is None:
            return Joint(
                Meeting.UNKNOWN, f"{family_name(end.family, connections)} has no size {end.size} in the tables"
            )
    if hose.gender is not None and hose.gender == other.gender:
        return Joint(
            Meeting.MUST_NOT, f"two {hose.gender} ends do not go together", NEEDS_ADAPTER, "low", "gender", FAMILY_ONLY
        )
    ways: list[tuple[End, End]] | None
    ways = {"male": [(hose, other)], "female": [(other, hose)]}.get(hose.gender or _opposite(other.gender) or "")
    paired = _as_mates(ways or [(hose, other), (other, hose)], connections)
    if paired is not None:
        return paired
    if (warning := _warning_between(hose, other, connections)) is not None:
        meeting = Meeting.MATES_WITH_WARNING if warning.severity == "low" else Meeting.MUST_NOT
        return Joint(
            meeting,
            f"{family_name(warning.a, connections)} and {family_name(warning.b, connections)}: {warning.reason}",
            warning.result,
            warning.severity,
            warning.id,
            warning.evidence,
        )
    return _unlisted(ways or [(hose, other), (other, hose)], connections)


def _as_mates(ways: Iterable[tuple[End, End]], connections: Connections) -> Joint | None:
    """The answer where male and female belong to a pair of the tables; None where no table pairs them."""
    for male, female in ways:
        mate = next((m for m in connections.mates if (m.male, m.female) == (male.family, female.family)), None)
        if mate is None:
            continue
        if male.size is None or female.size is None:
            return Joint(Meeting.UNKNOWN, "the families belong together, but a size is not known; measure it first")
        if normal_size(male.size) == normal_size(female.size):
            if mate.conditional:
                return Joint(
                    Meeting.MATES_WITH_WARNING,
                    mate.note,
                    "otherwise nothing seals",
                    "medium",
                    f"{mate.male} on {mate.female}",
                    mate.evidence,
                )
            return Joint(Meeting.MATES, mate.note, because=f"{mate.male} on {mate.female}", evidence=mate.evidence)
    return None


def _taper_in_parallel(one: ConnectionSize, other: ConnectionSize, connections: Connections) -> bool:
    """Is one tapered, the other not, and would a hand start one in the other?"""
    tapers = [connections.families[row.family].thread["taper"] for row in (one, other)]
    if tapers[0] == tapers[1] or not (one.male_od and other.male_od and one.pitch and other.pitch):
        return False
    return abs(sum(one.male_od) - sum(other.male_od)) / 2.0 <= 2 * NEAR and abs(one.pitch - other.pitch) <= PITCH_NEAR


def _unlisted(ways: list[tuple[End, End]], connections: Connections) -> Joint:
    """Two ends of which no table speaks: never a mate, and the threads say how dangerous."""
    male, female = ways[0]
    if male.size is None or female.size is None:
        return Joint(Meeting.UNKNOWN, "a size is not known, and no table pairs the two; measure first")
    for one, two in ways:
        first = connections.size(str(one.family), str(one.size))
        second = connections.size(str(two.family), str(two.size))
        assert first is not None and second is not None  # both were looked up before
        names = (
            f"{family_name(str(one.family), connections)} {first.size} and "
            f"{family_name(str(two.family), connections)} {second.size}"
        )
        if one.family == two.family and first.size == second.size:
            return Joint(
                Meeting.MATES_WITH_WARNING,
                f"{names} are of one family and size, though no table lists the pair",
                "confirm with the maker of the parts",
                "low",
                "family",
                FAMILY_ONLY,
            )
        if _thread(first) is not None and _thread(first) == _thread(second):
            return Joint(
                Meeting.MUST_NOT,
                f"{names} have the same thread {_thread(first)} and do not belong together",
                "it screws together and does not seal, or lets go under pressure",
                "high",
                "same thread",
                COMPUTED,
            )
        if (loose := _loose_between(first, second, connections)) is not None:
            return Joint(
                Meeting.MUST_NOT,
                _loose_text(loose),
                "it feels tight and pulls out under pressure",
                "high",
                "loose thread",
                COMPUTED,
            )
        if _taper_in_parallel(first, second, connections):
            return Joint(
                Meeting.MUST_NOT,
                f"{names}: one thread is tapered, the other is parallel",
                "it jams before anything seals, and may split the part",
                "high",
                "taper in parallel",
                COMPUTED,
            )
    if male.family == female.family:
        return Joint(
            Meeting.MUST_NOT,
            f"sizes {male.size} and {female.size} of {family_name(str(male.family), connections)} differ",
            NEEDS_ADAPTER,
            "low",
            "size",
            FAMILY_ONLY,
        )
    return Joint(Meeting.MUST_NOT, "no table pairs the two ends", NEEDS_ADAPTER, "low", "not paired", FAMILY_ONLY)


def warnings_among(ends: Iterable[tuple[str, str]], connections: Connections) -> tuple[InterchangeWarning, ...]:
    """The interchange warnings between these ends, gravest first; of a single end its critical and high ones."""
    listed = list(dict.fromkeys(ends))
    if len(listed) == 1:
        return tuple(w for w in _warnings_of(*listed[0], connections) if SEVERITY[w.severity] <= 1)
    found = [
        w
        for w in connections.warnings
        if any(
            _holds(w, End(*one), End(*two), connections)
            for i, one in enumerate(listed)
            if one[0] in (w.a, w.b)
            for two in listed[i + 1 :]
        )
    ]
    return tuple(sorted(found, key=lambda w: SEVERITY[w.severity]))


def _warnings_of(family: str, size: str | None, connections: Connections) -> list[InterchangeWarning]:
    """Warnings that name this end, in this size."""
    wanted = None if size is None else normal_size(size)
    found = []
    for warning in connections.warnings:
        sides = [i for i, name in enumerate((warning.a, warning.b)) if name == family]
        if sides and (
            wanted is None
            or not warning.sizes
            or any(not pair[i] or normal_size(pair[i]) == wanted for pair in warning.sizes for i in sides)
        ):
            found.append(warning)
    return sorted(found, key=lambda w: SEVERITY[w.severity])


def hazards_for(
    family: str, size: str | None, connections: Connections, gender: str | None = None
) -> tuple[Hazard, ...]:
    """What to warn of with this end, gravest first: the interchange warnings, then the threads it enters loosely.

    A warning holds where its list of sizes takes in this one; without a size every warning of the family holds.
    """
    found = []
    for warning in _warnings_of(family, size, connections):
        partner = warning.b if warning.a == family else warning.a
        found.append(
            Hazard(warning.severity, partner, warning_text(warning, connections), warning.id, warning.evidence)
        )
    row = None if size is None else connections.size(family, size)
    if row is not None and row.thread is not None:
        named = {hazard.partner for hazard in found} | {family}
        named |= {m.female for m in connections.mates if m.male == family}
        named |= {m.male for m in connections.mates if m.female == family}
        same = [pair for pair in connections.same_thread_groups.get(str(_thread(row)), ()) if pair[0] not in named]
        if same:
            others = ", ".join(f"{family_name(name, connections)} {other}" for name, other in same)
            text = f"{_thread(row)} is also the thread of {others}: it screws together and does not seal."
            found.append(Hazard("high", same[0][0], text, "same thread", COMPUTED))
        for loose in connections.loose_threads:
            if row.thread == (loose.male if gender != "female" else loose.female) or (
                gender is None and row.thread == loose.female
            ):
                partner = loose.female if row.thread == loose.male else loose.male
                text = f"{_loose_text(loose)}: it can be mistaken for a worn but right thread and pull out."
                found.append(Hazard("high", partner, text[0].upper() + text[1:], "loose thread", COMPUTED))
    return tuple(sorted(found, key=lambda hazard: SEVERITY[hazard.severity]))


def adapters_between(a: str, b: str, connections: Connections) -> tuple[AdapterEdge, ...]:
    """Adapters that are made between two families; those to a standard first. Empty: none is known."""
    found = [edge for edge in connections.adapter_edges if {edge.a, edge.b} == {a, b}]
    return tuple(sorted(found, key=lambda edge: edge.evidence.tag is Tag.PRACTICE))


def adapter_rating(a: End, b: End, connections: Connections) -> Rated | None:
    """An adapter is rated at the lower of its two ends; None (open) where either end has no rating."""
    rated = [
        None
        if end.family is None or end.size is None
        else connections.rating(end.family, end.size, gender=end.gender, swivel=None)
        for end in (a, b)
    ]
    known = [rating for rating in rated if rating is not None]
    return min(known, key=lambda rating: rating.pressure) if len(known) == 2 else None


def tightening_for(family: ConnectionFamily, connections: Connections) -> tuple[str, ...]:
    """How far to turn this end, in words; the rule for every end last."""
    return tuple(
        f"{rule.applies_to}: {rule.turn}"
        for rule in sorted(connections.tightening, key=lambda rule: not rule.families)
        if not rule.families or family.id in rule.families
    )
