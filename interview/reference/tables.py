"""Where are all reference tables? Hoses and fluids at once, the rest when first looked at; each value with its source."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, cached_property

from interview.reference.connections import Connections, load_connections
from interview.reference.hoses import load_hoses
from interview.reference.media import load_cells, load_fluids, load_materials, load_refer_rules
from interview.reference.model import Cell, Construction, Evidence, Fluid, Material, ReferRule
from interview.reference.rows import DATA, PER_MM2, TableError, evidence_rows, rows


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Where sources differ, and the cautious choice taken."""

    what: str
    sources: str
    taken: str


class Tables:
    """The standards' tables. Read-only."""

    def __init__(self) -> None:
        self.constructions: Mapping[str, Construction] = load_hoses()
        self.fluids: Mapping[str, Fluid] = load_fluids()

    @cached_property
    def refer_rules(self) -> Mapping[str, ReferRule]:
        return load_refer_rules()

    @cached_property
    def materials(self) -> Mapping[str, Material]:
        return load_materials()

    @cached_property
    def cells(self) -> Mapping[tuple[str, str], Cell]:
        return load_cells()

    def cell(self, material: str, group: str) -> Cell | None:
        """One material against one fluid group; None where the matrix has no such cell."""
        return self.cells.get((material, group))

    @cached_property
    def _groups(self) -> Mapping[str, tuple[float | None, bool]]:
        return {r.need("group"): (r.number("max_c"), bool(r.flag("refer_first"))) for r in rows("fluid_groups")}

    def group_cap(self, group: str) -> float | None:
        """The highest temperature of a fluid group, degC; None: no cap of its own."""
        return self._groups.get(group, (None, False))[0]

    @cached_property
    def quick_rules(self) -> tuple[tuple[str, str], ...]:
        return tuple((r.need("when"), r.need("then")) for r in rows("quick_rules"))

    @cached_property
    def disagreements(self) -> tuple[Disagreement, ...]:
        return tuple(Disagreement(r.need("what"), r.text("sources"), r.need("taken")) for r in rows("disagreements"))

    @cached_property
    def iso_vg(self) -> tuple[tuple[float, float, float, float], ...]:
        """ISO 3448 grades: grade, lowest, middle and highest viscosity at 40 degC in m2/s."""
        return tuple((r.sure("grade"), r.sure("min", PER_MM2), r.sure("mid", PER_MM2), r.sure("max", PER_MM2))
                     for r in rows("iso_vg"))

    @cached_property
    def connections(self) -> Connections:
        return load_connections()

    def length_tolerance(self, length: float, dn: int, home: str) -> tuple[float, float, Evidence]:
        """Tolerance of an assembly length (m) as minus and plus in m, by home standards ("EN/ISO" or "SAE").

        Bands take their upper edge: 630 mm belongs to "up to 630". DIN 20066 (restated); SAE J517 general section (memory).
        """
        proofs = evidence_rows("hose_evidence")
        mm = length * 1e3
        for row in rows("length_tolerances"):
            if row.text("home") != home or mm <= (row.number("length_over_mm") or 0.0):
                continue
            top, dn_from, dn_to = row.number("length_to_mm"), row.number("dn_from"), row.number("dn_to")
            if (top is not None and mm > top) or (dn_from is not None and not dn_from <= dn <= (dn_to or 1e9)):
                continue
            minus, plus = row.number("minus") or 0.0, row.number("plus") or 0.0
            scale = length / 100 if row.text("unit") == "%" else 1e-3
            return minus * scale, plus * scale, proofs[row.need("by")]
        raise TableError(f"length_tolerances.csv: no band for {mm:.0f} mm at DN {dn} by {home}")

    @cached_property
    def version(self) -> str:
        """A short digest of the data files: two records with the same one read the same tables."""
        digest = hashlib.sha256()
        for path in sorted(DATA.glob("*.csv")):
            digest.update(path.read_bytes())
        return digest.hexdigest()[:12]


@cache
def load_tables() -> Tables:
    """The tables, read once. Raises TableError with file and line."""
    return Tables()


__all__ = ["Disagreement", "TableError", "Tables", "load_tables"]
