"""``loamshift plants``: which pH a plant wants, and who says so."""

from __future__ import annotations

from typing import Annotated

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, UnitsOption, WordsOption


def command(
    name: Annotated[
        str,
        typer.Argument(
            metavar="NAME",
            help=told("cli-help-plants-the-name"),
            show_default=False,
            autocompletion=completion.plants,
        ),
    ] = "",
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Search the plants; one match is shown whole, with every range and its source.

    \b
    Example:
      loamshift plants blueberry
    """
    from loamshift.cli.show import show, words_for
    from loamshift.report.catalogue import plant_letter, plants_letter
    from loamshift.services.search import search_keys
    from loamshift.tables.plants import load_plants, plant_spellings

    plants = load_plants()
    keys = search_keys(name, plant_spellings(), kind="plant")
    reader = words_for(units, words)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"plants": [plants[key] for key in keys]}, reader)
    elif len(keys) == 1:
        show(plant_letter(plants[keys[0]], words=reader))
    else:
        show(plants_letter([plants[key] for key in keys], words=reader))
