"""Kept things as plain values: what a change keeps of them, and how it is put back."""

from __future__ import annotations

import uuid
from datetime import date, datetime
from typing import Any, Final

from django.db import models

from loamshift.store.models import (
    Bed,
    Client,
    Garden,
    JarSeries,
    Kept,
    Product,
    Question,
    SentLetter,
    Trial,
)

KINDS: Final[dict[str, type[Kept]]] = {
    "client": Client,
    "garden": Garden,
    "bed": Bed,
    "letter": SentLetter,
    "product": Product,
    "question": Question,
    "trial": Trial,
    "jars": JarSeries,
}
"""Kinds of kept things by their short names, what holds others before what is held."""

PARENT: Final[dict[type[Kept], str]] = {Garden: "client", Bed: "garden", SentLetter: "bed"}
"""The field that says what a thing lies in."""

BELOW: Final[dict[type[Kept], type[Kept]]] = {Client: Garden, Garden: Bed, Bed: SentLetter}
"""What lies in a thing."""

REFERS: Final[dict[type[Kept], tuple[str, ...]]] = {
    Question: ("bed",),
    Trial: ("bed", "client"),
    JarSeries: ("bed",),
}
"""Fields that name another thing, which may be put away without this one."""

_NEVER: Final = ("id", "office", "version", "created_at", "changed_at", "sought")
"""Fields that a change never holds: they are the thing's own, not the user's."""


def kind_of(thing: Kept) -> str:
    """The short name of what kind of thing it is."""
    return next(name for name, model in KINDS.items() if isinstance(thing, model))


def snapshot(thing: Kept) -> dict[str, Any]:
    """What a user can change of a thing, as plain values."""
    return {
        field.attname: plain(field, getattr(thing, field.attname))
        for field in thing._meta.concrete_fields
        if field.name not in _NEVER
    }


def differing(one: dict[str, Any], other: dict[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    """The values in which two snapshots of a thing differ, of the one and of the other."""
    keys = [key for key in one if one[key] != other[key]]
    return {key: one[key] for key in keys}, {key: other[key] for key in keys}


def restore(thing: Kept, values: dict[str, Any]) -> None:
    """Put plain values back on a thing; it is not saved."""
    for field in thing._meta.concrete_fields:
        if field.attname in values:
            setattr(thing, field.attname, field_value(field, values[field.attname]))


def plain(field: models.Field[Any, Any], value: Any) -> Any:
    """One value as JSON holds it, whatever the door it came by made of it."""
    value = field_value(field, value)
    if isinstance(value, uuid.UUID):
        return str(value)
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    return value


def field_value(field: models.Field[Any, Any], value: Any) -> Any:
    """One value as its field holds it; raises Django's ValidationError where it cannot."""
    if isinstance(field, models.JSONField):
        return _json(value)
    if isinstance(field, models.ForeignKey):
        return field.target_field.to_python(value)
    return field.to_python(value)


def _json(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): _json(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_json(one) for one in value]
    return value
