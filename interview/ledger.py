"""How do sayings add up? All of them in order; corrections supersede, contradictions stand, the adverse one governing.

Nothing is overwritten. `Ledger.known` is what holds now.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from interview.catalogue import CATALOGUE, Kind
from interview.facts import Fact, Known, Origin, Span, Value


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two sayings that cannot both hold; `governs` is the adverse one (or None where neither side is safe)."""

    name: str
    sayings: tuple[Fact, ...]


def same_value(one: Value, other: Value) -> bool:
    """Equal within 0.5 % (two ways of writing one figure), lists without regard to order."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return set(one) == set(other)
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=5e-3, abs_tol=1e-9)
    return one == other


class Ledger:
    """Every saying in order. Appends only; `undo` and corrections mark, they never erase."""

    def __init__(self) -> None:
        self._entries: list[Fact] = []
        self._dead: set[int] = set()
        self._known: Known | None = None
        self._conflicts: tuple[Conflict, ...] | None = None

    def copy(self) -> Ledger:
        other = Ledger()
        other._entries, other._dead = list(self._entries), set(self._dead)
        return other

    def _changed(self) -> None:
        self._known = self._conflicts = None

    @property
    def entries(self) -> tuple[Fact, ...]:
        return tuple(self._entries)

    def history(self, name: str) -> tuple[Fact, ...]:
        """All sayings of one fact, the superseded ones too, oldest first."""
        return tuple(fact for fact in self._entries if fact.name == name)

    def live(self, name: str) -> tuple[Fact, ...]:
        return tuple(f for i, f in enumerate(self._entries) if f.name == name and i not in self._dead)

    def put(self, fact: Fact, *, corrects: bool = False) -> Conflict | None:
        """Adds a saying. A firm saying against an earlier firm one is a conflict unless it corrects.

        "Don't know", assumed and computed values give way to anything firmer, and never push a firm one aside.
        """
        if fact.name not in CATALOGUE:
            raise KeyError(f"{fact.name!r} is not a fact")
        soft = (Origin.UNKNOWN, Origin.ASSUMED, Origin.COMPUTED)
        before = [i for i, f in enumerate(self._entries) if f.name == fact.name and i not in self._dead]
        firm = [i for i in before if self._entries[i].origin not in soft]
        self._changed()
        if corrects or (fact.origin in soft and not firm):
            self._dead.update(before)
        elif fact.origin in soft:
            return None
        else:
            self._dead.update(i for i in before if i not in firm)
            same = [i for i in firm if same_value(self._entries[i].value, fact.value)]
            self._dead.update(same)
            firm = [i for i in firm if i not in same]
            if firm and fact.spec.kind is Kind.MANY:
                self._dead.update(firm)
                fact = replace(fact, value=_joined([self._entries[i].value for i in firm] + [fact.value]))
                firm = []
        self._entries.append(fact)
        if not corrects and fact.origin not in soft and firm:
            return Conflict(fact.name, (*(self._entries[i] for i in firm), fact))
        return None

    def settle(self, name: str, index: int, turn: int) -> Fact:
        """Settles a conflict by choosing one of the live sayings (0 is the oldest)."""
        chosen = self.live(name)[index]
        self.put(replace(chosen, turn=turn), corrects=True)
        return chosen

    def withdraw(self, names: Iterable[str]) -> None:
        """Takes back what rests on something that changed, or what a person removed from an echo."""
        gone = set(names)
        self._dead.update(i for i, f in enumerate(self._entries) if f.name in gone)
        self._changed()

    def conflicts(self) -> tuple[Conflict, ...]:
        """The facts with more than one live saying, in the order they came up."""
        if self._conflicts is None:
            said = Counter(f.name for i, f in enumerate(self._entries) if i not in self._dead)
            self._conflicts = tuple(Conflict(n, self.live(n)) for n, times in said.items() if times > 1)
        return self._conflicts

    def known(self) -> Known:
        if self._known is None:
            by_name: dict[str, list[Fact]] = {}
            for i, fact in enumerate(self._entries):
                if i not in self._dead:
                    by_name.setdefault(fact.name, []).append(fact)
            self._known = Known(
                {
                    name: live[0] if len(live) == 1 else replace(_governing(live), disputed=True)
                    for name, live in by_name.items()
                }
            )
        return self._known


def _joined(values: list[Value]) -> tuple[str, ...]:
    seen: dict[str, None] = {}
    for value in values:
        if isinstance(value, tuple):
            seen.update(dict.fromkeys(value))
    if len(seen) > 1:
        seen.pop("none", None)
    return tuple(seen)


def _governing(live: list[Fact]) -> Fact:
    if len(live) == 1:
        return live[0]
    adverse = live[0].spec.adverse
    numbered = [f for f in live if f.low is not None or f.high is not None]
    if len(numbered) < len(live):
        if all(
            isinstance(f.value, bool) for f in live
        ):  # yes is the adverse answer of every yes/no fact but bore_proven
            wanted = live[0].name != "bore_proven"
            return next((f for f in live if f.value is wanted), live[-1])
        return live[-1]
    if adverse == "high":
        return max(numbered, key=lambda f: math.inf if f.high is None else f.high)
    if adverse == "low":
        return min(numbered, key=lambda f: -math.inf if f.low is None else f.low)
    lows = [f.low for f in numbered]
    highs = [f.high for f in numbered]
    span = Span(
        None if None in lows else min(v for v in lows if v is not None),
        None if None in highs else max(v for v in highs if v is not None),
    )
    return replace(live[-1], value=span, hedged=False, said=" or ".join(f.said for f in live if f.said))
