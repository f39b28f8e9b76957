"""Forecasts made afterwards for readings that are there, from what was known before each."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from loamshift.domain.case import Case
from loamshift.domain.ph import PhReading
from loamshift.domain.score import IssuedAs, IssuedForecast
from loamshift.services.advise import LookAhead, advise
from loamshift.services.score.issued import issued_forecast
from loamshift.services.score.pairs import scored_readings


def hindcast(case: Case, *, look_ahead: LookAhead) -> tuple[IssuedForecast, ...]:
    """For each reading of a bed but the first, the forecast of the day before it.

    Parameters
    ----------
    look_ahead
        How to forecast; a year is enough, for each is asked about the next day.

    Returns
    -------
    tuple of IssuedForecast
        None for a reading that nothing was read before.

    Notes
    -----
    What was put on by then counts, as do facts without a date, such as texture or buffer pH.
    Later readings do not, nor does one without a date. It is no forecast: whoever chose the model
    may have seen how such beds went.
    """
    found = []
    for day in sorted({read.on for read in scored_readings(case)})[1:]:
        known = known_before(case, day)
        answer = advise(known, look_ahead=look_ahead)
        made = issued_forecast(
            answer,
            known,
            key=f"{case.name} {day.isoformat()}",
            title=case.name,
            issued_as=IssuedAs.HINDCAST,
        )
        if made is not None:
            found.append(made)
    return tuple(found)


def known_before(case: Case, day: date) -> Case:
    """A case as it was on the eve of a day, without what was read or put on since."""

    def is_known(reading: PhReading) -> bool:
        return reading.taken is not None and reading.taken < day

    soil = case.soil
    first = soil.ph if soil.ph is not None and is_known(soil.ph) else None
    return replace(
        case,
        today=day - timedelta(days=1),
        soil=replace(
            soil,
            ph=first,
            other_ph=soil.other_ph if first is not None else (),
            sampled=soil.sampled if first is not None else None,
        ),
        aim=replace(case.aim, by=None),
        readings=tuple(one for one in case.readings if is_known(one)),
        applied=tuple(one for one in case.applied if one.on < day),
        claims=(),
    )
