"""Which material stands which fluid, to what temperature, and where do the sources disagree?"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from interview.reference.fluids import UNSOURCED, Sourced, read_media_sources
from interview.reference.model import Cell, Evidence, Material, Tag, Window
from interview.reference.table_rows import DATA, read_rows, unique

VERDICTS = ("good", "limited", "not_suitable", "no_data")


@dataclass(frozen=True, slots=True)
class QuickRule:
    """A trap of the matrix in one line."""

    condition: str
    consequence: str


@dataclass(frozen=True, slots=True)
class Disagreement:
    """What the sources say, each with its name before the colon, and the cautious side that was taken."""

    subject: str
    said: tuple[str, ...]
    taken: str


@dataclass(frozen=True, slots=True)
class MetalCouple:
    """Two metals that touch."""

    one: str
    other: str
    salt_air: str  # good | limited | not_suitable
    dry: str
    why: str
    tag: Tag


@dataclass(frozen=True, slots=True)
class ServiceRule:
    """A rule of storage, life, cleanliness, heat, cold, electricity or gas; `id` is topic.rule."""

    id: str
    topic: str
    text: str
    evidence: Evidence


def read_materials(folder: Path = DATA, sourced: Sourced | None = None) -> dict[str, Material]:
    """Polymers and metals by id. A seal's lower limit, where the table has one, governs over the polymer's own."""
    sourced = sourced or read_media_sources(folder)
    found: dict[str, Material] = {}
    columns = "id kind name counter_names parts min_c max_c seal_min_c seal_tag peak_c tag sources restatements notes"
    for row in read_rows(folder, "materials.csv", columns):
        name = unique(row, found, row.needed("id"))
        low, high = row.number("min_c", signed=True), row.number("max_c", signed=True)
        seal = row.number("seal_min_c", signed=True)
        if (low is None) is not (high is None):
            row.fault("one of min_c and max_c is missing", "both limits, or neither")
        evidence = sourced.of(row)
        cold = evidence
        if seal is not None:
            tag = row.tag("seal_tag")
            cold = Evidence(tag, UNSOURCED.get(tag, evidence.source))
        window = None
        if low is not None and high is not None:
            window = Window(low if seal is None else max(low, seal), high)
        found[name] = Material(
            name,
            row.choice("kind", ("polymer", "metal")),
            row.needed("name"),
            row.items("counter_names"),
            row.items("parts"),
            window,
            evidence,
            row.items("notes"),
            cold,
        )
    return found


def read_cells(folder: Path = DATA, sourced: Sourced | None = None) -> dict[tuple[str, str], Cell]:
    """The compatibility matrix by (material, fluid group)."""
    sourced = sourced or read_media_sources(folder)
    found: dict[tuple[str, str], Cell] = {}
    columns = "material group verdict max_c refer_first tag sources restatements note"
    for row in read_rows(folder, "compatibility.csv", columns):
        key = row.needed("material"), row.needed("group")
        if key in found:
            row.fault(f"{key[0]} against {key[1]} is there twice", "one line for each pair")
        row.flag("refer_first")
        found[key] = Cell(
            key[0], key[1], row.choice("verdict", VERDICTS), row.number("max_c"), sourced.of(row), row.text("note")
        )
    return found


def read_group_caps(folder: Path = DATA) -> dict[str, float | None]:
    """Highest temperature of each fluid group in degree Celsius; None: no cap of its own."""
    return {row.needed("group"): row.number("max_c") for row in read_rows(folder, "group_caps.csv", "group max_c")}


def read_quick_rules(folder: Path = DATA) -> tuple[QuickRule, ...]:
    rows = read_rows(folder, "quick_rules.csv", "condition consequence")
    return tuple(QuickRule(row.needed("condition"), row.needed("consequence")) for row in rows)


def read_disagreements(folder: Path = DATA) -> tuple[Disagreement, ...]:
    rows = read_rows(folder, "disagreements.csv", "subject said taken")
    return tuple(Disagreement(row.needed("subject"), row.items("said"), row.needed("taken")) for row in rows)


def read_couples(folder: Path = DATA) -> tuple[MetalCouple, ...]:
    return tuple(
        MetalCouple(
            row.needed("one"),
            row.needed("other"),
            row.choice("salt_air", VERDICTS),
            row.choice("dry", VERDICTS),
            row.needed("why"),
            row.tag(),
        )
        for row in read_rows(folder, "metal_couples.csv", "one other salt_air dry why tag")
    )


def read_service(folder: Path = DATA, sourced: Sourced | None = None) -> dict[str, ServiceRule]:
    sourced = sourced or read_media_sources(folder)
    found: dict[str, ServiceRule] = {}
    for row in read_rows(folder, "service_rules.csv", "topic rule text tag sources restatements note"):
        topic = row.needed("topic")
        name = unique(row, found, f"{topic}.{row.needed('rule')}")
        found[name] = ServiceRule(name, topic, row.needed("text"), sourced.of(row, note=row.text("note")))
    return found
