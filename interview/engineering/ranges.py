"""How do worst and best case travel through a formula when its inputs are ranges?

A formula that rises or falls steadily with each input has its extremes at the ends of the ranges; so two evaluations
give an exact bracket. Where an input makes the formula jump (laminar to turbulent), both sides of the jump are tried as
well. A verdict on a range is one of fits, fails, open; an open one can name the inputs that would settle it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product
from math import isfinite
from typing import Literal

from interview.engineering.errors import EngineeringError

Verdict = Literal["fits", "fails", "open"]
Sign = Literal["+", "-", "?"]  # rises with the input, falls with it, or one of the two (both ends are tried)
Formula = Callable[..., float]
Switch = Mapping[str, Callable[[Mapping[str, float]], Sequence[float]]]


@dataclass(frozen=True, slots=True)
class Interval:
    """A closed range of SI floats."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not (isfinite(self.low) and isfinite(self.high)):
            raise EngineeringError("a range needs two finite ends; an end nobody knows takes the widest credible value")
        if self.low > self.high:
            raise EngineeringError(f"a range runs from the lower to the higher value, not {self.low} to {self.high}")

    def contains(self, value: float) -> bool:
        """Whether a value lies in the range, ends included.

        >>> Interval(1.0, 2.0).contains(2.0)
        True
        """
        return self.low <= value <= self.high

    @property
    def width(self) -> float:
        return self.high - self.low

    def hull(self, other: Interval) -> Interval:
        """The least range that contains both.

        >>> Interval(1.0, 2.0).hull(Interval(4.0, 5.0))
        Interval(low=1.0, high=5.0)
        """
        return Interval(min(self.low, other.low), max(self.high, other.high))

    def at_most(self, limit: float) -> Verdict:
        """Verdict of a value that may not exceed a limit.

        >>> Interval(5.3, 7.9).at_most(6.0)
        'open'
        """
        if self.high <= limit:
            return "fits"
        return "fails" if self.low > limit else "open"

    def at_least(self, limit: float) -> Verdict:
        """Verdict of a value that may not fall below a limit.

        >>> Interval(0.62, 0.70).at_least(0.8)
        'fails'
        """
        if self.low >= limit:
            return "fits"
        return "fails" if self.high < limit else "open"


@dataclass(frozen=True, slots=True)
class Bracket(Interval):
    """The range of a result, with the inputs that gave each end."""

    at_low: Mapping[str, float] = field(default_factory=dict)
    at_high: Mapping[str, float] = field(default_factory=dict)

    @property
    def interval(self) -> Interval:
        return Interval(self.low, self.high)


def interval(value: float | Interval) -> Interval:
    """A value as a range of no width; a range as it is.

    >>> interval(3.0)
    Interval(low=3.0, high=3.0)
    """
    return value if isinstance(value, Interval) else Interval(value, value)


def _corner(sign: Sign, spread: Interval, high: bool) -> tuple[float, ...]:
    if spread.low == spread.high:
        return (spread.low,)
    if sign == "?":
        return (spread.low, spread.high)
    return (spread.high,) if (sign == "+") == high else (spread.low,)


def _extreme(
    function: Formula, signs: Mapping[str, Sign], spreads: Mapping[str, Interval], switch: Switch, high: bool
) -> tuple[float, dict[str, float]]:
    plain = [name for name in spreads if name not in switch]
    best: tuple[float, dict[str, float]] | None = None
    for corner in product(*(_corner(signs[name], spreads[name], high) for name in plain)):
        fixed = dict(zip(plain, corner, strict=True))
        points = []
        for name in switch:
            spread = spreads[name]
            extra = [p for p in switch[name](fixed) if spread.low < p < spread.high]
            points.append((spread.low, spread.high, *extra))
        for chosen in product(*points):
            inputs = {**fixed, **dict(zip(switch, chosen, strict=True))}
            result = function(**inputs)
            if best is None or (result > best[0] if high else result < best[0]):
                best = (result, inputs)
    assert best is not None  # a product of non-empty choices is never empty
    return best


