"""What can an answer be, besides facts in free words? Option numbers, "none", a plain text, and what will not do."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, UNITS, Kind
from interview.dialogue import events as ev
from interview.dialogue.wording import sentence
from interview.facts import Span, Value
from interview.language.model import Heard, Listening, Misread
from interview.language.read import read_value
from interview.language.show import show
from interview.reference.connections import load_connections
from interview.selection.identify_readings import BadReading, Readings, check

if TYPE_CHECKING:
    from interview.dialogue.agenda import NextTurn
    from interview.dialogue.session import Session

NONE_WORDS = re.compile(
    r"(?:no|none|nothing|none of (?:these|those|them|it|the others?)|neither|nope|nothing of the kind|"
    r"none apply|no to all|not any)[.! ]*\Z",
    re.IGNORECASE,
)
READING = {
    "thread_diameter": "diameter",
    "thread_pitch": "pitch",
    "seat_angle": "seat_angle",
    "recess": "recess",
    "head_diameter": "head",
    "bolt_spacing": "bolt_long",
}  # fact of an end: reading


def says_none(text: str) -> bool:
    return bool(NONE_WORDS.match(text.strip()))


def option_number(text: str) -> int | None:
    """ "2" or "2." as an option; never a number with a unit."""
    found = re.fullmatch(r"\(?(\d{1,2})[.)]?", text.strip())
    return int(found[1]) if found else None


@dataclass(frozen=True)
class Picked:
    """Options chosen by number."""

    heard: tuple[Heard, ...]
    refused: str = ""
    why: str = ""
    opened: tuple[str, ...] = ()  # ticked, and still without a value: each is asked for alone


def picked(text: str, session: Session) -> Picked | None:
    """Option numbers for the question on the table; None where the line is no list of numbers or no option fits."""
    asked, turn = session.asked, session.to_ask
    if asked is None or turn is None or not asked.options:
        return None
    if not re.fullmatch(r"\s*\d{1,2}(?:\s*(?:,|;|and|\s)\s*\d{1,2})*\s*", text):
        return None
    numbers = [int(n) for n in re.findall(r"\d+", text)]
    wrong = [n for n in numbers if not 1 <= n <= len(asked.options)]
    if wrong:
        if len(numbers) == 1 and CATALOGUE[asked.parts[0]].kind is Kind.QUANTITY:
            return None
        return Picked((), text, f"There is no option {wrong[0]}; the options run from 1 to {len(asked.options)}.")
    if len(numbers) > 1 and not asked.many:
        return Picked((), text, "One number, please.")
    return chosen([asked.options[n - 1] for n in numbers], turn, session)


def chosen(options: Sequence[ev.Option], turn: NextTurn, session: Session) -> Picked:
    """What the options of the question on the table say."""
    if turn.turn.ticks and len(turn.parts) > 1:
        heard = tuple(h for option in options for h in ticked(option.value, session))
        said = {h.name for h in heard}
        return Picked(heard, opened=tuple(o.value for o in options if o.value not in said))
    from interview.dialogue.questions import option_part

    name = option_part(turn, session) or turn.parts[0]
    spec = CATALOGUE[name]
    value: Value
    if spec.kind is Kind.MANY:
        value = tuple(o.value for o in options)
    elif spec.kind is Kind.FLAG:
        value = options[0].value == "yes"
    else:
        value = options[0].value
    return Picked((Heard(name, value, said=", ".join(o.label for o in options)),))


def ticked(fact: str, session: Session) -> list[Heard]:
    """What a tick says: a value where the flow gives one; otherwise nothing yet, its own question follows."""
    question = session.flow.questions[fact]
    if question.ticked is not None:
        return [_read(fact, question.ticked, session)]
    return []


def none_of(turn: NextTurn, session: Session) -> list[Heard]:
    """What "none" says to each part of a turn; what was just said or ticked, and what takes no none, is left."""
    heard: list[Heard] = []
    for fact in turn.parts:
        if session.said.answered(fact) or fact in session.now.ticked:
            continue
        question = session.flow.questions[fact]
        spec = CATALOGUE[fact]
        if question.none is not None:
            heard.append(_read(fact, question.none, session))
        elif question.none_applies:
            heard.append(Heard(fact, None, said="none"))
        elif spec.kind is Kind.MANY and "none" in spec.choices:
            heard.append(Heard(fact, ("none",), said="none"))
        elif spec.kind is Kind.FLAG and len(turn.parts) == 1:
            heard.append(Heard(fact, False, said="no"))
    return heard


def said_to_apply(text: str, fact: str, session: Session) -> ev.Event:
    """A thing that was ticked cannot be "none" the moment its value is asked: one of the two is a slip."""
    tick = session.flow.questions[fact].tick
    why = f'you said that this applies: {tick}. Say which or how much, "don\'t know", or "undo" if it does not apply.'
    return ev.Refused(text, f'"{text}": {why}')


def _read(fact: str, text: str, session: Session) -> Heard:
    spec = CATALOGUE[fact]
    if spec.kind is Kind.MANY:
        return Heard(
            fact,
            ("none",) if text == "none" and "none" in spec.choices else () if text == "none" else (text,),
            said=text,
        )
    if spec.kind in (Kind.CHOICE, Kind.IDENT):
        return Heard(fact, text, said=text)
    return read_value(fact, text, home=session.home)


_A_PART = re.compile(
    r"\b(?:swivel|joint|union|tee|nipple|reducer|bush|bushing|elbow|banjo|manifold|plug|coupler|coupling|quick|connector|"
    r"valve|piece)s?\b",
    re.IGNORECASE,
)
_YES_OR_NO = re.compile(r"\W*(?:yes|yeah|yep|yup|aye|y|no|nope|nah|n|it is|it does)\b", re.IGNORECASE)
SAME = re.compile(
    r"(?:(?:the )?same(?: again| as (?:the other|the first|end a|a|that)| (?:at )?both)?|both (?:the same|alike)|"
    r"(?:exactly )?alike|ditto|like (?:end )?a|identical)[.! ]*\Z",
    re.IGNORECASE,
)


def same_as_a(text: str, parts: Sequence[str], session: Session) -> list[Heard]:
    """ "The same" for end B: what is known of end A, as far as it is asked; else empty."""
    if not SAME.match(text.strip()) or not any(p.startswith("end_b_") for p in parts):
        return []
    copied = []
    for part in parts:
        other = session.said.get(part.replace("end_b_", "end_a_"))
        if part.startswith("end_b_") and other is not None and other.known:
            copied.append(Heard(part, other.value, other.unit, f"the same as end A ({other.said})", other.origin))
    return copied


PLAIN = re.compile(r"(?:about |minus )?[-+]?\d[\d.,/ ]*\s*(?P<unit>[a-zA-Z°#\"'µ]{0,8}(?:/[a-z]{1,4})?)\Z")


def in_order(text: str, parts: Sequence[str], session: Session) -> list[Heard]:
    """Bare figures, as many as were asked for and in their order ("65 C, 30 C, -5 C"); empty if it is no such answer.

    A figure without a unit takes the unit of the next one that has it; every figure must be plausible for its part.
    """
    numbers = [p for p in parts if CATALOGUE[p].kind is Kind.QUANTITY]
    if len(numbers) < 2 or len(numbers) != len(parts):
        return []
    pieces = [p.strip() for p in re.split(r"\s*(?:;|,(?!\d{3}(?!\d))|\band\b|\bthen\b)\s*", text.strip()) if p.strip()]
    found = [PLAIN.match(p) for p in pieces]
    if len(pieces) != len(parts) or not all(found):
        return []
    units = [m["unit"] if m else "" for m in found]
    heard: list[Heard] = []
    for i, (part, piece) in enumerate(zip(parts, pieces, strict=True)):
        same = [j for j in range(len(parts)) if CATALOGUE[parts[j]].measures == CATALOGUE[part].measures]
        unit = next((units[j] for j in [i, *(j for j in same if j > i), *same] if units[j]), "")
        try:
            one = read_value(part, piece if units[i] else f"{piece} {unit}".strip(), home=session.home)
        except Misread:
            return []
        if not plausible(one):
            return []
        heard.append(one)
    values = {h.name: h.value for h in heard}
    for low, high in (
        ("ambient_temperature_min", "ambient_temperature_max"),
        ("fluid_temperature_min", "fluid_temperature_max"),
    ):
        least, most = values.get(low), values.get(high)
        if isinstance(least, float) and isinstance(most, float) and least > most:
            return []  # not in the order asked
    return heard


def swallows(heard: Heard, listening: Listening) -> bool:
    """A text fact made of the very words that were another fact: "pressure" is what the line does, not the machine."""
    if CATALOGUE[heard.name].kind is not Kind.TEXT or heard.name == "layline":
        return False
    others = [h for h in listening.facts if h.name != heard.name and CATALOGUE[h.name].kind is not Kind.TEXT]
    left = heard.said.lower()
    for other in others:
        left = left.replace(other.said.lower(), " ")
    return not re.search(r"[a-z]{3}", left)


def as_text(text: str, parts: tuple[str, ...] | list[str], session: Session) -> Heard | None:
    """A strict reading for the first part asked; a text fact takes the words as they are."""
    for name in parts:
        if CATALOGUE[name].kind is Kind.TEXT:
            if len(parts) == 1 and (name != "layline" or any(c.isdigit() for c in text)):  # a print has a figure in it
                return Heard(name, text[:500], said=text[:500])
            continue
        if len(parts) > 1 and (says_none(text) or _YES_OR_NO.match(text)):  # that is an answer to none of several
            continue
        if name.startswith("adapter_") and name.endswith("_family") and len(parts) == 1 and _A_PART.search(text):
            return Heard(name, "other", said=text)  # no connection of the tables; its rating is its maker's
        try:
            heard = read_value(name, text, home=session.home)
        except Misread:
            continue
        if plausible(heard) and in_table(heard):
            return heard
    return None


def in_table(heard: Heard) -> bool:
    """A connection is one of the tables, `other` or none, and a size carries a figure; another word is neither."""
    if heard.name.endswith("_family"):
        return heard.value in (*load_connections().families, "other", "none")
    return not heard.name.endswith("_size") or any(c.isdigit() for c in str(heard.value))


def not_understood(text: str, session: Session) -> ev.Event:
    """What was read, why it will not do, what would do."""
    short = text if len(text) <= 60 else text[:57] + "…"
    asked = session.asked
    if asked is None:
        return ev.Refused(short, f'"{short}" says nothing I can use. Type a fact, "facts", "fits" or "help".')
    name = asked.parts[0]
    why = "says nothing I can use here"
    if len(asked.parts) == 1:
        try:
            read_value(name, text[:200], home=session.home)
        except Misread as error:
            why = error.why
    if asked.many and len(asked.parts) > 1 and _YES_OR_NO.fullmatch(text.strip(" .!")):
        return ev.Refused(short, f'"{short}" to a list: which of them? Numbers or words; "none" if none.')
    hint = asked.hint or "an answer in your own words"
    return ev.Refused(short, f'"{short}": {why}. What would do: {hint}; or "don\'t know", or "how" to find out.')


def plausible(heard: Heard) -> bool:
    """Within the limits a quantity of this kind can have; outside them it is asked back, not taken."""
    spec = CATALOGUE[heard.name]
    if spec.plausible is None:
        return True
    low, high = (v * spec.factor for v in spec.plausible)
    values = (
        [heard.value]
        if isinstance(heard.value, float)
        else (
            [v for v in (heard.value.low, heard.value.high) if v is not None] if isinstance(heard.value, Span) else []
        )
    )
    slack = 1e-9 * max(abs(low), abs(high))
    return all(low - slack <= v <= high + slack for v in values)


def bad_reading(heard: Heard) -> str:
    """Why a reading of an end cannot be, with the likely meaning; empty where it can."""
    reading = READING.get(heard.name.partition("_")[2].partition("_")[2])
    if reading is None or not isinstance(heard.value, float):
        return ""
    try:
        check(Readings(**{reading: heard.value}))  # type: ignore[arg-type]
    except BadReading as error:
        return str(error)
    return ""


def implausible_text(heard: Heard, home: str) -> str:
    spec = CATALOGUE[heard.name]
    if bad := bad_reading(heard):
        return sentence(bad)
    assert spec.plausible is not None
    low, high = (v * UNITS[spec.unit].factor for v in spec.plausible)
    return (
        f"{show(heard.name, heard.value, home, unit=heard.unit or None)} as {spec.label} is outside what happens "
        f"({show(heard.name, low, home)} to {show(heard.name, high, home)}). Is the unit right?"
    )
