"""Telling a person what was done, with the way to take it back beside it."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import HttpRequest

from loamshift.errors import InputError
from loamshift.store.changes import TOOK_BACK
from loamshift.store.models import User


def told(request: HttpRequest, what: str, act: uuid.UUID | None = None) -> None:
    """Say on the next page what was done: ``Deleted North border. Take it back``.

    What was itself taken back is offered to be done again.

    Parameters
    ----------
    request
        The request that did it [object].
    what
        What was done, as a clause without a full stop [text].
    act
        The act to take back, from ``Writer.act``; None where there is nothing to take back [id].
    """
    text = what.rstrip().rstrip(".") + "."
    level = messages.INFO if what.startswith(TOOK_BACK) else messages.SUCCESS
    messages.add_message(request, level, text, extra_tags="" if act is None else str(act))


def told_fault(request: HttpRequest, fault: InputError | str) -> None:
    """Say on the next page why something was not done."""
    messages.error(request, str(fault))


def who(request: HttpRequest) -> User | None:
    """The person who is signed in, for ``Writer``; None for a single adviser."""
    user = getattr(request, "user", None)
    return user if isinstance(user, User) else None
