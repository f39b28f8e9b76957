"""The trade's spellings of units, and the registry's name for each."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from functools import cache

from loamshift.case.mend import Mend, quoted
from loamshift.domain.message import Given, Listed, Message, message

_SUPERSCRIPTS = str.maketrans(
    {"²": "2", "³": "3", "×": "x", "·": " ", "⋅": " ", "μ": "u", "µ": "u"}
)

_LENGTHS = {
    "metre": "m metre metres meter meters mtr",
    "centimetre": "cm centimetre centimetres centimeter centimeters",
    "millimetre": "mm millimetre millimetres millimeter millimeters",
    "decimetre": "dm",
    "inch": "in inch inches \" ” ″ ''",
    "foot": "ft foot feet ' ’ ′",
    "yard": "yd yds yard yards",
}
_MASSES = {
    "gram": "g gm gms gr gram grams gramme grammes",
    "kilogram": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "milligram": "mg milligram milligrams",
    "tonne": "t tonne tonnes metric~ton metric~tons",
    "decitonne": "dt decitonne decitonnes",
    "pound": "lb lbs pound pounds",
    "ounce": "oz ozs ounce ounces",
    "short_ton": "short~ton short~tons us~ton us~tons",
    "long_ton": "long~ton long~tons imperial~ton imperial~tons uk~ton uk~tons",
}
_VOLUMES = {
    "litre": "l litre litres liter liters ltr dm3",
    "millilitre": "ml millilitre millilitres milliliter milliliters cc cm3 ccm",
    "centilitre": "cl centilitre centilitres",
    "decilitre": "dl decilitre decilitres deciliter deciliters",
    "hectolitre": "hl hectolitre hectolitres",
    "metre ** 3": "m3 cubic~metre cubic~metres cubic~meter cubic~meters cu~m cbm",
    "foot ** 3": "ft3 cu~ft cubic~foot cubic~feet cuft",
    "yard ** 3": "yd3 cu~yd cu~yds cubic~yard cubic~yards",
    "inch ** 3": "in3 cu~in cubic~inch cubic~inches",
    "us_gallon": "us~gal us~gallon us~gallons",
    "us_quart": "us~qt us~quart us~quarts",
    "us_pint": "us~pt us~pint us~pints",
    "us_fluid_ounce": "us~fl~oz us~fluid~ounce us~fluid~ounces",
    "us_bushel": "us~bushel us~bushels",
    "imperial_gallon": "imp~gal imperial~gallon imperial~gallons uk~gal uk~gallon uk~gallons",
    "imperial_quart": "imp~qt imperial~quart imperial~quarts uk~quart uk~quarts",
    "imperial_pint": "imp~pt imperial~pint imperial~pints uk~pint uk~pints",
    "imperial_fluid_ounce": "imp~fl~oz imperial~fluid~ounce imperial~fluid~ounces uk~fl~oz",
}
_AREAS = {
    "metre ** 2": "m2 sqm sq~m sq~mtr square~metre square~metres square~meter square~meters qm",
    "centimetre ** 2": "cm2 sq~cm square~centimetre square~centimetres",
    "foot ** 2": "ft2 sqft sq~ft sf square~foot square~feet",
    "yard ** 2": "yd2 sqyd sq~yd sq~yds square~yard square~yards",
    "inch ** 2": "in2 sq~in square~inch square~inches",
    "hectare": "ha hectare hectares",
    "acre": "acre acres ac",
}
_TEMPERATURES = {
    "degree_celsius": "c degc °c deg~c celsius centigrade degrees~c degrees~celsius",
    "degree_fahrenheit": "f degf °f deg~f fahrenheit degrees~f degrees~fahrenheit",
}

# Words of two meanings: what is taken, and the note that goes with it.
_US_LIQUID = {
    "us_gallon": "gal gals gallon gallons",
    "us_quart": "qt quart quarts",
    "us_pint": "pt pint pints",
    "us_fluid_ounce": "fl~oz floz fluid~ounce fluid~ounces",
    "us_bushel": "bu bushel bushels",
}
_REFUSED = {
    "ton": "case-which-ton",
    "tons": "case-which-ton",
    "cwt": "case-which-hundredweight",
}
"""Units that mean different weights in different countries, with the message that says so."""


def plain_unit(text: str) -> str:
    """A unit text with case, dots, superscripts and spaces made alike.

    >>> plain_unit("Sq. Ft."), plain_unit("g m⁻²"), plain_unit("lbs / 100 ft²")
    ('sq ft', 'g/m2', 'lbs/100 ft2')
    """
    text = text.replace("⁻²", "-2").replace("⁻¹", "-1").translate(_SUPERSCRIPTS).lower()
    text = re.sub(r"\^|\*\*", "", text)
    text = re.sub(r"(?<=[a-z])\.", "", text)
    text = re.sub(r"\s+", " ", text).strip(" .")
    text = re.sub(r"\bsq (?=met|foot|feet|yard|inch)", "square ", text)
    text = re.sub(r"\bcu (?=met|foot|feet|yard|inch)", "cubic ", text)
    text = re.sub(r"(?<=[a-z]) (m|ft|yd|ha|l|kg|acre)-([12])\b", _negative_power, text)
    return re.sub(r"\s*/\s*", "/", text)


def _negative_power(found: re.Match[str]) -> str:
    return f"/{found[1]}" + ("2" if found[2] == "2" else "")


def _spellings(table: Mapping[str, str]) -> dict[str, str]:
    return {
        spelling.replace("~", " "): unit
        for unit, spellings in table.items()
        for spelling in spellings.split(" ")
    }


@cache
def _dimension(name: str) -> Mapping[str, str]:
    tables = {
        "length": _LENGTHS,
        "mass": _MASSES,
        "volume": {**_VOLUMES},
        "area": _AREAS,
        "temperature": _TEMPERATURES,
    }
    return _spellings(tables[name])


@cache
def _us_liquid() -> Mapping[str, str]:
    return _spellings(_US_LIQUID)


def find_unit(text: str, dimension: str) -> tuple[str, Message | None] | None:
    """The registry's unit for a spelling, with a note where a meaning had to be chosen.

    Returns
    -------
    tuple or None
        Registry unit and note; None where the spelling is not of this dimension.
    """
    unit = _dimension(dimension).get(text)
    if unit is not None:
        return unit, None
    if dimension == "volume" and text in _us_liquid():
        unit = _us_liquid()[text]
        measure = unit.removeprefix("us_").replace("_", "-")
        return unit, message("case-note-us-measure", given=quoted(text), measure=measure)
    return None


def require_unit(
    text: str, dimension: str, *, given: object, example: Message
) -> tuple[str, Message | None]:
    """Like ``find_unit``, but a spelling that is not known is a fault with the nearest one.

    Raises
    ------
    Mend
        Where the unit is unknown, of another kind, or has two meanings.
    """
    found = find_unit(text, dimension)
    if found is not None:
        return found
    raise unit_fault(text, (dimension,), given=given, example=example)


def unit_fault(text: str, wanted: tuple[str, ...], *, given: object, example: Message) -> Mend:
    """The fault for a unit text that is not of the wanted kinds."""
    if text in _REFUSED:
        return Mend(message("case-unit-of-two-weights", unit=quoted(text)), message(_REFUSED[text]))
    whole, needed = quoted(given), "-or-".join(wanted)
    for other in ("length", "mass", "volume", "area", "temperature"):
        if find_unit(text, other) is not None:
            wrong = message("case-other-kind", given=whole, kind=other, wanted=needed)
            return Mend(wrong, example)
    known = [spelling for kind in wanted for spelling in _dimension(kind)]
    near = tuple(Given(f"“{n}”") for n in difflib.get_close_matches(text, known, n=2, cutoff=0.6))
    listed = Listed(near, either=True) if near else None
    wrong = message("case-unit-unknown", given=whole, unit=quoted(text), near=listed)
    return Mend(wrong, example)
