"""How warm the soil is through the year, and from which day material may go on."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache
from typing import Final

from loamshift.domain.answer import SoilTemperature
from loamshift.domain.bed_context import BedContext
from loamshift.services.context.soil_thermometer import weather_said
from loamshift.services.materials.acid_clock import daily_soil_temp_c
from loamshift.tables.model import verdict_values

DAYS_IN_WEEK: Final = 7
WEEKS_IN_YEAR: Final = 52


def soil_temperature(context: BedContext) -> SoilTemperature | None:
    """The soil temperature of an average year, weekly from today.

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
        depth_cm=0.5 * context.depth_cm,
        dates=dates,
        c=tuple(course[day] for day in days),
        weather=weather_said(context),
    )


def start_date(context: BedContext, *, acidify: bool, not_before: date) -> date:
    """First day on or after a day when material should go on.

    Sulfur waits until the ground can be worked and is about to stay warm; lime may go on at any
    time the ground is not frozen. Without a place the day itself is taken.
    """
    if not context.soil_temp_c:
        return not_before
    return _start(context.soil_temp_c, acidify=acidify, not_before=not_before)


@lru_cache(maxsize=4096)
def _start(soil_temp_c: tuple[float, ...], *, acidify: bool, not_before: date) -> date:
    """The same by the soil temperature alone: beds of one place ask it over and over."""
    limits = verdict_values()
    warm = limits["warm_soil_c"]
    ahead = int(limits["start_wait_days"])
    temps = daily_soil_temp_c(soil_temp_c, start=not_before, days=730 + 2 * ahead)
    if acidify and max(soil_temp_c) < warm:
        warm = max(soil_temp_c) - 1.0
    for offset in range(730):
        if not acidify and temps[offset] >= limits["thawed_soil_c"]:
            return not_before + timedelta(days=offset)
        window = temps[offset + ahead : offset + 2 * ahead]
        workable = temps[offset] >= limits["workable_soil_c"]
        if acidify and workable and float(window.mean()) >= warm:
            return not_before + timedelta(days=offset)
    return not_before
