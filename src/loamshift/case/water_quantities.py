"""Quantities of irrigation water: alkalinity, hardness, and how much is given a week."""

from __future__ import annotations

import re
from dataclasses import dataclass

from loamshift.case.mend import Mend, for_example, plain_figure, quoted, shown
from loamshift.case.numbers import number_from, split_number
from loamshift.case.quantities import Measure
from loamshift.case.registry import unit_factor
from loamshift.case.spellings import find_unit, plain_unit, unit_fault
from loamshift.domain.message import Message, alkalinity, message
from loamshift.units import (
    CACO3_G_PER_MMOLC,
    alkalinity_mg_l_as_caco3_from_mg_l_as_hco3,
)

_ALKALINITY_EXAMPLE = for_example('"180 mg/L CaCO3"', '"220 mg/L HCO3"', '"3.6 meq/L"')
_HARDNESS_EXAMPLE = for_example('"300 mg/L CaCO3"', '"16 dH"')
_MG_PER_MEQ = 1000.0 * CACO3_G_PER_MMOLC
_HARDEST_MG_L = 2000.0

# Degrees of hardness, mg/L as CaCO3 each, from their definitions (formula masses CaO 56.077,
# CaCO3 100.087): German 10 mg CaO/L, French 10 mg CaCO3/L, English (Clark) 1 grain per imperial
# gallon, American 1 grain per US gallon.
_HARDNESS_DEGREES = {
    "dh": 17.848,
    "°dh": 17.848,
    "dgh": 17.848,
    "°dgh": 17.848,
    "gh": 17.848,
    "°gh": 17.848,
    "fh": 10.0,
    "°fh": 10.0,
    "°f": 10.0,
    "°th": 10.0,
    "clark": 14.254,
    "°clark": 14.254,
    "degrees clark": 14.254,
    "°e": 14.254,
    "gpg": 17.118,
    "grains": 17.118,
    "grains per gallon": 17.118,
    "grains/gallon": 17.118,
}
_CARBONATE_DEGREES = {"dkh", "°dkh", "kh", "°kh"}
_DKH_MG_L = 17.848
_MASS_PER_LITRE = {"mg/l", "ppm", "g/m3", "mg/dm3", "mg/kg", "mg per l", "mg per litre"}
_CHARGE_PER_LITRE = {"meq/l", "mmolc/l", "mval/l", "mmol(+)/l", "mmol(-)/l", "me/l"}


@dataclass(frozen=True, slots=True)
class WeeklyWater:
    """Water given in a week: a depth over the bed [mm], or litres to be spread over it [L].

    ``per`` is ``area`` for a depth, ``bed`` for litres on the whole bed, ``plant`` for litres
    to each plant.
    """

    value: float
    per: str
    as_given: str
    notes: tuple[Message, ...] = ()


def read_alkalinity_mg_l_as_caco3(value: object) -> Measure:
    """The alkalinity of water [mg/L as CaCO3]; a bare number is already that.

    >>> read_alkalinity_mg_l_as_caco3("10 dKH").value
    178.48

    Returns
    -------
    Measure
        Alkalinity, 0 to 2000 [mg/L as CaCO3].

    Raises
    ------
    Mend
        Where the unit is one of hardness, or unknown, or the figure cannot be true.
    """
    notes: tuple[Message, ...] = ()
    unit_text = ""
    if isinstance(value, str):
        number, rest = split_number(value, _ALKALINITY_EXAMPLE)
        unit_text = plain_unit(rest)
        number, notes = _alkalinity(number, unit_text, value)
    else:
        number = number_from(value, _ALKALINITY_EXAMPLE)
    possible = _possible(number, value, _ALKALINITY_EXAMPLE)
    return Measure(possible, shown(value), notes, bare=not unit_text)


def _alkalinity(number: float, unit_text: str, value: str) -> tuple[float, tuple[Message, ...]]:
    if not unit_text:
        return number, ()
    if unit_text in _HARDNESS_DEGREES:
        raise Mend(
            message("case-hardness-not-alkalinity", given=quoted(value)),
            message("case-hardness-elsewhere"),
            _ALKALINITY_EXAMPLE,
        )
    if unit_text in _CARBONATE_DEGREES:
        return number * _DKH_MG_L, ()
    basis, unit = _basis(unit_text)
    if unit in _CHARGE_PER_LITRE or (unit == "mmol/l" and basis in ("hco3", "ks4.3")):
        return number * _MG_PER_MEQ, ()
    if unit == "mmol/l" and basis == "caco3":
        return number * 2.0 * _MG_PER_MEQ, ()
    if unit == "mmol/l":
        figure = plain_figure(number)
        raise Mend(
            message("case-mmol-of-what", given=quoted(value)),
            for_example(f'"{figure} mmol/L HCO3"', f'"{figure} mmol/L CaCO3"'),
        )
    if unit in _MASS_PER_LITRE:
        if basis == "hco3":
            return alkalinity_mg_l_as_caco3_from_mg_l_as_hco3(number), ()
        if basis == "caco3":
            return number, ()
        return number, (message("case-note-read-as-caco3", unit=quoted(unit_text)),)
    raise Mend(message("case-unit-unknown-here", unit=quoted(unit_text)), _ALKALINITY_EXAMPLE)


