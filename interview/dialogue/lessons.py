"""How is a thing measured? Short lessons with drawings, from the teaching file a shop may add to."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from pydantic import BaseModel, ConfigDict, RootModel

from interview.resources import shipped
from interview.yaml_file import read_yaml, validated


class Lesson(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)

    title: str
    text: str
    asked_with: tuple[str, ...] = ()
    drawing: str = ""


class Lessons(RootModel[dict[str, Lesson]]):
    """Lessons by name."""


@cache
def lessons() -> dict[str, Lesson]:
    """Raises FileError with file and line."""
    return validated(read_yaml(shipped("flows") / "teaching.yaml"), Lessons).root


def lessons_for(facts: Iterable[str]) -> tuple[Lesson, ...]:
    """The lessons that belong to these facts, each once."""
    wanted = set(facts)
    return tuple(lesson for lesson in lessons().values() if wanted & set(lesson.asked_with))
