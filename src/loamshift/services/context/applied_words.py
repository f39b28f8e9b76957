"""What was applied inside a sentence: each product once, with its days."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from loamshift.domain.case import Applied
from loamshift.domain.message import Listed, Message, Product, message

_DAYS_LISTED: Final = 3
"""More days than this are told as how often, from when to when."""


def applied_told(applied: Iterable[Applied]) -> Listed:
    """Products that were applied, in the order they were first, each with its days.

    Parameters
    ----------
    applied
        Applications in any order; one that is given twice is told once.
    """
    days: dict[str, set[date]] = {}
    for one in sorted(applied, key=lambda one: one.on):
        days.setdefault(one.material.key, set()).add(one.on)
    return Listed(tuple(_of_product(key, sorted(each)) for key, each in days.items()))


def _of_product(key: str, days: list[date]) -> Message:
    if len(days) <= _DAYS_LISTED:
        return message("applied-on", product=Product(key), days=Listed(tuple(days)))
    return message("applied-times", product=Product(key), n=len(days), first=days[0], last=days[-1])
