"""How far a run over many rows is: a bar on a terminal, a line now and then in a log."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

from loamshift.cli.error_json import AS_JSON
from loamshift.cli.show import warn, worded
from loamshift.domain.message import Message, message

EVERY_S: Final = 20.0
"""A log gets a line so often [s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """How far a run is: the share of its file that is through [0-1], and rows [count]."""

    share: float
    rows: int
    faulty: int


class Pace:
    """Rows a second, and the time left, of what was done since the run began or went on."""

    def __init__(self, begun: Reached, clock: Callable[[], float] = time.monotonic) -> None:
        self._begun = begun
        self._clock = clock
        self._start_s = clock()

    def rows_per_s(self, now: Reached) -> float:
        """Rows a second since the start [1/s]."""
        passed_s = max(self._clock() - self._start_s, 1e-9)
        return (now.rows - self._begun.rows) / passed_s

    def left_s(self, now: Reached) -> float | None:
        """Time that is left at this pace [s]; None before anything is done."""
        done = now.share - self._begun.share
        if done <= 0.0:
            return None
        return (self._clock() - self._start_s) * max(1.0 - now.share, 0.0) / done


def said(now: Reached, pace: Pace) -> Message:
    """How far it is, in a sentence."""
    left_s = pace.left_s(now)
    minutes = 0 if left_s is None else round(left_s / 60.0)
    return message(
        "triage-progress",
        percent=int(100.0 * now.share),
        rows=now.rows,
        faulty=now.faulty,
        rate=round(pace.rows_per_s(now)),
        known="no" if left_s is None else "seconds" if left_s < 90.0 else "minutes",
        left=round(left_s or 0.0) if (left_s or 0.0) < 90.0 else minutes,
    )


@contextmanager
def progress(begun: Reached) -> Iterator[Callable[[Reached], None]]:
    """A line that is written over on a terminal; else one every twenty seconds."""
    pace = Pace(begun)
    if not AS_JSON.get() and sys.stderr.isatty():
        from rich.console import Console
        from rich.live import Live
        from rich.text import Text

        with Live(console=Console(stderr=True), transient=True, auto_refresh=False) as live:
            yield lambda now: live.update(Text(worded(said(now, pace))), refresh=True)
        return
    told_s = time.monotonic()

    def tell(now: Reached) -> None:
        nonlocal told_s
        if time.monotonic() - told_s < EVERY_S:
            return
        told_s = time.monotonic()
        warn(worded(said(now, pace)))
        sys.stderr.flush()

    yield tell
