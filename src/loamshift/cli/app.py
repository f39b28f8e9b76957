"""The command ``loamshift`` and its parts; each part imports what is heavy when it runs."""

from __future__ import annotations

import re
from typing import Annotated, Any

import typer
from typer.core import TyperCommand

from loamshift import __version__
from loamshift.cli import (
    advise,
    backup,
    card,
    check,
    claim,
    compare_letters,
    convert,
    materials,
    new,
    office,
    office_user,
    open,
    places,
    plants,
    reprint,
    sample,
    schema,
    water,
    why,
)
from loamshift.cli.help_text import told, told_with_examples

_START = """\b
  loamshift new bed.toml --ph 7.2 --texture loam --om 3 --area "20 m2" \\
      --plant "highbush blueberry" --place Minneapolis
  loamshift advise bed.toml"""

app = typer.Typer(
    name="loamshift",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 92},
    help="\n\n".join((told("cli-help-loamshift"), _START, told("cli-help-loamshift-codes"))),
)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"loamshift {__version__}")
        raise typer.Exit


@app.callback()
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


_COMMANDS = (
    ("advise", advise.command),
    ("new", new.command),
    ("check", check.command),
    ("reprint", reprint.command),
    ("compare-letters", compare_letters.command),
    ("card", card.command),
    ("claim", claim.command),
    ("water", water.command),
    ("convert", convert.command),
    ("sample", sample.command),
    ("plants", plants.command),
    ("materials", materials.command),
    ("places", places.command),
    ("open", open.command),
    ("backup", backup.backup),
    ("restore", backup.restore),
    ("office", office.command),
    ("why", why.command),
    ("schema", schema.command),
)
_OTHER_NAMES = (("explain", "why"), ("handout", "card"))
"""Names that lead to a command as well, and are not listed."""

for _name, _command in _COMMANDS:
    _help = told_with_examples(f"cli-help-{_name}", _command.__doc__)
    _kind = _BelowZero if _name in ("convert", "places") else None
    app.command(_name, cls=_kind, short_help=told(f"cli-help-{_name}-short"), help=_help)(_command)
    for _other, _meant in _OTHER_NAMES:
        if _meant == _name:
            app.command(_other, hidden=True, help=_help)(_command)
app.add_typer(office_user.people, name="office-user", short_help=told("cli-help-office-user-short"))
