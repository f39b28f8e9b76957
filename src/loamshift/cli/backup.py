"""``loamshift backup`` and ``loamshift restore``: the store out to a file, and back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.store.models import Office

Data = Annotated[
    Path | None,
    typer.Option("--data", metavar="FOLDER", help=told("cli-help-backup-data"), show_default=False),
]
Whose = Annotated[
    str,
    typer.Option("--office", metavar="NAME", help=told("cli-help-backup-office")),
]
LARGEST_ZIP = 4_000_000_000


def backup(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=told("cli-help-backup-the-file"))],
    data: Data = None,
    office: Whose = "",
    over: Annotated[bool, typer.Option("--over", help=told("cli-help-backup-over"))] = False,
) -> None:
    """Keep everything in a file.

    A zip holds one office as plain tables and case files, from SQLite and PostgreSQL alike; it
    opens without loamshift. A .sqlite3 file is a copy of the whole SQLite database, with the list
    of changes and the people who sign in. Both are safe while a workbench is open.

    \b
    Example:
      loamshift backup --data garden-data beds.zip
    """
    from loamshift.cli.show import tell

    if file.exists() and not over:
        raise WordedError(message("cli-backup-exists", path=given(file)))
    folder = _ready(data, must_exist=True)
    part = file.with_name(file.name + ".part")
    try:
        if file.suffix == ".zip":
            from django.utils import timezone

            from loamshift.report.messages import say
            from loamshift.store.export import write_store
            from loamshift.web.wording import words_of

            whose = _office(office)
            about = say(message("store-about"), words_of(whose))
            with part.open("wb") as target:
                write_store(target, whose, now=timezone.now(), about=about)
        elif file.suffix == ".sqlite3":
            from django.db import connection

            from loamshift.web.data.backups import copy_database

            if connection.vendor != "sqlite":
                raise WordedError(message("cli-backup-postgresql"))
            copy_database(part)
        else:
            raise WordedError(message("cli-backup-ending", path=given(file)))
        part.replace(file)
    except OSError as fault:
        why = given(fault.strerror or fault)
        raise WordedError(message("cli-cannot-write", path=given(file), why=why)) from fault
    finally:
        part.unlink(missing_ok=True)
    tell(message("cli-backup-done", folder=given(folder), path=given(file)))


def restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=told("cli-help-backup-the-file"))],
    data: Data = None,
    office: Whose = "",
    replace: Annotated[
        bool, typer.Option("--replace", help=told("cli-help-backup-replace"))
    ] = False,
    add: Annotated[bool, typer.Option("--add", help=told("cli-help-backup-add"))] = False,
) -> None:
    """Bring back what was kept in a file.

    A zip goes into an empty store by itself; where something stands there, say whether it is to
    be replaced or added to. A copy of the database needs --replace then. What is replaced is kept
    as a backup first. Nothing is ever half brought back.

    \b
    Example:
      loamshift restore --data garden-data beds.zip
    """
    from loamshift.cli.show import tell

    if add and replace:
        raise WordedError(message("cli-restore-one"))
    if not file.is_file():
        raise WordedError(message("cli-restore-no-file", path=given(file)))
    folder = _ready(data, must_exist=False)
    if file.suffix == ".zip" and not file.name.endswith(".tables.zip"):
        said = _restore_zip(file, folder, office, replace=replace, add=add)
    else:
        said = _restore_database(file, folder, replace=replace)
    for one in said:
        tell(one)


def _ready(data: Path | None, *, must_exist: bool) -> Path:
    """Set Django up on a store of this version; a new one where there is none."""
    from loamshift.web.serve import set_up

    if must_exist and data is not None and not data.is_dir():
        raise WordedError(message("cli-restore-no-folder", path=given(data)))
    folder = set_up(folder=data)
    from django.db import connection

    from loamshift.web.prepare import prepare

    if must_exist and connection.vendor == "sqlite":
        name = Path(str(connection.settings_dict["NAME"]))
        if not name.is_file():
            raise WordedError(message("cli-restore-no-data", path=given(folder)))
    prepare(folder, samples=False)
    return folder


def _restore_zip(
    file: Path, folder: Path, office: str, *, replace: bool, add: bool
) -> list[Message]:
    from loamshift.store.put_in import add_missing, is_empty, replace_all
    from loamshift.store.restore import Limits, read_zip
    from loamshift.web.data.backups import BEFORE_RESTORE, back_up

    whose = _office(office)
    empty = is_empty(whose)
    if not (empty or replace or add):
        where = {"folder": given(folder), "path": given(file)}
        raise WordedError(message("cli-restore-has-beds", **where))
    limits = Limits(packed=LARGEST_ZIP, unpacked=10 * LARGEST_ZIP, files=2_000_000)
    archive = read_zip(file.read_bytes(), limits=limits)
    if archive.scope != "store" and replace:
        raise WordedError(message("cli-restore-one-client", path=given(file)))
    if add or archive.scope != "store":
        what = message("data-restored-from", day=archive.made_at.date())
        done = add_missing(archive, whose, what=what)
        return [
            message("cli-restore-added", added=done.added, left=done.left, differing=done.differing)
        ]
    kept = None if empty else back_up(folder, why=BEFORE_RESTORE)
    done = replace_all(archive, whose)
    said = [message("cli-restore-done", added=done.added, path=given(folder))]
    return said if kept is None else [*said, message("cli-restore-kept", path=given(kept))]


def _restore_database(file: Path, folder: Path, *, replace: bool) -> list[Message]:
    from loamshift.store.models import Client, Office, Product
    from loamshift.web.data.backups import BEFORE_RESTORE, back_up, restore_database
    from loamshift.web.data.tables import TAIL, restore_tables
    from loamshift.web.prepare import prepare

    holds = Client.objects.exists() or Product.objects.exists() or Office.objects.exists()
    if holds and not replace:
        where = {"folder": given(folder), "path": given(file)}
        raise WordedError(message("cli-restore-has-data", **where))
    if file.name.endswith(TAIL):
        kept = back_up(folder, why=BEFORE_RESTORE)
        restore_tables(file)
    else:
        kept = restore_database(file, folder=folder)
    prepare(folder, samples=False)
    said = [message("cli-restore-database", folder=given(folder), path=given(file))]
    if kept is not None and holds:
        said.append(message("cli-restore-kept", path=given(kept)))
    return said


def _office(name: str) -> Office:
    from loamshift.store.models import Office
    from loamshift.web.middleware import the_office

    if not name:
        if Office.objects.count() > 1:
            names = ", ".join(Office.objects.order_by("name").values_list("name", flat=True))
            raise WordedError(message("cli-restore-which-office", offices=given(names)))
        return the_office()
    found = list(Office.objects.filter(name=name)[:2])
    if len(found) != 1:
        key = "cli-restore-office-twice" if found else "cli-restore-office-unknown"
        raise WordedError(message(key, office=given(name)))
    return found[0]
