"""``loamshift why``: open a number to its equation, inputs and source."""

from __future__ import annotations

from typing import Annotated

import typer

from loamshift.cli.options import UnitsOption, WordsOption


def command(
    key: Annotated[
        str | None,
        typer.Argument(
            metavar="KEY",
            help="Answer key, parameter, caution, cap, MATERIAL.FIGURE or source; none lists them.",
            show_default=False,
        ),
    ] = None,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Open a number: what it answers, its equation, what goes in, and who says so.

    \b
    Examples:
      loamshift why dose.acid_mmolc_kg
      loamshift why sampling.core_sd_even
      loamshift why "elemental sulfur, powder.bulk_density_kg_m3"
    """
    from loamshift.cli.show import show, words_for
    from loamshift.report.explanation import explanation_letter, keys_letter
    from loamshift.services.why import explain, explained_keys

    if key is None:
        show(keys_letter(explained_keys()))
    else:
        show(explanation_letter(explain(key), words=words_for(units, words)))
