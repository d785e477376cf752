"""What does pint say a unit is worth? The only module that imports pint, and only when it is called.

A registry of our own 30 lines is built instead of pint's default one: it takes milliseconds, and the traps of the
default (farad for a bare F, Boltzmann for a bare k, textile units) do not exist in it. Pint never sees text that a
person typed.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from interview.language.units import TABLE

# Exact by definition: NIST SP 811 (2008), appendix B.8; conventional mercury and water columns from the same table.
DEFINITIONS = """
meter = [length] = m
second = [time] = s
kilogram = [mass] = kg
kelvin = [temperature] = K
count = []
milli- = 1e-3
centi- = 1e-2
kilo- = 1e3
mega- = 1e6
inch = 0.0254 * meter
foot = 12 * inch
yard = 3 * foot
minute = 60 * second
hour = 60 * minute
liter = 1e-3 * meter ** 3
us_gallon = 231 * inch ** 3
imperial_gallon = 4.54609 * liter
pound = 0.45359237 * kilogram
standard_gravity = 9.80665 * meter / second ** 2
newton = kilogram * meter / second ** 2
kilogram_force = kilogram * standard_gravity
pound_force = pound * standard_gravity
pascal = newton / meter ** 2
bar = 1e5 * pascal
psi = pound_force / inch ** 2
standard_atmosphere = 101325 * pascal
torr = standard_atmosphere / 760
inHg = 3386.389 * pascal
mmHg = 133.322387415 * pascal
meter_H2O = 9806.65 * pascal
inch_H2O = 249.08891 * pascal
degC = kelvin; offset: 273.15
degF = 5 / 9 * kelvin; offset: 233.15 + 200 / 9
"""
_SI = {
    "pressure": "pascal", "temperature": "degC", "length": "meter", "flow": "meter ** 3 / second",
    "displacement": "meter ** 3", "speed": "1 / second", "time": "second", "velocity": "meter / second",
}  # fmt: skip


@cache
def registry() -> Any:
    """Our own registry, built once."""
    import pint

    return pint.UnitRegistry(DEFINITIONS.strip().splitlines())


def convert(value: float, unit: str, measures: str) -> float:
    """A number in one of our units as SI, by pint.

    >>> round(convert(212, "°F", "temperature"), 9)
    100.0
    """
    ureg = registry()
    return float(ureg.Quantity(value, TABLE[unit].pint).to(_SI[measures]).magnitude)


@cache
def pint_factor(unit: str) -> float:
    """SI value of one of a unit that has no offset."""
    return convert(1.0, unit, TABLE[unit].measures)
