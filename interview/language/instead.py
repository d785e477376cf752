"""Whose words are these, where the question was about a part that is spoken of in the words of a hose end?

An adapter, a port, the caliper readings of end B: the line is heard as if it spoke of a hose end, and the facts are
then called after the part. What the part has no fact for is not its, and must not become the hose end's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from interview.catalogue import CATALOGUE
from interview.language.model import Heard, Listening, Unclear

_PART = re.compile(
    r"((?:adapter|port)_[ab])_(?:family|size|rating)"
    r"|(end_b)_(?:thread_diameter|thread_pitch|seat_angle|seals_at|tapered|recess|head_diameter|bolt_spacing)"
)
_OF_AN_END = re.compile(r"end_[ab]_")
_NAMED_END = re.compile(r"\b(?:end a|end b|both|other end|near end|far end)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Instead:
    """The part asked about, and the hose end in whose words it is heard."""

    part: str
    end: str

    def asked(self, asked: Sequence[str]) -> list[str]:
        return [a.replace(self.part, self.end, 1) for a in asked]

    def given_back(self, heard: Listening) -> Listening:
        """What was heard of the end, called after the part."""
        facts: dict[str, Heard] = {}
        twice: dict[str, Unclear] = {}
        for h in (self._turned(h) for h in heard.facts):
            first = facts.setdefault(h.name, h) if h is not None else h
            if h is not None and first is not None and first.value != h.value:  # "an adapter from 18L to 1/2 BSP"
                said = f"{first.said} / {h.said}"
                twice[h.name] = Unclear(said, (h.name,), "which of the two?", (first, h), first.start, h.end)
        return replace(
            heard,
            facts=tuple(h for name, h in facts.items() if name not in twice),
            unclear=tuple(twice.values())
            + tuple(
                replace(
                    u,
                    could_be=tuple(self._name(n) or n for n in u.could_be),
                    readings=tuple(self._turned(h) or h for h in u.readings),
                )
                for u in heard.unclear
            ),
        )

    def _name(self, name: str) -> str | None:
        """None for what the part has no fact for."""
        if not _OF_AN_END.match(name) or name.startswith(f"{self.part}_"):
            return name
        own = name.replace(self.end, self.part, 1)
        return own if name.startswith(f"{self.end}_") and own in CATALOGUE else None

    def _turned(self, heard: Heard) -> Heard | None:
        name = self._name(heard.name)
        return None if name is None else replace(heard, name=name)


def instead(text: str, asked: Sequence[str]) -> Instead | None:
    """The one part that every question was about, unless the line names an end itself."""
    parts = {(m[1] or m[2]) if (m := _PART.fullmatch(a)) else "" for a in asked}
    if len(parts) != 1 or "" in parts or _NAMED_END.search(text):
        return None
    part = parts.pop()
    return Instead(part, "end_a" if part == "end_b" else f"end_{part[-1]}")
