"""The door of the API: who may come in, and how often."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import Any, Final, TypeVar
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest
from ninja import Status
from ninja.security import HttpBearer
from ninja.utils import check_csrf

from loamshift.domain.message import Message, message
from loamshift.store.changes import Writer
from loamshift.store.models import Kept
from loamshift.web.acts import writer_of
from loamshift.web.api.faults import Refused
from loamshift.web.api.shapes import AnyThing, brief
from loamshift.web.forecasts import FORECASTS
from loamshift.web.limits import Pace
from loamshift.web.middleware import LOOKING
from loamshift.web.once import GoneError
from loamshift.web.wording import said

Made = TypeVar("Made")

FORECASTS_A_MINUTE: Final = 30
PATIENCE_S: Final = 20.0
_pace = Pace(per_minute=FORECASTS_A_MINUTE)


class Door(HttpBearer):
    """A key, or the session of a browser with its mark; without sign-in, this machine's own.

    The office was found before (``WhoseOffice``); what is left to see is that no page of
    another site sends the request: a browser says where a request comes from, and cannot be made
    to send a key.
    """

    def __call__(self, request: HttpRequest) -> Any:
        """True where the request may go on."""
        if getattr(request, "by_key", False) or request.method in LOOKING:
            return True
        if settings.OFFICE_MODE:
            if check_csrf(request) is not None:
                raise Refused(403, message("api-csrf"))
            return True
        origin = request.headers.get("Origin")
        site = request.headers.get("Sec-Fetch-Site", "none")
        ours = f"{request.scheme}://{request.get_host()}"
        if origin not in (None, ours) or site not in ("none", "same-origin"):
            raise Refused(403, message("api-own-only"))
        return True

    def authenticate(self, request: HttpRequest, token: str) -> Any:
        """Never asked; ``__call__`` decides."""
        raise NotImplementedError


def forecasting(request: HttpRequest, work: Callable[[], Made]) -> Made:
    """What some work makes that runs the column, in the line in which pages wait as well.

    Of an office's people each has a pace.

    Raises
    ------
    Refused
        Where somebody asks for too many, or all turns stay taken.
    """
    paced(request)
    ends = monotonic() + PATIENCE_S
    try:
        return FORECASTS.take(work, gone=lambda: monotonic() > ends)
    except GoneError:
        raise Refused(429, message("api-busy"), headers={"Retry-After": "10"}) from None


def paced(request: HttpRequest) -> None:
    """Refuse where somebody asks for too many forecasts a minute."""
    person = getattr(request, "person", None)
    wait = _pace.wait_s(str(person)) if person is not None else 0
    if wait:
        raise Refused(
            429,
            message("api-pace", most=FORECASTS_A_MINUTE, seconds=wait),
            headers={"Retry-After": str(wait)},
        )


def added(request: HttpRequest, thing: AnyThing, what: Message) -> Status[dict[str, Any]]:
    """Keep something new, and show it."""
    writer = writer_of(request, what)
    writer.add(thing)
    return Status(201, written(thing, writer))


def changed(request: HttpRequest, thing: AnyThing, what: Message, *, seen: int) -> dict[str, Any]:
    """Keep a thing as it stands now, and show it; refused where it is not the version seen."""
    writer = writer_of(request, what)
    writer.change(thing, seen_version=seen)
    return written(thing, writer, seen=seen)


def deleted(
    request: HttpRequest, thing: Kept, what: Message, *, seen: int | None
) -> dict[str, Any]:
    """Put a thing away."""
    writer = writer_of(request, what)
    writer.put_away(thing, seen_version=seen)
    return done(request, writer)


def done(request: HttpRequest, writer: Writer) -> dict[str, Any]:
    """An act that was done, with what it did in the words of the office."""
    return {"act": writer.act, "what": said(request, writer.what)}


def written(thing: AnyThing, writer: Writer, *, seen: int | None = None) -> dict[str, Any]:
    """A thing after it was written, with the act that takes it back; none where nothing changed."""
    return {**brief(thing), "act": acted(thing, writer, seen=seen)}


def acted(thing: Kept, writer: Writer, *, seen: int | None = None) -> UUID | None:
    """The act, unless the thing stands as it was seen."""
    return None if thing.version == seen else writer.act
