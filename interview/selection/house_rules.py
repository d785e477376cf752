"""What did the shop decide where published practice disagrees? The house rules file, validated."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from interview.catalogue import CATALOGUE
from interview.reference.tables import load_tables
from interview.resources import shipped
from interview.yaml_file import FileError, YamlFile, faults_of, read_yaml, validated

Number = Annotated[float, Field(strict=True, allow_inf_nan=False)]  # strict: `true` is no number, nor is "5"
Positive = Annotated[Number, Field(gt=0)]
Celsius = Annotated[Number, Field(ge=-90, le=400)]

# What a rule may be set to. Unless said otherwise our own bounds, no source: beyond them a figure is more likely a slip
# of the pen or of the unit than a decision of a shop.
FASTEST = {"pressure": 10.0, "return": 6.0, "suction": 2.0, "pilot": 6.0, "case_drain": 4.0}  # m/s
COOLED = (60.0, 100.0)  # degC: a cooled system that is cooler than any at work, or hotter than any that is cooled
AMBIENT = (-60.0, 60.0)  # degC
NEVER_ASSUMED = ("engine_bay", "near_heat")  # the air there follows the engine, not the weather
MOST_PROOF = 2.0  # ISO 6605:2017 5.2.1 (standard); the standards' burst is four times the rating
KINDS = frozenset(
    "wire_helix textile one_wire compact_two_wire two_wire four_spiral six_spiral thermoplastic ptfe".split()
)


class Rule(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class VelocityBand(Rule):
    guide: Positive
    upper: Positive
    source: str


class SurgeRule(Rule):
    factor_smooth: Annotated[Number, Field(ge=1, le=5)]
    factor_otherwise: Annotated[Number, Field(ge=1, le=5)]
    source: str


class CycleRule(Rule):
    life_spread_measured_peak: Annotated[Number, Field(ge=1)]
    life_spread_otherwise: Annotated[Number, Field(ge=1)]
    default_hours_per_year: Positive
    default_wanted_life_years: Positive
    source: str


class FluidTemperatureRule(Rule):
    cooled_mineral_system: Celsius
    source: str


class AmbientRule(Rule):
    low: Celsius
    high: Celsius
    source: str


class SealRule(Rule):
    nbr_up_to: Celsius
    above: str
    default: str
    source: str


class InletRule(Rule):
    running: Positive
    cold_start: Positive
    source: str


class AgeRule(Rule):
    hose_at_build: Positive
    assembly_in_store: Positive
    service: Positive
    service_severe: Positive
    source: str


class StraightRule(Rule):
    outside_diameters: Positive
    bores: Positive
    source: str


class GuardRule(Rule):
    pressure_bar: Positive
    temperature_c: Celsius
    distance_m: Positive
    source: str


class HomeRule(Rule):
    standards: tuple[str, ...]
    length_tolerance: Literal["EN/ISO", "SAE"]
    dates: Literal["month_first", "day_first"]


class HouseRules(Rule):
    """Every default of the shop. Units as the field comments in the file say."""

    velocity: dict[str, VelocityBand]
    velocity_within_guide_percent: Annotated[Number, Field(ge=0, le=50)]
    surge: SurgeRule
    pressure_rounding_percent: Annotated[Number, Field(ge=0, le=1)]
    thin_margin_percent: Annotated[Number, Field(ge=0, le=50)]
    cycles: CycleRule
    fluid_temperature_not_known: FluidTemperatureRule
    ambient_not_known: dict[str, AmbientRule]
    seal_not_known: SealRule
    metal_not_known: str
    suction_inlet_not_known: InletRule
    return_flow_not_known_factor: Annotated[Number, Field(ge=1)]
    ages: AgeRule
    straight_before_bend: StraightRule
    guard: GuardRule
    cleanliness_default: str
    proof_ratio: Annotated[Number, Field(ge=1)]
    home_standards: dict[str, HomeRule]
    usual_kind: dict[str, tuple[str, ...]]


class RulesError(ValueError):
    """The house rules file will not do: file, line, field, what is wrong."""


@cache
def load_house_rules(path: Path | None = None) -> HouseRules:
    """The shop's rules. Raises RulesError with file, line and field, also for a rule that could hurt somebody."""
    try:
        file = read_yaml(path or shipped("flows") / "house-rules.yaml")
        rules = validated(file, HouseRules)
    except FileError as error:
        raise RulesError(str(error)) from error
    for fault in _dangers(rules, file):
        raise RulesError(str(fault)) from fault
    return rules


def rules_faults(path: Path) -> list[str]:
    """For the lint: one line a fault, all of them."""
    try:
        file = read_yaml(path)
    except FileError as error:
        return [str(error)]
    if faults := faults_of(file, HouseRules):
        return [str(fault) for fault in faults]
    return [str(fault) for fault in _dangers(HouseRules.model_validate(file.data), file)]


