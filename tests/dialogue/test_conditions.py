"""When is something asked? Every word of the vocabulary, and every way to write it wrong."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue.conditions import fault_of, names_in
from interview.dialogue.conditions import test_of as holding
from interview.facts import Fact, Known, Origin, Span, Value, from_json_number


def known(**values: Value) -> Known:
    return Known({n: Fact(n, v, Origin.UNKNOWN if v is None else Origin.STATED) for n, v in values.items()})


BAR = 1e5


@pytest.mark.parametrize(
    ("condition", "facts", "expected"),
    [
        (None, {}, True),
        ({}, {}, True),
        ({"line_function": "suction"}, {"line_function": "suction"}, True),
        ({"line_function": "suction"}, {"line_function": "return"}, False),
        ({"line_function": "suction"}, {}, False),
        ({"line_function": "suction"}, {"line_function": None}, False),
        ({"line_function": ["return", "case_drain"]}, {"line_function": "case_drain"}, True),
        ({"line_function": {"not": ["suction"]}}, {"line_function": "return"}, True),
        ({"line_function": {"not": ["suction"]}}, {"line_function": "suction"}, False),
        ({"line_function": {"not": ["suction"]}}, {}, False),  # not known is not "not suction"
        ({"line_function": {"not": ["suction"]}}, {"line_function": None}, False),
        ({"bore_proven": "yes"}, {"bore_proven": True}, True),
        ({"bore_proven": "yes"}, {"bore_proven": False}, False),
        ({"bore_proven": "no"}, {"bore_proven": False}, True),
        ({"exposure": ["flame"]}, {"exposure": ("sunlight", "flame")}, True),
        ({"exposure": ["flame"]}, {"exposure": ()}, False),
        ({"surge_pressure": {"is": "known"}}, {"surge_pressure": BAR}, True),
        ({"surge_pressure": {"is": "known"}}, {"surge_pressure": None}, False),
        ({"surge_pressure": {"is": "unknown"}}, {"surge_pressure": None}, True),
        ({"surge_pressure": {"is": "unknown"}}, {}, False),
        ({"surge_pressure": {"is": "unanswered"}}, {}, True),
        ({"surge_pressure": {"is": "unanswered"}}, {"surge_pressure": None}, False),
        ({"surge_pressure": {"is": "unsettled"}}, {"surge_pressure": None}, True),
        ({"surge_pressure": {"is": "unsettled"}}, {}, True),
        ({"surge_pressure": {"is": "unsettled"}}, {"surge_pressure": BAR}, False),
        ({"working_pressure": {"above": 50}}, {"working_pressure": 51 * BAR}, True),
        ({"working_pressure": {"above": 50}}, {"working_pressure": 50 * BAR}, False),
        ({"working_pressure": {"above": 50}}, {"working_pressure": Span(10 * BAR, 60 * BAR)}, True),  # it may be above
        ({"working_pressure": {"above": 50}}, {}, False),
        ({"working_pressure": {"below": 50}}, {"working_pressure": 49 * BAR}, True),
        ({"working_pressure": {"below": 50}}, {"working_pressure": Span(10 * BAR, 60 * BAR)}, True),
        ({"working_pressure": {"below": 50}}, {"working_pressure": Span(None, 60 * BAR)}, False),
        ({"working_pressure": {"above": 20, "below": 50}}, {"working_pressure": 30 * BAR}, True),
        (
            {"all": [{"line_function": "return"}, {"bore_proven": "yes"}]},
            {"line_function": "return", "bore_proven": True},
            True,
        ),
        ({"all": [{"line_function": "return"}, {"bore_proven": "yes"}]}, {"line_function": "return"}, False),
        ({"any": [{"line_function": "return"}, {"bore_proven": "yes"}]}, {"line_function": "return"}, True),
        ({"any": [{"line_function": "return"}, {"bore_proven": "yes"}]}, {}, False),
        ({"none": [{"line_function": "return"}, {"bore_proven": "yes"}]}, {}, True),
        ({"none": [{"line_function": "return"}, {"bore_proven": "yes"}]}, {"bore_proven": True}, False),
        (
            {"line_function": "return", "bore_proven": "yes"},
            {"line_function": "return"},
            False,
        ),  # several keys: all of them
    ],
)
def test_the_vocabulary(condition: dict[str, object] | None, facts: dict[str, Value], expected: bool) -> None:
    assert condition is None or condition == {} or fault_of(condition) == ""
    assert holding(condition)(known(**facts)) is expected


@pytest.mark.parametrize(
    ("condition", "wrong"),
    [
        ("line_function", "mapping of facts"),
        ({}, "mapping of facts"),
        ([], "mapping of facts"),
        (None, "mapping of facts"),
        ({"colour": "red"}, "'colour' is not a fact"),
        ({"line_function": "sideways"}, "no choice of line_function"),
        ({"line_function": ["return", "sideways"]}, "no choice"),
        ({"line_function": {"not": ["sideways"]}}, "no choice"),
        ({"line_function": {"not": ["return"], "over": 3}}, "not understood"),
        ({"surge_pressure": {"is": "guessed"}}, "not understood"),
        ({"surge_pressure": {"over": 3}}, "not understood"),
        ({"surge_pressure": {"above": "fifty"}}, "not understood"),
        ({"surge_pressure": 50}, "above or below"),
        ({"all": []}, "list of conditions"),
        ({"any": {"line_function": "return"}}, "list of conditions"),
        ({"all": [{"any": [{"colour": "red"}]}]}, "'colour' is not a fact"),
        ({"none": ["x"]}, "mapping of facts"),
    ],
)
def test_what_cannot_be_a_condition_is_told(condition: object, wrong: str) -> None:
    assert wrong in fault_of(condition)


def test_the_facts_a_condition_reads() -> None:
    condition = {
        "all": [{"line_function": "return"}, {"none": [{"bore_proven": "yes"}]}],
        "surge_pressure": {"is": "known"},
    }
    assert set(names_in(condition)) == {"line_function", "bore_proven", "surge_pressure"}


@given(
    st.sampled_from([n for n, s in CATALOGUE.items() if s.kind is Kind.QUANTITY]), st.floats(0, 100), st.floats(0, 100)
)
def test_above_and_below_compare_in_the_json_unit(name: str, value: float, limit: float) -> None:
    facts = known(**{name: from_json_number(name, value)})
    factor = CATALOGUE[name].factor
    assert holding({name: {"above": limit}})(facts) == (value * factor > limit * factor)
    assert holding({name: {"below": limit}})(facts) == (value * factor < limit * factor)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=5),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(
                st.sampled_from(["all", "any", "none", "is", "not", "above", "line_function", "bore", "x"]),
                inner,
                max_size=3,
            )
        ),
    )
)
def test_any_data_is_a_condition_or_a_sentence_about_it(data: object) -> None:
    fault = fault_of(data)
    if fault == "":
        assert isinstance(data, dict)
        assert holding(data)(Known()) in (True, False)
    assert "\n" not in fault
