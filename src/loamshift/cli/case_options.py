"""Options that say what a case file would say, for a start in one line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

if TYPE_CHECKING:
    from datetime import date

    from loamshift.domain.case import Case


def _text(name: str, help_text: str, metavar: str) -> object:
    return typer.Option(name, metavar=metavar, help=help_text, show_default=False)


NameOption: TypeAlias = Annotated[str | None, _text("--name", "What to call the bed.", "TEXT")]
PlantOption: TypeAlias = Annotated[
    list[str] | None,
    typer.Option(
        "--plant",
        metavar="NAME",
        help="What is to grow; may be given more than once.",
        show_default=False,
    ),
]
TargetOption: TypeAlias = Annotated[
    str | None, _text("--target-ph", "The pH wanted, where no plant says it.", "PH")
]
PhOption: TypeAlias = Annotated[str | None, _text("--ph", "Soil pH as read.", "PH")]
MethodOption: TypeAlias = Annotated[
    str | None,
    _text("--ph-method", "How it was read: “water 1:2.5”, CaCl2, KCl, probe, strip.", "METHOD"),
]
FizzOption: TypeAlias = Annotated[
    str | None, _text("--fizz", "Fizz with acid: none, slight, moderate, strong.", "CLASS")
]
FizzAcidOption: TypeAlias = Annotated[
    str | None, _text("--fizz-acid", "The acid of the fizz test: HCl or vinegar.", "ACID")
]
TextureOption: TypeAlias = Annotated[
    str | None, _text("--texture", "Texture, as sand, loam, clay.", "CLASS")
]
OmOption: TypeAlias = Annotated[
    str | None, _text("--om", "Organic matter, % by weight.", "PERCENT")
]
KindOption: TypeAlias = Annotated[
    str | None, _text("--kind", "ground, raised, container, lawn or field.", "KIND")
]
AreaOption: TypeAlias = Annotated[str | None, _text("--area", "Area, as “20 m2”.", "AREA")]
DepthOption: TypeAlias = Annotated[
    str | None, _text("--depth", "Depth to treat, as “15 cm”.", "DEPTH")
]
PlantsOption: TypeAlias = Annotated[
    str | None, _text("--plants", "How many plants stand in it.", "NUMBER")
]
DiameterOption: TypeAlias = Annotated[
    str | None,
    _text("--treated-diameter", "Across the ring treated round each plant, as “1 m”.", "LENGTH"),
]
PlaceOption: TypeAlias = Annotated[
    str | None, _text("--place", "The nearest town that is known.", "NAME")
]
AlkalinityOption: TypeAlias = Annotated[
    str | None, _text("--alkalinity", "Alkalinity of the water, as “180 mg/L CaCO3”.", "TEXT")
]
WeeklyOption: TypeAlias = Annotated[
    str | None, _text("--weekly", "Water given in a week, as “25 mm” or “500 L”.", "TEXT")
]

Answers = dict[str, object]


NAMES = ("name", "place.name")
"""Keys whose value is a name: a text even where somebody calls a bed 12."""


def given(**answers: object) -> Answers:
    """Keys of the case file [dotted, ``__`` for the dot] with the values that were given."""
    found = {key.replace("__", "."): value for key, value in answers.items()}
    return {key: figure(key, value) for key, value in found.items() if value not in (None, [], ())}


def figure(key: str, value: object) -> object:
    """A text that is a bare number as that number; a name, and anything else, as it is."""
    if not isinstance(value, str) or key in NAMES:
        return value
    text = value.strip()
    try:
        return int(text) if text.lstrip("+-").isdigit() else float(text)
    except ValueError:
        return text


def case_from(answers: Mapping[str, object], *, today: date) -> Case:
    """The case that these answers make.

    Parameters
    ----------
    answers
        Dotted keys of the case file with values [any].
    today
        The date where the answers name none [calendar].

    Returns
    -------
    Case
        Checked by the reader of case files [object].

    Raises
    ------
    CaseError
        With every fault, named by its key.
    """
    from loamshift.case.read import parse_case
    from loamshift.case.write import case_toml

    text = case_toml(answers, examples=False)
    return parse_case(text, source="what you gave", today=today)
