"""What is taken from a line? An option by number, facts, "don't know", what clears a doubt; the rest is said back."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue import events as ev
from interview.dialogue import picking, questions, replies, views
from interview.dialogue.safety_texts import safety_texts
from interview.dialogue.state import Doubt
from interview.dialogue.wording import label
from interview.facts import Fact, Origin
from interview.language.listen import listen
from interview.language.model import Heard, Listening, Unclear
from interview.selection.statement import DENIED, counts

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
    events: list[ev.Event] = []
    in_words = picking.picked_in(text, session)
    if in_words is not None:
        named, text = in_words
        session.now.ticked = session.now.ticked | set(named.opened)
        events += session.put(named.heard, corrects=False)
        if not text:
            return [*events, *session.go_on()]
        parts = named.opened if len(named.opened) == 1 else tuple(p for p in parts if not session.said.answered(p))
    alike = replies.same_as_a(text, parts, session) or replies.in_order(text, parts, session)
    if alike:
        return [*events, *session.put(alike, corrects=False), *session.go_on()]
    of_a_list = session.to_ask is not None and session.to_ask.turn.ticks and len(parts) > 1
    asked = tuple(p for p in parts if not (of_a_list and CATALOGUE[p].kind is Kind.QUANTITY))
    asked = picking.of_the_adapter(text, parts, session) or asked
    heard = listen(text, asked=asked, home=session.home, last_units=dict(session.now.units))
    if heard.injury:
        events += _hurt(session)
    if replies.says_none(text) and len(parts) == 1 and parts[0] in session.now.ticked:
        return [*events, replies.said_to_apply(text, parts[0], session), *session.go_on(quiet=True)]
    if replies.says_none(text) and parts and session.to_ask is not None:
        facts = replies.none_of(session.to_ask, session)
        if facts:
            if len(facts) > 2:  # nobody said "fixed" or "no" of any of them
                facts = [replace(fact, said=f"none of the {len(facts)}") for fact in facts]
            told = f"none of the {len(facts)} applies" if len(facts) > 2 else ""
            return [*events, *session.put(facts, corrects=False, told=told), *session.go_on()]
    if heard.dont_know and not heard.facts and not heard.unclear:
        if not parts:
            return [*events, ev.nothing_open()]
        _dont_know(session, parts)
        return [*events, *session.go_on()]
    if len(parts) == 1 and parts[0].endswith("_statement") and not _speaks_of_else(heard, parts[0]):
        return [*events, *_statement(session, text, parts[0]), *session.go_on()]
    opened: tuple[str, ...] = ()
    if of_a_list and session.to_ask is not None:
        heard, opened = picking.ticked_in_words(heard, text, session)
        session.now.ticked = session.now.ticked | set(opened)
    events += _take_heard(session, heard, text, parts)
    if heard.dont_know and heard.facts:
        for name in parts:
            if not session.said.answered(name):
                session.put_unknown(name)
    nothing = not heard.facts and not heard.unclear and not heard.injury and not opened and in_words is None
    if nothing:
        plain = replies.as_text(text, parts, session)
        if plain is not None:
            return [*events, *session.put([plain], corrects=False), *session.go_on()]
        return [*events, replies.not_understood(text, session), *session.go_on(quiet=True)]
    return [*events, *session.go_on(quiet=not (heard.facts or opened or in_words))]


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
        if (named := _named_before(session, unclear)) is not None:
            fine.append(named)
            continue
        doubts.append(_not_belied(_doubt(unclear), heard))
    events = session.put(fine, corrects=False)
    if heard.ignored and (fine or doubts):
        rest = tuple(words for words in heard.ignored if len(words.strip()) > 2)
        if rest:
            events.append(ev.Unheard(rest, "Not used: " + "; ".join(f'"{w}"' for w in rest) + "."))
    session.now.doubts = (*session.now.doubts, *doubts)
    return events


def _speaks_of_else(heard: Listening, name: str) -> bool:
    return any(h.name != name and CATALOGUE[h.name].kind is not Kind.DAY for h in heard.facts)


_HEARSAY = re.compile(r"\b(?:said|says|promis\w*|will|would|should)\b", re.IGNORECASE)


def _statement(session: Session, text: str, name: str) -> list[ev.Event]:
    """A maker's written statement; what cannot be looked up is kept as said, and it is told that it does not count."""
    text = text[:500]
    if counts(text):
        return session.put([Heard(name, text, said=text)], corrects=False)
    if DENIED.search(text) is not None and not re.search(
        r"\b(?:said|says|promis\w*|will|would|should)\b", text.lower()
    ):
        told = f"{label(name)}: none ({text})"
        return session.put([Heard(name, None, said=text)], corrects=False, told=told)
    told = f'"{text}": kept as said; it counts only with the document\'s number and date'
    return session.put([Heard(name, text, said=text)], corrects=False, told=told)


