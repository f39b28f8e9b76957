"""``loamshift map``: samples of a field in, a rate for each zone out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.case_options import (
    DepthOption,
    MethodOption,
    NameOption,
    OmOption,
    PlaceOption,
    PlantOption,
    TargetOption,
    TextureOption,
)
from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import PaperOption
from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption, path_given
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from loamshift.case.field.read import FieldFiles
    from loamshift.cli.letter_forms import Paper
    from loamshift.domain.case import Case
    from loamshift.domain.field import FieldMap
    from loamshift.domain.ph import PhMethod
    from loamshift.report.words import Words


def _file(name: str, text: str) -> object:
    return typer.Option(name, metavar="FILE", help=text, show_default=False)


def command(
    samples: Annotated[
        Path,
        typer.Argument(
            metavar="FILE", help=told("cli-help-map-file"), show_default=False, parser=path_given
        ),
    ],
    boundary: Annotated[Path | None, _file("--boundary", told("cli-help-map-boundary"))] = None,
    zones: Annotated[Path | None, _file("--zones", told("cli-help-map-zones"))] = None,
    case_file: Annotated[Path | None, _file("--case", told("cli-help-map-case"))] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", "-o", metavar="FOLDER", help=told("cli-help-map-out"), show_default=False
        ),
    ] = None,
    crs: Annotated[
        str | None,
        typer.Option("--crs", metavar="CODE", help=told("cli-help-map-crs"), show_default=False),
    ] = None,
    column: Annotated[
        list[str] | None,
        typer.Option(
            "--column",
            metavar="WHAT=HEADING",
            help=told("cli-help-map-column"),
            show_default=False,
        ),
    ] = None,
    ph_method: MethodOption = None,
    plant: PlantOption = None,
    target_ph: TargetOption = None,
    place: PlaceOption = None,
    texture: TextureOption = None,
    om: OmOption = None,
    depth: DepthOption = None,
    name: NameOption = None,
    cell: Annotated[
        str | None,
        typer.Option(
            "--cell", metavar="METRES", help=told("cli-help-map-cell"), show_default=False
        ),
    ] = None,
    sample_price: Annotated[
        str | None,
        typer.Option(
            "--sample-price",
            metavar="PRICE",
            help=told("cli-help-map-sample-price"),
            show_default=False,
        ),
    ] = None,
    loss_per_ha: Annotated[
        str | None,
        typer.Option(
            "--loss-per-ha",
            metavar="PRICE",
            help=told("cli-help-map-loss-per-ha"),
            show_default=False,
        ),
    ] = None,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-map-seed"))] = 1,
    paper: PaperOption = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Map a field from its samples, cut it into zones, and say what to spread on each.

    The map is drawn only where samples left out of it can be told from the others. Where they
    cannot, it says so, and the field or your own zones get one rate each.

    \b
    Examples:
      loamshift map samples.csv --boundary field.geojson --case field.toml -o map
      loamshift map samples.csv --crs EPSG:32630 --ph-method "water 1:2.5" --target-ph 6.5
      loamshift map zones.gpkg --case field.toml --json
    """
    from loamshift.case.field.read import FieldFiles, read_field
    from loamshift.cli.show import clock_today, read_date, show, words_for
    from loamshift.services.field.map import field_map

    day = read_date(today, option="--today") if today is not None else None
    base = _base(
        case_file,
        {
            "aim.plant": plant,
            "aim.target_ph": target_ph,
            "place.name": place,
            "soil.texture": texture,
            "soil.organic_matter_pct": om,
            "bed.depth": depth,
        },
        day=day,
        clock=clock_today(),
    )
    files = FieldFiles(
        samples=samples,
        boundary=boundary,
        zones=zones,
        crs=crs,
        method=_method(ph_method, base),
        columns=_columns(column or []),
        cell_m=_cell(cell),
        name=name or ("" if case_file is None else base.name),
    )
    found = field_map(
        read_field(files),
        base,
        seed=seed,
        sample_price=_money(sample_price, "--sample-price"),
        loss_per_ha_year=_money(loss_per_ha, "--loss-per-ha"),
    )
    reader = words_for(units, words, fallback=base.units.value).on("field")
    if out is not None:
        _write(found, out, files, paper=paper, words=reader)
    if as_json:
        from loamshift.cli.result_json import print_json
        from loamshift.report.field_json import field_figures

        print_json(field_figures(found), reader)
    elif out is None:
        from loamshift.report.field_letter import field_letter

        show(field_letter(found, words=reader))


