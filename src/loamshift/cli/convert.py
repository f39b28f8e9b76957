"""``loamshift convert``: units of the trade, cups by what is in them, and pH methods."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, UnitsOption, WordsOption
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError

if TYPE_CHECKING:
    from loamshift.domain.ph import PhMethod


def command(
    typed: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="QUANTITY UNIT", help=told("cli-help-convert-the-quantity"), show_default=False
        ),
    ] = None,
    material: Annotated[
        str | None,
        typer.Option(
            "--material",
            metavar="NAME",
            help=told("cli-help-convert-material"),
            show_default=False,
            autocompletion=completion.materials,
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
    as_json: JsonOption = False,
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
        if typed or material is not None:
            raise misuse(message("cli-ph-or-quantity"), "--ph")
        if from_method is None:
            raise misuse(message("cli-how-measured"), "--from")
        _convert_ph(ph, from_method, to_method, as_json=as_json, units=units, words=words)
        return
    if from_method is not None:
        raise misuse(message("cli-from-needs-ph"), "--from")
    if not typed or len(typed) < 2:
        raise misuse(message("cli-quantity-and-unit"), "QUANTITY UNIT")
    _convert_unit(typed, material, as_json=as_json, units=units, words=words)


def _convert_unit(
    typed: list[str],
    material: str | None,
    *,
    as_json: bool,
    units: UnitsOption,
    words: WordsOption,
) -> None:
    from loamshift.cli.show import say, tell, worded, words_for
    from loamshift.cli.unit_conversion import convert_quantity, quantity_and_unit
    from loamshift.domain.digits import sensible

    quantity, unit = quantity_and_unit(typed)

    found = None
    if material is not None:
        from loamshift.tables.materials import find_material

        found = find_material(material)
    result = convert_quantity(quantity, unit, material=found)
    if as_json:
        from loamshift.cli.result_json import plain, print_json

        reader = words_for(units, words)
        print_json({"given": quantity.strip(), **plain(result, reader)}, reader)
        return
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
    as_json: bool,
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
    reader = words_for(units, words)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json(view, reader)
    else:
        show(ph_letter(view, words=reader))


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
