"""Backups: a copy of the whole database beside it, made before anything that cannot be undone."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from django.db import connection
from django.db.migrations.loader import MigrationLoader

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given
from loamshift.web.data.tables import TAIL, write_tables

BACKUPS: Final = "backups"
KEPT_OF_A_KIND: Final = 10
BEFORE_MIGRATION: Final = "before-migration"
BEFORE_RESTORE: Final = "before-restore"
BY_HAND: Final = "by-hand"
PAGES_AT_ONCE: Final = 2000
LONGEST_WAIT_S: Final = 20.0
_SQLITE: Final = ".sqlite3"


def back_up(folder: Path, *, why: str) -> Path | None:
    """Keep a copy of the whole database; None where there is nothing to keep yet.

    SQLite is copied as one file. From PostgreSQL every table is written as CSV into one zip, as
    it stands at one moment; it does not take the place of the server's own backups. The ten
    latest of a kind are kept.
    """
    tables = connection.introspection.table_names()
    if "django_migrations" not in tables:
        return None
    place = folder / BACKUPS
    place.mkdir(parents=True, exist_ok=True)
    tail = _SQLITE if connection.vendor == "sqlite" else TAIL
    target = _free_name(place, why, tail)
    part = target.with_name(target.name + ".part")
    if connection.vendor == "sqlite":
        copy_database(part)
    else:
        write_tables(part)
    part.replace(target)
    for old in sorted(place.glob(f"loamshift-*-{why}*{tail}"))[:-KEPT_OF_A_KIND]:
        old.unlink(missing_ok=True)
    return target


def copy_database(target: Path) -> None:
    """Copy an SQLite database as it stands, also while somebody writes to it."""
    connection.ensure_connection()
    with closing(sqlite3.connect(target)) as copy:
        connection.connection.backup(copy, pages=PAGES_AT_ONCE, progress=_patience())
        copy.execute("PRAGMA journal_mode = DELETE")


def restore_database(backup: Path, *, folder: Path) -> Path | None:
    """Put a copy in the place of the SQLite database, also while a workbench is open on it.

    Raises
    ------
    InputError
        Where the file is no sound database of this program, or a later version wrote it.
    """
    if connection.vendor != "sqlite":
        raise WordedError(message("setup-sqlite-into-postgresql", file=given(backup)))
    _sound(backup)
    folder.mkdir(parents=True, exist_ok=True)
    kept = back_up(folder, why=BEFORE_RESTORE)
    connection.ensure_connection()
    with closing(sqlite3.connect(backup)) as source:
        source.backup(connection.connection, pages=PAGES_AT_ONCE, progress=_patience())
    connection.close()
    return kept


def unknown_migrations(applied: set[tuple[str, str]]) -> list[str]:
    """Applied migrations of ours that this version of the program does not know."""
    known = set(MigrationLoader(None, ignore_no_migrations=True).disk_migrations)
    apps = {app for app, _ in known}
    return sorted(f"{app}.{name}" for app, name in applied - known if app in apps)


def _patience() -> Callable[[int, int, int], None]:
    """Give up on a database that somebody else holds; a copy that gets on may take its time."""
    seen = {"left": -1, "since": time.monotonic()}

    def waited(_status: int, left: int, _pages: int) -> None:
        now = time.monotonic()
        if left != seen["left"]:
            seen.update(left=left, since=now)
        elif now - seen["since"] > LONGEST_WAIT_S:
            raise WordedError(message("setup-database-busy"))

    return waited


def _sound(backup: Path) -> None:
    try:
        with closing(sqlite3.connect(f"{backup.absolute().as_uri()}?mode=ro", uri=True)) as source:
            tables = {row[0] for row in source.execute("select name from sqlite_master")}
            whole = source.execute("pragma quick_check").fetchone()[0] == "ok"
            applied: set[tuple[str, str]] = set()
            if "django_migrations" in tables:
                applied = set(source.execute("select app, name from django_migrations"))
    except sqlite3.Error as fault:
        raise WordedError(
            message("setup-not-a-backup-why", file=given(backup), why=given(fault))
        ) from fault
    if "store_bed" not in tables:
        raise WordedError(message("setup-not-a-backup", file=given(backup)))
    if not whole:
        raise WordedError(message("setup-backup-damaged", file=given(backup)))
    later = unknown_migrations(applied)
    if later:
        raise WordedError(
            message("setup-backup-later", file=given(backup), migration=given(later[0]))
        )


def _free_name(place: Path, why: str, tail: str) -> Path:
    stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S")
    names = (f"loamshift-{stamp}-{why}{more}{tail}" for more in ("", *(f"-{n}" for n in range(99))))
    return next(path for name in names if not (path := place / name).exists())
