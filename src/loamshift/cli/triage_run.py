"""A run over many rows: read, judged, kept block by block, and put together at the end."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from loamshift.case.table.block import Block, LongTable
from loamshift.case.table.outcome_table import schema_of
from loamshift.cli.batch import cores
from loamshift.cli.files import NoRoomError, check_folder
from loamshift.cli.show import tell
from loamshift.cli.streams import NO_ROOM
from loamshift.cli.triage_parts import Parts, kept_plan
from loamshift.cli.triage_progress import Reached, progress
from loamshift.cli.triage_result import Paths, write_result
from loamshift.cli.triage_spread import Here, Judging, Spread
from loamshift.domain.message import message, prose
from loamshift.domain.worded_error import WordedError, given
from loamshift.errors import DeviceError

if TYPE_CHECKING:
    from loamshift.case.table.judge_block import Judged, Order
    from loamshift.report.many_page import ManyCounts

BLOCK_ROWS: Final = 200
"""Rows that are judged, sent and kept together where no forecast is made [count]."""
FORECAST_ROWS: Final = 20
"""The same with a forecast, which takes a row a hundred times as long [count]."""
CPU, CUDA, AUTO = "cpu", "cuda", "auto"
WORTH_S: Final = 30.0
"""Work that takes longer than this here is spread over processes [s]."""
WORTH_COMPILING_BYTES: Final = 100_000
"""A file larger than this has rows enough that machine code is worth compiling [bytes]."""
_HEAD_BYTES: Final = 1 << 20


class Stopped(KeyboardInterrupt):
    """A person stopped the run; what was done is kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreading:
    """Where the work is done: ``jobs`` processes here [count], or the cluster at ``scheduler``."""

    jobs: int | None = None
    scheduler: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A run over one table, as it was asked for."""

    table: LongTable
    order: Order
    paths: Paths
    spreading: Spreading
    block_rows: int = BLOCK_ROWS

    def go(self, *, restart: bool = False) -> ManyCounts:
        """Do what is left of it, and write the result.

        Raises
        ------
        WordedError
            Where it cannot go on; what was done is kept, and the error says so.
        Stopped
            Where a person stopped it; what was done is kept.
        """
        if self.table.begin.start >= self.table.length:
            raise WordedError(message("triage-nothing-to-do", file=given(self.table.path)))
        check_folder(self.paths.out.absolute().parent)
        parts = Parts(self.paths.parts, self._plan())
        parts.begin(restart=restart)
        if parts.done:
            tell(message("triage-going-on", rows=parts.answered))
        try:
            self._judge(parts)
            columns = self.order.columns
            schema = schema_of(
                columns.carried,
                forecast=self.order.ahead is not None,
                planned=columns.has_plans,
            )
            counts = write_result(self.paths, parts, schema, words=self.order.words)
        except KeyboardInterrupt:
            rows, folder = parts.answered + parts.faulty, given(parts.folder)
            tell(message("triage-stopped", rows=rows, folder=folder))
            raise Stopped from None
        except (WordedError, OSError, DeviceError) as failed:
            error = failed if isinstance(failed, WordedError) else _worded(failed)
            kept = message(
                "triage-kept", rows=parts.answered + parts.faulty, folder=given(parts.folder)
            )
            assert not isinstance(error.said, str)
            kind = NoRoomError if isinstance(error, NoRoomError) else WordedError
            raise kind(prose(error.said, kept), error.faults) from failed
        parts.remove()
        return counts

    def _judge(self, parts: Parts) -> None:
        begun = self._reached(parts)
        with progress(begun) as tell_progress:

            def keep(block: Block, judged: Judged) -> None:
                parts.keep(block, judged)
                tell_progress(self._reached(parts))

            left = self._left(parts)
            judging = self._first(left, keep) if not self.spreading.scheduler else self._spread(0)
            judging.run(left, keep)

    def _first(self, left: Iterator[Block], keep: Any) -> Judging:
        """Judge the first block here, and see by it whether more processes are worth starting."""
        here = Here(order=self.order)
        jobs = self.spreading.jobs
        if jobs is not None:
            return here if jobs == 1 else self._spread(jobs)
        left_s = 0.0
        for _ in range(2):  # the first block also loads what all need
            block = next(left, None)
            if block is None:
                return here
            begun_s = time.perf_counter()
            here.run(iter((block,)), keep)
            pace_s = (time.perf_counter() - begun_s) / max(block.end - block.start, 1)
            left_s = pace_s * (self.table.length - block.end)
        spread = cores()
        return self._spread(spread) if spread > 1 and left_s > WORTH_S else here

    def _spread(self, workers: int) -> Judging:
        if workers:
            tell(message("triage-spread", workers=workers))
        return Spread(order=self.order, address=self.spreading.scheduler, workers=workers)

    def _left(self, parts: Parts) -> Iterator[Block]:
        """The blocks that are not kept yet; the reader starts anew behind each that is."""
        place = self.table.begin
        while True:
            while (account := parts.done.get(place.number)) is not None:
                place = account.behind
            if place.start >= self.table.length:
                return
            blocks = self.table.blocks(place, used=self.order.columns.used, rows=self.block_rows)
            for block in blocks:
                if block.number in parts.done:
                    place = parts.done[block.number].behind
                    break
                yield block
            else:
                return

    def _reached(self, parts: Parts) -> Reached:
        begin = self.table.begin
        whole = max(self.table.length - begin.start, 1)
        return Reached(
            share=min(parts.size / whole, 1.0),
            rows=parts.answered + parts.faulty,
            faulty=parts.faulty,
        )

    def _plan(self) -> dict[str, Any]:
        """What a run must have in common with the one that it goes on with."""
        from loamshift.cli.triage_spread import worker_version

        order = self.order
        return {
            "file": file_print(self.table.path),
            "columns": dict(order.columns.paths),
            "key": order.columns.key,
            "carried": list(order.columns.carried),
            "today": order.today.isoformat(),
            "device": order.device,
            "seed": order.seed,
            "forecast": None
            if order.ahead is None
            else {"members": order.ahead.members, "years": order.ahead.years},
            "words": [order.words.spelling, order.words.units],
            "rows": self.block_rows,
            "version": worker_version(),
        }


def device_of_run(paths: Paths, asked: str) -> str:
    """Where forecasts are worked out: a run that is gone on with keeps its device.

    Parameters
    ----------
    asked
        ``cpu``, ``cuda``, or ``auto`` for the card where there is one.

    Raises
    ------
    WordedError
        Where a card was asked for and cannot be used.
    """
    kept = kept_plan(paths.parts).get("device")
    wanted = kept if asked == AUTO and kept in (CPU, CUDA) else asked
    if wanted == CPU:
        return CPU
    from loamshift.core.column_many_cuda import need_card

    try:
        need_card()
    except DeviceError as error:
        if wanted != AUTO:
            raise _worded(error) from error
        return CPU
    return CUDA


def _worded(error: OSError | DeviceError) -> WordedError:
    """What went wrong with a file, or a card, while the run was under way."""
    if isinstance(error, DeviceError):
        return WordedError(message("triage-device", why=given(error)))
    why = given(error.strerror or error)
    said = message("triage-file-failed", path=given(error.filename or "?"), why=why)
    return (NoRoomError if error.errno in NO_ROOM else WordedError)(said)


def file_print(path: Path) -> dict[str, Any]:
    """What tells that a file is still the same: its size, its time, and how it begins."""
    about = path.stat()
    with path.open("rb") as file:
        head = hashlib.sha256(file.read(_HEAD_BYTES)).hexdigest()
    return {"bytes": about.st_size, "changed_ns": about.st_mtime_ns, "begins": head}


def day_of_run(paths: Paths, clock: date) -> date:
    """The day of a run that is gone on with, else today: a run over midnight keeps its day."""
    kept = kept_plan(paths.parts).get("today")
    try:
        return date.fromisoformat(kept) if isinstance(kept, str) else clock
    except ValueError:
        return clock
