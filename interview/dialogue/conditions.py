"""When is something asked? A small vocabulary over facts, validated when loaded; never code.

{line_function: suction}                      the fact has this value
{line_function: [return, case_drain]}         one of these
{line_function: {not: [suction]}}             known, and none of these
{surge_pressure: {is: unknown}}               known | unknown (asked, nobody knows) | unanswered | unsettled (not known)
{working_pressure: {above: 50}}               a number in the fact's JSON unit; also below
{all: [..]} {any: [..]} {none: [..]}          combined
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from interview.catalogue import CATALOGUE
from interview.facts import Known, Origin

Condition = dict[str, Any]
Test = Callable[[Known], bool]
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
                if fault := _fault_of_wanted(key, value):
                    return fault
                continue
            return f"{key}: {word!r} {value!r:.30} is not understood; use is, not, above, below"
        return ""
    for value in wanted if isinstance(wanted, list) else [wanted]:
        if spec.choices and value not in spec.choices:
            return f"{value!r} is no choice of {key}"
        if not spec.choices and not isinstance(value, str | bool) and value not in ("yes", "no"):
            return f"{key}: compare numbers with above or below"
    return ""


def test_of(condition: Condition | None) -> Test:
    """The condition as a function of what is known: true where every part holds; no condition always holds."""
    if not condition:
        return lambda known: True
    return _all([_part(key, wanted) for key, wanted in condition.items()])


def _all(tests: list[Test]) -> Test:
    if len(tests) == 1:
        return tests[0]

    def every(known: Known) -> bool:
        for test in tests:  # a plain loop: these run some thousand times for each answer
            if not test(known):
                return False
        return True

    return every


def _part(key: str, wanted: Any) -> Test:
    if key == "all":
        return _all([test_of(c) for c in wanted])
    if key in ("any", "none"):
        tests = [test_of(c) for c in wanted]
        return lambda known: any([test(known) for test in tests]) is (key == "any")
    if isinstance(wanted, Mapping):
        return _all([_word(key, word, value) for word, value in wanted.items()])
    return _equals(key, wanted)


def _word(key: str, word: str, value: Any) -> Test:
    if word == "is":
        states: dict[str, Test] = {
            "known": lambda known: known.has(key),
            "unknown": lambda known: known.origin(key) is Origin.UNKNOWN,
            "unanswered": lambda known: not known.answered(key),
            "unsettled": lambda known: not known.has(key),
        }
        return states[value]
    if word == "not":
        equals = _equals(key, value)
        return lambda known: known.has(key) and not equals(known)
    limit = value * CATALOGUE[key].factor
    if word == "above":
        return lambda known: (high := known.high(key)) is not None and high > limit
    return lambda known: (low := known.low(key)) is not None and low < limit


def _equals(key: str, wanted: object) -> Test:
    options = wanted if isinstance(wanted, list) else [wanted]

    def equals(known: Known) -> bool:
        value = known.value(key)
        if isinstance(value, tuple):
            return any(v in options for v in value)
        if isinstance(value, bool):
            return any(o is value or o == ("yes" if value else "no") for o in options)
        return value in options

    return equals


def names_in(condition: object) -> Iterator[str]:
    """The facts a condition reads."""
    if isinstance(condition, Mapping):
        for key, wanted in condition.items():
            if key in COMBINED:
                for part in wanted:
                    yield from names_in(part)
            else:
                yield key
