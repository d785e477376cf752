"""Which stretches of a line speak of which hose end?

A line is cut at its joints (comma, "and", "x") and at its place words ("one end", "the other").
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, field

from interview.language.lexer import Token
from interview.language.line import Line
from interview.language.phrasebook import phrasebook
from interview.language.units import match_unit

JOINTS = frozenset(
    {",", ";", ".", ":", "(", ")", "and", "x", "plus", "then", "/", "+", "to", "by", "but", "!", "?", "&"}
)


FILLER = frozenset(
    "a an the with in on at of is are it one its has have hose dash size no type thread threaded fitting fittings "
    "end ends each bit "
    "same - # \" ' inch in and please series seal nut coupling couplings sae need want to be for s".split()
)


# What does not settle the family: the families it can be, and what is asked back.
OPEN_SERIES = {
    "?": (("cone24_L", "cone24_S"), "light or heavy series?"),
    "pipe": (("npt", "bspt"), "American or British pipe thread?"),
}
ATTRIBUTES = ("gender", "form", "swivel", "seal", "metal")


@dataclass(slots=True)
class Item:
    """A phrase about an end and its tokens."""

    first: int
    last: int  # one past
    says: dict[str, str]
    bare: bool = False  # "one straight": the place word alone


@dataclass(slots=True)
class Piece:
    """A stretch of the line that speaks of one end (or both)."""

    first: int
    last: int
    items: list[Item] = field(default_factory=list)
    joint: str = ""

    def value(self, key: str) -> str | None:
        return next((item.says[key] for item in self.items if key in item.says), None)

    @property
    def places(self) -> list[Item]:
        return [item for item in self.items if "place" in item.says]

    @property
    def named(self) -> bool:
        return any("family" in i.says or i.says.get("series") in OPEN_SERIES or "adapter" in i.says for i in self.items)


def find_items(line: Line, *, cones: bool = False) -> list[Item]:
    """All phrases about ends. A bare 90 or 45 counts only where no unit follows.

    `cones`: a hose end was asked about, so that a cone's size alone ("18L") names its connection.
    """
    book = phrasebook()
    words = line.words
    items: list[Item] = []
    i = 0
    while i < len(words):
        if line.masked[i]:
            i += 1
            continue
        got = book.ends.longest(words, i)
        if got is None:
            i += 1
            continue
        entry, j = got
        if any(key == "form" for key, _ in entry.gives) and _a_measure(line.low, line.tokens, i, j):
            i += 1
            continue
        says = {k: str(v) for k, v in entry.gives}
        if "noun" in says and words[j - 1].endswith("s"):
            says["many"] = "yes"
        items.append(Item(i, j, says))
        i = j
    if cones:
        items += [Item(k, k + 2, says) for k, word in enumerate(words[:-1]) if (says := _OF_A_SEAT.get(word, {}))
                  and words[k + 1] in _DEGREES and not any(i.first <= k < i.last for i in items)]  # fmt: skip
        for label in line.labels:
            if label.kind == "cone":
                first, last = line.tokens_in(label.start, label.end)
                items.append(Item(first, last + 1, {"series": label.data.lstrip("0123456789")}))
    starts = {item.first: item for item in items}
    for k, word in enumerate(words[:-1]):  # "one straight, one 90"
        if word == "one" and k + 1 in starts and not {"place", "noun"} & set(starts[k + 1].says) and k not in starts:
            items.append(Item(k, k + 1, {"place": "one"}, True))
    for k in range(1, len(words) - 1):  # "JIC8 FEM SWVL X2", where its end is the line's
        if words[k] == "x" and words[k + 1] == "2" and words[k + 2 : k + 3] in ([], [","], ["."], [";"]):
            if line.tokens[k + 1].glued and any(i.last == k and "place" not in i.says for i in items):
                items.append(Item(k, k + 2, {"place": "both"}))
    taken = {k for item in items for k in range(item.first, item.last)}
    for k, word in enumerate(words):
        near = [i for i in items if "gender" in i.says and (i.last == k or i.first == k + 1)]
        thread = words[k + 1 : k + 2] in (["thread"], ["threads"])
        if word == "pipe" and k not in taken and not line.masked[k] and (near or thread):
            items.append(Item(k, k + 1, {"series": "pipe"}))  # a pipe thread, of which there are several
        elif word in ("a", "b") and k and words[k - 1] in ("on", "at") and not taken & {k - 1, k}:
            if k + 1 == len(words) or words[k + 1] in JOINTS:  # "JIC 12 on A"
                items.append(Item(k - 1, k + 1, {"place": word}))
        elif (
            word in ("a", "b")
            and line.text[line.tokens[k].start].isupper()
            and (k + 1 == len(words) or words[k + 1] in JOINTS)
            and (k - 1 in taken or (k - 1 in line.label_at and line.label_at[k - 1].kind in ("cone", "thread")))
        ):  # "18L straight A, 18L 90 B"
            items.append(Item(k, k + 1, {"place": word}))
    return sorted(items, key=lambda item: item.first)


_TURNED = re.compile(
    r"\s*(?:degrees?|deg|°)?\s*(?:to each other|to one another|apart|between|offset|out of|clockwise|counter|"
    r"anti-?clock|orient|rotat|twist|from each|opposed|ccw|cw\b)"
)


_TURNED_BEFORE = re.compile(
    r"(?:angle|clocked|turned|orientation|set|rotated|phase|offset|twisted)(?: of| at| to| by| is| between [a-z ]+ "
    r"is)?\s*$"
)


def _a_measure(low: str, tokens: list[Token], i: int, j: int) -> bool:
    last = next((k for k in range(j - 1, i - 1, -1) if tokens[k].number is not None), None)
    if last is None or any(
        words in ("elbow", "elbows", "bend", "bent", "ell", "sweep", "swept") for words in (t.text for t in tokens[i:j])
    ):
        return False
    j = last + 1
    unit = match_unit(low, tokens[j - 1].end)
    if low[tokens[j - 1].end : tokens[j - 1].end + 1] == "s" and unit is not None and unit[0] == "s":
        return False
    if unit is not None and unit[0] != "deg":
        return True
    if _TURNED.match(low, tokens[j - 1].end) or _TURNED_BEFORE.search(
        low[max(0, tokens[i].start - 30) : tokens[i].start]
    ):
        return True
    after = low[tokens[j - 1].end : tokens[j - 1].end + 2]
    before = tokens[i - 1].text if i else ""
    return (after[:1] in (".", "/") and after[1:2].isdigit()) or before in ("-", "/", "to", "pump", "at", "about")


def taken_back(words: list[str], items: list[Item]) -> frozenset[int]:
    """The "no" of "JIC 8, no, JIC 10" and of "8 JIC no 10 JIC", which denies nothing: what follows puts it right."""
    named = [i for i in items if "family" in i.says]
    alone = {
        k
        for k, word in enumerate(words)
        if word == "no" and words[k - 1 : k] in ([","], [";"], ["."]) and words[k + 1 : k + 2] in ([","], [";"], ["."])
    }
    twice = {
        k
        for one, two in itertools.pairwise(named)
        for k in range(one.last, two.first)
        if words[k] == "no"
        and two.first - one.last <= 4
        and one.says["family"] == two.says["family"]
        and not any("place" in i.says and one.last <= i.first < two.first for i in items)
    }
    return frozenset(alone | twice)


def without_denied(
    words: list[str], items: list[Item], used: set[int], put_right: frozenset[int] = frozenset()
) -> list[Item]:
    """ "Not JIC, ORFS": what follows the denial up to the next joint says nothing. `put_right`: a "no" that is none."""
    gone: set[int] = set()
    for k, word in enumerate(words):
        if k in put_right:
            continue
        if word in ("not", "isn't", "wasn't", "no", "don't") or (
            word in ("instead", "rather") and k + 1 < len(words) and words[k + 1] in ("of", "than")
        ):
            for j in range(k + 1, min(k + 9, len(words))):
                if (words[j] in JOINTS and words[j] not in ("to",)) or words[j] in ("it", "but"):
                    break
                gone.add(j)
    out = []
    for item in items:
        if item.first in gone and not item.says.get("swivel") == "no":
            used.update(k for k in gone if abs(k - item.first) <= 3)
        else:
            out.append(item)
    return out


def cut_in_pieces(line: Line, items: list[Item], put_right: frozenset[int] = frozenset()) -> list[Piece]:
    """The stretches between the joints of a line; a "no" that puts right is one of them."""
    tokens, words = line.tokens, line.words
    inside = (
        {k for m in line.measures for k in range(m.first, m.last + 1)}
        | {k for i in items for k in range(i.first, i.last)}
        | set(line.label_at)
    )
    pieces: list[Piece] = []
    piece = Piece(0, 0)
    for k, word in enumerate(words):
        if (
            (word in JOINTS or k in put_right)
            and k not in inside
            and not (word == "." and tokens[k].glued and k + 1 < len(words) and tokens[k + 1].glued)
        ):
            piece.last = k
            pieces.append(piece)
            piece = Piece(k + 1, k + 1, joint=word)
    piece.last = len(words)
    pieces.append(piece)
    at = 0
    for piece in pieces:
        while at < len(items) and items[at].first < piece.last:
            if items[at].first >= piece.first:
                piece.items.append(items[at])
            at += 1
    return [part for piece in pieces for part in _by_place(piece)]


def _by_place(piece: Piece) -> list[Piece]:
    """A piece with two places (or two families) holds two ends: cut it before each, or after each, as it begins."""
    marks = [i for i in piece.items if i.says.get("place") in ("one", "other", "a", "b", "both")]
    if len(marks) < 2:
        families = [i for i in piece.items if "family" in i.says]
        if len(families) < 2 or families[0].says == families[1].says:
            return [piece]
        lead = piece.items[0]
        if "family" in lead.says:
            cuts = [f.first for f in families[1:]]
        else:
            key = next(iter(lead.says))
            cuts = [i.first for i in piece.items if key in i.says and i is not lead][:1] or [families[1].first]
        return _cut(piece, cuts)
    before = [i for i in piece.items if i.first < marks[0].first and "noun" not in i.says]
    places: set[int] = set()
    for n, m in enumerate(marks):
        if m.bare:  # "one straight one 90" always stands before
            places.add(m.first)
        elif not before and n:
            places.add(m.first)
        elif before and n < len(marks) - 1:
            places.add(m.last)
    return _cut(piece, sorted(c for c in places if piece.first < c < piece.last))


def _cut(piece: Piece, cuts: list[int]) -> list[Piece]:
    out = []
    edges = [piece.first, *cuts, piece.last]
    for a, b in itertools.pairwise(edges):
        part = Piece(a, b, [i for i in piece.items if a <= i.first < b], piece.joint if a == piece.first else "cut")
        out.append(part)
    return out


def only_ends(words: list[str], piece: Piece) -> bool:
    """True where a piece holds nothing but words about ends."""
    covered = {k for i in piece.items for k in range(i.first, i.last)}
    return all(k in covered or words[k] in FILLER for k in range(piece.first, piece.last))


def other(end: str) -> str:
    """The other end of the hose."""
    return "b" if end == "a" else "a"


def of_the_port(words: list[str], piece: Piece) -> bool:
    """ "The port is 1/2 BSPP": that is the machine's, not the hose's."""
    at = next((i.first for i in piece.items if "family" in i.says or "series" in i.says), piece.last)
    return any(words[k] in ("port", "ports") for k in range(piece.first, at))


def an_angle(words: list[str], piece: Piece) -> bool:
    """ "37 degrees" alone: where the seat angle was asked, that is the reading and no name."""
    named = [i for i in piece.items if "family" in i.says]
    return bool(named) and all(set(words[i.first : i.last]) <= _DEGREES for i in named)


_OF_A_SEAT = {"37": {"family": "flare37"}, "24": {"series": "?"}}  # "37 degrees" of an end; of oil it is a temperature
_DEGREES = frozenset(("37", "45", "degree", "degrees", "deg", "°"))


def alike(words: list[str], piece: Piece) -> bool:
    """ "End B the same, with a 90"."""
    return bool({"same", "ditto", "identical", "alike"} & set(words[piece.first : piece.last]))


def says_many(item: Item) -> bool:
    """Ends, fittings: more than one."""
    return item.says.get("noun") == "ends" and item.says.get("many") == "yes"
