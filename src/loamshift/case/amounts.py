"""How much of a material: by weight or volume, on a bed, a plant or an area, to g/m2."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from loamshift.case.kitchen import find_kitchen_measure
from loamshift.case.mend import Mend, for_example, quoted, shown
from loamshift.case.numbers import number_from, split_number
from loamshift.case.registry import unit_factor
from loamshift.case.spellings import find_unit, plain_unit, unit_fault
from loamshift.domain.case import Bed, BedKind
from loamshift.domain.material import Material
from loamshift.domain.message import Given, Message, Product, message
from loamshift.domain.message import amount as weight_of
from loamshift.domain.message import rate as rate_of

_AMOUNT_EXAMPLE = for_example('"600 g"', '"2 lb"', '"3 cups"', '"1 cup per plant"')
_PLAIN_EXAMPLE = for_example('"30 g/m2"', '"120 kg/ha"', '"1 lb/100 sq ft"')
_RATE_EXAMPLE = for_example('"30 g/m2"', '"5 oz/yd2"', '"2 lb/100 sq ft"', '"120 kg/ha"')


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a material, before its weight per volume and the bed are known.

    ``low``..``high`` hold the spread of a rough measure, in the unit of ``value``.
    """

    value: float
    low: float
    high: float
    kind: str
    """``mass`` [g] or ``volume`` [L]; on an area [g/m2] or [L/m2]."""
    per: str
    """``bed``, ``plant``, ``pot`` or ``area``."""
    as_given: str
    rough: bool = False
    """True for cups, spoons, handfuls: to be told in grams."""
    notes: tuple[Message, ...] = ()


_PER = re.compile(r"\s*(?:/|\bper\b|\bto each\b|\bon each\b|\bfor each\b|\beach\b|\ba\b(?= plant))")
_ITEMS = {
    "plant": "plant",
    "bush": "plant",
    "shrub": "plant",
    "tree": "plant",
    "pot": "pot",
    "container": "pot",
    "tub": "pot",
    "bed": "bed",
    "border": "bed",
    "whole bed": "bed",
}


def read_amount(value: object) -> Amount:
    """How much went on, or would: on the whole bed unless the text says per what.

    Raises
    ------
    Mend
        Where the unit is unknown or the figure is not above nought.
    """
    if not isinstance(value, str):
        grams = number_from(value, _AMOUNT_EXAMPLE)
        return _positive(Amount(grams, grams, grams, "mass", "bed", shown(value)), _AMOUNT_EXAMPLE)
    return _read(value, bare_per="bed", example=_AMOUNT_EXAMPLE)


def read_rate(value: object) -> Amount:
    """How much per area, or per plant or pot; a bare number is g/m2.

    >>> round(read_rate("5 oz/yd2").value, 1), read_rate("2 t/ha").value
    (169.5, 200.0)

    Raises
    ------
    Mend
        Where it does not say per what, or the unit is unknown.
    """
    if not isinstance(value, str):
        rate = number_from(value, _RATE_EXAMPLE)
        return _positive(Amount(rate, rate, rate, "mass", "area", shown(value)), _RATE_EXAMPLE)
    amount = _read(value, bare_per="area", example=_RATE_EXAMPLE)
    if amount.per == "bed":
        raise Mend(
            message("case-rate-per-what", given=quoted(value)),
            message("case-whole-bed", line=Given(f'amount = "{shown(value)}"')),
            _RATE_EXAMPLE,
        )
    return amount


def read_plain_rate_g_m2(value: object) -> float:
    """A rate by weight and area only [g/m2], nought allowed, as laboratories print it.

    Returns
    -------
    float
        Rate [g/m2].

    Raises
    ------
    Mend
        Where it is no weight per area.
    """
    try:
        number = split_number(value)[0] if isinstance(value, str) else number_from(value)
        amount = None if number == 0.0 else read_rate(value)
    except Mend as mend:
        raise Mend(mend.wrong, _PLAIN_EXAMPLE) from mend
    if amount is None:
        return 0.0
    if amount.kind != "mass" or amount.per != "area" or amount.rough:
        raise Mend(message("case-not-weight-per-area", given=quoted(value)), _PLAIN_EXAMPLE)
    return amount.value


def _read(text: str, *, bare_per: str, example: Message) -> Amount:
    number, rest = split_number(text, example)
    per_text: str | None = None
    unit_text = plain_unit(rest)
    found = _PER.search(unit_text)
    if found:
        per_text = unit_text[found.end() :].strip() or ("plant" if "each" in found[0] else "")
        unit_text = unit_text[: found.start()].strip()
    unit_text = re.sub(r"^of ", "", unit_text)
    as_given = shown(text)
    if not unit_text and per_text is None:
        return _positive(Amount(number, number, number, "mass", bare_per, as_given), example)
    per, area_m2, acre = _per_what(per_text, text, example)
    notes: tuple[Message, ...] = ()
    if unit_text in ("ton", "tons") and per == "area" and per_text is not None:
        unit_text, note = _plain_ton(metric=not acre)
        notes = (message(note, given=Given(as_given)),)
    factor, kind, low, high, rough, note_or_none = _unit(unit_text, text, example)
    if note_or_none:
        notes = (*notes, note_or_none)
    if kind == "depth":  # a layer: metres deep are m3 per m2
        if per_text is not None:
            raise Mend(message("case-depth-per-something", given=quoted(text)), example)
        per, kind = "area", "volume"
    scale = number / area_m2
    return _positive(
        Amount(scale * factor, scale * low, scale * high, kind, per, as_given, rough, notes),
        example,
    )