def _dangers(rules: HouseRules, file: YamlFile) -> Iterator[FileError]:
    """Rules that are well formed and may not stand: each with its line, what is wrong, what would do."""

    def fault(text: str, *path: object) -> FileError:
        return file.error(path, f"{'.'.join(str(p) for p in path)}: {text}")

    yield from _velocities(rules, fault)
    if rules.surge.factor_otherwise < rules.surge.factor_smooth:
        yield fault(
            f"{rules.surge.factor_otherwise:g} is below factor_smooth ({rules.surge.factor_smooth:g}), and shock asks "
            f"for more than a smooth line; at least {rules.surge.factor_smooth:g} would do",
            "surge",
            "factor_otherwise",
        )
    if rules.cycles.life_spread_otherwise < rules.cycles.life_spread_measured_peak:
        yield fault(
            f"{rules.cycles.life_spread_otherwise:g} is below life_spread_measured_peak; a peak nobody measured is "
            f"known no better, at least {rules.cycles.life_spread_measured_peak:g} would do",
            "cycles",
            "life_spread_otherwise",
        )
    low, high = COOLED
    if not low <= (hot := rules.fluid_temperature_not_known.cooled_mineral_system) <= high:
        yield fault(
            f"{hot:g} °C is no temperature of a cooled mineral-oil system; {low:g} to {high:g} °C would do (our own "
            "bounds; is it in °F?)",
            "fluid_temperature_not_known",
            "cooled_mineral_system",
        )
    yield from _ambients(rules, fault)
    yield from _materials(rules, fault)
    if rules.proof_ratio > MOST_PROOF:
        yield fault(
            f"{rules.proof_ratio:g} times the rating is above the proof pressure (four times is the burst pressure); "
            f"at most {MOST_PROOF:g} would do (ISO 6605:2017 5.2.1)",
            "proof_ratio",
        )
    yield from _preferences(rules, fault)


Faulty = Callable[..., FileError]


def _velocities(rules: HouseRules, fault: Faulty) -> Iterator[FileError]:
    for line, band in rules.velocity.items():
        most = FASTEST.get(line)
        if most is None:
            yield fault(f"no line does that; one of {', '.join(FASTEST)} would do", "velocity", line)
            continue
        if band.upper > most:
            yield fault(
                f"{band.upper:g} m/s is above {most:g} m/s, an upper bound of ours (no source); {most:g} m/s or less "
                "would do (is it in ft/s?)",
                "velocity",
                line,
                "upper",
            )
        if band.guide > band.upper:
            yield fault(
                f"the guide, {band.guide:g} m/s, is above the upper bound, {band.upper:g} m/s; a guide of "
                f"{band.upper:g} m/s or less would do",
                "velocity",
                line,
                "guide",
            )
    for line in FASTEST:
        if line not in rules.velocity:
            yield fault(f"no guide and upper bound for {line}; give both in m/s", "velocity")


def _ambients(rules: HouseRules, fault: Faulty) -> Iterator[FileError]:
    places = [p for p in CATALOGUE["surroundings"].choices if p not in NEVER_ASSUMED]
    for place, air in rules.ambient_not_known.items():
        here = ("ambient_not_known", place)
        if place in NEVER_ASSUMED:
            yield fault("the air there may not be assumed, it is measured; take the entry out", *here)
        elif place not in places:
            yield fault(f"no surroundings of that name; one of {', '.join(places)} would do", *here)
        if air.low >= air.high:
            yield fault(
                f"the coldest, {air.low:g} °C, is not below the hottest, {air.high:g} °C; low is the coldest air at "
                "the hose, high the hottest",
                *here,
                "low",
            )
        for name, value in (("low", air.low), ("high", air.high)):
            if not AMBIENT[0] <= value <= AMBIENT[1]:
                yield fault(
                    f"{value:g} °C is no air temperature of a working place; {AMBIENT[0]:g} to {AMBIENT[1]:g} °C would "
                    "do (our own bounds; is it in °F?)",
                    *here,
                    name,
                )


def _materials(rules: HouseRules, fault: Faulty) -> Iterator[FileError]:
    tables = load_tables()
    materials = tables.materials
    rule = rules.seal_not_known
    seals = {
        m.id: m.temperature.high
        for m in materials.values()
        if m.kind == "polymer"
        and m.temperature is not None
        and any("seal" in part.split() for part in m.parts)
        and (cell := tables.cell(m.id, "mineral")) is not None
        and cell.verdict == "good"
    }
    for key, name in (("above", rule.above), ("default", rule.default)):
        if name not in seals:
            yield fault(
                f"{name!r} is no seal material of the tables that stands mineral oil; "
                f"one of {', '.join(seals)} would do",
                "seal_not_known",
                key,
            )
    most = min(seals["NBR"], seals.get(rule.default, seals["NBR"]))
    evidence = materials["NBR"].evidence
    if rule.nbr_up_to > most:
        tag = evidence.tag if evidence is not None else "source not known"
        yield fault(
            f"{rule.nbr_up_to:g} °C is above {most:g} °C, the limit of that seal in the materials table "
            f"({tag}); {most:g} or less would do (is it in °F?)",
            "seal_not_known",
            "nbr_up_to",
        )
    if seals.get(rule.above, rule.nbr_up_to + 1) <= rule.nbr_up_to:
        yield fault(
            f"{rule.above} ends at {seals[rule.above]:g} °C in the materials table; one that goes above "
            f"{rule.nbr_up_to:g} °C would do",
            "seal_not_known",
            "above",
        )
    if rules.metal_not_known not in materials or materials[rules.metal_not_known].kind != "metal":
        metals = ", ".join(m.id for m in materials.values() if m.kind == "metal")
        yield fault(f"{rules.metal_not_known!r} is no metal of the tables; one of {metals} would do", "metal_not_known")


def _preferences(rules: HouseRules, fault: Faulty) -> Iterator[FileError]:
    for line, kinds in rules.usual_kind.items():
        if line not in FASTEST:
            yield fault(f"no line does that; one of {', '.join(FASTEST)} would do", "usual_kind", line)
        for i, kind in enumerate(kinds):
            if kind not in KINDS:
                yield fault(
                    f"{kind!r} is no kind of hose; one of {', '.join(sorted(KINDS))} would do", "usual_kind", line, i
                )
    if "pressure" not in rules.usual_kind:
        yield fault("no order for pressure, which other lines fall back on; give one", "usual_kind")
    for units in ("us", "metric"):
        if units not in rules.home_standards:
            yield fault(f"no entry for {units}; give standards, length_tolerance and dates", "home_standards")
