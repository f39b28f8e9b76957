"""Rows of a long table that tell the same: judged once, whatever they are called."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Final

from loamshift.services.many.outcome import Outcome

MOST_KEPT: Final = 100_000
"""Outcomes kept for later rows, some 80 MB; those not met for longest go first [count]."""
_NAME: Final = "name"
"""What a row is called; nothing hangs on it."""


class EqualRows:
    """Outcomes of rows already judged, by all that they tell but their names."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._outcomes: OrderedDict[bytes, Outcome] = OrderedDict()

    def __contains__(self, told: bytes) -> bool:
        """Whether an earlier row told the same."""
        return told in self._outcomes

    def known(self, told: bytes, key: str) -> Outcome | None:
        """The outcome of a row that tells what an earlier one told, under its own key."""
        if told not in self._outcomes:
            return None
        self._outcomes.move_to_end(told)
        return replace(self._outcomes[told], key=key)

    def keep(self, told: bytes, outcome: Outcome) -> None:
        """Keep an outcome for rows to come."""
        self._outcomes[told] = outcome
        if len(self._outcomes) > self._most:
            self._outcomes.popitem(last=False)


def told_by(values: Mapping[str, object], today: date) -> bytes:
    """All that decides the outcome of a row, as a short print.

    Parameters
    ----------
    values
        By path of the case file.
    today
        The day where the row names none.

    Notes
    -----
    Of the values as they are written, so that a truth is no number; two rows that differ share a
    print once in 10^38.
    """
    told = [item for item in values.items() if item[0] != _NAME]
    return hashlib.blake2b(repr((today, told)).encode(), digest_size=16).digest()
