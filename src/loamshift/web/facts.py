"""What is known of a bed, as sentences with fields in them: the part of the letter one edits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.utils.translation import gettext_lazy as _

from loamshift.domain.case import BedKind
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium
from loamshift.errors import Fault

_HOLE: Final = re.compile(r"\{([a-z_.]+)\}")
_SEPARATOR: Final = "; "


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """How one key of the case file is asked for inside a sentence."""

    label: Any
    empty: Any
    example: str = ""
    example_us: str = ""
    choices: tuple[tuple[str, Any], ...] = ()
    suggests: str = ""
    numeric: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field as it stands on the page: value, what to say where it is empty, its fault."""

    path: str
    label: str
    value: str
    empty: str
    example: str
    choices: tuple[tuple[str, Any], ...]
    suggests: str
    numeric: bool
    fault: Fault | None
    kept: str = ""

    @property
    def name(self) -> str:
        """An id that may stand in HTML."""
        return "f-" + self.path.replace(".", "-")

    @property
    def size(self) -> int:
        """Characters that show [count]."""
        return min(max(len(self.value or self.empty), 2), 34)

    @property
    def hint(self) -> str:
        """The label with an example, for those who point at the field."""
        return f"{self.label}, for example {self.example}" if self.example else self.label


@dataclass(frozen=True, slots=True)
class Said:
    """Words between fields."""

    text: str


Piece = Said | Field

_METHODS = tuple((str(method), str(method)) for method in PhMethod)
ASKED: Final[Mapping[str, Ask]] = {
    "bed.kind": Ask(
        label=_("What it is"),
        empty=_("a bed"),
        choices=(
            ("", _("A bed")),
            (str(BedKind.GROUND), _("A bed in the ground")),
            (str(BedKind.RAISED), _("A raised bed")),
            (str(BedKind.CONTAINER), _("A pot")),
            (str(BedKind.LAWN), _("A lawn")),
            (str(BedKind.FIELD), _("A field")),
        ),
    ),
    "bed.area": Ask(label=_("Area"), empty=_("any size"), example="20 m2", example_us="200 sq ft"),
    "bed.depth": Ask(label=_("Depth worked"), empty=_("15 cm"), example="15 cm", example_us="6 in"),
    "bed.planted": Ask(
        label=_("Planted already"),
        empty=_("not planted yet"),
        choices=(
            ("", _("perhaps planted")),
            ("false", _("not planted yet")),
            ("true", _("planted")),
        ),
    ),
    "place.name": Ask(
        label=_("Place"), empty=_("a place"), example="Minneapolis", suggests="places"
    ),
    "soil.texture": Ask(
        label=_("Texture"), empty=_("any texture"), example="loam", suggests="textures"
    ),
    "soil.medium": Ask(
        label=_("What the roots stand in"),
        empty=_("soil"),
        choices=(
            ("", _("soil")),
            (str(Medium.MINERAL), _("mineral soil")),
            (str(Medium.PEAT_MIX), _("a peat mix")),
            (str(Medium.BARK_MIX), _("a bark mix")),
        ),
    ),
    "soil.organic_matter_pct": Ask(
        label=_("Organic matter, per cent"), empty=_("some"), example="3", numeric=True
    ),
    "soil.ph": Ask(label=_("pH read"), empty=_("not read"), example="7.0", numeric=True),
    "soil.ph_method": Ask(
        label=_("How the pH was read"),
        empty=_("an unknown method"),
        choices=(("", _("an unknown method")), *((m, m) for m, _x in _METHODS if m != "unknown")),
    ),
    "soil.fizz_acid": Ask(
        label=_("Acid of the fizz test"),
        empty=_("acid"),
        choices=(
            ("", _("acid")),
            (str(FizzAcid.HCL), _("hydrochloric acid")),
            (str(FizzAcid.VINEGAR), _("vinegar")),
        ),
    ),
    "soil.fizz": Ask(
        label=_("Fizz"),
        empty=_("was not tried"),
        choices=(
            ("", _("was not tried")),
            (str(Fizz.NONE), _("did not fizz")),
            (str(Fizz.SLIGHT), _("fizzed slightly")),
            (str(Fizz.MODERATE), _("fizzed moderately")),
            (str(Fizz.STRONG), _("fizzed strongly")),
            (str(Fizz.EXTREME), _("fizzed extremely")),
        ),
    ),
    "aim.plant": Ask(
        label=_("Plant wanted"), empty=_("a plant"), example="highbush blueberry", suggests="plants"
    ),
    "aim.target_ph": Ask(
        label=_("pH aimed at"), empty=_("what the plant likes"), example="5.0", numeric=True
    ),
    "water.weekly": Ask(
        label=_("Water a week"), empty=_("nothing"), example="25 mm", example_us="1 in"
    ),
    "water.alkalinity": Ask(
        label=_("Alkalinity of the water"), empty=_("unknown"), example="180 mg/L CaCO3"
    ),
}
"""Keys asked for in sentences; every other key has its place on the page that edits the bed."""

