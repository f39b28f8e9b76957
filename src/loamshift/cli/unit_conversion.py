"""One quantity in another unit, for ``loamshift convert``; parsers are those of the case file."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from loamshift.case.amounts import Amount, read_amount, read_rate
from loamshift.case.mend import Mend
from loamshift.case.numbers import split_number
from loamshift.case.quantities import Measure, read_area_m2, read_depth_cm, read_temperature_c
from loamshift.case.water_quantities import read_alkalinity_mg_l_as_caco3
from loamshift.domain.message import Given, Message, Product, Prose, message
from loamshift.domain.worded_error import WordedError

if TYPE_CHECKING:
    from loamshift.domain.material import Material

_OTHERS: Final = ("lb", "kg", "L", "m2", "cm", "in", "g/m2", "C")
"""Units for an example, the first that fits what was typed."""


@dataclass(frozen=True, slots=True)
class Converted:
    """A quantity in the unit asked for; ``low``..``high`` where the measure is rough."""

    value: float
    low: float
    high: float
    unit: str
    kind: str
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class _Figure:
    """What a parser found, in its own unit, with its kind."""

    value: float
    low: float
    high: float
    kind: str
    notes: tuple[Message, ...]


def convert_quantity(text: str, unit: str, *, material: Material | None = None) -> Converted:
    """A quantity in another unit of the same kind, or of weight from volume.

    Parameters
    ----------
    material
        What fills the cup, where weight and volume are to be turned into each other.

    Returns
    -------
    Converted
        Value, range and what must be said about it [unit asked for].

    Raises
    ------
    WordedError
        Where nothing can be made of either text, or they are of different kinds.
    """
    bare = _bare_number(text)
    if bare is not None:
        typed, other = _example(bare, unit.strip())
        raise WordedError(
            message("cli-convert-of-what", given=Given(bare), example=typed, other=other)
        )
    if not unit.strip():
        raise WordedError(message("cli-convert-into-what", given=Given(text)))
    if _says_temperature(unit):
        return _temperature(text, unit)
    seen: list[str] = []
    faults: list[Mend] = []
    for read in _readers(text):
        try:
            given = _figure_of(read, text)
        except Mend as fault:
            faults.append(fault)
            continue
        seen.append(given.kind)
        one = _one_of(read, unit)
        if one is None:
            continue
        if given.kind == one.kind:
            return _ratio(given, one, unit)
        turned = _weighed(given, one, material)
        if turned is not None:
            return _ratio(turned, one, unit)
    asked = {"given": Given(text), "unit": Given(unit)}
    if not seen:
        raise _not_read(text, faults)
    if all(_one_of(read, unit) is None for read in _READERS):
        raise _unknown_unit(unit)
    kind = "rate" if " per " in seen[0] else seen[0]
    raise WordedError(message("cli-convert-other-kind", **asked, kind=kind))


def _example(number: str, unit: str) -> tuple[Given, Given]:
    """A quantity with the unit that was typed, where it is one, and another to turn it into."""
    typed = f"{number} {unit}"
    for other in _OTHERS:
        if not unit or other == unit:
            continue
        try:
            convert_quantity(typed, other)
        except WordedError:
            continue
        return Given(typed), Given(other)
    return Given(f"{number} kg"), Given(_OTHERS[0])


def _bare_number(text: str) -> str | None:
    """The number, where it is all that the text says."""
    try:
        _, rest = split_number(text)
    except Mend:
        return None
    return None if rest else text.strip()


def _not_read(text: str, faults: list[Mend]) -> WordedError:
    """What is wrong with a text: its number, its water, or a unit that nobody knows."""
    asked = {"given": Given(text)}
    try:
        _, unit = split_number(text)
    except Mend as fault:
        wrong = message("cli-convert-not-read", **asked, fault=fault.wrong)
        return WordedError(Prose((wrong, *fault.right)))
    if _HARDNESS.fullmatch(unit):
        return WordedError(message("cli-convert-hardness", **asked))
    if _says_water(unit):
        wrong = message("cli-convert-not-read", **asked, fault=faults[0].wrong)
        return WordedError(Prose((wrong, *faults[0].right)))
    return _unknown_unit(unit)


def _unknown_unit(unit: str) -> WordedError:
    """A unit that nobody knows, or one with words behind it."""
    words = unit.split()
    for end in range(len(words) - 1, 0, -1):
        before = " ".join(words[:end])
        if _is_unit(before):
            return _left_over(before, words[end:])
    return WordedError(message("cli-convert-unit-unknown", unit=Given(unit)))


def _left_over(before: str, words: Sequence[str]) -> WordedError:
    told = {"before": Given(before), "words": Given(" ".join(words))}
    return WordedError(message("cli-convert-left-over", **told, n=len(words)))


def _is_unit(unit: str) -> bool:
    return _says_temperature(unit) or any(_one_of(read, unit) is not None for read in _READERS)


def quantity_and_unit(words: Sequence[str]) -> tuple[str, str]:
    """What is to be converted and into what, from words typed without quotation marks.

    >>> quantity_and_unit(["20", "m2", "sq", "ft"]), quantity_and_unit(["5", "kg", "to", "lb"])
    (('20 m2', 'sq ft'), ('5 kg', 'lb'))

    Parameters
    ----------
    words
        Two or more, each of which may hold several.

    Returns
    -------
    tuple of str
        Quantity and unit.

    Raises
    ------
    WordedError
        Where words are left over.
    """
    if len(words) == 2:
        return words[0], words[1]
    for end in range(len(words), 1, -1):
        found = _split(words[:end])
        if found is not None and end == len(words):
            return found
        if found is not None:
            raise _left_over(found[1], words[end:])
    return " ".join(words[:-1]), words[-1]


def _split(words: Sequence[str]) -> tuple[str, str] | None:
    """The last place where a quantity ends and a unit begins; None where there is none."""
    for place in range(len(words) - 1, 0, -1):
        quantity, unit = " ".join(words[:place]), words[place:]
        if not _is_quantity(quantity):
            continue
        for said in (unit, unit[1:] if unit[0].casefold() in _INTO else ()):
            if said and _is_unit(" ".join(said)):
                return quantity, " ".join(said)
    return None


def _is_quantity(text: str) -> bool:
    try:
        _, unit = split_number(text)
    except Mend:
        return False
    return bool(unit) and _is_unit(unit)


def _figure_of(read: _Reader, text: str) -> _Figure:
    """What a reader makes of a quantity, whatever size it has.

    The case file has limits, such as a depth that is dug. A conversion has none: what a reader
    refuses for its size is read as one of the unit, times the number.
    """
    try:
        return read(text)
    except Mend:
        number, unit = split_number(text)
        one = _one_of(read, unit) if _PLAIN_UNIT.fullmatch(unit) else None
        if one is None:
            raise
    low, high = sorted((number * one.low, number * one.high))
    return _Figure(number * one.value, low, high, one.kind, one.notes)


def _one_of(read: _Reader, unit: str) -> _Figure | None:
    """One of a unit, through as many of them as the reader takes; None where it knows it not."""
    for many in _MANY:
        try:
            figure = read(f"{many:g} {unit}")
        except Mend:
            continue
        return _Figure(
            figure.value / many, figure.low / many, figure.high / many, figure.kind, figure.notes
        )
    return None


def _ratio(given: _Figure, one: _Figure, unit: str) -> Converted:
    return Converted(
        value=given.value / one.value,
        low=given.low / one.high,
        high=given.high / one.low,
        unit=unit,
        kind=one.kind,
        notes=(*given.notes, *(note for note in one.notes if note not in given.notes)),
    )


def _weighed(given: _Figure, one: _Figure, material: Material | None) -> _Figure | None:
    """Volume to weight or back by the bulk density of the material [kg/m3 is g/L]."""
    kinds = (given.kind.split(" ")[0], one.kind.split(" ")[0])
    same_basis = given.kind.split(" ")[1:] == one.kind.split(" ")[1:]
    if not same_basis or set(kinds) != {"weight", "volume"}:
        return None
    if material is None:
        raise WordedError(message("cli-convert-material"))
    density = material.bulk_density_kg_m3
    if density is None:
        raise WordedError(message("cli-convert-litre", product=Product(material.key)))
    low = material.bulk_density_low_kg_m3 or density
    high = material.bulk_density_high_kg_m3 or density
    note = message(
        "cli-convert-density",
        product=Given(material.key),
        density=Given(f"{density:g}"),
        low=Given(f"{low:g}"),
        high=Given(f"{high:g}"),
    )
    if kinds[0] == "volume":
        value, least, most = given.value * density, given.low * low, given.high * high
    else:
        value, least, most = given.value / density, given.low / high, given.high / low
    return _Figure(value, least, most, one.kind, (*given.notes, note))


def _rate(text: str) -> _Figure:
    amount = read_rate(text)
    return _from_amount(amount, f" per {amount.per}")


def _amount(text: str) -> _Figure:
    amount = read_amount(text)
    return _from_amount(amount, "" if amount.per == "bed" else f" per {amount.per}")


def _from_amount(amount: Amount, per: str) -> _Figure:
    kind = "weight" if amount.kind == "mass" else "volume"
    return _Figure(amount.value, amount.low, amount.high, f"{kind}{per}", amount.notes)


def _measure(read: Callable[[object], Measure], text: str, kind: str) -> _Figure:
    measure = read(text)
    return _Figure(measure.value, measure.value, measure.value, kind, measure.notes)


def _area(text: str) -> _Figure:
    return _measure(read_area_m2, text, "area")


def _depth(text: str) -> _Figure:
    return _measure(read_depth_cm, text, "length")


def _alkalinity(text: str) -> _Figure:
    return _measure(read_alkalinity_mg_l_as_caco3, text, "alkalinity")


_Reader = Callable[[str], _Figure]
_READERS: Final[tuple[_Reader, ...]] = (_rate, _amount, _area, _depth, _alkalinity)
_MANY: Final = (1.0, 100.0, 10_000.0, 0.01, 0.0001)
_PLAIN_UNIT: Final = re.compile(r"[^\W\d_µμ].*", re.DOTALL)
_INTO: Final = ("to", "into", "in", "as", "=")
_HARDNESS: Final = re.compile(
    r"°?d?gh|°?dh|°?fh|°[fe]|°?th|°?clark|degrees clark|gpg|grains|.*hardness.*", re.IGNORECASE
)
_WATER: Final = re.compile(
    r"(?:[mµμ]g|m?mol\S*|m?eq|mval|me|g)\s*(?:/|per)\s*(?:l|litre|liter|dm3|m3)\b"
    r"|\bppm\b|[°d]?[dgfk]h\b|°?th\b|°[fe]\b|clark|\bgpg\b|grains|caco3|hco3|carbonate|ks ?4",
    re.IGNORECASE,
)
"""How an alkalinity or a hardness is written; nothing else is told the rules of water."""


def _says_water(unit: str) -> bool:
    return _WATER.search(unit) is not None


def _readers(text: str) -> tuple[_Reader, ...]:
    """Who may read a text: water by its own units, and all else by the others."""
    try:
        _, unit = split_number(text)
    except Mend:
        unit = text
    return (_alkalinity,) if _says_water(unit) else _READERS[:-1]


_CELSIUS = ("c", "°c", "degc", "deg c", "celsius")
_FAHRENHEIT = ("f", "°f", "degf", "deg f", "fahrenheit")


def _says_temperature(unit: str) -> bool:
    return unit.strip().casefold() in (*_CELSIUS, *_FAHRENHEIT)


def _temperature(text: str, unit: str) -> Converted:
    try:
        _, given_unit = split_number(text)
        if not _says_temperature(given_unit):
            raise WordedError(message("cli-convert-temperature", given=Given(text)))
        temp_c = read_temperature_c(text)
    except Mend as fault:
        raise WordedError(Prose((fault.wrong, *fault.right))) from fault
    fahrenheit = unit.strip().casefold() in _FAHRENHEIT
    value = temp_c * 9.0 / 5.0 + 32.0 if fahrenheit else temp_c
    return Converted(value, value, value, "°F" if fahrenheit else "°C", "temperature")
