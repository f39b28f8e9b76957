"""Figures inside the sentences of an answer, in the units the case asks for."""

from __future__ import annotations

from datetime import date

from loamshift.domain.case import Units
from loamshift.domain.digits import sensible
from loamshift.units import POUND_G, lb_100ft2_from_g_m2

_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def format_rate(rate_g_m2: float, units: Units) -> str:
    """A rate as people say it: two digits or three, with its unit.

    Parameters
    ----------
    rate_g_m2
        The rate [g/m2].
    units
        Metric or US [enumeration].

    Returns
    -------
    str
        Number and unit [text].
    """
    if units is Units.US:
        return f"{sensible(lb_100ft2_from_g_m2(rate_g_m2))} lb/100 ft²"
    if rate_g_m2 >= 1000.0:
        return f"{sensible(rate_g_m2 / 1000.0)} kg/m²"
    return f"{sensible(rate_g_m2)} g/m²"


def format_amount(amount_g: float, units: Units) -> str:
    """An amount as people say it: two digits or three, with its unit.

    Parameters
    ----------
    amount_g
        The amount [g].
    units
        Metric or US [enumeration].

    Returns
    -------
    str
        Number and unit [text].
    """
    if units is Units.US:
        return f"{sensible(amount_g / POUND_G)} lb"
    return f"{sensible(amount_g / 1000.0)} kg" if amount_g >= 1000.0 else f"{sensible(amount_g)} g"


def format_date(day: date, units: Units) -> str:
    """A day as it is written where these units are used.

    Parameters
    ----------
    day
        The day [calendar].
    units
        Metric or US [enumeration].

    Returns
    -------
    str
        Day, month and year [text].
    """
    month = _MONTHS[day.month - 1]
    if units is Units.US:
        return f"{month} {day.day}, {day.year}"
    return f"{day.day} {month} {day.year}"


def format_share(share: float) -> str:
    """A probability as a count of a hundred: ``about 28 in 100``.

    Parameters
    ----------
    share
        The share [0-1].

    Returns
    -------
    str
        The words [text].
    """
    if share < 0.01:
        return "fewer than 1 in 100"
    if share > 0.99:
        return "more than 99 in 100"
    return f"about {round(100.0 * share)} in 100"


def format_rates(*, low_g_m2: float, high_g_m2: float, units: Units) -> str:
    """A range of rates as people say it, the unit once.

    Parameters
    ----------
    low_g_m2, high_g_m2
        Its ends [g/m2].
    units
        Metric or US [enumeration].

    Returns
    -------
    str
        Such as ``6.3 to 9.3 g/m²`` [text].
    """
    low, high = format_rate(low_g_m2, units), format_rate(high_g_m2, units)
    number, unit = low.split(" ", 1)
    return f"{number if high.endswith(f' {unit}') else low} to {high}"


def format_times(ratio: float) -> str:
    """How many times one amount is another, as people say it.

    Parameters
    ----------
    ratio
        The one through the other [1].

    Returns
    -------
    str
        Such as ``2.4 times`` or ``17 times`` [text].
    """
    return f"{ratio:.1f} times" if ratio < 9.95 else f"{ratio:.0f} times"


def format_times_limit(ratio: float) -> str:
    """How many times its limit an amount is, as people say it.

    Parameters
    ----------
    ratio
        The amount through its limit, above 1 [1].

    Returns
    -------
    str
        Such as ``2.4 times``, or ``just over`` where that would read ``1.0 times`` [text].
    """
    return "just over" if ratio < 1.05 else format_times(ratio)
