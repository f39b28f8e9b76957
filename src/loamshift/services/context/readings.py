"""Readings of a bed in order: which belong together, and which speaks for the bed today."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from loamshift.domain.case import Case
from loamshift.domain.ph import PhBelief, PhReading
from loamshift.tables.model import verdict_values
from loamshift.tables.ph_methods import default_ph_conversion

SAME_SEASON_D: Final = 183
"""Readings no farther apart share the scatter of their year [d]."""
WORKING_D: Final = 2 * 366
"""What was put on may still be working for so long [d]."""
SAME_WHILE_WORKING_D: Final = 28
"""While it is, readings farther apart than this are each read on their own day [d]."""
OLDEST_D: Final = 12 * 366
"""A reading older than this is not used [d]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonReading:
    """All readings of one season with nothing put on between them, taken together.

    ``ph_water`` their mean [pH in water]; ``method_sd`` its error without the scatter from year
    to year [pH]; ``day`` of the last of them; ``rough`` where none is a laboratory's.
    """

    day: date
    ph_water: float
    method_sd: float
    readings: tuple[PhReading, ...]

    @property
    def rough(self) -> bool:
        """True where no reading of the season is a laboratory's."""
        return all(reading.method.is_rough for reading in self.readings)

    @property
    def leading(self) -> PhReading:
        """The reading that gives the season its method: the most exact, then the latest."""
        return min(
            reversed(self.readings),
            key=lambda one: (one.method.is_rough, method_error_ph(one)),
        )

    @property
    def belief(self) -> PhBelief:
        """What the season says of the bed, the scatter from year to year included [pH]."""
        return PhBelief(
            ph_water=self.ph_water,
            ph_water_sd=math.hypot(self.method_sd, verdict_values()["reading_scatter_sd"]),
            method=self.leading.method,
            basis=ph_belief(self.leading).basis,
        )


def ph_belief(reading: PhReading) -> PhBelief:
    """PH in water that a reading stands for, with the error of its method and of sampling.

    Returns
    -------
    PhBelief
        Mean and sd [pH].
    """
    conversion = default_ph_conversion(reading.method)
    mean = conversion.intercept + conversion.slope * reading.ph
    basis = f"pH {reading.ph:g} ({reading.method.value})"
    if reading.method.is_salt:
        basis += f", taken as {mean:.1f} in water"
    return PhBelief(
        ph_water=mean,
        ph_water_sd=math.hypot(method_error_ph(reading), verdict_values()["reading_scatter_sd"]),
        method=reading.method,
        basis=basis,
    )


def method_error_ph(reading: PhReading) -> float:
    """Error of the method of a reading, or that given with it.

    Returns
    -------
    float
        Standard deviation, sampling left out [pH].
    """
    if reading.ph_sd is not None:
        return reading.ph_sd
    return default_ph_conversion(reading.method).sd


def dated_readings(case: Case) -> tuple[PhReading, ...]:
    """Every reading of the bed with its day, oldest first; one said twice counts once.

    Returns
    -------
    tuple of PhReading
        Each with a day: that of the sample, and today where nobody said.
    """
    entry = case.soil
    found: list[tuple[date, int, PhReading]] = []
    report = [*((entry.ph,) if entry.ph else ()), *entry.other_ph]
    for order, reading in enumerate([*report, *case.readings]):
        of_report = order < len(report)
        day = reading.taken or (entry.sampled if of_report else None) or case.today
        depth = reading.depth_cm or (entry.sample_depth_cm if of_report else None)
        found.append(
            (
                min(day, case.today),
                order,
                PhReading(
                    ph=reading.ph,
                    method=reading.method,
                    depth_cm=depth,
                    taken=min(day, case.today),
                    ph_sd=reading.ph_sd,
                ),
            )
        )
    found.sort(key=lambda one: (one[0], one[1]))
    kept: dict[tuple[date, float, str], PhReading] = {}
    for day, _, reading in found:
        kept.setdefault((day, reading.ph, reading.method.value), reading)
    return tuple(kept.values())


def season_readings(case: Case) -> tuple[SeasonReading, ...]:
    """The readings of a bed by season, oldest first.

    Returns
    -------
    tuple of SeasonReading
        None older than twelve years; a rough one before the first of a laboratory is left out.

    Notes
    -----
    A season ends where something was put on, or half a year after its first reading; after four
    weeks where something put on in the two years before it may still be moving the pH, for a mean
    of two days says nothing of either.
    """
    oldest = case.today - timedelta(days=OLDEST_D)
    groups: list[list[PhReading]] = []
    for reading in dated_readings(case):
        if reading.taken is None or reading.taken < oldest:
            continue
        if groups and _same_season(case, groups[-1], reading.taken):
            groups[-1].append(reading)
        else:
            groups.append([reading])
    seasons = [_together(group) for group in groups]
    first = next((i for i, season in enumerate(seasons) if not season.rough), 0)
    return tuple(seasons[first:])


def is_working(case: Case, day: date) -> bool:
    """True where something put on in the two years before a day may still be moving the pH."""
    return any(0 <= (day - applied.on).days <= WORKING_D for applied in case.applied)


def current_season(case: Case) -> SeasonReading | None:
    """The season that speaks for the bed today: the latest, a laboratory's before a probe's."""
    seasons = season_readings(case)
    careful = [season for season in seasons if not season.rough]
    chosen = careful or seasons
    return chosen[-1] if chosen else None


def current_reading(case: Case) -> PhReading | None:
    """The reading that speaks for the bed today.

    Returns
    -------
    PhReading or None
        The most exact of its season; None where nobody read the pH.
    """
    season = current_season(case)
    return season.leading if season is not None else None


def _same_season(case: Case, group: Sequence[PhReading], day: date) -> bool:
    first, last = group[0].taken, group[-1].taken
    assert first is not None and last is not None
    if (day - first).days > (SAME_WHILE_WORKING_D if is_working(case, first) else SAME_SEASON_D):
        return False
    return not any(last <= applied.on < day for applied in case.applied)


def _together(group: Sequence[PhReading]) -> SeasonReading:
    """Readings of one season by precision; where they differ by more than that, so is the error."""
    beliefs = [ph_belief(reading) for reading in group]
    sds = [max(method_error_ph(reading), 0.01) for reading in group]
    precision = [sd**-2.0 for sd in sds]
    total = math.fsum(precision)
    pairs = list(zip(precision, beliefs, strict=True))
    mean = math.fsum(weight * one.ph_water for weight, one in pairs) / total
    spread = math.fsum(weight * (one.ph_water - mean) ** 2 for weight, one in pairs)
    wider = math.sqrt(spread / (len(group) - 1)) if len(group) > 1 else 0.0
    last = group[-1].taken
    assert last is not None
    return SeasonReading(
        day=last,
        ph_water=mean,
        method_sd=max(1.0, wider) * total**-0.5,
        readings=tuple(group),
    )
