"""The year of a bed, a client or an office, as a page and as a PDF (``?file=pdf``)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from uuid import UUID

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.domain.letter import Figure, Letter
from loamshift.domain.message import Given, Message, message
from loamshift.errors import InputError
from loamshift.report.figures.history import history_figure
from loamshift.report.review import review_letter
from loamshift.store.models import Bed, Client
from loamshift.store.scope import kept
from loamshift.web.answers import letterhead_of, paper_of
from loamshift.web.beds.views.history import life_of
from loamshift.web.downloads import download
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.review.reviewed import reviewed, years_of
from loamshift.web.wording import words_of

MOST_YEARS = 8
"""Years that the page links to [count]."""


@require_safe
def office_review(request: HttpRequest) -> HttpResponse:
    """All beds of the office."""
    beds = kept(Bed, office_of(request))
    many = beds.values("garden__client").distinct().count() > 1
    where = "client" if many else ""
    return _page(request, beds, "review-title-office", "", back=(), with_where=where)


@require_safe
def client_review(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The beds of one client."""
    office = office_of(request)
    client = kept_or_404(request, Client, pk)
    beds = kept(Bed, office).filter(garden__client=client)
    back = ((reverse("client", args=[pk]), client.name),)
    many = beds.values("garden").distinct().count() > 1
    where = "garden" if many else ""
    return _page(request, beds, "review-title-client", client.name, back=back, with_where=where)


@require_safe
def bed_review(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One bed, with its timeline."""
    office = office_of(request)
    bed = kept_or_404(request, Bed, pk)
    back = ((reverse("bed-history", args=[pk]), bed.name),)
    beds = kept(Bed, office).filter(pk=pk)
    return _page(request, beds, "review-title-bed", bed.name, back=back, bed=bed)


def _page(
    request: HttpRequest,
    beds: QuerySet[Bed],
    title: str,
    name: str,
    *,
    back: tuple[tuple[str, str], ...],
    with_where: str = "",
    bed: Bed | None = None,
) -> HttpResponse:
    office = office_of(request)
    today = date.today()  # noqa: DTZ011 - the local day
    words = words_of(office)
    years = years_of(beds, today=today)
    asked = request.GET.get("year", "")
    year = int(asked) if asked.isdecimal() and int(asked) in years else today.year
    review = reviewed(beds, office, year=year, today=today, with_where=with_where)
    letter = review_letter(
        review,
        title=_title(title, name, year),
        words=words,
        figure=None if bed is None else _life(request, bed, today),
        letterhead=letterhead_of(office),
    )
    if request.GET.get("file") == "pdf":
        return _pdf(request, letter)
    context = {
        "letter": letter,
        "sections": letter_plain(replace(letter, letterhead=()), words=words),
        "back": back,
        "year": year,
        "years": years[:MOST_YEARS],
        "style": letter_style_name(),
    }
    return render(request, "review/review.html", context)


def _title(key: str, name: str, year: int) -> Message:
    said = Given(str(year))
    return message(key, name=Given(name), year=said) if name else message(key, year=said)


def _life(request: HttpRequest, bed: Bed, today: date) -> Figure | None:
    office = office_of(request)
    try:
        return history_figure(life_of(bed, office, today=today), words=words_of(office))
    except InputError:
        return None


def _pdf(request: HttpRequest, letter: Letter) -> HttpResponse:
    from loamshift.web.letters.press import press

    office = office_of(request)
    data = press(letter, paper=paper_of(office), words=words_of(office))
    return download(data, name=letter.title, tail=".pdf", kind="application/pdf")
