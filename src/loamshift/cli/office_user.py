"""``loamshift office-user``: who may sign in, and as what."""

from __future__ import annotations

import sys
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told, told_with_examples
from loamshift.cli.office import DatabaseOption, DataOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from pathlib import Path

    from loamshift.store.models import Office, User

people = typer.Typer(
    no_args_is_help=True,
    help=told("cli-help-office-user"),
)


_LONGEST_OFFICE = 120
"""Characters of the name of an office."""


class RoleChoice(StrEnum):
    """What a person may do."""

    ADVISER = "adviser"
    READER = "reader"


NameArgument = Annotated[str, typer.Argument(metavar="NAME", show_default=False)]


def _open_store(data: Path | None, database: str) -> None:
    from loamshift.cli.show import warn
    from loamshift.web.serve import set_up

    folder = set_up(folder=data, database=database, office=True)
    from loamshift.web.prepare import prepare

    for line in prepare(folder, samples=False):
        warn(line)


def add(
    name: NameArgument,
    office: Annotated[
        str,
        typer.Option(
            "--office",
            metavar="OFFICE",
            help=told("cli-help-office-user-office"),
            show_default=False,
        ),
    ] = "",
    new_office: Annotated[
        bool, typer.Option("--new-office", help=told("cli-help-office-user-new-office"))
    ] = False,
    role: Annotated[
        RoleChoice, typer.Option("--role", help=told("cli-help-office-user-role"))
    ] = RoleChoice.READER,
    data: DataOption = None,
    database: DatabaseOption = "",
) -> None:
    """Add a person, and ask for the first password.

    \b
    Example:
      loamshift office-user add robin --office "North office" --role adviser
    """
    from loamshift.cli.show import say, worded

    _open_store(data, database)
    from django.core.exceptions import ValidationError
    from django.db import transaction

    from loamshift.store.models import User

    user = User(username=name.strip(), role=role.value)
    try:
        user.full_clean(exclude=["password", "office"])
    except ValidationError as error:
        why = given(" ".join(error.messages))
        raise WordedError(message("cli-user-not-added", name=given(name), why=why)) from error
    chosen = _office(office.strip(), new=new_office)
    user.set_password(_new_password(user))
    with transaction.atomic():
        if chosen.pk is None or chosen._state.adding:
            chosen.save()
        user.office = chosen
        user.save()
    said = message("cli-user-role", role=role.value)
    where = given(chosen.name)
    say(worded(message("cli-user-added", name=given(user.username), office=where, role=said)))


def _office(name: str, *, new: bool) -> Office:
    from loamshift.store.models import Office

    every = list(Office.objects.order_by("name"))
    same = [one for one in every if one.name.casefold() == name.casefold()]
    listed = ", ".join(f"“{one.name}”" for one in every)
    if new or not every:
        if not name:
            raise WordedError(message("cli-user-office-missing"))
        if same:
            raise WordedError(message("cli-user-office-exists", office=given(same[0].name)))
        if len(name) > _LONGEST_OFFICE:
            raise WordedError(message("cli-user-office-long", most=_LONGEST_OFFICE))
        return Office(name=name)
    if not name and len(every) == 1:
        return every[0]
    if len(same) != 1:
        raise WordedError(
            message("cli-user-office-unknown", given=given(name), offices=given(listed))
        )
    return same[0]


def show_all(data: DataOption = None, database: DatabaseOption = "") -> None:
    """List the people with office and role.

    \b
    Example:
      loamshift office-user list --data office-data
    """
    from loamshift.cli.show import say, worded

    _open_store(data, database)
    from loamshift.store.models import User

    for one in User.objects.select_related("office").order_by("office__name", "username"):
        line = message(
            "cli-user-line",
            name=given(one.username),
            role=message("cli-user-role", role=one.role),
            office=message("cli-user-no-office") if one.office is None else given(one.office.name),
            seen=given(f"{one.last_login:%Y-%m-%d}") if one.last_login else None,
            active="yes" if one.is_active else "no",
        )
        say(worded(line))


