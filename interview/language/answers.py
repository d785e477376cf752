"""What does a short answer mean, given what was asked? Yes and no, a choice by its word, a bare number, a name."""

from __future__ import annotations

import re

from interview.facts import CATALOGUE, FactSpec, Kind
from interview.language.binding import take
from interview.language.line import Line
from interview.language.model import Heard

_YES = re.compile(r"^\W*(?:yes|yeah|yep|yup|aye|correct|sure|true|y|of course|definitely|certainly|indeed|it (?:does|is|has|will)|they (?:do|are)|there (?:is|are))\b")
_NO = re.compile(r"^\W*(?:no|nope|nah|n|false|never|not at all|not really|negative|it (?:doesn'?t|isn'?t)|there (?:isn'?t|aren'?t)|none|not needed|not required)\b(?! idea| clue)")
_NONE = re.compile(r"^\W*(?:none|nothing|neither|no|nope|not any|nil|nowt|none of (?:those|them|these)|nothing like that|not that i know of)\W*(?:of (?:those|them|these)|like that|at all)?\W*$")


def answer(line: Line) -> None:
    """Completes the asked facts from what the line has left."""
    known = {f.name for f in line.facts} | {n for u in line.unclear for n in u.could_be}
    for name in line.asked:
        if name in known:
            continue
        entry = CATALOGUE[name]
        if entry.kind is Kind.FLAG:
            _flag(line, name)
        elif entry.kind in (Kind.CHOICE, Kind.MANY):
            _choice(line, entry)
        elif entry.kind is Kind.QUANTITY:
            _number(line, name)
        elif entry.kind is Kind.TEXT:
            _text(line, name)


def _whole(line: Line) -> tuple[int, int]:
    return 0, max(0, len(line.tokens) - 1)


def _flag(line: Line, name: str) -> None:
    if any(m.tag == "dont_know" for m in line.marks):
        return
    if _NO.match(line.low):
        line.add(name, False, 0, 0)
    elif _YES.match(line.low):
        line.add(name, True, 0, 0)


def _choice(line: Line, entry: FactSpec) -> None:
    low = line.low.strip(" .!")
    if entry.kind is Kind.MANY and _NONE.match(line.low) and len(line.asked) == 1:
        line.add(entry.name, ("none",) if "none" in entry.choices else (), *_whole(line))
        return
    found = [c for c in entry.choices if re.search(rf"\b{re.escape(c)}\b|\b{re.escape(c.replace('_', ' '))}\b", low)]
    found = [c for c in found if not any(c != d and c in d for d in found)]
    if not found or any(m.tag == "dont_know" for m in line.marks):
        return
    if entry.kind is Kind.MANY:
        line.add(entry.name, tuple(found), *_whole(line))
    elif len(found) == 1:
        negated = re.search(rf"\b(?:not|no|n't)\b[^,;]*\b{re.escape(found[0].replace('_', ' '))}\b", low)
        if not negated:
            line.add(entry.name, found[0], *_whole(line))


def _number(line: Line, name: str) -> None:
    left = [m for m in line.measures if not m.taken]
    same = [a for a in line.asked if CATALOGUE[a].kind is Kind.QUANTITY and not any(f.name == a for f in line.facts)]
    if len(left) == 1 and (len(same) == 1 or left[0].measures == CATALOGUE[name].measures):
        m = left[0]
        if m.unit == "other":
            return
        if take(line, name, m, asked=True):
            return
        if m.unit == "" and CATALOGUE[name].measures in ("number", "grade", "size"):
            line.facts.append(Heard(name, m.low, "", line.said(m.start, m.end), start=m.start, end=m.end))


def _text(line: Line, name: str) -> None:
    text = line.text.strip(" .;")
    if not text or len(text) > 120 or any(m.tag == "dont_know" for m in line.marks) or re.fullmatch(r"\W*", text):
        return
    if _NO.match(line.low) or _YES.match(line.low) or line.facts and len(line.words) > 6:
        return
    text = re.sub(r"^(?:it'?s|its|the|this is|a|an|for|name is|called)\s+(?:a |an |the )?", "", text, flags=re.I)
    line.add(name, text, *_whole(line))
