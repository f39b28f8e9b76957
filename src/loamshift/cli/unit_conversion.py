"""One quantity in another unit, for ``loamshift convert``; parsers are those of the case file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from loamshift.case.amounts import Amount, read_amount, read_rate
from loamshift.case.mend import Mend
from loamshift.case.numbers import split_number
from loamshift.case.quantities import Measure, read_area_m2, read_depth_cm, read_temperature_c
from loamshift.case.water_quantities import read_alkalinity_mg_l_as_caco3
from loamshift.domain.message import Given, Message, Product, Prose, message
from loamshift.domain.worded_error import WordedError

if TYPE_CHECKING:
    from loamshift.domain.material import Material


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
    if _says_temperature(unit):
        return _temperature(text, unit)
    faults: list[Mend] = []
    seen: list[str] = []
    for read in (_rate, _amount, _area, _depth, _alkalinity):
        try:
            given = read(text)
        except Mend as fault:
            faults.append(fault)
            continue
        seen.append(given.kind)
        try:
            one = read(f"1 {unit}")
        except Mend as fault:
            faults.append(fault)
            continue
        if given.kind == one.kind:
            return _ratio(given, one, unit)
        turned = _weighed(given, one, material)
        if turned is not None:
            return _ratio(turned, one, unit)
    if seen:
        kind = "rate" if " per " in seen[0] else seen[0]
        asked = {"given": Given(text), "unit": Given(unit)}
        raise WordedError(message("cli-convert-other-kind", **asked, kind=kind))
    last = faults[-1]
    wrong = message("cli-convert-not-read", given=Given(text), fault=last.wrong)
    raise WordedError(Prose((wrong, *last.right)))


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
