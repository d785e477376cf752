"""What happens when a scenario's customer is interviewed? The same engine, answered from `knows`, without a screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.fit_view import FitView
from interview.dialogue.session import Session
from interview.language.listen import listen
from interview.language.model import Heard
from interview.selection.judge import Bench
from interview.training.scenario import Scenario

MOST_TURNS = 200


@dataclass(frozen=True)
class ShownTurn:
    """One turn of a replay: what was said, what happened, what still fits afterwards."""

    said: str
    events: list[ev.Event]
    fits: FitView | None


@dataclass
class Replay:
    """A scenario played to its end."""

    scenario: Scenario
    session: Session
    turns: list[ShownTurn] = field(default_factory=list)
    understood: dict[str, Heard] = field(default_factory=dict)


def play(scenario: Scenario, knows: dict[str, Heard], bench: Bench | None = None, *, show: bool = False) -> Replay:
    """Interviews the scenario's customer until nothing is left to ask. `show` keeps what fits after every turn."""
    session = Session(job=scenario.flow, on=bench)
    replay = Replay(scenario, session)

    def note(said: str, events: list[ev.Event]) -> None:
        replay.turns.append(ShownTurn(said, events, session.fit_lines(400) if show else None))

    note("", session.open())
    if scenario.opening:
        heard = listen(scenario.opening, home=session.home)
        replay.understood = {h.name: h for h in heard.facts}
        note(scenario.opening, session.say(scenario.opening))
    used: set[int] = set()
    stuck = 0
    for number in range(1, MOST_TURNS):
        if session.state == "review":
            if session.now.for_build or not _build_facts_known(session, knows):
                break
            note("build", session.build())
            continue
        if session.finished:
            break
        if session.state == "clarifying":
            note(*_clear(session, knows))
            continue
        if session.state == "conflict":
            note(*_choose(session, knows))
            continue
        asked = session.asked
        if asked is None:
            break
        line = _line(scenario, asked.parts, number, used)
        before = (session.asked.parts if session.asked else (), len(session.now.ledger.entries))
        if line is not None:
            note(line, session.say(line))
        else:
            answers = _answers(asked.parts, knows)
            note(_spoken(answers), session.answer(answers))
        after = (session.asked.parts if session.asked else (), len(session.now.ledger.entries))
        stuck = stuck + 1 if before == after else 0
        if stuck > 3:
            break
    return replay


def _line(scenario: Scenario, parts: Sequence[str], number: int, used: set[int]) -> str | None:
    for i, saying in enumerate(scenario.says):
        if i not in used and (saying.asked in parts or saying.turn == number):
            used.add(i)
            return saying.line
    return None


def _answers(parts: Sequence[str], knows: dict[str, Heard]) -> dict[str, Heard | None]:
    """What the customer knows of the parts asked; what is not listed is "don't know"."""
    answers: dict[str, Heard | None] = {}
    for name in parts:
        if name in knows:
            answers[name] = knows[name]
        elif name == "regulated_use":
            answers[name] = Heard(name, ("none",), said="none")
        elif name.startswith("adapter_") and name.endswith("_family"):
            answers[name] = Heard(name, "none", said="no adapter")
        else:
            answers[name] = None
    if "old_construction" in answers or "layline" in parts:
        for extra in ("old_rating", "marked_size", "hose_date"):
            if extra in knows:
                answers[extra] = knows[extra]
    for end in ("end_a", "end_b"):
        if (
            f"{end}_family" in parts and f"{end}_family" in knows and knows[f"{end}_family"].value != "other"
        ):  # who reads an end out gives its sheet's rating with it
            for said in ("rating", "swivel"):
                if (extra := f"{end}_{said}") in knows:
                    answers[extra] = knows[extra]
    return answers


def _spoken(answers: dict[str, Heard | None]) -> str:
    known = [f"{CATALOGUE[n].label}: {h.said or 'none'}" for n, h in answers.items() if h is not None]
    unknown = [CATALOGUE[n].label for n, h in answers.items() if h is None]
    if not known:
        return "don't know"
    return "; ".join(known) + (f" (don't know: {', '.join(unknown)})" if unknown else "")


def _clear(session: Session, knows: dict[str, Heard]) -> tuple[str, list[ev.Event]]:
    """The customer says which meaning is right, where `knows` tells; else leaves it out."""
    doubt = session.now.doubts[0]
    for i, readings in enumerate(doubt.options, 1):
        if all((known := knows.get(r.name)) is not None and known.value == r.value for r in readings):
            return str(i), session.say(str(i))
    last = str(len(doubt.options) + 1)
    return last, session.say(last)


def _choose(session: Session, knows: dict[str, Heard]) -> tuple[str, list[ev.Event]]:
    conflict = session.now.ledger.conflicts()[0]
    known = knows.get(conflict.name)
    for i, saying in enumerate(conflict.sayings, 1):
        if known is not None and saying.value == known.value:
            return str(i), session.say(str(i))
    governs = session.said[conflict.name]
    index = next((i for i, s in enumerate(conflict.sayings, 1) if s.value == governs.value), len(conflict.sayings))
    return str(index), session.say(str(index))


def _build_facts_known(session: Session, knows: dict[str, Heard]) -> bool:
    """True where the customer could answer something that only a build asks."""
    build = [f for t in session.flow.job.turns for f in t.asks if t.settle_of(f) == "build"]
    return any(f in knows and not session.said.has(f) for f in build)
