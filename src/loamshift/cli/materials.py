"""``loamshift materials``: what a product brings, figure by figure."""

from __future__ import annotations

from typing import Annotated

import typer

from loamshift.cli.options import UnitsOption, WordsOption


def command(
    name: Annotated[
        str,
        typer.Argument(
            metavar="NAME",
            help="All or part of a name; form follows a comma, as “elemental sulfur, powder”.",
            show_default=False,
        ),
    ] = "",
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Search the materials; one match is shown whole, with range, evidence and source.

    \b
    Example:
      loamshift materials "sulfur"
    """
    from loamshift.cli.show import show, words_for
    from loamshift.report.catalogue import material_letter, materials_letter
    from loamshift.services.search import search_keys
    from loamshift.tables.materials import load_materials

    materials = load_materials()
    names = {
        key: (material.name_uk, material.name_us, *material.synonyms)
        for key, material in materials.items()
    }
    keys = search_keys(name, names, kind="material")
    reader = words_for(units, words)
    if len(keys) == 1:
        show(material_letter(materials[keys[0]], words=reader))
    else:
        show(materials_letter([materials[key] for key in keys], words=reader))
