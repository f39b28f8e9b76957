"""The words of whoever looks at a page: an office's, or British ones where there is no office."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any, Final
from unicodedata import bidirectional

from django.http import HttpRequest
from django.utils import timezone

from loamshift.domain.case import BedKind, Case
from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    PlantName,
    Product,
    Prose,
    Quantity,
    Value,
    Worded,
)
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Office

ISOLATES: Final = "\N{FIRST STRONG ISOLATE}\N{POP DIRECTIONAL ISOLATE}"
"""The signs that keep the direction of a name to itself; nobody sees or types them."""
_RIGHT_TO_LEFT: Final = frozenset({"R", "AL"})
_TYPED: Final = (Measure, Given, PlantName, Product, Listed, Message)
_GROUNDS: Final = {BedKind.LAWN: "lawn", BedKind.FIELD: "field"}


class Choice(str):
    """A text that chooses between wordings of a message, and is never printed."""

    __slots__ = ()


def words_of(office: Office | None) -> Words:
    """Units and spelling of an office."""
    return Words() if office is None else Words(spelling=office.words, units=office.units)


def ground_of(case: Case) -> str:
    """What a bed's rates are told by: bed, lawn or field."""
    return _GROUNDS.get(case.bed.kind, "bed")


def words_for(request: HttpRequest) -> Words:
    """The words of the office that a request belongs to."""
    office = getattr(request, "office", None)
    return words_of(office if isinstance(office, Office) else None)


def said(request: HttpRequest, what: Worded) -> str:
    """A message in the words of the office that a request belongs to."""
    return say(isolated(what), words_for(request))


def isolated(what: Worded) -> Worded:
    """A message in which no name that reads from right to left turns the words around it."""
    if isinstance(what, Prose):
        return Prose(tuple(_isolated(one) for one in what.sentences))
    return what if isinstance(what, str) else _isolated(what)


def _isolated(what: Message) -> Message:
    return Message(what.key, {name: _apart(value) for name, value in what.values.items()})


def _apart(value: Value) -> Value:
    if isinstance(value, Message):
        return _isolated(value)
    if isinstance(value, Listed):
        return replace(value, items=tuple(_apart(one) for one in value.items))
    if isinstance(value, Given) and any(
        bidirectional(sign) in _RIGHT_TO_LEFT for sign in value.text
    ):
        return Given(value.text.join(ISOLATES))
    return value


def value_of(value: Any) -> Value:
    """A value of a page as a message takes it: a day, a count, a choice, or a person's text.

    Returns
    -------
    object
        A typed value; texts are a person's own unless they are a ``Choice``.
    """
    if value is None or isinstance(value, _TYPED):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return value
    if isinstance(value, float):
        return Measure(Quantity.NUMBER, value)
    if isinstance(value, datetime):
        return timezone.localdate(value) if timezone.is_aware(value) else value.date()
    if isinstance(value, date):
        return value
    return str(value) if isinstance(value, Choice) else Given(str(value))
