"""One line, taken apart: its tokens, words, codes, marks and clauses, as all readers of it need them."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field

from interview.facts import Origin, Value
from interview.language.labels import Label, find_labels
from interview.language.lexer import NUMBER_WORDS, Token, normalise, tokenise
from interview.language.measures import Measure, find_measures
from interview.language.model import Heard, Unclear
from interview.language.pairing import Cue
from interview.language.phrasebook import match_parts, mend, phrasebook

_STOPS = frozenset({".", ";", "!", "?"})
_BREAKS = _STOPS | {",", ":", "but", "(", ")"}


@dataclass(slots=True)
class Mark:
    """A steering phrase and its tokens."""

    tag: str
    first: int
    last: int


@dataclass(slots=True)
class Line:
    """A line in pieces, and what has been taken from it so far."""

    text: str
    low: str
    home: str
    asked: tuple[str, ...]
    tokens: list[Token]
    words: list[str]
    masked: list[bool]
    labels: list[Label]
    label_at: dict[int, Label]
    measures: list[Measure]
    marks: list[Mark]
    cues: list[Cue]
    facts: list[Heard] = field(default_factory=list)
    unclear: list[Unclear] = field(default_factory=list)
    used: set[int] = field(default_factory=set)
    weak: set[tuple[str, int]] = field(default_factory=set)  # name and place of facts that give way to a plainer one
    end_used: set[int] = field(default_factory=set)  # by words about the hose ends

    def said(self, start: int, end: int) -> str:
        return self.text[start:end].strip(" ,;.")

    def clause(self, k: int, stops: frozenset[str] = _BREAKS) -> tuple[int, int]:
        """First and one past last token of the clause around token `k`."""
        a = k
        while a > 0 and self.words[a - 1] not in stops and k - a < 40:
            a -= 1
        b = k
        while b < len(self.words) and self.words[b] not in stops and b - k < 40:
            b += 1
        return a, b

    def tokens_in(self, start: int, end: int) -> tuple[int, int]:
        """First and last token of a stretch of the text."""
        inside = [k for k, t in enumerate(self.tokens) if t.start < end and t.end > start]
        return (inside[0], inside[-1]) if inside else (0, 0)

    def spend(self, start: int, end: int) -> None:
        """The measures of a stretch of the text are taken: they are part of what was said there."""
        for m in self.measures:
            if m.start < end and m.end > start:
                m.taken = True

    def has_mark(self, tag: str, a: int = 0, b: int = 1 << 30) -> bool:
        return any(m.tag == tag and a <= m.first and m.last <= b for m in self.marks)

    def add(self, name: str, value: Value, first: int, last: int, *, unit: str = "", origin: Origin = Origin.STATED,
            hedged: bool = False, corrects: bool = False) -> None:  # fmt: skip
        """Takes a fact said by the tokens first..last (inclusive); the first saying of a fact in a line stays."""
        start, end = self.tokens[first].start, self.tokens[last].end
        self.facts.append(Heard(name, value, unit, self.said(start, end), origin, hedged, corrects, start, end))
        self.used.update(range(first, last + 1))

    def open(
        self, could: tuple[str, ...], why: str, first: int, last: int, readings: tuple[Heard, ...] = (), end: int = 0
    ) -> None:
        start = self.tokens[first].start
        number = self.tokens[first].number
        if number is not None and number.minus and self.low[start - 1 : start] == "-":
            start -= 1  # the minus of a figure is quoted with it
        end = max(end, self.tokens[last].end)
        self.unclear.append(Unclear(self.said(start, end), could, why, readings, start, end))
        self.used.update(range(first, last + 1))


def take_apart(text: str, asked: tuple[str, ...], home: str) -> Line:
    """Tokens, codes, marks, cues and measures of a text."""
    book = phrasebook()
    low = normalise(text)
    tokens = tokenise(low)
    labels = find_labels(low, text, of_an_end=any(a.startswith(("end_a_", "end_b_")) for a in asked))
    starts = [t.start for t in tokens]
    masked = [False] * len(tokens)
    label_at: dict[int, Label] = {}
    for label in labels:
        k = max(0, bisect_right(starts, label.start) - 1)
        while k < len(tokens) and tokens[k].start < label.end:
            if tokens[k].end > label.start:
                masked[k] = True
                label_at.setdefault(k, label)
            k += 1
    words = [_word(t, book.vocabulary) if t.kind == "w" else t.text for t in tokens]
    named = [
        m or (k > 0 and t.text in ("61", "62") and tokens[k - 1].text in ("code", "cd"))
        for k, (t, m) in enumerate(zip(tokens, masked, strict=True))
    ]
    measures = find_measures(low, tokens, named)
    spoken = [(m.start, m.end) for m in measures]
    in_unit = masked[:]
    at = 0
    for k, token in enumerate(tokens):  # the min of L/min is no "minimum"
        while at < len(spoken) and spoken[at][1] <= token.start:
            at += 1
        if at < len(spoken) and spoken[at][0] <= token.start and token.number is None:
            in_unit[k] = True
    marks = _scan_marks(words, in_unit)
    cues = _scan_cues(words, masked)
    return Line(text, low, home, asked, tokens, words, masked, labels, label_at, measures, marks, cues)


def _word(token: Token, vocabulary: frozenset[str]) -> str:
    word = token.text
    if word in vocabulary or word in NUMBER_WORDS:
        return word
    if word.endswith("s") and word[:-1] in vocabulary and len(word) > 4:
        return word[:-1]
    return mend(word)


def _scan_marks(words: list[str], masked: list[bool]) -> list[Mark]:
    index = phrasebook().marks
    out: list[Mark] = []
    for i in range(len(words)):
        if masked[i]:
            continue
        rows = index.first.get(words[i])
        if rows is None:
            continue
        by_tag: dict[str, int] = {}
        for parts, entry in rows:
            end = match_parts(parts, words, i)
            if end > i:
                by_tag[entry.tag] = max(end, by_tag.get(entry.tag, 0))
        out.extend(Mark(tag, i, end) for tag, end in by_tag.items())
    return out


def _scan_cues(words: list[str], masked: list[bool]) -> list[Cue]:
    index = phrasebook().cues
    out: list[Cue] = []
    for i in range(len(words)):
        rows = index.first.get(words[i])
        if rows is None or masked[i]:
            continue
        by_tag: dict[str, Cue] = {}
        for parts, entry in rows:
            end = match_parts(parts, words, i)
            if end > i and (entry.tag not in by_tag or by_tag[entry.tag].last < end):
                by_tag[entry.tag] = Cue(entry.tag, i, end, entry.before, entry.after)
        out.extend(by_tag.values())
    return out
