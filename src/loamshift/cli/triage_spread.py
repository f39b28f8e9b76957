"""Blocks of rows judged here, or on the workers of a cluster, of which some may die."""

from __future__ import annotations

import contextlib
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import CancelledError
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final, Protocol

from loamshift.case.table.block import Block, Problem
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.case.table.equal_rows import EqualRows
    from loamshift.case.table.judge_block import Judged, Order

AHEAD: Final = 2
"""Blocks that lie ready for each worker [count]: no more of a file is in memory."""
DEATHS: Final = 5
"""After so many dead workers a block is given up [count]."""
NOBODY_S: Final = 60.0
"""A cluster without a worker for so long has gone away [s]."""
_QUIET: Final = {
    "distributed.worker.profile.enabled": False,
    "distributed.worker.memory.monitor-interval": "1s",
    "distributed.admin.tick.interval": "500ms",
    "distributed.admin.system-monitor.interval": "5s",
    "distributed.admin.system-monitor.disk": False,
    "distributed.nanny.pre-spawn-environ.MALLOC_TRIM_THRESHOLD_": None,
}
"""What each process would do many times a second beside its work, and nobody reads: a tenth of the
processor. Memory given back after every array took another quarter, which the last line leaves to
the system."""
_LOOK_S: Final = 1.0
_ANSWERS_S: Final = 30.0
_ALONE: Final = threading.Lock()

Kept = Callable[[Block, "Judged"], None]
"""Takes what became of a block."""


class Judging(Protocol):
    """Judges blocks; what became of each is handed on as soon as it is done."""

    def run(self, blocks: Iterator[Block], kept: Kept) -> None:
        """Judge all blocks."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Here:
    """Block after block in this process."""

    order: Order

    def run(self, blocks: Iterator[Block], kept: Kept) -> None:
        """Judge all blocks, one after the other."""
        from loamshift.case.table.judge_block import judge_block

        for block in blocks:
            kept(block, judge_block(block, self.order, equal_rows()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Blocks on the workers of a cluster: one of this machine's own, or one that runs already.

    ``address`` of its scheduler; empty to start ``workers`` single-threaded processes here.
    """

    order: Order
    address: str = ""
    workers: int = 0

    def run(self, blocks: Iterator[Block], kept: Kept) -> None:
        """Judge all blocks; a worker that dies has its blocks judged again by another.

        Raises
        ------
        WordedError
            Where the cluster cannot be reached, or goes away.
        """
        with _client(self.address, self.workers) as client, client.as_current():
            _Run(client, self.order, self.address).all(blocks, kept)


class _Run:
    """The blocks that are with the workers, never more than lie ready for each."""

    def __init__(self, client: Any, order: Order, address: str) -> None:
        self._client = client
        self._order = order
        self._address = address or "127.0.0.1"
        self._out: dict[Any, Block] = {}
        self._seen_s = time.monotonic()

    def all(self, blocks: Iterator[Block], kept: Kept) -> None:
        more = True
        while more or self._out:
            while more and len(self._out) < AHEAD * max(self._workers(), 1):
                block = next(blocks, None)
                if block is None:
                    more = False
                else:
                    self._send(block)
            for future in self._finished():
                block = self._out.pop(future)
                judged = self._judged(future, block)
                future.release()
                kept(block, judged)

    def _send(self, block: Block) -> None:
        name = f"rows-{block.number}-{id(self)}"
        future = self._client.submit(judge_alone, block, self._order, key=name, pure=False)
        self._out[future] = block

    def _finished(self) -> list[Any]:
        """Blocks that are done; waits for one, and sees whether the cluster is still there."""
        import distributed

        parts: Any = distributed
        try:
            parts.wait(list(self._out), timeout=_LOOK_S, return_when="FIRST_COMPLETED")
        except (TimeoutError, distributed.TimeoutError):
            pass
        except (CancelledError, parts.client.FuturesCancelledError, OSError):
            raise self._gone() from None
        self._still_there()
        done = [future for future in self._out if future.status in ("finished", "error")]
        if any(future.status in ("cancelled", "lost") for future in self._out):
            raise self._gone()
        return done

    def _judged(self, future: Any, block: Block) -> Judged:
        import distributed

        try:
            judged: Judged = future.result()
        except distributed.scheduler.KilledWorker:
            return given_up(block, self._order)
        except (CancelledError, distributed.client.FuturesCancelledError, OSError):
            raise self._gone() from None
        return judged

    def _workers(self) -> int:
        try:
            return len(self._client.scheduler_info(n_workers=-1)["workers"])
        except (OSError, TimeoutError, ValueError, KeyError):
            return 0

    def _still_there(self) -> None:
        now_s = time.monotonic()
        if self._client.status == "running" and self._workers():
            self._seen_s = now_s
        elif self._client.status in ("closed", "closing") or now_s - self._seen_s > NOBODY_S:
            raise self._gone()

    def _gone(self) -> WordedError:
        return WordedError(message("triage-cluster-gone", address=given(self._address)))


