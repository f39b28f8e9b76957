"""A small unit registry of our own: only the units the trade uses, so that it loads at once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

# Exact factors: International yard and pound (1959); US gallon 231 in3; imperial gallon 4.54609 L.
_DEFINITIONS = """
metre = [length]
gram = [mass]
tonne = 1000000 * gram
milligram = 0.001 * gram
microgram = 0.000001 * gram
kilogram = 1000 * gram
decitonne = 100000 * gram
pound = 453.59237 * gram
ounce = 28.349523125 * gram
short_ton = 2000 * pound
long_ton = 2240 * pound
millimetre = 0.001 * metre
centimetre = 0.01 * metre
decimetre = 0.1 * metre
kilometre = 1000 * metre
inch = 0.0254 * metre
foot = 0.3048 * metre
yard = 0.9144 * metre
hectare = 10000 * metre ** 2
acre = 43560 * foot ** 2
litre = 0.001 * metre ** 3
millilitre = 0.001 * litre
centilitre = 0.01 * litre
decilitre = 0.1 * litre
hectolitre = 100 * litre
us_gallon = 231 * inch ** 3
us_quart = us_gallon / 4
us_pint = us_gallon / 8
us_fluid_ounce = us_gallon / 128
us_bushel = 2150.42 * inch ** 3
imperial_gallon = 4.54609 * litre
imperial_quart = imperial_gallon / 4
imperial_pint = imperial_gallon / 8
imperial_fluid_ounce = imperial_gallon / 160
siemens = [conductance]
decisiemens = 0.1 * siemens
millisiemens = 0.001 * siemens
microsiemens = 0.000001 * siemens
mole_charge = [charge]
centimole_charge = 0.01 * mole_charge
millimole_charge = 0.001 * mole_charge
kelvin = [temperature]
degree_celsius = kelvin; offset: 273.15
degree_fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9
"""


@cache
def _registry() -> pint.UnitRegistry[float]:
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for line in _DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


@cache
def unit_factor(unit: str, target: str) -> float:
    """How many ``target`` units one ``unit`` is; both in the registry's own names.

    >>> round(unit_factor("foot ** 2", "metre ** 2"), 8)
    0.09290304

    Returns
    -------
    float
        The factor [target per unit].
    """
    if unit == target:
        return 1.0
    registry = _registry()
    factor = registry.convert(1.0, registry.parse_units(unit), registry.parse_units(target))
    return float(factor)


def temperature_c(value: float, unit: str) -> float:
    """A temperature [degC] from a value [the unit named] and the unit's registry name."""
    registry = _registry()
    return float(registry.Quantity(value, unit).to("degree_celsius").magnitude)
