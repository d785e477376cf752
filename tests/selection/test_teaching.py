"""Do the lessons load, fit the screen, and belong to observations and facts that exist?"""

from __future__ import annotations

import pytest

from interview.catalogue import CATALOGUE
from interview.reference.connections import load_connections
from interview.resources import shipped
from interview.yaml_file import read_yaml

LESSONS = read_yaml(shipped("flows") / "teaching.yaml").data
TELLS = load_connections().identification.tells


def lesson(name: str) -> dict[str, object]:
    assert isinstance(LESSONS, dict)
    found = LESSONS[name]
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize("name", list(LESSONS) if isinstance(LESSONS, dict) else [])
def test_a_lesson_has_title_text_and_a_drawing_that_fits(name: str) -> None:
    found = lesson(name)
    assert set(found) <= {"title", "text", "drawing", "asked_with"} and {"title", "text", "asked_with"} <= set(found)
    text = found["text"]
    assert isinstance(text, str) and 100 < len(text) < 700 and text.strip().endswith(".")
    drawing = found.get("drawing", "")
    assert isinstance(drawing, str)
    assert all(len(line) <= 60 for line in drawing.splitlines())
    assert isinstance(found["asked_with"], list)
    for known in found["asked_with"]:
        assert known in CATALOGUE or known in TELLS, known


def test_every_observation_that_separates_has_a_lesson() -> None:
    assert isinstance(LESSONS, dict)
    taught = {code for name in LESSONS for code in lesson(name)["asked_with"]}  # type: ignore[attr-defined]
    assert set(TELLS) - taught == {"GENDER"}


def test_the_figures_taught_are_those_of_the_tables() -> None:
    """Code 61 against code 62 in the smallest size, ISO 6162-1 and -2; 15L and 14S share M22x1.5, ISO 8434-1."""
    tables = load_connections()
    low, high = (tables.size(family, "1/2") for family in ("flange_c61", "flange_c62"))
    assert low is not None and high is not None
    head, spacing = (
        float(str(high.details[key])) - float(str(low.details[key])) for key in ("head_dia_mm", "bolt_long_mm")
    )
    assert f"{head:.1f} mm at the head" in str(lesson("flange_head")["text"])
    assert f"{spacing:.1f} mm between the screws" in str(lesson("flange_head")["text"])
    assert {("cone24_L", "15L"), ("cone24_S", "14S")} <= set(tables.same_thread_groups["M22x1.5"])
