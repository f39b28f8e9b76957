"""What an address of the page of claims asks: which soil, and which materials on it."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache, partial
from typing import Final
from uuid import UUID

from django.http import HttpRequest

from loamshift.domain.answer import Answer
from loamshift.domain.card import Card
from loamshift.domain.case import Case
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.report.card.claims_sheet import claims_sheet_card
from loamshift.report.words import Words
from loamshift.services.claims_asked import claims_asked
from loamshift.services.claims_sheet import claims_sheet
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.cases import Tree, case_of, key_of, with_fields
from loamshift.web.forecasts import FORECASTS, SEED

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


def claims_said(request: HttpRequest) -> list[tuple[str, str]]:
    """Materials and amounts by their numbers, without the empty ones."""
    rows = []
    for number in range(MOST):
        material = request.GET.get(f"claim.{number}.material", "").strip()[:LONGEST]
        amount = request.GET.get(f"claim.{number}.amount", "").strip()[:LONGEST]
        if material or amount:
            rows.append((material, amount))
    return rows


def soil_said(request: HttpRequest) -> dict[str, str]:
    """What an address tells of a soil that is no kept bed, by the keys of a case."""
    return {key: request.GET.get(key, "").strip()[:LONGEST] for key in SOIL}


def local_day() -> date:
    """Today, where this machine stands."""
    return date.today()  # noqa: DTZ011 - the local day


def claims_key(rows: Sequence[tuple[str, str]], said: Mapping[str, str], bed: Bed | None) -> str:
    """A case with these claims as JSON, on a kept bed or else on the soil that was told."""
    claimed = [
        {"material": material, **({"amount": amount} if amount else {})}
        for material, amount in rows
        if material
    ]
    tree: Tree = bed.case_json if bed else with_fields({}, said.items())
    return key_of({**tree, "claim": claimed})


@lru_cache(maxsize=128)
def claims_settled(key: str, today: date) -> tuple[Case, Answer]:
    """A case as read, with the answer to its claims."""
    case = case_of(json.loads(key), today=today)
    return case, FORECASTS.take(partial(claims_asked, case, seed=SEED))


def asked_case(request: HttpRequest, office: Office) -> tuple[Case, Answer]:
    """The case that an address of the page asks about, with its claims settled.

    Raises
    ------
    InputError
        Where the page would tell of a fault.
    """
    rows, said, bed = claims_said(request), soil_said(request), bed_asked(request, office)
    return claims_settled(claims_key(rows, said, bed), local_day())


def asked_sheet(request: HttpRequest, office: Office) -> str:
    """The case as JSON, without claims, of the soil that an address asks the remedies for."""
    return claims_key((), soil_said(request), bed_asked(request, office))


@lru_cache(maxsize=32)
def sheet_card(key: str, words: Words, today: date) -> Card:
    """Folk remedies beside what the soil of a case needs, as a sheet."""
    return claims_sheet_card(remedies(key, today), day=today, words=words)


@lru_cache(maxsize=32)
def remedies(key: str, today: date) -> ClaimsSheet:
    """Folk remedies beside what the soil of a case needs."""
    case = case_of(json.loads(key), today=today)
    return FORECASTS.take(partial(claims_sheet, case, seed=SEED))


def bed_asked(request: HttpRequest, office: Office) -> Bed | None:
    """The kept bed that an address names; None where it names none of this office."""
    try:
        pk = UUID(request.GET.get("bed", ""))
    except ValueError:
        return None
    return kept(Bed, office).filter(pk=pk).first()
