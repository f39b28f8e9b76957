"""``loamshift materials``: what a product brings, figure by figure."""

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
            help=told("cli-help-materials-the-name"),
            show_default=False,
            autocompletion=completion.materials,
        ),
    ] = "",
    label: Annotated[
        str,
        typer.Option(
            "--label",
            metavar="FIGURES",
            help=told("cli-help-materials-label"),
            show_default=False,
        ),
    ] = "",
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Search the materials; one match is shown whole, with range, evidence and source.

    \b
    Examples:
      loamshift materials "sulfur"
      loamshift materials "Heath Feed" --label "n_ammonium = 8, n_urea = 4, so3 = 22"
    """
    if label:
        _show_label(name, label, as_json=as_json, units=units, words=words)
        return
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
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"materials": [materials[key] for key in keys]}, reader)
    elif len(keys) == 1:
        show(material_letter(materials[keys[0]], words=reader))
    else:
        show(materials_letter([materials[key] for key in keys], words=reader))


def _show_label(
    name: str, label: str, *, as_json: bool, units: UnitsOption, words: WordsOption
) -> None:
    """What a bag brings by its analysis, and the figures that follow from it."""
    from loamshift.case.build_label import product_from_label
    from loamshift.cli.show import say, show, worded, words_for
    from loamshift.domain.case import OnHand
    from loamshift.domain.message import message
    from loamshift.domain.worded_error import given
    from loamshift.report.catalogue import material_letter
    from loamshift.report.shelf import brings_said
    from loamshift.services.shelf import shelf_prices

    reader = words_for(units, words)
    unnamed = worded(message("cli-this-product"), reader)
    material = product_from_label(name or unnamed, label)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"materials": [material]}, reader)
        return
    (brought,) = shelf_prices((OnHand(material=material),))
    adds = {"name": given(material.key), "text": given(brings_said(brought, words=reader))}
    say(worded(message("cli-product-adds", **adds), reader))
    show(material_letter(material, words=reader))
