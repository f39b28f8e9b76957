"""What is known of a bed, as sentences with fields in them: the part of the letter one edits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from loamshift.domain.case import BedKind
from loamshift.domain.message import Given, Message, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium
from loamshift.errors import Fault
from loamshift.report.messages import say
from loamshift.report.words import Words

_HOLE: Final = re.compile("\ue000([a-z_.]+)\ue001")
_CLOSING: Final = re.compile(r"[.,;:%]+")
_SEPARATOR: Final = "; "


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """How one key of the case file is asked for inside a sentence.

    ``empty`` is what an empty field says; a field with choices says it in its first.
    """

    label: Message
    empty: Message | None = None
    example: str = ""
    example_us: str = ""
    choices: tuple[tuple[str, Message], ...] = ()
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
    choices: tuple[tuple[str, str], ...]
    suggests: str
    numeric: bool
    fault: Fault | None
    hint: str
    kept: str = ""
    closing: str = ""
    """The comma or stop that belongs behind it, and never begins a line."""

    @property
    def name(self) -> str:
        """An id that may stand in HTML."""
        return "f-" + self.path.replace(".", "-")

    @property
    def size(self) -> int:
        """Characters that show [count]."""
        return min(max(len(self.value or self.empty), 2), 34)


@dataclass(frozen=True, slots=True)
class Said:
    """Words between fields."""

    text: str


Piece = Said | Field

ASKED: Final[Mapping[str, Ask]] = {
    "bed.kind": Ask(
        label=message("facts-bed-kind"),
        choices=tuple(
            ("" if kind is None else str(kind), message("facts-kind", kind=kind))
            for kind in (None, *(str(one) for one in BedKind))
        ),
    ),
    "bed.area": Ask(
        label=message("facts-bed-area"),
        empty=message("facts-bed-area-empty"),
        example="20 m2",
        example_us="200 sq ft",
    ),
    "bed.depth": Ask(
        label=message("facts-bed-depth"),
        empty=message("facts-bed-depth-empty"),
        example="15 cm",
        example_us="6 in",
    ),
    "bed.planted": Ask(
        label=message("facts-bed-planted"),
        choices=(
            ("", message("facts-planted", planted=None)),
            ("false", message("facts-planted", planted="no")),
            ("true", message("facts-planted", planted="yes")),
        ),
    ),
    "place.name": Ask(
        label=message("facts-place-name"),
        empty=message("facts-place-name-empty"),
        example="Minneapolis",
        suggests="places",
    ),
    "soil.texture": Ask(
        label=message("facts-soil-texture"),
        empty=message("facts-soil-texture-empty"),
        example="loam",
        suggests="textures",
    ),
    "soil.medium": Ask(
        label=message("facts-soil-medium"),
        choices=(
            ("", message("facts-medium", medium=None)),
            (str(Medium.MINERAL), message("facts-medium", medium="mineral")),
            (str(Medium.PEAT_MIX), message("facts-medium", medium="peat-mix")),
            (str(Medium.BARK_MIX), message("facts-medium", medium="bark-mix")),
        ),
    ),
    "soil.organic_matter_pct": Ask(
        label=message("facts-soil-organic-matter-pct"),
        empty=message("facts-soil-organic-matter-pct-empty"),
        example="3",
        numeric=True,
    ),
    "soil.ph": Ask(
        label=message("facts-soil-ph"),
        empty=message("facts-soil-ph-empty"),
        example="7.0",
        numeric=True,
    ),
    "soil.ph_method": Ask(
        label=message("facts-soil-ph-method"),
        choices=(
            ("", message("facts-method-unknown")),
            *(
                (str(method), message("verbatim", text=Given(str(method))))
                for method in PhMethod
                if method is not PhMethod.UNKNOWN
            ),
        ),
    ),
    "soil.fizz_acid": Ask(
        label=message("facts-soil-fizz-acid"),
        choices=(
            ("", message("facts-acid", acid=None)),
            (str(FizzAcid.HCL), message("facts-acid", acid="hcl")),
            (str(FizzAcid.VINEGAR), message("facts-acid", acid="vinegar")),
        ),
    ),
    "soil.fizz": Ask(
        label=message("facts-soil-fizz"),
        choices=(
            ("", message("facts-fizz", fizz=None)),
            (str(Fizz.NONE), message("facts-fizz", fizz="no-fizz")),
            (str(Fizz.SLIGHT), message("facts-fizz", fizz="slight")),
            (str(Fizz.MODERATE), message("facts-fizz", fizz="moderate")),
            (str(Fizz.STRONG), message("facts-fizz", fizz="strong")),
            (str(Fizz.EXTREME), message("facts-fizz", fizz="extreme")),
        ),
    ),
    "aim.plant": Ask(
        label=message("facts-aim-plant"),
        empty=message("facts-aim-plant-empty"),
        example="highbush blueberry",
        suggests="plants",
    ),
    "aim.target_ph": Ask(
        label=message("facts-aim-target-ph"),
        empty=message("facts-aim-target-ph-empty"),
        example="5.0",
        numeric=True,
    ),
    "water.weekly": Ask(
        label=message("facts-water-weekly"),
        empty=message("facts-water-weekly-empty"),
        example="25 mm",
        example_us="1 in",
    ),
    "water.alkalinity": Ask(
        label=message("facts-water-alkalinity"),
        empty=message("facts-water-alkalinity-empty"),
        example="180 mg/L CaCO3",
    ),
}
"""Keys asked for in sentences; every other key has its place on the page that edits the bed."""

SENTENCES: Final[tuple[tuple[str, tuple[str, ...]], ...]] = (
    (
        "facts-bed",
        (
            "bed.kind",
            "bed.area",
            "bed.depth",
            "bed.planted",
            "place.name",
            "aim.plant",
            "aim.target_ph",
        ),
    ),
    (
        "facts-soil",
        (
            "soil.medium",
            "soil.texture",
            "soil.organic_matter_pct",
            "soil.ph",
            "soil.ph_method",
            "soil.fizz_acid",
            "soil.fizz",
        ),
    ),
    ("facts-water", ("water.weekly", "water.alkalinity")),
)
"""Messages with the keys whose fields stand in them."""


def facts(
    tree: Mapping[str, Any],
    *,
    words: Words,
    faults: Sequence[Fault] = (),
    kept: Mapping[str, Any] | None = None,
) -> tuple[tuple[Piece, ...], ...]:
    """The sentences about a bed with their fields filled in.

    Parameters
    ----------
    words
        The reader; the units are those of examples where a field is empty.
    kept
        The case file as it is kept, where it is; a field that says the same is no change.
    """
    wrong = {fault.path: fault for fault in faults}
    return tuple(
        tuple(_pieces(key, names, tree, words, wrong, kept or {})) for key, names in SENTENCES
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
    key: str,
    names: Sequence[str],
    tree: Mapping[str, Any],
    words: Words,
    wrong: Mapping[str, Fault],
    kept: Mapping[str, Any],
) -> Iterator[Piece]:
    """A sentence parted at its fields, in the order that its language wants."""
    holes = {name.replace(".", "_"): Given(f"\ue000{name}\ue001") for name in names}
    sentence = say(message(key, **holes), words)
    end = 0
    for hole in _HOLE.finditer(sentence):
        if hole.start() > end:
            yield Said(sentence[end : hole.start()])
        found = field_of(hole.group(1), tree, words=words, wrong=wrong, kept=kept)
        end = hole.end()
        closing = _CLOSING.match(sentence, end)
        if closing is not None:
            found, end = replace(found, closing=closing[0]), closing.end()
        yield found
    if end < len(sentence):
        yield Said(sentence[end:])


def field_of(
    path: str,
    tree: Mapping[str, Any],
    *,
    words: Words,
    wrong: Mapping[str, Fault] | None = None,
    kept: Mapping[str, Any] | None = None,
) -> Field:
    """One field that stands in a sentence, as it is now."""
    asked = ASKED[path]
    value = value_at(tree, path)
    example = asked.example_us if words.units == "us" and asked.example_us else asked.example
    choices = tuple((known, say(what, words)) for known, what in asked.choices)
    if choices and value not in (known for known, _text in choices):
        choices = (*choices, (value, value))
    label = say(asked.label, words)
    hint = message("facts-hint", label=Given(label), example=Given(example))
    return Field(
        path=path,
        label=label,
        value=value,
        empty=say(asked.empty, words) if asked.empty else choices[0][1] if choices else "",
        example=example,
        choices=choices,
        suggests=asked.suggests,
        numeric=asked.numeric,
        fault=(wrong or {}).get(path),
        hint=say(hint, words) if example else label,
        kept=value_at(kept or {}, path),
    )
