"""Answers to cases: the whole answer as ``loamshift advise --json`` gives it, and claims."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from functools import partial
from typing import Annotated, Any, Final, Literal

from django.http import HttpRequest, HttpResponse
from ninja import Query, Router, Schema
from pydantic import Field

from loamshift.case.answer import answer_to_json
from loamshift.case.frozen import FrozenLetter
from loamshift.case.read import case_from_tree
from loamshift.case.said import in_words
from loamshift.case.toml_text import parse_toml
from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Case
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.claim.settle import settle_claim
from loamshift.services.own_sum.margin import margin_sums
from loamshift.web.api.cases import SOURCE, case_given, case_in_body, clock_today, table
from loamshift.web.api.door import forecasting
from loamshift.web.api.faults import RefusedOut
from loamshift.web.api.shapes import CaseIn
from loamshift.web.forecasts import MEMBERS
from loamshift.web.wording import words_for

MOST_MEMBERS: Final = 2000
MOST_YEARS: Final = 10
SEED: Final = 1
MOST_CLAIMS: Final = 20

router = Router(tags=["answers"])


class AdviseQuery(Schema):
    """How a case is to be answered."""

    members: Annotated[
        int, Field(ge=3, le=MOST_MEMBERS, description="Possible beds the forecast runs.")
    ] = MEMBERS
    seed: Annotated[int, Field(ge=0, le=2**32 - 1)] = SEED
    years: Annotated[int, Field(ge=1, le=MOST_YEARS)] = 3
    forecast: Annotated[bool, Field(description="False for the static answer alone.")] = True
    refit: Annotated[bool, Field(description="False goes by the latest reading alone.")] = True
    today: Annotated[
        date | None, Field(description="The day of advice where the case names none.")
    ] = None
    units: Literal["metric", "us"] | None = None
    words: Literal["uk", "us"] | None = None


class AnswerOut(Schema):
    """Stands for the answer in the description; the whole schema is put in its place."""


@router.post(
    "/advise",
    response={200: AnswerOut, **dict.fromkeys((400, 401, 403, 413, 415, 422, 429), RefusedOut)},
    summary="Answer a case",
    openapi_extra={
        "requestBody": {
            "required": True,
            "content": {
                "application/json": {"schema": {"$ref": "#/components/schemas/CaseFile"}},
                "application/toml": {"schema": {"type": "string", "maxLength": 1_000_000}},
            },
        }
    },
)
def answer_case(request: HttpRequest, asked: Query[AdviseQuery]) -> HttpResponse:
    """The answer to a case: verdict, dose, parts, forecast, the case and its letter.

    Exactly what `loamshift advise --json` writes for the same case and options.
    """
    case = case_in_body(request, today=asked.today)
    look_ahead = None
    if asked.forecast:
        look_ahead = LookAhead(
            members=asked.members, seed=asked.seed, years=asked.years, refit=asked.refit
        )
    work = partial(advise, case, look_ahead=look_ahead)
    answer = forecasting(request, work) if asked.forecast else work()
    units = asked.units or case.units.value
    words = Words(spelling=asked.words or ("us" if units == "us" else "uk"), units=units)
    letter = FrozenLetter(
        letter_from_answer(answer, case, words=words, sums=margin_sums(case, answer)), words
    )
    return json_text(answer_to_json(answer, case=case, letter=letter))


def json_text(text: str) -> HttpResponse:
    """JSON that is written already."""
    return HttpResponse(text, content_type="application/json")


class ClaimsIn(CaseIn):
    """A case, and what is claimed for it: material with amount or rate, as the case file has it."""

    claims: Annotated[list[dict[str, Any]], Field(min_length=1, max_length=MOST_CLAIMS)]
    forecast: bool = True


class ClaimOut(Schema):
    """What one material would do; acid [mmolc/m2], pH changes, and a sentence or two."""

    material: str
    acid_brought_mmolc_m2: float
    acid_needed_mmolc_m2: float
    share: float | None
    ph_change_now: float | None
    ph_change_1_year: float | None
    comment: str


class ClaimsOut(Schema):
    """Claims, in the order they were given."""

    claims: list[ClaimOut]


@router.post(
    "/claims",
    response={200: ClaimsOut, **dict.fromkeys((400, 401, 403, 413, 422, 429), RefusedOut)},
    summary="Settle claims",
)
def settle(request: HttpRequest, given: ClaimsIn) -> Any:
    """What each claimed material would really do to the bed of a case; each on its own."""
    case = case_from_tree(
        table({**_tree(given), "claim": given.claims}), source=SOURCE, today=clock_today()
    )
    work = partial(_settled, case, SEED if given.forecast else None)
    settled = forecasting(request, work) if given.forecast else work()
    words = words_for(request)
    return {"claims": [asdict(in_words(one, words, {})) for one in settled]}


def _settled(case: Case, seed: int | None) -> list[ClaimResult]:
    return [settle_claim(case, entry, seed=seed) for entry in case.claims]


def _tree(given: CaseIn) -> Mapping[str, Any]:
    case = case_given(given)
    return parse_toml(case, source=SOURCE) if isinstance(case, str) else case
