"""Which candidates fit? All checks against all candidates, and the cheap question "what if this fact were so?".

A judgement keeps one answer a check and candidate. A trial re-judges only the checks that rest on what changed, and
only the candidates that still stand: narrowing a need never brings a failed candidate back.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from interview.facts import Known
from interview.reference.connections import Connections
from interview.reference.tables import Tables
from interview.selection.candidates import Candidate, all_candidates
from interview.selection.checks import CHECKS
from interview.selection.checks.base import Check
from interview.selection.derive import derive
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.house_rules import HouseRules
from interview.selection.needs import ENDS_REST_ON, Needs, needs_of

NOBODY: frozenset[int] = frozenset()
ALIKE: Mapping[str, Callable[[Candidate], Hashable]] = {  # by a check's scope: candidates with one key get one answer
    "job": lambda candidate: None,
    "construction": lambda candidate: candidate.construction.id,
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
Told = list[tuple[Answer, Sequence[int]]]  # each answer with the candidates that get it


@dataclass(frozen=True)
class Bench:
    """What everything is judged with: tables, connections, rules, candidates."""

    tables: Tables
    connections: Connections
    rules: HouseRules
    candidates: tuple[Candidate, ...]

    @classmethod
    def of(cls, tables: Tables, connections: Connections, rules: HouseRules) -> Bench:
        return cls(tables, connections, rules, all_candidates(tables))

    @cached_property
    def alike(self) -> Mapping[str, tuple[Hashable, ...]]:
        """What each candidate has in common with those that a check of a scope answers alike."""
        return {scope: tuple(map(key, self.candidates)) for scope, key in ALIKE.items()}

    def grouped(self, which: Sequence[int]) -> Mapping[str, tuple[tuple[int, ...], ...]]:
        """Some of the candidates by scope, those together that a check of that scope answers alike."""
        return {scope: _groups(keys, which) for scope, keys in self.alike.items()}

    @cached_property
    def groups(self) -> Mapping[str, tuple[tuple[int, ...], ...]]:
        """All candidates, grouped."""
        return self.grouped(range(len(self.candidates)))

    @cached_property
    def blank(self) -> Judgement:
        """The judgement of a job of which nothing is known: where every interview starts from."""
        return judge(known_with(Known(), self), self)


@dataclass(frozen=True, slots=True)
class Marks:
    """Which candidates are failed, left open, passed or left with a thin margin; by index."""

    fails: frozenset[int] = NOBODY
    open: frozenset[int] = NOBODY
    thin: frozenset[int] = NOBODY

    @classmethod
    def of(cls, told: Told) -> Marks:
        fails: set[int] = set()
        still: set[int] = set()
        thin: set[int] = set()
        failing, opening = Verdict.FAILS, Verdict.OPEN
        for answer, whom in told:
            if not isinstance(answer, Finding):
                continue
            verdict = answer.verdict
            if verdict is failing:
                fails.update(whom)
            elif verdict is opening:
                still.update(whom)
            if answer.thin:
                thin.update(whom)
        return cls(frozenset(fails), frozenset(still), frozenset(thin))

    @classmethod
    def all_of(cls, marks: Sequence[Marks]) -> Marks:
        """One fail fails, else one open leaves it open."""
        fails = NOBODY.union(*(m.fails for m in marks))
        return cls(fails, NOBODY.union(*(m.open for m in marks)) - fails, NOBODY.union(*(m.thin for m in marks)))

    def code(self, index: int) -> int:
        """1 fits, 2 open, 3 fails."""
        return 3 if index in self.fails else 2 if index in self.open else 1


@dataclass(frozen=True, slots=True)
class Row:
    """What one check says: its answer to each candidate, and whether any of them is a finding."""

    answers: Sequence[Answer]
    marks: Marks
    finds: bool


@dataclass(frozen=True)
class Judgement:
    """All answers for one state of knowledge: a row a check, in the order of the checks."""

    needs: Needs
    bench: Bench
    rows: tuple[Row, ...]
    marks: Marks  # of all rows together

    @cached_property
    def verdict_codes(self) -> list[int]:
        """Each candidate's verdict: 1 fits, 2 open, 3 fails."""
        return [self.marks.code(i) for i in range(len(self.bench.candidates))]

    @cached_property
    def _finding_rows(self) -> list[Sequence[Answer]]:
        return [row.answers for row in self.rows if row.finds]

    def verdict(self, index: int) -> Verdict:
        return (Verdict.FITS, Verdict.OPEN, Verdict.FAILS)[self.marks.code(index) - 1]

    def findings(self, index: int) -> tuple[Finding, ...]:
        return tuple([a for row in self._finding_rows if isinstance(a := row[index], Finding)])

    def remarks(self, index: int) -> tuple[Finding | Remark, ...]:
        """Remarks and findings that fit with advice."""
        return tuple(
            a
            for row in self.rows
            if isinstance(a := row.answers[index], Remark)
            or (isinstance(a, Finding) and a.remark and a.verdict is Verdict.FITS)
        )

    def thin(self, index: int) -> bool:
        return index in self.marks.thin

    @cached_property
    def standing(self) -> tuple[int, ...]:
        """Candidates that fail nothing."""
        return tuple(i for i in range(len(self.bench.candidates)) if i not in self.marks.fails)

    @cached_property
    def standing_groups(self) -> Mapping[str, tuple[tuple[int, ...], ...]]:
        """The candidates that fail nothing, grouped as `Bench.groups` has them all."""
        return self.bench.grouped(self.standing)

    def counts(self) -> tuple[int, int, int]:
        """How many fit, are open, fail."""
        still, fails = len(self.marks.open), len(self.marks.fails)
        return len(self.bench.candidates) - still - fails, still, fails

    def failed_by(self, index: int) -> Finding | None:
        """The first check that fails a candidate, in the order of the checks."""
        if index not in self.marks.fails:
            return None
        answers = (row.answers[index] for row in self.rows if index in row.marks.fails)
        return next((a for a in answers if isinstance(a, Finding)), None)


