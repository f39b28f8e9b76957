"""What a trial gives to take along: its sheets, its result, and a page for everybody."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import URLPattern, path
from django.views.decorators.http import require_safe

from loamshift.case.trial_sheets import data_csv, key_csv, record_csv, record_xlsx
from loamshift.domain.message import message
from loamshift.domain.trial_result import TrialResult
from loamshift.domain.worded_error import WordedError
from loamshift.errors import InputError
from loamshift.report.card.html import card_html
from loamshift.report.chart_files import chart_file
from loamshift.report.chart_talk import ChartSize
from loamshift.report.html import letter_html
from loamshift.report.pdf import PaperSize
from loamshift.report.trial_labels import trial_labels_pdf
from loamshift.report.trial_plan import trial_plan_letter
from loamshift.report.trial_public import trial_card, trial_for_talk, trial_source
from loamshift.report.trial_recipe import trial_recipe
from loamshift.report.trial_record import trial_record_letter
from loamshift.report.trial_result import trial_letter
from loamshift.report.words import Words
from loamshift.services.trial.understand import understand
from loamshift.store.models import Trial
from loamshift.web.answers import paper_of
from loamshift.web.downloads import download
from loamshift.web.letters.press import press
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_fault
from loamshift.web.trials.opened import Opened, opened, result_of
from loamshift.web.trials.views.trial import kept_trial
from loamshift.web.wording import words_for

PDF: Final = "application/pdf"
HTML: Final = "text/html; charset=utf-8"
CSV: Final = "text/csv; charset=utf-8"
XLSX: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
TEXT: Final = "text/plain; charset=utf-8"
Maker = Callable[[Opened, Trial, Words, PaperSize], "bytes | str"]


def _protocol_pdf(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    letter = trial_plan_letter(there.plan, there.prediction, words=words, door="pages")
    return press(letter, paper=paper, words=words)


def _protocol_html(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    letter = trial_plan_letter(there.plan, there.prediction, words=words, door="pages")
    return letter_html(letter, words=words)


def _labels(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    return trial_labels_pdf(there.plan, paper=paper, words=words)


def _record_pdf(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    return press(trial_record_letter(there.plan, words=words), paper=paper, words=words)


def _record_csv(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return record_csv(there.plan, understand(there.plan, there.rows).readings)


def _record_xlsx(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    return record_xlsx(there.plan, understand(there.plan, there.rows).readings)


def _key(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return key_csv(there.plan)


def _file(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return kept.trial_text


def _forecast(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    if not kept.forecast_text:
        raise WordedError(message("trial-forecast-none"))
    return kept.forecast_text


def _report_pdf(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    return press(trial_letter(_read(there, kept), words=words), paper=paper, words=words)


def _report_html(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return letter_html(trial_letter(_read(there, kept), words=words), words=words)


def _data(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return data_csv(there.plan, _read(there, kept).readings)


def _script(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    return trial_recipe(there.trial)


def _page_pdf(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
    card = trial_card(_read(there, kept), words=words)
    if card is None:
        raise _nothing()
    return press(card, paper=paper, words=words)


def _page_html(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> str:
    card = trial_card(_read(there, kept), words=words)
    if card is None:
        raise _nothing()
    return card_html(card, paper=paper, words=words)


def _picture(size: ChartSize, ending: str = "png") -> Maker:
    def draw(there: Opened, kept: Trial, words: Words, paper: PaperSize) -> bytes:
        result = _read(there, kept)
        found = trial_for_talk(result, words=words)
        if found is None:
            raise _nothing()
        source = trial_source(result, words=words)
        return chart_file(found[0], ending=ending, size=size, source=source, told=found[1])

    return draw


def _read(there: Opened, kept: Trial) -> TrialResult:
    if not there.rows:
        raise _nothing()
    return result_of(there, kept)


def _nothing() -> WordedError:
    return WordedError(message("trial-page-nothing-to-share"))


MAKERS: Final[Mapping[str, tuple[Maker, str]]] = {
    "protocol.pdf": (_protocol_pdf, PDF),
    "protocol.html": (_protocol_html, HTML),
    "labels.pdf": (_labels, PDF),
    "record.pdf": (_record_pdf, PDF),
    "record.csv": (_record_csv, CSV),
    "record.xlsx": (_record_xlsx, XLSX),
    "key.csv": (_key, CSV),
    "trial.toml": (_file, TEXT),
    "forecast.json": (_forecast, "application/json"),
    "report.pdf": (_report_pdf, PDF),
    "report.html": (_report_html, HTML),
    "data.csv": (_data, CSV),
    "script.py": (_script, TEXT),
    "page.pdf": (_page_pdf, PDF),
    "page.html": (_page_html, HTML),
    "picture.png": (_picture(ChartSize.SLIDE), "image/png"),
    "square.png": (_picture(ChartSize.SQUARE), "image/png"),
    "picture.svg": (_picture(ChartSize.SLIDE, "svg"), "image/svg+xml"),
}
"""Every file by its name, with what makes it and its kind."""


@require_safe
def trial_file(request: HttpRequest, pk: UUID, file: str) -> HttpResponse:
    """One file of a trial."""
    if file not in MAKERS:
        raise Http404
    one = kept_trial(request, pk)
    make, kind = MAKERS[file]
    words, paper = words_for(request), paper_of(office_of(request))
    try:
        data = make(opened(one), one, words, paper)
    except InputError as error:
        notify_fault(request, error)
        return redirect("trial", pk=pk)
    stem, _, ending = file.partition(".")
    return download(data, name=one.name, tail=f"-{stem}.{ending}", kind=kind)


ROUTES: list[URLPattern] = [
    path("trials/<uuid:pk>/files/<str:file>", trial_file, name="trial-file"),
]
