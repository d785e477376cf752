"""What do the words of the trade mean? The phrasebook file, checked, and indexed to match a line in linear time.

A phrase is words with `(a|b c)` for alternatives, `[x]` for what may be missing and `~` for up to four other words. It
never runs across a comma or full stop. A shop edits the file; a fault in it is told with file and line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import yaml

from interview.catalogue import CATALOGUE, FactSpec, Kind
from interview.facts import Value
from interview.resources import shipped

SECTIONS = ("facts", "cues", "ends", "marks")
MARKS = frozenset(
    {
        "fluid",
        "ambient",
        "hottest",
        "coldest",
        "not",
        "correct",
        "dont_know",
        "injury",
        "not_ours",
        "greeting",
        "yes",
        "no",
        "none",
        "british",
        "cylinder",
        "pump",
        "old_hose",
        "asap",
    }
)
END_KEYS = frozenset(
    {"family", "gender", "form", "swivel", "place", "series", "seal", "metal", "noun", "adapter", "rated"}
)
PLACES = frozenset({"both", "a", "b", "one", "other", "same"})
EXTRA_CUES = frozenset({"fluid_temperature", "ambient_temperature", "cylinder", "not_ours", "flooded"})
_GAP = "~"


class PhrasebookError(ValueError):
    """The phrasebook will not do: file, line, what is wrong, what would be right."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One meaning and the ways to say it. `gives` maps facts to values; `denied` what a negation of it says."""

    section: str
    gives: tuple[tuple[str, Value], ...]
    denied: tuple[tuple[str, Value], ...]
    tag: str
    say: tuple[str, ...]
    example: str
    before: bool = False  # a cue that only counts in front of its number
    after: bool = False
    where: str = ""


@dataclass(slots=True)
class Part:
    """One place of a phrase: single words, longer alternatives, and whether it may be missing."""

    singles: frozenset[str]
    longer: tuple[tuple[str, ...], ...]
    optional: bool
    gap: bool = False


_STOPS = frozenset(",;.:!?()")
# These may stand between any two words of a phrase and change nothing.
_ADVERBS = frozenset(
    "all badly really completely just very quite totally right slightly now also so pretty bit actually been "
    "got".split()
)


@dataclass(slots=True)
class Index:
    """Phrases by their possible first words, so that a line is matched in time linear in its length."""

    first: dict[str, list[tuple[tuple[Part, ...], Entry]]] = field(default_factory=dict)

    def add(self, parts: tuple[Part, ...], entry: Entry) -> None:
        for part in parts:
            for word in part.singles | {some[0] for some in part.longer}:
                rows = self.first.setdefault(word, [])
                if not rows or rows[-1][0] is not parts:
                    rows.append((parts, entry))
            if not part.optional:
                return

    def all(self, words: list[str], i: int) -> list[tuple[Entry, int]]:
        """Every phrase that starts at word `i`, and where it ends."""
        return [
            (entry, end) for parts, entry in self.first.get(words[i], ()) if (end := match_parts(parts, words, i)) > i
        ]

    def longest(self, words: list[str], i: int) -> tuple[Entry, int] | None:
        """The longest phrase that starts at word `i`, and where it ends."""
        rows = self.first.get(words[i])
        if rows is None:
            return None
        best: tuple[Entry, int] | None = None
        for parts, entry in rows:
            end = match_parts(parts, words, i)
            if end > i and (best is None or end > best[1]):
                best = (entry, end)
        return best


def match_parts(parts: tuple[Part, ...], words: list[str], i: int) -> int:
    """The furthest end of a phrase that starts at word `i`; -1 where it does not match."""
    at = {i}
    last = len(words)
    for part in parts:
        after: set[int] = set()
        for p in at:
            if part.gap:
                after.add(p)
                for k in range(p, min(p + 4, last)):
                    if words[k] in _STOPS:
                        break
                    after.add(k + 1)
                continue
            if part.optional:
                after.add(p)
            if p >= last:
                continue
            if words[p] in part.singles:
                after.add(p + 1)
            for some in part.longer:
                if words[p] == some[0] and tuple(words[p : p + len(some)]) == some:
                    after.add(p + len(some))
        if not after:
            return -1
        at = after | {p + 1 for p in after if i < p < last and words[p] in _ADVERBS}
    return max(
        (p for p in at if p <= i + 1 or words[p - 1] not in _ADVERBS or _ends_so(parts[-1], words[p - 1])), default=-1
    )


