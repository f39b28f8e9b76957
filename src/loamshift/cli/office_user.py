"""``loamshift office-user``: who may sign in, and as what."""

from __future__ import annotations

import sys
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told, told_with_examples
from loamshift.cli.office import DatabaseOption, DataOption
from loamshift.errors import InputError

if TYPE_CHECKING:
    from pathlib import Path

    from loamshift.store.models import Office, User

people = typer.Typer(
    no_args_is_help=True,
    help=told("cli-help-office-user"),
)


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
    from loamshift.cli.show import say

    _open_store(data, database)
    from django.core.exceptions import ValidationError
    from django.db import transaction

    from loamshift.store.models import User

    user = User(username=name.strip(), role=role.value)
    try:
        user.full_clean(exclude=["password", "office"])
    except ValidationError as error:
        raise InputError(f"{name!r} cannot be added: {' '.join(error.messages)}") from error
    chosen = _office(office.strip(), new=new_office)
    user.set_password(_new_password(user))
    with transaction.atomic():
        if chosen.pk is None or chosen._state.adding:
            chosen.save()
        user.office = chosen
        user.save()
    say(f"{user.username} may sign in to “{chosen.name}” as {role.value}.")


def _office(name: str, *, new: bool) -> Office:
    from loamshift.store.models import Office

    every = list(Office.objects.order_by("name"))
    same = [one for one in every if one.name.casefold() == name.casefold()]
    listed = ", ".join(f"“{one.name}”" for one in every)
    if new or not every:
        if not name:
            raise InputError("Name the office with --office")
        if same:
            raise InputError(f"There is an office “{same[0].name}” already; leave --new-office out")
        if len(name) > 120:
            raise InputError("--office: shorten the name to 120 signs")
        return Office(name=name)
    if not name and len(every) == 1:
        return every[0]
    if len(same) != 1:
        raise InputError(
            f"--office {name!r} is none of {listed}; name one of them, or add --new-office"
        )
    return same[0]


def show_all(data: DataOption = None, database: DatabaseOption = "") -> None:
    """List the people with office and role.

    \b
    Example:
      loamshift office-user list --data office-data
    """
    from loamshift.cli.show import say

    _open_store(data, database)
    from loamshift.store.models import User

    for one in User.objects.select_related("office").order_by("office__name", "username"):
        seen = f"last signed in {one.last_login:%Y-%m-%d}" if one.last_login else "never signed in"
        state = "" if one.is_active else ", disabled"
        where = one.office.name if one.office is not None else "no office"
        say(f"{one.username}: {one.role} of “{where}”, {seen}{state}")


def set_password(
    name: NameArgument, data: DataOption = None, database: DatabaseOption = ""
) -> None:
    """Ask for a new password; wherever the person is signed in, that ends.

    \b
    Example:
      loamshift office-user set-password robin
    """
    from loamshift.cli.show import say

    _open_store(data, database)
    user = _found(name)
    user.set_password(_new_password(user))
    user.save(update_fields=["password"])
    say(f"{user.username} has a new password.")


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
    from loamshift.cli.show import say

    _open_store(data, database)
    user = _found(name)
    user.role = role.value
    user.save(update_fields=["role"])
    say(f"{user.username} is {role.value} now.")


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
    from loamshift.cli.show import say, warn

    _open_store(data, database)
    from loamshift.web.keys import new_key

    user = _found(name)
    say(new_key(user, name=purpose.strip() or "a program"))
    warn("It is not kept and cannot be shown again; the account page ends it.")


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
    from loamshift.cli.show import say

    _open_store(data, database)
    user = _found(name)
    user.is_active = active
    user.save(update_fields=["is_active"])
    say(f"{user.username} may sign in {'again' if active else 'no more'}.")


def _found(name: str) -> User:
    from loamshift.store.models import User

    user: User | None = User.objects.filter(username=name.strip()).first()
    if user is None:
        raise InputError(f"There is nobody called {name!r}; `loamshift office-user list` names all")
    return user


def _new_password(user: User) -> str:
    """Ask twice on the terminal; one line of a pipe is taken as it is."""
    from django.contrib.auth.password_validation import validate_password
    from django.core.exceptions import ValidationError

    if sys.stdin.isatty():
        import getpass

        password = getpass.getpass("Password: ")
        if password != getpass.getpass("Again: "):
            raise InputError("The two passwords differ; nothing was changed")
    else:
        password = sys.stdin.readline().rstrip("\r\n")
    try:
        validate_password(password, user)
    except ValidationError as error:
        raise InputError(f"Another password, please: {' '.join(error.messages)}") from error
    return password
