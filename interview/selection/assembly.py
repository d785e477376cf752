"""What does the assembly bear? Hose, ends and adapters: the lowest rating, who limits it, and the proof pressure.

Lower-of rule: SAE J517 JUL2003/JUL2020 and J516 JUL2005 scopes (seen). Proof = 2 x rating, liquid, never above a part's
stated test pressure: ISO 6605:2017 5.2.1 (seen).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from interview.reference.model import PSI
from interview.selection.candidates import Candidate
from interview.selection.needs import EndNeed, Needs


@dataclass(frozen=True, slots=True)
class PartLoad:
    """One part and what it bears; `rating` in pascal, None where nobody stated it."""

    part: str  # hose | end_a | end_b | adapter
    end: EndNeed | None
    rating: float | None
    source: str
    psi: float | None = None  # what its row prints in psi; None where the row prints none


@dataclass(frozen=True, slots=True)
class Assembly:
    parts: tuple[PartLoad, ...]
    rating: float | None  # pascal; None while a part's rating is not known
    limited_by: str | None
    proof: float | None
    unknown: tuple[str, ...]  # facts whose absence keeps the rating open
    at_most: float | None  # the lowest rating known so far
    psi: float | None  # what the row of that lowest part prints in psi, where it prints one


def assemble(needs: Needs, candidate: Candidate) -> Assembly:
    """The assembly a candidate would make with the ends as far as they are known."""
    evidence = candidate.size.evidence.get("working_pressure")
    size = candidate.size
    parts = [PartLoad("hose", None, size.wp_select, evidence.said if evidence else "", candidate.psi)]
    unknown: list[str] = []
    for end in needs.ends:
        if not end.wanted:
            continue
        parts.append(
            PartLoad(
                "adapter" if end.part.startswith("adapter") else end.part,
                end,
                end.rating,
                end.rating_source,
                end.psi_printed,
            )
        )
        if end.rating is None:
            if end.family is None:
                unknown.append(f"{end.part}_family")
            elif end.size is None and end.family != "other":
                unknown.append(f"{end.part}_size")
            else:
                unknown.append(f"{end.part}_rating")
    rated = [p for p in parts if p.rating is not None]
    lowest = min(rated, key=lambda p: p.rating or 0.0)
    complete = not unknown
    proof = None
    if complete and lowest.rating is not None:
        proof = needs.rules.proof_ratio * lowest.rating
        if candidate.size.proof is not None:
            proof = min(proof, candidate.size.proof)
    return Assembly(
        tuple(parts),
        lowest.rating if complete else None,
        lowest.part if complete else None,
        proof,
        tuple(unknown),
        lowest.rating,
        printed_psi([(p.rating or 0.0, p.psi) for p in rated], rated.index(lowest)),
    )


def printed_psi(rated: Sequence[tuple[float, float | None]], weakest: int) -> float | None:
    """What the weakest part's row prints in psi; None where it prints none, or more than another part bears.

    `rated`: each part's rating in pascal and what its row prints in psi.
    """
    psi = rated[weakest][1]
    least = min(printed if printed is not None else pascal / PSI for pascal, printed in rated)
    return psi if psi is not None and psi <= least else None
