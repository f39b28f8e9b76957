"""Options that say what a case file would say, for a start in one line."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told

if TYPE_CHECKING:
    from datetime import date

    from loamshift.domain.case import Case


def _text(
    name: str,
    help_text: str,
    metavar: str,
    names: Callable[[str], list[str]] | None = None,
) -> object:
    return typer.Option(
        name, metavar=metavar, help=help_text, show_default=False, autocompletion=names
    )


NameOption: TypeAlias = Annotated[
    str | None, _text("--name", told("cli-help-case-options-name"), "TEXT")
]
PlantOption: TypeAlias = Annotated[
    list[str] | None,
    typer.Option(
        "--plant",
        metavar="NAME",
        help=told("cli-help-case-options-plant"),
        show_default=False,
        autocompletion=completion.plants,
    ),
]
TargetOption: TypeAlias = Annotated[
    str | None, _text("--target-ph", told("cli-help-case-options-target-ph"), "PH")
]
PhOption: TypeAlias = Annotated[str | None, _text("--ph", told("cli-help-case-options-ph"), "PH")]
MethodOption: TypeAlias = Annotated[
    str | None,
    _text("--ph-method", told("cli-help-case-options-ph-method"), "METHOD"),
]
FizzOption: TypeAlias = Annotated[
    str | None, _text("--fizz", told("cli-help-case-options-fizz"), "CLASS")
]
FizzAcidOption: TypeAlias = Annotated[
    str | None, _text("--fizz-acid", told("cli-help-case-options-fizz-acid"), "ACID")
]
TextureOption: TypeAlias = Annotated[
    str | None,
    _text("--texture", told("cli-help-case-options-texture"), "CLASS", completion.textures),
]
OmOption: TypeAlias = Annotated[
    str | None, _text("--om", told("cli-help-case-options-om"), "PERCENT")
]
KindOption: TypeAlias = Annotated[
    str | None, _text("--kind", told("cli-help-case-options-kind"), "KIND")
]
AreaOption: TypeAlias = Annotated[
    str | None, _text("--area", told("cli-help-case-options-area"), "AREA")
]
DepthOption: TypeAlias = Annotated[
    str | None, _text("--depth", told("cli-help-case-options-depth"), "DEPTH")
]
PlantsOption: TypeAlias = Annotated[
    str | None, _text("--plants", told("cli-help-case-options-plants"), "NUMBER")
]
DiameterOption: TypeAlias = Annotated[
    str | None,
    _text("--treated-diameter", told("cli-help-case-options-treated-diameter"), "LENGTH"),
]
PlaceOption: TypeAlias = Annotated[
    str | None, _text("--place", told("cli-help-case-options-place"), "NAME", completion.places)
]
AlkalinityOption: TypeAlias = Annotated[
    str | None, _text("--alkalinity", told("cli-help-case-options-alkalinity"), "TEXT")
]
WeeklyOption: TypeAlias = Annotated[
    str | None, _text("--weekly", told("cli-help-case-options-weekly"), "TEXT")
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
    today
        The date where the answers name none.

    Raises
    ------
    CaseError
        With every fault, named by its key.
    """
    from loamshift.case.read import parse_case
    from loamshift.case.write import case_toml

    text = case_toml(answers, examples=False)
    return parse_case(text, source="what you gave", today=today)