def _dont_know(session: Session, parts: Sequence[str]) -> None:
    """Nobody knows any of it; but who cannot read a print may still know the bore, which is asked for by itself."""
    turn = session.to_ask.turn if session.to_ask is not None else None
    for name in parts:
        alone = turn is not None and len(parts) > 1 and turn.settle == "along" and turn.settle_of(name) == "quote"
        if not alone and not session.said.has(name):
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
        number = number or _by_a_word(session, doubt, text)
        options = doubt.options
        count = len(options) + 1
        names = tuple(dict.fromkeys(reading.name for reading in doubt.readings))
        if replies.says_none(text) or listen(text).dont_know:
            number = count
        if number is not None and 1 <= number <= count:
            session.now.doubts = rest
            if number == count:
                return [ev.Explained("", ("Put aside.",)), *session.go_on()]
            # What was said before stays said: two sayings of one thing are a conflict, and the safer one governs.
            taken = session.put(options[number - 1], corrects=doubt.implausible)
            return [*taken, *_in_the_same_unit(session, options[number - 1][0]), *session.go_on()]
        several = [int(n) for n in re.findall(r"\d+", text)] if re.fullmatch(r"[\d\s,;]+(?:and[\d\s]+)?", text) else []
        if len(several) > 1:
            return [*_several(session, doubt, several, text), *session.go_on(quiet=True)]
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


def _named_before(session: Session, unclear: Unclear) -> Heard | None:
    """The "24 deg" of an end that was named 16S: one of its meanings is what was said, so nothing is open again."""
    if len(unclear.could_be) != 1 or not unclear.could_be[0].endswith("_family"):
        return None
    said = session.said.get(unclear.could_be[0])
    if said is None or not said.known:
        return None
    return next((r for r in unclear.readings if r.value == said.value), None)


def _in_the_same_unit(session: Session, chosen: Heard) -> list[ev.Event]:
    """Figures of one line that were all in doubt for their unit: the unit chosen for one is the others' too."""
    events: list[ev.Event] = []
    kind = CATALOGUE[chosen.name].measures
    for doubt in session.now.doubts:
        if doubt.implausible or not all(CATALOGUE[r.name].measures == kind and r.unit for r in doubt.readings):
            continue
        if len({r.unit for r in doubt.readings}) < 2:
            continue
        left = replace(doubt, readings=tuple(r for r in doubt.readings if r.unit == chosen.unit))
        rest = tuple(d for d in session.now.doubts if d is not doubt)
        if len(left.options) == 1:
            session.now.doubts = rest
            events += session.put(left.options[0], corrects=False)
    return events


_ALIKE = {"oil": "fluid", "steady": "working", "peak": "spike", "ambient": "air", "surroundings": "air"}


def _by_a_word(session: Session, doubt: Doubt, text: str) -> int | None:
    """ "Air": a word that stands in one option alone chooses it."""
    if doubt.implausible or any(c.isdigit() for c in text):
        return None
    said = {_ALIKE.get(w, w) for w in re.findall(r"[a-z°]+", text.lower())} - {"the", "it", "is", "that", "s"}
    labels = [set(re.findall(r"[a-z°]+", questions.reading_shown(some, session).lower())) for some in doubt.options]
    hits = [i for i, words in enumerate(labels, 1) if said and said <= words]
    return hits[0] if len(hits) == 1 else None


def _several(session: Session, doubt: Doubt, numbers: list[int], text: str) -> list[ev.Event]:
    """Several options at once, where they say different things; else one is asked for."""
    options = doubt.options
    if not all(1 <= n <= len(options) for n in numbers):
        return [ev.Refused(text, f"Choose a number from 1 to {len(options) + 1}.")]
    readings = [r for n in dict.fromkeys(numbers) for r in options[n - 1]]
    if len({r.name for r in readings}) < len(readings) or len({r.value for r in readings}) == 1:
        return [ev.Refused(text, f"One number, please, from 1 to {len(options) + 1}: it cannot mean all of them.")]
    session.now.doubts = session.now.doubts[1:]
    return session.put(readings, corrects=False)


def _not_belied(doubt: Doubt, heard: Listening) -> Doubt:
    """Of the meanings that a figure could have, those that the same line has not told otherwise."""
    told = {h.name: h.value for h in heard.facts}
    left = tuple(
        r for some in doubt.options if not any(r.name in told and r.value != told[r.name] for r in some) for r in some
    )
    return replace(doubt, readings=left) if left else doubt


def _doubt(unclear: Unclear) -> Doubt:
    bad = replies.bad_reading(unclear.readings[0]) if len(unclear.readings) == 1 else ""
    return Doubt(unclear.said, unclear.readings, bad or unclear.why)
