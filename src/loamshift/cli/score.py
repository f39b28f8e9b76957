"""``loamshift score``: forecasts held against the tests that followed them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from datetime import date

    from loamshift.domain.case import Case
    from loamshift.domain.score import IssuedForecast, ScoredPair

MEMBERS = 250
YEARS = 1
"""A hindcast is asked about the next day."""


def command(
    files: Annotated[list[Path], typer.Argument(metavar="FILE", help=told("cli-help-score-files"))],
    as_json: JsonOption = False,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Hold forecasts against the tests that followed, and say whether they prove anything.

    A kept answer (.json) is a forecast that was issued; a case file (.toml) of the same name brings
    the tests. A case file alone is hindcast: for each test but the first, from nothing but what was
    known before it.

    \b
    Examples:
      loamshift score bed.toml
      loamshift score 2025-04-bed.json bed.toml --json
    """
    from loamshift.cli.show import clock_today, read_date, show, words_for
    from loamshift.report.scores import scores_letter
    from loamshift.services.score.summary import score_summary

    day = clock_today() if today is None else read_date(today, option="--today")
    reader = words_for(None, words)
    pairs = _pairs(files, day)
    summary = score_summary(pairs)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"summary": summary, "pairs": [_row(pair) for pair in pairs]}, reader)
        return
    under = message("score-under-files")
    show(scores_letter(summary, pairs, under=under, words=reader, drawn=False))


def _pairs(files: Sequence[Path], day: date) -> tuple[ScoredPair, ...]:
    from loamshift.case.read import read_case
    from loamshift.services.advise import LookAhead
    from loamshift.services.score.hindcast import hindcast
    from loamshift.services.score.pairs import scored_pairs

    cases = [read_case(file, today=day) for file in files if file.suffix != ".json"]
    kept = [_issued(file) for file in files if file.suffix == ".json"]
    if not cases:
        raise WordedError(message("cli-score-no-case"))
    names = {case.name for case in cases}
    for file, name, _ in kept:
        if name not in names:
            raise WordedError(message("cli-score-whose", file=given(file), name=given(name)))
    found: list[ScoredPair] = []
    for number, case in enumerate(cases):
        issued = [one for _, name, one in kept if name == case.name and one is not None]
        if not any(name == case.name for _, name, _ in kept):
            issued = list(hindcast(case, look_ahead=LookAhead(members=MEMBERS, years=YEARS)))
        found += scored_pairs(case, issued, bed=case.name, bed_key=str(number))
    return tuple(found)


def _issued(file: Path) -> tuple[Path, str, IssuedForecast | None]:
    """A kept answer with the name of its bed, and its forecast if it has one."""
    from loamshift.case.answer_file import read_answer_file
    from loamshift.domain.score import IssuedAs
    from loamshift.services.score.issued import issued_forecast

    kept = read_answer_file(file)
    case: Case = kept.case()
    made = issued_forecast(
        kept.answer, case, key=str(file), title=file.name, issued_as=IssuedAs.LETTER
    )
    return file, kept.answer.name, made


def _row(pair: ScoredPair) -> dict[str, Any]:
    """A pair for a program: that of the file of pairs, with the names that are the user's own."""
    from loamshift.report.score_pairs import pair_row

    return {
        "bed": pair.bed,
        "forecast_on": pair.issued.on,
        "read_on": pair.read.on,
        **pair_row(pair),
    }
