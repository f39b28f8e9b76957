"""Forecasts of the workbench: a bounded number at a time, in a process of their own.

A forecast holds the interpreter for most of a second, and threads share one interpreter. A server
therefore works them out in another process, so that pages that need none go on at once. Where no
such process was started, as in a test, a forecast is worked out where it is asked for.
"""

from __future__ import annotations

import copyreg
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Mapping
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final, NamedTuple, TypeVar

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.services.advise import LookAhead, advise_with_look
from loamshift.web.turns import Turns, stays

if TYPE_CHECKING:
    from loamshift.services.what_if import WhatIf

Made = TypeVar("Made")

MEMBERS: Final = 250
YEARS: Final = 3
SEED: Final = 1
MOST_PROCESSES: Final = 2
MOST_WAITING: Final = 12
"""So many may wait for a forecast; who comes then is told to ask again [count]."""


def _read_only(values: dict[Any, Any]) -> Mapping[Any, Any]:
    return MappingProxyType(values)


def _sent(values: Mapping[Any, Any]) -> tuple[Any, ...]:
    return _read_only, (dict(values),)


copyreg.pickle(MappingProxyType, _sent)  # cases and answers go from process to process


class Forecasted(NamedTuple):
    """An answer with its forecast, and what the sliders of its page follow, if anything."""

    answer: Answer
    what_if: WhatIf | None


def processes() -> int:
    """Processes for forecasts that leave a core to the pages [count]."""
    return max(1, min(MOST_PROCESSES, (os.cpu_count() or 1) - 1))


def work_out(case: Case) -> Forecasted:
    """The answer to a case with its forecast, in this process."""
    look_ahead = LookAhead(members=MEMBERS, seed=SEED, years=YEARS)
    answer, look = advise_with_look(case, look_ahead=look_ahead)
    waits = answer.verdict.decision is Decision.MEASURE_FIRST  # there is no amount to move yet
    if look is None or waits or not answer.applications:
        return Forecasted(answer, None)
    from loamshift.services.what_if import what_if_of  # loads the compiler

    return Forecasted(answer, what_if_of(look))


class Forecasts:
    """Where forecasts are worked out, and the line in front of it."""

    def __init__(self) -> None:
        self._pool: ProcessPoolExecutor | None = None
        self.line = Turns(1)
        self._lock = threading.Lock()

    @property
    def is_full(self) -> bool:
        """True where so many wait that the next one had better come back later."""
        return self.line.waiting >= MOST_WAITING

    def start(self, count: int | None = None) -> None:
        """Work them out in processes from now on, the first started at once."""
        count = count or processes()
        with self._lock:
            self.line = Turns(count)
            self._pool = _pool(count)
            self._pool.submit(_ready)

    def stop(self) -> None:
        """End the processes; what waits for them fails."""
        with self._lock:
            pool, self._pool = self._pool, None
        if pool is not None:
            pool.shutdown(wait=False, cancel_futures=True)

    def of(self, case: Case, gone: Callable[[], bool] = stays) -> Forecasted:
        """The answer to a case with its forecast, when it is its turn."""
        return self.take(partial(work_out, case), gone)

    def take(self, work: Callable[[], Made], gone: Callable[[], bool] = stays) -> Made:
        """What some work makes that runs the column, when it is its turn.

        Parameters
        ----------
        work
            A function of a module with its arguments, which can go to another process.

        Raises
        ------
        GoneError
            Where ``gone`` says, while waiting, that nobody wants it any more.
        """
        with self.line.turn(gone):
            pool = self._pool
            if pool is None:
                return work()
            try:
                return pool.submit(work).result()
            except BrokenProcessPool:
                self._replace(pool)
                return work()

    def _replace(self, broken: ProcessPoolExecutor) -> None:
        """A new pool for one whose process was killed, unless another thread made it already."""
        with self._lock:
            if self._pool is broken:
                self._pool = _pool(processes())


FORECASTS: Final = Forecasts()
"""Those of this process."""


def _pool(count: int) -> ProcessPoolExecutor:
    context = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(count, mp_context=context, initializer=_begin)


def _begin() -> None:
    """Leave interrupts to the server, and end with it, however it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_server, daemon=True).start()


def _end_with_the_server() -> None:
    server = multiprocessing.parent_process()
    if server is not None:
        server.join()
        os._exit(0)


def _ready() -> None:
    """Load what a forecast needs before anybody waits for it."""
    import loamshift.services.look  # noqa: F401  the compiler
