"""The clock of elemental sulfur: how much of a dose has turned to acid by when.

Loose grains, and prills that break up into grains or stay whole.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.sulfur import (
    CM_PER_UM,
    SizeTriple,
    left_frac,
    mean_diameter_um,
    surface_cm2_g,
    surface_loss,
)
from loamshift.core.sulfur_rate import SulfurParameters, crowding_factor, moisture_factor
from loamshift.errors import OutOfRangeError

DAYS_IN_YEAR = 365.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Prills:
    """Prills or pastilles as put on.

    ``diameter_um`` while whole [um]; ``break_up_per_year`` share of what is whole that breaks up
    [1/year]; ``on_surface`` where they lie on top, and stop breaking up in drought.
    """

    diameter_um: float
    break_up_per_year: float
    on_surface: bool = False


def oxidised_course(
    soil_temp_daily_c: ArrayLike,
    *,
    sizes: Sequence[SizeTriple],
    params: SulfurParameters,
    wetness: ArrayLike = 1.0,
    ph_water: float | None = None,
    prills: Prills | None = None,
    sulfur_g_kg: float | None = None,
    k_scale: float = 1.0,
    sulfur_before: bool = False,
) -> NDArray[np.float64]:
    """Share of an application of sulfur that has turned to acid by the end of each day.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day from the day of application on, one axis [degC].
    sizes
        Size classes of the grains as (lower, upper, share of mass); of prills, those of what has
        broken up [um, um, 0-1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].
    wetness
        Soil water over field capacity, one number or one per day [1].
    ph_water
        pH in water of the soil where it is known to be acid, None for no effect [pH].
    prills
        The prills or pastilles, None for loose grains [object].
    sulfur_g_kg
        Sulfur per kg of the soil it lies in, above 0; None for the reference surface [g/kg].
    k_scale
        Factor on the rate, above 0 [1].
    sulfur_before
        True where sulfur was given in the last three years [truth].

    Returns
    -------
    ndarray
        Share oxidised, 0 to 1, never falling, one per day [1].

    Raises
    ------
    OutOfRangeError
        As :func:`surface_loss` and :func:`left_frac`.

    Notes
    -----
    A whole prill shrinks as a sphere and breaks up by first order, on the surface as fast as the
    moisture law lets sulfur react. What has broken up joins the size classes, where grains of all
    ages lie together; a grain's share left, (1 - x)^3 in diameters lost x, is taken as
    (1 + 3 x) exp(-6 x), which starts as fast and lasts as long on average (a quarter) and can be
    followed with two pools a class. The grains crowd each other as if all were out, for they lie in
    clumps.

    References
    ----------
    watkinson-blair-1993, degryse-2016, boswell-1988

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> course = oxidised_course([25.0] * 60, sizes=[(10.0, 75.0, 1.0)], params=p)
    >>> course[[9, 29, 59]].round(2).tolist()
    [0.11, 0.46, 0.79]
    """

    if prills is None:
        loss = surface_loss(
            soil_temp_daily_c,
            params=params,
            wetness=wetness,
            ph_water=ph_water,
            k_scale=k_scale * _crowded(sizes, sulfur_g_kg, params),
            sulfur_before=sulfur_before,
        )
        return 1.0 - left_frac(loss, sizes=sizes, params=params)
    whole, broken = prills_left(
        soil_temp_daily_c,
        sizes=sizes,
        params=params,
        prills=prills,
        wetness=wetness,
        ph_water=ph_water,
        sulfur_g_kg=sulfur_g_kg,
        k_scale=k_scale,
        sulfur_before=sulfur_before,
    )
    return np.asarray(np.clip(1.0 - whole - broken.sum(axis=1), 0.0, 1.0), dtype=np.float64)


def prills_left(
    soil_temp_daily_c: ArrayLike,
    *,
    sizes: Sequence[SizeTriple],
    params: SulfurParameters,
    prills: Prills,
    wetness: ArrayLike = 1.0,
    ph_water: float | None = None,
    sulfur_g_kg: float | None = None,
    k_scale: float = 1.0,
    sulfur_before: bool = False,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Share of an application of prills still whole, and broken up but not yet oxidised.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day from the day of application on, one axis [degC].
    sizes
        Size classes of what has broken up as (lower, upper, share of mass) [um, um, 0-1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].
    prills
        The prills or pastilles [object].
    wetness
        Soil water over field capacity, one number or one per day [1].
    ph_water
        pH in water of the soil where it is known to be acid, None for no effect [pH].
    sulfur_g_kg
        Sulfur per kg of the soil it lies in, above 0; None for the reference surface [g/kg].
    k_scale
        Factor on the rate, above 0 [1].
    sulfur_before
        True where sulfur was given in the last three years [truth].

    Returns
    -------
    tuple of ndarray
        Whole at the end of each day, one per day; broken up, a row per day and a column per size
        class [1].

    Raises
    ------
    OutOfRangeError
        As :func:`surface_loss` and :func:`left_frac`.

    Notes
    -----
    As :func:`oxidised_course`.

    References
    ----------
    watkinson-blair-1993, boswell-1988

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> soft = Prills(diameter_um=3000.0, break_up_per_year=3.0)
    >>> whole, broken = prills_left([20.0] * 90, sizes=[(20.0, 75.0, 1.0)], params=p, prills=soft)
    >>> round(float(whole[-1]), 2), broken.shape
    (0.47, (90, 1))
    """

    def lost(of_sizes: Sequence[SizeTriple]) -> NDArray[np.float64]:
        return surface_loss(
            soil_temp_daily_c,
            params=params,
            wetness=wetness,
            ph_water=ph_water,
            k_scale=k_scale * _crowded(of_sizes, sulfur_g_kg, params),
            sulfur_before=sulfur_before,
        )

    ball = [(prills.diameter_um, prills.diameter_um, 1.0)]
    shrunk = left_frac(lost(ball), sizes=ball, params=params)
    wet = moisture_factor(wetness, params) if prills.on_surface else np.ones(1)
    speed = prills.break_up_per_year / DAYS_IN_YEAR * np.broadcast_to(wet, shrunk.shape)
    unbroken = np.exp(-np.cumsum(speed))
    broken_up = -np.diff(unbroken, prepend=1.0) * shrunk
    worn_um = np.diff(lost(sizes), prepend=0.0) * 2.0 / params.density_ug_cm3 / CM_PER_UM
    per_um = np.array([1.0 / mean_diameter_um(low_um=low, high_um=high) for low, high, _ in sizes])
    shares = np.array([mass for _, _, mass in sizes])
    worn = worn_um[:, None] * per_um
    kept = np.exp(-6.0 * worn)
    broken = np.empty_like(kept)
    joining = broken_up.tolist()
    for size, share in enumerate(shares.tolist()):  # numbers are a tenth of short arrays' work
        young, old, lying = 0.0, 0.0, []
        for keeps, wears, joins in zip(
            kept[:, size].tolist(), worn[:, size].tolist(), joining, strict=True
        ):
            old = keeps * (old + 3.0 * wears * young)
            young = keeps * young + share * joins
            lying.append(young + old)
        broken[:, size] = lying
    return np.asarray(unbroken * shrunk, dtype=np.float64), broken


