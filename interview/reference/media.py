"""Which media are there, and what do they do to seals and metals? Fluids, refer rules, materials, the matrix."""

from __future__ import annotations

from pathlib import Path

from interview.reference.model import Cell, Evidence, Fluid, Material, ReferRule, Tag, Window
from interview.reference.rows import GPA, Row, rows

SCOPES = ("in_scope", "in_scope_with_conditions", "stop_and_refer")
FAMILIES = ("oil", "water_based", "water", "gas", "other")
VERDICTS = ("good", "limited", "not_suitable", "no_data")
Three = tuple[float, float, float]


def sources(folder: Path | None = None) -> dict[str, str]:
    return {row.need("key"): row.text("source") for row in rows("media_sources", folder)}


def _evidence(row: Row, tag: str, column: str | None, named: dict[str, str]) -> Evidence | None:
    if not row.text(tag):
        return None
    keys = row.words(column) if column else ()
    return Evidence(row.tag(tag), "; ".join(named.get(k, k) for k in keys) or ("from memory" if row.text(tag) == Tag.MEMORY else "common practice, no source" if row.text(tag) == Tag.PRACTICE else ""))


def _three(row: Row, mid: str, low: str, high: str, factor: float = 1.0) -> Three | None:
    values = [row.number(c, factor) for c in (mid, low, high)]
    if any(v is None for v in values):
        return None
    return values[0], values[1], values[2]  # type: ignore[return-value]


def load_fluids(folder: Path | None = None) -> dict[str, Fluid]:
    """Every fluid by its lower-case id."""
    named = sources(folder)
    made: dict[str, Fluid] = {}
    for row in rows("fluids", folder):
        if row.text("scope") not in SCOPES:
            raise row.fault(f"scope is {row.text('scope')!r}; one of {', '.join(SCOPES)} would be right")
        if row.text("family") not in FAMILIES:
            raise row.fault(f"family is {row.text('family')!r}; one of {', '.join(FAMILIES)} would be right")
        low, high = row.number("temp_low"), row.number("temp_high")
        groups = (("temperature", "temp_tag", "temp_sources"), ("density", "density_tag", None), ("viscosity_index", "vi_tag", None),
                  ("pour_point", "pour_tag", None), ("bulk_modulus", "bulk_tag", None), ("listing", "listing_tag", "listing_sources"))
        evidence = {name: e for name, tag, column in groups if (e := _evidence(row, tag, column, named)) is not None}
        made[row.need("id")] = Fluid(
            row.need("id"), row.text("iso_class") or None, row.text("group"), row.text("family"), row.text("mineral") == "yes",
            row.need("name"), row.parts("counter_names"), row.text("scope"), row.text("rule") or None, row.parts("questions"),
            Window(low, high) if low is not None and high is not None else None,
            _three(row, "density", "density_low", "density_high"), _three(row, "vi", "vi_low", "vi_high"),
            _three(row, "pour", "pour_low", "pour_high"), _three(row, "bulk_gpa", "bulk_low_gpa", "bulk_high_gpa", GPA), evidence,
        )
    return made


def load_refer_rules(folder: Path | None = None) -> dict[str, ReferRule]:
    named = sources(folder)
    made: dict[str, ReferRule] = {}
    for row in rows("refer_rules", folder):
        evidence = _evidence(row, "tag", "sources", named)
        if evidence is None:
            raise row.fault("tag is empty; every rule says what it rests on")
        made[row.need("id")] = ReferRule(row.need("id"), row.need("title"), row.need("why"), row.parts("governed_by"),
                                         row.need("advice"), evidence)
    return made


def load_materials(folder: Path | None = None) -> dict[str, Material]:
    named = sources(folder)
    made: dict[str, Material] = {}
    for row in rows("materials", folder):
        low, high = row.number("temp_low"), row.number("temp_high")
        made[row.need("id")] = Material(
            row.need("id"), row.need("kind"), row.need("name"), row.parts("counter_names"), row.parts("parts"),
            Window(low, high) if low is not None and high is not None else None, _evidence(row, "tag", "sources", named),
            row.parts("notes"))
    return made


def load_cells(folder: Path | None = None) -> dict[tuple[str, str], Cell]:
    """The compatibility matrix by material and fluid group."""
    named = sources(folder)
    made: dict[tuple[str, str], Cell] = {}
    for row in rows("compatibility", folder):
        evidence = _evidence(row, "tag", "sources", named)
        if evidence is None:
            raise row.fault("tag is empty; every cell says what it rests on")
        made[row.need("material"), row.need("group")] = Cell(row.need("material"), row.need("group"), row.need("verdict"),
                                                             row.number("max_c"), evidence, row.text("note"))
    return made
