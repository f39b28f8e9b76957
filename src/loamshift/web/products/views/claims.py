"""Claims: any material against any bed, or against a soil told in one sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any, Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.domain.answer import Answer
from loamshift.domain.card import Card
from loamshift.domain.case import Case
from loamshift.domain.message import Given, Product, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.card.plain import card_letter
from loamshift.report.claims_page import claims_page
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.tables.materials import load_materials
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import office_of
from loamshift.web.problems import told
from loamshift.web.products.claim_request import (
    MOST,
    SOIL,
    bed_asked,
    claims_key,
    claims_said,
    claims_settled,
    local_day,
    sheet_card,
    soil_said,
)
from loamshift.web.wording import words_of

_CLAIM: Final = re.compile(r"^claim\[(\d+)\](?:\.(\w+))?")
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
    said = soil_said(request)
    rows = claims_said(request)
    bed = bed_asked(request, office)
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
    return render(request, "products/claims.html", context)


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
        key = claims_key(rows, said, bed)
        about, html, called = _html(key, words, local_day())
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
        title, about, html = _sheet_html(claims_key((), said, bed), words, local_day())
    except CaseError as error:
        return Found("", tuple(_moved(one, (), words) for one in error.faults))
    except InputError:
        return Found("", (_without_ph(bed),))
    return Found(html, (), about, title=title)


def _without_ph(bed: Bed | None) -> Fault:
    return fault("" if bed else "soil.ph", message("claims-give-ph"))


@lru_cache(maxsize=32)
def _sheet_html(key: str, words: Words, today: date) -> tuple[str, str, str]:
    """The title of the sheet, which soil it is, and the sheet about it."""
    card = sheet_card(key, words, today)
    return card.title, card.subtitle, letter_plain(card_letter(card), words=words)


@lru_cache(maxsize=128)
def _html(key: str, words: Words, today: date) -> tuple[str, str, tuple[str, ...]]:
    """Which soil it is, the page about it, and what the materials are called."""
    case, answer = claims_settled(key, today)
    letter = claims_page(answer, case, words=words)
    called = tuple(
        say(message("claim-material", material=Product(claim.material)), words)
        for claim in answer.claims
    )
    return letter.subtitle, letter_plain(letter, words=words), called


def card_for(case: Case, answer: Answer, index: int, *, day: date, words: Words) -> Card:
    """The card of one of the claims of a case.

    Parameters
    ----------
    index
        Which of them, from 0 [number].
    """
    from loamshift.report.card.claim import claim_card

    return claim_card(
        answer.claims[index],
        case,
        rate_g_m2=case.claims[index].rate_g_m2,
        notes=case.notes_on(f"claim[{index + 1}]"),
        day=day,
        words=words,
    )


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
    return fault(place, message("verbatim", text=Given(told(found, words))), given=found.given)


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
