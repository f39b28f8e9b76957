"""``loamshift triage``: a long table of beds in, a table of verdicts out."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import PaperOption
from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from datetime import date

    from loamshift.case.table.block import LongTable
    from loamshift.case.table.heading_map import HeadingMap
    from loamshift.case.table.open_table import Columns
    from loamshift.report.words import Words


class DeviceChoice(StrEnum):
    """Where forecasts of plans in the table are worked out."""

    CPU = "cpu"
    CUDA = "cuda"
    AUTO = "auto"


def command(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=told("cli-help-triage-file"))],
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="OUT", help=told("cli-help-triage-out"))
    ],
    map_file: Annotated[
        Path | None,
        typer.Option("--map", metavar="MAP", help=told("cli-help-triage-map"), show_default=False),
    ] = None,
    key: Annotated[
        str | None,
        typer.Option(
            "--key", metavar="COLUMN", help=told("cli-help-triage-key"), show_default=False
        ),
    ] = None,
    carry: Annotated[
        list[str] | None,
        typer.Option(
            "--carry", metavar="COLUMN", help=told("cli-help-triage-carry"), show_default=False
        ),
    ] = None,
    forecast: Annotated[
        bool, typer.Option("--forecast", help=told("cli-help-triage-forecast"))
    ] = False,
    members: Annotated[
        int, typer.Option("--members", min=3, max=20_000, help=told("cli-help-triage-members"))
    ] = 64,
    years: Annotated[
        int, typer.Option("--years", min=1, max=50, help=told("cli-help-triage-years"))
    ] = 2,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-triage-seed"))] = 1,
    device: Annotated[
        DeviceChoice, typer.Option("--device", help=told("cli-help-triage-device"))
    ] = (DeviceChoice.CPU),
    jobs: Annotated[
        int | None,
        typer.Option(
            "--jobs", min=1, metavar="N", help=told("cli-help-triage-jobs"), show_default=False
        ),
    ] = None,
    scheduler: Annotated[
        str | None,
        typer.Option(
            "--scheduler",
            metavar="ADDRESS",
            help=told("cli-help-triage-scheduler"),
            show_default=False,
        ),
    ] = None,
    letters: Annotated[
        Path | None,
        typer.Option(
            "--letters", metavar="FOLDER", help=told("cli-help-triage-letters"), show_default=False
        ),
    ] = None,
    wanted: Annotated[
        list[str] | None,
        typer.Option("--for", metavar="KEY", help=told("cli-help-triage-for"), show_default=False),
    ] = None,
    forms: Annotated[
        list[str] | None,
        typer.Option("--as", metavar="FORM", help=told("cli-help-advise-as"), show_default=False),
    ] = None,
    paper: PaperOption = None,
    block_rows: Annotated[
        int | None,
        typer.Option(
            "--block-rows",
            min=1,
            max=1_000_000,
            metavar="N",
            help=told("cli-help-triage-block-rows"),
            show_default=False,
        ),
    ] = None,
    restart: Annotated[
        bool, typer.Option("--restart", help=told("cli-help-triage-restart"))
    ] = False,
    force: Annotated[bool, typer.Option("--force", help=told("cli-help-triage-force"))] = False,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Judge every row of a long table: a verdict, a dose and its reason for each.

    \b
    Examples:
      loamshift triage samples.csv -o verdicts.parquet
      loamshift triage samples.parquet -o verdicts.xlsx --carry client --carry phone
      loamshift triage samples.csv -o verdicts.csv --forecast --letters letters --for stop
      loamshift triage samples.csv -o verdicts.parquet --scheduler tcp://10.0.0.5:8786
    """  # fmt: skip
    from loamshift.case.table.heading_map import HeadingMap, read_heading_map
    from loamshift.case.table.judge_block import Ahead, Order
    from loamshift.cli.run import ANSWERED, INTERRUPTED, TO_MEND
    from loamshift.cli.show import clock_today, read_date, say, tell, worded, words_for
    from loamshift.cli.triage_result import Paths
    from loamshift.cli.triage_run import (
        BLOCK_ROWS,
        FORECAST_ROWS,
        WORTH_COMPILING_BYTES,
        Run,
        Spreading,
        Stopped,
        day_of_run,
        device_of_run,
    )
    from loamshift.report.many_page import summary_line

    paths = Paths(out=out)
    _check_out(file, paths, force=force)
    day = day_of_run(paths, clock_today()) if today is None else read_date(today, option="--today")
    reader = words_for(units, words)
    mapping = HeadingMap() if map_file is None else read_heading_map(map_file)
    table, columns = _opened(
        file, mapping, map_file=map_file, day=day, key=key or "", carry=carry or [], words=reader
    )
    if columns.unused:
        listed = Listed(tuple(map(Given, columns.unused[:8])))
        tell(message("triage-unused", count=len(columns.unused), named=listed), reader)
    has_plans = columns.has_plans
    if has_plans and not forecast:
        raise WordedError(message("triage-planned-forecast"))
    if device is not DeviceChoice.CPU and not has_plans:
        raise WordedError(message("triage-device-planned"))
    if forecast:
        from loamshift.cli.kernel_ready import ready_kernels

        ready_kernels()
    compiled = file.stat().st_size > WORTH_COMPILING_BYTES
    if compiled and not forecast:
        from loamshift.cli.kernel_cache import keep_kernels

        keep_kernels()
    order = Order(
        columns=columns,
        today=day,
        seed=seed,
        ahead=Ahead(members=members, years=years) if forecast else None,
        words=reader,
        compiled=compiled,
        device=device_of_run(paths, device.value),
    )
    run = Run(
        table=table,
        order=order,
        paths=paths,
        spreading=Spreading(jobs=jobs, scheduler=scheduler or ""),
        block_rows=block_rows or (FORECAST_ROWS if forecast and not has_plans else BLOCK_ROWS),
    )
    try:
        counts = run.go(restart=restart)
        if letters is not None:
            from loamshift.cli.triage_letters import write_chosen

            write_chosen(run, letters, wanted or ["stop"], forms=forms, paper=paper)
    except Stopped:
        sys.exit(INTERRUPTED)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json(counts, reader)
    else:
        say(worded(summary_line(counts), reader))
    sys.stdout.flush()
    if counts.faulty:
        sys.exit(TO_MEND)
    sys.exit(ANSWERED)