def _ends_so(part: Part, word: str) -> bool:
    """True where an adverb is the phrase's own last word."""
    return word in part.singles or any(some[-1] == word for some in part.longer)


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """The whole book."""

    entries: tuple[Entry, ...]
    facts: Index
    cues: Index
    ends: Index
    marks: Index
    vocabulary: frozenset[str]
    never_mend: frozenset[str]


_PART = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]|([^\s()\[\]]+)")


def parse(phrase: str) -> tuple[Part, ...]:
    """The places of a phrase.

    >>> [sorted(part.singles) for part in parse("(burst|blown) [old] hose")]
    [['blown', 'burst'], ['old'], ['hose']]
    """
    parts: list[Part] = []
    at = 0
    for found in _PART.finditer(phrase):
        if phrase[at : found.start()].strip():
            raise ValueError(f"{phrase!r}: {phrase[at : found.start()].strip()!r} is not closed")
        at = found.end()
        if found[3] == _GAP:
            parts.append(Part(frozenset(), (), True, True))
            continue
        body = found[1] if found[1] is not None else found[2] if found[2] is not None else found[3]
        some = [tuple(option.split()) for option in body.split("|")]
        if not all(some):
            raise ValueError(f"{phrase!r}: an alternative is empty")
        parts.append(
            Part(
                frozenset(s[0] for s in some if len(s) == 1), tuple(s for s in some if len(s) > 1), found[2] is not None
            )
        )
    if phrase[at:].strip():
        raise ValueError(f"{phrase!r}: {phrase[at:].strip()!r} is not closed")
    if not any(not part.optional for part in parts):
        raise ValueError(f"{phrase!r}: nothing in it must be said")
    if parts[0].gap or parts[-1].gap:
        raise ValueError(f"{phrase!r}: a gap stands between words")
    return tuple(parts)


def _value(entry: FactSpec, raw: object) -> Value:
    if entry.kind is Kind.FLAG:
        if raw in ("yes", "true"):
            return True
        if raw in ("no", "false"):
            return False
        raise ValueError(f"{entry.name} takes yes or no, not {raw!r}")
    if entry.kind is Kind.MANY:
        parts = tuple(str(part) for part in (raw if isinstance(raw, list) else [raw]))
        for part in parts:
            if part not in entry.choices:
                raise ValueError(f"{part!r} is no choice of {entry.name}; choices: {', '.join(entry.choices)}")
        return parts
    if not isinstance(raw, str):
        raise ValueError(f"{entry.name} takes one value")
    if entry.choices and raw not in entry.choices:
        raise ValueError(f"{raw!r} is no choice of {entry.name}; choices: {', '.join(entry.choices)}")
    if entry.kind is Kind.QUANTITY:
        return float(raw) * entry.factor
    return raw


def _values(raw: object) -> tuple[tuple[str, Value], ...]:
    if not isinstance(raw, dict):
        raise ValueError("a mapping of facts to values is wanted here")
    out = []
    for name, value in raw.items():
        if name not in CATALOGUE:
            raise ValueError(f"{name!r} is not a fact")
        out.append((str(name), _value(CATALOGUE[name], value)))
    return tuple(out)


_KEYS = {
    "facts": {"gives", "denied", "say", "example"},
    "cues": {"cue", "say", "example", "side"},
    "ends": {"is", "say", "example"},
    "marks": {"mark", "say", "example"},
}


def _entry(section: str, raw: object, where: str) -> Entry:
    if not isinstance(raw, dict):
        raise ValueError("an entry is a mapping")
    unknown = set(raw) - _KEYS[section]
    if unknown:
        raise ValueError(f"{sorted(unknown)[0]!r} is no key of {section}; keys: {', '.join(sorted(_KEYS[section]))}")
    say = raw.get("say")
    if not isinstance(say, list) or not say or not all(isinstance(s, str) for s in say):
        raise ValueError("`say` must list at least one phrase")
    example = raw.get("example")
    if not isinstance(example, str) or not example.strip():
        raise ValueError("`example` is missing: one line in which a customer says it")
    gives: tuple[tuple[str, Value], ...] = ()
    denied: tuple[tuple[str, Value], ...] = ()
    tag = ""
    if section == "facts":
        gives = _values(raw.get("gives"))
        denied = _values(raw["denied"]) if "denied" in raw else ()
    elif section == "cues":
        tag = str(raw.get("cue"))
        if tag not in CATALOGUE and tag not in EXTRA_CUES:
            raise ValueError(f"{tag!r} is not a fact, nor one of {', '.join(sorted(EXTRA_CUES))}")
        if raw.get("side", "either") not in ("before", "after", "either"):
            raise ValueError("`side` is before, after or either")
    elif section == "ends":
        parts = raw.get("is")
        if not isinstance(parts, dict) or set(parts) - END_KEYS:
            raise ValueError(f"`is` is a mapping of {', '.join(sorted(END_KEYS))}")
        if "place" in parts and parts["place"] not in PLACES:
            raise ValueError(f"a place is one of {', '.join(sorted(PLACES))}")
        gives = tuple((str(k), str(v)) for k, v in parts.items())
    else:
        tag = str(raw.get("mark"))
        if tag not in MARKS:
            raise ValueError(f"{tag!r} is no mark; marks: {', '.join(sorted(MARKS))}")
    side = raw.get("side", "either")
    return Entry(section, gives, denied, tag, tuple(say), example, side == "before", side == "after", where)


