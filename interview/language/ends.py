"""What does a line say of the two hose ends?

A line is cut at its joints (comma, "and", "x") and at its place words ("one end", "the other"); each piece that names a
connection, or says something of a placed end, is read for family, size, gender, form, swivel, seal and metal. The end
named first is A.
"""

from __future__ import annotations

import re

from interview.language.end_facts import EndFacts
from interview.language.end_pieces import (
    ATTRIBUTES,
    FILLER,
    OPEN_SERIES,
    Item,
    Piece,
    alike,
    an_angle,
    cut_in_pieces,
    find_items,
    of_the_port,
    only_ends,
    other,
    says_many,
    taken_back,
    without_denied,
)
from interview.language.end_sizing import family_of, no_such_cone, size_of
from interview.language.line import Line
from interview.language.model import Heard

_ID = re.compile(r"\s*([A-Za-z0-9]+_[A-Za-z0-9_]+)\s*")  # a family as it stands in the table


def hear_ends(line: Line) -> None:
    """Everything a line says of its ends; the measures and words it took are marked as used up."""
    reading = _Reading(line)
    reading.read()
    line.facts.extend(reading.facts)
    line.unclear.extend(reading.unclear)
    line.used |= reading.used
    line.end_used |= reading.used
    for u in reading.unclear:
        line.used.update(k for k, t in enumerate(line.tokens) if u.start <= t.start < u.end)
    for m in line.measures:
        if any(k in line.end_used for k in range(m.first, m.last + 1)):
            m.taken = True


