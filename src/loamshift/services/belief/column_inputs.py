"""A bed and a plan turned into what the column runs on: soil, weather, events, members."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnEvent, ColumnEvents, ColumnSoil, ColumnWeather
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Applied, Feed
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.soil import Soil
from loamshift.errors import OutOfRangeError
from loamshift.services.belief.column_layers import layer_edges_cm, soil_layers
from loamshift.services.belief.column_parts import PutOn, events_of, events_of_rest
from loamshift.services.belief.column_priors import Members, draw_soil_members
from loamshift.services.belief.column_weather import column_weather
from loamshift.services.belief.humus import humus_history
from loamshift.services.belief.layers_below import layers_below
from loamshift.services.context.air import air_acid
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_season
from loamshift.services.context.water import is_bare, water_anions_mmolc_l
from loamshift.services.materials.named import material_named
from loamshift.tables.materials import find_material
from loamshift.tables.model import sulfur_parameters, verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

LONGEST_YEARS: Final = 50
DAYS_IN_YEAR: Final = 365.25
_OLDEST_START_D: Final = 730
"""A reading older than this starts the run this long before today."""
_FEED_MATERIAL: Final = {
    "ammonium": "ammonium sulfate",
    "urea": "urea",
    "nitrate": "calcium nitrate",
    "ammonium nitrate": "ammonium nitrate",
}
_FEED_MONTHS_NORTH: Final = (4, 6, 5, 7, 8, 9)
_FEED_MONTHS_SOUTH: Final = (10, 12, 11, 1, 2, 3)
_FEED_DAY: Final = 15
_FEED_TIMES: Final = 2
"""Parts of a yearly feed where nobody said how many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastInputs:
    """All that a run and its control need.

    ``start`` is day 0 of the run, in the week before the day of the reading and whole weeks
    before ``today``; ``days`` runs to the end;
    ``sample_depth_cm`` is an edge of the layers. ``events`` hold the plan, ``control_events``
    the same bed without it, and ``past`` these one by one, the last ``fed_ahead`` of them the feed
    from today on; ``sulfur_before`` is true where some
    went on earlier. ``retest_sd`` is the error of one further reading [pH]. ``own_materials`` are
    products of the case known by their label, by key. ``water_anions_mmolc_l`` is what the watering
    adds to the anions of draining water.
    """

    soil: ColumnSoil
    weather: ColumnWeather
    events: ColumnEvents
    control_events: ColumnEvents
    members: Members
    start: date
    today: date
    days: int
    sample_depth_cm: float
    retest_sd: float
    past: tuple[ColumnEvent, ...]
    fed_ahead: int
    sulfur_before: bool
    own_materials: Mapping[str, Material]
    water_anions_mmolc_l: float


def forecast_inputs(
    context: BedContext,
    applications: Sequence[Application],
    *,
    years: int = 3,
    seed: int = 1,
    members: int = 400,
) -> ForecastInputs:
    """What the column runs on for this bed and this plan.

    Parameters
    ----------
    years
        How long from today, 1 to 50 [years].
    seed
        Seed of the members; plan and control share them [number].
    members
        How many beds to draw, 1 or more [count].

    Raises
    ------
    OutOfRangeError
        For a number of years outside 1 to 50.

    Notes
    -----
    The run starts on the day of the reading, because the soil has gone on since. What was put on
    before it enters as what is left of it, what was put on after it as it was; feed and watering
    go on every year. Parts dated after the end are left out. A depth within a centimetre of an
    edge is that edge.

    References
    ----------
    own-judgement
    """
    if not 1 <= years <= LONGEST_YEARS:
        raise OutOfRangeError(f"years = {years} must lie between 1 and {LONGEST_YEARS}")
    soil = require_soil(context)
    drawn = draw_members_of(context, applications, soil=soil, members=members, seed=seed)
    return inputs_from(
        context,
        applications,
        soil=soil,
        read=reading_day(context),
        members=drawn,
        days_ahead=round(years * DAYS_IN_YEAR),
    )


