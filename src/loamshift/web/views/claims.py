"""Claims: any material against any bed, or against a soil told in one sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path, reverse
from django.views.decorators.http import require_safe

from loamshift.domain.answer import Answer
from loamshift.domain.card import Card
from loamshift.domain.case import Case
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.domain.message import Product, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedFault, fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.card.claims_sheet import claims_sheet_card
from loamshift.report.card.plain import card_letter
from loamshift.report.claims_page import claims_page
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_words import lowered
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.claim.sheet import claims_sheet
from loamshift.services.claims_asked import claims_asked
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.tables.materials import load_materials
from loamshift.web.answers import SEED, paper_of, words_of
from loamshift.web.cases import Tree, case_of, text_of, tree_of, with_fields
from loamshift.web.downloads import download
from loamshift.web.letter_plain import letter_plain
from loamshift.web.letter_style import letter_style_name
from loamshift.web.middleware import office_of
from loamshift.web.press import press

MOST: Final = 6
"""Claims side by side on one page."""
LONGEST: Final = 200
SOIL: Final = (
    "soil.texture",
    "soil.ph",
    "soil.ph_method",
    "aim.target_ph",
    "aim.plant",
    "bed.area",
    "bed.depth",
)
"""What is asked of a soil that is no kept bed."""
_CLAIM: Final = re.compile(r"^claim\[(\d+)\](?:\.(\w+))?")
_PATH: Final = re.compile(r"\b(?:bed|soil|aim|place|water|feed)\.[a-z_]+\b")
EXAMPLES: Final = (
    (
        "coffee",
        "claim.0.material=coffee+grounds&claim.0.amount=1+kg%2Fm2&soil.texture=loam&soil.ph=7.0"
        "&aim.plant=highbush+blueberry",
    ),
    (
        "ash",
        "claim.0.material=wood+ash&claim.0.amount=100+g%2Fm2&claim.1.material=garden+lime"
        "&claim.1.amount=200+g%2Fm2&soil.texture=sandy+loam&soil.ph=5.4&aim.target_ph=6.5",
    ),
    (
        "sheet",
        "sheet=1&soil.texture=loam&soil.ph=7.0&aim.plant=highbush+blueberry",
    ),
)
"""Addresses that ask something, by the last word of the message that names them."""


@dataclass(frozen=True, slots=True)
class Row:
    """One claim as it was typed, with what is wrong with it."""

    number: int
    material: str
    amount: str
    material_fault: Fault | None
    amount_fault: Fault | None

    @property
    def shown(self) -> int:
        """Its number for people, who count from one."""
        return self.number + 1


@dataclass(frozen=True, slots=True)
class Found:
    """What the page shows below the form."""

    sections: str
    faults: tuple[Fault, ...]
    about: str = ""
    called: tuple[str, ...] = ()
    """The materials settled, each of which has a card."""
    title: str = ""
    """That of a sheet of folk remedies."""


@require_safe
def claims(request: HttpRequest) -> HttpResponse:
    """Ask what is claimed of which soil; the address holds both, so that it can be sent on."""
    office = office_of(request)
    said = _said(request)
    rows = _claims_said(request)
    bed = _bed(request, office)
    sheet = request.GET.get("sheet") == "1"
    asked = sheet or any(material or amount for material, amount in rows)
    found = Found("", ())
    if sheet:
        found = _side_by_side(said, bed, office)
    elif asked:
        found = _settle(rows, said, bed, office)
    wrong = {one.path: one for one in found.faults}
    shown = min(len(rows) + 1, MOST) if asked else 1
    context = {
        "rows": [_row(number, rows, wrong) for number in range(shown)],
        "said": {
            key.replace(".", "_"): {"value": value, "fault": wrong.get(key)}
            for key, value in said.items()
        },
        "methods": [str(method) for method in PhMethod if str(method) != "unknown"],
        "beds": kept(Bed, office).select_related("garden__client"),
        "bed": bed,
        "asked": asked,
        "sheet": sheet,
        "query": request.GET.urlencode(),
        "sections": found.sections,
        "about": found.about,
        "cards": [
            (f"{reverse('claim-card', args=[number])}?{request.GET.urlencode()}", called)
            for number, called in enumerate(found.called, 1)
        ],
        "elsewhere": _elsewhere(found.faults, shown, bed, words_of(office)),
        "style": letter_style_name(),
        "depth_example": words_of(office).depth(15.0),
        "title": found.title,
        "examples": [(message(f"claims-example-{name}"), query) for name, query in EXAMPLES],
        "materials": sorted(material.name_uk for material in load_materials().values())
        if office.words == "uk"
        else sorted(material.name_us for material in load_materials().values()),
    }
    return render(request, "loamshift/claims/claims.html", context)


def _claims_said(request: HttpRequest) -> list[tuple[str, str]]:
    """Materials and amounts by their numbers, without the empty ones."""
    rows = []
    for number in range(MOST):
        material = request.GET.get(f"claim.{number}.material", "").strip()[:LONGEST]
        amount = request.GET.get(f"claim.{number}.amount", "").strip()[:LONGEST]
        if material or amount:
            rows.append((material, amount))
    return rows


def _settle(
    rows: Sequence[tuple[str, str]], said: Mapping[str, str], bed: Bed | None, office: Office
) -> Found:
    blank = [
        fault(f"claim.{number}.material", message("claims-no-material"))
        for number, (material, _amount) in enumerate(rows)
        if not material
    ]
    if not any(material for material, _amount in rows):
        return Found("", tuple(blank))
    words = words_of(office)
    try:
        text = _case_text(rows, said, bed)
        about, html, called = _html(text, words, _today())
    except CaseError as error:
        numbers = [number for number, (material, _amount) in enumerate(rows) if material]
        return Found("", (*blank, *(_moved(one, numbers, words) for one in error.faults)))
    except InputError:
        return Found("", (*blank, _without_ph(bed)))
    return Found("", tuple(blank)) if blank else Found(html, (), about, called)


def _side_by_side(said: Mapping[str, str], bed: Bed | None, office: Office) -> Found:
    """The sheet of folk remedies for a soil."""
    words = words_of(office)
    try:
        title, about, html = _sheet_html(_case_text((), said, bed), words, _today())
    except CaseError as error:
        return Found("", tuple(_moved(one, (), words) for one in error.faults))
    except InputError:
        return Found("", (_without_ph(bed),))
    return Found(html, (), about, title=title)


def _without_ph(bed: Bed | None) -> Fault:
    return fault("" if bed else "soil.ph", message("claims-give-ph"))


@lru_cache(maxsize=32)
def _sheet_html(text: str, words: Words, today: date) -> tuple[str, str, str]:
    """The title of the sheet, which soil it is, and the sheet about it."""
    card = _sheet_card(text, words, today)
    return card.title, card.subtitle, letter_plain(card_letter(card), words=words)


@lru_cache(maxsize=32)
def _sheet_card(text: str, words: Words, today: date) -> Card:
    return claims_sheet_card(_sheet(text, today), day=today, words=words)


@lru_cache(maxsize=32)
def _sheet(text: str, today: date) -> ClaimsSheet:
    return claims_sheet(case_of(text, today=today), seed=SEED)


def _case_text(rows: Sequence[tuple[str, str]], said: Mapping[str, str], bed: Bed | None) -> str:
    claimed = [
        {"material": material, **({"amount": amount} if amount else {})}
        for material, amount in rows
        if material
    ]
    tree: Tree = tree_of(bed.case_text) if bed else with_fields({}, said.items())
    return text_of({**tree, "claim": claimed})


@lru_cache(maxsize=128)
def _html(text: str, words: Words, today: date) -> tuple[str, str, tuple[str, ...]]:
    """Which soil it is, the page about it, and what the materials are called."""
    case, answer = _asked(text, today)
    letter = claims_page(answer, case, words=words)
    called = tuple(
        say(message("claim-material", material=Product(claim.material)), words)
        for claim in answer.claims
    )
    return letter.subtitle, letter_plain(letter, words=words), called


@lru_cache(maxsize=128)
def _asked(text: str, today: date) -> tuple[Case, Answer]:
    case = case_of(text, today=today)
    return case, claims_asked(case, seed=SEED)


def asked_case(request: HttpRequest, office: Office) -> tuple[Case, Answer]:
    """The case that an address of the page asks about, with its claims settled.

    Raises
    ------
    InputError
        Where the page would tell of a fault.
    """
    return _asked(
        _case_text(_claims_said(request), _said(request), _bed(request, office)), _today()
    )


def card_for(case: Case, answer: Answer, index: int, *, day: date, words: Words) -> Card:
    """The card of one of the claims of a case.

    Parameters
    ----------
    case
        The soil and what was claimed [object].
    answer
        The claims settled [object].
    index
        Which of them, from 0 [number].
    day
        The day it was settled [date].
    words
        Spelling and units of the reader [object].
    """
    from loamshift.report.card.claim import claim_card

    start = re.compile(rf"^claim\[{index + 1}\]\.?\w*: ")
    return claim_card(
        answer.claims[index],
        case,
        rate_g_m2=case.claims[index].rate_g_m2,
        notes=tuple(start.sub("", note) for note in case.notes if start.match(note)),
        day=day,
        words=words,
    )


def _said(request: HttpRequest) -> dict[str, str]:
    return {key: request.GET.get(key, "").strip()[:LONGEST] for key in SOIL}


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the local day


def _moved(found: Fault, numbers: Sequence[int], words: Words) -> Fault:
    """A fault with the path that the form gives the field, in words for a page."""
    match = _CLAIM.match(found.path)
    place = found.path
    if match is not None:
        index = int(match[1]) - 1
        number = numbers[index] if index < len(numbers) else index
        key = match[2] or "amount"
        place = f"claim.{number}.{key}"
        if key == "amount" and not found.given:
            return fault(place, message("claims-no-amount"), message("claims-say-amount"))
    if isinstance(found, WordedFault):
        return replace(found, path=place)
    mend = found.mend
    if "`loamshift" in mend:
        mend = say(message("claims-choose-name"), words)
    return replace(found, path=place, mend=_in_words(mend, words))


def _in_words(mend: str, words: Words) -> str:
    """What to do, with the names that the page has for fields in place of paths."""
    return _PATH.sub(lambda match: f"“{lowered(field_called(match[0], words))}”", mend)


def _elsewhere(
    faults: Sequence[Fault], shown: int, bed: Bed | None, words: Words
) -> list[dict[str, Any]]:
    """Faults that no field of the form shows beside itself."""
    beside = {f"claim.{number}.{key}" for number in range(shown) for key in ("material", "amount")}
    if bed is None:
        beside |= set(SOIL)
    return [
        {"fault": one, "called": field_called(one.path, words) if one.path else ""}
        for one in faults
        if one.path not in beside
    ]


def _row(number: int, rows: Sequence[tuple[str, str]], wrong: Mapping[str, Fault]) -> Row:
    material, amount = rows[number] if number < len(rows) else ("", "")
    return Row(
        number,
        material,
        amount,
        wrong.get(f"claim.{number}.material"),
        wrong.get(f"claim.{number}.amount"),
    )


def _bed(request: HttpRequest, office: Office) -> Bed | None:
    try:
        pk = UUID(request.GET.get("bed", ""))
    except ValueError:
        return None
    return kept(Bed, office).filter(pk=pk).first()


@require_safe
def sheet_pdf(request: HttpRequest) -> HttpResponse:
    """The sheet of folk remedies that the address asks for, on one sheet of paper."""
    office = office_of(request)
    try:
        text = _case_text((), _said(request), _bed(request, office))
        card = _sheet_card(text, words_of(office), _today())
    except InputError:
        return redirect(f"{reverse('claims')}?{request.GET.urlencode()}")
    data = press(card, paper=paper_of(office), words=words_of(office))
    return download(data, name=card.title, tail=".pdf", kind="application/pdf")


ROUTES: list[URLPattern] = [
    path("claims/", claims, name="claims"),
    path("claims/sheet.pdf", sheet_pdf, name="claims-sheet"),
]
