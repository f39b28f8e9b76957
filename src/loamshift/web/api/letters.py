"""Letters: sent once, and frozen from then on."""

from __future__ import annotations

from typing import Annotated, Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from ninja import Query, Router, Status
from pydantic import Field

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError
from loamshift.store.models import Bed, SentLetter
from loamshift.store.scope import found, kept
from loamshift.web.acts import writer_of
from loamshift.web.api.advise import AnswerOut, json_text
from loamshift.web.api.beds import ASKED, LOOKED, WRITES
from loamshift.web.api.cases import clock_today
from loamshift.web.api.door import paced, written
from loamshift.web.api.faults import RefusedOut
from loamshift.web.api.shapes import LetterBrief, LetterIn, LettersOut, ListQuery, page_of
from loamshift.web.letters.sending import letter_to_send
from loamshift.web.middleware import kept_or_404, office_of

router = Router(tags=["letters"])


class LettersQuery(ListQuery):
    """Letters of one bed, or of all."""

    bed: Annotated[UUID | None, Field(description="Letters of this bed alone.")] = None


@router.get("/letters", response={200: LettersOut, **ASKED})
def list_letters(request: HttpRequest, asked: Query[LettersQuery]) -> Any:
    """Letters sent, the latest first."""
    letters = found(kept(SentLetter, office_of(request)), asked.search)
    return page_of(letters if asked.bed is None else letters.filter(bed=asked.bed), asked)


@router.get("/letters/{uuid:pk}", response={200: AnswerOut, **LOOKED})
def get_letter(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The whole answer of a letter, with case and letter, as it was when it was sent."""
    letter = kept_or_404(request, SentLetter, pk)
    return json_text(letter.answer_text)


@router.post("/letters", response={201: LetterBrief, **WRITES, 429: RefusedOut})
def send_letter(request: HttpRequest, given: LetterIn) -> Any:
    """Answer a bed as of today, and keep the letter as sent."""
    office = office_of(request)
    bed = kept(Bed, office).filter(pk=given.bed).first()
    if bed is None:
        wrong, right = message("api-no-bed"), message("api-beds-listed")
        raise CaseError([fault("bed", wrong, right, given=str(given.bed))])
    paced(request)
    letter = letter_to_send(bed, office=office, today=clock_today())
    letter.title = given.title.strip() or letter.title
    letter.note = given.note
    writer = writer_of(request, message("advice-letter-sent", bed=Given(bed.name)))
    writer.add(letter)
    return Status(201, written(letter, writer))
