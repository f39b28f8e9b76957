"""A PostgreSQL database as one zip with a CSV file for every table, and back."""

from __future__ import annotations

import zipfile
from hashlib import sha256
from pathlib import Path
from typing import Final

from django.apps import apps
from django.core.management.color import no_style
from django.db import connection, transaction
from django.db.utils import DatabaseError

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given
from loamshift.store.digests import DIGESTS, digests_text, read_digests

TAIL: Final = ".tables.zip"
_MIGRATIONS: Final = "django_migrations"
_AT_ONCE: Final = 1_000_000


def write_tables(target: Path) -> None:
    """Write every table as it stands at one moment."""
    with (
        transaction.atomic(),
        connection.cursor() as cursor,
        zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive,
    ):
        if not connection.savepoint_ids:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        digests: dict[str, str] = {}
        for table in sorted(connection.introspection.table_names(cursor)):
            name, seen = f"{table}.csv", sha256()
            with (
                archive.open(name, "w", force_zip64=True) as file,
                cursor.copy(f"COPY {_quoted(table)} TO STDOUT WITH (FORMAT csv, HEADER)") as rows,
            ):
                for row in rows:
                    file.write(row)
                    seen.update(row)
            digests[name] = seen.hexdigest()
        archive.writestr(DIGESTS, digests_text(digests))


def restore_tables(file: Path) -> None:
    """Put the tables of such a zip in the place of those of this database, all or none.

    Raises
    ------
    InputError
        Where the database is not PostgreSQL, the zip is damaged, or another version of the
        program wrote it.
    """
    if connection.vendor != "postgresql":
        raise WordedError(message("setup-postgresql-into-sqlite", file=given(file)))
    try:
        with zipfile.ZipFile(file) as archive, transaction.atomic():
            _restore(archive, file)
    except (zipfile.BadZipFile, DatabaseError, ValueError, KeyError, OSError) as fault:
        raise WordedError(message("setup-tables-damaged", file=given(file))) from fault


def _restore(archive: zipfile.ZipFile, file: Path) -> None:
    with connection.cursor() as cursor:
        known = set(connection.introspection.table_names(cursor))
        held = {name.removesuffix(".csv") for name in archive.namelist() if name != DIGESTS}
        cursor.execute(f"CREATE TEMPORARY TABLE was (LIKE {_MIGRATIONS}) ON COMMIT DROP")
        _copy(archive, _MIGRATIONS, into="was")
        cursor.execute(
            f"(SELECT app, name FROM {_MIGRATIONS} EXCEPT SELECT app, name FROM was) UNION "
            f"(SELECT app, name FROM was EXCEPT SELECT app, name FROM {_MIGRATIONS})"
        )
        other = cursor.fetchone()
        if other is not None or held != known:
            raise WordedError(message("setup-tables-other-version", file=given(file)))
        _unchanged(archive)
        cursor.execute(f"TRUNCATE {', '.join(_quoted(table) for table in sorted(known))}")
        for table in sorted(known):
            _copy(archive, table, into=table)
        models = apps.get_models(include_auto_created=True)
        for sql in connection.ops.sequence_reset_sql(no_style(), models):
            cursor.execute(sql)


def _unchanged(archive: zipfile.ZipFile) -> None:
    """Raise where a table is not what it was when it was written; old backups have no digests."""
    if DIGESTS not in archive.namelist():
        return
    for name, digest in read_digests(archive.read(DIGESTS)).items():
        seen = sha256()
        with archive.open(name) as file:
            while data := file.read(_AT_ONCE):
                seen.update(data)
        if seen.hexdigest() != digest:
            raise zipfile.BadZipFile(name)


def _copy(archive: zipfile.ZipFile, table: str, *, into: str) -> None:
    with archive.open(f"{table}.csv") as file, connection.cursor() as cursor:
        head = file.readline().decode("utf-8").strip()
        columns = ", ".join(_quoted(name.strip('"')) for name in head.split(","))
        sql = f"COPY {_quoted(into)} ({columns}) FROM STDIN WITH (FORMAT csv)"
        with cursor.copy(sql) as rows:
            while data := file.read(_AT_ONCE):
                rows.write(data)


def _quoted(name: str) -> str:
    if '"' in name:
        raise WordedError(message("setup-tables-strange"))
    return connection.ops.quote_name(name)
