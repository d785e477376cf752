"""What does one line hold? The only door for free text: every reader in its turn, then what was left over."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from interview.catalogue import CATALOGUE, Kind
from interview.language.angle import hear_angle
from interview.language.answers import answer
from interview.language.binding import bind
from interview.language.counts import hear_counts
from interview.language.dates import hear_dates
from interview.language.ends import hear_ends
from interview.language.hurt import hear_hurt
from interview.language.instead import instead
from interview.language.line import Line, Mark, take_apart
from interview.language.measures import Measure
from interview.language.model import Heard, Listening, Unclear
from interview.language.names import hear_names
from interview.language.number_words import mere_word, nobody
from interview.language.phrasebook import phrasebook
from interview.language.place import hear_place
from interview.language.prints import read_layline
from interview.language.set_aside import set_aside
from interview.language.temperatures import bind_temperatures
from interview.language.thread_readings import hear_thread_readings
from interview.language.wording import hear_codes, hear_phrases

_AT_ONCE = 2_500  # characters heard as one line
_TWO = "which of the two?"
LONGEST = 200_000  # characters; what is beyond is named as ignored, not read


def listen(
    text: str, *, asked: Sequence[str] = (), home: str = "metric", last_units: Mapping[str, str] | None = None
) -> Listening:  # fmt: skip
    """Takes from a line what it says. `asked`: the facts a question was about; `last_units`: the last unit per kind."""
    tail = text[LONGEST:]
    text = text[:LONGEST]
    if not text.strip():
        return Listening()
    if len(text) > _AT_ONCE:
        return _in_pieces(text, tail, asked, home, last_units)
    if (other := instead(text, asked)) is not None:
        return other.given_back(listen(text, asked=other.asked(asked), home=home, last_units=last_units))
    line = take_apart(text, tuple(a for a in asked if a in CATALOGUE), home)
    line.measures = [m for m in line.measures if not nobody(line, m)]
    _corrections(line)
    _last_units(line, last_units or {})
    hear_ends(line)
    hear_thread_readings(line)
    hear_codes(line)
    read_layline(line)
    hear_dates(line)
    hear_counts(line)
    for m in line.measures:
        m.taken = m.taken or mere_word(line, m)
    injury = hear_hurt(line)
    hear_phrases(line)
    hear_angle(line)
    hear_place(line)
    set_aside(line)
    bind_temperatures(line)
    bind(line)
    hear_names(line)
    _drop_questions(line)
    answer(line)
    _put_right_unheard(line)
    facts = _settled(line)
    if any(m.tag == "dont_know" for m in line.marks):  # "not sure, 3000?"
        facts = tuple(replace(f, hedged=True) if f.name in line.asked else f for f in facts)
    ignored = _ignored(line, facts)
    if tail:
        ignored = (*ignored, f"{len(tail)} more characters")
    return Listening(
        facts, tuple(sorted(line.unclear, key=lambda u: u.start)), ignored, injury, _dont_know(line, facts)
    )


def _in_pieces(
    text: str, tail: str, asked: Sequence[str], home: str, last_units: Mapping[str, str] | None
) -> Listening:
    """A long paste is heard in pieces of bounded length, so that time grows with its length and no faster."""
    facts: dict[str, Heard] = {}
    unclear: list[Unclear] = []
    ignored: list[str] = []
    injury = False
    at = 0
    while at < len(text):
        end = min(at + _AT_ONCE, len(text))
        if end < len(text):
            breaks = [text.rfind(mark, at + _AT_ONCE // 2, end) for mark in ("\n", ". ", "; ", ", ", " ")]
            end = next((b + 1 for b in breaks if b > 0), end)
        part = listen(text[at:end], asked=asked, home=home, last_units=last_units)
        for heard in part.facts:
            moved = replace(heard, start=heard.start + at, end=heard.end + at)
            before = facts.setdefault(heard.name, moved)
            if before is not moved and before.value != moved.value and len(unclear) < 200:
                unclear.append(_which(before, moved))
        unclear.extend(
            replace(u, start=u.start + at, end=u.end + at) for u in part.unclear[: max(0, 200 - len(unclear))]
        )
        ignored.extend(part.ignored)
        injury = injury or part.injury
        at = end
    clashing = {u.could_be[0] for u in unclear if u.why == _TWO}
    if tail:
        ignored.append(f"{len(tail)} more characters")
    return Listening(
        tuple(f for n, f in facts.items() if n not in clashing), tuple(unclear), tuple(ignored), injury, False
    )


def _corrections(line: Line) -> None:
    """ "Three thousand, no, thirty-five hundred": the later number stands in the earlier one's place."""
    kept: list[Measure] = []
    for m in line.measures:
        if mere_word(line, m):
            kept.append(m)
            continue
        if kept and (m.unit or not kept[-1].unit) and any(_of_another(line, k, kept[-1], m) for k in line.marks):
            kept[-1].taken = True
        if kept and m.first - kept[-1].last <= 8 and not mere_word(line, kept[-1]):
            between = [k for k in range(kept[-1].last + 1, m.first) if line.tokens[k].start >= kept[-1].end]
            marks = [k for k in line.marks if k.tag == "correct" and k.first in between and k.last <= m.first]
            strong = any(line.words[x.first : x.last] not in (["no"], ["nope"], ["wait"]) for x in marks)
            own = any(x.last <= c.first < m.first for x in marks for c in line.cues) or any(
                line.words[k] in phrasebook().ends.first and line.words[k] not in ("to", "a", "the", "on", "at", "one")
                for x in marks
                for k in range(x.last, m.first)
            )
            plain = (strong and not own) or all(
                line.words[k]
                in (
                    ",",
                    ";",
                    ".",
                    "-",
                    "it",
                    "is",
                    "its",
                    "that",
                    "to",
                    "at",
                    "a",
                    "the",
                    "about",
                    "be",
                    "more",
                    "like",
                    "well",
                    "not",
                )
                or any(x.first <= k < x.last for x in marks)
                or any(k < x.first and c.first <= k < c.last for x in marks for c in line.cues)
                for k in between
            )
            old = kept[-1]
            if marks and plain and (m.measures == old.measures or not m.unit or not old.unit):
                m.unit = m.unit or old.unit
                m.first, m.start, m.corrects = old.first, old.start, True
                line.used.update(k for x in marks for k in range(x.first, x.last))
                kept[-1] = m
                continue
        if (
            m.first
            and line.words[m.first - 1] in ("not", "isn't", "wasn't")
            and (m.first < 2 or line.words[m.first - 2] not in ("more", "less", "over"))
        ):
            m.taken = True
        kept.append(m)
    line.measures = kept
    start = next((k for k in line.marks if k.tag == "correct" and k.first <= 1 and not _compares(line, k)), None)
    if start is not None:
        for m in line.measures:
            m.corrects = True