def judge_alone(block: Block, order: Order) -> Judged:
    """A block judged by a worker, one at a time whatever threads it has."""
    from loamshift.case.table.judge_block import judge_block

    with _ALONE:
        if order.ahead is not None or order.compiled:
            from loamshift.cli.kernel_cache import keep_kernels

            keep_kernels()
        return judge_block(block, order, equal_rows())


@cache
def equal_rows() -> EqualRows:
    """The rows this process has judged without a forecast: of any run, as each tells its day."""
    from loamshift.case.table.equal_rows import EqualRows

    return EqualRows()


def given_up(block: Block, order: Order) -> Judged:
    """A block whose working out ended process after process: each of its rows is told of."""
    from loamshift.case.table.judge_block import Judged, judge_block
    from loamshift.case.table.row_case import block_rows
    from loamshift.report.messages import say

    said = say(message("table-row-process"), order.words)
    problems = tuple(
        Problem(row=row, key=key, path="", given="", problem=said)
        for row, key, _ in block_rows(block, order.columns)
    )
    nothing = judge_block(without_rows(block), order)
    return Judged(table=nothing.table, problems=nothing.problems + problems, keys=())


def without_rows(block: Block) -> Block:
    """The same block with none of its rows, but with what could not be read."""
    from dataclasses import replace

    return replace(block, rows=(), cells=block.cells.slice(0, 0))


@contextlib.contextmanager
def _client(address: str, workers: int) -> Iterator[Any]:
    """A client of a cluster that runs already, or of one that is started here for the run."""
    import dask
    import distributed

    settings = {
        "distributed.scheduler.allowed-failures": DEATHS,
        "distributed.comm.timeouts.connect": f"{_ANSWERS_S:g}s",
        "distributed.worker.daemon": True,
        "distributed.admin.log-format": "%(message)s",
        "logging.distributed": "error",
        **_QUIET,
    }
    parts: Any = distributed
    with dask.config.set(settings):
        if address:
            try:
                client = parts.Client(address, timeout=_ANSWERS_S, set_as_default=False)
            except (OSError, TimeoutError, ValueError) as error:
                why = given(getattr(error, "strerror", None) or type(error).__name__)
                raise WordedError(
                    message("triage-no-cluster", address=given(address), why=why)
                ) from None
            with client:
                _same_version(client)
                yield client
            return
        with (
            parts.LocalCluster(
                n_workers=workers,
                threads_per_worker=1,
                processes=True,
                host="127.0.0.1",
                dashboard_address=None,
                silence_logs=50,
            ) as cluster,
            parts.Client(cluster, set_as_default=False) as client,
        ):
            yield client


def _same_version(client: Any) -> None:
    """See that every worker has this very version and these very tables.

    Raises
    ------
    WordedError
        Where one has not, or has no loamshift at all.
    """
    ours = worker_version()
    try:
        theirs = set(client.run(worker_version).values())
    except Exception:
        raise WordedError(message("triage-workers-without")) from None
    if theirs - {ours}:
        other = given(", ".join(sorted(theirs - {ours})))
        raise WordedError(message("triage-workers-other", ours=given(ours), theirs=other))


def worker_version() -> str:
    """Version and tables of the loamshift that a worker has."""
    from loamshift import __version__
    from loamshift.tables.rows import tables_fingerprint

    return f"{__version__} {tables_fingerprint()}"
