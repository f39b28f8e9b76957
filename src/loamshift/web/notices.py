"""Notices: what the next page says was done, with the way to undo it beside it."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import HttpRequest

from loamshift.domain.message import Worded
from loamshift.errors import InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.store.changes import Writer
from loamshift.store.models import User
from loamshift.store.recorded import is_undoing
from loamshift.web.wording import isolated, words_for


def notify(request: HttpRequest, what: Worded) -> None:
    """Say on the next page what was done, where it cannot be undone."""
    messages.add_message(request, messages.SUCCESS, say(isolated(what), words_for(request)))


def notify_done(request: HttpRequest, done: Writer, *, also: Worded | None = None) -> None:
    """Say on the next page what an act did: ``North border deleted. Undo``.

    What was itself undone is offered to be done again.

    Parameters
    ----------
    also
        More to say of it, in whole sentences; None for nothing more.
    """
    words = words_for(request)
    text = say(isolated(done.what), words)
    if isinstance(done.what, str):
        text = text.rstrip().rstrip(".") + "."
    if also is not None:
        text = f"{text} {say(also, words)}"
    level = messages.INFO if is_undoing(done.what) else messages.SUCCESS
    messages.add_message(request, level, text, extra_tags=str(done.act))


def notify_undo(request: HttpRequest, what: Worded, act: uuid.UUID | None) -> None:
    """Say on the next page what was done, with the act that undoes it where there is one."""
    text = say(isolated(what), words_for(request))
    messages.add_message(
        request, messages.SUCCESS, text, extra_tags="" if act is None else str(act)
    )


def notify_fault(request: HttpRequest, fault: InputError | Worded) -> None:
    """Say on the next page why something was not done."""
    words = words_for(request)
    text = refusal(fault, words) if isinstance(fault, InputError) else say(isolated(fault), words)
    messages.error(request, text)


def person_of(request: HttpRequest) -> User | None:
    """The person who is signed in, for ``Writer``; None for a single adviser."""
    user = getattr(request, "user", None)
    return user if isinstance(user, User) else None
