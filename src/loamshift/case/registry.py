"""The units of the trade and their exact sizes, so that none of it is read at a start."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Final

LENGTH: Final = (1, 0)
AREA: Final = (2, 0)
VOLUME: Final = (3, 0)
MASS: Final = (0, 1)
"""Kinds of unit, as powers of a length and of a mass."""

# Exact: international yard and pound (1959); US gallon 231 in3; imperial gallon 4.54609 L.
_INCH: Final = Fraction("0.0254")
_FOOT: Final = 12 * _INCH
_POUND: Final = Fraction("453.59237")
_LITRE: Final = Fraction("0.001")
_US_GALLON: Final = 231 * _INCH**3
_IMPERIAL_GALLON: Final = Fraction("4.54609") * _LITRE
_SIZES: Final = {
    LENGTH: {
        "metre": Fraction(1),
        "millimetre": Fraction("0.001"),
        "centimetre": Fraction("0.01"),
        "decimetre": Fraction("0.1"),
        "kilometre": Fraction(1000),
        "inch": _INCH,
        "foot": _FOOT,
        "yard": 3 * _FOOT,
    },
    AREA: {
        "hectare": Fraction(10_000),
        "acre": 43_560 * _FOOT**2,
    },
    VOLUME: {
        "litre": _LITRE,
        "millilitre": _LITRE / 1000,
        "centilitre": _LITRE / 100,
        "decilitre": _LITRE / 10,
        "hectolitre": 100 * _LITRE,
        "us_gallon": _US_GALLON,
        "us_quart": _US_GALLON / 4,
        "us_pint": _US_GALLON / 8,
        "us_fluid_ounce": _US_GALLON / 128,
        "us_bushel": Fraction("2150.42") * _INCH**3,
        "imperial_gallon": _IMPERIAL_GALLON,
        "imperial_quart": _IMPERIAL_GALLON / 4,
        "imperial_pint": _IMPERIAL_GALLON / 8,
        "imperial_fluid_ounce": _IMPERIAL_GALLON / 160,
    },
    MASS: {
        "gram": Fraction(1),
        "microgram": Fraction("0.000001"),
        "milligram": Fraction("0.001"),
        "kilogram": Fraction(1000),
        "decitonne": Fraction(100_000),
        "tonne": Fraction(1_000_000),
        "pound": _POUND,
        "ounce": _POUND / 16,
        "short_ton": 2000 * _POUND,
        "long_ton": 2240 * _POUND,
    },
}
"""Sizes in metres, and powers of it, and in grams."""


@cache
def unit_factor(unit: str, target: str) -> float:
    """How many ``target`` units one ``unit`` is; names of this file, with a power where needed.

    >>> unit_factor("foot ** 2", "metre ** 2")
    0.09290304

    Returns
    -------
    float
        The factor, the nearest number to the exact one [target per unit].

    Raises
    ------
    KeyError
        Where a unit is none of these.
    ValueError
        Where the two are of different kinds.
    """
    (kind, size), (target_kind, target_size) = _read(unit), _read(target)
    if kind != target_kind:
        raise ValueError(f"{unit} and {target} are of different kinds")
    return float(size / target_size)


def temperature_c(value: float, unit: str) -> float:
    """A temperature [degC] from a value [the unit named] and the unit's name.

    >>> temperature_c(50.0, "degree_fahrenheit")
    10.0
    """
    return (value - 32.0) / 1.8 if unit == "degree_fahrenheit" else value


def _read(unit: str) -> tuple[tuple[int, int], Fraction]:
    """The kind of a unit and its exact size."""
    name, _, power = unit.partition(" ** ")
    for (length, mass), sizes in _SIZES.items():
        if name in sizes:
            n = int(power or 1)
            return (n * length, n * mass), sizes[name] ** n
    raise KeyError(f"{name} is no unit of this registry")
