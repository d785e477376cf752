"""Every option that is offered is understood by its number and by its own words, in every kind of job."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue import questions
from interview.dialogue.agenda import NextTurn
from interview.dialogue.flows import Turn, load_flow
from interview.dialogue.session import Session, bench
from interview.selection.judge import Bench

JOBS = ("failed_hose", "sample", "new_line", "repeat")


@pytest.fixture(scope="module")
def on() -> Bench:
    return bench(shelved=False)


def put(on: Bench, job: str, turn: Turn, parts: tuple[str, ...]) -> Session:
    """A session that has this question on the table."""
    session = Session(on=on, job=job)
    session.open()
    session.to_ask = NextTurn(turn, parts, len(parts) == 1)
    session.now.on_table = parts
    session.asked = questions.asked(session.to_ask, session, again=False)
    return session


def offered(job: str, *, alone: bool) -> Iterator[tuple[str, Turn, tuple[str, ...]]]:
    for turn in load_flow(job).job.turns:
        if alone:
            yield from ((job, turn, (part,)) for part in turn.asks)
        elif len(turn.asks) > 1:
            yield job, turn, tuple(turn.asks)


def has_options(job: str, turn: Turn, parts: tuple[str, ...]) -> bool:
    """Whether this question offers anything by number: a list of ticks, or one fact with options."""
    if turn.ticks and len(parts) > 1:
        return True
    choices = [p for p in parts if CATALOGUE[p].kind in (Kind.CHOICE, Kind.MANY)]
    asks = load_flow(job).questions
    one = parts[0] if len(parts) == 1 else choices[0] if len(choices) == 1 else None
    return one is not None and bool(questions.options_of(one, asks[one]))


CASES = [case for job in JOBS for alone in (True, False) for case in offered(job, alone=alone) if has_options(*case)]


@pytest.mark.parametrize(("job", "turn", "parts"), CASES, ids=[f"{j}-{'+'.join(p)}" for j, _, p in CASES])
def test_every_option_by_its_label_and_by_its_number(on: Bench, job: str, turn: Turn, parts: tuple[str, ...]) -> None:
    first = put(on, job, turn, parts)
    assert first.asked is not None and first.asked.options
    wrong = []
    for number, option in enumerate(first.asked.options, 1):
        for typed in (str(number), option.label, f"{option.label[0].upper()}{option.label[1:]}."):
            session = put(on, job, turn, parts)
            session.say(typed)
            if not chosen(session, turn, parts, option.value):
                wrong.append(typed)
    assert wrong == []


def chosen(session: Session, turn: Turn, parts: tuple[str, ...], value: str) -> bool:
    if turn.ticks and len(parts) > 1:
        return session.said.has(value) or value in session.now.ticked
    name = parts[0] if len(parts) == 1 else next(p for p in parts if CATALOGUE[p].kind in (Kind.CHOICE, Kind.MANY))
    if name == "job_kind":
        return session.now.job == value
    kept = session.said.value(name)
    if CATALOGUE[name].kind is Kind.MANY:
        return kept == (value,)
    return kept is (value == "yes") if CATALOGUE[name].kind is Kind.FLAG else kept == value
