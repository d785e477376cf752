"""Between which pressures does the surge of a line lie, when nobody has measured it?

An interval, never one figure, with each cause named beside the pressures it can lead to. Whatever is not known enters
with the widest credible range, so the upper end is a bound and not an estimate; a measurement with a fast transducer
(1 kHz or more; a dial gauge does not show a surge: common practice, no source) replaces it.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.engineering.errors import HUGE, TINY, EngineeringError, not_positive
from interview.engineering.surge import (
    blocked_rod_side,
    closure,
    intensified_pressure,
    joukowsky,
    moving_mass,
    relief_peak,
    trapped_oil,
)

# Override of a relief valve as a share of its setting (memory; Esposito 8-1 has 0.5 for a direct-acting one).
OVERRIDE = {"pilot": (0.05, 0.15), "direct": (0.20, 0.50), "unknown": (0.05, 0.50)}
# Wave speed, m/s. Only the softest hose has an open figure (MIL-DTL-13719G: 265 m/s); the rest is memory.
WAVE_SPEED = {"wire": (500.0, 1000.0), "textile": (265.0, 500.0), "rigid": (1000.0, 1300.0), "unknown": (300.0, 1300.0)}
DENSITY = (820.0, 900.0)  # mineral oil, kg/m³ (memory)
EXPANSION = (0.00065, 0.00075)  # mineral oil, per kelvin: Rabie's 0.0007 (handbook), the spread is our own bound
OIL_MODULUS = (1.4e9, 1.7e9)  # Pa, mineral oil (common practice, no source)
# Softest and stiffest modulus of the line's wall, Pa (memory); None is rigid, which a line nobody knows may be.
WALL_MODULUS: dict[str, tuple[float | None, float | None]] = {
    "wire": (0.3e9, 1.0e9),
    "textile": (0.05e9, 0.2e9),
    "rigid": (None, None),
    "unknown": (0.05e9, None),
}

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Contribution:
    """One cause: the pressures it can lead to (gauge, Pa), and what that rests on."""

    name: str
    low: float
    high: float
    basis: str


@dataclass(frozen=True, slots=True)
class SurgeBracket:
    """The surge lies from `low` to `high` (gauge, Pa)."""

    low: float
    high: float
    contributions: tuple[Contribution, ...]

    @property
    def governing(self) -> Contribution:
        """The cause that sets the upper end."""
        return max(self.contributions, key=lambda c: c.high)


@dataclass(frozen=True, slots=True)
class StoppedMass:
    """A mass that trapped oil brings to rest: kg, m/s, and the m³ of oil that yields."""

    mass_kg: float
    speed_m_s: float
    oil_volume_m3: float


def _hammer(
    steady: float, velocity: float, speeds: Range, density: Range, length: float | None, closing: Range | None
) -> Contribution:
    high = joukowsky(density[1], speeds[1], velocity)
    low = 0.0
    said = "closing time or length not known: from no rise to a full water hammer"
    if closing is not None and length is not None:
        high = closure(density[1], speeds[1], velocity, length, closing[0])
        low = closure(density[0], speeds[0], velocity, length, closing[1])
        said = "reduced by (2 L/c)/t where the closure is slower than the wave's return"
    basis = f"Joukowsky rho c dv, wave speed {speeds[0]:.0f} to {speeds[1]:.0f} m/s (memory); {said}"
    return Contribution("water hammer", steady + low, steady + high, basis)


def _ordered(what: str, pair: Range) -> Range:
    if not (TINY <= pair[0] <= HUGE and TINY <= pair[1] <= HUGE and pair[0] <= pair[1]):
        raise EngineeringError(f"the range of {what} has to run from a lower to a higher number, both above zero")
    return pair


def bracket(
    steady: float,
    *,
    relief_setting: float | None = None,
    relief_kind: str = "unknown",
    velocity: float | None = None,
    line: str = "unknown",
    wave_speed: Range | None = None,
    density: Range = DENSITY,
    length: float | None = None,
    closing_time: Range | None = None,
    rod_side: tuple[float, float] | None = None,
    intensifier_ratio: float | None = None,
    stopped_mass: StoppedMass | None = None,
    trapped_warming_k: float | None = None,
) -> SurgeBracket:
    """The surge of a line as an interval with its causes; every input but the steady pressure may be left out.

    `steady` is the working pressure (gauge, Pa); `relief_kind` pilot, direct or unknown; `velocity` the fluid's, m/s,
    where something can shut it off; `line` wire, textile, rigid or unknown; `rod_side` (bore, rod) of a cylinder whose
    rod side can be blocked; `trapped_warming_k` the warming of oil shut in. The lower end is what has to be expected
    in any case, the upper end the highest of the causes named.

    >>> found = bracket(180e5, relief_setting=200e5, relief_kind="pilot", velocity=5.0, line="wire")
    >>> round(found.low / 1e5), round(found.high / 1e5), found.governing.name
    (200, 230, 'relief override')
    """
    if not TINY <= steady <= HUGE:
        raise not_positive("working pressure", steady, "Pa")
    if relief_kind not in OVERRIDE:
        raise EngineeringError(f"a relief valve is one of {', '.join(OVERRIDE)}, not {relief_kind!r}")
    if line not in WAVE_SPEED:
        raise EngineeringError(f"a line is one of {', '.join(WAVE_SPEED)}, not {line!r}")
    speeds = _ordered("wave speed", wave_speed or WAVE_SPEED[line])
    density = _ordered("density", density)

    found = [Contribution("working pressure", steady, steady, "as given")]
    top = steady
    if relief_setting is not None:
        top = max(top, relief_peak(relief_setting, OVERRIDE[relief_kind][1]))
        basis = f"override {OVERRIDE[relief_kind][0]:.0%} to {OVERRIDE[relief_kind][1]:.0%} of the setting (memory)"
        found.append(Contribution("relief override", relief_setting, max(top, relief_setting), basis))
    if velocity is not None:
        closing = _ordered("closing time", closing_time) if closing_time is not None else None
        found.append(_hammer(steady, velocity, speeds, density, length, closing))
    if rod_side is not None:
        peak = blocked_rod_side(top, *rod_side)
        found.append(Contribution("blocked rod side", steady, peak, "area ratio x highest cap pressure (handbook)"))
    if intensifier_ratio is not None:
        peak = intensified_pressure(top, intensifier_ratio)
        found.append(Contribution("intensifier", steady, peak, "ratio x highest inlet pressure (handbook)"))
    soft, hard = WALL_MODULUS[line]
    if stopped_mass is not None:
        # a rigid line leaves the oil alone to yield, which is the stiffest case
        stiff = 1.0 / (1.0 / OIL_MODULUS[1] + (1.0 / hard if hard else 0.0))
        rise = moving_mass(stopped_mass.mass_kg, stopped_mass.speed_m_s, stopped_mass.oil_volume_m3, stiff)
        found.append(
            Contribution(
                "moving mass stopped", steady, steady + rise, "v sqrt(m K/V) (derived), K of oil and hose wall (memory)"
            )
        )
    if trapped_warming_k is not None:
        least = trapped_oil(trapped_warming_k, EXPANSION[0], OIL_MODULUS[0], soft)
        most = trapped_oil(trapped_warming_k, EXPANSION[1], OIL_MODULUS[1], hard)
        # trapped oil may start from no pressure, and at worst from the working pressure
        found.append(
            Contribution("trapped oil warmed", least, steady + most, "alpha dT / (1/K_oil + 1/K_hose), moduli (memory)")
        )
    return SurgeBracket(max(c.low for c in found), max(c.high for c in found), tuple(found))