def bracket(
    function: Formula, signs: Mapping[str, Sign], /, switch: Switch | None = None, **inputs: float | Interval
) -> Bracket:
    """Range of `function(**inputs)` when each input may be a range; exact for a formula that is monotone in each.

    `signs` says for each ranged input whether the result rises ("+") or falls ("-") with it, or "?" when that depends
    on other inputs. `switch` names an input at which the formula jumps: given the other inputs of a corner it returns
    the points on either side of the jump, and the ends and those points are all tried.

    >>> from interview.engineering.flow import velocity
    >>> found = bracket(velocity, {"flow_m3_s": "+", "bore_m": "-"},
    ...                 flow_m3_s=Interval(40 / 60000, 60 / 60000), bore_m=0.0127)
    >>> round(found.low, 3), round(found.high, 3)
    (5.263, 7.894)
    """
    spreads = {name: interval(value) for name, value in inputs.items()}
    for name, spread in spreads.items():
        if spread.low != spread.high and name not in signs and name not in (switch or {}):
            raise EngineeringError(f"nothing says whether the result rises or falls with {name}; it cannot be a range")
    known: dict[str, Sign] = {name: signs.get(name, "?") for name in spreads}
    jumps = {name: at for name, at in (switch or {}).items() if name in spreads}
    low, at_low = _extreme(function, known, spreads, jumps, high=False)
    high, at_high = _extreme(function, known, spreads, jumps, high=True)
    if jumps:
        # a point just beside the jump stands for the jump itself, which lies a little further out
        low, high = low - abs(low) * 1e-8, high + abs(high) * 1e-8
    return Bracket(low, high, at_low, at_high)


def settling_inputs(
    function: Formula,
    signs: Mapping[str, Sign],
    limit: float,
    /,
    maximum: bool = True,
    switch: Switch | None = None,
    **inputs: float | Interval,
) -> tuple[str, ...]:
    """Which ranged inputs could settle an open verdict alone: some value of theirs makes it fit or fail for certain.

    >>> from interview.engineering.flow import velocity
    >>> settling_inputs(velocity, {"flow_m3_s": "+", "bore_m": "-"}, 6.0,
    ...                 flow_m3_s=Interval(40 / 60000, 60 / 60000), bore_m=Interval(0.0123, 0.0135))
    ('flow_m3_s',)
    """
    settles = []
    for name, value in inputs.items():
        spread = interval(value)
        if spread.low == spread.high:
            continue
        for end in (spread.low, spread.high):
            found = bracket(function, signs, switch=switch, **{**inputs, name: end})
            if (found.at_most(limit) if maximum else found.at_least(limit)) != "open":
                settles.append(name)
                break
    return tuple(settles)


def threshold(
    function: Formula,
    signs: Mapping[str, Sign],
    limit: float,
    name: str,
    /,
    worst: bool = True,
    maximum: bool = True,
    switch: Switch | None = None,
    **inputs: float | Interval,
) -> float | None:
    """Value of one input at which the worst (or best) case meets the limit; None where it never does in its range.

    The number to ask about: "is the flow above 45.6 L/min?" decides, the exact flow need not be known.

    >>> from interview.engineering.flow import velocity
    >>> found = threshold(velocity, {"flow_m3_s": "+", "bore_m": "-"}, 6.0, "flow_m3_s",
    ...                   flow_m3_s=Interval(40 / 60000, 60 / 60000), bore_m=0.0127)
    >>> round(found * 60000, 1)
    45.6
    """
    spread = interval(inputs[name])
    take_high = worst == maximum

    def excess(value: float) -> float:
        found = bracket(function, signs, switch=switch, **{**inputs, name: value})
        return (found.high if take_high else found.low) - limit

    low, high = spread.low, spread.high
    at_low, at_high = excess(low), excess(high)
    if (at_low > 0.0) == (at_high > 0.0):
        return None
    for _ in range(60):
        middle = (low + high) / 2.0
        if (excess(middle) > 0.0) == (at_low > 0.0):
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
