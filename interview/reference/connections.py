"""Which connections are there, what does each size hold, and what may meet what?

The tables are read once. A rating of None means that no table has one: the point stays open and never counts as a pass.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from interview.reference import connections_load as load
from interview.reference.connections_rows import (
    AdapterEdge,
    Guide,
    InterchangeWarning,
    LooseThread,
    Mate,
    PitchNeighbours,
    Rated,
    Rule,
    Tightening,
)
from interview.reference.model import ConnectionFamily, ConnectionSize, EndRating

__all__ = [
    "AdapterEdge",
    "Connections",
    "Guide",
    "InterchangeWarning",
    "LooseThread",
    "Mate",
    "PitchNeighbours",
    "Rated",
    "Rule",
    "Tightening",
    "load_connections",
]

STUD_FAMILIES = frozenset({"orb_sae", "iso6149"})  # an angled stud end is turned to its place: an adjustable stud
FLANGE_CONFIRM_ABOVE = 20.7e6  # Pa; older code 61 parts were sold for 3000 psi throughout


@dataclass(frozen=True, eq=False)
class Connections:
    """All connection tables."""

    families: Mapping[str, ConnectionFamily]
    warnings: tuple[InterchangeWarning, ...]
    mates: tuple[Mate, ...]
    adapter_edges: tuple[AdapterEdge, ...]
    adapter_rules: tuple[Rule, ...]
    port_rules: tuple[Rule, ...]
    tightening: tuple[Tightening, ...]
    loose_threads: tuple[LooseThread, ...]
    identification: Guide
    same_thread_groups: Mapping[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)

    def size(self, family: str, size: str) -> ConnectionSize | None:
        """The row of one size; sizes as in `normal_size`."""
        known = self.families.get(family)
        return None if known is None else known.size(size)

    def default_seal(self, family: str) -> str | None:
        """The seal material usual for the family, None where metal or the thread itself seals (or it is unknown)."""
        known = self.families.get(family)
        usual = None if known is None else known.seal.get("usual_seal")
        return usual if isinstance(usual, str) else None

    def rating(
        self,
        family: str,
        size: str,
        *,
        gender: str | None,
        swivel: bool | None = None,
        form: str | None = None,
        series: str | None = None,
    ) -> Rated | None:
        """The rating of one end: of all columns that may apply, given what is known, the lowest governs.

        What is not known widens the set, so it can only lower the figure. `form` is straight, elbow45, elbow90 or
        adjustable; `series` is light or heavy. None: no table has a rating.

        >>> found = load_connections().rating("flare37", "8", gender="female")
        >>> found.column, found.psi
        ('swivel', 4000.0)
        """
        row = self.size(family, size)
        if row is None or not row.ratings:
            return None
        compared = tuple(rating for rating in row.ratings if _applies(rating, family, gender, swivel, form, series))
        if not compared:
            return None
        lowest = min(compared, key=lambda rating: rating.pressure)
        return Rated(
            lowest.pressure,
            lowest.column,
            lowest.psi,
            lowest.psi_stated,
            lowest.evidence,
            compared,
            _note(family, lowest, compared, form, series),
        )


def _applies(
    rating: EndRating, family: str, gender: str | None, swivel: bool | None, form: str | None, series: str | None
) -> bool:
    """May this column govern an end of which only so much is known?"""
    column = rating.column
    if column in ("iso", "sae", "cone"):
        return True
    if family == "npsm_swivel":
        return gender != "male"  # the column is that of the female swivel; the male is rated in its own family
    if family == "flare37":
        nut = swivel if swivel is not None else {"female": True, "male": False}.get(gender or "")
        return nut is None or nut == (column == "swivel")
    if family == "orfs":
        return (column == "adjustable") == (form == "adjustable")
    if series is not None and column.split()[0] in ("light", "heavy") and family in ("iso6149", "bspp_port"):
        if column.split()[0] != series:
            return False
    if family in STUD_FAMILIES:
        adjustable = None if form is None else form != "straight"
        return adjustable is None or adjustable == (column == "adjustable" or column.endswith(" adjustable"))
    return True


def _note(family: str, lowest: EndRating, compared: tuple[EndRating, ...], form: str | None, series: str | None) -> str:
    """Why this figure and not another, in a sentence; empty where there was no choice."""
    if family == "flange_c61":
        text = "the lower of ISO 6162-1 and SAE J518 governs"
        if lowest.pressure > FLANGE_CONFIRM_ABOVE:
            text += "; above 20.7 MPa the marks of head, clamps and screws must confirm it"
        return text
    if family == "flange_c62" and len(compared) > 1:
        return "the lower of ISO 6162-2 and SAE J518 governs"
    if len({rating.pressure for rating in compared}) < 2:
        return ""
    unknown = []
    if family in ("iso6149", "bspp_port") and series is None:
        unknown.append("light or heavy series")
    if family in STUD_FAMILIES and form is None:
        unknown.append("fixed or adjustable stud")
    if family == "flare37":
        unknown.append("swivel nut or not")
    return f"not known: {' and '.join(unknown)}; the lowest figure governs" if unknown else ""


def _groups(families: Mapping[str, ConnectionFamily]) -> dict[str, tuple[tuple[str, str], ...]]:
    """Threads that more than one connection has, with their (family, size)."""
    found: dict[str, list[tuple[str, str]]] = {}
    for family in families.values():
        for row in family.sizes:
            if row.thread is not None:
                found.setdefault(row.thread.split(" (")[0], []).append((family.id, row.size))
    return {thread: tuple(members) for thread, members in found.items() if len(members) > 1}


def _check(tables: Connections) -> None:
    """Every id that one table takes from another must exist there."""
    ids = {warning.id for warning in tables.warnings}
    for family in tables.families.values():
        missing = set(family.warning_ids) - ids
        if missing:
            raise load.TableFault(f"connections_families.csv: {family.id} names unknown warnings {sorted(missing)}")
    for one, other in [(m.male, m.female) for m in tables.mates] + [(e.a, e.b) for e in tables.adapter_edges]:
        for name in (one, other):
            if name not in tables.families:
                raise load.TableFault(f"connections tables: {name!r} is no family")
    for warning in tables.warnings:
        for a, b in warning.sizes:
            for name, size in ((warning.a, a), (warning.b, b)):
                if size and tables.size(name, size) is None:
                    raise load.TableFault(f"connections_warnings.csv: {warning.id} names {name} {size}, not a size")


@cache
def load_connections() -> Connections:
    """All tables, read once and checked against each other."""
    families = load.read_families()
    tables = Connections(
        families=families,
        warnings=load.read_warnings(),
        mates=load.read_mates(),
        adapter_edges=load.read_adapters(),
        adapter_rules=load.read_rules("adapter"),
        port_rules=load.read_rules("port"),
        tightening=load.read_tightening(),
        loose_threads=load.read_loose_threads(),
        identification=load.read_guide(),
        same_thread_groups=_groups(families),
    )
    _check(tables)
    return tables
