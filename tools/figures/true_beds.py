"""Beds taken as true: drawn one by one, run on the column, and read with error.

They share the priors of the program with the possible beds it plans on, and nothing else: other
draws, none of them on nodes, and the column itself in place of a surface. What they show is
whether the method keeps what it promises, not whether its priors are right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import MemberParameters
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.column_inputs import (
    ForecastInputs,
    draw_members_of,
    events_under,
    inputs_from,
    inputs_without_feed,
    reading_day,
)
from loamshift.services.belief.column_priors import Members
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run, shortened
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_season
from loamshift.services.courses.seasons import Seasons, seasons_ahead
from loamshift.tables.model import verdict_values

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueBeds:
    """So many true beds behind one case; weeks count from its first day."""

    inputs: ForecastInputs

    @property
    def count(self) -> int:
        """How many."""
        return self.inputs.members.parameters.n_members

    @property
    def log10_k(self) -> FloatArray:
        """Scale of each buffer curve, shape (M,) [log10]."""
        return self.inputs.members.parameters.log10_k

    @property
    def days(self) -> tuple[date, ...]:
        """The days the beds are read on, weekly."""
        weeks = self.inputs.days // DAYS_IN_WEEK
        return tuple(
            self.inputs.today + timedelta(days=DAYS_IN_WEEK * week) for week in range(weeks + 1)
        )

    @property
    def shape(self) -> tuple[int, int]:
        """One value of the scale for each bed."""
        return 1, self.count

    def draw(self, name: str) -> FloatArray:
        """A parameter of each bed."""
        values: FloatArray = getattr(self.inputs.members.parameters, name)
        return values

    def run(self, applications: Sequence[Application]) -> BedRun:
        """All beds with the same applications."""
        events = (
            events_under(self.inputs, applications) if applications else self.inputs.control_events
        )
        result = run(self.inputs, events)
        return BedRun(
            ph=result.ph,
            oxidised_frac=np.asarray(np.median(result.oxidised_frac, axis=0), dtype=np.float64),
            balance_error=float(result.balance_error.max()),
        )

    def runs(self, plans: Sequence[Sequence[Application]]) -> tuple[BedRun, ...]:
        """All beds with each of several plans."""
        return tuple(self.run(plan) for plan in plans)

    def thinned(self, every: int) -> TrueBeds:
        """One bed in so many."""
        return self.only(np.arange(0, self.count, every))

    def with_rain_water(self) -> TrueBeds:
        """The same beds watered without alkalinity."""
        weather = replace(self.inputs.weather, alkalinity_mmolc_l=0.0)
        return replace(self, inputs=replace(self.inputs, weather=weather))

    def without_feed(self) -> TrueBeds:
        """The same beds, given none of their fertiliser from today on."""
        return replace(self, inputs=inputs_without_feed(self.inputs))

    def only(self, rows: IntArray) -> TrueBeds:
        """The beds of these rows."""
        return TrueBeds(inputs=replace(self.inputs, members=_rows(self.inputs.members, rows)))

    def under(self, seasons: Seasons, amounts_g_m2: FloatArray, *, until: int) -> FloatArray:
        """Each bed with its own amounts, shape (S, M): pH up to a week, shape (M, until + 1)."""
        paths, which = np.unique(amounts_g_m2, axis=1, return_inverse=True)
        found = np.empty((self.count, until + 1))
        short = TrueBeds(inputs=shortened(self.inputs, days=until * DAYS_IN_WEEK))
        for number, path in enumerate(paths.T):
            rows = np.flatnonzero(which.ravel() == number)
            found[rows] = short.only(rows).run(seasons.simulated(path.tolist())).ph
        return found


def true_beds(context: BedContext, *, count: int, seed: int, days_ahead: int) -> TrueBeds:
    """Beds drawn one by one from what is believed of one whose only reading is of today."""
    soil = require_soil(context)
    one_by_one = [
        draw_members_of(context, (), soil=soil, members=1, seed=seed_of_one)
        for seed_of_one in np.random.SeedSequence(seed).generate_state(count).tolist()
    ]
    members = Members(
        MemberParameters(
            **{
                field.name: np.concatenate(
                    [getattr(one.parameters, field.name) for one in one_by_one]
                )
                for field in fields(MemberParameters)
            }
        ),
        one_by_one[0].causes,
        np.concatenate([one.draws for one in one_by_one]),
        np.concatenate([one.reading_z for one in one_by_one]),
    )
    return TrueBeds(
        inputs=inputs_from(
            context,
            depths_worked(context),
            soil=soil,
            read=reading_day(context),
            members=members,
            days_ahead=days_ahead,
        )
    )


def depths_worked(context: BedContext) -> tuple[Application, ...]:
    """What may go on either way, so that every depth worked to is an edge of a layer."""
    return tuple(
        part
        for acidify in (True, False)
        for part in seasons_ahead(context, acidify=acidify).simulated((1.0,))
    )


def read(ph: FloatArray, *, method_sd_ph: float, rng: np.random.Generator) -> FloatArray:
    """Beds as a laboratory would print them: error of the method, scatter of the year, a tenth."""
    scatter = verdict_values()["reading_scatter_sd"]
    errors = rng.normal(0.0, method_sd_ph, ph.size) + rng.normal(0.0, scatter, ph.size)
    return np.round(ph + errors, 1)


def method_sd_ph(context: BedContext) -> float:
    """Error of the method the bed is read by, without the scatter of the year [pH]."""
    season = current_season(context.case)
    assert season is not None
    return season.method_sd


def _rows(members: Members, rows: IntArray) -> Members:
    return Members(
        MemberParameters(
            **{
                field.name: getattr(members.parameters, field.name)[rows]
                for field in fields(MemberParameters)
            }
        ),
        members.causes,
        members.draws[rows],
        members.reading_z[rows],
    )