def _of_another(line: Line, mark: Mark, old: Measure, new: Measure) -> bool:
    """ "3/8, no wait, that's the fitting, the hose is half inch": the first figure was another thing's."""
    if mark.tag != "correct" or not old.last < mark.first <= old.last + 4 or mark.last >= new.first:
        return False
    after = [w for w in line.words[mark.last : new.first] if w not in (",", "is")]
    return after[:1] in (["that"], ["thats"]) and after[1:2] in (["the"], ["for"], ["a"], ["my"], ["our"], ["on"])


def _put_right_unheard(line: Line) -> None:
    """ "Length 1200, no, that's over the nuts 1180 mm": put right in words not understood, neither figure holds."""
    for mark in line.marks:
        weak = line.words[mark.first : mark.last] in (["no"], ["nope"], ["wait"])
        alone = line.words[mark.first - 1 : mark.first] == [","] and line.words[mark.last : mark.last + 1] == [","]
        if mark.tag != "correct" or (weak and not alone):
            continue
        old = next((m for m in reversed(line.measures) if m.last < mark.first <= m.last + 4), None)
        new = next((m for m in line.measures if mark.last <= m.first <= mark.last + 8), None)
        if old is None or new is None or mere_word(line, new):
            continue
        if "" not in (old.measures, new.measures) and old.measures != new.measures:
            continue
        told = [(f.start, f.end) for f in line.facts] + [(u.start, u.end) for u in line.unclear]
        if any(start <= new.start < end for start, end in told):
            continue
        for fact in [f for f in line.facts if f.start <= old.start < f.end and CATALOGUE[f.name].kind is Kind.QUANTITY]:
            line.facts.remove(fact)
            line.open((fact.name,), "was that put right?", old.first, new.last, (fact,), new.end)
            new.taken = True


def _compares(line: Line, mark: Mark) -> bool:
    """The "no" of "no more than 250" puts nothing right."""
    return line.words[mark.first : mark.last] == ["no"] and line.words[mark.last : mark.last + 1] in (
        ["more"], ["less"], ["higher"], ["lower"], ["hotter"], ["colder"], ["longer"], ["shorter"], ["greater"],
    )  # fmt: skip


def _last_units(line: Line, last: Mapping[str, str]) -> None:
    """A bare answer takes the unit last given for the kind that was asked."""
    kinds = {CATALOGUE[a].measures for a in line.asked}
    for m in line.measures:
        if m.unit == "" and len(line.measures) == 1 and len(kinds) == 1 and not mere_word(line, m):
            unit = last.get(next(iter(kinds)))
            if unit and not (unit == "bar" and abs(m.low) >= 700) and not _of_a_bore(line, m, unit):
                m.unit = unit


