"""What do the facts require? One `Needs` from what is known: pressures, temperatures, flow, medium, bend, cycles, ends.

Every number is SI (temperature degC). A pair (low, high) with None is an open side; the pair (None, None) is not known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import inf
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE
from interview.facts import Known, Origin, Span
from interview.reference.connections import Connections
from interview.reference.model import PSI, EndRating, Fluid
from interview.reference.tables import Tables
from interview.selection.contradictions import contradictions
from interview.selection.house_rules import HouseRules, VelocityBand
from interview.selection.settings import RESTS_ON, pressure_of_settings

if TYPE_CHECKING:
    from interview.reference.connections import Rated

PRESSURE_RESTS_ON = f"working_pressure surge_pressure {RESTS_ON}"
PARTS = ("end_a", "end_b", "adapter_a", "adapter_b")
ENDS_REST_ON = frozenset(name for name in CATALOGUE if name.startswith(PARTS))
Pair = tuple[float | None, float | None]
UNKNOWN: Pair = (None, None)


@dataclass(frozen=True, slots=True)
class EndNeed:
    """One end or adapter as far as it is known. `rating` in pascal; None: not known, never a pass."""

    part: str  # end_a | end_b | adapter_a | adapter_b
    family: str | None
    size: str | None
    gender: str | None
    form: str | None
    rating: float | None
    rating_source: str
    rated: Rated | None
    wanted: bool  # False: an adapter nobody spoke of
    rating_most: float | None = None  # where its maker's figure is known as a range only: the high side

    @property
    def psi_printed(self) -> float | None:
        """What its row prints in psi; None where the row prints none, or its maker's figure stands in place of it."""
        rated = self.rated
        return rated.psi if rated is not None and rated.psi_stated and rated.pressure == self.rating else None

    @property
    def columns(self) -> tuple[EndRating, ...]:
        return self.rated.columns if self.rated is not None else ()


@dataclass(frozen=True)
class Needs:
    known: Known
    rules: HouseRules
    line: str | None
    pulls: bool
    flow: Pair
    band: VelocityBand | None
    bore: Pair  # sixteenths
    bore_proven: bool | None
    working: Pair
    surge: Pair
    pressure: Pair  # the highest of working pressure and spike
    pressure_psi: float | None  # the governing need as said in psi, where it was
    pressure_from: str  # working_pressure | surge_pressure | relief_setting | rod_side | ""
    vacuum: Pair
    fluid_max: Pair
    fluid_min: Pair
    ambient_max: Pair
    ambient_min: Pair
    fluid: Fluid | None
    medium: str | None
    bend: Pair
    bend_declined: bool  # "no tight bend" was said
    cycles: Pair  # over the wanted life
    peak_measured: bool
    ends: tuple[EndNeed, ...]
    us: bool = False  # lengths were said in inches or feet: the home standards' length tolerance follows

    @cached_property
    def pressure_shown(self) -> float | Span | None:
        return one_figure(self.pressure)

    @cached_property
    def pressure_hangs_on(self) -> tuple[str, ...]:
        """Which of the two pressures is not known, or as a range only."""
        both = (("working_pressure", self.working), ("surge_pressure", self.surge))
        return tuple(n for n, p in both if p[1] is None or p[0] != p[1])

    @cached_property
    def pressure_data(self) -> Mapping[str, object]:
        assumed = self.known.origin(self.pressure_from) is Origin.ASSUMED
        return {"rests": " (assumed)" if assumed else ""}

    @property
    def column(self) -> str:
        """Which temperature column of a hose the medium belongs to."""
        family = self.fluid.family if self.fluid is not None else "oil"
        return family if family in ("oil", "water_based", "water") else "oil"


@lru_cache(maxsize=1024)
def one_figure(need: Pair) -> float | Span:
    """A pair as one figure where both sides agree."""
    low, high = need
    return low if low is not None and low == high else Span(low, high)


def pair(known: Known, name: str) -> Pair:
    return known.low(name), known.high(name)


def _highest(one: Pair, other: Pair) -> Pair:
    """The interval of max(x, y); a side nobody knows stays open above."""
    lows = [v for v in (one[0], other[0]) if v is not None]
    low = max(lows) if lows else None
    high = max(one[1], other[1]) if one[1] is not None and other[1] is not None else None
    return low, high


def required_pressure(working: Pair, surge: Pair) -> Pair:
    """The highest of working pressure and surge, whichever is known; open above while the spike is not known."""
    return _highest(working, surge)


