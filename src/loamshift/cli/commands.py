"""The command ``loamshift`` and its parts, of which a command line needs one.

Each part imports what is heavy when it runs.
"""

from __future__ import annotations

import importlib
import re
from collections.abc import Sequence
from typing import Annotated, Any, Final

import typer
from typer.core import TyperCommand

from loamshift import __version__
from loamshift.cli.help_text import told, told_with_examples

_START = """\b
  loamshift new bed.toml --ph 7.2 --texture loam --om 3 --area "20 m2" \\
      --plant "highbush blueberry" --place Minneapolis
  loamshift advise bed.toml"""


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"loamshift {__version__}")
        raise typer.Exit


def _loamshift(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_version, is_eager=True, help=told("cli-help-app-version")
        ),
    ] = False,
) -> None:
    """Hold the options that stand before a command."""


class _BelowZero(TyperCommand):
    """A command whose figures may be below zero: ``-5 C`` is no option."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        return super().parse_args(ctx, [re.sub(r"^-(?=[\d.])", "−", word) for word in args])


_COMMANDS: Final = (
    ("advise", "advise.command"),
    ("new", "new.command"),
    ("examples", "examples.command"),
    ("check", "check.command"),
    ("reprint", "reprint.command"),
    ("intake", "intake.command"),
    ("triage", "triage.command"),
    ("compare-letters", "compare_letters.command"),
    ("score", "score.command"),
    ("card", "card.command"),
    ("next", "next_test.command"),
    ("map", "map.command"),
    ("claim", "claim.command"),
    ("water", "water.command"),
    ("convert", "convert.command"),
    ("sample", "sample.command"),
    ("plants", "plants.command"),
    ("materials", "materials.command"),
    ("places", "places.command"),
    ("open", "open.command"),
    ("backup", "backup.backup"),
    ("restore", "backup.restore"),
    ("office", "office.command"),
    ("why", "why.command"),
    ("schema", "schema.command"),
)
"""Names in the order listed, and where each is written."""
_OTHER_NAMES: Final = (("explain", "why"), ("handout", "card"))
"""Names that lead to a command as well, and are not listed."""
_BELOW_ZERO: Final = ("convert", "places")
_GROUPS: Final = (("trial", "trial.trials"), ("office-user", "office_user.people"))
"""Commands with commands of their own."""


def command_line(arguments: Sequence[str] = ()) -> typer.Typer:
    """The command with its parts: the one that the arguments begin with, or all of them.

    Building all of them takes a tenth of the time of a short command; a version needs none.
    """
    app = typer.Typer(
        name="loamshift",
        no_args_is_help=True,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 92},
        help="\n\n".join((told("cli-help-loamshift"), _START, told("cli-help-loamshift-codes"))),
    )
    app.callback()(_loamshift)
    if list(arguments) == ["--version"]:
        return app
    named = dict(_OTHER_NAMES).get(arguments[0], arguments[0]) if arguments else ""
    alone = [row for row in (*_COMMANDS, *_GROUPS) if row[0] == named]
    for name, place in alone or (*_COMMANDS, *_GROUPS):
        if (name, place) in _GROUPS:
            module, group = place.split(".")
            commands = getattr(importlib.import_module(f"loamshift.cli.{module}"), group)
            app.add_typer(commands, name=name, short_help=told(f"cli-help-{name}-short"))
        else:
            _add(app, name, place)
    if alone and alone[0] in _GROUPS:
        app.callback()(_loamshift)
    return app


def _add(app: typer.Typer, name: str, place: str) -> None:
    module, function = place.split(".")
    command = getattr(importlib.import_module(f"loamshift.cli.{module}"), function)
    text = told_with_examples(f"cli-help-{name}", command.__doc__)
    kind = _BelowZero if name in _BELOW_ZERO else None
    app.command(name, cls=kind, short_help=told(f"cli-help-{name}-short"), help=text)(command)
    for other, meant in _OTHER_NAMES:
        if meant == name:
            app.command(other, hidden=True, help=text)(command)
