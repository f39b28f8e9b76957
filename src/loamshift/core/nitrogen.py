"""The clock of nitrogen: urea to ammonium to nitrate, day by day.

Only the last step makes acid; urea takes some up first. Acid per mole stands in the ledger.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.equilibrium import GAS_CONSTANT_KJ_MOL_K, KELVIN_AT_0_C
from loamshift.core.limits import require_soil_ph, soil_temperatures, soil_wetness
from loamshift.errors import OutOfRangeError


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenParameters:
    """Coefficients of the topic ``nitrogen``, one field per row.

    Rates are first order at 25 degC [1/d]; ``nitrification_ph_*`` with ``nitrification_factor_*``
    make the effect of soil pH; moisture as water over field capacity.
    """

    urea_rate_per_d: float
    urea_activation_energy_kj_mol: float
    nitrification_rate_per_d: float
    nitrification_q10: float
    nitrification_flat_from_c: float
    nitrification_flat_to_c: float
    nitrification_highest_c: float
    nitrification_lowest_c: float
    nitrification_ph_low: float
    nitrification_factor_low: float
    nitrification_ph_middle: float
    nitrification_factor_middle: float
    nitrification_ph_full: float
    moisture_full: float
    moisture_wet_width: float


class NitrogenCourse(NamedTuple):
    """Shares of the nitrogen given, at the end of each day; they add up to 1 [1]."""

    as_urea: NDArray[np.float64]
    as_ammonium: NDArray[np.float64]
    nitrified: NDArray[np.float64]


def urea_rate_per_d(
    soil_temp_c: ArrayLike, *, params: NitrogenParameters, wetness: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """First-order rate at which urea turns to ammonium.

    Parameters
    ----------
    soil_temp_c
        Soil temperature, any shape [degC].
    params
        Coefficients of the topic ``nitrogen`` [see the dataclass].
    wetness
        Soil water over field capacity, same shape or one number [1].

    Returns
    -------
    ndarray
        Rate [1/d].

    Raises
    ------
    OutOfRangeError
        For impossible temperatures or wetness.

    Notes
    -----
    Arrhenius; none in frozen soil; straight fall below 80 % of field capacity.

    References
    ----------
    yadav-1987, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = NitrogenParameters(**parameter_values("nitrogen"))
    >>> urea_rate_per_d([5.0, 25.0], params=p).round(2).tolist()
    [0.13, 0.4]
    """
    temp = soil_temperatures(soil_temp_c)
    rate = params.urea_rate_per_d * np.exp(
        params.urea_activation_energy_kj_mol
        / GAS_CONSTANT_KJ_MOL_K
        * (1.0 / (25.0 + KELVIN_AT_0_C) - 1.0 / (temp + KELVIN_AT_0_C))
    )
    dry = np.minimum(1.0, soil_wetness(wetness) / params.moisture_full)
    return np.where(temp <= params.nitrification_lowest_c, 0.0, rate * dry)


def nitrification_rate_per_d(
    soil_temp_c: ArrayLike,
    *,
    ph_water: float,
    params: NitrogenParameters,
    wetness: ArrayLike = 1.0,
) -> NDArray[np.float64]:
    """First-order rate at which ammonium turns to nitrate and acid.

    Parameters
    ----------
    soil_temp_c
        Soil temperature, any shape [degC].
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    params
        Coefficients of the topic ``nitrogen`` [see the dataclass].
    wetness
        Soil water over field capacity, same shape or one number [1].

    Returns
    -------
    ndarray
        Rate [1/d].

    Raises
    ------
    OutOfRangeError
        For impossible temperatures, wetness or pH.

    Notes
    -----
    Q10 from 25 degC, flat from 30 to 35, straight down to 0 at 50; half at pH 5, a fifth at 4.3
    and below; straight fall in dry soil, a parabola in soil wetter than field capacity.

    References
    ----------
    saad-conrad-1993, tropical-nitrification-1975, zebarth-2015, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = NitrogenParameters(**parameter_values("nitrogen"))
    >>> nitrification_rate_per_d([5.0, 25.0], ph_water=6.5, params=p).round(3).tolist()
    [0.021, 0.1]
    """
    temp = soil_temperatures(soil_temp_c)
    warmth = params.nitrification_q10 ** (
        (np.minimum(temp, params.nitrification_flat_from_c) - 25.0) / 10.0
    )
    heat = (params.nitrification_highest_c - temp) / (
        params.nitrification_highest_c - params.nitrification_flat_to_c
    )
    wet = soil_wetness(wetness)
    air = np.where(wet > 1.0, 1.0 - ((wet - 1.0) / params.moisture_wet_width) ** 2, 1.0)
    water = np.minimum(1.0, wet / params.moisture_full) * np.maximum(0.0, air)
    rate = params.nitrification_rate_per_d * warmth * np.clip(heat, 0.0, 1.0) * water
    rate = rate * nitrification_ph_factor(ph_water, params)
    return np.where(temp <= params.nitrification_lowest_c, 0.0, rate)


def nitrification_ph_factor(ph_water: float, params: NitrogenParameters) -> float:
    """Rate of nitrification against that above pH 6.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    params
        Coefficients of the topic ``nitrogen`` [see the dataclass].

    Returns
    -------
    float
        Factor between the low one and 1, straight between its three points [1].

    Raises
    ------
    OutOfRangeError
        For a pH outside 2 to 11.

    References
    ----------
    zebarth-2015, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> nitrification_ph_factor(5.0, NitrogenParameters(**parameter_values("nitrogen")))
    0.5
    """
    require_soil_ph(ph_water)
    return float(
        np.interp(
            ph_water,
            [
                params.nitrification_ph_low,
                params.nitrification_ph_middle,
                params.nitrification_ph_full,
            ],
            [params.nitrification_factor_low, params.nitrification_factor_middle, 1.0],
        )
    )


def nitrogen_course(
    soil_temp_daily_c: ArrayLike,
    *,
    urea_frac: float,
    ph_water: float,
    params: NitrogenParameters,
    wetness: ArrayLike = 1.0,
) -> NitrogenCourse:
    """Where the nitrogen of one application stands at the end of each day.

    Answers when the acid of a feed appears. Loss as ammonia, uptake as ammonium and the retained
    microbial share are left out.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day from the application on, one axis [degC].
    urea_frac
        Share given as urea; the rest is ammonium, 0 to 1 [1].
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    params
        Coefficients of the topic ``nitrogen`` [see the dataclass].
    wetness
        Soil water over field capacity, one number or one per day [1].

    Returns
    -------
    NitrogenCourse
        Shares as urea, as ammonium and nitrified, one per day [1].

    Raises
    ------
    OutOfRangeError
        For impossible temperatures, wetness, pH or share.

    Notes
    -----
    Two first-order steps in a row, solved exactly within each day with that day's rates.

    References
    ----------
    yadav-1987, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = NitrogenParameters(**parameter_values("nitrogen"))
    >>> course = nitrogen_course([20.0] * 30, urea_frac=1.0, ph_water=6.5, params=p)
    >>> round(float(course.as_urea[6]), 2), round(float(course.nitrified[-1]), 2)
    (0.12, 0.83)
    """
    if not 0.0 <= urea_frac <= 1.0:
        raise OutOfRangeError(f"urea_frac {urea_frac:g} must lie between 0 and 1; it is a share")
    fast = urea_rate_per_d(soil_temp_daily_c, params=params, wetness=wetness)
    slow = nitrification_rate_per_d(
        soil_temp_daily_c, ph_water=ph_water, params=params, wetness=wetness
    )
    if fast.ndim != 1:
        raise OutOfRangeError("soil_temp_daily_c must be one row of days")
    urea, ammonium = urea_frac, 1.0 - urea_frac
    as_urea, as_ammonium = np.empty_like(fast), np.empty_like(fast)
    for day, (k_urea, k_nitri) in enumerate(zip(fast.tolist(), slow.tolist(), strict=True)):
        urea_left, nitri_left = float(np.exp(-k_urea)), float(np.exp(-k_nitri))
        gap = k_nitri - k_urea
        if abs(gap) > 1.0e-9:
            made = urea * k_urea * (urea_left - nitri_left) / gap
        else:
            made = urea * k_urea * urea_left
        ammonium = ammonium * nitri_left + made
        urea *= urea_left
        as_urea[day], as_ammonium[day] = urea, ammonium
    return NitrogenCourse(as_urea, as_ammonium, 1.0 - as_urea - as_ammonium)
