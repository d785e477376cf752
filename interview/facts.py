"""What is a fact?

One thing known about the job: its value, the words it was said in, where it came from, and the turn; and what is known
at one moment, one fact a name. What can be known is in `catalogue`, how sayings add up in `ledger`.

Quantities travel as plain SI floats (pascal, metre, m3/s, second; temperature in degree Celsius, angles in degrees,
counts and rates per hour as they are).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from interview.catalogue import CATALOGUE, FactSpec, Kind


class Origin(StrEnum):
    """Where a fact came from."""

    STATED = "stated"  # the customer said so
    READ = "read"  # from a layline, plate, manual or gauge
    MEASURED = "measured"
    COPIED = "copied"  # from the old hose
    COMPUTED = "computed"
    ASSUMED = "assumed"
    UNKNOWN = "unknown"  # asked, and nobody knows


@dataclass(frozen=True, slots=True)
class Span:
    """A closed interval in SI; None is an open side."""

    low: float | None
    high: float | None

    def __post_init__(self) -> None:
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"a range runs from the lower to the higher value, not from {self.low} to {self.high}")


Value = float | Span | str | bool | tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Fact:
    """One saying. `value` None with origin `unknown` means: asked, and nobody knows.

    `said` keeps the words and `unit` the unit they were said in (`psi`), so that a face can answer in kind.
    `rests_on` names the facts a computed or assumed value came from; when one of them changes, this one is re-opened.
    """

    name: str
    value: Value
    origin: Origin = Origin.STATED
    said: str = ""
    unit: str = ""
    turn: int = 0
    hedged: bool = False
    because: str = ""
    confirm_by: str = ""
    rests_on: tuple[str, ...] = ()
    disputed: bool = field(default=False, compare=False)  # something else was said of it, and nobody has chosen

    @property
    def known(self) -> bool:
        return self.value is not None

    @property
    def spec(self) -> FactSpec:
        return CATALOGUE[self.name]

    @property
    def low(self) -> float | None:
        """The lowest value meant, SI; "about" widens by 10 %."""
        if isinstance(self.value, Span):
            return self.value.low
        if isinstance(self.value, float):
            return self.value - 0.1 * abs(self.value) if self.hedged else self.value
        return None

    @property
    def high(self) -> float | None:
        """The highest value meant, SI; "about" widens by 10 %."""
        if isinstance(self.value, Span):
            return self.value.high
        if isinstance(self.value, float):
            return self.value + 0.1 * abs(self.value) if self.hedged else self.value
        return None

    @property
    def applies(self) -> bool:
        """Said to be so, and nobody knows how far: it moves, and nobody knows how."""
        return self.origin is Origin.UNKNOWN and self.hedged

    def json_value(self) -> object:
        """The value in the JSON unit, rounded to nine significant digits so that 60/60000 L/min reads 60."""
        return json_value(self.name, self.value)


def tidy(number: float) -> float:
    """Nine significant digits: hides the last bits of a unit conversion, never a measured digit."""
    if number == 0 or not math.isfinite(number):
        return number
    return round(number, 8 - math.floor(math.log10(abs(number))))


def json_value(name: str, value: Value) -> object:
    factor = CATALOGUE[name].factor
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return list(value)
    if isinstance(value, Span):
        return {
            "low": None if value.low is None else tidy(value.low / factor),
            "high": None if value.high is None else tidy(value.high / factor),
        }
    return tidy(value / factor)


def from_json_number(name: str, number: float) -> float:
    """A number in the fact's JSON unit, as SI."""
    return float(number) * CATALOGUE[name].factor


def from_json_value(name: str, value: object) -> Value:
    """A fact's value as JSON carries it, back in SI. Raises ValueError for what is no value of this fact."""
    kind, factor = CATALOGUE[name].kind, CATALOGUE[name].factor
    if value is None:
        return None
    if kind is Kind.QUANTITY:
        if isinstance(value, Mapping):
            ends = [value.get("low"), value.get("high")]
            if all(v is None or isinstance(v, int | float) for v in ends):
                return Span(*(None if v is None else float(v) * factor for v in ends))
        elif isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
            return float(value) * factor
    elif kind is Kind.FLAG:
        if isinstance(value, bool):
            return value
    elif kind is Kind.MANY:
        if isinstance(value, list | tuple) and all(isinstance(v, str) for v in value):
            return tuple(value)
    elif isinstance(value, str):
        return value
    raise ValueError(f"{value!r:.40} is no value for {CATALOGUE[name].label}")


@dataclass(frozen=True)
class Known(Mapping[str, Fact]):
    """What is known now: one fact a name, the adverse one where sayings conflict. Read-only."""

    facts: Mapping[str, Fact] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Fact:
        return self.facts[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.facts)

    def __len__(self) -> int:
        return len(self.facts)

    def __contains__(self, name: object) -> bool:  # this and `get` are asked some hundred thousand times an interview
        return name in self.facts

    def get(self, name: str, default: Fact | None = None) -> Fact | None:  # type: ignore[override]
        return self.facts.get(name, default)

    def has(self, name: str) -> bool:
        """Known with a value (an answer "don't know" is not a value)."""
        fact = self.facts.get(name)
        return fact is not None and fact.value is not None

    def answered(self, name: str) -> bool:
        """Known, or asked and answered "don't know"."""
        return name in self.facts

    def value(self, name: str) -> Value:
        fact = self.facts.get(name)
        return None if fact is None else fact.value

    def text(self, name: str) -> str | None:
        value = self.value(name)
        return value if isinstance(value, str) else None

    def flag(self, name: str) -> bool | None:
        value = self.value(name)
        return value if isinstance(value, bool) else None

    def many(self, name: str) -> tuple[str, ...] | None:
        """The ticked choices without `none`; None where nothing was said, () where none was said."""
        value = self.value(name)
        return tuple(v for v in value if v != "none") if isinstance(value, tuple) else None

    def low(self, name: str) -> float | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.low

    def high(self, name: str) -> float | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.high

    def origin(self, name: str) -> Origin | None:
        fact = self.facts.get(name)
        return None if fact is None else fact.origin

    def with_fact(self, fact: Fact) -> Known:
        """A copy in which one fact is replaced: for asking "what if"."""
        return Known({**self.facts, fact.name: fact})

    def without(self, names: Iterable[str]) -> Known:
        gone = set(names)
        return Known({name: fact for name, fact in self.facts.items() if name not in gone})
