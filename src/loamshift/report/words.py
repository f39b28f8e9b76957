"""How a number or a name is said to this reader: UK or US words, metric or US units.

Only display: nothing here is ever computed with. Digits follow how sure anybody can be,
two or three of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift import units
from loamshift.domain.answer import Band
from loamshift.domain.digits import sensible, stated
from loamshift.domain.material import Material
from loamshift.report.spelling import spell, with_capitals

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


class Quantity(StrEnum):
    """What kind of number is being said; the unit it comes in stands in the member's comment."""

    RATE = "rate"  # g/m2
    AMOUNT = "amount"  # g
    AREA = "area"  # m2
    DEPTH = "depth"  # cm
    LENGTH = "length"  # m
    WATER_DEPTH = "water depth"  # mm
    VOLUME = "volume"  # L
    TEMPERATURE = "temperature"  # degC
    PH = "ph"  # pH
    ACID = "acid"  # mmolc/kg
    ACID_AREA = "acid area"  # mmolc/m2
    EC = "ec"  # dS/m
    ALKALINITY = "alkalinity"  # mg/L CaCO3
    SHARE = "share"  # 0-1, said in per cent
    WEEKS = "weeks"  # weeks


@dataclass(frozen=True, slots=True)
class _Scale:
    """One unit to say a quantity in, used from ``least`` upwards (in the internal unit)."""

    least: float
    factor: float
    unit: str


_POUND_100FT2_G_M2 = units.g_m2_from_lb_100ft2(1.0)

_METRIC: dict[Quantity, tuple[_Scale, ...]] = {
    Quantity.RATE: (_Scale(1000.0, 1e-3, "kg/m²"), _Scale(0.0, 1.0, "g/m²")),
    Quantity.AMOUNT: (
        _Scale(999_500.0, 1e-6, "t"),
        _Scale(999.5, 1e-3, "kg"),
        _Scale(0.0, 1.0, "g"),
    ),
    Quantity.AREA: (_Scale(9_995.0, 1e-4, "ha"), _Scale(0.0, 1.0, "m²")),
    Quantity.DEPTH: (_Scale(0.0, 1.0, "cm"),),
    Quantity.LENGTH: (_Scale(0.0, 1.0, "m"),),
    Quantity.WATER_DEPTH: (_Scale(0.0, 1.0, "mm"),),
    Quantity.VOLUME: (_Scale(9_995.0, 1e-3, "m³"), _Scale(0.9995, 1.0, "L"), _Scale(0, 1e3, "mL")),
}
_US: dict[Quantity, tuple[_Scale, ...]] = {
    Quantity.RATE: (
        _Scale(0.25 * _POUND_100FT2_G_M2, 1.0 / _POUND_100FT2_G_M2, "lb/100 ft²"),
        _Scale(0.0, 16.0 / _POUND_100FT2_G_M2, "oz/100 ft²"),
    ),
    Quantity.AMOUNT: (
        _Scale(0.9995 * units.POUND_G, 1.0 / units.POUND_G, "lb"),
        _Scale(0.0, 1.0 / units.OUNCE_G, "oz"),
    ),
    Quantity.AREA: (
        _Scale(0.5 * units.ACRE_M2, 1.0 / units.ACRE_M2, "acre"),
        _Scale(0.0, 1.0 / units.SQUARE_FOOT_M2, "ft²"),
    ),
    Quantity.DEPTH: (_Scale(0.0, 1.0 / units.INCH_CM, "in"),),
    Quantity.LENGTH: (_Scale(0.0, 100.0 / units.FOOT_CM, "ft"),),
    Quantity.WATER_DEPTH: (_Scale(0.0, 0.1 / units.INCH_CM, "in"),),
    Quantity.VOLUME: (
        _Scale(0.2 * units.US_GALLON_L, 1.0 / units.US_GALLON_L, "gal"),
        _Scale(0.0, 1e3 / units.US_FLUID_OUNCE_ML, "fl oz"),
    ),
}
_SAME: dict[Quantity, tuple[_Scale, ...]] = {
    Quantity.ACID: (_Scale(0.0, 1.0, "mmolc/kg"),),
    Quantity.ACID_AREA: (_Scale(0.0, 1.0, "mmolc/m²"),),
    Quantity.EC: (_Scale(0.0, 1.0, "dS/m"),),
    Quantity.ALKALINITY: (_Scale(0.0, 1.0, "mg/L CaCO3"),),
    Quantity.SHARE: (_Scale(0.0, 100.0, "%"),),
    Quantity.WEEKS: (_Scale(0.0, 1.0, "weeks"),),
}

