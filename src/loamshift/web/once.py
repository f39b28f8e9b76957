"""What is worked out once and kept for a while, however many ask for it at the same time."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from typing import Generic, TypeVar

Made = TypeVar("Made")


class GoneError(Exception):
    """Whoever asked has left before it was their turn; nothing was worked out."""


class Once(Generic[Made]):
    """The last things made, by key; of two who ask for one thing the second waits for the first.

    Parameters
    ----------
    most
        Things kept [count].
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, Future[Made]] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """What stands under a key, made where it is not there; a failure is not kept."""
        while True:
            future, is_ours = self._reserved(key)
            if is_ours:
                self._make(key, future, make)
                return future.result()
            try:
                return future.result()
            except GoneError:
                continue  # the other one left; it is made for this one

    def found(self, key: Hashable) -> Made | None:
        """What stands under a key already; None where it is missing or still being made."""
        with self._lock:
            future = self._kept.get(key)
        if future is None or not future.done() or future.exception() is not None:
            return None
        return future.result()

    def clear(self) -> None:
        """Forget everything."""
        with self._lock:
            self._kept.clear()

    def _reserved(self, key: Hashable) -> tuple[Future[Made], bool]:
        with self._lock:
            future = self._kept.get(key)
            if future is not None:
                self._kept.move_to_end(key)
                return future, False
            future = self._kept[key] = Future()
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
            return future, True

    def _make(self, key: Hashable, future: Future[Made], make: Callable[[], Made]) -> None:
        try:
            future.set_result(make())
        except BaseException as fault:
            with self._lock:
                if self._kept.get(key) is future:
                    del self._kept[key]
            future.set_exception(fault)
