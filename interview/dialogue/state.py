"""What may a turn change? Everything an undo brings back, and what is in doubt."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from interview.language.model import Heard
from interview.ledger import Ledger


@dataclass
class Doubt:
    """Something said that must be cleared before it counts: the candidate readings, and the words."""

    said: str
    readings: tuple[Heard, ...]
    why: str
    implausible: bool = False

    @property
    def options(self) -> tuple[tuple[Heard, ...], ...]:
        """What can be chosen: one reading each, but the two ends of one range together."""
        out: list[tuple[Heard, ...]] = []
        for reading in self.readings:
            at = next((i for i, some in enumerate(out) if len(some) == 1 and _of_one_range(some[0], reading)), None)
            if at is None:
                out.append((reading,))
            else:
                out[at] = (*out[at], reading)
        return tuple(out)


def _of_one_range(one: Heard, other: Heard) -> bool:
    """The coldest and the hottest of one thing, two figures out of the same words."""
    stems = {one.name.removesuffix(end) for end in ("_min", "_max")} & {
        other.name.removesuffix(end) for end in ("_min", "_max")
    }
    return bool(stems) and one.name != other.name and one.unit == other.unit and one.value != other.value


@dataclass
class State:
    """All that a turn may change; kept whole for undo."""

    ledger: Ledger = field(default_factory=Ledger)
    offered: frozenset[str] = frozenset()
    skipped: frozenset[str] = frozenset()
    ticked: frozenset[str] = frozenset()  # said to apply, value still to be asked
    on_table: tuple[str, ...] = ()  # the parts of the question that is put
    asked_facts: tuple[str, ...] = ()
    questions_asked: int = 0
    for_build: bool = False
    warned: frozenset[str] = frozenset()
    told: frozenset[str] = frozenset()  # computed and assumed values already told
    doubts: tuple[Doubt, ...] = ()
    home: str = "metric"
    job: str = "failed_hose"
    units: Mapping[str, str] = field(default_factory=dict)
    revises: tuple[str, int] | None = None  # number and revision of the stored record this goes on from

    def copy(self) -> State:
        return replace(self, ledger=self.ledger.copy())
