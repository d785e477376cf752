"""What is the assembly made of, and what does each part bear? As the record keeps it."""

from __future__ import annotations

from interview.dialogue.session import Session
from interview.dialogue.wording import PARTS, hose_name
from interview.facts import tidy
from interview.record.documents import words as w
from interview.record.model import AssemblyLine, PartRating, Quantity
from interview.reference.connections import load_connections
from interview.reference.model import EndRating
from interview.selection.assembly import Assembly
from interview.selection.needs import EndNeed
from interview.selection.outcome import Standing

BAR = 1e5


def assembly_line(standing: Standing, session: Session) -> AssemblyLine:
    assembly, home = standing.assembly, session.home
    assert assembly is not None and standing.preferred is not None
    candidate = standing.judgement.bench.candidates[standing.preferred.index]
    parts = []
    notes: list[str] = []
    for part in assembly.parts:
        what = (
            hose_name(candidate, home)
            if part.end is None
            else adapter_name(part.end)
            if part.part == "adapter"
            else " ".join(str(x) for x in (part.end.family, part.end.size, part.end.gender, part.end.form) if x)
        )
        parts.append(
            PartRating(
                part=part.part,
                what=what,
                rating=quantity_in(part.rating, "bar", BAR),
                source=part.source,
                psi=part.psi,
            )
        )
        if part.end is not None and len(part.end.columns) > 1:
            notes.append(
                f"{PARTS[part.end.part]}: "
                + "; ".join(f"{c.of or c.column} {_column(c, home)}" for c in part.end.columns)
                + "; the lower is taken"
            )
    return AssemblyLine(
        rating=quantity_in(assembly.rating, "bar", BAR),
        limited_by=assembly.limited_by,
        proof_pressure=quantity_in(assembly.proof, "bar", BAR),
        parts=tuple(parts),
        next_stronger=_next_stronger(assembly, parts, home),
        notes=tuple(notes),
    )


def adapter_name(end: EndNeed) -> str:
    family = load_connections().families.get(end.family or "")
    name = family.names[0] if family is not None else (end.family or "").replace("_", " ")
    return f"{PARTS.get(end.part, 'the adapter')}: {', '.join(x for x in (name, end.size) if x)}"


def _column(column: EndRating, home: str) -> str:
    return w.rating(tidy(column.pressure / BAR), home, column.psi if column.psi_stated else None)


def _next_stronger(assembly: Assembly, parts: list[PartRating], home: str) -> str:
    """What the assembly would stand with a stronger limiting part."""
    if assembly.rating is None:
        return ""
    least = tidy(assembly.rating / BAR)
    others = [(p.rating.value, p.psi) for p in parts if p.rating is not None and p.rating.value > least]
    if not others:
        return ""
    bar, psi = min(others, key=lambda other: other[0])
    return f"with a stronger {PARTS[assembly.limited_by or 'hose'].removeprefix('the ')}: {w.rating(bar, home, psi)}"


def quantity_in(value: float | None, unit: str, factor: float = 1.0) -> Quantity | None:
    """A figure in its JSON unit; None where it is not known."""
    return None if value is None else Quantity(value=tidy(value / factor), unit=unit)