class _Reading(EndFacts):
    """The ends of one line while they are read, piece by piece."""

    def __init__(self, line: Line) -> None:
        super().__init__(line)
        self._open = tuple(sorted({a[4] for a in line.asked if a.startswith(("end_a_", "end_b_"))}))
        self._asked = self._open[0] if len(self._open) == 1 else None
        self._corrected = frozenset(
            k
            for m in line.marks
            if m.tag == "correct" and line.words[m.first : m.last] != ["no"]
            for k in range(m.first, m.last)
        )
        self._pieces: list[Piece] = []
        self._last: tuple[str, ...] = ()  # the ends last spoken of, and in which piece
        self._last_piece = -9
        self._ones = 0  # how often "one end" was said
        self._pending: Piece | None = None  # a place alone, whose connection comes next
        self._adapter_at: tuple[int, tuple[str, ...]] = (-9, ())
        self._explicit = False  # the last end had its place said

    def read(self) -> None:
        typed = _ID.fullmatch(self.line.text)
        if typed is not None and f"end_{self._asked}_family" in self.line.asked:
            self.put((str(self._asked),), "family", typed[1], *typed.span(1))
            self.used.update(range(len(self.line.tokens)))
            return
        items = find_items(self.line, cones=bool(self._open))
        if not items:
            return
        put_right = taken_back(self.line.words, items)
        self._corrected |= put_right
        kept = without_denied(self.line.words, items, self.used, put_right)
        self._pieces = cut_in_pieces(self.line, kept, put_right)
        for index, piece in enumerate(self._pieces):
            self._piece(index, piece)

    def _piece(self, index: int, piece: Piece) -> None:
        words = self.line.words
        attributes = [i for i in piece.items if any(k in i.says for k in ATTRIBUTES)]
        place = piece.value("place")
        noun = piece.value("noun")
        cone = self._has_label(piece, "cone", "thread")
        placed = place is not None and (bool(attributes) or cone)
        plural = any(
            words[k].endswith("s") and words[k] not in ("is", "this")
            for i in attributes
            for k in range(i.first, i.last)
        )
        made_of = (
            plural
            and any("metal" in i.says or "seal" in i.says for i in attributes)
            and "hose" not in words[piece.first : piece.last]
        )
        told = piece.value("series") if self._open else None  # a cone's size alone, said of the end that was asked
        coned = bool(attributes or told) and bool(piece.items) and self._has_label(piece, "cone")
        if piece.named and an_angle(words, piece) and any(a.endswith("_seat_angle") for a in self.line.asked):
            return
        if not (piece.named or placed or coned or (noun and attributes) or made_of or (cone and piece.value("series"))):
            self._follow_up(index, piece, attributes, place)
            return
        if place in ("b", "other") and not piece.named and self.known("a") and alike(words, piece):
            self._same_as_a(index, piece)
            return
        if piece.named and not piece.value("adapter") and of_the_port(words, piece):
            self.use(piece)
            self.used.update(range(piece.first, piece.last))
            return
        if place is None and self._pending is not None and self._pending.last >= piece.first - 2:
            place = self._pending.value("place")
        self._pending = None
        self._explicit = place is not None
        if self._last and any(k in self._corrected for k in range(self._pieces[self._last_piece].last, piece.last)):
            if place is None:
                self.forget(self._last, piece)
                self._read(piece, self._last)
                self._last_piece = index
                return
            self.forget(("a", "b"), piece)
        targets = self._targets(place, piece, index == self._last_piece + 1, noun, plural, attributes)
        if piece.value("adapter") and family_of(piece, self.line) is None:
            self._adapter_at = (index, targets if place else ("a",))
            self.use(piece)
            return
        if self._adapter_at[0] == index - 1 and not piece.value("adapter") and not placed:
            self._adapter(piece, self._adapter_at[1])
            return
        if piece.value("adapter"):
            self._adapter(piece, targets)
        else:
            self._read(piece, targets)
        self._last, self._last_piece = targets, index
        if place == "same":
            self.same(targets[0], other(targets[0]))

    def _follow_up(self, index: int, piece: Piece, attributes: list[Item], place: str | None) -> None:
        """A piece that names no connection: what it adds to the end before it, or to the one after."""
        words = self.line.words
        if place in ("b", "other") and self.known("a") and alike(words, piece):
            self._same_as_a(index, piece)
            return
        if place == "same" and (self.known("a") or self.known("b")):
            source = "a" if self.known("a") else "b"
            self.same(source, other(source))
            self._last, self._last_piece, self._explicit = (other(source),), index, True
            self.use(piece)
            return
        next_piece = index == self._last_piece + 1
        if next_piece and self._last and not attributes and not place and self._late_size(piece):
            self._last_piece = index
            return
        if (
            place not in (None, "both", "same")
            and not attributes
            and (self._explicit or (piece.last < len(words) and words[piece.last] == ":"))
        ):
            self._pending = piece  # "…; end B: NPT"
            return
        near = next_piece or (index == self._last_piece + 2 and bool(place) and not attributes)
        alone = only_ends(words, piece)
        if near and self._last and alone and (attributes or place):
            if attributes:
                self._continue(piece)
            elif place:
                self._explicit = True
                self._last = self.spread(self._last, place)
            self.use(piece)
            self._last_piece = index
            return
        if place in ("both", "one", "a", "b", "other") and not attributes and alone:
            self._pending = piece  # "both ends, JIC 8"

    def _has_label(self, piece: Piece, *kinds: str) -> bool:
        labels = self.line.label_at
        return any(labels[k].kind in kinds for k in range(piece.first, piece.last) if k in labels)

    def _targets(
        self, place: str | None, piece: Piece, follows: bool, noun: str | None, plural: bool, attributes: list[Item]
    ) -> tuple[str, ...]:  # fmt: skip
        if place == "both":
            return ("a", "b")
        if place in ("a", "b"):
            return (place,)
        if place == "one":
            self._ones += 1
            return ("a",) if self._ones == 1 else ("b",)
        if place == "other":
            return ("b",)
        if self._asked is not None:
            return (self._asked,)
        if self._open and not piece.named:  # one question about both ends, and an answer that tells no end
            return self._open
        if (noun or plural) and not piece.named and attributes and not self.known("a", "_family"):
            return ("a", "b")
        if plural and not piece.named and all("metal" in i.says or "seal" in i.says for i in attributes):
            return ("a", "b")
        if piece.named and not self.known("a") and any(says_many(i) for i in piece.items):
            return ("a", "b")
        if (
            piece.named
            and self.known("a")
            and not self.known("b")
            and follows
            and piece.joint in ("and", "x", "/", "to", "by", "cut", "+", "plus", ",", "&")
        ):
            return ("b",)
        return ("a",)

    def _same_as_a(self, index: int, piece: Piece) -> None:
        self.attributes(piece, ("b",))
        self.same("a", "b")
        self._last, self._last_piece, self._explicit = ("b",), index, True

    def _continue(self, piece: Piece) -> None:
        """Attributes after a comma belong to the ends just named, unless these already have one of the kind."""
        last = self._last
        place = piece.value("place")
        if place == "both" and len(last) == 1:
            last = self.spread(last, "both")
        elif place in ("other", "b") or (
            piece.value("form") and last == ("a",) and self.known("a", "_form") and piece.joint in ("and", "x", "/")
        ):
            last = ("b",)
        self.attributes(piece, last)
        self._last = last

    def _read(self, piece: Piece, targets: tuple[str, ...]) -> None:
        line = self.line
        family = family_of(piece, line)
        if (cone := no_such_cone(piece, line)) is not None:
            self.ask(targets, "family", OPEN_SERIES["?"][0], f"there is no {cone.data}: which series, which size?",
                      cone.start, cone.end)  # fmt: skip
            self.attributes(piece, targets)
            return
        if family is not None:
            item = next((i for i in piece.items if "family" in i.says or "series" in i.says), piece.items[0])
            self.put(targets, "family", family, *self.place_of(item.first, item.last - 1))
        self.attributes(piece, targets)
        if family is None:
            self._which_family(piece, targets)
            return
        size = size_of(piece, family, line)
        if size is None:
            return
        ids, first, last, gender = size
        at = self.place_of(first, last)
        if len(ids) == 1:
            self.put(targets, "size", ids[0], *at)
        else:
            self.ask(targets, "size", ids, "the thread or the tube size?", *at)
        if gender:
            self.put(targets, "gender", gender, *at)
        self.used.update(range(first, last + 1))
        self.used.update(
            k for k in range(piece.first, piece.last) if k in line.label_at and line.label_at[k].kind == "thread"
        )

    def _which_family(self, piece: Piece, targets: tuple[str, ...]) -> None:
        series = piece.value("series") or ""
        if series not in OPEN_SERIES:
            return
        families, why = OPEN_SERIES[series]
        if series == "?" and any(a.endswith("_seat_angle") for a in self.line.asked):  # that is what 24° answers
            self.used -= set(range(piece.first, piece.last))
            return
        self.ask(targets, "family", families, why, *self.place_of(piece.first, piece.last - 1))
        sizes = {size_of(piece, family, self.line) for family in families}
        size = sizes.pop()
        if not sizes and size is not None and len(size[0]) == 1:  # the same in all of them
            self.put(targets, "size", size[0][0], *self.place_of(size[1], size[2]))
            self.used.update(range(size[1], size[2] + 1))

    def _adapter(self, piece: Piece, targets: tuple[str, ...]) -> None:
        family = family_of(piece, self.line)
        if family is None:
            return
        start, end = self.place_of(piece.first, piece.last - 1)
        told = {"family": family}
        size = size_of(piece, family, self.line)
        if size is not None and len(size[0]) == 1:
            told["size"] = size[0][0]
            self.used.update(range(size[1], size[2] + 1))
        self.facts.extend(
            Heard(f"adapter_{t}_{key}", value, "", self.line.said(start, end), start=start, end=end)
            for key, value in told.items()
            for t in targets
        )
        self.use(piece)

    def _late_size(self, piece: Piece) -> bool:
        """ "Code 61 flanges both ends, three quarter": a size alone after its connection."""
        line, last = self.line, self._last
        known = self.known(last[0], "_family")
        sized = self.known(last[0], "_size") is not None and f"end_{last[0]}_size" not in self.alike
        second = sized and last == ("a", "b") and piece.joint in ("and", "x", "/")
        if known is None or (sized and not second) or "hose" in line.words[piece.first : piece.last + 1]:
            return False
        numbers = {
            k
            for m in line.measures
            if piece.first <= m.first and m.last < piece.last
            for k in range(m.first, piece.last)
            if line.tokens[k].start < m.end
        }
        if not numbers or any(k not in numbers and line.words[k] not in FILLER for k in range(piece.first, piece.last)):
            return False
        anchor = Item(piece.first, piece.first, {})
        size = size_of(Piece(piece.first, piece.last, [anchor]), str(known.value), line)
        if size is None or len(size[0]) != 1:
            return False
        if second:  # "both JIC, -6 and -8"
            self.facts = [f for f in self.facts if f.name != "end_b_size"]
            last = ("b",)
        self.put(last, "size", size[0][0], *self.place_of(size[1], size[2]))
        self.used.update(range(size[1], size[2] + 1))
        return True