def _plain_ton(*, metric: bool) -> tuple[str, str]:
    if metric:
        return "t", "case-note-metric-ton"
    return "short ton", "case-note-short-ton"


def _per_what(per_text: str | None, given: str, example: Message) -> tuple[str, float, bool]:
    """What the amount is for, the square metres it is spread on, and whether acres were meant."""
    if per_text is None:
        return "bed", 1.0, False
    item = _ITEMS.get(per_text) or _ITEMS.get(per_text.removesuffix("s").removesuffix("e"))
    item = item or _ITEMS.get(per_text.removesuffix("s"))
    if item is not None:
        return item, 1.0, False
    area, rest = (1.0, per_text)
    if re.match(r"[\d.,½¼¾]", per_text):
        area, rest = split_number(per_text, example)
        rest = plain_unit(rest)
    unit = find_unit(rest, "area")
    if unit is None:
        if not rest and area:
            raise Mend(message("case-per-area-of-what", given=quoted(given)), example)
        raise unit_fault(rest, ("area",), given=given, example=example)
    if not area > 0.0:
        raise Mend(message("case-per-no-area", given=quoted(given)), example)
    return "area", area * unit_factor(unit[0], "metre ** 2"), unit[0] == "acre"


def _unit(
    unit_text: str, given: str, example: Message
) -> tuple[float, str, float, float, bool, Message | None]:
    """Factor [g, L or, for a layer, L/m2], kind, low, high, roughness and note of a unit."""
    mass = find_unit(unit_text, "mass")
    if mass is not None:
        factor = unit_factor(mass[0], "gram")
        return factor, "mass", factor, factor, False, mass[1]
    volume = find_unit(unit_text, "volume")
    if volume is not None:
        factor = unit_factor(volume[0], "litre")
        return factor, "volume", factor, factor, False, volume[1]
    kitchen = find_kitchen_measure(unit_text)
    if kitchen is not None:
        if kitchen.mass_g is not None:
            return kitchen.mass_g, "mass", kitchen.low, kitchen.high, True, None
        if kitchen.volume_l is not None:
            return kitchen.volume_l, "volume", kitchen.low, kitchen.high, True, None
    length = find_unit(unit_text, "length")
    if length is not None:
        factor = 1000.0 * unit_factor(length[0], "metre")
        return factor, "depth", factor, factor, False, None
    raise unit_fault(unit_text, ("mass", "volume"), given=given, example=example)


def _positive(found: Amount, example: Message) -> Amount:
    if not found.value > 0.0:
        raise Mend(message("case-above-zero", given=Given(found.as_given)), example)
    if found.value > 1e12:
        raise Mend(message("case-far-too-large", given=Given(found.as_given)), example)
    return found


@dataclass(frozen=True, slots=True)
class Spread:
    """A rate over the treated ground [g/m2], and what must be said about it."""

    rate_g_m2: float
    notes: tuple[Message, ...]


def spread_amount(amount: Amount, *, material: Material, bed: Bed) -> Spread:
    """The rate an amount makes on this bed, weighed by the material's own bulk density.

    Returns
    -------
    Spread
        Rate [g/m2] and notes.

    Raises
    ------
    Mend
        Where a weight or an area is needed that nobody gave.
    """
    grams, low, high = _grams(amount, material)
    notes = amount.notes
    if amount.rough or amount.kind == "volume":
        notes = (*notes, _weight_note(amount, material, grams=grams, low=low, high=high))
    return Spread(grams / _ground_m2(amount, bed), notes)


def _grams(amount: Amount, material: Material) -> tuple[float, float, float]:
    if amount.kind == "mass":
        return amount.value, amount.low, amount.high
    density = material.bulk_density_kg_m3  # kg/m3 is g/L
    if density is None:
        raise Mend(
            message("case-litre-weighs", product=Product(material.key)),
            message("case-weigh-one-measure"),
        )
    low = material.bulk_density_low_kg_m3 or density
    high = material.bulk_density_high_kg_m3 or density
    return amount.value * density, amount.low * low, amount.high * high


def _weight_note(
    amount: Amount, material: Material, *, grams: float, low: float, high: float
) -> Message:
    """What a measure of volume weighs, so that it can be weighed instead."""
    by_area = amount.per == "area"
    said = rate_of if by_area else weight_of
    return message(
        "case-note-weighs",
        given=Given(amount.as_given),
        product=Product(material.key),
        weight=said(grams),
        spread=said(low, high=high) if high > 1.02 * low else None,
        measure="household" if amount.rough else "volume",
    )


def _ground_m2(amount: Amount, bed: Bed) -> float:
    """The ground that one amount is spread over [m2]."""
    if amount.per == "area":
        return 1.0
    ring_m2 = ring_area_m2(bed)
    is_pots = bed.kind is BedKind.CONTAINER
    if amount.per == "plant":
        if ring_m2 is not None:
            return ring_m2
        if bed.plants is not None and bed.area_m2 is not None:
            return bed.area_m2 / bed.plants
        if is_pots and bed.area_m2 is not None:
            return bed.area_m2
        raise Mend(message("case-ground-of-plant"), message("case-give-ring"))
    if bed.area_m2 is not None:
        return bed.area_m2
    if ring_m2 is not None and amount.per == "bed" and bed.plants is not None:
        return ring_m2 * bed.plants
    raise Mend(message("case-area-unknown"), message("case-give-area"))


def ring_area_m2(bed: Bed) -> float | None:
    """The ground treated round one plant [m2], where the bed names a ring."""
    if bed.treated_diameter_cm is None:
        return None
    return math.pi * (bed.treated_diameter_cm / 100.0) ** 2 / 4.0