def _line_of(text: str, section: str, index: int) -> int:
    """The line of an entry; composed only when there is something to say about it."""
    node = yaml.compose(text, Loader=yaml.CSafeLoader)
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if key.value == section and isinstance(value, yaml.SequenceNode) and 0 <= index < len(value.value):
                return int(value.value[index].start_mark.line) + 1
            if key.value == section:
                return int(key.start_mark.line) + 1
    return 1


def read_phrasebook(path: Path) -> Phrasebook:
    """Reads and checks one file. Raises PhrasebookError with file and line."""
    try:
        text = path.read_text(encoding="utf-8")
        raw = yaml.load(text, Loader=yaml.CBaseLoader)
    except (OSError, UnicodeDecodeError) as error:
        raise PhrasebookError(f"{path.name}: cannot be read: {error}") from error
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 1 if mark else 1
        raise PhrasebookError(f"{path.name}:{line}: is not YAML: {getattr(error, 'problem', error)}") from error
    if not isinstance(raw, dict):
        raise PhrasebookError(f"{path.name}:1: the file is a mapping of {', '.join(SECTIONS)} and never_mend")
    entries: list[Entry] = []
    indexes = {section: Index() for section in SECTIONS}
    vocabulary: set[str] = set()
    for section, rows in raw.items():
        if section == "never_mend":
            continue
        if section not in SECTIONS or not isinstance(rows, list):
            raise PhrasebookError(
                f"{path.name}:{_line_of(text, section, -1)}: {section!r} is not a list of one of {', '.join(SECTIONS)}"
            )
        for index, row in enumerate(rows):
            try:
                entry = _entry(section, row, f"{path.name}: {section} {index + 1}")
                for phrase in entry.say:
                    parts = parse(phrase)
                    indexes[section].add(parts, entry)
                    for part in parts:
                        vocabulary |= part.singles
                        for some in part.longer:
                            vocabulary.update(some)
            except ValueError as error:
                raise PhrasebookError(f"{path.name}:{_line_of(text, section, index)}: {error}") from error
            entries.append(entry)
    never = frozenset(" ".join(raw.get("never_mend", [])).split())
    known = frozenset(word for word in vocabulary if word.isalpha())
    return Phrasebook(
        tuple(entries), indexes["facts"], indexes["cues"], indexes["ends"], indexes["marks"], known, never
    )


@cache
def phrasebook() -> Phrasebook:
    """The shipped book, read once."""
    return read_phrasebook(shipped("flows") / "phrasebook.yaml")


@cache
def _long_words() -> tuple[str, ...]:
    return tuple(sorted(w for w in phrasebook().vocabulary if len(w) >= 5))


@cache
def mend(word: str) -> str:
    """The word of the book that a slip stands for, or the word itself.

    Only words of six letters and more, the first letter kept, one edit (two from ten letters on), one candidate only;
    words that are sound English near a word of ours stand in `never_mend`.
    """
    book = phrasebook()
    if len(word) < 6 or len(word) > 20 or word in book.vocabulary or word in book.never_mend or not word.isalpha():
        return word
    if any(
        word == known + "s" or word + "s" == known or word == known + "ed"
        for known in (word[:-1], word[:-2], word + "s")
        if known in book.vocabulary
    ):
        return word
    from rapidfuzz.distance import OSA

    limit = 1 if len(word) < 10 else 2
    best: list[tuple[int, str]] = []
    for known in _long_words():
        if word.startswith(known) or (known.startswith(word[:-1]) and len(known) <= len(word)):
            continue  # an ending of its own makes another word: forge and forget
        if known[0] == word[0] and abs(len(known) - len(word)) <= limit:
            distance = OSA.distance(word, known, score_cutoff=limit)
            if distance <= limit and (len(word) != len(known) or len(word) >= 8 or set(word) == set(known)):
                best.append((distance, known))
    best.sort()
    if not best or (len(best) > 1 and best[0][0] == best[1][0]):
        return word
    return best[0][1]
