"""Sheets for one page each: the bed card, the rescue sheet, the sampling sheet, a claim's card."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final
from urllib.parse import urlencode
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.domain.card import Card, CardKind
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.errors import InputError
from loamshift.report.words import Words
from loamshift.store.models import Office
from loamshift.web.answers import answered, paper_of
from loamshift.web.cases import Tree, case_of
from loamshift.web.downloads import download
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_fault
from loamshift.web.plan.plan_page import said_in
from loamshift.web.plan.views.plan import address_of, asked_in, today
from loamshift.web.products.claim_request import asked_case
from loamshift.web.products.views.claims import card_for
from loamshift.web.wording import words_of


@require_safe
def plan_sheet(request: HttpRequest, sheet: str, pk: UUID | None = None) -> HttpResponse:
    """A sheet for the plan page, as its address tells of it."""
    make = SHEETS.get(sheet)
    if make is None:
        raise Http404
    office = office_of(request)
    bed, tree = asked_in(request, pk)
    back = f"{address_of(bed)}?{urlencode(said_in(request.GET))}"
    try:
        card = make(tree, office)
    except InputError:
        return redirect(back)
    if card is None:
        notify_fault(request, message("advice-nothing-to-put-right"))
        return redirect(back)
    return _handed_out(card, office)


@require_safe
def claim_sheet(request: HttpRequest, number: str) -> HttpResponse:
    """The card of one of the claims that the address asks about, counted from 1."""
    office = office_of(request)
    back = f"{reverse('claims')}?{request.GET.urlencode()}"
    try:
        case, answer = asked_case(request, office)
        which = int(number) if number.isdecimal() and len(number) < 3 else 0
        if not 1 <= which <= len(answer.claims):
            raise Http404
        card = card_for(case, answer, which - 1, day=today(), words=words_of(office))
        return _handed_out(card, office)
    except InputError:
        return redirect(back)  # the page tells what is wrong, field by field


def _bed_card(tree: Tree, office: Office) -> Card:
    from loamshift.report.card.bed import bed_card

    found = answered(tree, office=office, today=today())
    return bed_card(found.answer, found.case, words=found.words)


def _rescue_sheet(tree: Tree, office: Office) -> Card | None:
    from loamshift.report.card.rescue import rescue_sheet
    from loamshift.services.rescue.ask import whom_to_ask

    found = answered(tree, office=office, today=today())
    ask = whom_to_ask(found.answer, found.case)
    return rescue_sheet(found.answer, found.case, ask=ask, words=found.words)


def _sampling_sheet(tree: Tree, office: Office) -> Card:
    return sampling_card(case_of(tree, today=today()), words=words_of(office))


def sampling_card(case: Case, *, words: Words) -> Card:
    """The sheet to go out to a bed with, as large and as deep as its case says."""
    from loamshift.domain.case import BedKind
    from loamshift.report.card.sampling import sampling_sheet
    from loamshift.services.sample.walk import sample_plan
    from loamshift.services.sample.walk_points import sample_walk

    bed = case.bed
    pots = bed.count if bed.kind is BedKind.CONTAINER else 1
    plan = sample_plan(kind=bed.kind, area_m2=bed.area_m2, treated_depth_cm=bed.depth_cm, pots=pots)
    walk = sample_walk(plan, kind=bed.kind, area_m2=bed.area_m2, pots=pots)
    return sampling_sheet(plan, walk, bed=case.name or "", words=words)


def _handed_out(card: Card, office: Office) -> HttpResponse:
    from loamshift.web.letters.press import press

    data = press(card, paper=paper_of(office), words=words_of(office))
    name = f"{card.title} {NAMED[card.kind]}" if card.kind in NAMED else card.title
    return download(data, name=name, day=card.day, tail=".pdf", kind="application/pdf")


SHEETS: Final[dict[str, Callable[[Tree, Office], Card | None]]] = {
    "card": _bed_card,
    "rescue": _rescue_sheet,
    "sampling": _sampling_sheet,
}
"""Sheets by the name that addresses have for them; nothing where there is none for the bed."""

NAMED: Final = {CardKind.BED: "card", CardKind.RESCUE: "rescue"}
"""What is added to the names of sheets whose title is that of their bed, as a letter's is."""
