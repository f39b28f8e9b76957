"""Forecasts as they were issued: kept with a saved plan, drawn from letters, and read back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from datetime import date
from time import monotonic
from typing import Any, Final

from django.db import IntegrityError, transaction
from django.db.models import QuerySet

from loamshift.case.answer_file import answer_file_from_json
from loamshift.domain.answer import Answer, ForecastPh
from loamshift.domain.case import Case
from loamshift.domain.score import BedFacts, IssuedAs, IssuedForecast, PlannedPart
from loamshift.errors import InputError
from loamshift.services.score.issued import issued_forecast
from loamshift.store.models import Bed, ForecastIssued, Office, SentLetter
from loamshift.store.scope import kept

PATIENCE_S: Final = 3.0
"""So long one page reads letters whose forecasts were never drawn out [s]."""
_DIGITS: Final = 4


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
        found.setdefault(bed, []).append(_issued(str(pk), issued_as, course or {}))
    return found


def course_of(issued: IssuedForecast) -> dict[str, Any]:
    """A forecast in plain values."""
    facts = {name: value for name, value in asdict(issued.facts).items() if value is not None}
    return {
        "on": issued.on.isoformat(),
        "dates": [day.isoformat() for day in issued.dates],
        "ph": {name: _short(values) for name, values in asdict(issued.ph).items()},
        "measured_ph": issued.measured_ph,
        "measured_sd": issued.measured_sd,
        "parts": [[part.on.isoformat(), part.rate_g_m2] for part in issued.parts],
        "known_g_m2": issued.known_g_m2,
        "facts": facts,
    }


def _course_of_letter(letter: SentLetter) -> dict[str, Any] | None:
    """The forecast in a letter; None where it has none, or is no longer understood."""
    try:
        file = answer_file_from_json(letter.answer_text, source=letter.title)
        case = file.case()
    except InputError:
        return None
    made = issued_forecast(file.answer, case, key="", title=letter.title, issued_as=IssuedAs.LETTER)
    return None if made is None else course_of(made)


def _issued(key: str, issued_as: IssuedAs, course: dict[str, Any]) -> IssuedForecast:
    ph = {name: tuple(values) for name, values in course["ph"].items()}
    return IssuedForecast(
        key=key,
        title="",
        issued_as=issued_as,
        on=date.fromisoformat(course["on"]),
        dates=tuple(date.fromisoformat(day) for day in course["dates"]),
        ph=ForecastPh(**ph),
        measured_ph=course["measured_ph"],
        measured_sd=course["measured_sd"],
        parts=tuple(
            PlannedPart(on=date.fromisoformat(day), rate_g_m2=rate) for day, rate in course["parts"]
        ),
        known_g_m2=course["known_g_m2"],
        facts=BedFacts(**course["facts"]),
    )


def _short(values: Sequence[float]) -> list[float]:
    return [round(value, _DIGITS) for value in values]
