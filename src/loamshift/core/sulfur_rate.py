"""How fast elemental sulfur reacts: the factors of warmth, water and soil pH on its rate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.equilibrium import GAS_CONSTANT_KJ_MOL_K, KELVIN_AT_0_C
from loamshift.core.limits import require_soil_ph, soil_temperatures, soil_wetness
from loamshift.errors import OutOfRangeError


@dataclass(frozen=True, slots=True, kw_only=True)
class SulfurParameters:
    """Coefficients of the topic ``sulfur``, one field per row.

    ``rate_ug_cm2_d`` at 25 degC, field capacity and ``reference_surface_cm2_kg`` of sulfur, the
    same below ``lowest_surface_cm2_kg``;
    ``growth_per_d`` at 25 degC and field capacity; ``grown_*_frac`` strength of the oxidisers at
    the start, ``oxidisers_last_years`` after a dose; ``moisture_*`` as water over field
    capacity; ``break_up_z`` of prills and ``grown_z`` of the first oxidisers in standard
    deviations.
    """

    rate_ug_cm2_d: float
    crowding_exponent: float
    reference_surface_cm2_kg: float
    lowest_surface_cm2_kg: float
    growth_per_d: float
    grown_first_frac: float
    grown_again_frac: float
    oxidisers_last_years: float
    ramp_from_c: float
    ramp_width_c: float
    activation_energy_kj_mol: float
    flat_from_c: float
    flat_to_c: float
    highest_temp_c: float
    moisture_optimum: float
    moisture_width: float
    density_ug_cm3: float
    break_up_z: float
    grown_z: float
    acid_soil_factor: float
    acid_soil_ph: float
    normal_soil_ph: float


def temperature_factor(soil_temp_c: ArrayLike, params: SulfurParameters) -> NDArray[np.float64]:
    """Rate of sulfur oxidation against that at 25 degC.

    Parameters
    ----------
    soil_temp_c
        Soil temperature, any shape, -60 to 70 [degC].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    ndarray
        Factor, 1 at 25 degC, same shape [1].

    Raises
    ------
    OutOfRangeError
        For temperatures no soil has, or not a number.

    Notes
    -----
    Arrhenius with the activation energy times a ramp, 0 at 1.5 degC and 1 from 5.5 on; flat from
    35 to 40, straight down to 0 at 50. At 13, 10 and 5 degC it is 0.38, 0.30 and 0.17: cold soil
    is slow, not shut.

    References
    ----------
    watkinson-blair-1993, germida-janzen-1993, silva-volcanic-sulfur, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> temperature_factor([2.0, 10.0, 25.0], p).round(2).tolist()
    [0.02, 0.3, 1.0]
    """
    temp = soil_temperatures(soil_temp_c)
    inverse = 1.0 / (np.minimum(temp, params.flat_from_c) + KELVIN_AT_0_C)
    rate = np.exp(
        params.activation_energy_kj_mol
        / GAS_CONSTANT_KJ_MOL_K
        * (1.0 / (25.0 + KELVIN_AT_0_C) - inverse)
    )
    heat = (params.highest_temp_c - temp) / (params.highest_temp_c - params.flat_to_c)
    ramp = (temp - params.ramp_from_c) / params.ramp_width_c
    return np.asarray(rate * np.clip(ramp, 0.0, 1.0) * np.clip(heat, 0.0, 1.0), dtype=np.float64)


def moisture_factor(wetness: ArrayLike, params: SulfurParameters) -> NDArray[np.float64]:
    """Rate of sulfur oxidation against that at field capacity.

    Parameters
    ----------
    wetness
        Water in the soil over water at field capacity, 0 to 3, any shape [1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    ndarray
        Factor 0 to 1, same shape [1].

    Raises
    ------
    OutOfRangeError
        For a wetness outside 0 to 3, such as a percentage.

    Notes
    -----
    1 - ((w - 1)/0.8)2, never below 0: no reaction in dust-dry or waterlogged soil. The parabola
    is published, its width is common practice.

    References
    ----------
    watkinson-blair-1993, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> moisture_factor([0.2, 0.6, 1.0], p).round(2).tolist()
    [0.0, 0.75, 1.0]
    """
    wet = soil_wetness(wetness)
    gap = (wet - params.moisture_optimum) / params.moisture_width
    return np.maximum(0.0, 1.0 - gap * gap)


def ph_factor(ph_water: float, params: SulfurParameters) -> float:
    """Rate of sulfur oxidation in acid soil against that in ordinary soil.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    float
        0.6 at and below pH 4.5, 1 at and above 5.0, straight between [1].

    Raises
    ------
    OutOfRangeError
        For a pH outside 2 to 11.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> ph_factor(4.0, SulfurParameters(**parameter_values("sulfur")))
    0.6
    """
    require_soil_ph(ph_water)
    span = params.normal_soil_ph - params.acid_soil_ph
    share = min(1.0, max(0.0, (ph_water - params.acid_soil_ph) / span))
    return params.acid_soil_factor + (1.0 - params.acid_soil_factor) * share


def crowding_factor(surface_cm2_kg: float, params: SulfurParameters) -> float:
    """Rate of sulfur oxidation per surface against that at the reference surface.

    Parameters
    ----------
    surface_cm2_kg
        Sulfur surface per kg of soil at the start of the dose, above 0 [cm2/kg].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    float
        Factor, 1 at the reference surface [1].

    Raises
    ------
    OutOfRangeError
        For a surface of 0 or less.

    Notes
    -----
    (sigma/sigma0)^-b: the more sulfur surface a soil holds, the slower each part of it. Weak, and
    read from one pair of rows; no faster than at the sparsest of them.

    References
    ----------
    degryse-2016

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> [round(crowding_factor(surface, p), 2) for surface in (1.0, 3.0, 175.0, 350.0)]
    [2.45, 2.45, 1.0, 0.86]
    """
    if not surface_cm2_kg > 0.0:
        raise OutOfRangeError(
            f"surface_cm2_kg = {surface_cm2_kg:g} must be above 0; give the surface of the dose"
        )
    surface = max(surface_cm2_kg, params.lowest_surface_cm2_kg)
    share = surface / params.reference_surface_cm2_kg
    return float(share**-params.crowding_exponent)
