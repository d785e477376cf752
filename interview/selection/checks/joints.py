"""What do the ends meet? Readings that leave several connections, the part each is joined to, and its metal.

Mates, look-alikes and their grounds are rows of the connection tables (`selection/mating`); an unknown is never a pass.
"""

from __future__ import annotations

from interview.reference.connections import load_connections
from interview.reference.model import COMMON_PRACTICE
from interview.reference.tables import Tables, load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.end_readings import identification, single
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.mating import End, Meeting, meet
from interview.selection.needs import Needs

ENDS = ("end_a", "end_b")
READ = "gender thread_diameter thread_pitch seat_angle seals_at tapered recess head_diameter bolt_spacing"
MOST_NAMED = 6


def judge_readings(needs: Needs, candidate: Candidate) -> Answer:
    """An end without a name whose readings leave several connections: named, with what tells them apart."""
    connections = load_connections()
    lines: list[str] = []
    for end in ENDS:
        if needs.known.has(f"{end}_family"):
            continue
        found = identification(needs.known, end, connections)
        if found is None or single(found) is not None:
            continue
        names = list(dict.fromkeys(f"{connections.families[m.family].names[0]} {m.size}" for m in found.candidates))
        word = "end A" if end == "end_a" else "end B"
        if not names:
            lines.append(f"{word}: nothing in the tables has these readings, measure again")
            continue
        line = f"{word} could be {', '.join(names[:MOST_NAMED])}{' or another' if len(names) > MOST_NAMED else ''}"
        if found.separate_by:
            line += f"; to tell them apart: {found.separate_by.rstrip('.?')}"
        lines.append("; ".join((line, *(w.rstrip(".") for w in found.warnings[:1]))))
    return Remark("readings", "ends", "could_be", data={"text": ". ".join(lines)}) if lines else None


def judge_mates(needs: Needs, candidate: Candidate) -> Answer:
    """Each end against what it goes onto: a pair that must not meet fails, one not known well enough stays open."""
    connections = load_connections()
    known = needs.known
    found: list[Finding] = []
    for end in ENDS:
        side = end[-1]
        family, onto = known.text(f"{end}_family"), known.text(f"port_{side}_family")
        between = known.text(f"adapter_{side}_family")
        if not family or onto in (None, "none", "other") or family == "other" or between not in (None, "none"):
            continue
        joint = meet(
            End(family, known.text(f"{end}_size"), known.text(f"{end}_gender")),
            End(onto, known.text(f"port_{side}_size")),
            connections,
        )
        verdict = {
            Meeting.MATES: Verdict.FITS,
            Meeting.MATES_WITH_WARNING: Verdict.FITS,
            Meeting.MUST_NOT: Verdict.FAILS,
            Meeting.UNKNOWN: Verdict.OPEN,
        }[joint.meeting]
        hangs = tuple(n for n in (f"{end}_size", f"port_{side}_size") if not known.has(n)) or (f"port_{side}_family",)
        text = "; ".join(t.rstrip(".") for t in (joint.reason, joint.result) if t)
        found.append(
            Finding(
                "mates",
                "ends",
                verdict,
                "mates",
                evidence=joint.evidence,
                remark=joint.meeting is Meeting.MATES_WITH_WARNING,
                hangs_on=hangs if verdict is Verdict.OPEN else (),
                data={"part": end, "text": text},
            )
        )
    return max(found, key=lambda f: (f.verdict is Verdict.FAILS, f.verdict is Verdict.OPEN, f.remark), default=None)


def judge_couples(needs: Needs, candidate: Candidate) -> Answer:
    """A stated metal against what it may be screwed to: what eats it, or what it eats, wet or dry as the place is."""
    tables = load_tables()
    wet = bool(set(needs.known.many("exposure") or ()) & {"salt_water", "chemical_wash"})
    lines: dict[str, None] = {}
    for end in ENDS:
        metal = (needs.known.text(f"{end}_metal") or "").upper()
        for couple in tables.metal_couples:
            other = {couple.one: couple.other, couple.other: couple.one}.get(metal)
            verdict = couple.salt_air if wet else couple.dry
            if other is not None and verdict != "good":
                names = (_material(metal, tables), _material(other, tables))
                lines[f"{names[0]} on {names[1]}: {couple.why.rstrip('.')}"] = None
    return Remark("couples", "ends", "couples", COMMON_PRACTICE, {"text": "; ".join(lines)}) if lines else None


def _material(material: str, tables: Tables) -> str:
    entry = tables.materials.get(material)
    return entry.name if entry is not None else material


CHECKS = (
    check("couples", "ends", "end_a_metal end_b_metal exposure", judge_couples, "job"),
    check(
        "readings", "ends", " ".join(f"{e}_{w}" for e in ENDS for w in ("family", *READ.split())), judge_readings, "job"
    ),
    check(
        "mates",
        "ends",
        " ".join(f"{e}_{w}" for e in ENDS for w in ("family", "size", "gender"))
        + " "
        + " ".join(
            f"{p}_{s}_{w}" for p, w in (("port", "family"), ("port", "size"), ("adapter", "family")) for s in "ab"
        ),
        judge_mates,
        "job",
    ),
)
