"""Which hose constructions are there, in which bores, and what is each figure worth?

Reads the `hose_*.csv` tables. Pressures come out in pascal, lengths in metre, temperatures in degree Celsius.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

from interview.reference.model import Construction, Evidence, HoseSize, Twin
from interview.reference.table_rows import DATA, Row, read_rows, stepped, unique

MM, MPA, KPA = 1e-3, 1e6, 1e3
REINFORCEMENTS = ("textile_braid", "wire_braid", "wire_spiral", "wire_helix", "fibre_braid", "ptfe_wire_braid")
SIZE_GROUPS = ("working_pressure", "burst", "bend_radius", "od", "id")
GROUPS = (
    "reinforcement",
    "materials",
    "temperature",
    "temperature_water_based",
    "media",
    "exclusions",
    "impulse",
    "vacuum",
    "ratios",
    "length_change",
    "electrical",
    "legacy",
)
CONFIDENCES = ("", "low", "medium")


def read_evidence(folder: Path = DATA, name: str = "hose_evidence_sources.csv") -> dict[str, Evidence]:
    """Evidence by its short key."""
    found: dict[str, Evidence] = {}
    for row in read_rows(folder, name, "key tag source restatements confidence note"):
        count = row.number("restatements")
        found[unique(row, found, row.needed("key"))] = Evidence(
            row.tag(),
            row.needed("source"),
            None if count is None else int(count),
            row.choice("confidence", CONFIDENCES) or None,
            row.text("note"),
        )
    return found


def evidence_of(row: Row, column: str, evidence: Mapping[str, Evidence]) -> Evidence:
    key = row.needed(column)
    return evidence.get(key) or row.fault(f"{column} names {key!r}", "a key of hose_evidence_sources.csv")


def _grouped(
    folder: Path, evidence: Mapping[str, Evidence]
) -> tuple[dict[str, dict[str, Evidence]], dict[str, dict[str, Evidence]]]:
    """Evidence of each construction: for the construction itself, and for its sizes."""
    own: dict[str, dict[str, Evidence]] = {}
    sizes: dict[str, dict[str, Evidence]] = {}
    for row in read_rows(folder, "hose_evidence.csv", " ".join(("id", *GROUPS, *(f"size_{g}" for g in SIZE_GROUPS)))):
        name = unique(row, own, row.needed("id"))
        own[name] = {g: evidence_of(row, g, evidence) for g in GROUPS if row.text(g)}
        sizes[name] = {g: evidence_of(row, f"size_{g}", evidence) for g in SIZE_GROUPS}
    return own, sizes


def _overrides(folder: Path, evidence: Mapping[str, Evidence]) -> dict[tuple[str, float], dict[str, Evidence]]:
    found: dict[tuple[str, float], dict[str, Evidence]] = defaultdict(dict)
    for row in read_rows(folder, "hose_size_evidence.csv", "id bore values evidence"):
        place = row.needed("id"), row.some("bore")
        found[place][row.choice("values", SIZE_GROUPS)] = evidence_of(row, "evidence", evidence)
    return found


SIZE_COLUMNS = (
    "id dash bore dn inch nominal_mm id_min_mm id_max_mm od_min_mm od_max_mm wp_mpa wp_psi psi_stated select_mpa "
    "proof_mpa burst_min_mpa bend_radius_mm flags"
)


def _sizes(
    folder: Path, grouped: Mapping[str, Mapping[str, Evidence]], overrides: dict[tuple[str, float], dict[str, Evidence]]
) -> dict[str, list[HoseSize]]:
    found: dict[str, list[HoseSize]] = {name: [] for name in grouped}
    for row in read_rows(folder, "hose_sizes.csv", SIZE_COLUMNS):
        name, bore, number = row.text("id"), row.some("bore"), row.number
        if name not in found:
            row.fault(f"id is {name!r}", "an id of hose_evidence.csv")
        before = found[name]
        if before and bore <= before[-1].bore:
            row.fault(f"bore {bore:g} of {name} comes after {before[-1].bore:g}", "bores rise, each stands once")
        own = overrides.pop((name, bore), None)
        before.append(
            HoseSize(
                construction=name,
                bore=bore,
                marked_dash=number("dash"),
                dn=int(row.some("dn")),
                inch=row.needed("inch"),
                nominal_bore=row.some("nominal_mm", MM),
                id_min=number("id_min_mm", MM),
                id_max=number("id_max_mm", MM),
                od_min=number("od_min_mm", MM),
                od_max=number("od_max_mm", MM),
                wp=row.some("wp_mpa", MPA),
                wp_psi=row.some("wp_psi"),
                wp_psi_stated=row.choice("psi_stated", ("yes", "no")) == "yes",
                wp_select=row.some("select_mpa", MPA),
                proof=number("proof_mpa", MPA),
                burst_min=number("burst_min_mpa", MPA),
                bend_radius=number("bend_radius_mm", MM),
                flags=row.items("flags"),
                evidence={**grouped[name], **own} if own else grouped[name],
            )
        )
        if before[-1].wp_select > before[-1].wp:
            row.fault("select_mpa is above wp_mpa", "the figure to select by is never the higher one")
    return found


def _by_id(folder: Path, name: str, columns: str, wanted: Mapping[str, object]) -> dict[str, Row]:
    """One row for each construction."""
    found: dict[str, Row] = {}
    for row in read_rows(folder, name, columns):
        key = unique(row, found, row.needed("id"))
        if key not in wanted:
            row.fault(f"id is {key!r}", "an id of hose_evidence.csv")
        found[key] = row
    for missing in wanted.keys() - found.keys():
        row.fault(f"the table ends without {missing}", "every construction has its row")
    return found


def _twins(folder: Path, known: Mapping[str, object]) -> dict[str, list[Twin]]:
    found: dict[str, list[Twin]] = defaultdict(list)
    for row in read_rows(folder, "hose_twins.csv", "id counterpart entry relation"):
        entry = row.text("entry") or None
        if entry is not None and entry not in known:
            row.fault(f"entry is {entry!r}", "an id of hose_constructions.csv, or nothing where it has no entry")
        found[row.needed("id")].append(Twin(row.needed("counterpart"), entry, row.needed("relation")))
    return found


def _legacy(folder: Path) -> dict[str, dict[float, float]]:
    found: dict[str, dict[float, float]] = defaultdict(dict)
    for row in read_rows(folder, "hose_legacy_pressures.csv", "id dash wp_mpa wp_psi"):
        found[row.needed("id")][row.some("dash")] = row.some("wp_mpa", MPA)
    return found


def read_hoses(folder: Path = DATA) -> dict[str, Construction]:
    """Every construction by id, in the order of hose_constructions.csv."""
    evidence = read_evidence(folder)
    own, grouped = _grouped(folder, evidence)
    overrides = _overrides(folder, evidence)
    sizes = _sizes(folder, grouped, overrides)
    for name, bore in overrides:
        next(read_rows(folder, "hose_size_evidence.csv", "id bore values evidence")).fault(
            f"{name} has evidence for bore {bore:g}, which it does not have", "a bore of hose_sizes.csv"
        )
    limits = _by_id(folder, "hose_temperatures.csv", "id oil water_based water", own)
    media = _by_id(folder, "hose_media.csv", "id media excluded excluded_words ask specified", own)
    tests = _by_id(
        folder,
        "hose_tests.csv",
        "id impulse_cycles impulse_percent impulse_required vacuum_kpa proof_ratio burst_ratio length_change_percent "
        "non_conductive_option conductive_tube",
        own,
    )
    twins, legacy = _twins(folder, own), _legacy(folder)
    found: dict[str, Construction] = {}
    columns = "id standard type status reinforcement layers reinforcement_text tube cover notes"
    for row in read_rows(folder, "hose_constructions.csv", columns):
        name = unique(row, found, row.needed("id"))
        if name not in own or not sizes[name]:
            row.fault(f"{name} has no evidence or no sizes", "rows in hose_evidence.csv and hose_sizes.csv")
        limit, medium, test = limits[name], media[name], tests[name]
        listed, excluded = frozenset(medium.words("media")), frozenset(medium.words("excluded"))
        ask = frozenset(medium.words("ask"))
        if clash := (listed & excluded) | (listed & ask) | (excluded & ask):
            medium.fault(f"{' '.join(sorted(clash))} stands in two columns", "a fluid stands in one of the three")
        bores = [size.bore for size in sizes[name]]
        found[name] = Construction(
            id=name,
            standard=row.needed("standard"),
            type=row.needed("type"),
            status=row.needed("status"),
            reinforcement=row.choice("reinforcement", REINFORCEMENTS),
            layers=row.needed("layers"),
            reinforcement_text=row.needed("reinforcement_text"),
            tube=row.needed("tube"),
            cover=row.needed("cover"),
            twins=tuple(twins.get(name, ())),
            temperature={family: limit.window(family) for family in ("oil", "water_based", "water")},
            media=listed,
            excluded=excluded,
            excluded_words=medium.items("excluded_words"),
            ask=ask,
            impulse_cycles=test.number("impulse_cycles"),
            impulse_required=test.flag("impulse_required"),
            impulse_percent=stepped(test.steps("impulse_percent"), bores),
            vacuum=stepped(test.steps("vacuum_kpa"), bores, KPA),
            non_conductive_option=test.flag("non_conductive_option"),
            conductive_tube=test.flag("conductive_tube"),
            length_change=test.span("length_change_percent"),
            legacy_wp=legacy.get(name, {}),
            proof_ratio=test.number("proof_ratio"),
            burst_ratio=test.number("burst_ratio"),
            evidence=own[name],
            sizes=tuple(sizes[name]),
            notes=row.items("notes"),
        )
    return found
