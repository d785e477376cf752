"""When is something asked? A small vocabulary over facts, validated when loaded; never code.

{line_function: suction}                      the fact has this value
{line_function: [return, case_drain]}         one of these
{line_function: {not: [suction]}}             known, and none of these
{surge_pressure: {is: unknown}}               known | unknown (asked, nobody knows) | unanswered | unsettled (not known)
{working_pressure: {above: 50}}               a number in the fact's JSON unit; also below
{all: [..]} {any: [..]} {none: [..]}          combined
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from interview.facts import CATALOGUE, Known, Origin

Condition = dict[str, Any]
COMBINED = ("all", "any", "none")
STATES = ("known", "unknown", "unanswered", "unsettled")


def fault_of(condition: object) -> str:
    """What is wrong with a condition, or an empty text."""
    if not isinstance(condition, Mapping) or not condition:
        return f"a condition is a mapping of facts, read {condition!r:.40}"
    for key, wanted in condition.items():
        if key in COMBINED:
            if not isinstance(wanted, list) or not wanted:
                return f"{key} takes a list of conditions"
            for part in wanted:
                if fault := fault_of(part):
                    return fault
            continue
        if key not in CATALOGUE:
            return f"{key!r} is not a fact"
        fault = _fault_of_wanted(key, wanted)
        if fault:
            return fault
    return ""


def _fault_of_wanted(key: str, wanted: object) -> str:
    spec = CATALOGUE[key]
    if isinstance(wanted, Mapping):
        for word, value in wanted.items():
            if word == "is" and value in STATES:
                continue
            if word in ("above", "below") and isinstance(value, int | float):
                continue
            if word == "not":
                return _fault_of_wanted(key, value)
            return f"{key}: {word!r} {value!r:.30} is not understood; use is, not, above, below"
        return ""
    for value in wanted if isinstance(wanted, list) else [wanted]:
        if spec.choices and value not in spec.choices:
            return f"{value!r} is no choice of {key}"
        if not spec.choices and not isinstance(value, str | bool) and value not in ("yes", "no"):
            return f"{key}: compare numbers with above or below"
    return ""


def holds(condition: Condition | None, known: Known) -> bool:
    """True where every part of the condition holds; no condition always holds."""
    if not condition:
        return True
    return all(_part(key, wanted, known) for key, wanted in condition.items())


def _part(key: str, wanted: object, known: Known) -> bool:
    if key == "all":
        return all(holds(c, known) for c in wanted)  # type: ignore[attr-defined]
    if key == "any":
        return any(holds(c, known) for c in wanted)  # type: ignore[attr-defined]
    if key == "none":
        return not any(holds(c, known) for c in wanted)  # type: ignore[attr-defined]
    if isinstance(wanted, Mapping):
        return all(_word(key, word, value, known) for word, value in wanted.items())
    return _equals(key, wanted, known)


def _word(key: str, word: str, value: Any, known: Known) -> bool:
    if word == "is":
        return {
            "known": known.has(key),
            "unknown": known.origin(key) is Origin.UNKNOWN,
            "unanswered": not known.answered(key),
            "unsettled": not known.has(key),
        }[value]
    if word == "not":
        return known.has(key) and not _equals(key, value, known)
    factor = CATALOGUE[key].factor
    if word == "above":
        high = known.high(key)
        return high is not None and high > value * factor
    low = known.low(key)
    return low is not None and low < value * factor


def _equals(key: str, wanted: object, known: Known) -> bool:
    options = wanted if isinstance(wanted, list) else [wanted]
    value = known.value(key)
    if isinstance(value, tuple):
        return any(v in options for v in value)
    if isinstance(value, bool):
        return any(o is value or o == ("yes" if value else "no") for o in options)
    return value in options


def names_in(condition: object) -> Iterator[str]:
    """The facts a condition reads."""
    if isinstance(condition, Mapping):
        for key, wanted in condition.items():
            if key in COMBINED:
                for part in wanted:
                    yield from names_in(part)
            else:
                yield key
