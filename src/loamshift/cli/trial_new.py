"""``loamshift trial new``: a trial file from a few options, and what the trial could show."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loamshift import __version__
from loamshift.cli import case_options as co
from loamshift.cli.help_text import told
from loamshift.domain.message import message
from loamshift.domain.trial import Design
from loamshift.domain.worded_error import WordedError, given

_FEW_MEMBERS: Final = 40
"""Possible beds that are enough to choose the days of reading [count]."""

if TYPE_CHECKING:
    from loamshift.case.trial_text import TreatmentText
    from loamshift.domain.trial import Trial


def new(
    file: Annotated[Path | None, typer.Argument(metavar="TRIAL.toml", show_default=False)] = None,
    question: Annotated[str, typer.Option("--question", help=told("cli-help-trial-question"))] = "",
    treatment: Annotated[
        list[str] | None,
        typer.Option(
            "--treatment",
            metavar="NAME=MATERIAL:RATE",
            help=told("cli-help-trial-treatment"),
            show_default=False,
        ),
    ] = None,
    design: Annotated[
        Design, typer.Option("--design", help=told("cli-help-trial-design"))
    ] = Design.RANDOMISED,
    replicates: Annotated[
        int, typer.Option("--replicates", min=1, max=50, help=told("cli-help-trial-replicates"))
    ] = 5,
    start: Annotated[
        str | None,
        typer.Option(
            "--start", metavar="DATE", help=told("cli-help-trial-start"), show_default=False
        ),
    ] = None,
    doses: Annotated[
        int | None,
        typer.Option(
            "--doses", min=3, max=10, help=told("cli-help-trial-doses"), show_default=False
        ),
    ] = None,
    to_ph: Annotated[
        float | None,
        typer.Option(
            "--to-ph", min=3.0, max=9.0, help=told("cli-help-trial-to-ph"), show_default=False
        ),
    ] = None,
    material: Annotated[
        str | None,
        typer.Option(
            "--material",
            metavar="MATERIAL",
            help=told("cli-help-trial-material"),
            show_default=False,
        ),
    ] = None,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-trial-seed"))] = 1,
    blind: Annotated[bool, typer.Option("--blind", help=told("cli-help-trial-blind"))] = False,
    case_file: Annotated[
        Path | None,
        typer.Option(
            "--case", metavar="CASE.toml", help=told("cli-help-trial-case"), show_default=False
        ),
    ] = None,
    name: co.NameOption = None,
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
    force: Annotated[bool, typer.Option("--force", help=told("cli-help-trial-force"))] = False,
) -> None:
    """Write a trial file and say what the trial could show.

    Give the treatments by name with material and rate; one with nothing added is put first where
    you name none. A dose series is worked out from the soil: --doses 5 --to-ph 5.5 --material.

    \b
    Examples:
      loamshift trial new peat.toml --question "Does peat lower our pH for long?" \\
          --treatment "peat=moss peat:10 kg/m2" --ph 7.8 --texture loam --area "0.03 m2"
      loamshift trial new doses.toml --design "dose series" --doses 5 --to-ph 5.5 \\
          --material "elemental sulfur, powder" --case bed.toml --area "0.03 m2"
    """
    from loamshift.case.trial_read import parse_trial
    from loamshift.case.trial_schema import DAYS
    from loamshift.case.trial_text import TreatmentText, trial_toml
    from loamshift.cli.files import write_whole
    from loamshift.cli.show import clock_today, misuse, read_date, show, tell, words_for
    from loamshift.report.trial_plan import trial_summary
    from loamshift.services.trial.design import plan_trial

    if file is not None and file.exists() and not force:
        raise WordedError(message("cli-exists-force", path=given(file)))
    series = doses is not None or to_ph is not None
    if series and (doses is None or to_ph is None or material is None):
        raise misuse(message("trial-doses-need"), "--doses")
    soil = co.given(
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
    )
    if case_file is not None and any(key.startswith("soil.") for key in soil):
        raise misuse(message("cli-case-or-options"), "--case")
    named = [_treatment(text) for text in treatment or ()]
    if series and material is not None:
        named = [TreatmentText(name="1", material=material, rate="1 g/m2")]
    if all(one.material for one in named):
        named.insert(0, TreatmentText(name="nothing"))

    def text_of(treatments: list[TreatmentText], days: tuple[int, ...] = DAYS) -> str:
        return trial_toml(
            name=name or (file.stem if file is not None else "trial"),
            question=question or told("cli-trial-no-question"),
            start=clock_today() if start is None else read_date(start, option="--start"),
            design=Design.DOSES if series else design,
            replicates=replicates,
            seed=seed,
            blind=blind,
            case_file="" if case_file is None else _beside(case_file, file),
            soil=soil,
            treatments=treatments,
            days=days,
        )

    folder = Path() if file is None else file.parent
    trial = parse_trial(text_of(named), folder=folder)
    if doses is not None and to_ph is not None and material is not None:
        named = _series(trial, count=doses, ph_to=to_ph, material=material)
        trial = parse_trial(text_of(named), folder=folder)
    text = text_of(named, _days(trial))
    if file is None:
        sys.stdout.write(text)
        return
    write_whole(file, text, replace=force)
    tell(message("trial-written", path=given(file)))
    trial = parse_trial(text, folder=folder)
    show(trial_summary(plan_trial(trial), words=words_for(None, None)))


def _days(trial: Trial) -> tuple[int, ...]:
    """Days worth reading by the forecast; the usual ones for a soil that it does not reach."""
    from loamshift.cli.kernel_ready import ready_kernels
    from loamshift.services.trial.expect import predict

    ready_kernels()
    made = predict(trial, today=trial.start, version=__version__, members=_FEW_MEMBERS)
    return trial.days if made is None else made.days_advised


def _beside(case_file: Path, file: Path | None) -> str:
    """How the trial file names the case file."""
    folder = Path() if file is None else file.parent
    return Path(os.path.relpath(case_file, folder)).as_posix()


def _treatment(text: str) -> TreatmentText:
    """``peat=moss peat:10 kg/m2``; a name alone is an untreated one."""
    from loamshift.case.trial_text import TreatmentText
    from loamshift.cli.show import misuse

    name, is_told, rest = text.partition("=")
    material, has_rate, rate = rest.rpartition(":")
    if is_told and not (has_rate and material.strip() and rate.strip()):
        raise misuse(message("trial-treatment-form", given=given(text)), "--treatment")
    return TreatmentText(name=name.strip(), material=material.strip(), rate=rate.strip())


def _series(trial: Trial, *, count: int, ph_to: float, material: str) -> list[TreatmentText]:
    """The treatments of a dose series that reaches past a pH [pH in water]."""
    from loamshift.case.trial_text import TreatmentText
    from loamshift.cli.show import misuse
    from loamshift.services.trial.expect import doses_to_span

    rates = doses_to_span(trial, ph_to=ph_to, count=count)
    if not rates:
        raise misuse(message("trial-doses-wrong-way"), "--to-ph")
    return [
        TreatmentText(name="nothing")
        if rate == 0.0
        else TreatmentText(name=f"{rate:g} g/m2", material=material, rate=f"{rate:g} g/m2")
        for rate in rates
    ]
