"""``loamshift trial jars``: a titration in jars, from the protocol to the soil's own curve."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import TodayOption, UnitsOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.domain.trial_jars import JarPlan


def jars(
    case_file: Annotated[Path, typer.Argument(metavar="CASE.toml", show_default=False)],
    to_ph: Annotated[
        float, typer.Option("--to-ph", min=3.0, max=9.0, help=told("cli-help-trial-jars-to-ph"))
    ],
    count: Annotated[
        int, typer.Option("--jars", min=3, max=24, help=told("cli-help-trial-jars-count"))
    ] = 6,
    soil_g: Annotated[
        float, typer.Option("--soil-g", min=5.0, help=told("cli-help-trial-jars-soil"))
    ] = 50.0,
    acid_mol_l: Annotated[
        float,
        typer.Option("--acid-mol-l", min=0.005, max=1.0, help=told("cli-help-trial-jars-acid")),
    ] = 0.1,
    csv: Annotated[
        Path | None,
        typer.Option("--csv", metavar="FILE", help=told("cli-help-trial-csv"), show_default=False),
    ] = None,
    read: Annotated[
        Path | None,
        typer.Option(
            "--read", metavar="FILE", help=told("cli-help-trial-jars-read"), show_default=False
        ),
    ] = None,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Titrate the soil in jars, and turn the readings into its own buffer curve.

    \b
    Examples:
      loamshift trial jars bed.toml --to-ph 5.5 --csv jars.csv
      loamshift trial jars bed.toml --to-ph 5.5 --read jars.csv
    """
    from loamshift.case.read import read_case
    from loamshift.case.trial_jars import jars_csv, read_jars_sheet, titration_toml
    from loamshift.cli.letter_forms import write_all
    from loamshift.cli.show import clock_today, read_date, say, show, words_for
    from loamshift.report.trial_jars import jars_letter, jars_result_letter
    from loamshift.services.trial.jars import plan_jars, read_jars

    day = read_date(today, option="--today") if today is not None else clock_today()
    case = read_case(case_file, today=day)
    reader = words_for(units, words, fallback=case.units.value)
    if read is not None:
        points = read_jars_sheet(read)
        show(jars_result_letter(read_jars(case, points, ph_to=to_ph), words=reader))
        say(titration_toml(points))
        return
    plan: JarPlan = plan_jars(case, ph_to=to_ph, count=count, soil_g=soil_g, acid_mol_l=acid_mol_l)
    if not any(jar.acid_mmolc_kg for jar in plan.jars):
        raise WordedError(message("jars-nothing", ph=given(to_ph)))
    show(jars_letter(plan, words=reader))
    if csv is not None:
        write_all({csv: jars_csv(plan)}, never=(case_file,), what="file")
