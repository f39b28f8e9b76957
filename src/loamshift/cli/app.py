"""The command ``loamshift`` and its parts; each part imports what is heavy when it runs."""

from __future__ import annotations

from typing import Annotated

import typer

from loamshift import __version__
from loamshift.cli import (
    advise,
    backup,
    card,
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
    water,
    why,
)

app = typer.Typer(
    name="loamshift",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 92},
    help=(
        "Advice on soil pH: whether to change it, with what, how much, when, and how it holds.\n\n"
        "Start with one line, or let it ask:\n\n"
        "\b\n"
        '  loamshift new bed.toml --ph 7.2 --texture loam --om 3 --area "20 m2" \\\n'
        '      --plant "highbush blueberry" --place Minneapolis\n'
        "  loamshift advise bed.toml\n\n"
        "Exit codes: 0 answered (also with “don't”), 1 something you gave needs mending, "
        "2 wrong usage, 3 our fault."
    ),
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
            "--version", callback=_version, is_eager=True, help="Print the version and stop."
        ),
    ] = False,
) -> None:
    """Hold the options that stand before a command."""


_COMMANDS = (
    ("advise", advise.command, "Answer cases: verdict, dose, dated parts, cost."),
    ("new", new.command, "Write a first case file, asking or from one line."),
    ("reprint", reprint.command, "Print a letter again from its answer, as it was."),
    ("compare-letters", compare_letters.command, "What changed between two answers, and why."),
    ("card", card.command, "One sheet for the shed: what to do, when, readings."),
    ("claim", claim.command, "What would this material really do?"),
    ("water", water.command, "The lime hard water brings, and acid against it."),
    ("convert", convert.command, "Units, cups of a material, pH methods."),
    ("sample", sample.command, "How many cores, where, how deep, and when."),
    ("plants", plants.command, "The pH a plant wants, with sources."),
    ("materials", materials.command, "What a product brings, with sources."),
    ("places", places.command, "The climate of a place, month by month."),
    ("open", open.command, "Open the workbench in the browser."),
    ("backup", backup.backup, "Keep all of the workbench in a file."),
    ("restore", backup.restore, "Bring back what was kept in a file."),
    ("office", office.command, "Serve the workbench to an office, with sign-in."),
    ("why", why.command, "Open a number to its equation and source."),
)

for _name, _command, _short in _COMMANDS:
    app.command(_name, short_help=_short)(_command)
app.add_typer(office_user.people, name="office-user", short_help="Who may sign in.")
