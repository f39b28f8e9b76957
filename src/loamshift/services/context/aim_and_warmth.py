"""What the answer keeps of the bed for its figures: the range wanted, the soil's year."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from loamshift.domain.answer import SoilTemperature, Wanted
from loamshift.domain.bed_context import BedContext

DAYS_IN_WEEK: Final = 7
WEEKS_IN_YEAR: Final = 52


def wanted(context: BedContext) -> Wanted | None:
    """The range the bed should come to.

    Parameters
    ----------
    context
        The bed understood [object].

    Returns
    -------
    Wanted or None
        Nothing where neither plants nor a target pH are known [pH in water].
    """
    target = context.target
    if target is None:
        return None
    return Wanted(
        ph_low=target.ph_low, ph_high=target.ph_high, ph_aim=target.ph_aim, names=target.names
    )


def soil_temperature(context: BedContext) -> SoilTemperature | None:
    """The soil temperature of an average year, weekly from today.

    Parameters
    ----------
    context
        The bed understood [object].

    Returns
    -------
    SoilTemperature or None
        Nothing without a place [degC].
    """
    course = context.soil_temp_c
    if not course:
        return None
    dates = tuple(
        context.case.today + timedelta(days=DAYS_IN_WEEK * week)
        for week in range(WEEKS_IN_YEAR + 1)
    )
    days = [min(day.timetuple().tm_yday, len(course)) - 1 for day in dates]
    return SoilTemperature(
        depth_cm=0.5 * context.depth_cm, dates=dates, c=tuple(course[day] for day in days)
    )
