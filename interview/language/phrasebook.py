"""What do the words of the trade mean? The phrasebook file, checked, and turned into tries that match in linear time.

A phrase is words with `(a|b c)` for alternatives, `[x]` for what may be missing and `~` for up to three other words. It
never runs across a comma or full stop. A shop edits the file; a fault in it is told with file, line, and what would be right.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from interview.facts import CATALOGUE, FactSpec, Kind, Value
from interview.resources import shipped

SECTIONS = ("facts", "cues", "ends", "marks")
MARKS = frozenset({
    "fluid", "ambient", "hottest", "coldest", "not", "correct", "dont_know", "injury", "not_ours", "greeting", "yes", "no",
    "none", "british", "cylinder", "pump", "old_hose", "asap",
})  # fmt: skip
END_KEYS = frozenset({"family", "gender", "form", "swivel", "place", "series", "seal", "metal", "noun", "adapter", "rated"})
PLACES = frozenset({"both", "a", "b", "one", "other", "same"})
EXTRA_CUES = frozenset({"fluid_temperature", "ambient_temperature", "cylinder", "not_ours"})
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
class Trie:
    """Phrases by their words."""

    root: dict[str, Any] = field(default_factory=dict)

    def add(self, words: tuple[str, ...], entry: Entry) -> None:
        node = self.root
        for word in words:
            node = node.setdefault(word, {})
        node.setdefault("", entry)

    def longest(self, words: list[str], i: int) -> tuple[Entry, int] | None:
        """The longest phrase that starts at word `i`, and where it ends."""
        first = self.root.get(words[i])
        if first is None:
            return None
        best: tuple[Entry, int] | None = None
        stack: list[tuple[dict[str, Any], int, int]] = [(first, i + 1, 0)]
        while stack:
            node, j, gap = stack.pop()
            if "" in node and (best is None or j > best[1]) and not gap:
                best = (node[""], j)
            if j >= len(words):
                continue
            word = words[j]
            if (deeper := node.get(word)) is not None:
                stack.append((deeper, j + 1, 0))
            if (skip := node.get(_GAP)) is not None and word not in ",;.:!?()":
                for k in range(j, min(j + 4, len(words))):
                    if words[k] in (",", ";", ".", ":", "!", "?", "(", ")"):
                        break
                    if words[k] in skip:
                        stack.append((skip[words[k]], k + 1, 0))
        return best


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """The whole book."""

    entries: tuple[Entry, ...]
    facts: Trie
    cues: Trie
    ends: Trie
    marks: Trie
    vocabulary: frozenset[str]
    never_mend: frozenset[str]


_PART = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]|([^\s()\[\]]+)")


def expand(phrase: str) -> Iterator[tuple[str, ...]]:
    """All word sequences of a phrase.

    >>> list(expand("(burst|blown) [old] hose"))
    [('burst', 'hose'), ('burst', 'old', 'hose'), ('blown', 'hose'), ('blown', 'old', 'hose')]
    """
    choices: list[list[tuple[str, ...]]] = []
    at = 0
    for found in _PART.finditer(phrase):
        if phrase[at : found.start()].strip():
            raise ValueError(f"{phrase[at : found.start()].strip()!r} is not closed")
        at = found.end()
        if found[1] is not None:
            choices.append([tuple(part.split()) for part in found[1].split("|")])
        elif found[2] is not None:
            choices.append([(), *(tuple(part.split()) for part in found[2].split("|"))])
        else:
            choices.append([(found[3],)])
    if phrase[at:].strip():
        raise ValueError(f"{phrase[at:].strip()!r} is not closed")
    total: list[tuple[str, ...]] = [()]
    for some in choices:
        total = [head + tail for head in total for tail in some]
        if len(total) > 400:
            raise ValueError("more than 400 ways to say it in one phrase; write two")
    yield from (words for words in total if words)


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
            if key.value == section and isinstance(value, yaml.SequenceNode) and index < len(value.value):
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
    tries = {section: Trie() for section in SECTIONS}
    vocabulary: set[str] = set()
    for section, rows in raw.items():
        if section == "never_mend":
            continue
        if section not in SECTIONS or not isinstance(rows, list):
            raise PhrasebookError(f"{path.name}:{_line_of(text, section, 0)}: {section!r} is not a list of one of {', '.join(SECTIONS)}")
        for index, row in enumerate(rows):
            try:
                entry = _entry(section, row, f"{path.name}: {section} {index + 1}")
                for phrase in entry.say:
                    for words in expand(phrase):
                        if words[0] == _GAP or words[-1] == _GAP:
                            raise ValueError(f"{phrase!r}: a gap stands between words")
                        tries[section].add(words, entry)
                        vocabulary.update(words)
            except ValueError as error:
                raise PhrasebookError(f"{path.name}:{_line_of(text, section, index)}: {error}") from error
            entries.append(entry)
    never = frozenset(" ".join(raw.get("never_mend", [])).split())
    known = frozenset(word for word in vocabulary if word.isalpha())
    return Phrasebook(tuple(entries), tries["facts"], tries["cues"], tries["ends"], tries["marks"], known, never)


@cache
def phrasebook() -> Phrasebook:
    """The shipped book, read once."""
    return read_phrasebook(shipped("flows") / "phrasebook.yaml")


@cache
def _long_words() -> tuple[str, ...]:
    return tuple(sorted(w for w in phrasebook().vocabulary if len(w) >= 5 and w not in phrasebook().never_mend))


@cache
def mend(word: str) -> str:
    """The word of the book that a slip stands for, or the word itself.

    Only words of five letters and more, the first letter kept, one edit (two from eight letters on), one candidate only;
    words that are sound English near a word of ours stand in `never_mend`.
    """
    book = phrasebook()
    if len(word) < 5 or len(word) > 20 or word in book.vocabulary or word in book.never_mend or not word.isalpha():
        return word
    if any(word == known + "s" or word + "s" == known or word == known + "ed" for known in (word[:-1], word[:-2], word + "s")
           if known in book.vocabulary):  # fmt: skip
        return word
    from rapidfuzz.distance import OSA

    limit = 1 if len(word) < 8 else 2
    best: list[tuple[int, str]] = []
    for known in _long_words():
        if known[0] == word[0] and abs(len(known) - len(word)) <= limit:
            distance = OSA.distance(word, known, score_cutoff=limit)
            if distance <= limit:
                best.append((distance, known))
    best.sort()
    if not best or len(best) > 1 and best[0][0] == best[1][0]:
        return word
    return best[0][1]
