"""What comes out of listening to one line?

`Heard` is one fact as it was said, `Unclear` words that do not settle what they mean, `Listening` a whole line.
Dates that cannot be computed travel as the text `said:friday`; `hear_json` prints them as `{"said": "friday"}`.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.facts import Origin, Value

SAID = "said:"  # prefix of a date that only words give


@dataclass(frozen=True, slots=True)
class Heard:
    """One fact. `value` is SI as in `interview.facts`, `unit` as said, `start` and `end` its place in the line."""

    name: str
    value: Value
    unit: str = ""
    said: str = ""
    origin: Origin = Origin.STATED
    hedged: bool = False
    corrects: bool = False
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Unclear:
    """Words whose meaning the sentence does not settle. `readings`: the candidates that can be computed."""

    said: str
    could_be: tuple[str, ...]
    why: str
    readings: tuple[Heard, ...] = ()
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Listening:
    """Everything taken from one line."""

    facts: tuple[Heard, ...] = ()
    unclear: tuple[Unclear, ...] = ()
    ignored: tuple[str, ...] = ()
    injury: bool = False
    dont_know: bool = False

    def fact(self, name: str) -> Heard | None:
        return next((heard for heard in self.facts if heard.name == name), None)


class Misread(ValueError):
    """An answer that will not do: what was read, why not, and what would."""

    def __init__(self, read: str, why: str, would_do: str) -> None:
        self.read = read
        self.why = why
        self.would_do = would_do
        super().__init__(f"{read!r}: {why}; {would_do}")