def _groups(keys: Sequence[Hashable], which: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """Indices with one key together."""
    groups = defaultdict[Hashable, list[int]](list)
    for i in which:
        groups[keys[i]].append(i)
    return tuple(map(tuple, groups.values()))


def _tell(check: Check, needs: Needs, candidates: Sequence[Candidate], groups: Iterable[Sequence[int]]) -> Told:
    if not check.speaks(needs):
        return []
    judge_one = check.judge
    return [(judge_one(needs, candidates[group[0]]), group) for group in groups]


def _row(check: Check, needs: Needs, bench: Bench) -> Row:
    told = _tell(check, needs, bench.candidates, bench.groups[check.scope])
    answers: list[Answer] = [None] * len(bench.candidates)
    if len(told) == len(answers):  # each candidate its own, in their order
        answers = [answer for answer, _ in told]
    else:
        for answer, whom in told:
            if answer is not None:
                for i in whom:
                    answers[i] = answer
    return Row(answers, Marks.of(told), any(isinstance(answer, Finding) for answer, _ in told))


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
    """A "what if" over the candidates that stand: verdict code and thinness by index."""

    needs: Needs
    codes: dict[int, int]
    thin: dict[int, bool]


def what_if(base: Judgement, known: Known) -> Trial:
    """Re-judges only what rests on the change, only for those standing. `known` is derived already."""
    changed = changed_facts(base.needs.known, known)
    ends = None if changed & ENDS_REST_ON else base.needs.ends
    needs = needs_of(known, base.bench.rules, base.bench.tables, base.bench.connections, ends)
    candidates = base.bench.candidates
    marks: list[Marks] = []
    for check, row in zip(CHECKS, base.rows, strict=True):
        if check.rests_on & changed:
            marks.append(Marks.of(_tell(check, needs, candidates, base.standing_groups[check.scope])))
        else:
            marks.append(row.marks)
    all_marks = Marks.all_of(marks)
    standing = base.standing
    return Trial(needs, {i: all_marks.code(i) for i in standing}, {i: i in all_marks.thin for i in standing})
