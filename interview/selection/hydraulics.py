"""What do the oil and the bore do to pressure? Inlet pressure of a suction line and loss over a hose, as brackets.

Viscosity from ISO VG (band +-10 %, ISO 3448) and viscosity index by ASTM D2270 and D341; loss by Darcy and Weisbach;
air by the standard atmosphere. Inputs nobody knows enter with the widest range the tables give; what cannot be computed
is None, never a guess.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from interview.engineering.errors import EngineeringError
from interview.engineering.losses import hose_loss_range
from interview.engineering.ranges import Interval
from interview.engineering.suction import atmosphere, line_inlet_range
from interview.engineering.viscosity import at_range
from interview.facts import Fact, Known, Origin
from interview.reference.model import Fluid
from interview.selection.needs import Needs, Pair

SIXTEENTH = 25.4e-3 / 16  # m
VI_NOT_KNOWN = (90.0, 160.0)  # plain mineral oil to multigrade (common practice, no source)
DENSITY_NOT_KNOWN = (820.0, 900.0)  # mineral oil, kg/m3 (memory)


@dataclass(frozen=True, slots=True)
class Oil:
    """What is known of the oil: grade band (mm2/s at 40 degC), viscosity index and density ranges."""

    grade: tuple[float, float]
    index: tuple[float, float]
    density: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Loss:
    """Pressure lost over the hose (Pa) and the heat it makes (W), least and most."""

    temperature: float
    low: float
    high: float
    heat_high: float


def oil_of(needs: Needs) -> Oil | None:
    """The oil, where its grade is known and the line of ASTM D341 holds for it (not for water-based fluids)."""
    return _oil(needs.known, needs.fluid)


def _oil(known: Known, fluid: Fluid | None) -> Oil | None:
    grade = known.high("viscosity_grade")
    if grade is None or (fluid is not None and fluid.family != "oil"):
        return None
    low = known.low("viscosity_index")
    if low is not None:
        index = (low, known.high("viscosity_index") or low)
    elif fluid is not None and fluid.viscosity_index is not None:
        index = fluid.viscosity_index[1:]
    else:
        index = VI_NOT_KNOWN
    density = fluid.density_15[1:] if fluid is not None and fluid.density_15 is not None else DENSITY_NOT_KNOWN
    return Oil((0.9 * grade, 1.1 * grade), index, density)


def thickest(needs: Needs) -> Interval | None:
    """Viscosity at the coldest fluid, m2/s, as far as grade and index are known; None where either is not."""
    oil, cold = oil_of(needs), needs.fluid_min[0]
    return None if oil is None or cold is None else _viscosity(oil, cold)


def length_of_line(known: Known) -> Pair:
    """The line's length, else the hose's own, in m."""
    for name in ("line_length", "overall_length", "port_distance"):
        if known.has(name):
            return known.low(name), known.high(name)
    return None, None


@lru_cache(maxsize=4096)
def _viscosity(oil: Oil, temperature: float) -> Interval | None:
    try:
        return at_range(temperature, Interval(*oil.grade), Interval(*oil.index)).interval
    except EngineeringError:
        return None


@lru_cache(maxsize=4096)
def _loss(
    oil: Oil, temperature: float, flow: tuple[float, float], bore: float, length: tuple[float, float]
) -> Loss | None:
    viscosity = _viscosity(oil, temperature)
    if viscosity is None:
        return None
    try:
        found = hose_loss_range(Interval(*flow), bore, Interval(*length), viscosity, Interval(*oil.density))
    except EngineeringError:
        return None
    return Loss(temperature, found.low, found.high, found.high * flow[1])


def loss_over(needs: Needs, bore: float, temperature: float | None) -> Loss | None:
    """Loss over the hose at one fluid temperature; `bore` in m. None where something it needs is not known."""
    oil = oil_of(needs)
    length = length_of_line(needs.known)
    flow = needs.flow
    if oil is None or temperature is None or None in flow or None in length:
        return None
    return _loss(oil, temperature, (flow[0], flow[1]), bore, (length[0], length[1]))


@lru_cache(maxsize=4096)
def _inlet(
    oil: Oil,
    temperature: float,
    flow: tuple[float, float],
    bore: float,
    length: tuple[float, float],
    lift: tuple[float, float],
    altitude: tuple[float, float],
) -> Interval | None:
    viscosity = _viscosity(oil, temperature)
    if viscosity is None:
        return None
    try:
        return line_inlet_range(
            Interval(*flow),
            bore,
            Interval(*length),
            viscosity,
            Interval(*oil.density),
            Interval(-lift[1], -lift[0]),
            Interval(*altitude),
        ).interval
    except EngineeringError:
        return None


def inlet_at(needs: Needs, bore: float, temperature: float | None) -> Interval | None:
    """Absolute pressure at the pump inlet (Pa) at one fluid temperature; at sea level until a height is said."""
    return _inlet_of(needs.known, oil_of(needs), needs.flow, bore, temperature)


def _inlet_of(known: Known, oil: Oil | None, flow: Pair, bore: float, temperature: float | None) -> Interval | None:
    length = length_of_line(known)
    lift = known.low("lift"), known.high("lift")
    altitude = (known.low("altitude"), known.high("altitude")) if known.has("altitude") else (0.0, 0.0)
    if oil is None or temperature is None or None in (*flow, *length, *lift, *altitude):
        return None
    return _inlet(oil, temperature, flow, bore, length, lift, altitude)


VACUUM_RESTS_ON = (
    "bore",
    "flow_rate",
    "viscosity_grade",
    "viscosity_index",
    "medium",
    "fluid_temperature_min",
    "line_length",
    "lift",
    "altitude",
)


def deepest_vacuum(known: Known, fluid: Fluid | None) -> float | None:
    """The most a suction hose of the bore given is pulled below the air, Pa: air less the inlet with the oil cold.

    None where it cannot be worked out; negative where the tank stands so high that nothing is pulled.
    """
    bore, height = known.low("bore"), known.low("altitude") or 0.0
    if bore is None or not -500.0 <= height <= 11000.0:
        return None
    level = known.with_fact(Fact("altitude", height, Origin.COMPUTED))  # the air falls with height as the inlet does
    cold = _inlet_of(
        level,
        _oil(known, fluid),
        (known.low("flow_rate"), known.high("flow_rate")),
        bore * SIXTEENTH,
        known.low("fluid_temperature_min"),
    )
    return None if cold is None else min(atmosphere(height) - cold.low, atmosphere(height))
