"""``loamshift trial``: design a trial, print its sheets, read them back, and see what it shows."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift import __version__
from loamshift.cli.help_text import told, told_with_examples
from loamshift.cli.letter_forms import (
    ChartOption,
    Form,
    HtmlOption,
    MarkdownOption,
    PaperOption,
    PdfOption,
    paper_size,
    write_all,
)
from loamshift.cli.options import (
    JsonOption,
    Shape,
    ShapeOption,
    TodayOption,
    UnitsOption,
    WordsOption,
)
from loamshift.cli.trial_jars import jars
from loamshift.cli.trial_new import new
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from loamshift.cli.letter_forms import Paper
    from loamshift.domain.letter import Letter
    from loamshift.domain.trial import Prediction, Trial
    from loamshift.domain.trial_result import Problem, RowRead, TrialResult
    from loamshift.report.words import Words

trials = typer.Typer(no_args_is_help=True, help=told("cli-help-trial"))

TrialArgument = Annotated[Path, typer.Argument(metavar="TRIAL.toml", show_default=False)]
SheetsArgument = Annotated[list[Path] | None, typer.Argument(metavar="SHEET", show_default=False)]


def _file(name: str, text: str) -> object:
    return typer.Option(name, metavar="FILE", help=text, show_default=False)


def sheet(
    trial_file: TrialArgument,
    folder: Annotated[
        Path | None,
        typer.Option(
            "--folder", metavar="FOLDER", help=told("cli-help-trial-folder"), show_default=False
        ),
    ] = None,
    markdown: MarkdownOption = None,
    html: HtmlOption = None,
    pdf: PdfOption = None,
    paper: PaperOption = None,
    csv: Annotated[Path | None, _file("--csv", told("cli-help-trial-csv"))] = None,
    xlsx: Annotated[Path | None, _file("--xlsx", told("cli-help-trial-xlsx"))] = None,
    labels: Annotated[Path | None, _file("--labels", told("cli-help-trial-labels"))] = None,
    key: Annotated[Path | None, _file("--key", told("cli-help-trial-key"))] = None,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Write the protocol, the labels and the record sheets of a trial, and keep its forecast.

    \b
    Examples:
      loamshift trial sheet peat.toml --folder peat-trial
      loamshift trial sheet peat.toml --pdf protocol.pdf --xlsx record.xlsx
    """
    from loamshift.case.trial_read import read_trial
    from loamshift.case.trial_sheets import key_csv, record_csv, record_xlsx
    from loamshift.cli.show import clock_today, read_date, show, words_for
    from loamshift.report.trial_labels import trial_labels_pdf
    from loamshift.report.trial_plan import trial_plan_letter
    from loamshift.report.trial_record import trial_record_letter
    from loamshift.services.trial.design import plan_trial

    trial = read_trial(trial_file)
    day = read_date(today, option="--today") if today is not None else clock_today()
    reader = words_for(units, words, fallback=trial.case.units.value)
    plan = plan_trial(trial)
    prediction = _kept_or_made(trial_file, trial, day=day)
    letter = trial_plan_letter(plan, prediction, words=reader)
    record = None
    if folder is not None:
        html, pdf = html or folder / "protocol.html", pdf or folder / "protocol.pdf"
        csv, xlsx = csv or folder / "record.csv", xlsx or folder / "record.xlsx"
        labels = labels or folder / "labels.pdf"
        record = folder / "record.pdf"
        key = key or (folder / "key.csv" if trial.blind else None)
    files = _letter_files(letter, reader, markdown=markdown, html=html, pdf=pdf, paper=paper)
    if record is not None:
        sheet_for_pen = trial_record_letter(plan, words=reader)
        files |= _letter_files(sheet_for_pen, reader, pdf=record, paper=paper)
    if labels is not None:
        files[labels] = trial_labels_pdf(plan, paper=paper_size(paper, reader), words=reader)
    if csv is not None:
        files[csv] = record_csv(plan)
    if xlsx is not None:
        files[xlsx] = record_xlsx(plan)
    if key is not None:
        files[key] = key_csv(plan)
    write_all(files, never=(trial_file,), what="file")
    if not files:
        show(letter)


