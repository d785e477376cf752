"""Which candidates fit? All checks against all candidates, and the cheap question "what if this fact were so?".

A judgement keeps one answer a check and candidate. A trial re-judges only the checks that rest on what changed, and
only the candidates that still stand: narrowing a need never brings a failed candidate back.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf
from typing import Any

from interview.facts import Known
from interview.reference.connections import Connections
from interview.reference.tables import Tables
from interview.selection.candidates import Candidate, all_candidates, twin_group, with_shelf
from interview.selection.checks import CHECKS
from interview.selection.checks.base import Check
from interview.selection.derive import derive
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.house_rules import HouseRules
from interview.selection.marks import Group, Marks, Told, grouped, members
from interview.selection.needs import ENDS_REST_ON, UNKNOWN, Needs, needs_of
from interview.selection.shelf import Item

ALIKE: Mapping[str, Callable[[Candidate], Hashable]] = {  # by a check's scope: candidates with one key get one answer
    "job": lambda candidate: None,
    "construction": lambda candidate: (candidate.construction.id, candidate.own),
    "bore": lambda candidate: candidate.size.nominal_bore,
    "rating": lambda candidate: (
        candidate.kind,
        candidate.size.wp_select,
        candidate.size.psi_printed,
        candidate.psi,
        id(candidate.size.evidence.get("working_pressure")),
    ),
    "size": lambda candidate: candidate.index,
}


@dataclass(frozen=True)
class Bench:
    """What everything is judged with: tables, connections, rules, candidates."""

    tables: Tables
    connections: Connections
    rules: HouseRules
    candidates: tuple[Candidate, ...]

    @classmethod
    def of(cls, tables: Tables, connections: Connections, rules: HouseRules, shelf: Sequence[Item] = ()) -> Bench:
        return cls(tables, connections, rules, with_shelf(all_candidates(tables), shelf))

    @cached_property
    def shelf(self) -> tuple[Item, ...]:
        """Everything on the shop's shelf."""
        return tuple(item for candidate in self.candidates for item in candidate.items)

    @cached_property
    def ranks(self) -> dict[Hashable, dict[tuple[int, bool], Any]]:
        """Each candidate's place in the order of preference, by what the order needs to know of the job."""
        return {}

    @cached_property
    def made(self) -> Mapping[str, tuple[Candidate, ...]]:
        """The bores each construction is made in."""
        made = defaultdict[str, tuple[Candidate, ...]](tuple)
        for candidate in self.candidates:
            made[candidate.id] += (candidate,)
        return dict(made)

    @cached_property
    def alike(self) -> Mapping[str, tuple[Hashable, ...]]:
        """What each candidate has in common with those that a check of a scope answers alike."""
        return {scope: tuple(map(key, self.candidates)) for scope, key in ALIKE.items()}

    @cached_property
    def groups(self) -> Mapping[str, tuple[Group, ...]]:
        """All candidates by scope, those together that a check of that scope answers alike."""
        return {scope: grouped(keys) for scope, keys in self.alike.items()}

    @cached_property
    def places(self) -> Mapping[str, tuple[int, ...]]:
        """Of each candidate, by scope, which of the groups it is in."""
        places = {}
        for scope, keys in self.alike.items():
            number = {key: k for k, key in enumerate(dict.fromkeys(keys))}
            places[scope] = tuple(number[key] for key in keys)
        return places

    @cached_property
    def everyone(self) -> int:
        """All candidates as bits."""
        return (1 << len(self.candidates)) - 1

    @cached_property
    def blank(self) -> Judgement:
        """The judgement of a job of which nothing is known: where every interview starts from."""
        return judge(known_with(Known(), self), self)


@dataclass(frozen=True, slots=True)
class Row:
    """What one check says: its answers, each with those that get it; `place` says which of them a candidate gets."""

    told: Told  # empty where the check has nothing to say of this job
    place: Sequence[int]
    marks: Marks

    def answer(self, index: int) -> Answer:
        return self.told[self.place[index]][0] if self.told else None