def _basis(unit_text: str) -> tuple[str, str]:
    """What the figure is stated as, and the unit without it."""
    basis = ""
    text = re.sub(r"\bas\b|[()]", " ", unit_text)
    for word, meaning in (
        (r"caco ?3|calcium carbonate", "caco3"),
        (r"hco ?3-?|bicarbonate|hydrogen ?carbonate", "hco3"),
        (r"ks ?4[.,]3", "ks4.3"),
        (r"\balkalinity\b|\btotal\b", ""),
    ):
        stripped = re.sub(word, " ", text)
        if stripped != text and meaning:
            basis = meaning
        text = stripped
    text = re.sub(r"\s*/\s*", "/", re.sub(r"\s+", " ", text)).strip()
    return basis, text.replace("/litre", "/l").replace("/liter", "/l")


def read_hardness_mg_l_as_caco3(value: object) -> Measure:
    """The total hardness of water [mg/L as CaCO3]; it is answered, never used as alkalinity.

    Returns
    -------
    Measure
        Hardness, 0 to 2000 [mg/L as CaCO3].

    Raises
    ------
    Mend
        Where the unit is unknown or the figure cannot be true.
    """
    unit_text = ""
    if isinstance(value, str):
        number, rest = split_number(value, _HARDNESS_EXAMPLE)
        unit_text = plain_unit(rest)
        basis, unit = _basis(unit_text)
        if unit_text in _HARDNESS_DEGREES:
            number *= _HARDNESS_DEGREES[unit_text]
        elif unit == "mmol/l":
            number *= 2.0 * _MG_PER_MEQ
        elif unit in _CHARGE_PER_LITRE:
            number *= _MG_PER_MEQ
        elif unit and (unit not in _MASS_PER_LITRE or basis == "hco3"):
            raise Mend(message("case-unit-unknown-here", unit=quoted(unit_text)), _HARDNESS_EXAMPLE)
    else:
        number = number_from(value, _HARDNESS_EXAMPLE)
    return Measure(_possible(number, value, _HARDNESS_EXAMPLE), shown(value), bare=not unit_text)


def _possible(number: float, value: object, example: Message) -> float:
    if number < 0.0:
        raise Mend(message("case-below-zero", given=quoted(value)), message("case-zero-for-rain"))
    if number > _HARDEST_MG_L:
        raise Mend(
            message("case-water-too-hard", given=quoted(value), limit=alkalinity(_HARDEST_MG_L)),
            message("case-usual-water", water=alkalinity(0.0, high=600.0)),
            example,
        )
    return number


_WEEKLY_EXAMPLE = for_example('"550 L"', '"25 mm"', '"1 in"')
_LAST_WEEK_WORDS = re.compile(r"\s*(?:/|per|a|each|every)?\s*(?:week|wk|weekly)\s*$")
_PER_PLANT = re.compile(r"\s*(?:/|per|each|to each)\s*(?:plant|bush|shrub|tree|pot)$")
_PER_AREA = re.compile(r"\s*(?:/|per)\s*(?:m2|sq m|square met(?:re|er))$")


def read_weekly_water(value: object) -> WeeklyWater:
    """The water given in a week of watering: litres on the bed, or a depth; a bare number is L.

    Returns
    -------
    WeeklyWater
        Depth [mm] or volume [L].

    Raises
    ------
    Mend
        Where it is neither, or below nought.
    """
    if not isinstance(value, str):
        number = number_from(value, _WEEKLY_EXAMPLE)
        return WeeklyWater(_not_negative(number, value), "bed", shown(value))
    number, rest = split_number(value, _WEEKLY_EXAMPLE)
    unit_text = _LAST_WEEK_WORDS.sub("", plain_unit(rest))
    per = "bed"
    for pattern, meaning in ((_PER_PLANT, "plant"), (_PER_AREA, "area")):
        stripped = pattern.sub("", unit_text)
        if stripped != unit_text:
            per, unit_text = meaning, stripped
    if not unit_text and per == "bed":
        return WeeklyWater(_not_negative(number, value), "bed", shown(value))
    volume = find_unit(unit_text, "volume")
    if volume is not None:
        litres = number * unit_factor(volume[0], "litre")
        notes = (volume[1],) if volume[1] else ()
        return WeeklyWater(_not_negative(litres, value), per, shown(value), notes)
    length = find_unit(unit_text, "length")
    if length is not None and per == "bed":
        depth_mm = number * unit_factor(length[0], "millimetre")
        return WeeklyWater(_not_negative(depth_mm, value), "area", shown(value))
    raise unit_fault(unit_text, ("volume", "length"), given=value, example=_WEEKLY_EXAMPLE)


def _not_negative(number: float, value: object) -> float:
    if number < 0.0:
        raise Mend(message("case-below-zero", given=quoted(value)), _WEEKLY_EXAMPLE)
    return number
