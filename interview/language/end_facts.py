"""What has a line said of each of its two ends so far, and how does more come to it?"""

from __future__ import annotations

from dataclasses import replace

from interview.facts import Value
from interview.language.end_pieces import ATTRIBUTES, Piece, other
from interview.language.line import Line
from interview.language.model import Heard, Unclear


class EndFacts:
    """The facts and open points of the ends of one line, and the tokens they took. The first saying of a fact stays."""

    def __init__(self, line: Line) -> None:
        self.line = line
        self.facts: list[Heard] = []
        self.unclear: list[Unclear] = []
        self.used: set[int] = set()
        self.alike: set[str] = set()  # facts an end has because it was said to be the same; a plainer word goes before

    def known(self, end: str, key: str = "") -> Heard | None:
        """The first fact known of an end."""
        return next((f for f in self.facts if f.name.startswith(f"end_{end}_") and f.name.endswith(key)), None)

    def forget(self, ends: tuple[str, ...], piece: Piece) -> None:
        """A correction ("JIC 8, sorry, JIC 10") takes back what it says anew."""
        keys = ("family", "size", *[k for k in ATTRIBUTES if piece.value(k)])
        gone = {f"end_{end}_{key}" for end in ends for key in keys}
        self.facts = [f for f in self.facts if f.name not in gone]

    def spread(self, last: tuple[str, ...], place: str) -> tuple[str, ...]:
        """A place word after the end it belongs to: "JIC 8 female, both ends"."""
        if place in ("both", "same") and len(last) == 1:
            self.copy(last[0], other(last[0]))
            return ("a", "b")
        if place in ("b", "other") and last == ("a",):
            self.facts = [replace(h, name=h.name.replace("end_a_", "end_b_")) for h in self.facts]
            return ("b",)
        return last

    def copy(self, source: str, target: str) -> None:
        """What is known of one end, and not yet of the other, is its as well."""
        for heard in list(self.facts):
            key = heard.name.removeprefix(f"end_{source}_")
            if key != heard.name and not self.known(target, f"_{key}"):
                self.facts.append(replace(heard, name=f"end_{target}_{key}"))

    def same(self, source: str, target: str) -> None:
        """ "Other end the same": a copy that what is said of the target afterwards goes before ("but a 45")."""
        before = {f.name for f in self.facts}
        self.copy(source, target)
        self.alike |= {f.name for f in self.facts} - before

    def put(self, targets: tuple[str, ...], key: str, value: Value, start: int, end: int) -> None:
        """A fact of one or both ends, said from `start` to `end` of the text."""
        for target in targets:
            if (name := f"end_{target}_{key}") in self.alike:
                self.alike.discard(name)
                self.facts = [f for f in self.facts if f.name != name]
            if not self.known(target, f"_{key}"):
                self.facts.append(
                    Heard(f"end_{target}_{key}", value, "", self.line.said(start, end), start=start, end=end)
                )

    def place_of(self, first: int, last: int) -> tuple[int, int]:
        """Start and end of the tokens first..last (inclusive)."""
        return self.line.tokens[first].start, self.line.tokens[last].end

    def attributes(self, piece: Piece, targets: tuple[str, ...]) -> None:
        """Gender, form, swivel, seal and metal that a piece says."""
        for item in piece.items:
            for key in ATTRIBUTES:
                if key in item.says and not (key == "gender" and "family" in item.says and _says_otherwise(piece)):
                    raw = item.says[key]
                    value = raw == "yes" if key == "swivel" else raw
                    self.put(targets, key, value, *self.place_of(item.first, item.last - 1))
        self.use(piece)

    def use(self, piece: Piece) -> None:
        """The words of a piece about ends are used up."""
        for item in piece.items:
            self.used.update(range(item.first, item.last))

    def ask(self, targets: tuple[str, ...], key: str, values: tuple[str, ...], why: str, start: int, end: int) -> None:
        """What the words do not settle is asked, with the values it can have."""
        could = tuple(f"end_{t}_{key}" for t in targets)
        said = self.line.said(start, end)
        readings = tuple(Heard(n, v, said=said, start=start, end=end) for v in values for n in could)
        self.unclear.append(Unclear(said, could, why, readings, start, end))


def _says_otherwise(piece: Piece) -> bool:
    """A name that carries a gender (DKOL: a nut) gives it, unless a plain word beside it says which."""
    return any("gender" in i.says and "family" not in i.says for i in piece.items)
