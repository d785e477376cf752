"""Which candidates fail, stay open or have a thin margin? Sets of candidates as bits: candidate i is bit i."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from interview.selection.finding import Answer, Finding, Verdict


class Group(NamedTuple):
    """Candidates that a check answers alike: the first of them, and all of them as bits (candidate i is bit i)."""

    first: int
    bits: int


Told = list[tuple[Answer, Group]]  # each answer with the candidates that get it


@dataclass(frozen=True, slots=True)
class Marks:
    """Which candidates are failed, left open or left with a thin margin: candidate i is bit i."""

    fails: int = 0
    open: int = 0
    thin: int = 0

    @classmethod
    def of(cls, told: Told) -> Marks:
        fails = still = thin = 0
        failing, opening = Verdict.FAILS, Verdict.OPEN
        for answer, group in told:
            if not isinstance(answer, Finding):
                continue
            verdict = answer.verdict
            if verdict is failing:
                fails |= group.bits
            elif verdict is opening:
                still |= group.bits
            if answer.thin:
                thin |= group.bits
        return cls(fails, still, thin)

    @classmethod
    def all_of(cls, marks: Sequence[Marks]) -> Marks:
        """One fail fails, else one open leaves it open."""
        fails = still = thin = 0
        for mark in marks:
            fails |= mark.fails
            still |= mark.open
            thin |= mark.thin
        return cls(fails, still & ~fails, thin)

    def code(self, index: int) -> int:
        """1 fits, 2 open, 3 fails."""
        return 3 if self.fails >> index & 1 else 2 if self.open >> index & 1 else 1

    def is_thin(self, index: int) -> bool:
        return bool(self.thin >> index & 1)


def members(bits: int) -> list[int]:
    """The candidates of a set of bits, in order.

    >>> members(0b1101)
    [0, 2, 3]
    """
    return [i for i, bit in enumerate(bin(bits)[:1:-1]) if bit == "1"]


def grouped(keys: Sequence[Hashable]) -> tuple[Group, ...]:
    """Those with one key together."""
    groups = defaultdict[Hashable, list[int]](list)
    for i, key in enumerate(keys):
        groups[key].append(i)
    return tuple(Group(these[0], sum(1 << i for i in these)) for these in groups.values())
