"""``loamshift sample``: how to take soil so that one test speaks for the bed."""

from __future__ import annotations

from typing import Annotated

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
from loamshift.domain.case import BedKind


def command(
    kind: Annotated[
        BedKind, typer.Option("--kind", help=told("cli-help-sample-kind"))
    ] = BedKind.GROUND,
    area: Annotated[
        str | None,
        typer.Option("--area", help=told("cli-help-sample-area"), show_default=False),
    ] = None,
    depth: Annotated[
        str | None,
        typer.Option(
            "--depth",
            help=told("cli-help-sample-depth"),
            show_default=False,
        ),
    ] = None,
    uneven: Annotated[
        bool,
        typer.Option("--uneven", help=told("cli-help-sample-uneven")),
    ] = False,
    woody: Annotated[bool, typer.Option("--woody", help=told("cli-help-sample-woody"))] = False,
    pots: Annotated[int, typer.Option("--pots", help=told("cli-help-sample-pots"), min=1)] = 1,
    error: Annotated[
        float | None,
        typer.Option(
            "--error",
            metavar="PH",
            help=told("cli-help-sample-error"),
            show_default=False,
        ),
    ] = None,
    bed: Annotated[
        str | None,
        typer.Option("--bed", help=told("cli-help-sample-bed"), show_default=False),
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
    """Say how many cores to take, where, how deep, and when.

    The number of cores follows from how much single cores differ and how near the mean should
    come. One mixed sample speaks for one bed; a bed that differs in itself wants two. The sheet to
    take along has a plan of the walk, and the label to fill in.

    \b
    Examples:
      loamshift sample --kind lawn --area "300 m2" --uneven
      loamshift sample --area "20 m2" --bed "North border" --pdf sheet.pdf
    """
    check_open(open_it, html=html, pdf=pdf)
    from loamshift.cli.show import show, words_for
    from loamshift.report.sampling import sampling_letter
    from loamshift.services.sample.walk import sample_plan

    area_m2 = depth_cm = None
    if area is not None or depth is not None:
        from loamshift.cli.quantities import area_m2_from, depth_cm_from

        area_m2 = area_m2_from(area, option="--area") if area is not None else None
        depth_cm = depth_cm_from(depth, option="--depth") if depth is not None else None
    plan = sample_plan(
        kind=kind,
        area_m2=area_m2,
        uneven=uneven,
        woody=woody,
        treated_depth_cm=depth_cm,
        pots=pots,
        wanted_error_ph=error,
    )
    reader = words_for(units, words)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json(plan, reader)
    if (html or pdf or markdown) is None:
        if as_json:
            return
        show(sampling_letter(plan, words=reader))
        return
    from loamshift.report.card.sampling import sampling_sheet
    from loamshift.services.sample.walk_points import sample_walk

    walk = sample_walk(plan, kind=kind, area_m2=area_m2, pots=pots)
    write_card(
        sampling_sheet(plan, walk, bed=bed or "", words=reader),
        words=reader,
        markdown=markdown,
        html=html,
        pdf=pdf,
        paper=paper,
        open_it=open_it,
    )
