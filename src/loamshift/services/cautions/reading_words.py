"""Readings inside a sentence."""

from __future__ import annotations

from datetime import date

from loamshift.domain.message import Message, choice, message, number, ph
from loamshift.domain.ph import PhReading
from loamshift.services.context.readings import ph_belief


def reading_told(reading: PhReading, *, day: date | None = None) -> Message:
    """A reading with its method, and its day where that is asked for.

    Parameters
    ----------
    day
        When it was taken, or None.
    """
    taken_as = ph(ph_belief(reading).ph_water) if reading.method.is_salt else None
    return message(
        "check-reading",
        ph=number(reading.ph) if round(reading.ph, 1) != reading.ph else ph(reading.ph),
        method=choice(reading.method.value),
        in_water=taken_as,
        day=day,
    )
