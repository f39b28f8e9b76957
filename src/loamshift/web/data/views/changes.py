"""What was done in the last thirty days, each act with the way to take it back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final
from uuid import UUID

from django.core.paginator import Paginator
from django.db.models import Count, Max, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST, require_safe

from loamshift.domain.message import Message, message
from loamshift.errors import InputError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.changes import KEPT_DAYS, take_back
from loamshift.store.models import Change, Office
from loamshift.store.recorded import is_undoing, what_of
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, notify_fault, person_of
from loamshift.web.wording import isolated, words_for

ACTS_A_PAGE: Final = 50


@dataclass(frozen=True, slots=True)
class Act:
    """One line of the list: what one person did at one time."""

    act: UUID
    what: str
    who: str
    at: datetime
    time: str
    ago: str
    things: int
    taken_back: bool
    is_undoing: bool


@require_safe
def changes(request: HttpRequest) -> HttpResponse:
    """The acts of the last thirty days, the latest first; ``?thing=`` those of one thing."""
    thing = _thing_in(request)
    now = timezone.now()
    rows = acts_of(office_of(request), now=now, thing=thing)
    page = Paginator(rows, ACTS_A_PAGE).get_page(request.GET.get("page"))
    words = words_for(request)
    acts = [_act(row, now, words) for row in page.object_list]
    context = {"acts": acts, "page": page, "thing": thing, "days": KEPT_DAYS}
    return render(request, "data/changes.html", context)


@require_POST
def back(request: HttpRequest, act: UUID) -> HttpResponse:
    """Take one act back, and return to the page it was taken back from."""
    try:
        undone = take_back(office_of(request), act, user=person_of(request))
    except InputError as fault:
        notify_fault(request, fault)
    else:
        notify_done(request, undone)
    return redirect(next_page(request, otherwise="changes"))


def acts_of(office: Office, *, now: datetime, thing: UUID | None = None) -> QuerySet[Any, Any]:
    """Acts of an office in the last thirty days, one row each, the latest first."""
    rows = Change.objects.filter(office=office, at__gte=now - timedelta(days=KEPT_DAYS))
    if thing is not None:
        rows = rows.filter(act__in=rows.filter(thing=thing).values("act"))
    return (
        rows.values("act", "what", "said", "who", "taken_back")
        .annotate(last=Max("id"), at=Max("at"), things=Count("thing", distinct=True))
        .order_by("-last")
    )


def next_page(request: HttpRequest, *, otherwise: str) -> str:
    """The page named by a form's ``next``, if it is one of ours."""
    wanted = request.POST.get("next", "")
    ours = url_has_allowed_host_and_scheme(
        wanted, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    return wanted if wanted and ours else otherwise


def _thing_in(request: HttpRequest) -> UUID | None:
    try:
        return UUID(request.GET.get("thing", ""))
    except ValueError:
        return None


def _act(row: dict[str, Any], now: datetime, words: Words) -> Act:
    what = what_of(row["said"], row["what"])
    return Act(
        act=row["act"],
        what=say(isolated(what), words),
        who=row["who"],
        at=row["at"],
        time=f"{row['at']:%H:%M}",
        ago=say(_ago(row["at"], now), words),
        things=row["things"],
        taken_back=row["taken_back"],
        is_undoing=is_undoing(what),
    )


def _ago(at: datetime, now: datetime) -> Message:
    minutes = int((now - at).total_seconds() // 60)
    if minutes < 1:
        return message("acts-just-now")
    if minutes < 60:
        return message("acts-minutes-ago", n=minutes)
    if minutes < 24 * 60:
        return message("acts-hours-ago", n=minutes // 60)
    return message("acts-days-ago", n=minutes // (24 * 60))