def _base(
    case_file: Path | None,
    answers: Mapping[str, object],
    *,
    day: date | None,
    clock: date,
) -> Case:
    """What is said of the field as a whole: its case file, or the options."""
    from loamshift.cli.answering import case_in
    from loamshift.cli.case_options import case_from, figure

    named = {key: figure(key, value) for key, value in answers.items() if value not in (None, [])}
    if case_file is not None:
        if named:
            raise WordedError(message("map-case-or-options"))
        return case_in(case_file, day=day)
    return case_from({**named, "bed.kind": "field"}, today=day or clock)


def _method(text: str | None, base: Case) -> PhMethod | None:
    from loamshift.domain.ph import PhMethod

    if text is None:
        return None if base.soil.ph is None else base.soil.ph.method
    try:
        return PhMethod(text.strip())
    except ValueError:
        from loamshift.domain.message import Listed

        methods = Listed(tuple(given(one.value) for one in PhMethod), either=True)
        raise WordedError(message("map-method-unknown", methods=methods)) from None


def _columns(texts: list[str]) -> dict[str, str]:
    from loamshift.case.field.columns import MEANINGS

    found = {}
    for text in texts:
        what, equals, heading = text.partition("=")
        if not equals or what.strip().casefold() not in MEANINGS or not heading.strip():
            raise WordedError(message("map-column-option", given=given(text)))
        found[what.strip().casefold()] = heading.strip()
    return found


def _cell(text: str | None) -> float | None:
    if text is None:
        return None
    try:
        metres = float(text.casefold().removesuffix("m").strip())
    except ValueError:
        metres = -1.0
    if not 0.5 <= metres <= 200.0:
        raise WordedError(message("map-cell-number"))
    return metres


def _money(text: str | None, option: str) -> float | None:
    if text is None:
        return None
    try:
        amount = float(text)
    except ValueError:
        amount = -1.0
    if not 0.0 <= amount < 1e9:
        raise WordedError(message("map-price-number", option=given(option)))
    return amount


def _write(
    found: FieldMap, folder: Path, files: FieldFiles, *, paper: Paper | None, words: Words
) -> None:
    """Everything about a field into one folder, each file whole or not at all."""
    import json

    from loamshift.case.field.write import rate_files
    from loamshift.cli.letter_forms import Form, form_of_letter, paper_size, write_all
    from loamshift.cli.result_json import plain
    from loamshift.report.card.field import field_card
    from loamshift.report.card.html import card_html
    from loamshift.report.card.pdf import card_pdf
    from loamshift.report.chart_files import chart_file
    from loamshift.report.field_json import column_meanings, field_figures
    from loamshift.report.field_letter import field_letter
    from loamshift.report.figures.field import ph_figure, rates_figure

    letter, card = field_letter(found, words=words), field_card(found, words=words)
    size = paper_size(paper, words)
    made: dict[Path, str | bytes] = {
        folder / "letter.html": form_of_letter(Form.HTML, letter, words=words, paper=paper),
        folder / "letter.pdf": form_of_letter(Form.PDF, letter, words=words, paper=paper),
        folder / "driver.html": card_html(card, paper=size, words=words),
        folder / "driver.pdf": card_pdf(card, paper=size, words=words),
        folder / "rates.png": chart_file(rates_figure(found, words=words), ending="png"),
    }
    if found.no_map is None:
        made[folder / "ph.png"] = chart_file(ph_figure(found, words=words), ending="png")
    figures = plain(field_figures(found), words)
    made[folder / "field.json"] = json.dumps(figures, indent=2, ensure_ascii=False) + "\n"
    for name, data in rate_files(found, column_meanings(words)).items():
        made[folder / name] = data
    read = tuple(one for one in (files.samples, files.boundary, files.zones) if one is not None)
    write_all(made, never=read, what="file")
