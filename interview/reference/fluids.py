"""Which media does a counter hear of, what is known of each, and which are not this tool's?"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from interview.reference.model import Evidence, Fluid, ReferRule, Window
from interview.reference.table_rows import DATA, Row, read_rows, unique

FAMILIES = ("oil", "water_based", "water", "gas", "other")
SCOPES = ("in_scope", "in_scope_with_conditions", "stop_and_refer")
NUMBERS = {  # property of the table -> field of Fluid, factor to SI, may be negative
    "density_15_kg_m3": ("density_15", 1.0, False),
    "viscosity_index": ("viscosity_index", 1.0, True),
    "pour_point_c": ("pour_point", 1.0, True),
    "bulk_modulus_gpa": ("bulk_modulus", 1e9, False),
    "viscosity_40_mm2_s": ("viscosity_40", 1e-6, False),
    "viscosity_100_mm2_s": ("viscosity_100", 1e-6, False),
}
TEXTS = ("hose_listing", "vapour_pressure", "water_content")
UNSOURCED = {"memory": "from memory", "practice": "common practice, no source"}
Triple = tuple[float, float, float]


@dataclass
class Sourced:
    """Turns tag, source keys and count of a row into Evidence; equal ones are one object."""

    sources: Mapping[str, str]

    def __post_init__(self) -> None:
        self._made: dict[tuple[str, str, str, str], Evidence] = {}

    def of(self, row: Row, *, note: str = "") -> Evidence:
        key = row.text("tag"), row.text("sources"), row.text("restatements"), note
        found = self._made.get(key)
        if found is None:
            names = row.words("sources")
            for name in names:
                if name not in self.sources:
                    row.fault(f"sources names {name!r}", "a key of media_sources.csv")
            count = row.number("restatements")
            text = "; ".join(self.sources[name] for name in names) or UNSOURCED.get(key[0], "source not noted")
            found = self._made[key] = Evidence(row.tag(), text, None if count is None else int(count), None, note)
        return found


def read_media_sources(folder: Path = DATA) -> Sourced:
    found: dict[str, str] = {}
    for row in read_rows(folder, "media_sources.csv", "key source"):
        found[unique(row, found, row.needed("key"))] = row.needed("source")
    return Sourced(found)


def read_refer_rules(folder: Path = DATA, sourced: Sourced | None = None) -> dict[str, ReferRule]:
    sourced = sourced or read_media_sources(folder)
    found: dict[str, ReferRule] = {}
    for row in read_rows(folder, "refer_rules.csv", "id title why governed_by advice tag sources restatements"):
        name = unique(row, found, row.needed("id"))
        found[name] = ReferRule(
            name,
            row.needed("title"),
            row.needed("why"),
            row.items("governed_by"),
            row.needed("advice"),
            sourced.of(row),
        )
    return found


def _triple(row: Row, factor: float, signed: bool) -> Triple:
    """Typical, low and high; where the table gives no spread, the typical value stands for all three."""
    typical = row.some("typical", factor, signed=signed)
    low, high = row.number("low", factor, signed=signed), row.number("high", factor, signed=signed)
    triple = typical, typical if low is None else low, typical if high is None else high
    if not triple[1] <= typical <= triple[2]:
        row.fault(f"{row.text('property')} is {triple[1]:g}, {typical:g}, {triple[2]:g}", "low, typical and high rise")
    return triple


@dataclass
class _Properties:
    numbers: dict[str, Triple]
    window: Window | None
    evidence: dict[str, Evidence]


def _read_properties(folder: Path, sourced: Sourced) -> dict[str, _Properties]:
    found: dict[str, _Properties] = defaultdict(lambda: _Properties({}, None, {}))
    columns = "fluid property typical low high tag sources restatements note"
    for row in read_rows(folder, "fluid_properties.csv", columns):
        held = found[row.needed("fluid")]
        name = row.choice("property", (*NUMBERS, "temperature_c", *TEXTS))
        if name in NUMBERS:
            field, factor, signed = NUMBERS[name]
            held.numbers[field] = _triple(row, factor, signed)
        elif name == "temperature_c":
            field = "temperature"
            held.window = Window(row.some("low", signed=True), row.some("high", signed=True))
        else:
            field = name
        held.evidence[field] = sourced.of(row, note=row.text("note"))
    return found


def read_fluids(
    folder: Path = DATA, sourced: Sourced | None = None, rules: Mapping[str, ReferRule] | None = None
) -> dict[str, Fluid]:
    """Every fluid by its lower-case id, in the order of fluids.csv."""
    sourced = sourced or read_media_sources(folder)
    rules = read_refer_rules(folder, sourced) if rules is None else rules
    properties = _read_properties(folder, sourced)
    found: dict[str, Fluid] = {}
    columns = "id iso_class group family mineral name counter_names composition scope rule questions notes"
    for row in read_rows(folder, "fluids.csv", columns):
        name, rule = unique(row, found, row.needed("id")), row.text("rule") or None
        if rule is not None and rule not in rules:
            row.fault(f"rule is {rule!r}", "an id of refer_rules.csv, or nothing")
        held = properties.pop(name, _Properties({}, None, {}))
        scope = row.choice("scope", SCOPES)
        if scope == "stop_and_refer" and rule is None:
            row.fault(f"{name} is a stop without a rule", "an id of refer_rules.csv says where to go instead")
        found[name] = Fluid(
            id=name,
            iso_class=row.text("iso_class") or None,
            group=row.needed("group"),
            family=row.choice("family", FAMILIES),
            mineral=row.choice("mineral", ("yes", "no")) == "yes",
            name=row.needed("name"),
            counter_names=row.items("counter_names"),
            scope=scope,
            rule=rule,
            questions=row.items("questions"),
            temperature=held.window,
            density_15=held.numbers.get("density_15"),
            viscosity_index=held.numbers.get("viscosity_index"),
            pour_point=held.numbers.get("pour_point"),
            bulk_modulus=held.numbers.get("bulk_modulus"),
            evidence=held.evidence,
            notes=(row.needed("composition"), *row.items("notes")),
            viscosity_40=held.numbers.get("viscosity_40"),
            viscosity_100=held.numbers.get("viscosity_100"),
        )
    for lost in properties:
        row.fault(f"the table ends without {lost}, which has properties", "every fluid of fluid_properties.csv")
    return found


def read_iso_vg(folder: Path = DATA) -> tuple[tuple[float, float, float, float], ...]:
    """ISO 3448:1992 grades (restated): number, then least, middle and greatest viscosity at 40 °C in m2/s."""
    grades = []
    for row in read_rows(folder, "iso_vg.csv", "grade min_mm2_s mid_mm2_s max_mm2_s"):
        low, mid, high = (row.some(column, 1e-6) for column in ("min_mm2_s", "mid_mm2_s", "max_mm2_s"))
        if not low < mid < high:
            row.fault("the three viscosities do not rise", "least, middle, greatest")
        grades.append((row.some("grade"), low, mid, high))
    return tuple(grades)
