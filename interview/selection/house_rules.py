"""What did the shop decide where published practice disagrees? The house rules file, validated."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from interview.resources import shipped
from interview.yaml_file import FileError, read_yaml, validated

Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
Celsius = Annotated[float, Field(ge=-90, le=400, allow_inf_nan=False)]


class Rule(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class VelocityBand(Rule):
    guide: Positive
    upper: Positive
    source: str


class SurgeRule(Rule):
    factor_smooth: Annotated[float, Field(ge=1, le=5)]
    factor_otherwise: Annotated[float, Field(ge=1, le=5)]
    source: str


class CycleRule(Rule):
    life_spread_measured_peak: Annotated[float, Field(ge=1)]
    life_spread_otherwise: Annotated[float, Field(ge=1)]
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
    length_tolerance: str
    dates: str


class HouseRules(Rule):
    """Every default of the shop. Units as the field comments in the file say."""

    velocity: dict[str, VelocityBand]
    velocity_within_guide_percent: Annotated[float, Field(ge=0, le=50)]
    surge: SurgeRule
    pressure_rounding_percent: Annotated[float, Field(ge=0, le=1)]
    thin_margin_percent: Annotated[float, Field(ge=0, le=50)]
    cycles: CycleRule
    fluid_temperature_not_known: FluidTemperatureRule
    ambient_not_known: dict[str, AmbientRule]
    seal_not_known: SealRule
    metal_not_known: str
    suction_inlet_not_known: InletRule
    return_flow_not_known_factor: Annotated[float, Field(ge=1)]
    ages: AgeRule
    straight_before_bend: StraightRule
    guard: GuardRule
    cleanliness_default: str
    proof_ratio: Annotated[float, Field(ge=1, le=4)]
    home_standards: dict[str, HomeRule]
    usual_kind: dict[str, tuple[str, ...]]


class RulesError(ValueError):
    """The house rules file will not do: file, line, field, what is wrong."""


@cache
def load_house_rules(path: Path | None = None) -> HouseRules:
    """The shop's rules. Raises RulesError with file, line and field."""
    try:
        return validated(read_yaml(path or shipped("flows") / "house-rules.yaml"), HouseRules)
    except FileError as error:
        raise RulesError(str(error)) from error
