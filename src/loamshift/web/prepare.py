"""Making the store ready: its folder, a backup before any migration, and two sample beds."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from django.core.management import call_command
from django.db import connection, connections
from django.db.migrations.executor import MigrationExecutor
from django.db.utils import OperationalError
from django.utils import timezone

from loamshift.errors import InputError
from loamshift.store.changes import Writer, purge
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.web.middleware import the_office
from loamshift.web.samples import SAMPLES

BACKUPS: Final = "backups"
KEPT_BACKUPS: Final = 10


def prepare(folder: Path, *, samples: bool) -> list[str]:
    """Bring the database up to this version of the program.

    Parameters
    ----------
    folder
        Where data and backups lie; made when missing [path].
    samples
        Whether an empty store gets its two invented beds [yes/no].

    Returns
    -------
    list of str
        What was done that a person should know [text].

    Raises
    ------
    InputError
        Where the folder cannot be written, the database cannot be reached, or it was written by
        a later version of the program.
    """
    told: list[str] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        connection.ensure_connection()
    except OSError as fault:
        raise InputError(
            f"{folder} cannot be used ({fault.strerror or fault}); name another folder with --data"
        ) from fault
    except OperationalError as fault:
        raise InputError(f"The database cannot be opened: {fault}") from fault
    steps, later = _pending()
    if later:
        raise InputError(
            f"The data in {folder} was written by a later version of loamshift (it knows "
            f"{later[0]}). Nothing was changed. Install that version again, or restore a backup "
            f"from {folder / BACKUPS} into a new folder."
        )
    if steps:
        kept = back_up(folder, why="before-migration")
        if kept is not None:
            told.append(f"A backup was kept first: {kept}")
        call_command("migrate", verbosity=0, interactive=False)
    if samples and not Bed.objects.exists():
        add_samples(the_office())
    purge(now=timezone.now())
    return told


def _pending() -> tuple[list[str], list[str]]:
    """Migrations still to run here, and applied ones that this program does not know."""
    executor = MigrationExecutor(connection)
    executor.loader.check_consistent_history(connection)
    known = set(executor.loader.disk_migrations)
    apps = {app for app, _ in known}
    applied = set(executor.loader.applied_migrations)
    later = sorted(f"{app}.{name}" for app, name in applied - known if app in apps)
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return [str(step[0]) for step in plan], later


def back_up(folder: Path, *, why: str) -> Path | None:
    """Copy an SQLite database that holds something; None for an empty one or another engine."""
    name = str(connection.settings_dict["NAME"])
    if connection.vendor != "sqlite" or not connection.introspection.table_names():
        return None
    place = folder / BACKUPS
    place.mkdir(parents=True, exist_ok=True)
    stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S")
    target = place / f"loamshift-{stamp}-{why}.sqlite3"
    part = target.with_suffix(".part")
    connections.close_all()
    with closing(sqlite3.connect(name)) as source, closing(sqlite3.connect(part)) as copy:
        source.backup(copy)
    part.replace(target)
    for old in sorted(place.glob("loamshift-*.sqlite3"))[:-KEPT_BACKUPS]:
        old.unlink(missing_ok=True)
    return target


def restore_backup(backup: Path, *, folder: Path) -> None:
    """Put a backup in place of the database; what stood there is kept as a backup itself.

    Raises
    ------
    InputError
        Where the file is no database of this program.
    """
    try:
        with closing(sqlite3.connect(f"file:{backup}?mode=ro", uri=True)) as source:
            found = source.execute(
                "select count(*) from sqlite_master where name = 'store_bed'"
            ).fetchone()[0]
    except sqlite3.DatabaseError as fault:
        raise InputError(f"{backup} is not a backup of loamshift: {fault}") from fault
    if not found:
        raise InputError(f"{backup} is not a backup of loamshift: it holds no beds")
    folder.mkdir(parents=True, exist_ok=True)
    back_up(folder, why="before-restore")
    connections.close_all()
    name = Path(str(connection.settings_dict["NAME"]))
    for tail in ("-wal", "-shm"):
        name.with_name(name.name + tail).unlink(missing_ok=True)
    part = name.with_suffix(".part")
    shutil.copyfile(backup, part)
    part.replace(name)


def add_samples(office: Office) -> None:
    """Two invented beds of an invented client, so that no page is empty on the first day."""
    writer = Writer(office, what="Added two sample beds")
    client = Client(name="Sample client", note="Invented, to look around with; delete it any time.")
    writer.add(client)
    garden = Garden(client=client, name="Sample garden", place={"name": "Minneapolis"})
    writer.add(garden)
    for sample in SAMPLES:
        bed = Bed(garden=garden, name=sample.name, case_text=sample.case_text, is_sample=True)
        bed.plants, bed.ph = sample.plants, sample.ph
        writer.add(bed)
