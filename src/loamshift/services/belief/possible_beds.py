"""The beds that could lie behind what is known: members of the column and what they stand for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.member_weights import normal_slices
from loamshift.core.monotone_cubic import monotone_cubic
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import Soil
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.column_inputs import (
    ForecastInputs,
    draw_members_of,
    events_under,
    inputs_from,
    inputs_without_feed,
)
from loamshift.services.belief.column_priors import Cause
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run
from loamshift.services.belief.scale_nodes import NODES_Z, on_nodes

FloatArray = NDArray[np.float64]

SCALE_SLICES: Final = 15
"""Values of the buffer scale that each draw of everything else is read at [count]."""
GOLDEN: Final = 0.6180339887498949
"""Multiples of it fall evenly between 0 and 1, in an order that no draw follows [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PossibleBeds:
    """Possible beds of equal weight, read from members of the column that stand on nodes.

    Members are every one of O draws of everything but the buffer scale, at each of N nodes of
    that scale, node by node. A bed is a draw at one value of the scale between the nodes:
    ``z`` (Q, O) [sd], beds counted value by value, so Q x O of them.
    """

    inputs: ForecastInputs
    nodes_z: FloatArray
    z: FloatArray
    threads: int = 2
    """Threads that share the members; the bits are the same for any number [count]."""

    @property
    def n_beds(self) -> int:
        """Number of beds."""
        return int(self.z.size)

    def of_beds(self, of_members: FloatArray) -> FloatArray:
        """What the beds do, from what the members do: first axis members, then beds.

        Parameters
        ----------
        of_members
            Values by member, shape (N x O, ...) [any unit].

        Returns
        -------
        ndarray
            Values by bed, shape (Q x O, ...) [the same unit].
        """
        n_others = self.z.shape[1]
        by_node = of_members.reshape(self.nodes_z.size, n_others, *of_members.shape[1:])
        read = monotone_cubic(self.nodes_z, by_node, self.z)
        return read.reshape(self.n_beds, *of_members.shape[1:])

    @property
    def days(self) -> tuple[date, ...]:
        """The days the beds are read on: weekly, today first."""
        weeks = self.inputs.days // DAYS_IN_WEEK - self._first
        today = self.inputs.today
        return tuple(today + timedelta(days=DAYS_IN_WEEK * week) for week in range(weeks + 1))

    @property
    def shape(self) -> tuple[int, int]:
        """Values of the buffer scale, and draws of everything else."""
        return self.z.shape[0], self.z.shape[1]

    @property
    def _first(self) -> int:
        return (self.inputs.today - self.inputs.start).days // DAYS_IN_WEEK

    def run(self, applications: Sequence[Application]) -> BedRun:
        """The beds under a plan."""
        events = (
            events_under(self.inputs, applications) if applications else self.inputs.control_events
        )
        result = run(self.inputs, events, threads=self.threads)
        oxidised = np.median(result.oxidised_frac[:, self._first :], axis=0)
        return BedRun(
            ph=self.of_beds(result.ph[:, self._first :]),
            oxidised_frac=np.asarray(oxidised, dtype=np.float64),
            balance_error=float(result.balance_error.max()),
        )

    def runs(self, plans: Sequence[Sequence[Application]]) -> tuple[BedRun, ...]:
        """The beds with each of several plans."""
        return tuple(self.run(plan) for plan in plans)

    def thinned(self, every: int) -> PossibleBeds:
        """The same beds with one draw in so many.

        Parameters
        ----------
        every
            Keep one draw of everything but the buffer scale in so many [count].
        """
        n_others = self.z.shape[1]
        kept = np.arange(0, n_others, every)
        rows = (np.arange(self.nodes_z.size)[:, None] * n_others + kept[None, :]).ravel()
        members = self.inputs.members
        thin = members.rows(rows)
        thin_inputs = replace(self.inputs, members=thin)
        return replace(self, inputs=thin_inputs, z=self.z[:, kept])

    def with_rain_water(self) -> PossibleBeds:
        """The same beds watered with water that brings no alkalinity."""
        weather = replace(self.inputs.weather, alkalinity_mmolc_l=0.0)
        drawn = self.inputs.members.parameters
        added = self.inputs.water_anions_mmolc_l * drawn.alkalinity_factor
        members = replace(
            self.inputs.members,
            parameters=replace(drawn, anions_mmolc_l=drawn.anions_mmolc_l - added),
        )
        rain = replace(self.inputs, weather=weather, members=members, water_anions_mmolc_l=0.0)
        return replace(self, inputs=rain)

    def without_feed(self) -> PossibleBeds:
        """The same beds, given none of their fertiliser from today on."""
        return replace(self, inputs=inputs_without_feed(self.inputs))

    @property
    def log10_k(self) -> FloatArray:
        """Buffer scale of each bed, shape (Q x O,) [log10]."""
        return self.of_beds(self.inputs.members.parameters.log10_k)

    def draw(self, name: str) -> FloatArray:
        """A parameter of each bed, shape (Q x O,) [as in ``MemberParameters``]."""
        n_others = self.z.shape[1]
        values: FloatArray = getattr(self.inputs.members.parameters, name)
        return np.tile(values[:n_others], self.z.shape[0])

    @property
    def draws(self) -> FloatArray:
        """What was drawn for each bed, one column a cause, shape (Q x O, n_drawn)."""
        n_others = self.z.shape[1]
        table = np.tile(self.inputs.members.draws[:n_others], (self.z.shape[0], 1))
        table[:, 0] = self.log10_k
        table[:, self.inputs.members.causes.index(Cause.NEXT_READING)] = self.reading_z
        return table

    @property
    def reading_z(self) -> FloatArray:
        """Error of one further reading of each bed, spread evenly, shape (Q x O,) [sd].

        The weights of the readings say nothing about it, so that it is not drawn with the beds:
        few of them carry the weight, and the median of their errors need not be 0.
        """
        order = np.argsort((np.arange(1, self.n_beds + 1) * GOLDEN) % 1.0)
        spread = np.empty(self.n_beds)
        spread[order] = normal_slices(self.n_beds)
        return spread


def beds_before_readings(
    context: BedContext,
    applications: Sequence[Application],
    *,
    soil: Soil,
    read: date,
    n_others: int,
    seed: int,
    days_ahead: int,
) -> PossibleBeds:
    """Possible beds by what is known of the soil alone, from the day of one reading.

    Parameters
    ----------
    n_others
        Draws of everything but the buffer scale [count].
    seed
        Seed of the draws [number].
    days_ahead
        Days from today [d].
    """
    drawn = draw_members_of(context, applications, soil=soil, members=n_others, seed=seed)
    nodes = np.array(NODES_Z)
    members = on_nodes(drawn, soil=soil, nodes_z=nodes)
    z = np.repeat(normal_slices(SCALE_SLICES)[:, None], n_others, axis=1)
    return PossibleBeds(
        inputs=inputs_from(
            context, applications, soil=soil, read=read, members=members, days_ahead=days_ahead
        ),
        nodes_z=nodes,
        z=z,
    )
