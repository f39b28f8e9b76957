"""``loamshift water``: what hard water does, and the acid that takes it out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.card_forms import (
    CardHtmlOption,
    CardMarkdownOption,
    CardOpenOption,
    CardPaperOption,
    CardPdfOption,
    check_open,
    write_card,
)
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, UnitsOption, WordsOption
from loamshift.domain.message import message

if TYPE_CHECKING:
    from loamshift.domain.water import TankFill, WaterTreatment
    from loamshift.report.words import Words


def command(
    alkalinity: Annotated[
        str | None,
        typer.Argument(
            metavar="ALKALINITY",
            help=told("cli-help-water-the-alkalinity"),
            show_default=False,
        ),
    ] = None,
    ph: Annotated[
        float | None,
        typer.Option("--ph", metavar="PH", help=told("cli-help-water-ph"), show_default=False),
    ] = None,
    target_ph: Annotated[
        float | None,
        typer.Option(
            "--target-ph", metavar="PH", help=told("cli-help-water-target-ph"), show_default=False
        ),
    ] = None,
    leave: Annotated[
        str | None,
        typer.Option(
            "--leave",
            metavar="ALKALINITY",
            help=told("cli-help-water-leave"),
            show_default=False,
        ),
    ] = None,
    weekly: Annotated[
        str | None,
        typer.Option(
            "--weekly",
            metavar="DEPTH",
            help=told("cli-help-water-weekly"),
            show_default=False,
        ),
    ] = None,
    weeks: Annotated[
        int, typer.Option("--weeks", min=1, max=53, help=told("cli-help-water-weeks"))
    ] = 22,
    temp: Annotated[
        str | None,
        typer.Option("--temp", help=told("cli-help-water-temp"), show_default=False),
    ] = None,
    hardness: Annotated[
        str | None,
        typer.Option(
            "--hardness",
            help=told("cli-help-water-hardness"),
            show_default=False,
        ),
    ] = None,
    tank: Annotated[
        str | None,
        typer.Option("--tank", help=told("cli-help-water-tank"), show_default=False),
    ] = None,
    acid: Annotated[
        str | None,
        typer.Option(
            "--acid",
            help=told("cli-help-water-acid"),
            show_default=False,
        ),
    ] = None,
    markdown: CardMarkdownOption = None,
    html: CardHtmlOption = None,
    pdf: CardPdfOption = None,
    paper: CardPaperOption = None,
    open_it: CardOpenOption = False,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Say how much lime a water brings in a year, and the acid per 100 L that takes it out.

    Alkalinity counts, not the pH of the water and not its hardness. With --tank or --acid, or as a
    file, it is the card for the tank: so much of that acid, in this order.

    \b
    Examples:
      loamshift water "220 mg/L HCO3" --target-ph 5.8 --weekly "25 mm"
      loamshift water "180 mg/L CaCO3" --tank "200 L" --acid "citric" --pdf tank.pdf
    """
    from loamshift.cli.quantities import (
        alkalinity_mg_l_from,
        hardness_mg_l_from,
        temp_c_from,
        volume_l_from,
        weekly_mm_from,
    )
    from loamshift.cli.show import misuse, show, words_for
    from loamshift.report.card.plain import card_letter
    from loamshift.report.water import water_letter
    from loamshift.services.water.treat import treat_water

    check_open(open_it, html=html, pdf=pdf)
    if alkalinity is None and hardness is None:
        raise misuse(message("cli-name-alkalinity"), "ALKALINITY")
    result = treat_water(
        alkalinity_mg_l_as_caco3=None
        if alkalinity is None
        else alkalinity_mg_l_from(alkalinity, option="ALKALINITY"),
        hardness_mg_l_as_caco3=None
        if hardness is None
        else hardness_mg_l_from(hardness, option="--hardness"),
        ph_start=ph,
        target_ph=target_ph,
        target_alkalinity_mg_l_as_caco3=None
        if leave is None
        else alkalinity_mg_l_from(leave, option="--leave"),
        water_mm_year=None if weekly is None else weeks * weekly_mm_from(weekly, option="--weekly"),
        temp_c=None if temp is None else temp_c_from(temp, option="--temp"),
    )
    reader = words_for(units, words)
    if all(option is None for option in (tank, acid, markdown, html, pdf)):
        if as_json:
            _print(result, None, reader)
        else:
            show(water_letter(result, words=reader))
        return
    from loamshift.report.card.water import water_card
    from loamshift.services.water.tank import fill_tank
    from loamshift.units import US_GALLON_L

    usual_l = 100.0 * US_GALLON_L if reader.units == "us" else 100.0
    tank_l = usual_l if tank is None else volume_l_from(tank, option="--tank")
    fill = fill_tank(result, tank_l=tank_l, acid=acid)
    card = water_card(result, fill, words=reader)
    written = write_card(
        card,
        words=reader,
        markdown=markdown,
        html=html,
        pdf=pdf,
        paper=paper,
        open_it=open_it,
    )
    if as_json:
        _print(result, fill, reader)
    elif not written:
        show(card_letter(card))


def _print(result: WaterTreatment, fill: TankFill | None, reader: Words) -> None:
    """The treatment per 100 L and, where one was asked for, for the tank."""
    from loamshift.cli.result_json import print_json

    print_json({"water": result, "tank": fill}, reader)
