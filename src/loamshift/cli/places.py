"""``loamshift places``: the climate a calendar is reckoned from."""

from __future__ import annotations

from typing import Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import UnitsOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given


def command(
    name: Annotated[
        str,
        typer.Argument(metavar="NAME", help=told("cli-help-plants-the-name"), show_default=False),
    ] = "",
    near: Annotated[
        str | None,
        typer.Option(
            "--near",
            metavar="LAT,LON",
            help=told("cli-help-places-near"),
            show_default=False,
        ),
    ] = None,
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
    from loamshift.services.search import search_keys
    from loamshift.tables.places import load_places, nearest_place

    reader = words_for(units, words)
    if near is not None:
        if name:
            raise misuse(message("cli-name-or-position"), "--near")
        latitude, longitude = _position(near)
        show(place_letter(nearest_place(latitude=latitude, longitude=longitude), words=reader))
        return
    places = load_places()
    keys = search_keys(name, {key: (place.country,) for key, place in places.items()}, kind="place")
    if len(keys) == 1:
        show(place_letter(places[keys[0]], words=reader))
    else:
        show(places_letter([places[key] for key in keys], words=reader))


def _position(text: str) -> tuple[float, float]:
    try:
        latitude, longitude = (float(part) for part in text.split(","))
    except ValueError as error:
        raise WordedError(message("cli-position", given=given(text))) from error
    return latitude, longitude
