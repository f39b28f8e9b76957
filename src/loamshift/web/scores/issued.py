"""Forecasts as they were issued: kept with a saved plan, drawn from letters, and read back."""

from __future__ import annotations

from time import monotonic
from typing import Any, Final

from django.db import IntegrityError, transaction
from django.db.models import QuerySet

from loamshift.case.answer_file import answer_file_from_json
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.score import IssuedAs, IssuedForecast
from loamshift.errors import InputError
from loamshift.services.score.issued import issued_forecast
from loamshift.store.issued_course import course_of, issued_of
from loamshift.store.models import Bed, ForecastIssued, Office, SentLetter
from loamshift.store.scope import kept

PATIENCE_S: Final = 3.0
"""So long one page reads letters whose forecasts were never drawn out [s]."""


def keep_plan_forecast(bed: Bed, answer: Answer, case: Case) -> None:
    """Keep the forecast of a plan that was saved; of several on one day the last counts."""
    made = issued_forecast(answer, case, key="", title=bed.name, issued_as=IssuedAs.PLAN)
    if made is None:
        return
    ForecastIssued.objects.update_or_create(
        bed=bed,
        letter=None,
        issued_on=made.on,
        defaults={"office": bed.office, "course": course_of(made)},
    )


def draw_from_letters(office: Office) -> int:
    """Draw out the forecasts of letters that have none here yet, as long as patience lasts.

    Returns
    -------
    int
        Letters still to be read.
    """
    ends = monotonic() + PATIENCE_S
    unread = kept(SentLetter, office).filter(forecast__isnull=True)
    for pk in list(unread.values_list("pk", flat=True)):
        if monotonic() > ends:
            return unread.count()
        letter = SentLetter.objects.select_related("bed").get(pk=pk)
        try:
            with transaction.atomic():
                ForecastIssued.objects.create(
                    office=office,
                    bed=letter.bed,
                    letter=letter,
                    issued_on=letter.sent_on,
                    course=_course_of_letter(letter),
                )
        except IntegrityError:
            continue  # another page drew it out meanwhile
    return 0


def forecasts_of(beds: QuerySet[Bed]) -> dict[Any, list[IssuedForecast]]:
    """Forecasts that were issued for some beds, by the id of the bed; letters deleted left out."""
    rows = (
        ForecastIssued.objects.filter(bed__in=beds, course__isnull=False)
        .exclude(letter__deleted_at__isnull=False)
        .values_list("pk", "bed_id", "letter_id", "course")
    )
    found: dict[Any, list[IssuedForecast]] = {}
    for pk, bed, letter, course in rows:
        issued_as = IssuedAs.PLAN if letter is None else IssuedAs.LETTER
        found.setdefault(bed, []).append(issued_of(course or {}, key=str(pk), issued_as=issued_as))
    return found


def _course_of_letter(letter: SentLetter) -> dict[str, Any] | None:
    """The forecast in a letter; None where it has none, or is no longer understood."""
    try:
        file = answer_file_from_json(letter.answer_text, source=letter.title)
        case = file.case()
    except InputError:
        return None
    made = issued_forecast(file.answer, case, key="", title=letter.title, issued_as=IssuedAs.LETTER)
    return None if made is None else course_of(made)
