"""Where does the rest of the program get the reference tables from?

`load_tables()` gives one object. Hoses, fluids and refer rules are read at the first look at any of them; everything
else when it is first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, cached_property
from hashlib import sha256
from pathlib import Path

from interview.reference.connections import Connections, load_connections
from interview.reference.fluids import Sourced, read_fluids, read_iso_vg, read_media_sources, read_refer_rules
from interview.reference.hoses import evidence_of, read_evidence, read_hoses
from interview.reference.media import (
    Disagreement,
    MetalCouple,
    QuickRule,
    ServiceRule,
    read_cells,
    read_couples,
    read_disagreements,
    read_group_caps,
    read_materials,
    read_quick_rules,
    read_service,
)
from interview.reference.model import Cell, Construction, Evidence, Fluid, Material, ReferRule
from interview.reference.table_rows import DATA, TableError, read_rows

__all__ = ["TableError", "Tables", "load_tables"]

HOMES = ("EN/ISO", "SAE")


class Tables:
    """The reference tables of one folder."""

    def __init__(self, folder: Path = DATA) -> None:
        self.folder = folder

    @cached_property
    def _sourced(self) -> Sourced:
        return read_media_sources(self.folder)

    @cached_property
    def constructions(self) -> Mapping[str, Construction]:
        return read_hoses(self.folder)

    @cached_property
    def fluids(self) -> Mapping[str, Fluid]:
        return read_fluids(self.folder, self._sourced, self.refer_rules)

    @cached_property
    def refer_rules(self) -> Mapping[str, ReferRule]:
        return read_refer_rules(self.folder, self._sourced)

    @cached_property
    def materials(self) -> Mapping[str, Material]:
        return read_materials(self.folder, self._sourced)

    @cached_property
    def cells(self) -> Mapping[tuple[str, str], Cell]:
        """The whole compatibility matrix by (material, fluid group)."""
        return read_cells(self.folder, self._sourced)

    def cell(self, material: str, group: str) -> Cell | None:
        """One material against one fluid group; None where the matrix has no such pair."""
        return self.cells.get((material, group))

    @cached_property
    def group_caps(self) -> Mapping[str, float | None]:
        return read_group_caps(self.folder)

    def group_cap(self, group: str) -> float | None:
        """Highest temperature of a fluid group in degree Celsius; None: it has no cap of its own, or is no group."""
        return self.group_caps.get(group)

    @cached_property
    def quick_rules(self) -> tuple[QuickRule, ...]:
        return read_quick_rules(self.folder)

    @cached_property
    def disagreements(self) -> tuple[Disagreement, ...]:
        return read_disagreements(self.folder)

    @cached_property
    def metal_couples(self) -> tuple[MetalCouple, ...]:
        return read_couples(self.folder)

    @cached_property
    def service(self) -> Mapping[str, ServiceRule]:
        """Service rules by `topic.rule`, as `storage.assembly_years`."""
        return read_service(self.folder, self._sourced)

    @cached_property
    def iso_vg(self) -> tuple[tuple[float, float, float, float], ...]:
        """(grade, least, middle, greatest) in m2/s at 40 °C."""
        return read_iso_vg(self.folder)

    @cached_property
    def length_bands(self) -> tuple[LengthBand, ...]:
        return tuple(_read_length_bands(self.folder))

    def length_tolerance(self, length: float, dn: float, home: str) -> tuple[float, float, Evidence]:
        """What an assembly of `length` metre and nominal size `dn` may be shorter and longer; both positive, in metre.

        `home` is "EN/ISO" (DIN 20066 and EN 853 to 857, bands to and including 630, 1250, 2500 and 8000 mm) or "SAE"
        (SAE J517, bands to and including 300, 450 and 900 mm; beyond, 1 % rounded to 3 mm).

        >>> load_tables().length_tolerance(0.630, 12, "EN/ISO")[:2]
        (0.003, 0.007)
        """
        if home not in HOMES:
            raise ValueError(f"{home!r} is not a home of length tolerances; {' or '.join(HOMES)}")
        if not length > 0 or not dn > 0:
            raise ValueError(f"length {length} m and DN {dn} must be positive")
        mm = round(length * 1000, 6)
        for band in self.length_bands:
            if band.home == home and mm <= band.length_to and dn <= band.dn_to:
                minus, plus = band.minus, band.plus
                if band.percent:
                    minus, plus = minus * mm / 100, plus * mm / 100
                    if home == "SAE":
                        minus, plus = 3.0 * round(minus / 3), 3.0 * round(plus / 3)
                return round(minus / 1000, 6), round(plus / 1000, 6), band.evidence
        raise ValueError(f"the length tolerances end below DN {dn:g}: ask the maker of the assembly")

    @cached_property
    def connections(self) -> Connections:
        return load_connections()

    @cached_property
    def version(self) -> str:
        """A short hash over all data files: equal hash, equal tables."""
        total = sha256()
        for path in sorted(self.folder.glob("*.csv")):
            total.update(path.name.encode())
            total.update(path.read_bytes().replace(b"\r\n", b"\n"))
        return total.hexdigest()[:12]


class LengthBand:
    """One band of the length tolerances: up to `length_to` mm and nominal size `dn_to`; both signs positive."""

    __slots__ = ("dn_to", "evidence", "home", "length_to", "minus", "percent", "plus")

    def __init__(
        self, home: str, length_to: float, dn_to: float, percent: bool, minus: float, plus: float, evidence: Evidence
    ) -> None:
        self.home, self.length_to, self.dn_to, self.percent = home, length_to, dn_to, percent
        self.minus, self.plus, self.evidence = minus, plus, evidence


def _read_length_bands(folder: Path) -> list[LengthBand]:
    evidence, bands = read_evidence(folder), []
    for row in read_rows(folder, "length_tolerances.csv", "home length_to_mm dn_to unit minus plus evidence"):
        upto, dn = row.number("length_to_mm"), row.number("dn_to")
        bands.append(
            LengthBand(
                row.choice("home", HOMES),
                float("inf") if upto is None else upto,
                float("inf") if dn is None else dn,
                row.choice("unit", ("mm", "%")) == "%",
                -row.some("minus", signed=True),
                row.some("plus"),
                evidence_of(row, "evidence", evidence),
            )
        )
    return bands


@cache
def load_tables() -> Tables:
    """The shipped tables, read once."""
    return Tables()
