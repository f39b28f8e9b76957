"""``loamshift advise``: a case file in, the letter out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption
from loamshift.errors import InputError

if TYPE_CHECKING:
    from datetime import date

    from loamshift.domain.answer import Answer
    from loamshift.domain.case import Case


def command(
    case_file: Annotated[
        Path, typer.Argument(metavar="CASE.toml", help="The case file.", show_default=False)
    ],
    as_json: JsonOption = False,
    markdown: Annotated[
        Path | None,
        typer.Option(
            "--md", metavar="FILE", help="Write the letter to FILE as Markdown.", show_default=False
        ),
    ] = None,
    table: Annotated[
        str | None,
        typer.Option(
            "--table",
            metavar="SOURCE",
            help="Follow one published sulfur table instead: its rate for this case, with its "
            "source. A wrong SOURCE lists the right ones.",
            show_default=False,
        ),
    ] = None,
    members: Annotated[
        int, typer.Option("--members", min=3, max=20000, help="Possible beds the forecast runs.")
    ] = 400,
    seed: Annotated[int, typer.Option("--seed", min=0, help="Seed of the forecast's draws.")] = 1,
    years: Annotated[
        int, typer.Option("--years", min=0, max=50, help="Years to forecast; 0 for none.")
    ] = 3,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Answer one case: verdict first, then dose, dated parts, cost and cautions.

    Reads a case file and prints a letter. The verdict may be “don't”: that is an answer too.

    \b
    Example:
      loamshift advise bed.toml --units us --md letter.md
    """
    from loamshift.case.read import read_case
    from loamshift.cli.show import clock_today, read_date, say, show, warn, words_for

    day = read_date(today, option="--today") if today is not None else None
    case = read_case(case_file, today=day or clock_today())
    if day is not None:
        case = _dated(case, day)
    answer = _answer(case, table, members=members, seed=seed, years=years)
    if as_json:
        from loamshift.case.answer import answer_to_json

        say(answer_to_json(answer))
        if markdown is None:
            return
    from loamshift.report.letter import letter_from_answer

    reader = words_for(units, words, fallback=case.units.value)
    letter = letter_from_answer(answer, case, words=reader)
    if markdown is None:
        show(letter)
        return
    from loamshift.cli.files import write_whole
    from loamshift.report.markdown import letter_markdown

    write_whole(markdown, letter_markdown(letter), replace=True)
    warn(f"Letter written to {markdown}")


def _answer(case: Case, table: str | None, *, members: int, seed: int, years: int) -> Answer:
    if table is not None:
        from loamshift.services.follow import follow_table

        return follow_table(case, table)
    from loamshift.services.advise import LookAhead, advise

    if years == 0:
        return advise(case)
    from loamshift.cli.kernel_cache import keep_kernels
    from loamshift.cli.show import warn

    note = keep_kernels().message
    if note:
        warn(note)
    return advise(case, look_ahead=LookAhead(members=members, seed=seed, years=years))


def _dated(case: Case, day: date) -> Case:
    """The case as of another day; what has not happened by then cannot be in it."""
    events = [applied.on for applied in case.applied]
    events += [reading.taken for reading in case.readings if reading.taken is not None]
    if case.soil.sampled is not None:
        events.append(case.soil.sampled)
    late = max((event for event in events if event > day), default=None)
    if late is not None:
        raise InputError(
            f"--today {day} lies before {late}, a day on which this case has something happen; "
            f"give a day from {late} on"
        )
    return replace(case, today=day)
