"""A bed's life on one line: tests, what was put on, letters, and how forecasts did."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import URLPattern, path
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from loamshift.case.answer_file import answer_file_from_json
from loamshift.domain.history import History, LetterSent, Outcome
from loamshift.domain.letter import Figure
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.figures.history import (
    history_figure,
    ph_read,
    score_sentence,
    score_word,
    scores_said,
)
from loamshift.report.html_blocks import table_html
from loamshift.report.letter_words import material_called, raised
from loamshift.report.words import Words
from loamshift.services.history import history_of
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.store.scope import kept
from loamshift.web.answers import answered, words_of
from loamshift.web.middleware import office_of
from loamshift.web.views.beds import DECIDED

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


@require_safe
def history(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The life of one bed."""
    office = office_of(request)
    bed = get_object_or_404(kept(Bed, office).select_related("garden__client"), pk=pk)
    today = date.today()  # noqa: DTZ011 - the local day
    faults: tuple[Fault, ...] = ()
    life: History | None = None
    try:
        life = life_of(bed, office, today=today)
    except CaseError as error:
        faults = error.faults
    except InputError as error:
        faults = (Fault("", "", str(error), ""),)
    words = words_of(office)
    figure = None if life is None else history_figure(life, words=words)
    context = {
        "bed": bed,
        "faults": faults,
        "figure": figure,
        "picture": "" if figure is None else _picture(figure),
        "legend": "" if life is None else " ".join(_legend(life)),
        "table": "" if figure is None or not figure.table.rows else table_html(figure.table),
        "events": [] if life is None else events_of(life, words),
        "scores": "" if life is None else words.text(scores_said(life)),
        "undated": life is not None and life.undated,
        "tests": 0 if life is None else len(life.tests),
    }
    return render(request, "loamshift/beds/history.html", context)


def _legend(life: History) -> Iterator[str]:
    """What the signs in the picture mean, of those that are in it."""
    if life.tests:
        yield gettext(
            "Rings are tests as they would read in water, with where nine in ten would fall."
        )
    if any(test.method.is_rough for test in life.tests):
        yield gettext("A broken bar is a rough method.")
    if any(score.outcome in (Outcome.ABOVE, Outcome.BELOW) for score in life.scores):
        yield gettext("A filled ring missed its forecast.")
    if any(letter.forecast is not None for letter in life.letters):
        yield gettext("The grey band is what letters foretold at their time.")
        if life.forecast is not None:
            yield gettext("The coloured one is foretold today.")
    if life.soil_temperature is not None:
        yield gettext("Above: the warmth of the soil in an average year.")


def life_of(bed: Bed, office: Office, *, today: date) -> History:
    """Everything that is kept of a bed, with today's forecast.

    Raises
    ------
    CaseError
        Where the bed's case file cannot be used.
    """
    found = answered(bed.case_text, office=office, today=today)
    letters = kept(SentLetter, office).filter(bed=bed).order_by("-sent_on", "-created_at")
    sent = [
        letter
        for pk, title, day in letters.values_list("pk", "title", "sent_on")[:MOST_LETTERS]
        if (letter := _letter(pk, title, day)) is not None
    ]
    return history_of(found.case, found.answer, sent)


def events_of(life: History, words: Words) -> list[Event]:
    """What happened, the latest first."""
    return sorted(_events(life, words), key=lambda event: event.on, reverse=True)


def _events(life: History, words: Words) -> Iterator[Event]:
    scored = {score.test: score for score in life.scores}
    for test in life.tests:
        score = scored.get(test)
        depth = "" if test.depth_cm is None else f", {words.depth(test.depth_cm)}"
        water = f"{words.ph(test.ph_water)}, {words.ph(test.lo90)} – {words.ph(test.hi90)}"
        yield Event(
            on=test.on,
            day=words.date(test.on),
            kind=gettext("Test"),
            what=f"pH {ph_read(test.ph)}, {test.method.value}{depth}",
            more=gettext("in water %s") % water
            if score is None
            else words.text(score_sentence(score, words)),
            outcome="" if score is None else score_word(score).partition(",")[0],
        )
    for entry in life.put_on:
        yield Event(
            on=entry.on,
            day=words.date(entry.on),
            kind=gettext("Put on"),
            what=raised(material_called(entry.material, words)),
            more=_as_put_on(entry.as_given, words.rate(entry.rate_g_m2)),
        )
    for letter in life.letters:
        yield Event(
            on=letter.sent_on,
            day=words.date(letter.sent_on),
            kind=gettext("Letter"),
            what=letter.title,
            more=str(DECIDED.get(letter.decision, letter.decision)),
            letter=letter.key,
        )


def _as_put_on(given: str, rate: str) -> str:
    """How much, as it was given, and the rate beside it where that says more."""
    same = given.replace(" ", "") == rate.replace(" ", "").replace("²", "2")
    return rate if same or not given else f"{given} · {rate}"


@lru_cache(maxsize=256)
def _letter(pk: UUID, title: str, sent_on: date) -> LetterSent | None:
    """A letter with the forecast it held; it never changes, so it is read once."""
    text = next(iter(SentLetter.objects.filter(pk=pk).values_list("answer_text", flat=True)), "")
    try:
        answer = answer_file_from_json(text, source=title).answer
    except InputError:
        return None
    return LetterSent(
        key=str(pk),
        title=title,
        sent_on=sent_on,
        day=answer.today,
        decision=str(answer.verdict.decision),
        forecast=answer.forecast,
    )


def _picture(figure: Figure) -> str:
    from loamshift.web.picture import pictures

    return pictures(figure)


ROUTES: list[URLPattern] = [path("beds/<uuid:pk>/history", history, name="bed-history")]
