"""Which hose constructions are there? 41 constructions with 357 sizes, every group of values with its evidence."""

from __future__ import annotations

from pathlib import Path

from interview.reference.model import Construction, Evidence, HoseSize, Twin, Window
from interview.reference.rows import KPA, MM, MPA, Row, TableError, evidence_rows, rows

REINFORCEMENTS = ("textile_braid", "wire_braid", "wire_spiral", "wire_helix", "fibre_braid", "ptfe_wire_braid")
COLUMNS = ("working_pressure", "burst", "bend_radius", "od", "id")
Proofs = dict[str, Evidence]


def _by(row: Row, column: str, proofs: Proofs) -> Evidence | None:
    key = row.text(column)
    if not key:
        return None
    if key not in proofs:
        raise row.fault(f"{column} is {key!r}, which is no key of hose_evidence.csv")
    return proofs[key]


def _steps(row: Row, column: str, bores: list[float], factor: float = 1.0) -> dict[float, float]:
    """"125" for every bore, or steps "3+:125 20+:100" (from that bore up); an empty cell: none has one."""
    text = row.text(column)
    if not text:
        return {}
    try:
        if ":" not in text:
            return {bore: float(text) * factor for bore in bores}
        steps = sorted((float(a.rstrip("+")), float(b) * factor) for a, b in (s.split(":") for s in text.split()))
    except ValueError:
        raise row.fault(f"{column} is {text!r}; a number or steps like 3+:125 20+:100 would be right") from None
    made: dict[float, float] = {}
    for bore in bores:
        below = [value for start, value in steps if start <= bore]
        if below:
            made[bore] = below[-1]
    return made


def _window(row: Row, name: str) -> Window | None:
    low, high = row.number(f"{name}_low"), row.number(f"{name}_high")
    if low is None or high is None:
        return None
    if low >= high:
        raise row.fault(f"{name}: {low:g} to {high:g} is no window")
    return Window(low, high)


def _size(row: Row, standing: dict[str, Evidence], proofs: Proofs) -> HoseSize:
    evidence = dict(standing)
    for column in COLUMNS:
        override = _by(row, f"by_{column}", proofs)
        if override is not None:
            evidence[column] = override
    size = HoseSize(
        row.need("construction"), row.sure("bore"), row.positive("dash"), int(row.sure("dn")), row.text("inch"),
        row.sure("nominal_bore_mm", MM), row.positive("id_min_mm", MM), row.positive("id_max_mm", MM),
        row.positive("od_min_mm", MM), row.positive("od_max_mm", MM), row.sure("wp_mpa", MPA), row.sure("wp_psi"),
        bool(row.flag("psi_stated")), row.sure("wp_select_mpa", MPA), row.positive("proof_mpa", MPA),
        row.positive("burst_mpa", MPA), row.positive("bend_radius_mm", MM), row.parts("flags"), evidence,
    )
    if size.wp_select > size.wp * 1.0001:
        raise row.fault("wp_select_mpa is above wp_mpa; the figure to select by is never the higher one")
    return size


def load_hoses(folder: Path | None = None) -> dict[str, Construction]:
    """Every construction by id, in the tables' order."""
    proofs = evidence_rows("hose_evidence", folder)
    media = {row.need("id"): row for row in rows("hose_media", folder)}
    twins: dict[str, list[Twin]] = {}
    for row in rows("hose_twins", folder):
        twins.setdefault(row.need("id"), []).append(Twin(row.text("ref"), row.text("twin") or None, row.text("relation")))
    legacy: dict[str, dict[float, float]] = {}
    for row in rows("hose_legacy_pressures", folder):
        legacy.setdefault(row.need("construction"), {})[row.sure("dash")] = row.sure("wp_mpa", MPA)
    size_rows: dict[str, list[Row]] = {}
    for row in rows("hose_sizes", folder):
        size_rows.setdefault(row.need("construction"), []).append(row)
    made: dict[str, Construction] = {}
    for row in rows("hose_constructions", folder):
        made[row.need("id")] = _construction(row, media, twins, legacy, size_rows, proofs)
    for name, listed in twins.items():
        for twin in listed:
            if twin.id is not None and twin.id not in made:
                raise TableError(f"hose_twins.csv: {name}: its twin {twin.id} is no construction")
    lost = set(size_rows) - set(made)
    if lost:
        raise size_rows[min(lost)][0].fault(f"{min(lost)} is no construction of hose_constructions.csv")
    return made


def _construction(row: Row, media: dict[str, Row], twins: dict[str, list[Twin]], legacy: dict[str, dict[float, float]],
                  size_rows: dict[str, list[Row]], proofs: Proofs) -> Construction:
    name = row.need("id")
    if row.text("reinforcement") not in REINFORCEMENTS:
        raise row.fault(f"reinforcement is {row.text('reinforcement')!r}; one of {', '.join(REINFORCEMENTS)} would be right")
    if name not in media or name not in size_rows:
        raise row.fault(f"{name} has no row in hose_media.csv or no size in hose_sizes.csv")
    medium = media[name]
    standing = {c: e for c in COLUMNS if (e := _by(row, f"by_{c}", proofs)) is not None}
    sizes = tuple(_size(r, standing, proofs) for r in size_rows[name])
    bores = [s.bore for s in sizes]
    evidence = {c: e for c in ("reinforcement", "materials", "length", "impulse", "vacuum", "electrical", "ratios")
                if (e := _by(row, f"by_{c}", proofs)) is not None}
    evidence["length_change"] = evidence.get("length", evidence["reinforcement"])
    for group, column in (("temperature", "by_temperature"), ("media", "by_media"), ("exclusions", "by_exclusions"),
                          ("water_based", "by_water_based")):
        found = _by(medium, column, proofs)
        if found is not None:
            evidence[group] = found
    low, high = row.number("length_low_pct"), row.number("length_high_pct")
    return Construction(
        name, row.need("standard"), row.need("type"), row.need("status"), row.text("reinforcement"), row.text("layers"),
        row.text("reinforcement_text"), row.text("tube"), row.text("cover"), tuple(twins.get(name, ())),
        {k: _window(medium, k) for k in ("oil", "water_based", "water")}, frozenset(medium.words("media")),
        frozenset(medium.words("excluded")), medium.parts("excluded_words"), frozenset(medium.words("ask")),
        row.positive("impulse_cycles"), row.flag("impulse_required"), _steps(row, "impulse_percent", bores),
        _steps(row, "vacuum_kpa", bores, KPA), row.flag("non_conductive_option"), row.flag("conductive_tube"),
        (low, high) if low is not None and high is not None else None, legacy.get(name, {}), row.positive("proof_ratio"),
        row.positive("burst_ratio"), evidence, sizes,
    )
