"""A line to wait in: so many at a time, in the order in which they came."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from loamshift.web.once import GoneError

_LOOKS_S: Final = 0.2
"""How often somebody who waits is looked after [s]."""


def stays() -> bool:
    """Nobody has gone."""
    return False


class Turns:
    """So many at a time, the others in line.

    Parameters
    ----------
    at_once
        Turns taken at the same time [count].
    """

    def __init__(self, at_once: int) -> None:
        self._free = at_once
        self._line: deque[object] = deque()
        self._moved = threading.Condition()

    @property
    def waiting(self) -> int:
        """How many stand in line [count]."""
        return len(self._line)

    @contextmanager
    def turn(self, gone: Callable[[], bool] = stays) -> Iterator[None]:
        """Wait for a turn and hold it.

        Raises
        ------
        GoneError
            Where ``gone`` says, while waiting, that nobody wants it any more.
        """
        self._wait(gone)
        try:
            yield
        finally:
            with self._moved:
                self._free += 1
                self._moved.notify_all()

    def _wait(self, gone: Callable[[], bool]) -> None:
        ticket = object()
        with self._moved:
            self._line.append(ticket)
            try:
                while self._free < 1 or self._line[0] is not ticket:
                    self._moved.wait(_LOOKS_S)
                    if gone():
                        raise GoneError
                self._free -= 1
            finally:
                self._line.remove(ticket)
                self._moved.notify_all()