@dataclass(frozen=True)
class Judgement:
    """All answers for one state of knowledge: a row a check, in the order of the checks."""

    needs: Needs
    bench: Bench
    rows: tuple[Row, ...]
    marks: Marks  # of all rows together

    def verdict(self, index: int) -> Verdict:
        return (Verdict.FITS, Verdict.OPEN, Verdict.FAILS)[self.marks.code(index) - 1]

    def findings(self, index: int) -> tuple[Finding, ...]:
        return tuple([a for row in self.rows if isinstance(a := row.answer(index), Finding)])

    def remarks(self, index: int) -> tuple[Finding | Remark, ...]:
        """Remarks and findings that fit with advice."""
        return tuple(
            a
            for row in self.rows
            if isinstance(a := row.answer(index), Remark)
            or (isinstance(a, Finding) and a.remark and a.verdict is Verdict.FITS)
        )

    def sold_as(self, index: int) -> tuple[Candidate, ...]:
        """A hose and its counterparts at its bore, any of which may be sold for it; none that fails where it does not.

        An item of the shelf with figures of its own is that item and nothing else.
        """
        this = self.bench.candidates[index]
        if this.own:
            return (this,)
        group, fails = twin_group(this.id, self.bench.tables), self.marks.fails
        return tuple(
            c
            for i, c in enumerate(self.bench.candidates)
            if c.id in group
            and c.bore == this.bore
            and not c.own
            and (i == index or fails >> index & 1 or not fails >> i & 1)
        )

    def thin(self, index: int) -> bool:
        return self.marks.is_thin(index)

    @cached_property
    def standing(self) -> tuple[int, ...]:
        """Candidates that fail nothing."""
        return tuple(members(self.bench.everyone & ~self.marks.fails))

    @cached_property
    def _standing_groups(self) -> dict[str, list[Group]]:
        return {}

    def standing_groups(self, scope: str) -> list[Group]:
        """The candidates that fail nothing, grouped as `Bench.groups` has them all."""
        groups = self._standing_groups.get(scope)
        if groups is None:
            bits = self.bench.everyone & ~self.marks.fails
            left = [group.bits & bits for group in self.bench.groups[scope]]
            groups = self._standing_groups[scope] = [Group((b & -b).bit_length() - 1, b) for b in left if b]
        return groups

    def counts(self) -> tuple[int, int, int]:
        """How many fit, are open, fail."""
        still, fails = self.marks.open.bit_count(), self.marks.fails.bit_count()
        return len(self.bench.candidates) - still - fails, still, fails

    @cached_property
    def least_failed(self) -> int:
        """The nearest of those that fail: fewest failed checks, at the bore given, least short in what is shortest."""
        fails = [row.marks.fails for row in self.rows if row.marks.fails]
        count = [sum(f >> i & 1 for f in fails) for i in range(len(self.bench.candidates))]
        least = min(count)
        fewest = [i for i, number in enumerate(count) if number == least]
        given = [i for i in fewest if self._of_the_bore(i)]
        return min(given or fewest, key=lambda i: sorted(map(_shortfall, self.failing(i)), reverse=True))

    def _of_the_bore(self, index: int) -> bool:
        low, high = self.needs.bore
        bore = self.bench.candidates[index].bore
        return self.needs.bore != UNKNOWN and (low is None or bore >= low) and (high is None or bore <= high)

    def failing(self, index: int) -> list[Finding]:
        return [f for f in self.findings(index) if f.verdict is Verdict.FAILS]

    @property
    def ends_block(self) -> bool:
        """True where there is a hose for the job and only what is on its ends stands in the way."""
        blocks = [] if self.standing else self.failing(self.least_failed)
        return bool(blocks) and all(f.topic == "ends" for f in blocks)

    def carried_by_none(self) -> str:
        """Whether any hose carries the pressure: "" one does, "bore" none of the size needed, "tables" none at all."""
        failed = dict(zip((check.id for check in CHECKS), (row.marks.fails for row in self.rows), strict=True))
        if not self.bench.everyone & ~failed["pressure"]:
            return "tables"
        sized = self.bench.everyone & ~failed["bore"] & ~failed["velocity"]
        return "bore" if sized and not sized & ~failed["pressure"] else ""

    def failed_by(self, index: int) -> Finding | None:
        """The first check that fails a candidate, in the order of the checks."""
        answers = (row.answer(index) for row in self.rows if row.marks.fails >> index & 1)
        return next((a for a in answers if isinstance(a, Finding)), None)


