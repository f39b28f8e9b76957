"""All trials of an office, those that wait for a reading first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import URLPattern, path
from django.views.decorators.http import require_safe

from loamshift.domain.message import Message, message
from loamshift.report.messages import say
from loamshift.store.models import Bed, Client, Trial
from loamshift.store.scope import found, kept
from loamshift.web.middleware import office_of
from loamshift.web.wording import words_for

MOST_SHOWN: Final = 200


@dataclass(frozen=True, slots=True)
class Listed:
    """One trial of a list and where it stands."""

    trial: Trial
    owner: str
    state: str


@require_safe
def trials(request: HttpRequest) -> HttpResponse:
    """The list; ``?q=`` finds, ``?bed=`` and ``?client=`` hold to one of them."""
    office, words = office_of(request), words_for(request)
    sought = request.GET.get("q", "").replace("\x00", "").strip()[:200]
    rows = found(kept(Trial, office), sought)
    today = date.today()  # noqa: DTZ011 - the local day
    context = {
        "rows": [
            Listed(one, _owner(one), say(_state(one, today), words))
            for one in rows.select_related("bed", "client")[:MOST_SHOWN]
        ],
        "q": sought,
        "can_design": kept(Bed, office).exists() or kept(Client, office).exists(),
    }
    return render(request, "trials/list.html", context)


def _owner(one: Trial) -> str:
    if one.bed is not None:
        return one.bed.name
    return "" if one.client is None else one.client.name


def _state(one: Trial, today: date) -> Message:
    """How much was read, and when the next reading is due."""
    read = set(_days_read(one.readings_text))
    told = one.trial_json.get("days")
    days = [day for day in told if isinstance(day, int)] if isinstance(told, list) else []
    due = next((day for day in sorted(days) if day not in read), None)
    if due is None:
        return message("trial-page-state", read=len(read), due=None, late="no")
    on = one.starts_on + timedelta(days=due)
    return message("trial-page-state", read=len(read), due=on, late="yes" if on < today else "no")


def _days_read(text: str) -> Iterator[int]:
    for line in text.splitlines()[1:]:
        cells = line.split(",")
        if len(cells) > 1 and cells[1].lstrip("-").isdecimal():
            yield int(cells[1])


ROUTES: list[URLPattern] = [path("trials/", trials, name="trials")]
