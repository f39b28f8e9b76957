"""The whole result of a run over many rows: its table, the rows with a problem, and the counts."""

from __future__ import annotations

import csv
import errno
import os
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from loamshift.case.table.block import FAULT, REMARK, Problem
from loamshift.cli.files import NoRoomError
from loamshift.cli.streams import NO_ROOM
from loamshift.cli.triage_parts import KEY_COLUMN, Parts, counted
from loamshift.domain.message import message
from loamshift.domain.spreadsheet_text import spreadsheet_text
from loamshift.domain.worded_error import WordedError, given
from loamshift.report.many_page import MOST_TO_CALL, Called, ManyCounts

if TYPE_CHECKING:
    import pyarrow as pa

    from loamshift.report.words import Words

ENDINGS: Final = (".parquet", ".csv", ".xlsx")
MOST_EXCEL_ROWS: Final = 1_048_575
"""Rows below the heading of a sheet (Excel specifications and limits)."""
_PROBLEM_COLUMNS: Final = ("row", "key", "path", "given", "problem", "mend", "kind")
_BUCKET_ROWS: Final = 1_000_000
"""Keys that are sorted at a time, so that memory stays flat [count]."""

_GROUP_ROWS: Final = 50_000
"""Rows of a Parquet file that stand together: its list of groups is held until the end [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paths:
    """Where everything of a run goes, beside its result."""

    out: Path

    @property
    def parts(self) -> Path:
        """The folder of blocks that are done."""
        return self.out.with_suffix(".parts")

    @property
    def problems(self) -> Path:
        """Rows with a problem, and why."""
        return self.out.with_suffix(".problems.csv")

    @property
    def page(self) -> Path:
        """The summary."""
        return self.out.with_suffix(".html")


@dataclass(slots=True)
class _Tally:
    """Counts while the parts go by."""

    verdicts: Counter[str] = field(default_factory=Counter)
    reasons: Counter[str] = field(default_factory=Counter)
    questions: Counter[str] = field(default_factory=Counter)
    paths: Counter[str] = field(default_factory=Counter)
    called: list[Called] = field(default_factory=list)
    same_key: int = 0

    def add(self, table: pa.Table, carried: tuple[str, ...]) -> None:
        import pyarrow.compute as pc

        self.verdicts += counted(table, "verdict")
        self.reasons += counted(table, "reason")
        self.questions += counted(table, "questions")
        if len(self.called) >= MOST_TO_CALL:
            return
        stopped = table.filter(pc.equal(table.column("verdict"), "stop"))
        for row in stopped.slice(0, MOST_TO_CALL - len(self.called)).to_pylist():
            who = tuple(str(row[name] or "") for name in carried)
            self.called.append(Called(row=row["row"], key=row["key"], who=who, why=row["why"]))


def write_result(paths: Paths, parts: Parts, schema: pa.Schema, *, words: Words) -> ManyCounts:
    """Put the parts together: the table, its problems and its summary, each whole or not at all.

    Raises
    ------
    WordedError
        Where it cannot be written; the parts are kept, and the same command goes on from there.
    """
    from loamshift.report.html import letter_html
    from loamshift.report.many_page import many_letter

    if paths.out.suffix == ".xlsx" and parts.answered > MOST_EXCEL_ROWS:
        raise WordedError(
            message("triage-too-many-for-excel", rows=parts.answered, most=MOST_EXCEL_ROWS)
        )
    tally = _Tally()
    carried = tuple(schema.names[2 : schema.names.index("verdict")])
    with _told_where(paths.out):
        twice = _keys_twice(parts)
        with _temporary(paths.problems) as side, _temporary(paths.out) as table_file:
            with _problem_file(side) as told, _writer(table_file, paths.out.suffix, schema) as put:
                for table, problems in parts.tables():
                    answers = table.select(schema.names)
                    tally.add(answers, carried)
                    doubles = list(_doubles(table, twice, words))
                    tally.same_key += len(doubles)
                    tally.paths += Counter(p.path for p in problems if p.kind == FAULT)
                    told(sorted([*problems, *doubles], key=lambda one: one.row))
                    put(answers)
            counts = ManyCounts(
                answered=parts.answered,
                faulty=parts.faulty,
                verdicts=dict(tally.verdicts),
                reasons=dict(tally.reasons.most_common()),
                questions=dict(tally.questions.most_common()),
                problem_paths=dict(tally.paths.most_common()),
                same_key=tally.same_key,
                carried=carried,
                called=tuple(tally.called),
                problems=paths.problems.name,
                table=paths.out.name,
            )
            with _temporary(paths.page) as page:
                letter = many_letter(counts, words=words)
                page.write_text(letter_html(letter, words=words), encoding="utf-8")
                page.replace(paths.page)
            if counts.faulty or tally.same_key or _has_rows(side):
                side.replace(paths.problems)
            else:
                paths.problems.unlink(missing_ok=True)
            table_file.replace(paths.out)
    return counts


def _has_rows(side: Path) -> bool:
    with side.open("rb") as file:
        return len(file.read(4096).splitlines()) > 1


@contextmanager
def _told_where(path: Path) -> Iterator[None]:
    """Say of a failure to write which file it was, and that everything is kept."""
    try:
        yield
    except OSError as error:
        full = error.errno in NO_ROOM or errno.errorcode.get(error.errno or 0, "?") in str(error)
        why = given(error.strerror or error)
        said = message("triage-cannot-write-result", path=given(path), why=why)
        raise (NoRoomError if full else WordedError)(said) from error


@contextmanager
def _temporary(path: Path) -> Iterator[Path]:
    """A file beside the one meant; it is gone afterwards unless it took that one's place."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:40]}.", suffix=".part")
    os.close(handle)
    file = Path(name)
    file.chmod(0o644)
    try:
        yield file
    finally:
        with suppress(OSError):
            file.unlink(missing_ok=True)


