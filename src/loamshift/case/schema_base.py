"""What every table of the case file shares: no unknown keys, and the common kinds of value."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from pydantic import BaseModel, ConfigDict, model_validator

from loamshift.case.mend import Mend, for_example, quoted
from loamshift.case.reads import Holds, Reads, choice, found_by_name, list_of, text
from loamshift.case.toml_string import toml_string
from loamshift.domain.message import Given, message
from loamshift.domain.message import choice as choice_key
from loamshift.domain.names import NameFault
from loamshift.domain.ph import PhMethod


class Table(BaseModel):
    """A table of the case file."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, protected_namespaces=()
    )


_AS_TYPED_IN_US: Final = {
    "area": "200 sq ft",
    "depth": "6 in",
    "length": "3 ft",
    "weight": "50 lb",
    "volume": "10 gal",
    "volume or depth": "1 in",
    "amount": "2 lb",
    "rate": "5 lb/1000 sq ft",
    "temperature": "47 F",
}


def quantity(parse: Callable[[object], object], what: str, unit: str, *, bare: str = "") -> Reads:
    """A quantity with a unit.

    Parameters
    ----------
    parse
        Reads it.
    what
        The kind of quantity, a choice in the message of what is taken.
    unit
        That of a bare number.
    bare
        What a bare number means where the unit does not say it, a choice of its message.
    """
    known = message("takes-bare", bare=choice_key(bare)) if bare else Given(unit)
    kind = message("takes-what", what=choice_key(what))
    return Reads(
        parse=parse,
        takes=message("takes-quantity", what=kind, bare=known),
        holds=Holds.QUANTITY,
        unit=unit,
        bare=known,
        example_us=_AS_TYPED_IN_US.get(what, ""),
    )


_PH_METHOD = choice(
    PhMethod,
    what="pH method",
    aliases={
        "1:1 water": "water 1:1",
        "h2o 1:1": "water 1:1",
        "1:1": "water 1:1",
        "1:2 water": "water 1:2",
        "h2o 1:2": "water 1:2",
        "1:2": "water 1:2",
        "1:2.5 water": "water 1:2.5",
        "h2o 1:2.5": "water 1:2.5",
        "water 1:2,5": "water 1:2.5",
        "1:2.5": "water 1:2.5",
        "1:5 water": "water 1:5",
        "h2o 1:5": "water 1:5",
        "1:5": "water 1:5",
        "saturated paste": "paste",
        "saturation paste": "paste",
        "0.01 m cacl2": "CaCl2",
        "cacl2 0.01 m": "CaCl2",
        "calcium chloride": "CaCl2",
        "phca": "CaCl2",
        "1 m kcl": "KCl",
        "kcl 1 m": "KCl",
        "potassium chloride": "KCl",
        "stab probe": "probe",
        "soil probe": "probe",
        "meter": "probe",
        "ph meter in soil": "probe",
        "test strip": "strip",
        "paper": "strip",
        "litmus": "strip",
        "kit": "strip",
        "test kit": "strip",
        "not known": "unknown",
        "?": "unknown",
    },
)


def _read_ph_method(value: object) -> object:
    if isinstance(value, str) and value.strip().casefold() in ("water", "h2o", "ph water"):
        raise Mend(
            message("case-water-to-soil", given=quoted(value)),
            message("case-water-as-in-report"),
            for_example('"water 1:2.5"', '"water 1:1"', '"water 1:2"', '"water 1:5"', '"unknown"'),
        )
    return _PH_METHOD.parse(value)


PH_METHOD = replace(_PH_METHOD, parse=_read_ph_method)


def _find_plant(name: str) -> object:
    from loamshift.tables.plants import find_plant

    return find_plant(name)


def _find_material(name: str) -> object:
    from loamshift.tables.materials import find_material

    return find_material(name)


PLANTS = list_of(found_by_name(_find_plant, kind="plant"), longest=50)
_SHIPPED = found_by_name(_find_material, kind="material")
LONGEST_NAME = 80
"""Characters of a product's own name."""


@dataclass(frozen=True, slots=True)
class OwnName:
    """A product's own name, where its label says what it is."""

    text: str

    def __str__(self) -> str:
        """The name as it was typed."""
        return self.text


def _read_material(value: object) -> object:
    """A shipped material; with a label the name may be the product's own."""
    if not isinstance(value, OwnName):
        return _SHIPPED.parse(value)
    name = text(longest=LONGEST_NAME).parse(value.text)
    try:
        return _find_material(str(name))
    except NameFault:
        if set(str(name)) & set("*`|"):
            plain = "".join(char for char in str(name) if char not in "*`|").strip()
            raise Mend(
                message("case-sign-in-name", given=quoted(name)),
                *((for_example(toml_string(plain)),) if plain else ()),
            ) from None
        return OwnName(str(name))


MATERIAL = replace(_SHIPPED, parse=_read_material)


class LabelledTable(Table):
    """A table with a product, which its label may describe instead of a shipped name."""

    @model_validator(mode="before")
    @classmethod
    def _take_own_name(cls, given: object) -> object:
        if (
            isinstance(given, Mapping)
            and "label" in given
            and isinstance(given.get("material"), str)
        ):
            return {**given, "material": OwnName(given["material"])}
        return given
