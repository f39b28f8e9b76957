"""Quantities of irrigation water: alkalinity, hardness, and how much is given a week."""

from __future__ import annotations

import re
from dataclasses import dataclass

from loamshift.case.mend import Mend, plain_figure, shown
from loamshift.case.numbers import number_from, split_number
from loamshift.case.quantities import Measure
from loamshift.case.registry import unit_factor
from loamshift.case.spellings import find_unit, plain_unit, unit_fault
from loamshift.units import (
    CACO3_G_PER_MMOLC,
    alkalinity_mg_l_as_caco3_from_mg_l_as_hco3,
)

_ALKALINITY_EXAMPLE = '"180 mg/L CaCO3", "220 mg/L HCO3" or "3.6 meq/L"'
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
    notes: tuple[str, ...] = ()


def read_alkalinity_mg_l_as_caco3(value: object) -> Measure:
    """The alkalinity of water [mg/L as CaCO3]; a bare number is already that.

    >>> read_alkalinity_mg_l_as_caco3("10 dKH").value
    178.48

    Parameters
    ----------
    value
        "180 mg/L CaCO3", "220 mg/L HCO3", "3.6 meq/L", "10 dKH" or a number [any].

    Returns
    -------
    Measure
        Alkalinity, 0 to 2000 [mg/L as CaCO3].

    Raises
    ------
    Mend
        Where the unit is one of hardness, or unknown, or the figure cannot be true.
    """
    notes: tuple[str, ...] = ()
    unit_text = ""
    if isinstance(value, str):
        number, rest = split_number(value)
        unit_text = plain_unit(rest)
        number, notes = _alkalinity(number, unit_text)
    else:
        number = number_from(value, expected=f"an alkalinity like {_ALKALINITY_EXAMPLE}")
    return Measure(_possible(number, "alkalinity"), shown(value), notes, bare=not unit_text)


def _alkalinity(number: float, unit_text: str) -> tuple[float, tuple[str, ...]]:
    if not unit_text:
        return number, ()
    if unit_text in _HARDNESS_DEGREES:
        raise Mend(
            f"“{shown(unit_text)}” measures hardness, not alkalinity",
            "Hardness may come from gypsum, which takes up no acid: give the alkalinity "
            f"(bicarbonate, carbonate hardness in dKH) like {_ALKALINITY_EXAMPLE}, "
            "and put this figure under water.hardness.",
        )
    if unit_text in _CARBONATE_DEGREES:
        return number * _DKH_MG_L, ()
    basis, unit = _basis(unit_text)
    if unit in _CHARGE_PER_LITRE or (unit == "mmol/l" and basis in ("hco3", "ks4.3")):
        return number * _MG_PER_MEQ, ()
    if unit == "mmol/l" and basis == "caco3":
        return number * 2.0 * _MG_PER_MEQ, ()
    if unit == "mmol/l":
        raise Mend(
            "mmol/L of what is not said",
            'Write "mmol/L HCO3" (or meq/L), or "mmol/L CaCO3", which is twice as much.',
        )
    if unit in _MASS_PER_LITRE:
        if basis == "hco3":
            return alkalinity_mg_l_as_caco3_from_mg_l_as_hco3(number), ()
        if basis == "caco3":
            return number, ()
        return number, (
            f"water.alkalinity: {shown(unit_text)} without “CaCO3” or “HCO3” is read as CaCO3; "
            "as bicarbonate it would be 18 % less.",
        )
    raise Mend(
        f"unit “{shown(unit_text)}” is not known for alkalinity",
        f"Write it like {_ALKALINITY_EXAMPLE}.",
    )


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

    Parameters
    ----------
    value
        "16 dH", "300 mg/L CaCO3", "20 Clark" or a number [any].

    Returns
    -------
    Measure
        Hardness, 0 to 2000 [mg/L as CaCO3].

    Raises
    ------
    Mend
        Where the unit is unknown or the figure cannot be true.
    """
    example = '"300 mg/L CaCO3" or "16 dH"'
    unit_text = ""
    if isinstance(value, str):
        number, rest = split_number(value)
        unit_text = plain_unit(rest)
        basis, unit = _basis(unit_text)
        if unit_text in _HARDNESS_DEGREES:
            number *= _HARDNESS_DEGREES[unit_text]
        elif unit == "mmol/l":
            number *= 2.0 * _MG_PER_MEQ
        elif unit in _CHARGE_PER_LITRE:
            number *= _MG_PER_MEQ
        elif unit and (unit not in _MASS_PER_LITRE or basis == "hco3"):
            raise Mend(
                f"unit “{shown(unit_text)}” is not known for hardness", f"Write it like {example}."
            )
    else:
        number = number_from(value, expected=f"a hardness like {example}")
    return Measure(_possible(number, "hardness"), shown(value), bare=not unit_text)


def _possible(number: float, name: str) -> float:
    if number < 0.0:
        raise Mend(f"{name} cannot be below zero", "Write 0 for rainwater.")
    if number > _HARDEST_MG_L:
        raise Mend(
            f"{plain_figure(number)} mg/L CaCO3 is more than any {name} of water used on plants",
            f"Check the unit; did you mean {plain_figure(number / 1000.0)} (thousandfold less)?"
            if number > 1e4
            else "Water used on plants has 0 to 600 mg/L CaCO3.",
        )
    return number


_WEEKLY_EXAMPLE = '"550 L", "25 mm" or "1 in"'
_LAST_WEEK_WORDS = re.compile(r"\s*(?:/|per|a|each|every)?\s*(?:week|wk|weekly)\s*$")
_PER_PLANT = re.compile(r"\s*(?:/|per|each|to each)\s*(?:plant|bush|shrub|tree|pot)$")
_PER_AREA = re.compile(r"\s*(?:/|per)\s*(?:m2|sq m|square met(?:re|er))$")


def read_weekly_water(value: object) -> WeeklyWater:
    """The water given in a week of watering: litres on the bed, or a depth; a bare number is L.

    Parameters
    ----------
    value
        "550 L", "25 mm", "1 in", "140 gal", "10 L per plant" or a number [any].

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
        number = number_from(value, expected=f"water like {_WEEKLY_EXAMPLE}")
        return WeeklyWater(_not_negative(number), "bed", shown(value))
    number, rest = split_number(value)
    unit_text = _LAST_WEEK_WORDS.sub("", plain_unit(rest))
    per = "bed"
    for pattern, meaning in ((_PER_PLANT, "plant"), (_PER_AREA, "area")):
        stripped = pattern.sub("", unit_text)
        if stripped != unit_text:
            per, unit_text = meaning, stripped
    if not unit_text and per == "bed":
        return WeeklyWater(_not_negative(number), "bed", shown(value))
    volume = find_unit(unit_text, "volume")
    if volume is not None:
        litres = number * unit_factor(volume[0], "litre")
        notes = (f"water.weekly: {volume[1]}.",) if volume[1] else ()
        return WeeklyWater(_not_negative(litres), per, shown(value), notes)
    length = find_unit(unit_text, "length")
    if length is not None and per == "bed":
        return WeeklyWater(
            _not_negative(number * unit_factor(length[0], "millimetre")), "area", shown(value)
        )
    raise unit_fault(unit_text, ("volume", "length"), example=_WEEKLY_EXAMPLE)


def _not_negative(number: float) -> float:
    if number < 0.0:
        raise Mend("the water cannot be below zero", f"Write it like {_WEEKLY_EXAMPLE}.")
    return number
