"""``loamshift places``: the climate a calendar is reckoned from."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, UnitsOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.domain.place import Place

_POSITION: Final = re.compile(r"\s*[-+−]?\d[\d.]*\s*(?:[,;]|\s)\s*[-+−]?\d[\d.]*\s*")


def command(
    words_of_name: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="NAME",
            help=told("cli-help-places-the-name"),
            show_default=False,
            autocompletion=completion.places,
        ),
    ] = None,
    near: Annotated[
        str | None,
        typer.Option(
            "--near",
            metavar="LAT,LON",
            help=told("cli-help-places-near"),
            show_default=False,
        ),
    ] = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Search the places; one match shows its twelve months and where they come from.

    \b
    Example:
      loamshift places Minneapolis --units us
    """
    from loamshift.cli.show import misuse, show, words_for
    from loamshift.report.catalogue import place_letter, places_letter
    from loamshift.tables.places import nearest_place, search_places

    reader = words_for(units, words)
    name = " ".join(words_of_name or ())
    if near is not None and name:
        raise misuse(message("cli-name-or-position"), "--near")
    if near is not None or _POSITION.fullmatch(name):
        latitude, longitude = _position(near or name)
        found: tuple[Place, ...] = (nearest_place(latitude=latitude, longitude=longitude),)
    else:
        found = search_places(name)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"places": found}, reader)
    elif len(found) == 1:
        show(place_letter(found[0], words=reader))
    else:
        show(places_letter(found, words=reader))


def _position(text: str) -> tuple[float, float]:
    """Latitude and longitude [degrees], with a comma, a semicolon or a space between them."""
    parts = re.split(r"\s*[,;]\s*|\s+", text.strip().replace("−", "-"))
    try:
        latitude, longitude = (float(part) for part in parts)
    except ValueError as error:
        raise WordedError(message("cli-position", given=given(text))) from error
    return latitude, longitude
