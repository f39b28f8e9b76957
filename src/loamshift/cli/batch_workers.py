"""Cases of a batch spread over processes, one case at a time to each.

Not a pool of the standard library: there a process that dies takes every waiting case with it,
and does not say which case killed it.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import signal
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from typing import TYPE_CHECKING, Final

from loamshift.cli.batch_letters import End, Errand, Order, Outcome, died, write_letters

if TYPE_CHECKING:
    from multiprocessing.context import SpawnProcess

LAST_WORDS_S: Final = 20.0
"""How long a process that is to stop may take to finish the step it is in [s]."""

Tell = Callable[[int, Outcome], None]
"""Called with the place of a case in the batch and what became of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worker:
    """A process, the way to it, and the case it has in hand."""

    process: SpawnProcess
    line: Connection
    place: int


def answer_in_workers(
    errands: Mapping[int, Errand], order: Order, *, jobs: int, tell: Tell
) -> End | None:
    """Answer cases in several processes, telling of each as soon as it is done.

    Parameters
    ----------
    errands
        The cases by their place in the batch.
    jobs
        Processes at a time [count].

    Notes
    -----
    Processes are spawned, never forked: threads of the compiled column and of typst do not
    survive a fork. On an early end each process finishes or drops the file it is writing.
    """
    waiting = list(errands.items())[::-1]
    workers: list[_Worker] = []
    end: End | None = None
    try:
        while waiting and len(workers) < jobs:
            workers.append(_started(*waiting.pop(), order))
        while workers and end is None:
            ready = wait([worker.line for worker in workers])
            for worker in [one for one in workers if one.line in ready]:
                workers.remove(worker)
                outcome = _received(worker, errands[worker.place])
                tell(worker.place, outcome)
                end = end or outcome.end
                if waiting and end is None:
                    workers.append(_next(worker, *waiting.pop(), order))
                else:
                    _let_go(worker)
    except KeyboardInterrupt:
        end = End.STOPPED
    finally:
        _stop(workers, tell)
    return end


def _started(place: int, errand: Errand, order: Order) -> _Worker:
    """A new process with its first case."""
    context = multiprocessing.get_context("spawn")
    line, far = context.Pipe()
    process = context.Process(target=_work, args=(far, order), daemon=True)
    with _interrupts_later():
        process.start()
    far.close()
    line.send(errand)
    return _Worker(process=process, line=line, place=place)


@contextlib.contextmanager
def _interrupts_later() -> Iterator[None]:
    """A process started in here never sees an interrupt; this one sees it a moment later."""
    if sys.platform == "win32":
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _next(worker: _Worker, place: int, errand: Errand, order: Order) -> _Worker:
    """The same process with its next case, or a new one where it has died."""
    try:
        worker.line.send(errand)
    except OSError:
        _let_go(worker)
        return _started(place, errand, order)
    return _Worker(process=worker.process, line=worker.line, place=place)


def _received(worker: _Worker, errand: Errand) -> Outcome:
    try:
        found = worker.line.recv()
    except (EOFError, OSError):
        worker.process.join(LAST_WORDS_S)
        return died(errand, worker.process.exitcode)
    assert isinstance(found, Outcome)
    return found


def _let_go(worker: _Worker) -> None:
    worker.line.close()
    worker.process.join(LAST_WORDS_S)
    if worker.process.is_alive():
        worker.process.kill()
        worker.process.join()


def _stop(workers: list[_Worker], tell: Tell) -> None:
    """Stop every process; what it has finished or begun is told."""
    for worker in workers:
        worker.process.terminate()
    for worker in workers:
        with contextlib.suppress(EOFError, OSError):
            if worker.line.poll(LAST_WORDS_S):
                tell(worker.place, worker.line.recv())
        _let_go(worker)


def _work(line: Connection, order: Order) -> None:
    """What a process does: case after case, until the line is closed or it is told to stop."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        _load(order)
        while True:
            signal.signal(signal.SIGTERM, _interrupt)
            errand = line.recv()
            outcome = write_letters(errand, order)
            signal.signal(signal.SIGTERM, signal.SIG_IGN)
            line.send(outcome)
            if outcome.end is not None:
                return
    except (EOFError, OSError, KeyboardInterrupt):
        return


def _interrupt(*_: object) -> None:
    raise KeyboardInterrupt


def _load(order: Order) -> None:
    """Take the machine code from where the first case put it; what is to be said was said then."""
    if order.wish.table is None and order.wish.years:
        from loamshift.cli.kernel_cache import keep_kernels

        keep_kernels()
        import loamshift.core.column  # noqa: F401 - loaded once its folder is chosen