def _shortfall(finding: Finding) -> float:
    """How much is missing, as a share of the need; infinite where it is a matter of yes or no.

    Of temperatures as a share of the absolute one: a ratio of degrees Celsius means nothing.
    """
    need, have = finding.need, finding.have
    if finding.measures == "temperature":
        return abs(have - need) / (need + 273.15) if isinstance(need, float) and isinstance(have, float) else inf
    if finding.margin is not None:
        return max(-finding.margin, 0.0)
    return abs(have / need - 1) if isinstance(need, float) and isinstance(have, float) and need else inf


def _tell(check: Check, needs: Needs, candidates: Sequence[Candidate], groups: Iterable[Group]) -> Told:
    if not check.speaks(needs):
        return []
    judge_one = check.judge
    return [(judge_one(needs, candidates[group.first]), group) for group in groups]


def _row(check: Check, needs: Needs, bench: Bench) -> Row:
    told = _tell(check, needs, bench.candidates, bench.groups[check.scope])
    return Row(told, bench.places[check.scope], Marks.of(told))


def known_with(said: Known, bench: Bench) -> Known:
    """What was said with what follows from it."""
    return derive(said, bench.rules, bench.tables.fluids.get, bench.connections)


def judge(known: Known, bench: Bench, before: Judgement | None = None) -> Judgement:
    """Judges every candidate. `known` is derived already. With `before`, checks that rest on nothing new are kept."""
    changed = None if before is None else changed_facts(before.needs.known, known)
    ends = before.needs.ends if before is not None and changed is not None and not (changed & ENDS_REST_ON) else None
    needs = needs_of(known, bench.rules, bench.tables, bench.connections, ends)
    rows = tuple(
        before.rows[k]
        if before is not None and changed is not None and not (check.rests_on & changed)
        else _row(check, needs, bench)
        for k, check in enumerate(CHECKS)
    )
    return Judgement(needs, bench, rows, Marks.all_of([row.marks for row in rows]))


def changed_facts(before: Known, after: Known) -> frozenset[str]:
    """Names whose governing fact differs (value, hedge, unit, or whether it was answered)."""
    names = set(before) | set(after)
    return frozenset(n for n in names if before.get(n) is not after.get(n) and _differs(before, after, n))


def _differs(before: Known, after: Known, name: str) -> bool:
    one, other = before.get(name), after.get(name)
    if one is None or other is None:
        return True
    return (one.value, one.hedged, one.unit, one.origin) != (other.value, other.hedged, other.unit, other.origin)


@dataclass(frozen=True, slots=True)
class Trial:
    """A "what if" over the candidates that stand: what is asked of it then, and how they are marked."""

    needs: Needs
    marks: Marks


def what_if(base: Judgement, known: Known) -> Trial:
    """Re-judges only what rests on the change, only for those standing. `known` is derived already."""
    changed = changed_facts(base.needs.known, known)
    ends = None if changed & ENDS_REST_ON else base.needs.ends
    needs = needs_of(known, base.bench.rules, base.bench.tables, base.bench.connections, ends)
    candidates = base.bench.candidates
    marks: list[Marks] = []
    for check, row in zip(CHECKS, base.rows, strict=True):
        if check.rests_on & changed:
            marks.append(Marks.of(_tell(check, needs, candidates, base.standing_groups(check.scope))))
        else:
            marks.append(row.marks)
    return Trial(needs, Marks.all_of(marks))
