"""What the search for an amount stands on: one bed prepared once, tried with many amounts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, ColumnResult
from loamshift.domain.answer import Application, Direction, Dose
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.material import Material
from loamshift.services.belief.column_inputs import (
    DAYS_IN_YEAR,
    LONGEST_YEARS,
    ForecastInputs,
    events_under,
    forecast_inputs,
)
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, events_before, run, shortened
from loamshift.services.context.build_context import require_soil
from loamshift.services.plan.parts import choose_material, start_date
from loamshift.services.verdict.decision_table import Outcome
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

FEW_EVERY: Final = 4
"""One member in so many is run while an amount is being bracketed."""
FEWEST: Final = 60
"""Fewer members than this are never thinned out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What one amount did.

    ``room_aim_ph`` how far the median is short of the aim on the date; ``room_risk_ph`` how far
    the member that may just not pass the far end stays short of it; both positive where more
    could go on [pH]. ``events`` and ``result`` of its run.
    """

    amount_g_m2: float
    room_aim_ph: float
    room_risk_ph: float
    events: ColumnEvents
    result: ColumnResult

    @property
    def room_ph(self) -> float:
        """Room for more: the lesser of the two [pH]."""
        return min(self.room_aim_ph, self.room_risk_ph)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A bed prepared for a search.

    ``sign`` 1 for sulfur, -1 for lime, so that sign x pH falls as more goes on; ``far_ph`` the
    end of the range not to be passed; ``cap_g_m2`` of one part, of what works [g/m2];
    ``per_year`` parts the yearly limit allows [count]; ``shown_days`` from the start of the run
    to the end of the forecast shown [d]. ``whole`` holds all members, ``few`` some of them.
    """

    context: BedContext
    target: Target
    material: Material
    active_frac: float
    sign: float
    far_ph: float
    cap_g_m2: float
    per_year: int
    most_parts: int
    first_day: date
    guess_g_m2: float
    shown_days: int
    whole: ForecastInputs
    few: ForecastInputs

    @property
    def distance_ph(self) -> float:
        """From the reading to the aim, positive the way the dose goes [pH]."""
        return self.sign * (require_soil(self.context).ph.ph_water - self.target.ph_aim)

    @property
    def acidify(self) -> bool:
        """True for sulfur."""
        return self.sign > 0.0

    def wanted_by(self, dates: list[date]) -> date:
        """The date wanted, or a set time after the last of the parts [calendar]."""
        by = self.context.case.aim.by
        if by is not None:
            return max(by, self.context.case.today)
        return dates[-1] + timedelta(days=int(parameter_values("advice")["wanted_within_days"]))

    def watched_days(self, dates: list[date]) -> int:
        """Days of the run that the risk is watched for, with parts on these dates [d]."""
        after = int(parameter_values("advice")["risk_days_after_part"])
        last = max(self.wanted_by(dates), dates[-1] + timedelta(days=after))
        return min((last - self.whole.start).days + 1, self.whole.days)

    def week_of(self, day: date) -> int:
        """The last reading of a run that is not after a day [index]."""
        weeks = (day - self.whole.start).days // DAYS_IN_WEEK
        return min(max(weeks, self.today_week), self.whole.days // DAYS_IN_WEEK)

    @property
    def today_week(self) -> int:
        """The reading of a run that falls on today [index]."""
        return (self.whole.today - self.whole.start).days // DAYS_IN_WEEK

    def day_of(self, week: int) -> date:
        """The day of a reading of a run [calendar]."""
        return self.whole.start + timedelta(days=DAYS_IN_WEEK * week)

    def sizes(self, amount_g_m2: float, count: int) -> list[float]:
        """An amount [g/m2] in so many parts [count], each as large as one may be [g/m2]."""
        left = [amount_g_m2 - number * self.cap_g_m2 for number in range(count)]
        return [min(max(rest, 0.0), self.cap_g_m2) for rest in left]

    def parts(self, amount_g_m2: float, dates: list[date]) -> tuple[Application, ...]:
        """An amount that works [g/m2] in parts on these dates [calendar], without conditions."""
        return tuple(
            Application(
                date=day,
                material=self.material.key,
                rate_g_m2=size / self.active_frac,
                amount_g=None,
                incorporate_cm=incorporate_cm(self.context),
                only_if=None,
            )
            for day, size in zip(dates, self.sizes(amount_g_m2, len(dates)), strict=True)
            if size > 0.0
        )

    def attempt(
        self, amount_g_m2: float, dates: list[date], *, whole: bool = False, days: int | None = None
    ) -> Trial:
        """One amount tried.

        Parameters
        ----------
        amount_g_m2
            What works, of all parts together [g/m2].
        dates
            Day of each part [calendar].
        whole
            True for all members [truth].
        days
            Length of the run, no less than the risk is watched; None for just that [d].

        Returns
        -------
        Trial
            What it did [object].
        """
        watched = self.watched_days(dates)
        inputs = shortened(self.whole if whole else self.few, days=max(watched, days or watched))
        events = events_before(
            events_under(inputs, self.parts(amount_g_m2, dates)), day=inputs.days
        )
        result = run(inputs, events)
        return self.judged(amount_g_m2, dates, events=events, result=result)

    def judged(
        self, amount_g_m2: float, dates: list[date], *, events: ColumnEvents, result: ColumnResult
    ) -> Trial:
        """How much room a run leaves.

        Parameters
        ----------
        amount_g_m2
            What went on [g/m2].
        dates
            Day of each part [calendar].
        events
            Events of the run [arrays].
        result
            The run [arrays].

        Returns
        -------
        Trial
            With its rooms [object].
        """
        week = self.week_of(self.wanted_by(dates))
        aim = self.sign * (float(np.median(result.ph[:, week])) - self.target.ph_aim)
        closest = self.closest_to_far(result, dates)
        allowed = math.ceil(parameter_values("advice")["risk_share"] * closest.size) - 1
        return Trial(
            amount_g_m2=amount_g_m2,
            room_aim_ph=aim,
            room_risk_ph=float(np.sort(closest)[max(allowed, 0)]),
            events=events,
            result=result,
        )

    def closest_to_far(self, result: ColumnResult, dates: list[date]) -> FloatArray:
        """How near each member comes to the far end of the range in the time watched.

        Parameters
        ----------
        result
            The run [arrays].
        dates
            Day of each part [calendar].

        Returns
        -------
        ndarray
            Shape (n_members,), negative for one that passes it [pH].
        """
        last = self.watched_days(dates) // DAYS_IN_WEEK + 1
        course = self.sign * (result.ph[:, self.today_week : last] - self.far_ph)
        return np.asarray(course.min(axis=1), dtype=np.float64)


def incorporate_cm(context: BedContext) -> float:
    """How deep a part of the plan is worked in: not at all between roots.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    float
        Depth, 0 for the surface [cm].
    """
    return 0.0 if context.planted and not context.in_pot else context.depth_cm


def bench_of(
    context: BedContext, outcome: Outcome, dose: Dose, *, members: int, seed: int, years: int
) -> Bench | None:
    """A bed prepared for the search, or None where there is no static dose to stand beside.

    Parameters
    ----------
    context
        The bed as understood [object].
    outcome
        The decision on it [object].
    dose
        The static dose [object].
    members
        Members of the forecast [count].
    seed
        Seed of its draws [number].
    years
        Years shown [years].

    Returns
    -------
    Bench or None
        The bed [object].
    """
    band, target = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2, context.target
    if band is None or target is None or outcome.cap_dose_g_m2 is None or band.mid <= 0.0:
        return None
    acidify = dose.direction is Direction.ACIDIFY
    today, limits = context.case.today, verdict_values()
    material, active_frac = choose_material(context, acidify=acidify)
    first_day = start_date(context, acidify=acidify, not_before=today)
    per_dose, per_year = outcome.cap_dose_g_m2, outcome.cap_year_g_m2 or outcome.cap_dose_g_m2
    yearly_parts = max(1, int(per_year / per_dose + 1e-9))
    last = max(first_day, context.case.aim.by or today)
    reach_d = (last - today).days + 365.0 * limits["seasons"]
    reach_d += parameter_values("advice")["risk_days_after_part"]
    longest = min(LONGEST_YEARS, max(years, math.ceil(reach_d / DAYS_IN_YEAR) + 1))
    template = Application(
        date=first_day,
        material=material.key,
        rate_g_m2=1.0,
        amount_g=None,
        incorporate_cm=incorporate_cm(context),
        only_if=None,
    )
    whole = forecast_inputs(context, [template], years=longest, seed=seed, members=members)
    thin = FEW_EVERY if members >= FEW_EVERY * FEWEST else 1
    return Bench(
        context=context,
        target=target,
        material=material,
        active_frac=active_frac,
        sign=1.0 if acidify else -1.0,
        far_ph=target.ph_low if acidify else target.ph_high,
        cap_g_m2=min(per_dose, per_year) * outcome.working_frac,
        per_year=yearly_parts,
        most_parts=yearly_parts * int(limits["seasons"]),
        first_day=first_day,
        guess_g_m2=band.mid,
        shown_days=(today - whole.start).days + round(years * DAYS_IN_YEAR),
        whole=whole,
        few=shortened(whole, days=whole.days, every=thin),
    )
