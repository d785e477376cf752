"""What could be built? Every construction at every bore, with the kind of hose it is and the twins that bind it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from interview.reference.model import PSI, Construction, Evidence, HoseSize, Tag, Window
from interview.reference.tables import Tables
from interview.selection.shelf import Item


@dataclass(frozen=True, slots=True)
class Candidate:
    """One construction at one bore. `area` in m2 at the true nominal bore; `windows` already narrowed by the twins."""

    index: int
    construction: Construction
    size: HoseSize
    kind: str
    area: float
    windows: Mapping[str, Window | None]
    excluded: Mapping[str, str]  # medium symbol -> id of the entry that excludes it
    low_confidence: bool
    psi: float | None  # what its row prints in psi, where no counterpart of the same rating prints another or none
    row_rating: float  # pascal: what the standard's row says, whatever the maker of an item on the shelf does
    items: tuple[Item, ...] = ()  # on the shop's shelf
    own: str = ""  # the item that has figures of its own; "" for the standard's row

    def item_for(self, length: float | None) -> Item | None:
        """The first item that may be built from and is long enough, where a length in m is known."""
        return next((item for item in self.items if not item.too_old and item.covers(length)), None)

    @property
    def id(self) -> str:
        return self.construction.id

    @property
    def bore(self) -> float:
        return self.size.bore


COMPACT_TYPES = ("100R16", "100R17", "100R19", "R16S", "R17", "R19", "2SC")


def kind_of(construction: Construction) -> str:
    """The trade's kind of hose, as the house rules order them (common practice, no source)."""
    reinforcement = construction.reinforcement
    direct = {
        "textile_braid": "textile",
        "wire_helix": "wire_helix",
        "fibre_braid": "thermoplastic",
        "ptfe_wire_braid": "ptfe",
    }
    if reinforcement in direct:
        return direct[reinforcement]
    if reinforcement == "wire_spiral":
        return "four_spiral" if construction.layers.strip() == "4" else "six_spiral"
    if construction.type.split()[0] in COMPACT_TYPES:
        return "compact_two_wire"
    return "two_wire" if construction.layers.strip() == "2" else "one_wire"


def twins_of(construction: Construction, tables: Tables) -> tuple[Construction, ...]:
    """The counterparts that have entries of their own, looked up both ways."""
    ids = {t.id for t in construction.twins if t.id} | {
        other.id for other in tables.constructions.values() if any(t.id == construction.id for t in other.twins)
    }
    return tuple(tables.constructions[i] for i in sorted(ids) if i in tables.constructions and i != construction.id)


def _narrowed(own: Window | None, others: list[Window | None]) -> Window | None:
    """The window all of them allow; where the own standard's was not seen, its twins' cap binds it all the same."""
    windows = [w for w in (own, *others) if w is not None]
    return Window(max(w.low for w in windows), min(w.high for w in windows)) if windows else None


def _psi_of_line(construction: Construction, size: HoseSize, tables: Tables) -> float | None:
    """A hose and its counterparts are one line on every screen and record, so they have one figure."""
    group = (tables.constructions[i] for i in twin_group(construction.id, tables))
    line = [s for c in group for s in c.sizes if s.bore == size.bore and s.wp_select == size.wp_select]
    return size.psi_printed if all(s.psi_printed == size.psi_printed for s in line) else None


@cache
def all_candidates(tables: Tables) -> tuple[Candidate, ...]:
    """Every construction at every bore of the tables, in the tables' order."""
    made: list[Candidate] = []
    for construction in tables.constructions.values():
        twins = twins_of(construction, tables)
        windows = {
            family: _narrowed(construction.temperature.get(family), [t.temperature.get(family) for t in twins])
            for family in ("oil", "water_based", "water")
        }
        excluded: dict[str, str] = {}
        linked = (tables.constructions[i] for i in twin_group(construction.id, tables) if i != construction.id)
        for entry in (construction, *linked):
            for symbol in entry.excluded:
                excluded.setdefault(symbol, entry.id)
        kind = kind_of(construction)
        for size in construction.sizes:
            evidence = size.evidence.get("working_pressure")
            made.append(
                Candidate(
                    len(made),
                    construction,
                    size,
                    kind,
                    math.pi / 4 * size.nominal_bore**2,
                    windows,
                    excluded,
                    evidence is not None and evidence.confidence == "low",
                    _psi_of_line(construction, size, tables),
                    size.wp_select,
                )
            )
    return tuple(made)


def with_shelf(candidates: Sequence[Candidate], items: Sequence[Item]) -> tuple[Candidate, ...]:
    """The candidates with what lies on the shelf; an item with figures of its own is one of its own, at the end.

    Raises KeyError for an item that is none of the candidates.
    """
    made = list(candidates)
    place = {(c.id, c.bore): c.index for c in candidates}
    for item in items:
        row = made[place[item.construction, item.bore]]
        rating = item.bears(row.row_rating)
        if item.too_old or (rating == row.row_rating and not item.non_conductive):
            made[row.index] = replace(row, items=(*row.items, item))
            continue
        own = replace(row, index=len(made), items=(item,), own=item.name)
        made.append(own if rating == row.row_rating else replace(own, size=_rated(row, item, rating), psi=item.psi))
    return tuple(made)


def _rated(row: Candidate, item: Item, rating: float) -> HoseSize:
    """A size as the item's maker rates it."""
    size = row.size
    paper = f"the hose maker's rating of shelf item {item.name}"
    if item.proven:
        paper += f": {item.document}, {item.dated}"
    return replace(
        size,
        wp=rating,
        wp_select=rating,
        wp_psi=rating / PSI if item.psi is None else item.psi,
        wp_psi_stated=item.psi is not None,
        evidence={**size.evidence, "working_pressure": Evidence(Tag.MAKER, paper)},
    )


@cache
def twin_group(construction_id: str, tables: Tables) -> tuple[str, ...]:
    """Ids that are one line on screens: this entry and all that are linked to it through counterparts, sorted."""
    group = {construction_id}
    reach = [construction_id]
    while reach:
        for twin in twins_of(tables.constructions[reach.pop()], tables):
            if twin.id not in group:
                group.add(twin.id)
                reach.append(twin.id)
    return tuple(sorted(group))


@cache
def widest_bend(construction_id: str, bore: float, tables: Tables) -> float | None:
    """The largest bend radius in m among a hose and its counterparts at one bore: either may be sold."""
    group = (tables.constructions[i] for i in twin_group(construction_id, tables))
    radii = [s.bend_radius for c in group for s in c.sizes if s.bore == bore and s.bend_radius is not None]
    return max(radii, default=None)
