"""Notices by the names they had before; see ``notices``."""

from __future__ import annotations

import uuid

from django.http import HttpRequest

from loamshift.domain.message import Worded
from loamshift.errors import InputError
from loamshift.web.notices import notify_fault, notify_undo
from loamshift.web.notices import person_of as who

__all__ = ["told", "told_fault", "who"]


def told(request: HttpRequest, what: Worded, act: uuid.UUID | None = None) -> None:
    """Say on the next page what was done, with the act that undoes it."""
    text = what.rstrip().rstrip(".") + "." if isinstance(what, str) else what
    notify_undo(request, text, act)


def told_fault(request: HttpRequest, fault: InputError | str) -> None:
    """Say on the next page why something was not done."""
    notify_fault(request, fault)
