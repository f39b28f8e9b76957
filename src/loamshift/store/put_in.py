"""Putting what a zip holds into an office: all of it or nothing."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.db import transaction

from loamshift.domain.message import Worded, message
from loamshift.domain.worded_error import fault
from loamshift.store.archive import ArchiveFault
from loamshift.store.changes import Writer
from loamshift.store.export import OFFICE_FIELDS
from loamshift.store.forecast_files import put_forecasts
from loamshift.store.models import Change, Kept, Office, User
from loamshift.store.plain import KINDS, kind_of, snapshot
from loamshift.store.restore import Archive

_AT_ONCE: Final = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class PutIn:
    """What was done: things added, things left as they were and how many of those differ from
    the zip, and the act that takes it back (none where everything was replaced).
    """

    added: int
    left: int
    differing: int
    act: uuid.UUID | None


def is_empty(office: Office) -> bool:
    """True where an office has nothing, not even something put away."""
    return not any(
        model._default_manager.filter(office=office).exists() for model in KINDS.values()
    )


def add_missing(
    archive: Archive, office: Office, *, user: User | None = None, what: Worded
) -> PutIn:
    """Add what an office does not have; what it has stays as it is, settings too.

    It is one act, which can be taken back. Saved plans come with beds that are added.

    Raises
    ------
    InputError
        Where an id belongs to another office, or something would lie in what was deleted here.
    """
    writer = Writer(office, user=user, what=what)
    added = left = unlike = 0
    new: set[uuid.UUID] = set()
    with transaction.atomic():
        _nobody_elses(archive.things, office)
        here = _here(archive.things, office)
        for thing in archive.things:
            same = here.get((kind_of(thing), thing.pk))
            if same is None:
                writer.add(thing)
                new.add(thing.pk)
                added += 1
            else:
                left += 1
                unlike += snapshot(same) != snapshot(thing)
        put_forecasts([plan for plan in archive.forecasts if plan.bed_id in new], office)
    return PutIn(added=added, left=left, differing=unlike, act=writer.act if added else None)


def replace_all(archive: Archive, office: Office) -> PutIn:
    """Put a zip in the place of everything an office has, settings and list of changes included.

    It cannot be taken back; whoever calls it keeps a backup first.

    Raises
    ------
    ArchiveFault
        Where an id belongs to another office; nothing is changed then.
    """
    with transaction.atomic():
        Office.objects.select_for_update().get(pk=office.pk)
        _nobody_elses(archive.things, office)
        Change.objects.filter(office=office).delete()
        for model in reversed(KINDS.values()):
            model._default_manager.filter(office=office).delete()
        for model in KINDS.values():
            things = [thing for thing in archive.things if isinstance(thing, model)]
            for thing in things:
                thing.office = office
                thing.sought = thing.words_sought()
            model._default_manager.bulk_create(things, batch_size=_AT_ONCE // 4)
        for name in OFFICE_FIELDS:
            setattr(office, name, getattr(archive.office, name))
        office.save()
        put_forecasts(archive.forecasts, office)
    return PutIn(added=len(archive.things), left=0, differing=0, act=None)


def _here(things: Sequence[Kept], office: Office) -> dict[tuple[str, uuid.UUID], Kept]:
    return {
        (kind, one.pk): one
        for kind, model in KINDS.items()
        for keys in _keys(things, model)
        for one in model._default_manager.filter(office=office, pk__in=keys)
    }


def _nobody_elses(things: Sequence[Kept], office: Office) -> None:
    faults = [
        fault(f"{kind} {key}", message("store-id-elsewhere"), message("store-ask-for-export"))
        for kind, model in KINDS.items()
        for keys in _keys(things, model)
        for key in model._default_manager.filter(pk__in=keys)
        .exclude(office=office)
        .order_by("pk")
        .values_list("pk", flat=True)
    ]
    if faults:
        raise ArchiveFault(faults)


def _keys(things: Sequence[Kept], model: type[Kept]) -> Iterator[list[Any]]:
    keys = [thing.pk for thing in things if isinstance(thing, model)]
    for start in range(0, len(keys), _AT_ONCE):
        yield keys[start : start + _AT_ONCE]
