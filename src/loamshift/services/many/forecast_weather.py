"""The days that many beds run through: warmth once a place, water once a soil."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import DAYS_IN_MONTH, DAYS_IN_YEAR, SoilWave, soil_temperature_c
from loamshift.core.column_numbers import AIR_ACID, DRAINAGE, WATER_BASE, WETNESS
from loamshift.core.column_pack import warmth_array
from loamshift.core.evaporation import bare_surface, green_surface, thornthwaite_mm
from loamshift.core.rain_days import rain_days_mm, usual_wet_days
from loamshift.core.water_years import water_days
from loamshift.domain.place import Place
from loamshift.services.belief.column_runs import shared_laws
from loamshift.services.belief.column_weather import (
    DRAINAGE_WITHOUT_PLACE_MM,
    days_of_year,
    leaching_factors,
    soaking_days,
)
from loamshift.services.context.air import air_beyond_load_daily
from loamshift.services.context.water import rain_dice
from loamshift.services.many.forecast_beds import ManyBeds
from loamshift.tables.model import climate_parameters
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
_KEPT: Final = 128


@lru_cache(maxsize=_KEPT)
def warmth_of(
    place: Place | None,
    wave: SoilWave | None,
    in_pot: bool,
    edges_cm: tuple[float, ...],
    start: int,
    days: int,
) -> FloatArray:
    """The warmth of each day in each layer, for the kernel.

    Parameters
    ----------
    wave
        What the bed's own soil thermometer adds to the wave of the air [degC].
    edges_cm
        From 0 down [cm].
    start
        First day, as an ordinal of the calendar [d].
    days
        How many [d].

    Returns
    -------
    ndarray
        Shape (days, layers, 7), see ``column_pack.warmth_array`` [mixed].
    """
    edges = np.array(edges_cm)
    middles = 0.5 * (edges[:-1] + edges[1:])
    if place is None:
        assumed = parameter_values("advice")["assumed_soil_temp_c"]
        temp_year = np.full((DAYS_IN_YEAR, middles.size), assumed)
    else:
        temp_year = np.column_stack(
            [
                soil_temperature_c(
                    place.air_temp_c,
                    depth_cm=float(depth),
                    params=climate_parameters(),
                    container=in_pot,
                    correction=wave,
                )
                for depth in middles
            ]
        )
    made = warmth_array(temp_year[days_of_year(date.fromordinal(start), days)], shared_laws())
    made.setflags(write=False)
    return made


def water_of(
    beds: ManyBeds, which: IntArray, *, start: IntArray, days: int, n_layers: int
) -> tuple[FloatArray, FloatArray]:
    """The water of each day of some of the beds, for the kernel, and their leaching factors.

    Parameters
    ----------
    which
        Which beds, shape (n,) [index].
    start
        First day of each, as an ordinal of the calendar, shape (n,) [d].
    days
        Days of the run [d].
    n_layers
        Layers of each [count].

    Returns
    -------
    tuple of ndarray
        Shape (n, days, 3 + layers), see ``column_pack.water_array``, and shape (n,) [mixed, 1].

    Notes
    -----
    The years of rain are worked out once for a place, and soils of one place side by side.
    """
    column = parameter_values("column")
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    watering = watering_mm(beds, which)
    drained, wetness = mean_year(beds, which, watering=watering)
    soaking = soaking_days(drained, spacing_d=round(column["rain_day_spacing_d"]))
    given = np.repeat(watering / month_days, DAYS_IN_MONTH, axis=1)
    irrigated = beds.irrigation_mm_year[which]
    alkalinity = np.divide(
        beds.water_base_mmolc_m2_year[which],
        irrigated,
        out=np.zeros(which.size),
        where=irrigated > 0.0,
    )
    water = np.empty((which.size, days, WETNESS + n_layers))
    for first in np.unique(start):
        rows = np.nonzero(start == first)[0]
        order = days_of_year(date.fromordinal(int(first)), days)
        water[rows, :, DRAINAGE] = soaking[rows][:, order]
        water[rows, :, WATER_BASE] = given[rows][:, order] * alkalinity[rows, None]
        water[rows, :, WETNESS:] = wetness[rows][:, order][:, :, None]
    for kind_index in np.unique(beds.kind_of[which]):
        kind = beds.kinds[kind_index]
        of_kind = beds.kind_of[which] == kind_index
        for first in np.unique(start[of_kind]):
            rows = np.nonzero(of_kind & (start == first))[0]
            air = _air(kind.place, kind.land_use, int(first), days)
            water[rows, :, AIR_ACID] = 0.0 if kind.in_pot else air
    return water, leaching_factors(drained.sum(axis=1))


def watering_mm(beds: ManyBeds, which: IntArray) -> FloatArray:
    """Watering of each month of some of the beds.

    Parameters
    ----------
    which
        Which beds, shape (n,) [index].

    Returns
    -------
    ndarray
        Shape (n, 12) [mm/month].
    """
    months = np.zeros((len(beds.kinds), 12))
    for row, kind in zip(months, beds.kinds, strict=True):
        row[[month - 1 for month in kind.months]] = 1.0
    mine = months[beds.kind_of[which]]
    count = np.maximum(1.0, mine.sum(axis=1))
    return np.asarray(mine * (beds.irrigation_mm_year[which] / count)[:, None], dtype=np.float64)


def mean_year(
    beds: ManyBeds, which: IntArray, *, watering: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Drainage and wetness of each day of the mean year of some of the beds.

    Parameters
    ----------
    which
        Which beds, shape (n,) [index].
    watering
        Of each month, shape (n, 12) [mm/month].

    Returns
    -------
    tuple of ndarray
        Each of shape (n, 365) [mm/d, share of field capacity].
    """
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    drained = np.tile(
        np.repeat(DRAINAGE_WITHOUT_PLACE_MM / 12.0 / month_days, DAYS_IN_MONTH), (which.size, 1)
    )
    wetness = np.full(drained.shape, parameter_values("advice")["assumed_wetness"])
    available = beds.available_water_mm[which]
    capacity, wilting = beds.field_capacity_frac[which], beds.wilting_frac[which]
    places = {(kind.place, kind.is_bare) for kind in beds.kinds if kind.place is not None}
    for place, bare in sorted(places, key=lambda one: (one[0].name, one[0].latitude, one[1])):
        fits = [kind.place == place and kind.is_bare == bare for kind in beds.kinds]
        rows = np.nonzero(np.array(fits)[beds.kind_of[which]])[0]
        if not rows.size:
            continue
        surfaces = _surfaces(available[rows], capacity[rows], wilting[rows], bare=bare)
        keys = np.column_stack((surfaces, watering[rows]))
        soils, back = np.unique(keys, axis=0, return_inverse=True)
        made, potential, frozen = _rain_of(place)
        out, held = water_days(
            made,
            potential,
            frozen,
            watering_mm=np.ascontiguousarray(soils[:, 2:]),
            evaporable_mm=np.ascontiguousarray(soils[:, 0]),
            eased_below_mm=np.ascontiguousarray(soils[:, 1]),
        )
        drained[rows] = out[back]
        store = (available[rows] - surfaces[:, 0])[:, None] + held[back]
        share = store / available[rows, None]
        span = (capacity[rows] - wilting[rows])[:, None]
        wetness[rows] = (wilting[rows, None] + span * share) / capacity[rows, None]
    return drained, wetness