_STATED = (Quantity.AREA, Quantity.DEPTH, Quantity.WATER_DEPTH)
"""Chosen or measured out by somebody, so said without trailing zeros."""
_WHOLE = (Quantity.WEEKS, Quantity.ALKALINITY)
_DWARFED = 0.25
_LONG = 30.0
"""``82 to 1,050 g/m²`` reads better than ``0.082 to 1.05 kg/m²``; beyond thirty of the larger
unit it no longer does."""


@dataclass(frozen=True, slots=True)
class Words:
    """Spelling (``uk`` or ``us``) and units (``metric`` or ``us``) of one reader.

    Examples
    --------
    >>> Words("uk", "metric").rate(97.6)
    '98 g/m²'
    >>> Words("us", "us").rate(97.6)
    '2.0 lb/100 ft²'
    """

    spelling: str = "uk"
    units: str = "metric"

    def __post_init__(self) -> None:
        """Refuse an unknown spelling or system of units."""
        if self.spelling not in ("uk", "us"):
            raise ValueError(f"spelling is uk or us, not {self.spelling!r}")
        if self.units not in ("metric", "us"):
            raise ValueError(f"units are metric or us, not {self.units!r}")

    # -- numbers ---------------------------------------------------------------------------

    def say(self, value: float, quantity: Quantity) -> str:
        """A number of this kind with its unit, in sensible digits.

        Parameters
        ----------
        value
            The number [internal unit of the quantity].
        quantity
            What it is a number of [enumeration].

        Returns
        -------
        str
            Number and unit [text].
        """
        texts, unit = self._in_one_unit((value,), quantity)
        return _joined(texts[0], unit)

    def band(self, band: Band, quantity: Quantity) -> str:
        """The likely range of a quantity: ``60 to 140 g/m²``.

        Parameters
        ----------
        band
            Lower, middle and upper value [internal unit of the quantity].
        quantity
            What it is a range of [enumeration].

        Returns
        -------
        str
            The range, both ends in one unit; a range that rounds to one number says
            ``about`` [text].
        """
        (low, high), unit = self._in_one_unit((band.lo90, band.hi90), quantity)
        if low == high:
            return f"about {_joined(low, unit)}"
        return f"{low} to {_joined(high, unit)}"

    def likely(self, band: Band, quantity: Quantity) -> str:
        """``likely between 60 and 140 g/m², middle 90`` [text], from a band [internal unit]."""
        (low, mid, high), unit = self._in_one_unit((band.lo90, band.mid, band.hi90), quantity)
        if low == high:
            return f"about {_joined(low, unit)}"
        return f"likely between {low} and {_joined(high, unit)}, middle {mid}"

    def rate(self, rate_g_m2: float) -> str:
        """A rate of product [g/m2] as ``98 g/m²`` or ``2.0 lb/100 ft²`` [text]."""
        return self.say(rate_g_m2, Quantity.RATE)

    def rate_oz_yd2(self, rate_g_m2: float) -> str:
        """A rate of product [g/m2] in the older garden unit, ``2.9 oz/yd²`` [text]."""
        return f"{sensible(units.oz_yd2_from_g_m2(rate_g_m2))} oz/yd²"

    def amount(self, amount_g: float) -> str:
        """An amount of product [g] as ``2.0 kg`` or ``4.4 lb`` [text]."""
        return self.say(amount_g, Quantity.AMOUNT)

    def area(self, area_m2: float) -> str:
        """An area [m2] as ``20 m²`` or ``215 ft²`` [text]."""
        return self.say(area_m2, Quantity.AREA)

    def depth(self, depth_cm: float) -> str:
        """A depth of soil [cm] as ``15 cm`` or ``6 in`` [text]."""
        return self.say(depth_cm, Quantity.DEPTH)

    def temperature(self, temp_c: float) -> str:
        """A temperature [degC] as ``10 °C`` or ``50 °F`` [text]."""
        if self.units == "us":
            return f"{units.f_from_c(temp_c):.0f} °F"
        return f"{temp_c:.0f} °C"

    def water_depth(self, depth_mm: float) -> str:
        """A depth of water [mm] as ``25 mm`` or ``0.984 in`` [text]."""
        return self.say(depth_mm, Quantity.WATER_DEPTH)

    def volume(self, volume_l: float) -> str:
        """A volume [L] as ``100 L`` or ``26 gal`` [text]."""
        return self.say(volume_l, Quantity.VOLUME)

    def ph(self, ph: float) -> str:
        """A pH [pH] to one place, as readings deserve [text]."""
        return f"{ph:.1f}"

    def percent(self, share_frac: float) -> str:
        """A share [0-1] in per cent [text]."""
        return self.say(share_frac, Quantity.SHARE)

    def money(self, value: float, currency: str | None) -> str:
        """A price [units of the currency] with two places, and the currency's name [text]."""
        return f"{value:.2f}" + (f" {currency}" if currency else "")

    # -- words -----------------------------------------------------------------------------

    def date(self, day: date) -> str:
        """A date [calendar] as ``20 April 2026`` or ``April 20, 2026`` [text]."""
        month = MONTHS[day.month - 1]
        if self.spelling == "us":
            return f"{month} {day.day}, {day.year}"
        return f"{day.day} {month} {day.year}"

    def text(self, text: str) -> str:
        """A sentence [text] in this reader's spelling, names with their capitals [text]."""
        return with_capitals(spell(text, self.spelling))

    def material_name(self, material: Material) -> str:
        """The name of a material [object] as this reader says it [text]."""
        name = material.name_us if self.spelling == "us" else material.name_uk
        return self.text(name)

    def listed(self, parts: Sequence[str], *, last: str = "and") -> str:
        """``a, b and c`` from parts [text], ``last`` before the final one [text]."""
        if len(parts) < 2:
            return "".join(parts)
        return f"{', '.join(parts[:-1])} {last} {parts[-1]}"

    def _in_one_unit(
        self, values: Sequence[float], quantity: Quantity
    ) -> tuple[tuple[str, ...], str]:
        if quantity is Quantity.PH:
            return tuple(self.ph(value) for value in values), ""
        if quantity is Quantity.TEMPERATURE:
            convert: Callable[[float], float] = units.f_from_c if self.units == "us" else float
            unit = "°F" if self.units == "us" else "°C"
            return tuple(f"{convert(value):.0f}" for value in values), unit
        scales = _SAME.get(quantity) or (_US if self.units == "us" else _METRIC)[quantity]
        scale = _scale_of([abs(value) for value in values], scales)
        if quantity in _WHOLE:
            digits: Callable[[float], str] = "{:.0f}".format
        elif quantity is Quantity.DEPTH and self.units == "us":
            digits = _inches
        elif quantity is Quantity.VOLUME:
            digits = _volume_digits
        elif quantity is Quantity.SHARE:
            digits = _share_digits
        else:
            digits = stated if quantity in _STATED else sensible
        return tuple(digits(value * scale.factor) for value in values), scale.unit


def _scale_of(sizes: Sequence[float], scales: Sequence[_Scale]) -> _Scale:
    """The largest unit that suits the large end of a range and does not dwarf its small end."""
    for scale in scales[:-1]:
        suits = max(sizes) >= scale.least
        dwarfs = min(sizes) < _DWARFED * scale.least and max(sizes) < _LONG * scale.least
        if suits and not dwarfs:
            return scale
    return scales[-1]


def _inches(depth_in: float) -> str:
    """Half inches, as spades and rulers have them; 15 cm is 6 in."""
    return stated(round(2.0 * depth_in) / 2.0) if depth_in >= 0.75 else stated(depth_in)


def _volume_digits(volume: float) -> str:
    text = sensible(volume)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _share_digits(percent: float) -> str:
    return f"{percent:.0f}" if abs(percent) >= 0.95 or percent == 0.0 else f"{percent:.1f}"


def _joined(number: str, unit: str) -> str:
    if not unit:
        return number
    if unit == "%":
        return f"{number} %"
    if unit == "weeks" and number == "1":
        return "1 week"
    return f"{number} {unit}"