def days_until_frac(course: ArrayLike, frac: float) -> float:
    """Days from the application until a share has been oxidised.

    Parameters
    ----------
    course
        Share at the end of each day, never falling, from :func:`oxidised_course` [1].
    frac
        Share asked for, above 0 to 1 [1].

    Returns
    -------
    float
        Days, with a fraction by straight interpolation within the day; infinity where the course
        ends before the share is reached [d].

    Raises
    ------
    OutOfRangeError
        For a share outside 0 to 1, an empty course, or one that falls.

    Notes
    -----
    Day 0 stands at a share of 0; between the ends of two days the share is taken as a straight
    line.

    Examples
    --------
    >>> days_until_frac([0.1, 0.3, 0.7], 0.5)
    2.5
    >>> days_until_frac([0.1, 0.3], 0.5)
    inf
    """
    values = np.asarray(course, dtype=np.float64)
    if not 0.0 < frac <= 1.0:
        raise OutOfRangeError(f"frac {frac:g} must lie above 0 and up to 1; divide per cent by 100")
    if values.ndim != 1 or values.size == 0 or not np.all(np.diff(values, prepend=0.0) >= -1.0e-9):
        raise OutOfRangeError("course must be one row of shares that never falls")
    if values[-1] < frac:
        return math.inf
    after = int(np.argmax(values >= frac))
    before = float(values[after - 1]) if after > 0 else 0.0
    step = float(values[after]) - before
    return after + ((frac - before) / step if step > 0.0 else 1.0)


def _crowded(
    sizes: Sequence[SizeTriple], sulfur_g_kg: float | None, params: SulfurParameters
) -> float:
    """Factor on the rate for the sulfur surface in the soil; 1 at the reference."""
    if sulfur_g_kg is None:
        return 1.0
    return crowding_factor(sulfur_g_kg * surface_cm2_g(sizes, params=params), params)
