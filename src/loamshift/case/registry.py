"""The units the trade uses, with their sizes; only units of one kind are converted."""

from __future__ import annotations

from typing import Final

from loamshift.errors import InputError

_INCH_M: Final = 0.0254
_FOOT_M: Final = 0.3048
_YARD_M: Final = 0.9144
_POUND_G: Final = 453.59237
_INCH3_L: Final = 1000.0 * _INCH_M**3
_US_GALLON_L: Final = 231.0 * _INCH3_L
_IMPERIAL_GALLON_L: Final = 4.54609
# Exact: international yard and pound (1959); US gallon of 231 and bushel of 2150.42 cubic inches;
# imperial gallon of 4.54609 L.

_LENGTHS_M: Final = {
    "millimetre": 0.001,
    "centimetre": 0.01,
    "decimetre": 0.1,
    "metre": 1.0,
    "kilometre": 1000.0,
    "inch": _INCH_M,
    "foot": _FOOT_M,
    "yard": _YARD_M,
}
_AREAS_M2: Final = {
    "centimetre ** 2": 0.0001,
    "metre ** 2": 1.0,
    "hectare": 10_000.0,
    "inch ** 2": _INCH_M**2,
    "foot ** 2": _FOOT_M**2,
    "yard ** 2": _YARD_M**2,
    "acre": 43_560.0 * _FOOT_M**2,
}
_VOLUMES_L: Final = {
    "millilitre": 0.001,
    "centilitre": 0.01,
    "decilitre": 0.1,
    "litre": 1.0,
    "hectolitre": 100.0,
    "metre ** 3": 1000.0,
    "inch ** 3": _INCH3_L,
    "foot ** 3": 1000.0 * _FOOT_M**3,
    "yard ** 3": 1000.0 * _YARD_M**3,
    "us_fluid_ounce": _US_GALLON_L / 128.0,
    "us_pint": _US_GALLON_L / 8.0,
    "us_quart": _US_GALLON_L / 4.0,
    "us_gallon": _US_GALLON_L,
    "us_bushel": 2150.42 * _INCH3_L,
    "imperial_fluid_ounce": _IMPERIAL_GALLON_L / 160.0,
    "imperial_pint": _IMPERIAL_GALLON_L / 8.0,
    "imperial_quart": _IMPERIAL_GALLON_L / 4.0,
    "imperial_gallon": _IMPERIAL_GALLON_L,
}
_MASSES_G: Final = {
    "milligram": 0.001,
    "gram": 1.0,
    "kilogram": 1000.0,
    "decitonne": 100_000.0,
    "tonne": 1_000_000.0,
    "ounce": _POUND_G / 16.0,
    "pound": _POUND_G,
    "short_ton": 2000.0 * _POUND_G,
    "long_ton": 2240.0 * _POUND_G,
}
_KINDS: Final = (_LENGTHS_M, _AREAS_M2, _VOLUMES_L, _MASSES_G)
_FREEZING_F: Final = 32.0


def unit_factor(unit: str, target: str) -> float:
    """How many ``target`` units one ``unit`` is; both by the names of this module.

    >>> round(unit_factor("foot ** 2", "metre ** 2"), 8)
    0.09290304

    Returns
    -------
    float
        The factor [target per unit].

    Raises
    ------
    InputError
        Where a unit is unknown, or the two are not of one kind.
    """
    for sizes in _KINDS:
        if unit in sizes and target in sizes:
            return sizes[unit] / sizes[target]
    raise InputError(f"{unit} is not converted to {target}: give two units of one kind")


def temperature_c(value: float, unit: str) -> float:
    """A temperature [degC] from a value [the unit named] and the unit's name."""
    return (value - _FREEZING_F) / 1.8 if unit == "degree_fahrenheit" else value