def set_password(
    name: NameArgument, data: DataOption = None, database: DatabaseOption = ""
) -> None:
    """Ask for a new password; wherever the person is signed in, that ends.

    \b
    Example:
      loamshift office-user set-password robin
    """
    from loamshift.cli.show import say, worded

    _open_store(data, database)
    user = _found(name)
    user.set_password(_new_password(user))
    user.save(update_fields=["password"])
    say(worded(message("cli-user-new-password", name=given(user.username))))


def set_role(
    name: NameArgument,
    role: Annotated[RoleChoice, typer.Argument(show_default=False)],
    data: DataOption = None,
    database: DatabaseOption = "",
) -> None:
    """Make somebody an adviser or a reader.

    \b
    Example:
      loamshift office-user set-role robin reader
    """
    from loamshift.cli.show import say, worded

    _open_store(data, database)
    user = _found(name)
    user.role = role.value
    user.save(update_fields=["role"])
    say(worded(message("cli-user-is", name=given(user.username), role=role.value)))


def disable(name: NameArgument, data: DataOption = None, database: DatabaseOption = "") -> None:
    """Let somebody sign in no more; what they did stays.

    \b
    Example:
      loamshift office-user disable robin
    """
    _set_active(name, data, database, active=False)


def enable(name: NameArgument, data: DataOption = None, database: DatabaseOption = "") -> None:
    """Let somebody sign in again.

    \b
    Example:
      loamshift office-user enable robin
    """
    _set_active(name, data, database, active=True)


def key(
    name: NameArgument,
    purpose: Annotated[
        str, typer.Option("--for", metavar="PROGRAM", help=told("cli-help-office-user-for"))
    ] = "a program",
    data: DataOption = None,
    database: DatabaseOption = "",
) -> None:
    """Make a key with which a program uses the API as this person; it is printed this once.

    \b
    Example:
      loamshift office-user key robin --for "laboratory import"
    """
    from loamshift.cli.show import say, tell

    _open_store(data, database)
    from loamshift.web.account.keys import new_key

    user = _found(name)
    say(new_key(user, name=purpose.strip() or "a program"))
    tell(message("cli-user-key-once"))


for _name, _command in (
    ("add", add),
    ("list", show_all),
    ("set-password", set_password),
    ("set-role", set_role),
    ("disable", disable),
    ("enable", enable),
    ("key", key),
):
    _help = told_with_examples(f"cli-help-office-user-{_name}", _command.__doc__)
    people.command(_name, help=_help)(_command)


def _set_active(name: str, data: Path | None, database: str, *, active: bool) -> None:
    from loamshift.cli.show import say, worded

    _open_store(data, database)
    user = _found(name)
    user.is_active = active
    user.save(update_fields=["is_active"])
    key = "cli-user-again" if active else "cli-user-disabled"
    say(worded(message(key, name=given(user.username))))


def _found(name: str) -> User:
    from loamshift.store.models import User

    user: User | None = User.objects.filter(username=name.strip()).first()
    if user is None:
        raise WordedError(message("cli-user-unknown", name=given(name)))
    return user


def _new_password(user: User) -> str:
    """Ask twice on the terminal; one line of a pipe is taken as it is."""
    from django.contrib.auth.password_validation import validate_password
    from django.core.exceptions import ValidationError

    from loamshift.cli.show import worded

    if sys.stdin.isatty():
        import getpass

        password = getpass.getpass(f"{worded(message('cli-user-password'))} ")
        if password != getpass.getpass(f"{worded(message('cli-user-password-again'))} "):
            raise WordedError(message("cli-user-passwords-differ"))
    else:
        password = sys.stdin.readline().rstrip("\r\n")
    try:
        validate_password(password, user)
    except ValidationError as error:
        why = given(" ".join(error.messages))
        raise WordedError(message("cli-user-password-weak", why=why)) from error
    return password
