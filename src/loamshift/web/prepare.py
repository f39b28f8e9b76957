"""Making the store ready: its folder, a backup before any migration, and two sample beds."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Final

from django.core.management import call_command
from django.db import connection, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.utils import DatabaseError, OperationalError
from django.utils import timezone

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, given
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.changes import Writer, purge
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.data.backups import BACKUPS, BEFORE_MIGRATION, back_up, unknown_migrations
from loamshift.web.middleware import the_office

WAITED_S: Final = 60.0
"""How long a database server that does not answer is waited for at the start [s]."""
BETWEEN_S: Final = 2.0


def prepare(
    folder: Path, *, samples: bool, waits: Callable[[Message], None] | None = None
) -> list[str]:
    """Bring the database up to this version of the program.

    Where ``waits`` is given, a database server that does not answer yet is told to it once and
    tried for a minute, as after a start of the whole machine.

    Raises
    ------
    InputError
        Where the folder cannot be written, the database cannot be reached, or it was written by
        a later version of the program.
    """
    told: list[str] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _connect(waits)
    except OSError as fault:
        why = given(fault.strerror or fault)
        raise WordedError(
            message("setup-folder-unusable", folder=given(folder), why=why)
        ) from fault
    except DatabaseError as fault:
        raise WordedError(
            message("setup-database-unusable", why=given(fault), backups=given(folder / BACKUPS))
        ) from fault
    steps, later = _pending()
    if later:
        raise WordedError(
            message(
                "setup-later-version",
                folder=given(folder),
                migration=given(later[0]),
                backups=given(folder / BACKUPS),
            )
        )
    if steps:
        kept = back_up(folder, why=BEFORE_MIGRATION)
        if kept is not None:
            told.append(say(message("setup-backup-made", file=given(kept)), Words()))
        call_command("migrate", verbosity=0, interactive=False)
    with transaction.atomic():
        if samples and not Office.objects.exists():
            add_samples(the_office())
    purge(now=timezone.now())
    return told


def _connect(waits: Callable[[Message], None] | None) -> None:
    given_up = time.monotonic() + WAITED_S
    while True:
        try:
            connection.ensure_connection()
            return
        except OperationalError as fault:
            if waits is None or connection.vendor == "sqlite" or time.monotonic() > given_up:
                raise
            why = given(str(fault).split("\n", 1)[0])
            waits(message("setup-database-waits", why=why, seconds=int(WAITED_S)))
            waits = _silent
            time.sleep(BETWEEN_S)


def _silent(_: Message) -> None:
    """Nothing more is said while the waiting goes on."""


def _pending() -> tuple[list[str], list[str]]:
    """Migrations still to run here, and applied ones that this program does not know."""
    executor = MigrationExecutor(connection)
    later = unknown_migrations(set(executor.loader.applied_migrations))
    if not later:
        executor.loader.check_consistent_history(connection)
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return [str(step[0]) for step in plan], later


def add_samples(office: Office) -> None:
    """Two invented beds of an invented client, so that no page is empty on the first day."""
    writer = Writer(office, what=message("acts-examples-added"))
    words = Words()
    client = Client(
        name=say(message("setup-example-client"), words),
        note=say(message("setup-example-note"), words),
    )
    writer.add(client)
    garden = Garden(
        client=client,
        name=say(message("setup-example-garden"), words),
        place={"name": "Minneapolis"},
    )
    writer.add(garden)
    today = date.today()  # noqa: DTZ011 - the local day
    for sample in SAMPLES:
        bed = Bed(garden=garden, is_sample=True)
        put_case(bed, sample.as_of(today), today=today)
        writer.add(bed)
