"""What is asked next, and why? A pure function of flow, facts and findings.

Some facts are always settled. Any other is asked only if some answer within its plausible range would change the
recommended assembly, its rating or the outcome; at the end the unasked ones are tried together at their adverse values.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue.flows import Flow, Turn
from interview.facts import Fact, Known, Origin, Span, Value
from interview.selection.assembly import assemble
from interview.selection.choice import Ranking, first_of
from interview.selection.judge import Judgement, known_with, what_if


@dataclass(frozen=True, slots=True)
class NextTurn:
    """The parts of one turn that are due; `alone` where they come back after a compound question left them out."""

    turn: Turn
    parts: tuple[str, ...]
    alone: bool


@dataclass(frozen=True)
class Situation:
    """Everything the agenda looks at."""

    flow: Flow
    said: Known
    known: Known  # derived
    judgement: Judgement
    home: str
    offered: frozenset[str] = frozenset()  # facts that were part of a compound question already
    skipped: frozenset[str] = frozenset()  # put off by the user; they come back at the end
    for_build: bool = False
    ticked: frozenset[str] = frozenset()  # said to apply; the value of each is asked for alone

    @cached_property
    def signature(self) -> Signature:
        """What would come out as things stand."""
        return signature_of(self.judgement, self.known, self)


Signature = tuple[str, int | None, float | None]


def next_turn(now: Situation) -> NextTurn | None:
    """The first turn with something due, in the order of the flow; None where nothing is left to ask."""
    late: NextTurn | None = None
    for turn in now.flow.job.turns:
        for fact in turn.asks:
            if fact in now.ticked and fact not in now.skipped and not answered(fact, now) and _applies(fact, now):
                return NextTurn(turn, (fact,), True)
    for turn in now.flow.job.turns:
        parts = due_parts(turn, now)
        if not parts:
            continue
        kept = tuple(p for p in parts if p not in now.skipped)
        if not kept:
            late = late or NextTurn(turn, parts, True)
            continue
        return _shaped(turn, kept, now)
    if late is not None:
        return late
    slipped = slipped_through(now)
    return None if slipped is None else _shaped(*slipped, now)


def _shaped(turn: Turn, parts: tuple[str, ...], now: Situation) -> NextTurn:
    """Whole turn in company, or what is left of it alone."""
    if turn.ticks:
        return NextTurn(turn, parts, False)
    fresh = tuple(p for p in parts if p not in now.offered)
    if len(fresh) > 1 or (fresh and len(parts) == len(fresh)):
        return NextTurn(turn, fresh, False)
    return NextTurn(turn, parts[:1], True)


def due_parts(turn: Turn, now: Situation) -> tuple[str, ...]:
    """The parts of a turn that are due now; those that only go along join when one of the others is."""
    if not turn.asks or not turn.applies(now.said):
        return ()
    if turn.either and any(now.said.has(f) and now.said.flag(f) is not False for f in turn.asks):
        return ()
    silent = [f for f in turn.asks if not answered(f, now)]
    due = [f for f in silent if turn.settle_of(f) != "matters" and is_due(f, turn, now)]
    # One fact that matters takes its company along, so the trying stops at the first that was not offered before.
    weighing = [f for f in silent if turn.settle_of(f) == "matters"]
    due += [f for f in weighing if f in now.offered and is_due(f, turn, now)]
    if not due and not any(is_due(f, turn, now) for f in weighing if f not in now.offered):
        return ()
    return tuple(
        f
        for f in turn.asks
        if f in due
        or (
            f in silent
            and turn.settle_of(f) in ("along", "matters", "build")
            and f not in now.offered
            and _applies(f, now)
        )
    )


def answered(fact: str, now: Situation) -> bool:
    """Said, or said not to be known; or worked out from firm facts."""
    if now.said.answered(fact):
        return True
    return now.known.has(fact) and now.known.origin(fact) is Origin.COMPUTED


def _applies(fact: str, now: Situation) -> bool:
    question = now.flow.questions.get(fact)
    return question is not None and question.applies(now.said)


def is_due(fact: str, turn: Turn, now: Situation) -> bool:
    if not _applies(fact, now):
        return False
    settle = turn.settle_of(fact)
    if settle in ("always", "quote"):
        return True
    if settle == "follow":
        return opened(fact, now)
    if settle == "build":
        return now.for_build or opened(fact, now)
    if settle == "matters":
        return matters(fact, now) is not None
    return False


def opened(fact: str, now: Situation) -> bool:
    """True where "don't know" to another question leads here, and that one is still not settled."""
    return any(
        now.said.origin(name) is Origin.UNKNOWN
        and not (now.known.has(name) and now.known.origin(name) is Origin.COMPUTED)
        for name in now.flow.openers.get(fact, ())
    )


def matters(fact: str, now: Situation) -> Value | None:
    """The first trial value of a fact that changes recommendation, rating or outcome; None where none does."""
    for value, known in trials(fact, now):
        if signature_of(now.judgement, known, now) != now.signature:
            return value
    return None


def trials(fact: str, now: Situation) -> Iterator[tuple[Value, Known]]:
    """The facts as they would be at each trial value of one of them (extremes, or every choice)."""
    for value in trial_values(fact, now.flow):
        said = now.said.with_fact(Fact(fact, value))
        if fact.startswith("adapter_") and fact.endswith("_family"):
            side = fact.removesuffix("_family")
            said = said.with_fact(Fact(f"{side}_rating", 1e5))
        yield value, known_with(said, now.judgement.bench)


def trial_values(fact: str, flow: Flow) -> tuple[Value, ...]:
    """Plausible extremes of a quantity, both answers of a flag, every choice."""
    spec = CATALOGUE[fact]
    question = flow.questions.get(fact)
    if spec.kind is Kind.QUANTITY:
        plausible = question.plausible if question and question.plausible else spec.plausible
        if plausible is None:
            return ()
        ends = tuple(v * spec.factor for v in plausible)
        return ends[::-1] if spec.adverse == "high" else ends
    if spec.kind is Kind.FLAG:
        return (True, False)
    if spec.kind is Kind.CHOICE:
        return spec.choices
    if spec.kind is Kind.MANY:
        return tuple((c,) for c in spec.choices)
    if spec.kind is Kind.IDENT and fact.startswith("adapter_"):
        return ("other",)
    return ()


def signature_of(base: Judgement, known: Known, now: Situation) -> Signature:
    """What would come out: outcome, recommended candidate, and the assembly's rating as far as known."""
    if known.many("regulated_use"):
        return "referred", None, None
    standing = base.standing
    trial = what_if(base, known)
    marks = trial.marks
    still = [i for i in standing if not marks.fails >> i & 1]
    if not still:
        return "unmatched", None, None
    fits = [i for i in still if not marks.open >> i & 1]
    ranking = Ranking.of(trial.needs, base.bench, now.home)
    best = first_of(fits or still, marks.is_thin, ranking, base.bench)
    rating = None if best is None else assemble(trial.needs, base.bench.candidates[best]).at_most
    return ("fits" if fits else "open"), best, rating