def _keys_twice(parts: Parts) -> Any:
    """Keys, as numbers, that stand in more than one row; sorted some millions at a time."""
    import numpy as np

    buckets = max(1, -(-parts.answered // _BUCKET_ROWS))
    found: list[Any] = []
    with tempfile.TemporaryDirectory(dir=parts.folder, prefix="keys.") as folder:
        files = [(Path(folder) / f"{n}").open("w+b") for n in range(buckets)]
        try:
            for table, _ in parts.tables():
                if KEY_COLUMN not in table.column_names:
                    continue
                keys = table.column(KEY_COLUMN).to_numpy()
                for n, file in enumerate(files):
                    file.write(keys[keys % np.uint64(buckets) == n].tobytes())
            for file in files:
                file.flush()
                file.seek(0)
                keys, counts = np.unique(np.fromfile(file, np.uint64), return_counts=True)
                found.append(keys[counts > 1])
        finally:
            for file in files:
                file.close()
    return np.concatenate(found)


def _doubles(table: pa.Table, twice: Any, words: Words) -> Iterator[Problem]:
    import numpy as np

    from loamshift.report.messages import say

    if not len(twice) or KEY_COLUMN not in table.column_names:
        return
    said = say(message("table-row-same-key"), words)
    for n in np.flatnonzero(np.isin(table.column(KEY_COLUMN).to_numpy(), twice)).tolist():
        row, key = table.column("row")[n].as_py(), table.column("key")[n].as_py()
        yield Problem(row=row, key=key, path="", given="", problem=said, kind=REMARK)


@contextmanager
def _problem_file(path: Path) -> Iterator[Any]:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(_PROBLEM_COLUMNS)

        def put(problems: Iterable[Problem]) -> None:
            for one in problems:
                cells = (getattr(one, name) for name in _PROBLEM_COLUMNS)
                writer.writerow(
                    [spreadsheet_text(cell) if isinstance(cell, str) else cell for cell in cells]
                )

        yield put


@contextmanager
def _writer(path: Path, ending: str, schema: pa.Schema) -> Iterator[Any]:
    """Takes one part after the other, in the form that the ending of the result asks for."""
    if ending == ".parquet":
        import pyarrow as pa
        import pyarrow.parquet as pq

        with pq.ParquetWriter(path, schema, compression="zstd") as parquet:
            waiting: list[pa.Table] = []

            def put(table: pa.Table, *, least: int = _GROUP_ROWS) -> None:
                waiting.append(table)
                if sum(one.num_rows for one in waiting) >= least:
                    parquet.write_table(pa.concat_tables(waiting))
                    waiting.clear()

            yield put
            put(schema.empty_table(), least=0)
    elif ending == ".csv":
        import pyarrow.csv as arrow_csv

        with arrow_csv.CSVWriter(path, schema) as text:
            yield lambda table: text.write_table(_without_formulas(table))
    else:
        with _workbook(path, schema) as put:
            yield put


@contextmanager
def _workbook(path: Path, schema: pa.Schema) -> Iterator[Any]:
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    sheet = book.create_sheet("triage")
    sheet.append(list(schema.names))

    def put(table: pa.Table) -> None:
        for row in zip(*(column.to_pylist() for column in _without_formulas(table)), strict=True):
            sheet.append(row)

    yield put
    book.save(path)


def _without_formulas(table: pa.Table) -> pa.Table:
    """Texts from outside with a mark in front, where a spreadsheet would take them for formulas."""
    import pyarrow as pa

    for n, column in enumerate(table.schema):
        if column.type == pa.string():
            texts = [None if one is None else spreadsheet_text(one) for one in table[n].to_pylist()]
            table = table.set_column(n, column, pa.array(texts, pa.string()))
    return table
