"""A pH inside a sentence: as it was read, beside what it is taken as in water."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from loamshift.domain.message import Message, choice, message, ph
from loamshift.domain.ph import PhMethod, PhReading

_TOLD_TO: Final = 1
"""Decimals of a pH in a letter."""


def taken_as_told(ph_water: float, *, method: PhMethod, readings: Sequence[PhReading]) -> Message:
    """A pH by the reading it was taken from, with both figures where they differ as printed.

    Parameters
    ----------
    ph_water
        What it is taken as [pH in water].
    method
        By which it was read.
    readings
        Those it was taken from; of several no single figure is told.

    Returns
    -------
    Message
        Such as ``pH 6.9 in water 1:5 (about 6.8 in water 1:2.5)``.
    """
    given = readings[0].ph if len(readings) == 1 else ph_water
    same = round(given, _TOLD_TO) == round(ph_water, _TOLD_TO)
    return message(
        "verdict-reading",
        ph=ph(ph_water),
        salt="yes" if method.is_salt else "no",
        given=None if same else ph(given),
        method=None if same else choice(method.value),
    )
