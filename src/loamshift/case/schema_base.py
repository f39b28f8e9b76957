"""What every table of the case file shares: no unknown keys, and the common kinds of value."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict, model_validator

from loamshift.case.mend import Mend, for_example, quoted
from loamshift.case.reads import Reads, choice, found_by_name, list_of, text
from loamshift.case.toml_string import toml_string
from loamshift.domain.message import message
from loamshift.domain.names import NameFault
from loamshift.domain.ph import PhMethod


class Table(BaseModel):
    """A table of the case file."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, protected_namespaces=()
    )


def quantity(parse: Callable[[object], object], kind: str, bare: str) -> Reads:
    """A quantity with a unit; a bare number means the unit ``bare``."""
    return Reads(parse, f"{kind}; a bare number is {bare}")


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


PH_METHOD = Reads(_read_ph_method, _PH_METHOD.kind, _PH_METHOD.choices)


def _find_plant(name: str) -> object:
    from loamshift.tables.plants import find_plant

    return find_plant(name)


def _find_material(name: str) -> object:
    from loamshift.tables.materials import find_material

    return find_material(name)


PLANTS = list_of(found_by_name(_find_plant, kind="plant"), what="plants", longest=50)
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


MATERIAL = Reads(_read_material, _SHIPPED.kind)


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
