"""Which candidates fit? All checks against all candidates, and the cheap question "what if this fact were so?".

A judgement keeps one answer a check and candidate. A trial re-judges only the checks that rest on what changed, and only
the candidates that still stand: narrowing a need never brings a failed candidate back.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
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
from interview.selection.needs import Needs, needs_of

CODE = {Verdict.FITS: 1, Verdict.OPEN: 2, Verdict.FAILS: 3}
VERDICT = {0: Verdict.FITS, 1: Verdict.FITS, 2: Verdict.OPEN, 3: Verdict.FAILS}


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
    def blank(self) -> Judgement:
        """The judgement of a job of which nothing is known: where every interview starts from."""
        return judge(known_with(Known(), self), self)


@dataclass(frozen=True)
class Judgement:
    """All answers for one state of knowledge. `codes[i][k]`: check k on candidate i (0 none, 1 fits, 2 open, 3 fails)."""

    needs: Needs
    bench: Bench
    answers: tuple[Sequence[Answer], ...]  # by check, then candidate
    codes: tuple[Sequence[int], ...]  # by check, then candidate
    thins: tuple[Sequence[bool], ...]  # by check, then candidate
    verdict_codes: Sequence[int]
    thin_codes: Sequence[bool]

    def verdict(self, index: int) -> Verdict:
        return VERDICT[self.verdict_codes[index]]

    def findings(self, index: int) -> tuple[Finding, ...]:
        return tuple(a for row in self.answers if isinstance(a := row[index], Finding))

    def remarks(self, index: int) -> tuple[Finding | Remark, ...]:
        """Remarks and findings that fit with advice."""
        return tuple(
            a
            for row in self.answers
            if isinstance(a := row[index], Remark)
            or (isinstance(a, Finding) and a.remark and a.verdict is Verdict.FITS)
        )

    def thin(self, index: int) -> bool:
        return self.thin_codes[index]

    def standing(self) -> list[int]:
        """Candidates that fail nothing."""
        return [i for i, code in enumerate(self.verdict_codes) if code != 3]

    def counts(self) -> tuple[int, int, int]:
        """How many fit, are open, fail."""
        codes = self.verdict_codes
        fails = sum(1 for c in codes if c == 3)
        still = sum(1 for c in codes if c == 2)
        return len(codes) - fails - still, still, fails

    def failed_by(self, index: int) -> Finding | None:
        """The first check that fails a candidate, in the order of the checks."""
        return next((f for f in self.findings(index) if f.verdict is Verdict.FAILS), None)


def _codes(answers: Sequence[Answer]) -> list[int]:
    return [CODE[a.verdict] if a.__class__ is Finding else 0 for a in answers]  # type: ignore[union-attr]


def _thins(answers: Sequence[Answer]) -> list[bool]:
    return [a.__class__ is Finding and a.thin for a in answers]  # type: ignore[union-attr]


def _run(check: Check, needs: Needs, candidates: Iterable[Candidate]) -> list[Answer]:
    judge = check.judge
    if check.scope == "size":
        return [judge(needs, c) for c in candidates]
    if check.scope in ("construction", "bore"):
        by_bore = check.scope == "bore"
        seen: dict[object, Answer] = {}
        answers: list[Answer] = []
        for c in candidates:
            key = c.size.nominal_bore if by_bore else c.construction.id
            if key not in seen:
                seen[key] = judge(needs, c)
            answers.append(seen[key])
        return answers
    listed = list(candidates)
    return [judge(needs, listed[0])] * len(listed) if listed else []


def _worst(codes: Sequence[Sequence[int]]) -> list[int]:
    """The highest code of each candidate; rows in which no check answered cost nothing."""
    spoken = [row for row in codes if any(row)]
    return (
        list(map(max, zip(*spoken, strict=True)))
        if len(spoken) > 1
        else list(spoken[0] if spoken else [0] * len(codes[0]))
    )


def _thinnest(thins: Sequence[Sequence[bool]]) -> list[bool]:
    spoken = [row for row in thins if any(row)]
    return list(map(any, zip(*spoken, strict=True))) if spoken else [False] * len(thins[0])


def known_with(said: Known, bench: Bench) -> Known:
    """What was said with what follows from it."""
    return derive(said, bench.rules, bench.tables.fluids.get, bench.connections)


def judge(known: Known, bench: Bench, before: Judgement | None = None) -> Judgement:
    """Judges every candidate. `known` is derived already. With `before`, checks that rest on nothing new are kept."""
    needs = needs_of(known, bench.rules, bench.tables, bench.connections)
    changed = None if before is None else changed_facts(before.needs.known, known)
    answers: list[Sequence[Answer]] = []
    codes: list[Sequence[int]] = []
    thins: list[Sequence[bool]] = []
    for k, check in enumerate(CHECKS):
        if before is not None and changed is not None and not (check.rests_on & changed):
            answers.append(before.answers[k])
            codes.append(before.codes[k])
            thins.append(before.thins[k])
            continue
        row = _run(check, needs, bench.candidates)
        answers.append(row)
        codes.append(_codes(row))
        thins.append(_thins(row))
    return Judgement(needs, bench, tuple(answers), tuple(codes), tuple(thins), _worst(codes), _thinnest(thins))


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


def what_if(base: Judgement, known: Known, standing: Sequence[int]) -> Trial:
    """Re-judges only what rests on the change, only for those standing. `known` is derived already."""
    needs = needs_of(known, base.bench.rules, base.bench.tables, base.bench.connections)
    changed = changed_facts(base.needs.known, known)
    touched = [k for k, check in enumerate(CHECKS) if check.rests_on & changed]
    kept = [k for k in range(len(CHECKS)) if k not in touched]
    candidates = [base.bench.candidates[i] for i in standing]
    fresh = [_run(CHECKS[k], needs, candidates) for k in touched]
    fresh_codes, fresh_thins = [_codes(row) for row in fresh], [_thins(row) for row in fresh]
    codes: dict[int, int] = {}
    thin: dict[int, bool] = {}
    for position, i in enumerate(standing):
        # Only where a touched check gave the verdict must the others be looked at one by one.
        code, is_thin = base.verdict_codes[i], base.thin_codes[i]
        if code and any(base.codes[k][i] == code for k in touched):
            code = max((base.codes[k][i] for k in kept), default=0)
        if is_thin and any(base.thins[k][i] for k in touched):
            is_thin = any(base.thins[k][i] for k in kept)
        for row in fresh_codes:
            if row[position] > code:
                code = row[position]
        codes[i] = code
        thin[i] = is_thin or any(row[position] for row in fresh_thins)
    return Trial(needs, codes, thin)
