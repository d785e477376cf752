"""Which options does a line name in words, or by numbers before other words? What is left of it is heard as ever."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue import replies
from interview.language.lexer import normalise
from interview.language.listen import listen

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interview.dialogue import events as ev
    from interview.dialogue.agenda import NextTurn
    from interview.dialogue.session import Session
    from interview.language.model import Listening

_NUMBERS_FIRST = re.compile(r"\s*((?:\d{1,2}\s*(?:[,;]|and\b)\s*)+)(?=\S)")
_DENIAL = re.compile(r"\b(?:no|not|never|without|isn't|doesn't|don't|aren't|nor|nothing)\b[^,;.]*$")


def picked_in(text: str, session: Session) -> tuple[replies.Picked, str] | None:
    """The options of the question that a line names, and what else it says; None where it names none."""
    asked, turn = session.asked, session.to_ask
    if asked is None or turn is None or not asked.options or _flag_alone(turn):
        return None
    found, rest = _labelled(text, asked.options)
    numbers, rest = _numbered(rest, asked.options, turn, labelled=bool(found))
    options = [*numbers, *(o for o in found if o not in numbers)]
    if not options or (len(options) > 1 and not asked.many):
        return None
    return replies.chosen(options, turn, session), rest


def _flag_alone(turn: NextTurn) -> bool:
    return len(turn.parts) == 1 and CATALOGUE[turn.parts[0]].kind is Kind.FLAG


def _labelled(text: str, options: Sequence[ev.Option]) -> tuple[list[ev.Option], str]:
    """Labels word for word, each between the commas of the line."""
    found: list[ev.Option] = []
    for option in sorted(options, key=lambda o: -len(o.label)):
        label = r"\s+".join(re.escape(w) for w in option.label.split())
        at = re.search(rf"(?:^|[,;]|\band\b)\s*{label}\s*(?=$|[,;.!]|\band\b)", text, re.IGNORECASE)
        if at is not None:
            found.append(option)
            text = f"{text[: at.start()]} , {text[at.end() :]}"
    return sorted(found, key=options.index), text.strip(" ,;.!") if found else text


def _numbered(
    text: str, options: Sequence[ev.Option], turn: NextTurn, *, labelled: bool
) -> tuple[list[ev.Option], str]:
    """Option numbers before other words; where figures are asked too, only one that cannot be theirs."""
    if labelled and re.fullmatch(r"[\d,; ]+", text):
        head, rest = text, ""
    elif (found := _NUMBERS_FIRST.match(text)) is not None:
        head, rest = found[1], text[found.end() :]
    else:
        return [], text
    numbers = [int(n) for n in re.findall(r"\d+", head)]
    figures = [p for p in turn.parts if CATALOGUE[p].kind is Kind.QUANTITY]
    if not all(1 <= n <= len(options) for n in numbers):
        return [], text
    if not (turn.turn.ticks and len(turn.parts) > 1) and (
        len(figures) > 1 or (figures and not re.search(r"\d", rest)) or re.match(r"[\d,; ]+$", rest)
    ):
        return [], text
    return [options[n - 1] for n in numbers], rest.strip()


def ticked_in_words(heard: Listening, text: str, session: Session) -> tuple[Listening, tuple[str, ...]]:
    """Things of a list that a line speaks of: what it says of them, and those whose own questions are opened by it."""
    turn = session.to_ask
    if turn is None:
        return heard, ()
    spoken = {h.name for h in heard.facts}.union(n for u in heard.unclear for n in u.could_be)
    opened = [
        p for p in turn.parts if p not in spoken and not session.said.answered(p) and _spoken_of(p, text, session)
    ]
    ignored = heard.ignored
    for part in tuple(opened):
        for piece in heard.ignored:
            if not _spoken_of(part, piece, session):
                continue
            ignored = tuple(i for i in ignored if i != piece)
            of_it = listen(piece, asked=(part,), home=session.home, last_units=dict(session.now.units))
            if (fact := of_it.fact(part)) is not None and part in opened:
                heard = replace(heard, facts=(*heard.facts, fact))
                opened.remove(part)
    return replace(heard, ignored=ignored), tuple(opened)


def _spoken_of(part: str, text: str, session: Session) -> bool:
    low = normalise(text)
    return any(
        (at := re.search(rf"\b{re.escape(words)}\b", low)) is not None and not _DENIAL.search(low[: at.start()])
        for words in session.flow.questions[part].tick_words
    )


_ITS_RATING = re.compile(r"\b(?:maker|manufacturer|makers|rated|rating|adapter|adaptor)\b", re.IGNORECASE)


def of_the_adapter(text: str, parts: Sequence[str], session: Session) -> tuple[str, ...]:
    """The facts of an adapter that a line beside its question is about; empty where it is about something else."""
    if len(parts) == 1 and (side := re.fullmatch(r"(adapter_[ab])_family", parts[0])) is not None:
        return tuple(f"{side[1]}_{what}" for what in ("family", "size", "rating"))
    for side_name in ("adapter_a", "adapter_b"):
        family = session.said.get(f"{side_name}_family")
        other_end = "end b" if side_name == "adapter_a" else "end a"
        if family is None or not family.known or family.value == "none" or f"{side_name}_family" in parts:
            continue
        open_parts = tuple(p for w in ("size", "rating") if not session.said.answered(p := f"{side_name}_{w}"))
        if not open_parts or other_end in text.lower():
            continue
        bare_size = re.fullmatch(r"\W*-\d{1,2}\W*", text) is not None and f"{side_name}_size" in open_parts
        if bare_size or (_ITS_RATING.search(text) and f"{side_name}_rating" in open_parts):
            return open_parts
    return ()
