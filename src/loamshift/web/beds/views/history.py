"""A bed's life on one line: tests, what was put on, letters, and how forecasts did."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache, partial
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from loamshift.case.answer_file import answer_file_from_json
from loamshift.domain.history import History, LetterSent, Outcome, TestRead
from loamshift.domain.letter import Figure
from loamshift.domain.message import Given, Message, Product, depth, message, ph
from loamshift.domain.worded_error import WordedError
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.figures.history import (
    history_figure,
    outcome_told,
    ph_read,
    score_told,
    scores_told,
)
from loamshift.report.html_blocks import table_html
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.history import history_of
from loamshift.services.score.issued import measured_sd_of
from loamshift.services.worth.on_day import worth_on_day
from loamshift.store.models import Bed, Office, Question, SentLetter, Trial
from loamshift.store.scope import kept
from loamshift.web.answers import Answered, answered, case_key
from loamshift.web.beds.case_form import path_label
from loamshift.web.beds.views.listing import decided
from loamshift.web.forecasts import FORECASTS, MEMBERS, SEED
from loamshift.web.middleware import office_of
from loamshift.web.once import Once
from loamshift.web.problems import whole_fault
from loamshift.web.scores.scored import counted_of
from loamshift.web.wording import words_of

_LONGEST_DAY: Final = 40
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
MOST_LETTERS: Final = 40
"""Letters whose forecasts are drawn; the list holds all of them [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of the list: what happened on a day; ``letter`` leads to the letter."""

    on: date
    day: str
    kind: str
    what: str
    more: str = ""
    outcome: str = ""
    letter: str = ""


_WORTH: Final[Once[Message]] = Once(64)


@require_safe
def history(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The life of one bed."""
    beds = kept(Bed, office_of(request)).select_related("garden__client")
    return show_history(request, get_object_or_404(beds, pk=pk))


def show_history(
    request: HttpRequest, bed: Bed, *, status: int = 200, more: dict[str, Any] | None = None
) -> HttpResponse:
    """The page with the life of a bed.

    Parameters
    ----------
    status
        Status of the response [number].
    more
        What the page shows besides [objects by name].
    """
    office = office_of(request)
    today = date.today()  # noqa: DTZ011 - the local day
    faults: tuple[Fault, ...] = ()
    life: History | None = None
    found: Answered | None = None
    words = words_of(office)
    try:
        found = answered(bed.case_json, office=office, today=today)
        words = found.words
        life = life_of(bed, office, today=today)
    except CaseError as error:
        faults = error.faults
    except InputError as error:
        faults = (whole_fault(error),)
    figure = None if life is None else history_figure(life, words=words)
    context = {
        "bed": bed,
        "faults": [(path_label(one.path, words), one) for one in faults],
        "figure": figure,
        "picture": "" if figure is None else _picture(figure),
        "legend": "" if life is None else " ".join(say(one, words) for one in _legend(life)),
        "table": "" if figure is None or not figure.table.rows else table_html(figure.table),
        "events": [] if life is None else events_of(life, words),
        "scores": "" if life is None else say(scores_told(life), words),
        "questions": kept(Question, office).filter(bed=bed),
        "trials": kept(Trial, office).filter(bed=bed),
        "found": found,
        "asked_on": _DAY.fullmatch(request.GET.get("test_on", "")),
        "asked": _asked(request, bed, found),
        "undated": life is not None and life.undated,
        "tests": 0 if life is None else len(life.tests),
        **(more or {}),
    }
    return render(request, "beds/history.html", context, status=status)


def _asked(request: HttpRequest, bed: Bed, found: Answered | None) -> Message | None:
    """What a test on a day that somebody named would be worth; None where nobody asks."""
    typed = request.GET.get("test_on", "").strip()
    if not typed or found is None:
        return None
    try:
        on = date.fromisoformat(typed)
    except ValueError:
        return message("worth-day-unread", given=Given(typed[:_LONGEST_DAY]))
    case = found.case

    def work() -> Message:
        told = FORECASTS.take(partial(worth_on_day, case, on, members=MEMBERS, seed=SEED)).words
        assert isinstance(told, Message)
        return told

    try:
        return _WORTH.get((case_key(bed.case_json, office=bed.office, today=case.today), on), work)
    except WordedError as error:
        return error.said if isinstance(error.said, Message) else None


def _legend(life: History) -> Iterator[Message]:
    """What the signs in the picture mean, of those that are in it."""
    if life.tests:
        yield message("timeline-legend-tests")
    if any(test.method.is_rough for test in life.tests):
        yield message("timeline-legend-rough")
    if any(score.outcome in (Outcome.ABOVE, Outcome.BELOW) for score in life.scores):
        yield message("timeline-legend-missed")
    if any(letter.forecast is not None for letter in life.letters):
        yield message("timeline-legend-letters")
        if life.forecast is not None:
            yield message("timeline-legend-today")
    if life.soil_temperature is not None:
        yield message("timeline-legend-warmth")


def life_of(bed: Bed, office: Office, *, today: date) -> History:
    """Everything that is kept of a bed, with today's forecast.

    Raises
    ------
    CaseError
        Where the bed's case file cannot be used.
    """
    found = answered(bed.case_json, office=office, today=today)
    letters = kept(SentLetter, office).filter(bed=bed).order_by("-sent_on", "-created_at")
    sent = [
        letter
        for pk, title, day in letters.values_list("pk", "title", "sent_on")[:MOST_LETTERS]
        if (letter := _letter(pk, title, day)) is not None
    ]
    life = history_of(found.case, found.answer, sent)
    return replace(life, counted=counted_of(bed, office, today=today))


def events_of(life: History, words: Words) -> list[Event]:
    """What happened, the latest first."""
    return sorted(_events(life, words), key=lambda event: event.on, reverse=True)


def _events(life: History, words: Words) -> Iterator[Event]:
    scored = {score.test: score for score in life.scores}
    for test in life.tests:
        score = scored.get(test)
        yield Event(
            on=test.on,
            day=words.date(test.on),
            kind=say(message("timeline-test"), words),
            what=say(_test_read(test, words), words),
            more=say(_in_water(test) if score is None else score_told(score), words),
            outcome="" if score is None else say(outcome_told(score), words),
        )
    for entry in life.put_on:
        what = message("timeline-product", product=Product(entry.material))
        yield Event(
            on=entry.on,
            day=words.date(entry.on),
            kind=say(message("timeline-application"), words),
            what=say(what, words),
            more=_as_applied(entry.as_given, words.rate(entry.rate_g_m2), words),
        )
    for letter in life.letters:
        decision = decided(letter.decision)
        yield Event(
            on=letter.sent_on,
            day=words.date(letter.sent_on),
            kind=say(message("timeline-letter"), words),
            what=letter.title,
            more=letter.decision if decision is None else say(decision, words),
            letter=letter.key,
        )


def _test_read(test: TestRead, words: Words) -> Message:
    return message(
        "timeline-test-read",
        ph=Given(ph_read(test.ph, words)),
        method=Given(test.method.value),
        depth=None if test.depth_cm is None else depth(test.depth_cm),
    )


def _in_water(test: TestRead) -> Message:
    return message("timeline-in-water", ph=ph(test.ph_water), low=ph(test.lo90), high=ph(test.hi90))


def _as_applied(given: str, rate: str, words: Words) -> str:
    """How much, as it was given, and the rate beside it where that says more."""
    same = _bare(given) == _bare(rate)
    if same or not given:
        return rate
    return say(message("timeline-as-given", given=Given(given), rate=Given(rate)), words)


def _bare(text: str) -> str:
    """A figure with its unit, however it is spaced and raised."""
    return "".join(text.split()).replace("²", "2")


@lru_cache(maxsize=256)
def _letter(pk: UUID, title: str, sent_on: date) -> LetterSent | None:
    """A letter with the forecast it held; it never changes, so it is read once."""
    text = next(iter(SentLetter.objects.filter(pk=pk).values_list("answer_text", flat=True)), "")
    try:
        file = answer_file_from_json(text, source=title)
    except InputError:
        return None
    answer = file.answer
    try:
        measured_sd = measured_sd_of(file.case())
    except InputError:
        measured_sd = None
    return LetterSent(
        key=str(pk),
        title=title,
        sent_on=sent_on,
        day=answer.today,
        decision=str(answer.verdict.decision),
        forecast=answer.forecast,
        measured_sd=measured_sd,
    )


def _picture(figure: Figure) -> str:
    from loamshift.web.letters.picture import pictures

    return pictures(figure)
