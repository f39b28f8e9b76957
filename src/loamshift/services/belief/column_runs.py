"""Runs of the column on prepared inputs: whole, shorter, or with fewer members."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Final

from loamshift.core.column import run_column
from loamshift.core.column_laws import column_laws
from loamshift.core.column_layout import (
    ColumnEvents,
    ColumnLaws,
    ColumnResult,
    ColumnWeather,
    MemberParameters,
)
from loamshift.services.belief.column_inputs import ForecastInputs
from loamshift.services.belief.column_priors import Members
from loamshift.tables.model import (
    buffer_parameters,
    ledger_parameters,
    lime_parameters,
    nitrogen_parameters,
    sulfur_parameters,
)
from loamshift.tables.parameters import parameter_values

DAYS_IN_WEEK: Final = 7


def run(inputs: ForecastInputs, events: ColumnEvents, *, threads: int = 2) -> ColumnResult:
    """One run of the column, read week by week.

    Parameters
    ----------
    threads
        Threads that share the members [count].

    Returns
    -------
    ColumnResult
        pH by member and week, and the balance [units as named there].
    """
    return run_column(
        inputs.soil,
        inputs.members.parameters,
        inputs.weather,
        events,
        laws=shared_laws(),
        sample_depth_cm=inputs.sample_depth_cm,
        stride_days=DAYS_IN_WEEK,
        threads=threads,
    )


def shortened(inputs: ForecastInputs, *, days: int, every: int = 1) -> ForecastInputs:
    """The same bed for fewer days, or with fewer of its members.

    A member lives the same days in both: the same member, week and event give the same bits.

    Parameters
    ----------
    days
        Days from the start of the run, 1 or more; no more than there are [d].
    every
        Keep one member of so many [count].
    """
    days = min(days, inputs.days)
    weather, members = inputs.weather, inputs.members
    fed = inputs.past[len(inputs.past) - inputs.fed_ahead :]
    return replace(
        inputs,
        weather=ColumnWeather(
            soil_temp_c=weather.soil_temp_c[:days],
            wetness=weather.wetness[:days],
            drainage_mm=weather.drainage_mm[:days],
            irrigation_mm=weather.irrigation_mm[:days],
            alkalinity_mmolc_l=weather.alkalinity_mmolc_l,
            leaching_factor=weather.leaching_factor,
            air_mmolc_m2_year=None
            if weather.air_mmolc_m2_year is None
            else weather.air_mmolc_m2_year[:days],
        ),
        members=members
        if every == 1
        else Members(
            MemberParameters(
                **{
                    field.name: getattr(members.parameters, field.name)[::every]
                    for field in fields(MemberParameters)
                }
            ),
            members.causes,
            members.draws[::every],
            members.reading_z[::every],
        ),
        days=days,
        events=events_before(inputs.events, day=days),
        control_events=events_before(inputs.control_events, day=days),
        past=tuple(event for event in inputs.past if event.day < days),
        fed_ahead=sum(event.day < days for event in fed),
    )


def events_before(events: ColumnEvents, *, day: int) -> ColumnEvents:
    """The events that happen before a day of the run.

    Parameters
    ----------
    day
        The day [d].
    """
    early = events.day < day
    return ColumnEvents(
        **{field.name: getattr(events, field.name)[early] for field in fields(ColumnEvents)}
    )


def shared_laws() -> ColumnLaws:
    """The coefficients of the column that all members share."""
    return column_laws(
        column=parameter_values("column"),
        buffer=buffer_parameters(),
        sulfur=sulfur_parameters(),
        nitrogen=nitrogen_parameters(),
        lime=lime_parameters(),
        ledger=ledger_parameters(),
        nitrate_uptake_half_time_d=parameter_values("advice")["nitrate_uptake_half_time_d"],
    )