def _surfaces(
    available_mm: FloatArray, capacity: FloatArray, wilting: FloatArray, *, bare: bool
) -> FloatArray:
    """Evaporable water, and the store below which it comes slower, shape (n, 2) [mm]."""
    climate = climate_parameters()
    if bare:
        made = [
            bare_surface(
                available_water_mm=float(mm),
                field_capacity_frac=float(high),
                wilting_frac=float(low),
                params=climate,
            )
            for mm, high, low in zip(available_mm, capacity, wilting, strict=True)
        ]
    else:
        made = [green_surface(available_water_mm=float(mm), params=climate) for mm in available_mm]
    return np.array([(one.evaporable_mm, one.eased_below_mm) for one in made])


@lru_cache(maxsize=_KEPT)
def _rain_of(place: Place) -> tuple[FloatArray, FloatArray, NDArray[np.bool_]]:
    """Generated years of rain, potential evaporation of each day, and months of frost."""
    climate = climate_parameters()
    wet = place.wet_days
    days = usual_wet_days(place.rain_mm, params=climate) if wet is None else np.asarray(wet)
    made = rain_days_mm(
        place.rain_mm, wet_days=tuple(days.tolist()), params=climate, dice=rain_dice()
    )
    potential = thornthwaite_mm(place.air_temp_c, latitude=place.latitude, params=climate)
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    frozen = np.asarray(place.air_temp_c) <= climate.snow_below_c
    return made, np.repeat(potential / month_days, DAYS_IN_MONTH), frozen


@lru_cache(maxsize=_KEPT)
def _air(place: Place | None, land_use: str, start: int, days: int) -> FloatArray:
    return air_beyond_load_daily(place, land_use=land_use, start=date.fromordinal(start), days=days)
