"""What does a check answer? Findings in three values, remarks that do not block, and how verdicts combine.

Findings hold SI numbers and the row they read; the faces and documents word them.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import NamedTuple

from interview.facts import Span
from interview.reference.model import Evidence

NOTHING: Mapping[str, object] = {}


class Verdict(StrEnum):
    FITS = "fits"
    FAILS = "fails"
    OPEN = "open"  # a fact it rests on is not known well enough


class Finding(NamedTuple):  # thousands are made for every answer, and a frozen dataclass costs three times as much
    """One check of one candidate. `reason` is an id that the faces word with `data`.

    `measures` says how need and have are to be shown (pressure, temperature, velocity, length, size, cycles, words).
    `hangs_on` names the facts that would settle an open finding. `remark` marks a finding that fits with advice.
    """

    check: str
    topic: str
    verdict: Verdict
    reason: str
    measures: str = "words"
    need: float | Span | str | None = None
    have: float | Span | str | None = None
    margin: float | None = None
    thin: bool = False
    evidence: Evidence | None = None
    hangs_on: tuple[str, ...] = ()
    remark: bool = False
    data: Mapping[str, object] = NOTHING


class Remark(NamedTuple):
    """Advice, or a condition of fitting that nobody has answered: printed on the record, neither pass nor fail."""

    check: str
    topic: str
    reason: str
    evidence: Evidence | None = None
    data: Mapping[str, object] = NOTHING


Answer = Finding | Remark | None


def against_limit(low: float | None, high: float | None, limit: float, *, grace: float = 0.0) -> Verdict:
    """A need known as a range against an upper limit; None is an open side; `grace` is a relative rounding allowance.

    >>> against_limit(100.0, 200.0, 150.0)
    <Verdict.OPEN: 'open'>
    """
    allowed = limit * (1 + grace)
    if low is not None and low > allowed:
        return Verdict.FAILS
    if high is not None and high <= allowed:
        return Verdict.FITS
    return Verdict.OPEN


def against_floor(low: float | None, high: float | None, limit: float) -> Verdict:
    """A need known as a range against a lower limit (a cold end): fits where even its low end stays above."""
    if high is not None and high < limit:
        return Verdict.FAILS
    if low is not None and low >= limit:
        return Verdict.FITS
    return Verdict.OPEN


def combined(verdicts: list[Verdict]) -> Verdict:
    """Kleene: one fail fails, else one open leaves it open."""
    if Verdict.FAILS in verdicts:
        return Verdict.FAILS
    return Verdict.OPEN if Verdict.OPEN in verdicts else Verdict.FITS