SENTENCES: Final = (
    _(
        "{bed.kind} of {bed.area}, worked {bed.depth} deep, {bed.planted}, near {place.name}. "
        "It is wanted for {aim.plant}; the pH to reach is {aim.target_ph}."
    ),
    _(
        "Roots stand in {soil.medium}: {soil.texture}, {soil.organic_matter_pct} % organic matter. "
        "It reads pH {soil.ph} by {soil.ph_method}; a drop of {soil.fizz_acid} {soil.fizz}."
    ),
    _("Watering brings it {water.weekly} a week in the season, of {water.alkalinity} alkalinity."),
)


def facts(
    tree: Mapping[str, Any],
    *,
    units: str = "metric",
    faults: Sequence[Fault] = (),
    kept: Mapping[str, Any] | None = None,
) -> tuple[tuple[Piece, ...], ...]:
    """The sentences about a bed with their fields filled in.

    Parameters
    ----------
    tree
        The case file as tables [object].
    units
        Units of the examples where a field is empty: metric or us [text].
    faults
        What the reader found wrong [objects].
    kept
        The case file as it is kept, where it is; a field that says the same is no change [object].

    Returns
    -------
    tuple of tuple of Piece
        One tuple of words and fields for each sentence [objects].
    """
    wrong = {fault.path: fault for fault in faults}
    return tuple(
        tuple(_pieces(str(sentence), tree, units, wrong, kept or {})) for sentence in SENTENCES
    )


def faults_elsewhere(faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """Faults of keys that no sentence asks for, to be told above the letter."""
    return tuple(fault for fault in faults if fault.path not in ASKED)


def value_at(tree: Mapping[str, Any], path: str) -> str:
    """The value of a key as a text; empty where nothing stands there."""
    node: Any = tree
    for key in path.split("."):
        if not isinstance(node, Mapping) or key not in node:
            return ""
        node = node[key]
    if isinstance(node, bool):
        return "true" if node else "false"
    if isinstance(node, list):
        return _SEPARATOR.join(str(item) for item in node)
    return str(node)


def _pieces(
    sentence: str,
    tree: Mapping[str, Any],
    units: str,
    wrong: Mapping[str, Fault],
    kept: Mapping[str, Any],
) -> Iterator[Piece]:
    end = 0
    for hole in _HOLE.finditer(sentence):
        if hole.start() > end:
            yield Said(sentence[end : hole.start()])
        yield field_of(hole.group(1), tree, units=units, wrong=wrong, kept=kept)
        end = hole.end()
    if end < len(sentence):
        yield Said(sentence[end:])


def field_of(
    path: str,
    tree: Mapping[str, Any],
    *,
    units: str = "metric",
    wrong: Mapping[str, Fault] | None = None,
    kept: Mapping[str, Any] | None = None,
) -> Field:
    """One field that stands in a sentence, as it is now."""
    asked = ASKED[path]
    value = value_at(tree, path)
    example = asked.example_us if units == "us" and asked.example_us else asked.example
    choices = asked.choices
    if choices and value not in (known for known, _said in choices):
        choices = (*choices, (value, value))
    return Field(
        path=path,
        label=str(asked.label),
        value=value,
        empty=str(asked.empty),
        example=example,
        choices=choices,
        suggests=asked.suggests,
        numeric=asked.numeric,
        fault=(wrong or {}).get(path),
        kept=value_at(kept or {}, path),
    )
