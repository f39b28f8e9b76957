"""Which unit a figure is said in: metric or US, for a bed, a lawn or a field."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loamshift import units
from loamshift.domain.message import Quantity


@dataclass(frozen=True, slots=True)
class Scale:
    """One unit to say a quantity in, used from ``least`` upwards (in the internal unit).

    ``unit`` is the end of the key of its message, ``unit-kg-m2``.
    """

    least: float
    factor: float
    unit: str


_POUND_100FT2_G_M2 = units.g_m2_from_lb_100ft2(1.0)
_POUND_ACRE_G_M2 = units.POUND_G / units.ACRE_M2

METRIC: Final[Mapping[Quantity, tuple[Scale, ...]]] = {
    Quantity.RATE: (Scale(1000.0, 1e-3, "kg-m2"), Scale(0.0, 1.0, "g-m2")),
    Quantity.AMOUNT: (
        Scale(999_500.0, 1e-6, "t"),
        Scale(999.5, 1e-3, "kg"),
        Scale(0.0, 1.0, "g"),
    ),
    Quantity.AREA: (Scale(9_995.0, 1e-4, "ha"), Scale(0.0, 1.0, "m2")),
    Quantity.DEPTH: (Scale(0.0, 1.0, "cm"),),
    Quantity.LENGTH: (Scale(0.0, 1.0, "m"),),
    Quantity.WATER_DEPTH: (Scale(0.0, 1.0, "mm"),),
    Quantity.WATER_RATE: (Scale(0.0, 1.0, "l-m2"),),
    Quantity.VOLUME: (Scale(9_995.0, 1e-3, "m3"), Scale(0.9995, 1.0, "l"), Scale(0, 1e3, "ml")),
}
US: Final[Mapping[Quantity, tuple[Scale, ...]]] = {
    Quantity.RATE: (
        Scale(0.25 * _POUND_100FT2_G_M2, 1.0 / _POUND_100FT2_G_M2, "lb-100-sq-ft"),
        Scale(0.0, 16.0 / _POUND_100FT2_G_M2, "oz-100-sq-ft"),
    ),
    Quantity.AMOUNT: (
        Scale(0.9995 * units.POUND_G, 1.0 / units.POUND_G, "lb"),
        Scale(0.0, 1.0 / units.OUNCE_G, "oz"),
    ),
    Quantity.AREA: (
        Scale(0.5 * units.ACRE_M2, 1.0 / units.ACRE_M2, "acre"),
        Scale(0.0, 1.0 / units.SQUARE_FOOT_M2, "sq-ft"),
    ),
    Quantity.DEPTH: (Scale(0.0, 1.0 / units.INCH_CM, "in"),),
    Quantity.LENGTH: (Scale(0.0, 100.0 / units.FOOT_CM, "ft"),),
    Quantity.WATER_DEPTH: (Scale(0.0, 0.1 / units.INCH_CM, "in"),),
    Quantity.WATER_RATE: (Scale(0.0, units.SQUARE_FOOT_M2 / units.US_GALLON_L, "gal-sq-ft"),),
    Quantity.VOLUME: (
        Scale(0.2 * units.US_GALLON_L, 1.0 / units.US_GALLON_L, "gal"),
        Scale(0.0, 1e3 / units.US_FLUID_OUNCE_ML, "fl-oz"),
    ),
}
SAME: Final[Mapping[Quantity, tuple[Scale, ...]]] = {
    Quantity.ACID: (Scale(0.0, 1.0, "mmolc-kg"),),
    Quantity.ACID_AREA: (Scale(0.0, 1.0, "mmolc-m2"),),
    Quantity.EC: (Scale(0.0, 1.0, "ds-m"),),
    Quantity.ALKALINITY: (Scale(0.0, 1.0, "mg-l-caco3"),),
    Quantity.ACID_WATER: (Scale(0.0, 1.0, "mmol-l"),),
    Quantity.IN_WATER: (Scale(0.0, 1.0, "mg-l"),),
    Quantity.ML: (Scale(0.0, 1.0, "ml"),),
    Quantity.GRAMS: (Scale(0.0, 1.0, "g"),),
    Quantity.SHARE: (Scale(0.0, 100.0, "percent"),),
    Quantity.PERCENT: (Scale(0.0, 1.0, "percent"),),
    Quantity.WEEKS: (Scale(0.0, 1.0, "weeks"),),
    Quantity.YEARS: (Scale(0.0, 1.0, "years"),),
    Quantity.TIMES: (Scale(0.0, 1.0, "times"),),
    Quantity.NUMBER: (Scale(0.0, 1.0, "none"),),
    Quantity.PH: (Scale(0.0, 1.0, "none"),),
    Quantity.PH_MEAN: (Scale(0.0, 1.0, "none"),),
}
GROUNDS: Final[Mapping[tuple[str, str], tuple[Scale, ...]]] = {
    ("us", "lawn"): (Scale(0.0, 10.0 / _POUND_100FT2_G_M2, "lb-1000-sq-ft"),),
    ("us", "field"): (Scale(0.0, 1.0 / _POUND_ACRE_G_M2, "lb-acre"),),
    ("metric", "field"): (Scale(100.0, 0.01, "t-ha"), Scale(0.0, 10.0, "kg-ha")),
}
"""Rates on ground that is reckoned by larger areas: bags of lawn feed, and fields."""

_DWARFED: Final = 0.25
_LONG: Final = 30.0
"""``82 to 1,050 g/m²`` reads better than ``0.082 to 1.05 kg/m²``; beyond thirty of the larger
unit it no longer does."""


def scales_of(quantity: Quantity, *, system: str, ground: str) -> tuple[Scale, ...]:
    """The units a quantity may be said in, the largest first."""
    if quantity is Quantity.RATE and (system, ground) in GROUNDS:
        return GROUNDS[system, ground]
    return SAME.get(quantity) or (US if system == "us" else METRIC)[quantity]


def scale_for(sizes: Sequence[float], scales: Sequence[Scale]) -> Scale:
    """The largest unit that suits the large end of a range and does not dwarf its small end.

    Parameters
    ----------
    sizes
        The numbers to be said in one unit, none negative [internal unit].
    scales
        The units to choose from, the largest first.
    """
    for scale in scales[:-1]:
        suits = max(sizes) >= scale.least
        dwarfs = min(sizes) < _DWARFED * scale.least and max(sizes) < _LONG * scale.least
        if suits and not dwarfs:
            return scale
    return scales[-1]
