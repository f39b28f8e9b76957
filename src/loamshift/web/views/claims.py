"""Claims: any material against any bed, or against a soil told in one sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import URLPattern, path, reverse
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from loamshift.domain.answer import Answer
from loamshift.domain.card import Card
from loamshift.domain.case import Case
from loamshift.domain.ph import PhMethod
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.claims_page import claims_page
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_words import lowered, material_called, sentence
from loamshift.report.words import Words
from loamshift.services.claims_asked import claims_asked
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.tables.materials import load_materials
from loamshift.web.answers import SEED, words_of
from loamshift.web.cases import Tree, case_of, text_of, tree_of, with_fields
from loamshift.web.letter_plain import letter_plain
from loamshift.web.letter_style import letter_style_name
from loamshift.web.middleware import office_of

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
        _("Coffee grounds on a neutral loam for blueberries"),
        "claim.0.material=coffee+grounds&claim.0.amount=1+kg%2Fm2&soil.texture=loam&soil.ph=7.0"
        "&aim.plant=highbush+blueberry",
    ),
    (
        _("Wood ash or garden lime on a sour plot"),
        "claim.0.material=wood+ash&claim.0.amount=100+g%2Fm2&claim.1.material=garden+lime"
        "&claim.1.amount=200+g%2Fm2&soil.texture=sandy+loam&soil.ph=5.4&aim.target_ph=6.5",
    ),
)


@dataclass(frozen=True, slots=True)
class Row:
    """One claim as it was typed, with what is wrong with it."""

    number: int
    material: str
    amount: str
    material_fault: Fault | None
    amount_fault: Fault | None


@dataclass(frozen=True, slots=True)
class Found:
    """What the page shows below the form."""

    sections: str
    faults: tuple[Fault, ...]
    about: str = ""
    called: tuple[str, ...] = ()
    """The materials settled, each of which has a card."""


@require_safe
def claims(request: HttpRequest) -> HttpResponse:
    """Ask what is claimed of which soil; the address holds both, so that it can be sent on."""
    office = office_of(request)
    said = _said(request)
    rows = _claims_said(request)
    bed = _bed(request, office)
    asked = any(material or amount for material, amount in rows)
    found = _settle(rows, said, bed, office) if asked else Found("", ())
    wrong = {fault.path: fault for fault in found.faults}
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
        "sections": found.sections,
        "about": found.about,
        "cards": [
            (f"{reverse('claim-card', args=[number])}?{request.GET.urlencode()}", called)
            for number, called in enumerate(found.called, 1)
        ],
        "elsewhere": _elsewhere(found.faults, shown, bed),
        "style": letter_style_name(),
        "examples": EXAMPLES,
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
        Fault(f"claim.{number}.material", "", gettext("no material is named"), gettext("Name it"))
        for number, (material, _amount) in enumerate(rows)
        if not material
    ]
    if not any(material for material, _amount in rows):
        return Found("", tuple(blank))
    try:
        text = _case_text(rows, said, bed)
        about, html, called = _html(text, words_of(office), _today())
    except CaseError as error:
        numbers = [number for number, (material, _amount) in enumerate(rows) if material]
        return Found("", (*blank, *(_moved(fault, numbers) for fault in error.faults)))
    except InputError as error:
        where = "" if bed else "soil.ph"
        mend = gettext("Give the pH that was read")
        return Found("", (*blank, Fault(where, "", str(error).rstrip("."), mend)))
    return Found("", tuple(blank)) if blank else Found(html, (), about, called)


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
    called = tuple(material_called(claim.material, words) for claim in answer.claims)
    return letter.subtitle, letter_plain(letter), called


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
        notes=tuple(sentence(start.sub("", n), words) for n in case.notes if start.match(n)),
        day=day,
        words=words,
    )


def _said(request: HttpRequest) -> dict[str, str]:
    return {key: request.GET.get(key, "").strip()[:LONGEST] for key in SOIL}


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the local day


def _moved(fault: Fault, numbers: Sequence[int]) -> Fault:
    """A fault with the path that the form gives the field, in words for a page."""
    match = _CLAIM.match(fault.path)
    mend = fault.mend
    if "`loamshift" in mend:
        mend = gettext("Take a name from the list that the field opens")
    mend = _in_words(mend)
    if match is None:
        return Fault(fault.path, fault.given, fault.problem, mend.rstrip("."))
    index = int(match[1]) - 1
    number = numbers[index] if index < len(numbers) else index
    key = match[2] or "amount"
    if key == "amount" and not fault.given:
        mend = gettext("Say it as 1 cup per plant, 50 g/m2, or 2 kg for the whole bed")
    return Fault(f"claim.{number}.{key}", fault.given, fault.problem, mend.rstrip("."))


def _in_words(mend: str) -> str:
    """What to do, with the names that the page has for fields in place of paths."""
    return _PATH.sub(lambda found: f"“{lowered(field_called(found[0]))}”", mend)


def _elsewhere(faults: Sequence[Fault], shown: int, bed: Bed | None) -> list[dict[str, Any]]:
    """Faults that no field of the form shows beside itself."""
    beside = {f"claim.{number}.{key}" for number in range(shown) for key in ("material", "amount")}
    if bed is None:
        beside |= set(SOIL)
    return [
        {"fault": fault, "called": field_called(fault.path) if fault.path else ""}
        for fault in faults
        if fault.path not in beside
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


ROUTES: list[URLPattern] = [path("claims/", claims, name="claims")]
