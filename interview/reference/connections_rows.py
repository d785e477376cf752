"""What does a row of the connection tables hold, beside sizes and ratings (those are in `model`)?"""

from __future__ import annotations

from dataclasses import dataclass

from interview.reference.model import EndRating, Evidence

SEVERITIES = ("critical", "high", "medium", "low")


@dataclass(frozen=True, slots=True)
class InterchangeWarning:
    """Two connections that go together and must not. `b` may be words where the partner has no family of its own.

    `sizes` lists the pairs (size of a, size of b) it holds for; empty: every size. An empty second size: any.
    """

    id: str
    a: str
    b: str
    severity: str  # critical | high | medium | low
    screws_together: bool
    sizes: tuple[tuple[str, str], ...]
    reason: str
    result: str
    tell_apart: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Mate:
    """A male and a female family that belong together, size by size. `conditional`: only where the note is met."""

    male: str
    female: str
    conditional: bool
    note: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class AdapterEdge:
    """An adapter that is made between two families, and the standard it is made to."""

    a: str
    b: str
    standard: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of practice or of a standard, in one sentence."""

    text: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Tightening:
    """How far to turn; no families: every end."""

    applies_to: str
    families: tuple[str, ...]
    turn: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class LooseThread:
    """A male thread that enters a female thread it does not belong to.

    An indicator from basic sizes, not a safety calculation: the share of the flank height that carries, and how many
    turns it goes before it binds (None: it never binds, the pitches are equal).
    """

    male: str
    female: str
    flank_overlap_pct: float
    free_turns: float | None
    pitch_difference: float  # metre


@dataclass(frozen=True, slots=True)
class PitchNeighbours:
    """Two pitches that a pitch gauge confuses; metre."""

    a: str
    b: str
    a_pitch: float
    b_pitch: float
    where: str


@dataclass(frozen=True, slots=True)
class Guide:
    """How to identify an end: the steps in order, the confusable pitches, and the observation behind each tell code."""

    order: tuple[str, ...]
    pitch_gauge_confusions: tuple[PitchNeighbours, ...]
    tells: dict[str, str]


@dataclass(frozen=True, slots=True)
class Rated:
    """The pressure rating of one end: the governing (lowest) figure and every figure that was compared with it.

    `pressure` in pascal. `psi_stated` says that the source prints psi, so that a need in psi compares in psi.
    """

    pressure: float
    column: str
    psi: float | None
    psi_stated: bool
    evidence: Evidence
    columns: tuple[EndRating, ...]
    note: str = ""
