"""What does a scenario file hold? A story, what the customer knows, what must come out; checked with file and line."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from interview.catalogue import CATALOGUE, TOPICS
from interview.language.model import Heard, Misread
from interview.language.read import read_knows
from interview.reference.connections import load_connections
from interview.reference.tables import load_tables
from interview.selection.cautions import SEVERITY
from interview.yaml_file import YamlFile, read_yaml, validated

Outcome = Literal["specified", "provisional", "referred", "unmatched"]
Ready = Literal["none", "quote", "build"]


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Saying(Part):
    """A whole line as the customer says it, when a fact is asked or at a turn."""

    line: str
    asked: str | None = None
    turn: int | None = None


class Expect(Part):
    """Every key optional; replay fails on any that is not met."""

    outcome: Outcome | None = None
    outcome_any: tuple[Outcome, ...] | None = None
    understood: dict[str, Any] | None = None
    asked: tuple[str, ...] | None = None
    not_asked: tuple[str, ...] | None = None
    bore: float | str | None = None
    bore_any: tuple[float, ...] | None = None
    need: dict[str, str] | None = None
    fits: tuple[str, ...] | None = None
    fails: dict[str, str | tuple[str, ...]] | None = None
    unsafe_if_fits: tuple[str, ...] | None = None
    rating: str | None = None
    rating_max: str | None = None
    limited_by: Literal["hose", "end_a", "end_b", "adapter"] | None = None
    cautions: tuple[str, ...] | None = None
    open: tuple[str, ...] | None = None
    open_any: tuple[str, ...] | None = None
    advice: tuple[str, ...] | None = None
    ready_for: Ready | None = None
    length: str | None = None
    end_angle: str | None = None
    end_a_any: tuple[str, ...] | None = None
    end_b_any: tuple[str, ...] | None = None


class Scenario(Part):
    scenario: str
    title: str
    level: Literal["starter", "regular", "hard"] = "regular"
    flow: str = "failed_hose"
    story: str = ""
    opening: str | None = None
    says: tuple[Saying, ...] = ()
    teaches: str | None = None
    order: float | None = None
    knows: dict[str, Any] = Field(default_factory=dict)
    expect: Expect = Field(default_factory=Expect)
    why: tuple[str, ...] = ()


def load_scenario(path: Path) -> tuple[Scenario, dict[str, Heard]]:
    """A scenario and what its customer knows, read. Raises FileError with file and line for the first fault."""
    file = read_yaml(path)
    scenario = validated(file, Scenario)
    if scenario.scenario != path.stem:
        raise file.error(("scenario",), f"scenario: {scenario.scenario!r} must be the file's name, {path.stem!r}")
    known: dict[str, Heard] = {}
    for name, value in scenario.knows.items():
        if name not in CATALOGUE:
            raise file.error(("knows", name), f"knows: {name!r} is not a fact")
        try:
            known[name] = read_knows(name, value)
        except Misread as error:
            raise file.error(
                ("knows", name), f"knows: {name}: {error.read!r}: {error.why}; {error.would_do}"
            ) from error
        _check_id(file, ("knows", name), name, known[name].value)
    _check_sizes(file, known)
    _check_expect(file, scenario)
    return scenario, known


def _check_id(file: YamlFile, path: tuple[object, ...], name: str, value: object) -> None:
    tables, connections = load_tables(), load_connections()
    if name == "medium" and value not in tables.fluids:
        raise file.error(path, f"{name}: {value!r} is no fluid of the tables")
    if name == "old_construction" and value not in tables.constructions:
        raise file.error(path, f"{name}: {value!r} is no construction of the tables")
    if name.endswith("_family") and value not in (*connections.families, "other", "none"):
        raise file.error(path, f"{name}: {value!r} is no connection of the tables; there is also other")
    if name.endswith(("_seal", "_metal")) and str(value).upper() not in tables.materials:
        raise file.error(path, f"{name}: {value!r} is no material of the tables")


def _check_sizes(file: YamlFile, known: Mapping[str, Heard]) -> None:
    """A size has to be one of its connection's; where the connection is not of the tables, any size stands."""
    for name, heard in known.items():
        family = known.get(name.removesuffix("_size") + "_family")
        entry = load_connections().families.get(str(family.value)) if family is not None else None
        if not name.endswith("_size") or entry is None or not entry.sizes or entry.size(str(heard.value)) is not None:
            continue
        sizes = ", ".join(row.size for row in entry.sizes)
        raise file.error(("knows", name), f"knows: {name}: {heard.value!r} is no size of {entry.id}; it has {sizes}")


def _check_expect(file: YamlFile, scenario: Scenario) -> None:
    expect = scenario.expect
    tables = load_tables()

    def facts(key: str, names: Mapping[str, Any] | tuple[str, ...] | None) -> None:
        for name in names or ():
            if name not in CATALOGUE:
                raise file.error(("expect", key), f"expect.{key}: {name!r} is not a fact")

    for key in ("understood", "asked", "not_asked", "open", "open_any"):
        facts(key, getattr(expect, key))
    for key in ("fits", "fails", "unsafe_if_fits"):
        for name in getattr(expect, key) or ():
            if name not in tables.constructions:
                raise file.error(("expect", key), f"expect.{key}: {name!r} is no construction of the tables")
    for name, topics in (expect.fails or {}).items():
        for topic in (topics,) if isinstance(topics, str) else topics:
            if topic not in TOPICS:
                raise file.error(("expect", "fails", name), f"expect.fails: {topic!r} is no topic of a check")
    for name in expect.cautions or ():
        if name not in SEVERITY:
            raise file.error(("expect", "cautions"), f"expect.cautions: {name!r} is no caution")
    for i, saying in enumerate(scenario.says):
        if saying.asked is not None and saying.asked not in CATALOGUE:
            raise file.error(("says", i, "asked"), f"says: {saying.asked!r} is not a fact")
        if (saying.asked is None) == (saying.turn is None):
            raise file.error(("says", i), "says: give either asked or turn")
