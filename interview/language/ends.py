"""What does a line say of the two hose ends?

A line is cut at its joints (comma, "and", "x") and at its place words ("one end", "the other"); each piece that names a
connection, or says something of a placed end, is read for family, size, gender, form, swivel, seal and metal. The end
named first is A.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from interview.facts import Value
from interview.language.end_sizes import Candidate, size_ids
from interview.language.labels import Label
from interview.language.lexer import Token
from interview.language.measures import Measure
from interview.language.model import Heard, Unclear
from interview.language.phrasebook import Entry, phrasebook
from interview.language.units import match_unit

_JOINTS = frozenset(
    {",", ";", ".", ":", "(", ")", "and", "x", "plus", "then", "/", "+", "to", "by", "but", "!", "?", "&"}
)
_FILLER = frozenset(
    "a an the with in on at of is are it one its has have hose dash size no type thread threaded fitting fittings "
    "end ends each bit "
    "same - # \" ' inch in and please series seal nut coupling couplings sae need want to be for s".split()
)
_ATTRIBUTES = ("gender", "form", "swivel", "seal", "metal")


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
        return any(
            "family" in i.says or ("series" in i.says and i.says["series"] == "?") or "adapter" in i.says
            for i in self.items
        )


@dataclass(slots=True)
class EndsFound:
    """Facts and open points about the ends, and the tokens they used up."""

    facts: list[Heard] = field(default_factory=list)
    unclear: list[Unclear] = field(default_factory=list)
    used: set[int] = field(default_factory=set)


def find_items(low: str, tokens: list[Token], words: list[str], masked: list[bool]) -> list[Item]:
    """All phrases about ends. A bare 90 or 45 counts only where no unit follows."""
    book = phrasebook()
    items: list[Item] = []
    i = 0
    while i < len(words):
        if masked[i]:
            i += 1
            continue
        got = book.ends.longest(words, i)
        if got is None:
            i += 1
            continue
        entry, j = got
        if any(key == "form" for key, _ in entry.gives) and _a_measure(low, tokens, entry, i, j):
            i += 1
            continue
        says = {k: str(v) for k, v in entry.gives}
        if "noun" in says and words[j - 1].endswith("s"):
            says["many"] = "yes"
        items.append(Item(i, j, says))
        i = j
    starts = {item.first: item for item in items}
    for k, word in enumerate(words[:-1]):  # "one straight, one 90"
        if word == "one" and k + 1 in starts and not {"place", "noun"} & set(starts[k + 1].says) and k not in starts:
            items.append(Item(k, k + 1, {"place": "one"}, True))
    return sorted(items, key=lambda item: item.first)


_TURNED = re.compile(
    r"\s*(?:degrees?|deg|°)?\s*(?:to each other|to one another|apart|between|offset|out of|clockwise|counter|"
    r"anti-?clock|orient|rotat|twist|from each|opposed|ccw|cw\b)"
)
_TURNED_BEFORE = re.compile(
    r"(?:angle|clocked|turned|orientation|set|rotated|phase|offset|twisted)(?: of| at| to| by| is| between [a-z ]+ "
    r"is)?\s*$"
)


def _a_measure(low: str, tokens: list[Token], entry: Entry, i: int, j: int) -> bool:
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


def _without_denied(words: list[str], items: list[Item], found: EndsFound) -> list[Item]:
    """ "Not JIC, ORFS": what follows the denial up to the next joint says nothing."""
    gone: set[int] = set()
    for k, word in enumerate(words):
        if word in ("not", "isn't", "wasn't", "no", "don't") or (
            word in ("instead", "rather") and k + 1 < len(words) and words[k + 1] in ("of", "than")
        ):
            for j in range(k + 1, min(k + 9, len(words))):
                if (words[j] in _JOINTS and words[j] not in ("to",)) or words[j] in ("it", "but"):
                    break
                gone.add(j)
    out = []
    for item in items:
        if item.first in gone and not item.says.get("swivel") == "no":
            found.used.update(k for k in gone if abs(k - item.first) <= 3)
        else:
            out.append(item)
    return out


def _pieces(
    tokens: list[Token], words: list[str], items: list[Item], measures: list[Measure], labels: dict[int, Label]
) -> list[Piece]:  # fmt: skip
    inside = (
        {k for m in measures for k in range(m.first, m.last + 1)}
        | {k for i in items for k in range(i.first, i.last)}
        | set(labels)
    )
    pieces: list[Piece] = []
    piece = Piece(0, 0)
    for k, word in enumerate(words):
        if (
            word in _JOINTS
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
    cuts = set()
    for n, m in enumerate(marks):
        if m.bare:  # "one straight one 90" always stands before
            cuts.add(m.first)
        elif not before and n:
            cuts.add(m.first)
        elif before and n < len(marks) - 1:
            cuts.add(m.last)
    return _cut(piece, sorted(c for c in cuts if piece.first < c < piece.last))


def _cut(piece: Piece, cuts: list[int]) -> list[Piece]:
    out = []
    edges = [piece.first, *cuts, piece.last]
    for a, b in zip(edges, edges[1:], strict=False):
        part = Piece(a, b, [i for i in piece.items if a <= i.first < b], piece.joint if a == piece.first else "cut")
        out.append(part)
    return out


def read_ends(
    low: str,
    tokens: list[Token],
    words: list[str],
    masked: list[bool],
    labels: dict[int, Label],
    measures: list[Measure],
    asked: str | None = None,
    corrected: frozenset[int] = frozenset(),
) -> EndsFound:
    """Everything a line says of its ends. `labels` by token index; `asked` is the end asked about, "a" or "b"."""
    found = EndsFound()
    items = find_items(low, tokens, words, masked)
    if not items:
        return found
    items = _without_denied(words, items, found)
    pieces = _pieces(tokens, words, items, measures, labels)
    state: dict[str, dict[str, Value]] = {"a": {}, "b": {}}
    last: tuple[str, ...] = ()
    last_piece = -9
    ones = 0
    pending: Piece | None = None
    adapter: tuple[int, tuple[str, ...]] = (-9, ())
    explicit = False  # the last end had its place said
    for index, piece in enumerate(pieces):
        attributes = [i for i in piece.items if any(k in i.says for k in _ATTRIBUTES)]
        place = piece.value("place")
        cone = any(labels[k].kind in ("cone", "thread") for k in range(piece.first, piece.last) if k in labels)
        plural = any(
            words[k].endswith("s") and words[k] not in ("is", "this")
            for i in attributes
            for k in range(i.first, i.last)
        )
        noun = piece.value("noun")
        near = index == last_piece + 1 or (index == last_piece + 2 and bool(place) and not attributes)
        continues = near and bool(last) and _only(words, piece, measures)
        placed = place is not None and (bool(attributes) or cone)
        made_of = (
            plural
            and any("metal" in i.says or "seal" in i.says for i in attributes)
            and "hose" not in words[piece.first : piece.last]
        )
        coned = attributes and any(labels[k].kind == "cone" for k in range(piece.first, piece.last) if k in labels)
        if (
            not piece.named
            and not placed
            and not coned
            and not (noun and attributes)
            and not made_of
            and not (cone and piece.value("series"))
        ):
            if place == "same" and (state["a"] or state["b"]):
                source, target = ("a", "b") if state["a"] else ("b", "a")
                _copy(found, state, source, target)
                _use(found, piece, tokens)
                continue
            if (
                index == last_piece + 1
                and last
                and not attributes
                and not place
                and _late_size(found, state, piece, last, tokens, words, labels, measures, low)
            ):
                last_piece = index
                continue
            if (
                place
                and not attributes
                and (explicit or (piece.last < len(words) and words[piece.last] == ":"))
                and place not in ("both", "same")
            ):
                pending = piece  # "…; end B: NPT"
                continue
            if continues and (attributes or place):
                if place and not attributes:
                    explicit = True
                    last = _spread(found, state, last, place)
                elif attributes:
                    last = _continue(found, state, piece, last, tokens, low)
                _use(found, piece, tokens)
                last_piece = index
                continue
            if place in ("both", "one", "a", "b", "other") and not attributes and _only(words, piece, measures):
                pending = piece  # "both ends, JIC 8"
            continue
        if place is None and pending is not None and pending.last >= piece.first - 2:
            place = pending.value("place")
        pending = None
        explicit = place is not None
        again = bool(last) and any(k in corrected for k in range(max(0, pieces[last_piece].last), piece.last))
        if again and place is None:
            _forget(found, state, last, piece)
            _read(found, state, piece, last, tokens, words, labels, measures, low)
            last_piece = index
            continue
        if again:
            _forget(found, state, ("a", "b"), piece)
        targets, ones = _targets(place, state, ones, asked, piece, index == last_piece + 1, noun, plural, attributes)
        if piece.value("adapter") and _family(piece, labels) is None:
            adapter = (index, targets if place else ("a",))
            _use(found, piece, tokens)
            continue
        if adapter[0] == index - 1 and not piece.value("adapter") and not placed:
            _adapter(found, piece, adapter[1], tokens, words, labels, measures, low)
            continue
        if piece.value("adapter"):
            _adapter(found, piece, targets, tokens, words, labels, measures, low)
        else:
            _read(found, state, piece, targets, tokens, words, labels, measures, low)
        last, last_piece = targets, index
        if place == "same":
            _copy(found, state, targets[0], "b" if targets[0] == "a" else "a")
    return found


def _forget(found: EndsFound, state: dict[str, dict[str, Value]], ends: tuple[str, ...], piece: Piece) -> None:
    """A correction ("JIC 8, sorry, JIC 10") takes back what it says anew."""
    for end in ends:
        for key in ("family", "size", *[k for k in _ATTRIBUTES if piece.value(k)]):
            state[end].pop(key, None)
            found.facts = [f for f in found.facts if f.name != f"end_{end}_{key}"]


def _only(words: list[str], piece: Piece, measures: list[Measure]) -> bool:
    """True where a piece holds nothing but words about ends."""
    covered = {k for i in piece.items for k in range(i.first, i.last)}
    return all(k in covered or words[k] in _FILLER for k in range(piece.first, piece.last))


def _targets(
    place: str | None, state: dict[str, dict[str, Value]], ones: int, asked: str | None, piece: Piece, follows: bool,
    noun: str | None, plural: bool, attributes: list[Item],
) -> tuple[tuple[str, ...], int]:  # fmt: skip
    if place == "both":
        return ("a", "b"), ones
    if place in ("a", "b"):
        return (place,), ones
    if place == "one":
        return (("a",) if ones == 0 else ("b",)), ones + 1
    if place == "other":
        return ("b",), ones
    if asked in ("a", "b"):
        return (asked,), ones
    if (noun or plural) and not piece.named and attributes and not state["a"].get("family"):
        return ("a", "b"), ones
    if plural and not piece.named and all("metal" in i.says or "seal" in i.says for i in attributes):
        return ("a", "b"), ones
    several = any("noun" in i.says and words_end_in_s(i) for i in piece.items)
    if several and piece.named and not state["a"]:
        return ("a", "b"), ones
    if (
        piece.named
        and state["a"]
        and not state["b"]
        and follows
        and piece.joint in ("and", "x", "/", "to", "by", "cut", "+", "plus", ",", "&")
    ):
        return ("b",), ones
    return ("a",), ones


def words_end_in_s(item: Item) -> bool:
    """Ends, fittings: more than one."""
    return item.says.get("noun") == "ends" and item.says.get("many") == "yes"


def _spread(found: EndsFound, state: dict[str, dict[str, Value]], last: tuple[str, ...], place: str) -> tuple[str, ...]:
    """A place word after the end it belongs to: "JIC 8 female, both ends"."""
    if place in ("both", "same") and len(last) == 1:
        _copy(found, state, last[0], "b" if last[0] == "a" else "a")
        return ("a", "b")
    if place in ("b", "other") and last == ("a",):
        found.facts = [_moved(h) for h in found.facts]
        state["b"], state["a"] = state["a"], {}
        return ("b",)
    return last


def _moved(heard: Heard) -> Heard:
    name = heard.name.replace("end_a_", "end_b_")
    return Heard(
        name, heard.value, heard.unit, heard.said, heard.origin, heard.hedged, heard.corrects, heard.start, heard.end
    )


def _copy(found: EndsFound, state: dict[str, dict[str, Value]], source: str, target: str) -> None:
    for heard in list(found.facts):
        key = heard.name.removeprefix(f"end_{source}_")
        if key != heard.name and key not in state[target]:
            state[target][key] = heard.value
            found.facts.append(
                Heard(f"end_{target}_{key}", heard.value, heard.unit, heard.said, start=heard.start, end=heard.end)
            )


def _continue(
    found: EndsFound,
    state: dict[str, dict[str, Value]],
    piece: Piece,
    last: tuple[str, ...],
    tokens: list[Token],
    low: str,
) -> tuple[str, ...]:
    """Attributes after a comma belong to the ends just named, unless these already have one of the kind."""
    targets = last
    form = piece.value("form")
    if form and last == ("a",) and "form" in state["a"] and piece.joint in ("and", "x", "/"):
        targets = ("b",)
    place = piece.value("place")
    if place == "both" and len(last) == 1:
        targets = _spread(found, state, last, "both")
    elif place in ("other", "b"):
        targets = ("b",)
    _attributes(found, state, piece, targets, tokens, low)
    return targets


def _put(
    found: EndsFound,
    state: dict[str, dict[str, Value]],
    targets: tuple[str, ...],
    key: str,
    value: Value,
    said: str,
    at: tuple[int, int],
) -> None:
    for end in targets:
        if key not in state[end]:
            state[end][key] = value
            found.facts.append(Heard(f"end_{end}_{key}", value, "", said, start=at[0], end=at[1]))


def _attributes(
    found: EndsFound,
    state: dict[str, dict[str, Value]],
    piece: Piece,
    targets: tuple[str, ...],
    tokens: list[Token],
    low: str,
) -> None:
    for item in piece.items:
        at = (tokens[item.first].start, tokens[item.last - 1].end)
        for key in _ATTRIBUTES:
            if key in item.says:
                raw = item.says[key]
                _put(found, state, targets, key, raw == "yes" if key == "swivel" else raw, low[at[0] : at[1]], at)
        found.used.update(range(item.first, item.last))


def _use(found: EndsFound, piece: Piece, tokens: list[Token]) -> None:
    for item in piece.items:
        found.used.update(range(item.first, item.last))


def _family(piece: Piece, labels: dict[int, Label]) -> str | None:
    family = piece.value("family")
    series = piece.value("series")
    if family is None and series in ("L", "S"):
        family = f"cone24_{series}"
    other = [i.says["series"] for i in piece.items if "series" in i.says and i.says["series"] != "?"]
    if family is None and other:
        family = f"cone24_{other[0]}"
    if family is None and (series == "?" or series is None):
        cone = next(
            (labels[k].data for k in range(piece.first, piece.last) if k in labels and labels[k].kind == "cone"), ""
        )
        family = f"cone24_{cone[-1]}" if cone else None
    return family


def _read(
    found: EndsFound,
    state: dict[str, dict[str, Value]],
    piece: Piece,
    targets: tuple[str, ...],
    tokens: list[Token],
    words: list[str],
    labels: dict[int, Label],
    measures: list[Measure],
    low: str,
) -> None:
    family = _family(piece, labels)
    start, end = tokens[piece.first].start, tokens[piece.last - 1].end
    if family is not None:
        item = next((i for i in piece.items if "family" in i.says or "series" in i.says), piece.items[0])
        at = (tokens[item.first].start, tokens[item.last - 1].end)
        _put(found, state, targets, "family", family, low[start:end], at)
    elif piece.value("series") == "?":
        could = tuple(f"end_{t}_family" for t in targets)
        readings = tuple(
            Heard(n, f"cone24_{s}", said=low[start:end], start=start, end=end) for s in "LS" for n in could
        )
        found.unclear.append(Unclear(low[start:end], could, "light or heavy series?", readings, start, end))
    _attributes(found, state, piece, targets, tokens, low)
    if family is None:
        return
    size = _size(piece, family, tokens, words, labels, measures, low)
    if size is None:
        return
    ids, first, last, gender = size
    at = (tokens[first].start, tokens[last].end)
    if len(ids) == 1:
        _put(found, state, targets, "size", ids[0], low[at[0] : at[1]], at)
    else:
        could = tuple(f"end_{t}_size" for t in targets)
        readings = tuple(Heard(n, i, said=low[at[0] : at[1]], start=at[0], end=at[1]) for i in ids for n in could)
        found.unclear.append(Unclear(low[at[0] : at[1]], could, "the thread or the tube size?", readings, *at))
    if gender:
        _put(found, state, targets, "gender", gender, low[at[0] : at[1]], at)
    found.used.update(range(first, last + 1))
    found.used.update(k for k in range(piece.first, piece.last) if k in labels and labels[k].kind == "thread")


def _adapter(
    found: EndsFound,
    piece: Piece,
    targets: tuple[str, ...],
    tokens: list[Token],
    words: list[str],
    labels: dict[int, Label],
    measures: list[Measure],
    low: str,
) -> None:
    family = _family(piece, labels)
    at = (tokens[piece.first].start, tokens[piece.last - 1].end)
    if family is None:
        return
    for end in targets:
        found.facts.append(Heard(f"adapter_{end}_family", family, "", low[at[0] : at[1]], start=at[0], end=at[1]))
    size = _size(piece, family, tokens, words, labels, measures, low)
    if size is not None and len(size[0]) == 1:
        for end in targets:
            found.facts.append(Heard(f"adapter_{end}_size", size[0][0], "", low[at[0] : at[1]], start=at[0], end=at[1]))
        found.used.update(range(size[1], size[2] + 1))
    _use(found, piece, tokens)


def _late_size(
    found: EndsFound,
    state: dict[str, dict[str, Value]],
    piece: Piece,
    last: tuple[str, ...],
    tokens: list[Token],
    words: list[str],
    labels: dict[int, Label],
    measures: list[Measure],
    low: str,
) -> bool:
    """ "Code 61 flanges both ends, three quarter": a size alone after its connection."""
    family = state[last[0]].get("family")
    second = "size" in state[last[0]] and last == ("a", "b") and piece.joint in ("and", "x", "/")
    if (
        not isinstance(family, str)
        or ("size" in state[last[0]] and not second)
        or "hose" in words[piece.first : piece.last + 1]
    ):
        return False
    numbers = {
        k
        for m in measures
        if piece.first <= m.first and m.last < piece.last
        for k in range(m.first, piece.last)
        if tokens[k].start < m.end
    }
    if not numbers or any(k not in numbers and words[k] not in _FILLER for k in range(piece.first, piece.last)):
        return False
    anchor = Item(piece.first, piece.first, {})
    size = _size(Piece(piece.first, piece.last, [anchor]), family, tokens, words, labels, measures, low)
    if size is None or len(size[0]) != 1:
        return False
    at = (tokens[size[1]].start, tokens[size[2]].end)
    if second:  # "both JIC, -6 and -8"
        state["b"].pop("size", None)
        found.facts = [f for f in found.facts if f.name != "end_b_size"]
        last = ("b",)
    _put(found, state, last, "size", size[0][0], low[at[0] : at[1]], at)
    found.used.update(range(size[1], size[2] + 1))
    return True


_GENDERS = {"f": "female", "m": "male"}


def _size(
    piece: Piece,
    family: str,
    tokens: list[Token],
    words: list[str],
    labels: dict[int, Label],
    measures: list[Measure],
    low: str,
) -> tuple[tuple[str, ...], int, int, str] | None:
    """The size ids, their tokens, and a gender letter grown onto them: the nearest number that can be one."""
    taken = {k for i in piece.items if "noun" not in i.says for k in range(i.first, i.last)}
    anchor = next((i for i in piece.items if "family" in i.says or "series" in i.says), piece.items[0])
    options: list[tuple[int, tuple[str, ...], int, int, str]] = []
    for k in range(piece.first, piece.last):
        if k in labels and labels[k].kind in ("cone", "thread") and labels.get(k - 1) is not labels[k]:
            label = labels[k]
            ids = size_ids(family, Candidate(0, label=label.data))
            last = k
            while last + 1 < piece.last and tokens[last + 1].start < label.end:
                last += 1
            if ids:
                options.append((_distance(anchor, k, last, words), ids, k, last, ""))
    for m in measures:
        if m.first > 0 and words[m.first - 1] in ("code", "c", "cd"):
            continue
        if (
            not (piece.first <= m.first and m.last < piece.last)
            or m.taken
            or m.is_range
            or any(k in taken for k in range(m.first, m.last + 1))
        ):
            continue
        gender, unit, value = "", m.unit, abs(m.low)
        last = m.last
        text = low[tokens[m.last].end : m.end].strip()
        if text in ("f", "m", "s", "fem"):
            gender, unit = _GENDERS.get(text, ""), ""
        if unit == "'" or unit not in ("", "in", "mm"):
            continue
        while last + 1 < piece.last and tokens[last + 1].start < m.end:
            last += 1
        dash = m.minus or (m.first > 0 and words[m.first - 1] in ("dash", "#"))
        dn = m.first > 0 and words[m.first - 1] == "dn"
        if last + 1 < len(words) and words[last + 1] in ("hose", "bore", "long", "hoses", "wire", "oal", "off"):
            continue
        ids = size_ids(family, Candidate(value, unit, m.form, dash, dn=dn))
        if ids:
            options.append((_distance(anchor, m.first, last, words), ids, m.first, last, gender))
    for k in range(piece.first, piece.last):
        if (
            words[k] == "inch"
            and k not in taken
            and not any(
                (m.first <= k <= m.last or m.start <= tokens[k].start < m.end) and m.first not in taken
                for m in measures
            )
        ):
            ids = size_ids(family, Candidate(1.0, "in"))
            if ids and not (k + 1 < len(words) and words[k + 1] in ("hose", "bore")):
                options.append((_distance(anchor, k, k, words), ids, k, k, ""))
    options = [o for o in options if o[0] < 90]
    if not options:
        return None
    best = min(options)
    gender = best[4]
    near = range(max(piece.first, anchor.first - 3), min(piece.last, best[3] + 3))
    if not gender:
        gender = next((_GENDERS[words[k]] for k in near if words[k] in _GENDERS), "")
    return best[1], best[2], best[3], gender


def _distance(anchor: Item, first: int, last: int, words: list[str]) -> int:
    """After the name first, then before it; never across the word hose."""
    between = range(anchor.last, first) if first >= anchor.last else range(last + 1, anchor.first)
    if any(words[k] in ("hose", "bore", "long", "line", "bar", "psi") for k in between):
        return 99
    gap = len(between)
    return gap * 2 if first >= anchor.last else gap * 2 + 1
