"""Removing a client for good: rows, what the list of changes holds of it, traces on disk."""

from __future__ import annotations

from typing import Any

from django.db import connection, transaction
from django.db.models import Q

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given
from loamshift.store.models import (
    Bed,
    Change,
    Client,
    Garden,
    IntakeDraft,
    JarSeries,
    Kept,
    Office,
    Question,
    SentLetter,
    Trial,
)


def erase_client(office: Office, client: Client) -> int:
    """Remove a client with all that lies in it and what was asked about it, and their changes.

    It cannot be taken back. Backups made earlier and letters sent still hold it.

    Returns
    -------
    int
        Things removed, the client counted [count].

    Raises
    ------
    InputError
        Where the client is not there, or is another office's.
    """
    _overwrite_what_goes()
    with transaction.atomic():
        rows = Client.objects.select_for_update(of=("self",)).filter(office=office, pk=client.pk)
        if not rows:
            raise WordedError(message("store-removed", name=given(client)))
        keys: list[Any] = [client.pk]
        gone = 1
        above: list[Any] = [client.pk]
        levels: list[tuple[type[Kept], list[Any]]] = []
        for model, name in ((Garden, "client"), (Bed, "garden"), (SentLetter, "bed")):
            below = model._default_manager.filter(**{f"{name}__in": above}).order_by("pk")
            above = list(below.select_for_update().values_list("pk", flat=True))
            levels.append((model, above))
            keys += above
            gone += len(above)
        about = Q(bed__in=levels[1][1])
        about_them: tuple[tuple[type[Kept], Q], ...] = (
            (Question, about),
            (Trial, about | Q(client=client.pk)),
            (JarSeries, about),
        )
        for kind, which in about_them:
            rows_of = kind._default_manager.filter(which).order_by("pk")
            found = list(rows_of.select_for_update(of=("self",)).values_list("pk", flat=True))
            levels.append((kind, found))
            keys += found
            gone += len(found)
        changes = Change.objects.filter(office=office, thing__in=keys)
        brought = Q(act__in=changes.values("act")) | Q(garden__in=levels[0][1]) | about
        IntakeDraft.objects.filter(brought, office=office).delete()
        changes.delete()
        for model, some in reversed(levels):
            model._default_manager.filter(pk__in=some).delete()
        rows.delete()
    _leave_no_journal()
    return gone


def _overwrite_what_goes() -> None:
    """Let SQLite write zeros over what is deleted on this connection."""
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA secure_delete = ON")


def _leave_no_journal() -> None:
    """Empty SQLite's journal, which holds what the pages held before."""
    if connection.vendor == "sqlite" and not connection.in_atomic_block:
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
