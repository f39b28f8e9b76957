"""The one way to change the store: every change is kept, and the last thirty days come back."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import Any, Final

from django.db import models, transaction
from django.utils import timezone

from loamshift.errors import InputError
from loamshift.store.models import (
    Bed,
    Change,
    Client,
    Garden,
    Kept,
    Office,
    Product,
    SentLetter,
    User,
)

KINDS: Final[dict[str, type[Kept]]] = {
    "client": Client,
    "garden": Garden,
    "bed": Bed,
    "letter": SentLetter,
    "product": Product,
}
KEPT_DAYS: Final = 30
_NEVER: Final = ("id", "office", "version", "created_at", "changed_at")
"""Fields that a change never holds: they are the thing's own, not the user's."""


class Overtaken(InputError):
    """Somebody else changed the thing in the meantime; carries what stands there now."""

    def __init__(self, current: Kept) -> None:
        self.current = current
        super().__init__(
            f"{current} was changed by somebody else at {current.changed_at:%H:%M} (UTC). "
            "Nothing of yours was lost: look at what stands there now, and save again."
        )


class Writer:
    """Who writes, and the act that the changes belong to; one for each thing a person does.

    Parameters
    ----------
    office
        Whose things these are [object].
    user
        Who does it; None for a single adviser [object].
    what
        What is done, as the list of changes says it: ``Added North border`` [text].
    """

    def __init__(self, office: Office, *, user: User | None = None, what: str) -> None:
        self.office = office
        self.user = user
        self.what = what
        self.act = uuid.uuid4()

    def add(self, thing: Kept) -> None:
        """Keep something new."""
        thing.office = self.office
        with transaction.atomic():
            thing.save(force_insert=True)
            self._note(thing, before=None)

    def change(self, thing: Kept, *, seen_version: int) -> None:
        """Keep a thing as it stands now in memory.

        Raises
        ------
        Overtaken
            Where the kept version is no longer the one that was seen; nothing is written.
        """
        model = type(thing)
        with transaction.atomic():
            kept = model._default_manager.select_for_update().get(pk=thing.pk, office=self.office)
            if kept.version != seen_version:
                raise Overtaken(kept)
            before = snapshot(kept)
            if before == snapshot(thing):
                thing.version = kept.version
                return
            thing.version = kept.version + 1
            thing.save(force_update=True)
            self._note(thing, before=before)

    def put_away(self, thing: Kept) -> None:
        """Put a thing away with all that belongs to it; it can be taken back for thirty days."""
        now = timezone.now()
        with transaction.atomic():
            for one in [*belongings(thing), thing]:
                before = snapshot(one)
                one.deleted_at = now
                one.version += 1
                one.save(force_update=True)
                self._note(one, before=before)

    def _note(self, thing: Kept, *, before: dict[str, Any] | None) -> None:
        Change.objects.create(
            office=self.office,
            user=self.user,
            act=self.act,
            what=self.what[:200],
            kind=kind_of(thing),
            thing=thing.pk,
            before=before,
            after=snapshot(thing),
        )


def take_back(office: Office, act: uuid.UUID, *, user: User | None = None) -> str:
    """Undo one act as a whole; the undoing is itself an act that can be taken back.

    Returns
    -------
    str
        What was taken back, in the words of the act [text].

    Raises
    ------
    InputError
        Where the act is older than thirty days, was taken back already, or something it touched
        was changed since.
    """
    with transaction.atomic():
        changes = list(
            Change.objects.select_for_update().filter(office=office, act=act).order_by("-id")
        )
        if not changes:
            raise InputError("There is no such change; it may be older than thirty days.")
        if changes[0].taken_back:
            raise InputError(f"“{changes[0].what}” was taken back already.")
        writer = Writer(office, user=user, what=f"Took back: {changes[0].what}")
        for change in changes:
            model = KINDS[change.kind]
            thing = model._default_manager.select_for_update().get(pk=change.thing, office=office)
            now = snapshot(thing)
            if now != change.after:
                raise InputError(
                    f"{thing} was changed again after “{change.what}”. Take back the later change "
                    "first; the list of changes has it."
                )
            if change.before is None:
                thing.deleted_at = timezone.now()
            else:
                restore(thing, change.before)
            thing.version += 1
            thing.save(force_update=True)
            writer._note(thing, before=now)
            change.taken_back = True
            change.save(update_fields=["taken_back"])
    return changes[0].what


def purge(*, now: datetime) -> int:
    """Remove for good what was put away more than thirty days before now; how many things."""
    limit = now - timedelta(days=KEPT_DAYS)
    gone = 0
    with transaction.atomic():
        for model in (SentLetter, Bed, Garden, Client, Product):
            gone += model._default_manager.filter(deleted_at__lt=limit).delete()[0]
        Change.objects.filter(at__lt=limit).delete()
    return gone


def belongings(thing: Kept) -> list[Kept]:
    """All that lies under a thing and is not put away, the lowest first."""
    found: list[Kept] = []
    below: Iterable[Kept] = ()
    if isinstance(thing, Client):
        below = Garden.objects.filter(client=thing, deleted_at__isnull=True)
    elif isinstance(thing, Garden):
        below = Bed.objects.filter(garden=thing, deleted_at__isnull=True)
    elif isinstance(thing, Bed):
        below = SentLetter.objects.filter(bed=thing, deleted_at__isnull=True)
    for one in below:
        found += [*belongings(one), one]
    return found


def kind_of(thing: Kept) -> str:
    """The short name of what kind of thing it is."""
    return next(name for name, model in KINDS.items() if isinstance(thing, model))


def snapshot(thing: Kept) -> dict[str, Any]:
    """A thing as plain values: what a change keeps, and what an export writes."""
    return {
        field.attname: _plain(getattr(thing, field.attname))
        for field in thing._meta.concrete_fields
        if field.name not in _NEVER
    }


def restore(thing: Kept, values: dict[str, Any]) -> None:
    """Put the values of a snapshot back on a thing; it is not saved."""
    for field in thing._meta.concrete_fields:
        if field.attname in values:
            value = values[field.attname]
            if not isinstance(field, models.ForeignKey) and not isinstance(field, models.JSONField):
                value = field.to_python(value)
            setattr(thing, field.attname, value)


def _plain(value: object) -> object:
    if isinstance(value, uuid.UUID):
        return str(value)
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    return value
