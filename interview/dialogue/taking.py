"""What is taken from a line? An option by number, facts, "don't know", what clears a doubt; the rest is said back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from interview.dialogue import events as ev
from interview.dialogue import replies, views
from interview.dialogue.state import Doubt
from interview.dialogue.wording import safety_texts
from interview.facts import Fact, Origin
from interview.language.listen import listen
from interview.language.model import Heard, Listening, Unclear

if TYPE_CHECKING:
    from interview.dialogue.session import Session


def take_line(session: Session, text: str) -> list[ev.Event]:
    """What is on the table first (a doubt, an option, bare figures in order); then the line is heard."""
    if session.now.doubts or session.now.ledger.conflicts():
        return _settle_doubt(session, text)
    parts = session.asked.parts if session.asked is not None else ()
    session.note_offered()
    picked = replies.picked(text, session)
    if picked is not None:
        session.now.ticked = session.now.ticked | set(picked.opened)
        return [
            *session.put(picked.heard, corrects=False),
            *_refusals(picked),
            *session.go_on(quiet=bool(picked.refused)),
        ]
    alike = replies.same_as_a(text, parts, session) or replies.in_order(text, parts, session)
    if alike:
        return [*session.put(alike, corrects=False), *session.go_on()]
    heard = listen(text, asked=parts, home=session.home, last_units=dict(session.now.units))
    events: list[ev.Event] = []
    if heard.injury:
        events += _hurt(session)
    if replies.says_none(text) and parts and session.to_ask is not None:
        facts = replies.none_of(session.to_ask, session)
        if facts:
            told = f"none of the {len(facts)} applies" if len(facts) > 2 else ""
            return [*events, *session.put(facts, corrects=False, told=told), *session.go_on()]
    if heard.dont_know and not heard.facts and not heard.unclear:
        if not parts:
            return [*events, ev.Explained("", ("There is no question open.",))]
        _dont_know(session, parts)
        return [*events, *session.go_on()]
    events += _take_heard(session, heard, text, parts)
    if heard.dont_know and heard.facts:
        for name in parts:
            if not session.said.answered(name):
                session.put_unknown(name)
    nothing = not heard.facts and not heard.unclear and not heard.injury
    if nothing:
        plain = replies.as_text(text, parts, session)
        if plain is not None:
            return [*events, *session.put([plain], corrects=False), *session.go_on()]
        return [*events, replies.not_understood(text, session), *session.go_on(quiet=True)]
    return [*events, *session.go_on(quiet=not heard.facts)]


def _take_heard(session: Session, heard: Listening, text: str, parts: Sequence[str]) -> list[ev.Event]:
    fine: list[Heard] = []
    doubts: list[Doubt] = []
    for h in heard.facts:
        if len(parts) > 1 and replies.swallows(h, heard):
            continue
        if replies.plausible(h):
            fine.append(h)
        else:
            doubts.append(Doubt(h.said or text, (h,), replies.implausible_text(h, session.home), implausible=True))
    for unclear in heard.unclear:
        doubts.append(_doubt(unclear))
    events = session.put(fine, corrects=False)
    if heard.ignored and (fine or doubts):
        rest = tuple(words for words in heard.ignored if len(words.strip()) > 2)
        if rest:
            events.append(ev.Unheard(rest, "Not used: " + "; ".join(f'"{w}"' for w in rest) + "."))
    session.now.doubts = (*session.now.doubts, *doubts)
    return events


def _dont_know(session: Session, parts: Sequence[str]) -> None:
    for name in parts:
        if not session.said.has(name):
            session.put_unknown(name)


def _hurt(session: Session) -> list[ev.Event]:
    session.now.ledger.put(Fact("injury", True, Origin.STATED, turn=session.turn), corrects=True)
    session.changed()
    session.conversation.move("hurt")
    return [ev.Emergency(safety_texts().emergency)]


def _refusals(picked: replies.Picked) -> list[ev.Event]:
    return [ev.Refused(picked.refused, picked.why)] if picked.refused else []


def _settle_doubt(session: Session, text: str) -> list[ev.Event]:
    """What is asked back stays on the table until it is answered: a number, or the thing itself said again.

    Anything else that a line holds is taken all the same; the question that waits behind is not answered by it.
    """
    number = replies.option_number(text)
    if session.now.doubts:
        doubt, rest = session.now.doubts[0], session.now.doubts[1:]
        count = len(doubt.readings) + 1
        names = tuple(dict.fromkeys(reading.name for reading in doubt.readings))
        if replies.says_none(text) or listen(text).dont_know:
            number = count
        if number is not None and 1 <= number <= count:
            session.now.doubts = rest
            if number == count:
                return [ev.Explained("", ("Put aside.",)), *session.go_on()]
            return [*session.put([doubt.readings[number - 1]], corrects=True), *session.go_on()]
    else:
        conflict = session.now.ledger.conflicts()[0]
        rest, count, names = (), len(conflict.sayings), (conflict.name,)
        if number is not None and 1 <= number <= count:
            chosen = session.now.ledger.settle(conflict.name, number - 1, session.turn)
            session.changed()
            return [ev.Noted(session.turn, (views.fact_line(session, chosen),), (conflict.name,)), *session.go_on()]
    if number is not None:
        return [ev.Refused(text, f"Choose a number from 1 to {count}.")]
    heard = listen(text, asked=names, home=session.home, last_units=dict(session.now.units))
    events = _hurt(session) if heard.injury else []
    again = [h for h in heard.facts if h.name in names and replies.plausible(h)]
    if again:
        session.now.doubts = rest
        events += session.put(again, corrects=True)
    others = replace(heard, facts=tuple(h for h in heard.facts if h not in again))
    if others.facts or others.unclear:
        events += _take_heard(session, others, text, ())
    elif not again and not heard.injury:
        return [ev.Refused(text, f"Choose a number from 1 to {count} first, or say it again; the question waits.")]
    return [*events, *session.go_on()]


def _doubt(unclear: Unclear) -> Doubt:
    bad = replies.bad_reading(unclear.readings[0]) if len(unclear.readings) == 1 else ""
    return Doubt(unclear.said, unclear.readings, bad or unclear.why)
