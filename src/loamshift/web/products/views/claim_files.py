"""What the page of claims hands out: the sheet on paper, and pictures for a talk or a class."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.errors import InputError
from loamshift.report.chart_files import FORMATS, chart_file
from loamshift.report.chart_talk import ChartSize
from loamshift.report.figures.talk import claims_for_talk, sheet_for_talk, talk_source
from loamshift.web.answers import paper_of
from loamshift.web.downloads import download
from loamshift.web.letters.press import press
from loamshift.web.middleware import office_of
from loamshift.web.products.claim_request import (
    asked_case,
    asked_sheet,
    local_day,
    remedies,
    sheet_card,
)
from loamshift.web.wording import words_of

_SHAPES = tuple(size.value for size in ChartSize)


@require_safe
def sheet_pdf(request: HttpRequest) -> HttpResponse:
    """The sheet of folk remedies that the address asks for, on one sheet of paper."""
    office = office_of(request)
    try:
        card = sheet_card(asked_sheet(request, office), words_of(office), local_day())
    except InputError:
        return redirect(f"{reverse('claims')}?{request.GET.urlencode()}")
    data = press(card, paper=paper_of(office), words=words_of(office))
    return download(data, name=card.title, tail=".pdf", kind="application/pdf")


@require_safe
def claims_picture(request: HttpRequest, shape: str, ending: str) -> HttpResponse:
    """What the address asks about, as a picture for a talk or a class."""
    office = office_of(request)
    words, sheet = words_of(office), request.GET.get("sheet") == "1"
    back = f"{reverse('claims')}?{request.GET.urlencode()}"
    if shape not in _SHAPES or ending not in FORMATS:
        raise Http404
    try:
        if sheet:
            found = remedies(asked_sheet(request, office), local_day())
            case, figure = found.case, sheet_for_talk(found, words=words)
        else:
            case, answer = asked_case(request, office)
            drawn = claims_for_talk(answer.claims, case, words=words)
            if drawn is None:
                return redirect(back)
            figure = drawn
    except InputError:
        return redirect(back)  # the page tells what is wrong, field by field
    source = talk_source(case, words=words, usual=sheet)
    data = chart_file(figure, ending=ending, size=ChartSize(shape), source=source)
    kind = "image/svg+xml" if ending == "svg" else "image/png"
    return download(data, name=figure.title, tail=f".{ending}", kind=kind)
