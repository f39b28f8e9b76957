"""Figures and dates inside a running text, as this reader writes them.

The sentences of an answer carry figures with units: metric, or US where the case is kept in US
units. A reader of the other kind gets each of them said anew; figures without a unit of size
(pH, %, mg/L, dS/m) stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from loamshift import units
from loamshift.domain.answer import Band
from loamshift.domain.digits import sensible
from loamshift.report.words import MONTHS, Quantity, Words

_N = r"\d[\d,]*(?:\.\d+)?"
_NUMBER = rf"(?<![\w.,/])(?P<low>{_N})(?:(?P<to> to |–)(?P<high>{_N}))?"
_END = r"(?![\w/²³%])"
_STOP = r"(?P<stop>[.;:!?](?=\s|$))"
_OF = r"(?P<of> of [a-z][a-z ]{0,30}?)?"
_FROM_METRIC = re.compile(
    rf"{_STOP}|{_NUMBER} (?:"
    rf"(?P<rate_unit>kg|g){_OF}(?:/m²| per m²| per square met(?:re|er))"
    r"|(?P<litres>lit(?:re|er)s?|L) per m²"
    r"|(?P<unit>kg|g|cm|mm|m²|L|litres?|liters?|°C)"
    rf"){_END}"
)
_FROM_US = re.compile(
    rf"{_STOP}|{_NUMBER} (?:"
    rf"(?P<rate_unit>lb|oz){_OF}(?:/| per )100 (?:ft²|square feet)"
    r"|(?P<unit>lb|oz|ft²|°F)"
    rf"){_END}"
)
_GAL_FT2_PER_L_M2 = units.SQUARE_FOOT_M2 / units.US_GALLON_L
_RATES = {
    "kg": 1000.0,
    "g": 1.0,
    "lb": units.g_m2_from_lb_100ft2(1.0),
    "oz": units.g_m2_from_lb_100ft2(1.0 / 16.0),
}
_SIZES: dict[str, tuple[Quantity, float]] = {
    "kg": (Quantity.AMOUNT, 1000.0),
    "g": (Quantity.AMOUNT, 1.0),
    "lb": (Quantity.AMOUNT, units.POUND_G),
    "oz": (Quantity.AMOUNT, units.OUNCE_G),
    "cm": (Quantity.DEPTH, 1.0),
    "mm": (Quantity.WATER_DEPTH, 1.0),
    "m²": (Quantity.AREA, 1.0),
    "ft²": (Quantity.AREA, units.SQUARE_FOOT_M2),
    "L": (Quantity.VOLUME, 1.0),
    "litre": (Quantity.VOLUME, 1.0),
    "litres": (Quantity.VOLUME, 1.0),
    "liter": (Quantity.VOLUME, 1.0),
    "liters": (Quantity.VOLUME, 1.0),
    "°C": (Quantity.TEMPERATURE, 1.0),
}
_MONTH = rf"(?P<month>{'|'.join(MONTHS)})"
_DATE = re.compile(rf"\b(?P<day>\d{{1,2}}) {_MONTH} (?P<year>\d{{4}})\b")
_US_DATE = re.compile(rf"\b{_MONTH} (?P<day>\d{{1,2}}), (?P<year>\d{{4}})\b")


def in_reader_units(text: str, words: Words) -> str:
    """A text with the figures and dates in it as this reader says them.

    Parameters
    ----------
    text
        A sentence or more, with figures such as ``98 g/m2``, ``34 g of sulfur per m²`` or
        ``2.0 lb/100 ft²`` [text].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        The same text [text].

    Notes
    -----
    Within one sentence a bare weight that follows ``50 g of lime per m²`` speaks of the same
    area, so it is said on the same scale (``lays down 1.0 lb of lime per 100 ft², and 0.33 lb of
    sulfur undoes it``). After ``98 g/m²`` it is a weight of its own.
    """
    text = re.sub(r"(?<=[/ ])(k?m|ft|yd)2\b", r"\1²", text)
    text = (_DATE if words.spelling == "us" else _US_DATE).sub(lambda m: _date(m, words), text)
    figures = _FROM_METRIC if words.units == "us" else _FROM_US
    return figures.sub(_sayer(words), text)


def _sayer(words: Words) -> Callable[[re.Match[str]], str]:
    on_area = False  # whether this sentence has named a weight per area in full

    def said(found: re.Match[str]) -> str:
        nonlocal on_area
        if found["stop"]:
            on_area = False
            return found["stop"]
        ends = (_number(found["low"]), _number(found["high"] or found["low"]))
        parts = found.groupdict()
        if parts.get("litres"):
            flow = (sensible(end * _GAL_FT2_PER_L_M2) for end in dict.fromkeys(ends))
            return f"{(found['to'] or '').join(flow)} gal per ft²"
        if found["rate_unit"]:
            on_area = found["of"] is not None
            return _rate(ends, unit=found["rate_unit"], of=found["of"], words=words)
        if found["unit"] in _RATES and on_area:
            return _rate(ends, unit=found["unit"], of=None, words=words).split("/")[0]
        if found["unit"] == "°F":
            ends = (_c_from_f(ends[0]), _c_from_f(ends[1]))
            return _figure(ends, Quantity.TEMPERATURE, words)
        what, factor = _SIZES[found["unit"]]
        return _figure((ends[0] * factor, ends[1] * factor), what, words)

    return said


def _rate(ends: tuple[float, float], *, unit: str, of: str | None, words: Words) -> str:
    figure = _figure((ends[0] * _RATES[unit], ends[1] * _RATES[unit]), Quantity.RATE, words)
    amount, area = figure.split("/", 1)
    return f"{amount}{of} per {area}" if of else figure


def _figure(ends: tuple[float, float], what: Quantity, words: Words) -> str:
    low, high = ends
    if high == low:
        return words.say(low, what)
    return words.band(Band(lo90=low, mid=low, hi90=high), what)


def _c_from_f(temp_f: float) -> float:
    return (temp_f - 32.0) / 1.8


def _number(text: str) -> float:
    return float(text.replace(",", ""))


def _date(found: re.Match[str], words: Words) -> str:
    month = MONTHS.index(found["month"]) + 1
    try:
        return words.date(date(int(found["year"]), month, int(found["day"])))
    except ValueError:  # a day the calendar does not have is left as it was written
        return found.group()
