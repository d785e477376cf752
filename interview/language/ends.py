"""What does a line say of the two hose ends?

A line is cut at its joints (comma, "and", "x") and at its place words ("one end", "the other"); each piece that names a
connection, or says something of a placed end, is read for family, size, gender, form, swivel, seal and metal. The end
named first is A.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from interview.facts import Value
from interview.language.end_pieces import (
    ATTRIBUTES,
    FILLER,
    Item,
    Piece,
    cut_in_pieces,
    find_items,
    only_ends,
    without_denied,
)
from interview.language.end_sizing import family_of, size_of
from interview.language.labels import Label
from interview.language.lexer import Token
from interview.language.measures import Measure
from interview.language.model import Heard, Unclear


@dataclass(slots=True)
class EndsFound:
    """Facts and open points about the ends, and the tokens they used up."""

    facts: list[Heard] = field(default_factory=list)
    unclear: list[Unclear] = field(default_factory=list)
    used: set[int] = field(default_factory=set)


SERIES_UNCLEAR = "light or heavy series?"


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
    items = without_denied(words, items, found.used)
    pieces = cut_in_pieces(tokens, words, items, measures, labels)
    state: dict[str, dict[str, Value]] = {"a": {}, "b": {}}
    last: tuple[str, ...] = ()
    last_piece = -9
    ones = 0
    pending: Piece | None = None
    adapter: tuple[int, tuple[str, ...]] = (-9, ())
    explicit = False  # the last end had its place said
    for index, piece in enumerate(pieces):
        attributes = [i for i in piece.items if any(k in i.says for k in ATTRIBUTES)]
        place = piece.value("place")
        cone = any(labels[k].kind in ("cone", "thread") for k in range(piece.first, piece.last) if k in labels)
        plural = any(
            words[k].endswith("s") and words[k] not in ("is", "this")
            for i in attributes
            for k in range(i.first, i.last)
        )
        noun = piece.value("noun")
        near = index == last_piece + 1 or (index == last_piece + 2 and bool(place) and not attributes)
        continues = near and bool(last) and only_ends(words, piece, measures)
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
            if place in ("both", "one", "a", "b", "other") and not attributes and only_ends(words, piece, measures):
                pending = piece  # "both ends, JIC 8"
            continue
        if piece.named and not piece.value("adapter") and _of_the_port(words, piece):
            _use(found, piece, tokens)
            found.used.update(range(piece.first, piece.last))
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
        if piece.value("adapter") and family_of(piece, labels) is None:
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


def _of_the_port(words: list[str], piece: Piece) -> bool:
    """ "The port is 1/2 BSPP": that is the machine's, not the hose's."""
    at = next((i.first for i in piece.items if "family" in i.says or "series" in i.says), piece.last)
    return any(words[k] in ("port", "ports") for k in range(piece.first, at))


def _forget(found: EndsFound, state: dict[str, dict[str, Value]], ends: tuple[str, ...], piece: Piece) -> None:
    """A correction ("JIC 8, sorry, JIC 10") takes back what it says anew."""
    for end in ends:
        for key in ("family", "size", *[k for k in ATTRIBUTES if piece.value(k)]):
            state[end].pop(key, None)
            found.facts = [f for f in found.facts if f.name != f"end_{end}_{key}"]


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
    several = any("noun" in i.says and says_many(i) for i in piece.items)
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


def says_many(item: Item) -> bool:
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
        for key in ATTRIBUTES:
            if key in item.says:
                raw = item.says[key]
                _put(found, state, targets, key, raw == "yes" if key == "swivel" else raw, low[at[0] : at[1]], at)
        found.used.update(range(item.first, item.last))


def _use(found: EndsFound, piece: Piece, tokens: list[Token]) -> None:
    for item in piece.items:
        found.used.update(range(item.first, item.last))


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
    family = family_of(piece, labels)
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
        found.unclear.append(Unclear(low[start:end], could, SERIES_UNCLEAR, readings, start, end))
    _attributes(found, state, piece, targets, tokens, low)
    if family is None:
        return
    size = size_of(piece, family, tokens, words, labels, measures, low)
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
    family = family_of(piece, labels)
    at = (tokens[piece.first].start, tokens[piece.last - 1].end)
    if family is None:
        return
    for end in targets:
        found.facts.append(Heard(f"adapter_{end}_family", family, "", low[at[0] : at[1]], start=at[0], end=at[1]))
    size = size_of(piece, family, tokens, words, labels, measures, low)
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
    if not numbers or any(k not in numbers and words[k] not in FILLER for k in range(piece.first, piece.last)):
        return False
    anchor = Item(piece.first, piece.first, {})
    size = size_of(Piece(piece.first, piece.last, [anchor]), family, tokens, words, labels, measures, low)
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
