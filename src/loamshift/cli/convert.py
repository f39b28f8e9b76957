"""``loamshift convert``: units of the trade, cups by what is in them, and pH methods."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import UnitsOption, WordsOption
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError

if TYPE_CHECKING:
    from loamshift.domain.ph import PhMethod


def command(
    quantity: Annotated[
        str | None,
        typer.Argument(
            metavar="QUANTITY", help=told("cli-help-convert-the-quantity"), show_default=False
        ),
    ] = None,
    unit: Annotated[
        str | None,
        typer.Argument(metavar="UNIT", help=told("cli-help-convert-the-unit"), show_default=False),
    ] = None,
    material: Annotated[
        str | None,
        typer.Option(
            "--material",
            metavar="NAME",
            help=told("cli-help-convert-material"),
            show_default=False,
        ),
    ] = None,
    ph: Annotated[
        float | None,
        typer.Option("--ph", metavar="PH", help=told("cli-help-convert-ph"), show_default=False),
    ] = None,
    from_method: Annotated[
        str | None,
        typer.Option(
            "--from",
            metavar="METHOD",
            help=told("cli-help-convert-from"),
            show_default=False,
        ),
    ] = None,
    to_method: Annotated[
        str,
        typer.Option("--to", metavar="METHOD", help=told("cli-help-convert-to")),
    ] = "water",
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Turn a quantity into another unit, or a pH into another method's.

    A cup is a volume: say what is in it, and the weight comes with its range. A pH comes by
    every published conversion, the one used here first, each with its error.

    \b
    Examples:
      loamshift convert "2 lb/100 sq ft" "g/m2"
      loamshift convert "1 cup" g --material "elemental sulfur, powder"
      loamshift convert --ph 6.2 --from CaCl2 --to water
    """
    from loamshift.cli.show import misuse

    if ph is not None:
        if quantity is not None or material is not None:
            raise misuse(message("cli-ph-or-quantity"), "--ph")
        if from_method is None:
            raise misuse(message("cli-how-measured"), "--from")
        _convert_ph(ph, from_method, to_method, units=units, words=words)
        return
    if from_method is not None:
        raise misuse(message("cli-from-needs-ph"), "--from")
    if quantity is None or unit is None:
        raise misuse(message("cli-quantity-and-unit"), "QUANTITY UNIT")
    _convert_unit(quantity, unit, material)


def _convert_unit(quantity: str, unit: str, material: str | None) -> None:
    from loamshift.cli.show import say, tell, worded
    from loamshift.cli.unit_conversion import convert_quantity
    from loamshift.domain.digits import sensible

    found = None
    if material is not None:
        from loamshift.tables.materials import find_material

        found = find_material(material)
    result = convert_quantity(quantity, unit, material=found)
    if result.high > 1.005 * result.low:
        low, mid, high = (sensible(v) for v in (result.low, result.value, result.high))
        about = message(
            "cli-convert-about",
            text=Given(quantity.strip()),
            figure=Given(f"{mid} {result.unit}"),
            low=Given(low),
            high=Given(high),
        )
        say(worded(about))
    else:
        figure = Given(f"{_figure(result.value)} {result.unit}")
        say(worded(message("cli-convert-exact", text=Given(quantity.strip()), figure=figure)))
    for note in result.notes:
        tell(note)


def _figure(value: float) -> str:
    """Four digits: a conversion is exact, and the reader rounds."""
    return f"{value:,.4g}" if 1e-3 <= abs(value) < 1e4 else f"{value:,.0f}" if value else "0"


def _convert_ph(
    ph: float,
    from_method: str,
    to_method: str,
    *,
    units: UnitsOption,
    words: WordsOption,
) -> None:
    from loamshift.cli.show import show, words_for
    from loamshift.report.conversion import ph_letter
    from loamshift.services.convert import convert_ph
    from loamshift.tables.ph_methods import load_ph_conversions

    view = convert_ph(
        ph,
        from_method=_method(from_method, "--from"),
        to_method=_method(to_method, "--to"),
        conversions=tuple(load_ph_conversions()),
    )
    show(ph_letter(view, words=words_for(units, words)))


def _method(text: str, option: str) -> PhMethod:
    """A method by its word; plain “water” is the usual 1:2.5."""
    from loamshift.domain.ph import PhMethod

    wanted = text.strip().casefold().removeprefix("ph ")
    known = {method.value.casefold(): method for method in PhMethod}
    known |= {
        "water": PhMethod.WATER_1_2_5,
        "h2o": PhMethod.WATER_1_2_5,
        "cacl2 0.01 m": PhMethod.CACL2,
        "kcl 1 m": PhMethod.KCL,
        "1:1": PhMethod.WATER_1_1,
        "1:2": PhMethod.WATER_1_2,
        "1:2.5": PhMethod.WATER_1_2_5,
        "1:5": PhMethod.WATER_1_5,
    }
    try:
        return known[wanted]
    except KeyError as error:
        methods = Listed(tuple(Given(f"“{method.value}”") for method in PhMethod), either=True)
        asked = {"option": Given(option), "given": Given(text)}
        raise WordedError(message("cli-convert-method", **asked, methods=methods)) from error
