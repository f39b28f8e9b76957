"""Areas, lengths, weights, temperatures and laboratory figures, from text to our own units."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from loamshift.case.mend import Mend, for_example, plain_figure, quoted, shown, typed
from loamshift.case.numbers import number_from, split_number
from loamshift.case.registry import temperature_c, unit_factor
from loamshift.case.spellings import plain_unit, require_unit
from loamshift.domain.message import Given, Message, message


@dataclass(frozen=True, slots=True)
class Measure:
    """A figure in our own unit, the text it came from, and what must be said about it."""

    value: float
    """The figure [unit of the parser that made it]."""
    as_given: str
    """What stood in the file."""
    notes: tuple[Message, ...] = ()
    bare: bool = False
    """True where no unit was written."""


_SMALLEST_AREA_M2 = 0.004
_LARGEST_AREA_M2 = 1e7
_LARGEST_DEPTH_CM = 100.0
_AREA_EXAMPLE = for_example('"20 m2"', '"215 sq ft"', '"5 x 4 m"')
_LENGTH_EXAMPLE = for_example('"15 cm"', '"6 in"')
_WORKED_IN_EXAMPLE = for_example('"15 cm"', '"6 in"', "0")
_MASS_EXAMPLE = for_example('"25 kg"', '"50 lb"')
_VOLUME_EXAMPLE = for_example('"40 L"', '"10 gal"')
_SMALLEST_POT_L, _LARGEST_POT_L = 1.0, 2000.0
_TEMPERATURE_EXAMPLE = for_example('"12 C"', '"54 F"')
_SIDES = re.compile(r"\s*(?:x|×|\*|by)\s*", re.IGNORECASE)
_ROUND = re.compile(
    r"(?:(?<=[a-z.'\"′″’”] )in )?(?:diameter|diam|dia|across|ø)\.?|⌀|ø", re.IGNORECASE
)
"""Round beds: the "in" of "16 in diameter" is the unit, that of "40 cm in diameter" is not."""


def read_area_m2(value: object) -> Measure:
    """The area of one bed [m2]; a bare number is m2.

    >>> read_area_m2("215 sq ft").value, read_area_m2("5 x 4 m").value
    (19.9741536, 20.0)

    Returns
    -------
    Measure
        Area [m2].

    Raises
    ------
    Mend
        Where it is no area, or no garden's or field's area.
    """
    area, notes, bare = _area(value)
    if not area > 0.0:
        raise Mend(message("case-above-zero", given=quoted(value)), _AREA_EXAMPLE)
    if area < _SMALLEST_AREA_M2:
        raise Mend(message("case-area-too-small", given=quoted(value)), _AREA_EXAMPLE)
    if area > _LARGEST_AREA_M2:
        raise Mend(
            message("case-area-too-large", given=quoted(value)),
            _meant_or(area / 1e4, "m2", _LARGEST_AREA_M2, _AREA_EXAMPLE),
        )
    return Measure(area, shown(value), notes, bare)


def _area(value: object) -> tuple[float, tuple[Message, ...], bool]:
    if not isinstance(value, str):
        return number_from(value, _AREA_EXAMPLE), (), True
    if _ROUND.search(value):
        text = _ROUND.sub(" ", value).replace("round", " ").replace(",", ".").strip(" :=.")
        diameter_m = _length(text, "metre", _AREA_EXAMPLE)[0]
        return math.pi * diameter_m**2 / 4.0, (), False
    number, rest = split_number(value, _AREA_EXAMPLE)
    sides = _SIDES.match(rest) or _SIDES.search(rest)
    if sides and re.search(r"\d", rest[sides.end() :]):
        return _rectangle(number, rest[: sides.start()], rest[sides.end() :], value), (), False
    unit_text = plain_unit(rest)
    if not unit_text:
        return number, (), True
    unit, note = require_unit(unit_text, "area", given=value, example=_AREA_EXAMPLE)
    return number * unit_factor(unit, "metre ** 2"), (note,) if note else (), False


def _rectangle(first: float, first_unit: str, second: str, given: object) -> float:
    other, other_unit = split_number(second, _AREA_EXAMPLE)
    first_text, other_text = plain_unit(first_unit), plain_unit(other_unit)
    if not (first_text or other_text):
        sides = f'"{plain_figure(first)} x {plain_figure(other)} m"'
        feet = f'"{plain_figure(first)} x {plain_figure(other)} ft"'
        raise Mend(message("case-sides-without-unit"), for_example(sides, feet))
    (unit, _), (other_name, _) = (
        require_unit(text, "length", given=given, example=_AREA_EXAMPLE)
        for text in (first_text or other_text, other_text or first_text)
    )
    if first < 0.0 or other < 0.0:
        raise Mend(message("case-side-below-zero"), _AREA_EXAMPLE)
    return first * unit_factor(unit, "metre") * other * unit_factor(other_name, "metre")


def _length(value: object, target: str, example: Message) -> tuple[float, bool]:
    """A length in the registry unit ``target``; True where no unit was written."""
    if not isinstance(value, str):
        return number_from(value, example), True
    number, rest = split_number(value, example)
    unit_text = plain_unit(rest)
    if not unit_text:
        return number, True
    unit, _ = require_unit(unit_text, "length", given=value, example=example)
    return number * unit_factor(unit, target), False


def read_depth_cm(value: object) -> Measure:
    """A depth of soil [cm]; a bare number is cm.

    Returns
    -------
    Measure
        Depth, more than 0 and at most 100 [cm].

    Raises
    ------
    Mend
        Where it is no depth that is dug or sampled.
    """
    depth, bare = _length(value, "centimetre", _LENGTH_EXAMPLE)
    if not depth > 0.0:
        raise Mend(message("case-above-zero", given=quoted(value)), _LENGTH_EXAMPLE)
    return Measure(_below_a_metre(depth, value), shown(value), (), bare)


def read_incorporated_cm(value: object) -> Measure:
    """How deep a material was worked in [cm]; 0 or "surface" where it lies on top.

    Returns
    -------
    Measure
        Depth, 0 to 100 [cm].

    Raises
    ------
    Mend
        Where it is no depth.
    """
    if isinstance(value, str) and value.strip().casefold() in ("surface", "top", "top-dressed"):
        return Measure(0.0, shown(value))
    depth, bare = _length(value, "centimetre", _WORKED_IN_EXAMPLE)
    if depth < 0.0:
        raise Mend(message("case-below-zero", given=quoted(value)), message("case-zero-on-surface"))
    return Measure(_below_a_metre(depth, value), shown(value), (), bare)


def _below_a_metre(depth_cm: float, value: object) -> float:
    if depth_cm > _LARGEST_DEPTH_CM:
        likely = depth_cm / 10.0 if depth_cm <= 1000.0 else depth_cm / 100.0
        raise Mend(
            message("case-deeper-than-metre", given=quoted(value)),
            _meant_or(likely, "cm", _LARGEST_DEPTH_CM, _LENGTH_EXAMPLE),
        )
    return depth_cm


def _meant_or(likely: float, unit: str, most: float, example: Message) -> Message:
    """The question whether a smaller figure was meant, or an example where that is none."""
    if likely > most:
        return example
    text = Given(f'"{plain_figure(likely)} {unit}"')
    return message("case-did-you-mean", key=Given(""), example=text)


def read_diameter_cm(value: object) -> Measure:
    """The diameter of the ring treated round each plant [cm]; a bare number is cm.

    Returns
    -------
    Measure
        Diameter, 5 to 3000 [cm].

    Raises
    ------
    Mend
        Where it is no such diameter.
    """
    example = for_example('"60 cm"', '"2 ft"')
    diameter, bare = _length(value, "centimetre", example)
    if not 5.0 <= diameter <= 3000.0:
        raise Mend(message("case-no-ring", given=quoted(value)), example)
    return Measure(diameter, shown(value), (), bare)


def read_mass_g(value: object) -> Measure:
    """A weight [g]; a bare number is g.

    Returns
    -------
    Measure
        Weight [g].

    Raises
    ------
    Mend
        Where it is no weight above nought.
    """
    if isinstance(value, str):
        number, rest = split_number(value, _MASS_EXAMPLE)
        unit_text = plain_unit(rest)
        if unit_text:
            unit, _ = require_unit(unit_text, "mass", given=value, example=_MASS_EXAMPLE)
            number *= unit_factor(unit, "gram")
        bare = not unit_text
    else:
        number, bare = number_from(value, _MASS_EXAMPLE), True
    if not number > 0.0:
        raise Mend(message("case-above-zero", given=quoted(value)), _MASS_EXAMPLE)
    return Measure(number, shown(value), (), bare)


def read_volume_l(value: object) -> Measure:
    """The volume of one pot [L]; a bare number is L.

    Returns
    -------
    Measure
        Volume, 1 to 2000 [L].

    Raises
    ------
    Mend
        Where it is no volume, or no pot's.
    """
    number, bare = number_from(value, _VOLUME_EXAMPLE) if not isinstance(value, str) else 0.0, True
    if isinstance(value, str):
        number, rest = split_number(value, _VOLUME_EXAMPLE)
        unit_text = plain_unit(rest)
        bare = not unit_text
        if unit_text:
            unit, _ = require_unit(unit_text, "volume", given=value, example=_VOLUME_EXAMPLE)
            number *= unit_factor(unit, "litre")
    if not _SMALLEST_POT_L <= number <= _LARGEST_POT_L:
        raise Mend(message("case-no-pot", given=quoted(value)), _VOLUME_EXAMPLE)
    return Measure(number, shown(value), (), bare)


def read_temperature_c(value: object) -> float:
    """A temperature [degC]; a bare number is degC.

    Returns
    -------
    float
        Temperature, -60 to 60 [degC].

    Raises
    ------
    Mend
        Where it is no temperature of air or soil.
    """
    example = _TEMPERATURE_EXAMPLE
    if isinstance(value, str):
        number, rest = split_number(value, example)
        unit_text = plain_unit(rest)
        if unit_text:
            unit, _ = require_unit(unit_text, "temperature", given=value, example=example)
            number = round(temperature_c(number, unit), 9)
    else:
        number = number_from(value, example)
    if not -60.0 <= number <= 60.0:
        raise Mend(
            message("case-no-temperature", given=quoted(value)),
            message("case-letter-of-scale"),
            example,
        )
    return number


@dataclass(frozen=True, slots=True)
class Scale:
    """A laboratory figure: its unit spellings with factors, and the range that can be true."""

    name: str
    units: Mapping[str, float]
    """Spelling to factor into the canonical unit; the first one is the canonical unit."""
    low: float
    high: float
    hint: str = ""
    """Message that says what such a figure often is; empty where none does [key]."""

    @property
    def unit(self) -> str:
        """The canonical unit."""
        return next(iter(self.units))

    def read(self, value: object) -> float:
        """The figure [canonical unit] from what stood in the file.

        Raises
        ------
        Mend
            Where the unit is not one of these, or the figure cannot be true.
        """
        if isinstance(value, str):
            number, rest = split_number(value)
            number *= self._factor(rest)
        else:
            number = number_from(value)
        if not self.low <= number <= self.high:
            outside = message(
                "case-outside",
                given=quoted(value),
                low=typed(self.low),
                high=typed(self.high),
                unit=Given(self.unit),
            )
            raise Mend(outside, *((message(self.hint),) if self.hint else ()))
        return number

    def _factor(self, unit_text: str) -> float:
        if not unit_text:
            return 1.0
        wanted = unit_text.replace("μ", "u").replace("µ", "u").replace("³", "3")
        wanted = re.sub(r"\s+", "", wanted).casefold()
        for spelling, factor in self.units.items():
            if re.sub(r"\s+", "", spelling).casefold() == wanted:
                return factor
        raise Mend(
            message("case-unit-unknown-here", unit=quoted(unit_text)),
            message("case-units-known", units=Given(", ".join(u for u in self.units if u))),
        )


_PCT_UNITS: Mapping[str, float] = {"%": 1.0, "pct": 1.0, "percent": 1.0, "per cent": 1.0}
_ORGANIC_UNITS: Mapping[str, float] = {**_PCT_UNITS, "g/kg": 0.1, "dag/kg": 1.0}


def share_pct(name: str, *, high: float = 100.0, hint: str = "") -> Scale:
    """The scale of a share of something [%]."""
    return Scale(name, _PCT_UNITS, 0.0, high, hint)


ORGANIC_PCT = Scale("organic share", _ORGANIC_UNITS, 0.0, 100.0, "case-hint-organic")
CARBONATE_PCT = Scale(
    "free carbonate", {**_PCT_UNITS, "g/kg": 0.1}, 0.0, 80.0, "case-hint-carbonate"
)
CEC_CMOLC_KG = Scale(
    "cation exchange capacity",
    {
        "cmolc/kg": 1.0,
        "cmol/kg": 1.0,
        "cmol(+)/kg": 1.0,
        "meq/100 g": 1.0,
        "me/100 g": 1.0,
        "mmolc/kg": 0.1,
        "mmol/kg": 0.1,
        "mmol(+)/kg": 0.1,
    },
    0.1,
    150.0,
    "case-hint-cec",
)
ALUMINIUM_CMOLC_KG = Scale(
    "exchangeable aluminium",
    {**CEC_CMOLC_KG.units, "mg/kg": 1.0 / 89.95, "ppm": 1.0 / 89.95},
    0.0,
    40.0,
    "case-hint-aluminium",
)
MAGNESIUM_MG_KG = Scale(
    "magnesium", {"mg/kg": 1.0, "ppm": 1.0, "mg/l": 1.0, "lb/acre": 0.5}, 0.0, 5000.0
)
EC_DS_M = Scale(
    "electrical conductivity",
    {
        "dS/m": 1.0,
        "mS/cm": 1.0,
        "mmho/cm": 1.0,
        "mmhos/cm": 1.0,
        "mS/m": 0.01,
        "uS/cm": 0.001,
        "S/m": 10.0,
    },
    0.0,
    50.0,
    "case-hint-ec",
)
BULK_DENSITY_G_CM3 = Scale(
    "bulk density",
    {
        "g/cm3": 1.0,
        "g/ml": 1.0,
        "kg/l": 1.0,
        "t/m3": 1.0,
        "Mg/m3": 1.0,
        "kg/m3": 0.001,
        "g/l": 0.001,
    },
    0.03,
    2.2,
    "case-hint-bulk-density",
)
