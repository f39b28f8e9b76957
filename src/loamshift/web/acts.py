"""One thing that a person does: done whole and told on the next page, or refused and told."""

from __future__ import annotations

from collections.abc import Callable

from django.db import transaction
from django.http import HttpRequest

from loamshift.domain.message import Message
from loamshift.errors import InputError
from loamshift.store.changes import Writer
from loamshift.store.models import Kept
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, notify_fault, person_of


def writer_of(request: HttpRequest, what: Message) -> Writer:
    """A writer for the person of a request."""
    return Writer(office_of(request), user=person_of(request), what=what)


def do_act(request: HttpRequest, what: Message, act: Callable[[Writer], object]) -> bool:
    """Do something and say so on the next page; false where it was refused, which is told."""
    writer = writer_of(request, what)
    try:
        with transaction.atomic():
            act(writer)
    except InputError as error:
        notify_fault(request, error)
        return False
    notify_done(request, writer)
    return True


def delete_kept(
    request: HttpRequest, thing: Kept, what: Message, *, seen_version: int | None = None
) -> bool:
    """Put a thing away and say so on the next page; false where it was refused, which is told."""
    return do_act(request, what, lambda to: to.put_away(thing, seen_version=seen_version))