def _of_a_bore(line: Line, m: Measure, unit: str) -> bool:
    """Whether the last unit of a length was a bore's: no hose is 300 inches where lengths are metric."""
    return line.home != "us" and unit == "in" and abs(m.low) >= 100


_QUESTION = re.compile(
    r"\s*(?:so |and |but |ok |right |well |er |um |hi |hello )*(?:what(?:'s)?\b(?! we| i)|how (?:much|long|many|hot|"
    r"big|soon)|which (?:is|one|hose|would)|do you (?:do|stock|have|sell|keep|know|carry|make)|"
    r"is (?:it|that|this|there)\b|are (?:they|there|these)\b|do i\b|do we\b|does (?:it|that|a|the|this)\b|should "
    r"(?:i|we|it)\b|why\b|will it\b|would it\b|can it\b|could it\b|have you got)"
)


def _drop_questions(line: Line) -> None:
    """Who asks "do you stock 1/2 hose?" or "is it flame resistant?" has said nothing of the job."""
    if not (line.facts or line.unclear):
        return
    for found in re.finditer(r"[^.;!?]+(?:\.\d[^.;!?]*)*[.;!?]?", line.low):
        if _QUESTION.match(found.group()) or re.search(r"\bor\b[^,]*\?$", found.group()):
            a, b = found.span()
            line.facts = [f for f in line.facts if not a <= f.start < b or f.name in ("customer", "machine", "injury")]
            line.unclear = [u for u in line.unclear if not a <= u.start < b]


def _which(one: Heard, two: Heard) -> Unclear:
    return Unclear(f"{one.said} / {two.said}", (one.name,), _TWO, (one, two), one.start, two.end)


def _settled(line: Line) -> tuple[Heard, ...]:
    """One fact a name: lists joined, the first saying kept, two different numbers asked back."""
    out: dict[str, Heard] = {}
    firm = {f.name for f in line.facts if (f.name, f.start) not in line.weak}
    line.facts = [f for f in line.facts if f.name not in firm or (f.name, f.start) not in line.weak]
    for heard in sorted(line.facts, key=lambda h: h.start):
        before = out.get(heard.name)
        if before is None:
            out[heard.name] = heard
        elif (
            CATALOGUE[heard.name].kind is Kind.MANY
            and isinstance(before.value, tuple)
            and isinstance(heard.value, tuple)
        ):
            joined = tuple(dict.fromkeys(before.value + heard.value))
            if len(joined) > 1:
                joined = tuple(v for v in joined if v != "none")
            if "fitting_blew_off_wires_left" in joined:
                joined = tuple(v for v in joined if v != "fitting_blew_off")
            if heard.name == "failure_sign" and len(joined) > 1 and any(v.startswith("burst_") for v in joined):
                joined = tuple(v for v in joined if v != "burst")
            out[heard.name] = replace(before, value=joined)
        elif heard.corrects:
            out[heard.name] = heard
        elif before.value != heard.value and CATALOGUE[heard.name].kind in (
            Kind.QUANTITY,
            Kind.CHOICE,
            Kind.FLAG,
            Kind.IDENT,
        ):
            line.unclear.append(_which(before, heard))
            out[heard.name] = replace(before, name="")
    return tuple(h for h in out.values() if h.name)


def _ignored(line: Line, facts: tuple[Heard, ...]) -> tuple[str, ...]:
    """Clauses from which nothing was taken."""
    taken = [(h.start, h.end) for h in facts] + [(u.start, u.end) for u in line.unclear]
    taken += [(line.tokens[k].start, line.tokens[k].end) for k in line.used if k < len(line.tokens)]
    taken.sort()
    out: list[str] = []
    start = 0
    at = 0
    for k, token in enumerate([*line.tokens, None]):
        if token is not None and not (
            token.kind == "p"
            and token.text in ",;.!?"
            and not (token.text in ",." and token.glued and k + 1 < len(line.tokens) and line.tokens[k + 1].glued)
        ):
            continue
        end = token.start if token is not None else len(line.text)
        while at < len(taken) and taken[at][1] <= start:
            at += 1
        piece = line.text[start:end].strip()
        if (
            piece
            and not (at < len(taken) and taken[at][0] < end)
            and not any(a < end and b > start for a, b in taken[max(0, at - 3) : at + 3])
        ):
            out.append(piece)
        start = token.end if token is not None else end
    return tuple(out)


def _dont_know(line: Line, facts: tuple[Heard, ...]) -> bool:
    if line.low.strip(" .!") in ("?", "??", "???"):
        return True
    if any(f.name in line.asked for f in facts):
        return False
    return any(m.tag == "dont_know" for m in line.marks)
