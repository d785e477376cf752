"""How is a question put? What is asked, with its options and hints; what is asked back, and what waits meanwhile."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue import events as ev
from interview.dialogue.agenda import NextTurn
from interview.dialogue.flows import Question
from interview.dialogue.views import topic_lines, value_shown
from interview.dialogue.wording import label, sentence
from interview.facts import Fact
from interview.ledger import Conflict

if TYPE_CHECKING:
    from interview.dialogue.session import Session
    from interview.dialogue.state import Doubt
    from interview.language.model import Heard

HINTS = {
    "pressure": "a pressure, e.g. 2500 psi or 170 bar",
    "temperature": "a temperature, e.g. 180 F or 80 C",
    "length": "a length, e.g. 42 in or 1050 mm",
    "flow": "a flow, e.g. 12 US gpm or 45 L/min",
    "size": "a size, e.g. 1/2 in, -8 or DN 12",
    "number": "a number",
    "rate": "how many an hour",
    "hours": "hours",
    "years": "years",
    "time": "a time, e.g. 0.2 s",
    "displacement": "e.g. 45 cc",
    "speed": "e.g. 1800 rpm",
    "angle": "degrees",
    "grade": "e.g. 46",
}


def asked(turn: NextTurn, session: Session, *, again: bool) -> ev.Asked:
    """The question for the parts of a turn that are due."""
    flow = session.flow
    parts = turn.parts
    first = flow.questions[parts[0]]
    if turn.turn.ticks:
        text = turn.turn.text if set(parts) == set(turn.turn.asks) else 'Of the rest, does any apply? "none" if none.'
        if len(parts) == 1:
            text = first.ask
        options = tuple(ev.Option(p, flow.questions[p].tick or flow.questions[p].short) for p in parts)
        if len(parts) > 1:
            return _asked(turn, session, text, options, True, "numbers or words, or none", again)
    if len(parts) == 1:
        return _asked(
            turn,
            session,
            first.ask,
            options_of(parts[0], first),
            CATALOGUE[parts[0]].kind is Kind.MANY,
            hint_of(parts[0], first),
            again,
        )
    whole = set(parts) == set(turn.turn.asks) and turn.turn.text
    text = (
        turn.turn.text
        if whole
        else sentence("Tell me, as far as you know: " + "; ".join(flow.questions[p].short for p in parts))
    )
    hints = (h for p in parts if (h := hint_of(p, flow.questions[p])) not in ("", "yes or no", "in words"))
    hint = f"e.g. {turn.turn.example}" if whole and turn.turn.example else "; ".join(dict.fromkeys(hints))
    chooser = option_part(turn, session)
    if chooser is None:
        return _asked(turn, session, text, (), False, hint, again)
    return _asked(
        turn,
        session,
        text,
        options_of(chooser, flow.questions[chooser]),
        CATALOGUE[chooser].kind is Kind.MANY,
        hint,
        again,
    )


def option_part(turn: NextTurn, session: Session) -> str | None:
    """The one fact of a turn whose options are offered by number: a question alone, or the only choice in company."""
    if len(turn.parts) == 1:
        return turn.parts[0]
    choices = [p for p in turn.parts if CATALOGUE[p].kind in (Kind.CHOICE, Kind.MANY)]
    return choices[0] if len(choices) == 1 else None


def _asked(
    turn: NextTurn, session: Session, text: str, options: tuple[ev.Option, ...], many: bool, hint: str, again: bool
) -> ev.Asked:
    question = session.flow.questions[turn.parts[0]]
    return ev.Asked(
        session.turn,
        CATALOGUE[turn.parts[0]].topic,
        turn.parts,
        text,
        hint,
        options,
        many,
        question.why,
        question.how,
        again,
        session.now.questions_asked,
        {line.topic: line.state for line in topic_lines(session)},
    )


def options_of(name: str, question: Question) -> tuple[ev.Option, ...]:
    """The options offered by number."""
    spec = CATALOGUE[name]
    if spec.kind is Kind.FLAG:
        return (ev.Option("yes", "yes"), ev.Option("no", "no"))
    offered = question.offer or tuple(c for c in spec.choices if c in question.options)
    return tuple(ev.Option(c, question.options[c]) for c in offered)


def hint_of(name: str, question: Question) -> str:
    if question.hint:
        return question.hint
    spec = CATALOGUE[name]
    if spec.kind is Kind.QUANTITY:
        return HINTS.get(spec.measures, "")
    return "yes or no" if spec.kind is Kind.FLAG else ""


def all_options(session: Session) -> ev.Event:
    if session.asked is None:
        return ev.nothing_open("Options")
    lines = []
    for part in session.asked.parts:
        question = session.flow.questions[part]
        lines += [f"{value.replace('_', ' ')}: {text}" for value, text in question.options.items()]
    return ev.Explained("Options", tuple(lines) or ("This question takes a value in your own words.",))


# ---- asked back --------------------------------------------------------------------------------------------------


def doubted(doubt: Doubt, session: Session) -> ev.Event:
    """Which of several meanings, or whether an implausible number is meant."""
    then = waiting(session, (r.name for r in doubt.readings))
    if doubt.implausible:
        options = [ev.Option(doubt.readings[0].name, "yes, take it as said")]
        return ev.Doubted(doubt.said, doubt.why, (*options, ev.Option("", "no, leave it out; I say it again")), then)
    options = [ev.Option(some[0].name, reading_shown(some, session)) for some in doubt.options]
    text = f'"{doubt.said}": {doubt.why or "which is meant?"}'
    if not options:
        text += " Say it again with what it is."
    return ev.Doubted(doubt.said, text, (*options, ev.Option("", "none of these; leave it out")), then)


def reading_shown(readings: tuple[Heard, ...], session: Session) -> str:
    """One meaning in plain words; of a range both ends: "air at the hose -25 °C to 30 °C"."""
    shown = [value_shown(Fact(r.name, r.value, unit=r.unit), session) for r in readings]
    if len(readings) == 1:
        return f"{label(readings[0].name)} {shown[0]}"
    low, high = sorted(zip((r.value for r in readings), shown, strict=True), key=lambda v: v[0])  # type: ignore[arg-type,return-value]
    return f"{label(readings[0].name).partition(' ')[2]} {low[1]} to {high[1]}"


def conflicted(conflict: Conflict, session: Session) -> ev.Event:
    """Which of two sayings holds."""
    options = tuple(
        ev.Option(str(i), f"{value_shown(f, session)}{f' ({f.said})' if f.said else ''}")
        for i, f in enumerate(conflict.sayings)
    )
    governs = value_shown(session.said[conflict.name], session)
    return ev.Conflicted(
        conflict.name,
        f"Two answers for {label(conflict.name)}. Until you choose, {governs} governs, the safer one.",
        options,
        waiting(session, (conflict.name,)),
    )


def waiting(session: Session, asked_back: Iterable[str]) -> str:
    """The question that was put and comes again once what is asked back is cleared, in one line; empty without one."""
    unanswered = {p for p in session.now.on_table if not session.said.answered(p)}.difference(asked_back)
    chosen = session.next_question() if unanswered else None
    if chosen is None or unanswered.isdisjoint(chosen.parts):
        return ""
    many = chosen.turn.ticks and len(chosen.parts) > 1  # of a list, what is left of it is asked in other words
    text = chosen.turn.text if many else asked(chosen, session, again=False).text
    question = re.split(r"(?<=[?.]) ", text)[0]
    return f'After this I ask again: "{question}"'
