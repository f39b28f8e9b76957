"""Figures inside a running text, turned into the units this reader works in.

The sentences of an answer are written with metric figures. For a reader in US units each
figure with its unit is said anew; texts for metric readers only get their ² and ³.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from loamshift import units
from loamshift.domain.answer import Band
from loamshift.report.digits import sensible
from loamshift.report.words import Quantity, Words

_N = r"\d[\d,]*(?:\.\d+)?"
_FIGURES = re.compile(
    rf"(?P<stop>[.;:!?](?=\s|$))"
    rf"|(?<![\w.,/])(?P<low>{_N})(?:(?P<to> to |–)(?P<high>{_N}))?"
    r"(?:"
    r" (?P<rate_unit>kg|g)(?P<of> of [a-z][a-z ]{0,30}?)?(?:/m²| per m²| per square metre)"
    r"| (?P<litres>litres?|L) per m²"
    r"| (?P<unit>kg|g|cm|mm|m²|L|litres?|°C)"
    r")(?![\w/²³%])(?!/)"
)
_GAL_FT2_PER_L_M2 = units.SQUARE_FOOT_M2 / units.US_GALLON_L
_QUANTITIES: dict[str, tuple[Quantity, float]] = {
    "kg": (Quantity.AMOUNT, 1000.0),
    "g": (Quantity.AMOUNT, 1.0),
    "cm": (Quantity.DEPTH, 1.0),
    "mm": (Quantity.WATER_DEPTH, 1.0),
    "m²": (Quantity.AREA, 1.0),
    "L": (Quantity.VOLUME, 1.0),
    "litre": (Quantity.VOLUME, 1.0),
    "litres": (Quantity.VOLUME, 1.0),
    "°C": (Quantity.TEMPERATURE, 1.0),
}


def in_reader_units(text: str, words: Words) -> str:
    """A text with the figures in it said in this reader's units.

    Parameters
    ----------
    text
        A sentence or more, with metric figures such as ``98 g/m2`` or ``34 g of sulfur per m²``
        [text].
    words
        Units of the reader [object].

    Returns
    -------
    str
        The same text; figures without a unit of size (pH, %, mg/L, dS/m) stay [text].

    Notes
    -----
    Within one sentence a bare weight that follows a rate speaks of the same area, so it is said
    on the same scale (``lays down 1.0 lb of lime per 100 ft², and 0.35 lb of sulfur undoes it``).
    """
    text = re.sub(r"(?<=[/ ])(k?m|ft|yd)2\b", r"\1²", text)
    if words.units != "us":
        return text
    return _FIGURES.sub(_sayer(words), text)


def _sayer(words: Words) -> Callable[[re.Match[str]], str]:
    on_area = False  # whether this sentence has named a rate so far

    def said(found: re.Match[str]) -> str:
        nonlocal on_area
        if found["stop"]:
            on_area = False
            return found["stop"]
        low = _number(found["low"])
        high = _number(found["high"]) if found["high"] else low
        if found["litres"]:
            ends = [sensible(end * _GAL_FT2_PER_L_M2) for end in dict.fromkeys((low, high))]
            return f"{(found['to'] or '').join(ends)} gal per ft²"
        if found["rate_unit"]:
            factor = 1000.0 if found["rate_unit"] == "kg" else 1.0
            figure = _figure(low * factor, high=high * factor, what=Quantity.RATE, words=words)
            on_area = True
            return _rate(figure, of=found["of"])
        what, factor = _QUANTITIES[found["unit"]]
        if what is Quantity.AMOUNT and on_area:
            figure = _figure(low * factor, high=high * factor, what=Quantity.RATE, words=words)
            return figure.split("/")[0]
        return _figure(low * factor, high=high * factor, what=what, words=words)

    return said


def _rate(figure: str, *, of: str | None) -> str:
    amount, area = figure.split("/", 1)
    return f"{amount}{of} per {area}" if of else figure


def _number(text: str) -> float:
    return float(text.replace(",", ""))


def _figure(low: float, *, high: float, what: Quantity, words: Words) -> str:
    if high == low:
        return words.say(low, what)
    return words.band(Band(lo90=low, mid=low, hi90=high), what)