def adverse_value(fact: str, flow: Flow) -> Value:
    """The answer that hurts most among the plausible ones."""
    values = trial_values(fact, flow)
    if not values:
        return None
    spec = CATALOGUE[fact]
    if spec.kind is Kind.QUANTITY and not spec.adverse:
        return Span(*sorted(v for v in values if isinstance(v, float)))
    return values[0] if spec.kind in (Kind.QUANTITY, Kind.FLAG) else values[-1]


def slipped_through(now: Situation) -> tuple[Turn, tuple[str, ...]] | None:
    """What mattered to nobody alone, tried at its adverse values: each turn's facts together, then all of them.

    Returns the turn to blame with its silent facts, or None where even all of them together change nothing.
    """
    silent = [(turn, parts) for turn in now.flow.job.turns if (parts := silent_parts(turn, now))]
    for turn, parts in silent:
        if _changes(parts, now):
            return turn, parts
    everything = tuple(f for _, parts in silent for f in parts)
    return silent[0] if everything and _changes(everything, now) else None


def silent_parts(turn: Turn, now: Situation) -> tuple[str, ...]:
    """The facts of a turn nobody was asked for because none of them alone would change anything."""
    if not turn.applies(now.said) or "matters" not in {turn.settle_of(f) for f in turn.asks}:
        return ()
    if turn.either and any(now.said.has(f) for f in turn.asks):
        return ()
    parts = tuple(
        f
        for f in turn.asks
        if turn.settle_of(f) in ("matters", "along")
        and not answered(f, now)
        and _applies(f, now)
        and f not in now.offered
    )
    return parts if any(turn.settle_of(f) == "matters" for f in parts) else ()


def _changes(facts: tuple[str, ...], now: Situation) -> bool:
    """True where these facts, all at their adverse values, change what comes out."""
    said = now.said
    for fact in facts:
        value = adverse_value(fact, now.flow)
        if value is not None:
            said = said.with_fact(Fact(fact, value))
    return signature_of(now.judgement, known_with(said, now.judgement.bench), now) != now.signature


def hangs_on(fact: str, now: Situation) -> list[str]:
    """Why a question is asked, from the same data: constructions whose verdict at a trial value differs from now."""
    standing = now.judgement.standing
    names: dict[str, None] = {}
    for _, known in trials(fact, now):
        trial = what_if(now.judgement, known)
        for i in standing:
            if trial.marks.code(i) != now.judgement.marks.code(i):
                c = now.judgement.bench.candidates[i]
                names[f"{c.construction.type.split(' (')[0]} -{c.bore:g}"] = None
    return list(names)


__all__ = ["NextTurn", "Situation", "next_turn"]
