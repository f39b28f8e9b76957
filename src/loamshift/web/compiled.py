"""Whether a forecast can be had at once, or the column is still being compiled beside."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final


class Compiled:
    """What the door knows of the machine code; without a door that compiles, all is ready."""

    def __init__(self) -> None:
        self._asked: Callable[[], bool] | None = None

    def ask(self, is_ready: Callable[[], bool]) -> None:
        """Ask this from now on, until it says yes for the first time."""
        self._asked = is_ready

    @property
    def is_ready(self) -> bool:
        """False while the first forecast would have to wait for the compiler."""
        if self._asked is not None and self._asked():
            self._asked = None
        return self._asked is None


COMPILED: Final = Compiled()
"""That of this process."""
