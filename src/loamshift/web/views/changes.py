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
from django.urls import URLPattern, path
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.timesince import timesince
from django.utils.translation import gettext
from django.views.decorators.http import require_POST, require_safe

from loamshift.errors import InputError
from loamshift.store.changes import KEPT_DAYS, TOOK_BACK, take_back
from loamshift.store.models import Change, Office
from loamshift.web.middleware import office_of
from loamshift.web.said import told, told_fault, who

ACTS_A_PAGE: Final = 50


@dataclass(frozen=True, slots=True)
class Act:
    """One line of the list: what one person did at one time."""

    act: UUID
    what: str
    who: str
    at: datetime
    ago: str
    things: int
    taken_back: bool

    @property
    def is_undoing(self) -> bool:
        """True where it took something else back."""
        return self.what.startswith(TOOK_BACK)


@require_safe
def changes(request: HttpRequest) -> HttpResponse:
    """The acts of the last thirty days, the latest first; ``?thing=`` those of one thing."""
    thing = _thing_in(request)
    now = timezone.now()
    rows = acts_of(office_of(request), now=now, thing=thing)
    page = Paginator(rows, ACTS_A_PAGE).get_page(request.GET.get("page"))
    acts = [_act(row, now) for row in page.object_list]
    context = {"acts": acts, "page": page, "thing": thing, "days": KEPT_DAYS}
    return render(request, "loamshift/changes/changes.html", context)


@require_POST
def back(request: HttpRequest, act: UUID) -> HttpResponse:
    """Take one act back, and return to the page it was taken back from."""
    try:
        undone = take_back(office_of(request), act, user=who(request))
    except InputError as fault:
        told_fault(request, fault)
    else:
        told(request, undone.what, undone.act)
    return redirect(next_page(request, otherwise="changes"))


def acts_of(office: Office, *, now: datetime, thing: UUID | None = None) -> QuerySet[Any, Any]:
    """Acts of an office in the last thirty days, one row each, the latest first."""
    rows = Change.objects.filter(office=office, at__gte=now - timedelta(days=KEPT_DAYS))
    if thing is not None:
        rows = rows.filter(act__in=rows.filter(thing=thing).values("act"))
    return (
        rows.values("act", "what", "who", "taken_back")
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


def _act(row: dict[str, Any], now: datetime) -> Act:
    return Act(
        act=row["act"],
        what=row["what"],
        who=row["who"],
        at=row["at"],
        ago=_ago(row["at"], now),
        things=row["things"],
        taken_back=row["taken_back"],
    )


def _ago(at: datetime, now: datetime) -> str:
    if now - at < timedelta(minutes=1):
        return gettext("just now")
    return gettext("%(time)s ago") % {"time": timesince(at, now, depth=1)}


ROUTES: list[URLPattern] = [
    path("changes/", changes, name="changes"),
    path("changes/<uuid:act>/take-back", back, name="take-back"),
]
