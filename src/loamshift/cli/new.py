"""``loamshift new``: a first case file, from questions or from one line."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from loamshift.cli import case_options as co
from loamshift.cli.help_text import told
from loamshift.cli.options import TodayOption, UnitsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given


def interactive() -> bool:
    """True where somebody sits at the keyboard."""
    return sys.stdin.isatty()


def command(
    file: Annotated[
        Path | None,
        typer.Argument(metavar="FILE", help=told("cli-help-new-the-file"), show_default=False),
    ] = None,
    plant: co.PlantOption = None,
    target_ph: co.TargetOption = None,
    ph: co.PhOption = None,
    ph_method: co.MethodOption = None,
    fizz: co.FizzOption = None,
    fizz_acid: co.FizzAcidOption = None,
    texture: co.TextureOption = None,
    om: co.OmOption = None,
    kind: co.KindOption = None,
    area: co.AreaOption = None,
    depth: co.DepthOption = None,
    place: co.PlaceOption = None,
    alkalinity: co.AlkalinityOption = None,
    weekly: co.WeeklyOption = None,
    name: co.NameOption = None,
    units: UnitsOption = None,
    today: TodayOption = None,
    force: Annotated[bool, typer.Option("--force", help=told("cli-help-new-force"))] = False,
) -> None:
    """Write a first case file: from questions, or from options and then without asking.

    The questions come in the order an adviser asks them, and Enter passes one by. The file is
    commented, so that it can be gone on with in any editor.

    \b
    Example:
      loamshift new bed.toml --ph 7.2 --texture loam --om 3 --area "20 m2" \\
          --plant "highbush blueberry" --place Minneapolis
    """
    from loamshift.cli.files import write_whole
    from loamshift.cli.show import clock_today, misuse, read_date, tell

    answers = co.given(
        aim__plant=plant,
        aim__target_ph=target_ph,
        soil__ph=ph,
        soil__ph_method=ph_method,
        soil__fizz=fizz,
        soil__fizz_acid=fizz_acid,
        soil__texture=texture,
        soil__organic_matter_pct=om,
        bed__kind=kind,
        bed__area=area,
        bed__depth=depth,
        place__name=place,
        water__alkalinity=alkalinity,
        water__weekly=weekly,
        name=name,
    )
    day = read_date(today, option="--today") if today is not None else None
    if file is not None and file.is_dir():
        raise WordedError(message("cli-is-folder", path=given(file)))
    if file is not None and file.exists() and not force:
        raise WordedError(message("cli-exists-force", path=given(file)))
    if not answers:
        if not interactive():
            raise misuse(message("cli-nobody-to-answer"), "new")
        from loamshift.cli.questions import ask_all

        answers = ask_all(today=day or clock_today())
    if units is not None:
        answers["units"] = units.value
    if day is not None:
        answers["today"] = day
    co.case_from(answers, today=day or clock_today())
    from loamshift.case.write import case_toml
    from loamshift.cli.show import words_for

    text = case_toml(answers, words=words_for(units, None))
    if file is None:
        sys.stdout.write(text)
    else:
        write_whole(file, text, replace=force)
        tell(message("cli-written-next", path=given(file)))