def draw_members_of(
    context: BedContext,
    applications: Sequence[Application],
    *,
    soil: Soil,
    members: int,
    seed: int,
) -> Members:
    """Members drawn for a bed and what goes on it.

    Parameters
    ----------
    soil
        The soil as it was read on the first day of the run.
    members
        How many, 1 or more [count].
    seed
        Seed of the draws [number].
    """
    case = context.case
    own = case.own_materials
    materials = [material_named(part.material, own=own) for part in applications]
    materials += [applied.material for applied in case.applied]
    return draw_soil_members(
        soil,
        members=members,
        rng=seed,
        land_use=context.land_use,
        in_pot=context.in_pot,
        water_known=case.water.alkalinity_mg_l_as_caco3 is not None
        or context.irrigation_mm_year == 0.0,
        humus=humus_history(context),
        is_fed=case.feed is not None,
        water_anions_mmolc_l=water_anions_mmolc_l(context),
        air_spread=air_acid(context.place, year=case.today.year).spread,
        years_back=(case.today - reading_day(context)).days / DAYS_IN_YEAR,
        **rotting_rows(materials),
    )


def inputs_from(
    context: BedContext,
    applications: Sequence[Application],
    *,
    soil: Soil,
    read: date,
    members: Members,
    days_ahead: int,
) -> ForecastInputs:
    """What the column runs on, from the day of a reading until so many days from today.

    Parameters
    ----------
    days_ahead
        Days from today, 1 or more [d].
    """
    case = context.case
    start = case.today - timedelta(days=-(-(case.today - read).days // 7) * 7)
    days = (case.today - start).days + days_ahead
    end = start + timedelta(days=days)
    own = case.own_materials
    plan = [
        (part, material_named(part.material, own=own)) for part in applications if part.date < end
    ]
    worked = [part.incorporate_cm for part, _ in plan]
    worked += [applied.incorporated_cm for applied in case.applied]
    sample = case.soil.sample_depth_cm or context.depth_cm
    below = layers_below(context)
    depths = [depth for layer in below for depth in (layer.top_cm, layer.bottom_cm)]
    edges = layer_edges_cm(
        treated_cm=context.depth_cm,
        others_cm=(sample, *worked, *depths),
        bottom_cm=context.depth_cm if context.in_pot else None,
    )
    sample = float(edges[1:][np.argmin(np.abs(edges[1:] - sample))])
    applied = past_events(context, soil=soil, read=read, start=start, days=days, edges_cm=edges)
    since = (case.today - start).days
    fed = _feed_events(context, start=start, days=days, edges_cm=edges, after=since)
    past = [*applied, *fed]
    before = sulfur_before(case.applied, on=case.today)
    return ForecastInputs(
        soil=soil_layers(soil, edges_cm=edges, organic_only=context.organic_only, below=below),
        weather=_weather(context, soil, edges_cm=edges, start=start, days=days),
        events=column_events(
            [
                *past,
                *_within(plan_events(plan, start=start, edges_cm=edges, before=before), days),
            ],
            n_layers=edges.size - 1,
        ),
        control_events=column_events(past, n_layers=edges.size - 1),
        members=members,
        start=start,
        today=case.today,
        days=days,
        sample_depth_cm=sample,
        retest_sd=soil.ph.ph_water_sd
        if not soil.ph.method.is_rough
        else verdict_values()["reading_scatter_sd"],
        past=tuple(past),
        fed_ahead=len(fed),
        sulfur_before=before,
        own_materials=own,
        water_anions_mmolc_l=water_anions_mmolc_l(context),
    )


def events_under(inputs: ForecastInputs, applications: Sequence[Application]) -> ColumnEvents:
    """The events of the same bed under another plan.

    Parameters
    ----------
    applications
        Dated parts of the other plan; those after the end are left out.
    """
    end = inputs.start + timedelta(days=inputs.days)
    plan = [
        (part, material_named(part.material, own=inputs.own_materials))
        for part in applications
        if part.date < end
    ]
    edges = inputs.soil.edges_cm
    return column_events(
        [
            *inputs.past,
            *_within(
                plan_events(plan, start=inputs.start, edges_cm=edges, before=inputs.sulfur_before),
                inputs.days,
            ),
        ],
        n_layers=edges.size - 1,
    )


def inputs_without_feed(inputs: ForecastInputs) -> ForecastInputs:
    """The same bed, left alone and given none of its fertiliser from today on."""
    past = inputs.past[: len(inputs.past) - inputs.fed_ahead]
    alone = column_events(past, n_layers=inputs.soil.edges_cm.size - 1)
    return replace(inputs, past=past, fed_ahead=0, events=alone, control_events=alone)


def reading_day(context: BedContext) -> date:
    """Day the soil had the pH that was read, from which the run goes on.

    Returns
    -------
    date
        Day of the reading, today where nobody said, never long before today.
    """
    case = context.case
    season = current_season(case)
    sampled = season.day if season is not None else case.today
    return max(min(sampled, case.today), case.today - timedelta(days=_OLDEST_START_D))


def _weather(
    context: BedContext, soil: Soil, *, edges_cm: FloatArray, start: date, days: int
) -> ColumnWeather:
    case = context.case
    months = case.water.months
    monthly = context.irrigation_mm_year / len(months) if months else 0.0
    alkalinity = (
        context.water_base_mmolc_m2_year / context.irrigation_mm_year
        if context.irrigation_mm_year > 0.0
        else 0.0
    )
    return column_weather(
        soil,
        place=context.place,
        edges_cm=edges_cm,
        start=start,
        days=days,
        available_water_mm=context.available_water_mm,
        watering_mm=tuple(monthly if month in months else 0.0 for month in range(1, 13)),
        alkalinity_mmolc_l=alkalinity,
        container=context.in_pot,
        bare=is_bare(case),
        land_use=context.land_use,
        correction=None if context.thermometer is None else context.thermometer.wave,
        bucket=context.loops.bucket,
    )


def past_events(
    context: BedContext, *, soil: Soil, read: date, start: date, days: int, edges_cm: FloatArray
) -> list[ColumnEvent]:
    """Earlier applications, and the feed until today: they act with or without a plan."""
    case = context.case
    found: list[ColumnEvent] = []
    for applied in case.applied:
        part = PutOn(
            material=applied.material,
            rate_g_m2=applied.rate_g_m2,
            day=max(0, (applied.on - start).days),
            depth_cm=min(applied.incorporated_cm, float(edges_cm[-1])),
            sulfur_before=sulfur_before(case.applied, on=applied.on),
        )
        if applied.on < read:
            found += events_of_rest(
                part,
                applied=applied.on,
                read=read,
                soil_temp_c=context.soil_temp_c,
                ph_water=soil.ph.ph_water,
                in_pot=context.in_pot,
                land_use=context.nitrogen_use,
                edges_cm=edges_cm,
            )
        else:
            found += events_of(part, edges_cm=edges_cm)
    until = (case.today - start).days
    found += _feed_events(context, start=start, days=days, edges_cm=edges_cm, before=until)
    return _within(found, days)


def _feed_events(
    context: BedContext,
    *,
    start: date,
    days: int,
    edges_cm: FloatArray,
    after: int = 0,
    before: int | None = None,
) -> list[ColumnEvent]:
    """The yearly feed from one day of the run until before another."""
    found: list[ColumnEvent] = []
    for day, material, rate in feed_parts(context, start=start, days=days):
        if after <= day < (days if before is None else before):
            part = PutOn(material=material, rate_g_m2=rate, day=day, depth_cm=0.0)
            found += events_of(part, edges_cm=edges_cm)
    return _within(found, days)


def _within(events: Sequence[ColumnEvent], days: int) -> list[ColumnEvent]:
    """The events that happen before the end: the last of a mulch may not."""
    return [event for event in events if event.day < days]


def feed_parts(
    context: BedContext, *, start: date, days: int
) -> tuple[tuple[int, Material, float], ...]:
    """The yearly feed as dated parts: day of the run, material, rate.

    Parameters
    ----------
    days
        Length of the run [d].

    Returns
    -------
    tuple
        Day [d], material and rate [g/m2] of each part; empty without a feed.
    """
    feed = context.case.feed
    told = None if feed is None else yearly_feed(feed)
    if told is None:
        return ()
    material, rate, times = told
    south = context.place is not None and context.place.latitude < 0.0
    on = feed_days(times, south=south, start=start, days=days)
    return tuple((day, material, rate) for day in on)


def yearly_feed(feed: Feed) -> tuple[Material, float, int] | None:
    """Material, rate of one part [g/m2] and parts a year of a feed; None where it says too little.

    Parameters
    ----------
    feed
        As the case tells it.
    """
    if feed.material is not None and feed.rate_g_m2 is not None:
        return feed.material, feed.rate_g_m2, max(1, feed.times)
    if feed.n_g_m2_year and feed.form in _FEED_MATERIAL:
        material = find_material(_FEED_MATERIAL[feed.form])
        times = feed.times if feed.times > 1 else _FEED_TIMES
        return material, feed.n_g_m2_year / material.n_frac / times, times
    return None


def feed_days(times: int, *, south: bool, start: date, days: int) -> tuple[int, ...]:
    """Days of the run on which the parts of a yearly feed are given, the earliest first.

    Parameters
    ----------
    times
        Parts in a year [count].
    south
        True south of the equator.
    days
        Length of the run [d].
    """
    order = _FEED_MONTHS_SOUTH if south else _FEED_MONTHS_NORTH
    months = [order[index % len(order)] for index in range(times)]
    years = range(start.year, (start + timedelta(days=days)).year + 1)
    found = [(date(year, month, _FEED_DAY) - start).days for year in years for month in months]
    return tuple(sorted(day for day in found if 0 <= day < days))


def sulfur_before(applied: Sequence[Applied], *, on: date) -> bool:
    """Whether sulfur lay in the ground lately enough for its oxidisers to be there still.

    Returns
    -------
    bool
        True where some was given before that day, no longer ago than they last.
    """
    lasts_d = round(sulfur_parameters().oxidisers_last_years * DAYS_IN_YEAR)
    return any(
        one.material.elemental_s_frac > 0.0 and 0 < (on - one.on).days <= lasts_d for one in applied
    )


def plan_events(
    plan: Sequence[tuple[Application, Material]],
    *,
    start: date,
    edges_cm: FloatArray,
    before: bool,
) -> list[ColumnEvent]:
    """Events of the plan; sulfur finds its oxidisers grown where some was given before."""
    found: list[ColumnEvent] = []
    for application, material in sorted(plan, key=lambda pair: pair[0].date):
        part = PutOn(
            material=material,
            rate_g_m2=application.rate_g_m2,
            day=max(0, (application.date - start).days),
            depth_cm=min(application.incorporate_cm, float(edges_cm[-1])),
        )
        sulfur = material.elemental_s_frac > 0.0
        found += events_of(replace(part, sulfur_before=before and sulfur), edges_cm=edges_cm)
        before = before or sulfur
    return found


def rotting_rows(materials: Sequence[Material]) -> dict[str, str]:
    """Rows of the decay clocks that suit what is put on: meals rot faster than composts."""
    meal = parameter_values("advice")["meal_n_frac"]
    rots = [m for m in materials if m.n_organic_frac > 0.0 or m.ash_alkalinity_molc_kg > 0.0]
    acids = [m for m in materials if m.organic_acid_molc_kg != 0.0]
    is_meal = bool(rots) and all(m.n_organic_frac >= meal for m in rots)
    is_litter = bool(acids) and all(m.group is not MaterialGroup.ACID for m in acids)
    return {
        "rotting": "meal_half_time_d" if is_meal else "decay_half_time_d",
        "organic_acid": "litter_acid_half_time_d" if is_litter else "organic_acid_half_time_d",
    }