def _check_out(file: Path, paths: object, *, force: bool) -> None:
    """See that the result can be written, before anything is worked out for it.

    Raises
    ------
    WordedError
        Where the result is the file that is read, is there already, or has an unknown ending.
    """
    from loamshift.cli.triage_result import ENDINGS, Paths

    assert isinstance(paths, Paths)
    out = paths.out
    if out.suffix not in ENDINGS:
        raise WordedError(message("triage-ending", path=given(out)))
    for path in (out, paths.problems):
        if path.absolute() == file.absolute():
            raise WordedError(message("triage-same-file", path=given(out)))
    if out.is_dir():
        raise WordedError(message("cli-is-folder", path=given(out)))
    if out.exists() and not force:
        raise WordedError(message("cli-exists-force", path=given(out)))


def _opened(
    file: Path,
    mapping: HeadingMap,
    *,
    map_file: Path | None,
    day: date,
    key: str,
    carry: list[str],
    words: Words,
) -> tuple[LongTable, Columns]:
    """The table and what its columns are: keys of the case file, or what intake makes of them."""
    from loamshift.case.table.intake_table import open_by_intake
    from loamshift.case.table.open_table import columns_of, is_key, open_table
    from loamshift.cli.show import tell

    table: LongTable
    known = False
    if not mapping.answers:
        table = open_table(file)
        known = bool(mapping.columns) or any(is_key(one) and "." in one for one in table.headings)
    if not known:
        understood = open_by_intake(file, mapping.answers, map_file=map_file, today=day)
        for said in understood.left_out:
            tell(said, words)
        table = understood
    columns = columns_of(
        table.headings, file=file.name, named=mapping.columns, key=key, carried=carry
    )
    return table, columns