def read(trial_file: TrialArgument, sheets: SheetsArgument = None) -> None:
    """Read record sheets back, say what is wrong with them, and keep their readings.

    \b
    Example:
      loamshift trial read peat.toml record.xlsx
    """
    from loamshift.case.trial_read import read_trial
    from loamshift.case.trial_rows import of_trial, rows_csv
    from loamshift.cli.show import misuse, say, tell, words_for
    from loamshift.report.messages import say as say_message
    from loamshift.services.trial.design import plan_trial
    from loamshift.services.trial.understand import understand

    if not sheets:
        raise misuse(message("trial-which-sheet"), "SHEET")
    trial = read_trial(trial_file)
    rows, problems = _rows(trial_file, trial, sheets)
    plan = plan_trial(trial)
    understood = understand(plan, rows)
    kept = rows_csv(of_trial(plan, rows))
    write_all({_beside(trial_file, "readings.csv"): kept}, never=tuple(sheets), what="file")
    days = len({one.day for one in understood.readings})
    tell(message("trial-read", readings=len(understood.readings), days=days))
    reader = words_for(None, None)
    for problem in (*problems, *understood.problems):
        say(say_message(problem.said, reader))


def report(
    trial_file: TrialArgument,
    sheets: SheetsArgument = None,
    markdown: MarkdownOption = None,
    html: HtmlOption = None,
    pdf: PdfOption = None,
    paper: PaperOption = None,
    chart: ChartOption = None,
    page: Annotated[list[Path] | None, _file("--page", told("cli-help-trial-page"))] = None,
    figure: Annotated[Path | None, _file("--figure", told("cli-help-trial-figure"))] = None,
    shape: ShapeOption = Shape.SLIDE,
    data: Annotated[Path | None, _file("--data", told("cli-help-trial-data"))] = None,
    script: Annotated[Path | None, _file("--script", told("cli-help-trial-script"))] = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Say what a trial shows, in plain words, with its figure, its data and its sums.

    \b
    Examples:
      loamshift trial report peat.toml
      loamshift trial report peat.toml record.xlsx --pdf peat.pdf --chart peat.svg
      loamshift trial report peat.toml --page peat.html --figure peat.png --shape square
    """
    from loamshift.case.trial_read import read_trial
    from loamshift.case.trial_sheets import data_csv
    from loamshift.cli.show import show, words_for
    from loamshift.report.trial_recipe import trial_recipe
    from loamshift.report.trial_result import trial_letter
    from loamshift.services.trial.analyse import analyse
    from loamshift.services.trial.design import plan_trial

    _check_endings(page or (), figure)
    trial = read_trial(trial_file)
    reader = words_for(units, words, fallback=trial.case.units.value)
    rows, problems = _rows(trial_file, trial, sheets or [])
    if not rows:
        raise WordedError(message("trial-no-readings", path=given(trial_file)))
    plan = plan_trial(trial)
    prediction = _kept(trial_file)
    result = analyse(plan, rows, prediction=prediction, found=problems)
    letter = trial_letter(result, words=reader)
    files = _letter_files(letter, reader, markdown=markdown, html=html, pdf=pdf, paper=paper)
    if chart is not None:
        files[chart] = _chart(letter, chart)
    for one in page or ():
        files[one] = _page(result, one, paper, reader)
    if figure is not None:
        files[figure] = _picture(result, figure, shape, reader)
    if data is not None:
        files[data] = data_csv(plan, result.readings)
    if script is not None:
        files[script] = trial_recipe(trial)
    write_all(files, never=(trial_file, *(sheets or ())), what="file")
    if as_json:
        _print_json(result, reader)
    elif not files:
        show(letter)


def _beside(trial_file: Path, ending: str) -> Path:
    return trial_file.with_name(f"{trial_file.stem}.{ending}")


def _kept(trial_file: Path) -> Prediction | None:
    """The forecast kept beside a trial, if there is one."""
    path = _beside(trial_file, "forecast.json")
    if not path.exists():
        return None
    from loamshift.case.trial_forecast import forecast_from_json

    return forecast_from_json(path.read_text(encoding="utf-8"), source=str(path))


def _kept_or_made(trial_file: Path, trial: Trial, *, day: date) -> Prediction | None:
    """The forecast of a trial: kept as it is once there are readings, else made for it now."""
    from loamshift.case.trial_forecast import forecast_json
    from loamshift.cli.kernel_ready import ready_kernels
    from loamshift.cli.show import tell
    from loamshift.services.trial.expect import digest_of, predict

    kept = _kept(trial_file)
    read = _beside(trial_file, "readings.csv").exists()
    if kept is not None and (read or kept.digest == digest_of(trial)):
        if kept.digest != digest_of(trial):
            tell(message("trial-forecast-of-before"))
        return kept
    if read:
        tell(message("trial-too-late"))
        return None
    ready_kernels()
    made = predict(trial, today=day, version=__version__)
    if made is not None:
        write_all({_beside(trial_file, "forecast.json"): forecast_json(made)}, what="file")
    return made


def _rows(
    trial_file: Path, trial: Trial, sheets: Sequence[Path]
) -> tuple[tuple[RowRead, ...], tuple[Problem, ...]]:
    """What was kept of a trial, with what further sheets say."""
    from loamshift.case.trial_rows import merged
    from loamshift.case.trial_sheets import read_record

    kept = _beside(trial_file, "readings.csv")
    rows: tuple[RowRead, ...] = ()
    problems: tuple[Problem, ...] = ()
    for path in (*((kept,) if kept.exists() else ()), *sheets):
        found = read_record(path, trial=trial)
        rows, problems = merged(rows, found.rows), (*problems, *found.problems)
    return rows, problems


def _letter_files(
    letter: Letter,
    words: Words,
    *,
    markdown: Path | None = None,
    html: Path | None = None,
    pdf: Path | None = None,
    paper: Paper | None,
) -> dict[Path, str | bytes]:
    from loamshift.cli.letter_forms import form_of_letter

    found: dict[Path, str | bytes] = {}
    for form, path in ((Form.MD, markdown), (Form.HTML, html), (Form.PDF, pdf)):
        if path is not None:
            found[path] = form_of_letter(form, letter, words=words, paper=paper)
    return found


def _chart(letter: Letter, path: Path) -> bytes:
    from loamshift.report.chart_files import FORMATS, chart_file, letter_figures

    ending = path.suffix.casefold().removeprefix(".")
    if ending not in FORMATS:
        raise WordedError(message("cli-chart-ending", path=given(path)))
    figures = letter_figures(letter)
    if not figures:
        raise WordedError(message("trial-nothing-to-share", path=given(path)))
    return chart_file(figures[0], ending=ending)


def _page(result: TrialResult, path: Path, paper: Paper | None, words: Words) -> str | bytes:
    """The sheet for people who were not there, in the form its ending says."""
    from loamshift.report.card.html import card_html
    from loamshift.report.card.pdf import card_pdf
    from loamshift.report.trial_public import MOST_TREATMENTS, trial_card

    count = result.plan.trial.n_treatments
    if count > MOST_TREATMENTS:
        raise WordedError(message("trial-page-too-many", count=count, most=MOST_TREATMENTS))
    card, size = trial_card(result, words=words), paper_size(paper, words)
    if card is None:
        raise WordedError(message("trial-nothing-to-share", path=given(path)))
    if path.suffix.casefold() == ".pdf":
        return card_pdf(card, paper=size, words=words)
    return card_html(card, paper=size, words=words)


def _picture(result: TrialResult, path: Path, shape: Shape, words: Words) -> bytes:
    """The picture for people who were not there."""
    from loamshift.report.chart_files import chart_file
    from loamshift.report.chart_talk import ChartSize
    from loamshift.report.trial_public import trial_for_talk, trial_source

    found = trial_for_talk(result, words=words)
    if found is None:
        raise WordedError(message("trial-nothing-to-share", path=given(path)))
    return chart_file(
        found[0],
        ending=path.suffix.casefold().removeprefix("."),
        size=ChartSize(shape.value),
        source=trial_source(result, words=words),
        told=found[1],
    )


def _check_endings(page: Sequence[Path], figure: Path | None) -> None:
    from loamshift.cli.show import misuse

    if any(path.suffix.casefold() not in (".pdf", ".html") for path in page):
        raise misuse(message("trial-page-ending"), "--page")
    if figure is not None and figure.suffix.casefold() not in (".png", ".svg"):
        raise misuse(message("cli-figure-ending"), "--figure")


def _print_json(result: TrialResult, words: Words) -> None:
    from loamshift.cli.result_json import print_json
    from loamshift.report.trial_result import plain_words

    trial = result.plan.trial
    print_json(
        {
            "trial_result": 1,
            "name": trial.name,
            "question": trial.question,
            "words": plain_words(result, words=words),
            "smallest_ph": result.plan.smallest_ph,
            "days": result.days,
            "average": result.average,
            "change": result.change,
            "change_days": result.change_days,
            "slope": result.slope,
            "factors": result.factors,
            "predicted_well": result.predicted_well,
            "forecast_digest": None if result.prediction is None else result.prediction.digest,
            "problems": result.problems,
            "readings": result.readings,
        },
        words,
    )


for _command in (new, sheet, read, report, jars):
    _help = told_with_examples(f"cli-help-trial-{_command.__name__}", _command.__doc__)
    trials.command(_command.__name__, help=_help)(_command)