def end_need(known: Known, connections: Connections, part: str) -> EndNeed:
    family, size = known.text(f"{part}_family"), known.text(f"{part}_size")
    side = part.removeprefix("adapter_").removeprefix("end_")
    adapter = part.startswith("adapter_")
    gender = None if adapter else known.text(f"{part}_gender")
    form = None if adapter else known.text(f"{part}_form")
    stated, most = known.low(f"{part}_rating"), known.high(f"{part}_rating")
    if stated is not None and most is None:
        most = inf  # "at least 50 bar": it may bear any more
    rated = None
    if family and family not in ("other", "none") and size and family in connections.families:
        rated = connections.rating(
            family, size, gender=gender, swivel=None if adapter else known.flag(f"end_{side}_swivel"), form=form
        )
    if stated is not None:
        rating: float | None = stated
        source = "stated by its maker"
        if known.origin(f"{part}_rating") is Origin.COPIED:
            rating, source = (rated.pressure if rated else None), rated.evidence.said if rated else ""
    elif rated is not None:
        rating, source = rated.pressure, f"{rated.evidence.said}, {rated.column} column"
    else:
        rating, source = None, ""
    said = known.get(f"{part}_family")  # ticked, and nobody knows which: it is in the line all the same
    wanted = (
        not adapter
        or (family is not None and family != "none")
        or known.has(f"{part}_rating")
        or (said is not None and said.applies)
    )
    return EndNeed(part, family, size, gender, form, rating, source, rated, wanted, most if rating == stated else None)


def needs_of(
    known: Known,
    rules: HouseRules,
    tables: Tables,
    connections: Connections,
    ends: tuple[EndNeed, ...] | None = None,
) -> Needs:
    """The needs of a derived `Known` (see `derive`). `ends` where no fact of `ENDS_REST_ON` has changed since."""
    line = known.text("line_function")
    working, surge = pair(known, "working_pressure"), pair(known, "surge_pressure")
    wrong = {c.reason for c in contradictions(known)}
    if "spike_below_steady" in wrong:
        surge = working[0], None  # the spike is not known; what was said of it cannot be
    fluid_max, fluid_min = _in_order(known, "fluid", "fluid_reversed" in wrong)
    ambient_max, ambient_min = _in_order(known, "ambient", "air_reversed" in wrong)
    pressure = (
        UNKNOWN
        if line == "suction" and working == UNKNOWN and surge == UNKNOWN
        else required_pressure(working, surge if line != "suction" else (surge if surge != UNKNOWN else working))
    )
    governing = ""
    if pressure[0] is not None or pressure[1] is not None:
        governing = (
            "surge_pressure" if (surge[1] or surge[0] or 0) > (working[1] or working[0] or 0) else "working_pressure"
        )
    setting, by = pressure_of_settings(known)
    if by and (setting[1] or setting[0] or 0) > (pressure[1] or pressure[0] or 0):
        pressure, governing = _highest(pressure, setting), by
    fact = known.get(governing) if governing else None
    psi = (
        fact.low / PSI
        if fact is not None and fact.unit == "psi" and fact.low is not None and fact.low == fact.high
        else None
    )
    medium = known.text("medium")
    vacuum = pair(known, "vacuum")
    return Needs(
        known=known,
        rules=rules,
        line=line,
        pulls=line == "suction"
        or (vacuum[1] or 0) > 0
        or (line == "return" and "collapsed" in (known.many("failure_sign") or ())),
        flow=pair(known, "flow_rate"),
        band=rules.velocity.get(line) if line else None,
        bore=pair(known, "bore"),
        bore_proven=known.flag("bore_proven"),
        working=working,
        surge=surge,
        pressure=pressure,
        pressure_psi=psi,
        pressure_from=governing,
        vacuum=vacuum,
        fluid_max=fluid_max,
        fluid_min=fluid_min,
        ambient_max=ambient_max,
        ambient_min=ambient_min,
        fluid=tables.fluids.get(medium) if medium else None,
        medium=medium,
        bend=pair(known, "bend_radius_available"),
        bend_declined=known.answered("bend_radius_available")
        and not known.has("bend_radius_available")
        and known.origin("bend_radius_available") is not Origin.UNKNOWN,
        cycles=_cycles(known, rules),
        peak_measured=known.origin("surge_pressure") in (Origin.MEASURED, Origin.READ),
        ends=ends or tuple(end_need(known, connections, part) for part in PARTS),
        us=any(known[n].unit in ("in", "ft") for n in ("overall_length", "port_distance") if n in known),
    )


def _in_order(known: Known, what: str, reversed_: bool) -> tuple[Pair, Pair]:
    """Hottest and coldest; of two that cannot both be so, the range that holds either."""
    hot, cold = pair(known, f"{what}_temperature_max"), pair(known, f"{what}_temperature_min")
    if reversed_:
        hot = cold = (hot[0], cold[1])
    return hot, cold


def _cycles(known: Known, rules: HouseRules) -> Pair:
    """Pressure cycles over the wanted life; hours and years not said take the house rules' figures."""
    ends: list[float | None] = []
    for side in (known.low, known.high):
        rate = side("cycle_rate")
        hours = side("hours_per_year") if known.has("hours_per_year") else rules.cycles.default_hours_per_year
        years = side("wanted_life") if known.has("wanted_life") else rules.cycles.default_wanted_life_years
        ends.append(None if rate is None or hours is None or years is None else rate * hours * years)
    return ends[0], ends[1]
