"""The shape of the buffer curve: the terms of base content against pH, and their slopes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import OutOfRangeError

FloatArray = NDArray[np.float64]
"""An array of numbers."""

LN10: Final = float(np.log(10.0))
LOWEST_PH: Final = 1.0
HIGHEST_PH: Final = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BufferParameters:
    """Coefficients of the curve and of what is believed of its scale; rows of topic ``buffer``.

    Slopes are means over the window ``slope_window_low_ph``..``slope_window_high_ph``
    [mmolc/kg/pH], the first two per % of organic carbon or clay. Sites: density [mol/kg],
    midpoint [pH], spread [-]. ``exchange_*`` [mmolc/kg per %]; ``al_midpoint_ph`` [pH];
    ``al_steepness`` [1/pH]; ``solution_l_kg`` [L/kg]; ``*_log10_k`` [-]; ``curve_pco2_atm``
    [atm]; every ``log10_k_*`` of the scale [log10]; ``step_ph_sd`` [pH];
    ``lime_step_recovery_frac`` [0-1].
    """

    organic_slope_mmolc_kg_ph_per_pct: float
    clay_slope_mmolc_kg_ph_per_pct: float
    mineral_intercept_mmolc_kg_ph: float
    slope_window_low_ph: float
    slope_window_high_ph: float
    organic_site1_molc_kg: float
    organic_site1_pk: float
    organic_site1_spread: float
    organic_site2_molc_kg: float
    organic_site2_pk: float
    organic_site2_spread: float
    mineral_site_pk: float
    mineral_site_spread: float
    exchange_clay_mmolc_kg_per_pct: float
    exchange_organic_mmolc_kg_per_pct: float
    al_midpoint_ph: float
    al_steepness: float
    solution_l_kg: float
    al_solubility_log10_k: float
    bicarbonate_log10_k: float
    curve_pco2_atm: float
    log10_k_sd_buffer_ph: float
    log10_k_sd_own_records: float
    log10_k_sd_volcanic: float
    log10_k_shift_volcanic: float
    log10_k_floor_sd: float
    log10_k_sd_per_ph_outside: float
    step_ph_sd: float
    lime_step_recovery_frac: float


def _site(ph: Any, *, midpoint: float, spread: float) -> Any:
    """Share of a site class that has given off its proton [0-1]."""
    return 1.0 / (1.0 + 10.0 ** (spread * (midpoint - ph)))


def _organic(ph: Any, p: BufferParameters) -> Any:
    acid = _site(ph, midpoint=p.organic_site1_pk, spread=p.organic_site1_spread)
    weak = _site(ph, midpoint=p.organic_site2_pk, spread=p.organic_site2_spread)
    return p.organic_site1_molc_kg * acid + p.organic_site2_molc_kg * weak


def _mineral(ph: Any, p: BufferParameters) -> Any:
    return _site(ph, midpoint=p.mineral_site_pk, spread=p.mineral_site_spread)


@lru_cache(maxsize=8)
def _window_slopes(p: BufferParameters) -> tuple[float, float]:
    """Mean slopes over the window: organic sites [mol/kg/pH], mineral sites [1/pH]."""
    low, high = p.slope_window_low_ph, p.slope_window_high_ph
    width = high - low
    organic = float(_organic(high, p) - _organic(low, p)) / width
    mineral = float(_mineral(high, p) - _mineral(low, p)) / width
    return organic, mineral


def soil_arrays(
    *, ph: Any, clay_pct: Any, organic_carbon_pct: Any, k: Any
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """The four inputs as arrays, checked against what a soil can be.

    Parameters
    ----------
    ph
        pH in water, 1 to 12 [pH].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    k
        Scale of the curve, above 0 [-].

    Returns
    -------
    tuple of ndarray
        The same four as arrays [units as given].

    Raises
    ------
    OutOfRangeError
        Where a value is not finite or outside these limits.

    Notes
    -----
    Limits of what a soil can be, not of where the curve was tested (pH 4 to 8).

    References
    ----------
    own-judgement

    Examples
    --------
    >>> soil_arrays(ph=6.0, clay_pct=18.0, organic_carbon_pct=1.5, k=1.0)[0]
    array(6.)
    """
    arrays = []
    for name, value, low, high in (
        ("ph_water", ph, LOWEST_PH, HIGHEST_PH),
        ("clay_pct", clay_pct, 0.0, 100.0),
        ("organic_carbon_pct", organic_carbon_pct, 0.0, 60.0),
        ("k", k, 1e-6, 1e6),
    ):
        array = np.asarray(value, dtype=np.float64)
        inside = (array >= low) & (array <= high)
        if not inside.all():
            worst = float(array[~inside].flat[0])
            raise OutOfRangeError(
                f"{name} = {worst:g} lies outside {low:g} to {high:g}; "
                "check the unit and the reading before asking the buffer curve"
            )
        arrays.append(array)
    return arrays[0], arrays[1], arrays[2], arrays[3]


def shape_mmolc_kg(
    ph: FloatArray,
    *,
    clay_pct: FloatArray,
    organic_carbon_pct: FloatArray,
    params: BufferParameters,
    organic_only: bool,
) -> FloatArray:
    """The part of the base content that k scales: organic, mineral and exchange terms.

    Parameters
    ----------
    ph
        pH in water [pH].
    clay_pct
        Clay [%].
    organic_carbon_pct
        Organic carbon [%].
    params
        Coefficients [see class].
    organic_only
        True for peat and bark: the organic term alone [true or false].

    Returns
    -------
    ndarray
        Base content at k = 1, solution left out [mmolc/kg].

    Notes
    -----
    Each of the three terms is scaled so that its mean slope over the window is the coefficient
    of the table; the exchange term is what aluminium gives up as the pH rises.

    References
    ----------
    aitken-1990, curtin-rostad-1997, milne-2001, glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> soil = {"clay_pct": np.array(18.0), "organic_carbon_pct": np.array(1.5), "params": p}
    >>> low, high = shape_mmolc_kg(np.array([5.0, 7.0]), organic_only=False, **soil)
    >>> round(float(high - low))
    47
    """
    organic, rest = shape_parts_mmolc_kg(
        ph,
        clay_pct=clay_pct,
        organic_carbon_pct=organic_carbon_pct,
        params=params,
        organic_only=organic_only,
    )
    return organic + rest


def shape_parts_mmolc_kg(
    ph: FloatArray,
    *,
    clay_pct: FloatArray,
    organic_carbon_pct: FloatArray,
    params: BufferParameters,
    organic_only: bool,
) -> tuple[FloatArray, FloatArray]:
    """What k scales in two parts: what grows with organic carbon, and the rest.

    Parameters
    ----------
    ph
        pH in water [pH].
    clay_pct
        Clay [%].
    organic_carbon_pct
        Organic carbon [%].
    params
        Coefficients [see class].
    organic_only
        True for peat and bark: the organic term alone [true or false].

    Returns
    -------
    tuple of ndarray
        Organic part, its exchange sites with it, and mineral part, at k = 1 [mmolc/kg].

    Notes
    -----
    The organic part is in proportion to organic carbon, so that it may change with time.

    References
    ----------
    aitken-1990, curtin-rostad-1997, milne-2001, glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> soil = {"clay_pct": np.array(18.0), "organic_carbon_pct": np.array(1.5), "params": p}
    >>> organic, rest = shape_parts_mmolc_kg(np.array([5.0, 7.0]), organic_only=False, **soil)
    >>> round(float(organic[1] - organic[0])), round(float(rest[1] - rest[0]))
    (28, 19)
    """
    organic_slope, mineral_slope = _window_slopes(params)
    organic = (
        params.organic_slope_mmolc_kg_ph_per_pct
        * organic_carbon_pct
        * (_organic(ph, params) / organic_slope)
    )
    if organic_only:
        return np.asarray(organic), np.zeros_like(organic)
    mineral = (
        params.clay_slope_mmolc_kg_ph_per_pct * clay_pct + params.mineral_intercept_mmolc_kg_ph
    ) * (_mineral(ph, params) / mineral_slope)
    sites = _site(ph, midpoint=params.al_midpoint_ph, spread=params.al_steepness)
    organic = organic + params.exchange_organic_mmolc_kg_per_pct * organic_carbon_pct * sites
    mineral = mineral + params.exchange_clay_mmolc_kg_per_pct * clay_pct * sites
    return np.asarray(organic), np.asarray(mineral)


def shape_slope_mmolc_kg_ph(
    ph: FloatArray,
    *,
    clay_pct: FloatArray,
    organic_carbon_pct: FloatArray,
    params: BufferParameters,
    organic_only: bool,
) -> FloatArray:
    """The slope against pH of ``shape_mmolc_kg``.

    Parameters
    ----------
    ph
        pH in water [pH].
    clay_pct
        Clay [%].
    organic_carbon_pct
        Organic carbon [%].
    params
        Coefficients [see class].
    organic_only
        True for peat and bark: the organic term alone [true or false].

    Returns
    -------
    ndarray
        Buffering at k = 1, solution left out [mmolc/kg/pH].

    Notes
    -----
    Analytic derivative, term by term: ln 10 x spread x share x (1 - share) for each site class.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> soil = {"clay_pct": np.array(18.0), "organic_carbon_pct": np.array(1.5), "params": p}
    >>> round(float(shape_slope_mmolc_kg_ph(np.array(6.0), organic_only=False, **soil)))
    23
    """
    organic_slope, mineral_slope = _window_slopes(params)
    acid = _site_slope(ph, midpoint=params.organic_site1_pk, spread=params.organic_site1_spread)
    weak = _site_slope(ph, midpoint=params.organic_site2_pk, spread=params.organic_site2_spread)
    d_organic = params.organic_site1_molc_kg * acid + params.organic_site2_molc_kg * weak
    organic = (
        params.organic_slope_mmolc_kg_ph_per_pct * organic_carbon_pct * (d_organic / organic_slope)
    )
    if organic_only:
        return np.asarray(organic)
    d_mineral = _site_slope(ph, midpoint=params.mineral_site_pk, spread=params.mineral_site_spread)
    mineral = (
        params.clay_slope_mmolc_kg_ph_per_pct * clay_pct + params.mineral_intercept_mmolc_kg_ph
    ) * (d_mineral / mineral_slope)
    return np.asarray(
        organic
        + mineral
        + _exchange(clay_pct, organic_carbon_pct, params)
        * _site_slope(ph, midpoint=params.al_midpoint_ph, spread=params.al_steepness)
    )


def _site_slope(ph: Any, *, midpoint: float, spread: float) -> Any:
    share = _site(ph, midpoint=midpoint, spread=spread)
    return LN10 * spread * share * (1.0 - share)


def _exchange(clay_pct: Any, organic_carbon_pct: Any, p: BufferParameters) -> Any:
    return (
        p.exchange_clay_mmolc_kg_per_pct * clay_pct
        + p.exchange_organic_mmolc_kg_per_pct * organic_carbon_pct
    )


def solution_mmolc_kg(ph: FloatArray, *, params: BufferParameters) -> FloatArray:
    """Base in the soil solution: bicarbonate less free acid less dissolved aluminium.

    Parameters
    ----------
    ph
        pH in water [pH].
    params
        Coefficients [see class].

    Returns
    -------
    ndarray
        Base content of the solution [mmolc/kg].

    Notes
    -----
    1000 theta (10^(K + pH) pCO2 - 10^-pH - 3 10^(KAl - 3 pH)). Below pH 3 the aluminium term has
    no ceiling, which overstates what a soil holds.

    References
    ----------
    plummer-busenberg-1982, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> round(float(solution_mmolc_kg(np.array(4.0), params=p)), 2)
    -0.26
    """
    hydrogen, aluminium, bicarbonate = _solution_parts(ph, params)
    return np.asarray(1000.0 * params.solution_l_kg * (bicarbonate - hydrogen - aluminium))


def solution_slope_mmolc_kg_ph(ph: FloatArray, *, params: BufferParameters) -> FloatArray:
    """The slope against pH of ``solution_mmolc_kg``.

    Parameters
    ----------
    ph
        pH in water [pH].
    params
        Coefficients [see class].

    Returns
    -------
    ndarray
        Buffering of the solution [mmolc/kg/pH].

    Notes
    -----
    ln 10 times each part, aluminium counted three times: its content goes as the cube of acid.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> round(float(solution_slope_mmolc_kg_ph(np.array(4.0), params=p)), 2)
    1.7
    """
    hydrogen, aluminium, bicarbonate = _solution_parts(ph, params)
    return np.asarray(
        1000.0 * params.solution_l_kg * LN10 * (bicarbonate + hydrogen + 3.0 * aluminium)
    )


def _solution_parts(ph: FloatArray, p: BufferParameters) -> tuple[Any, Any, Any]:
    """Hydrogen, aluminium charge and bicarbonate of the solution [molc/L]."""
    hydrogen = 10.0 ** (-ph)
    aluminium = 3.0 * 10.0 ** (p.al_solubility_log10_k - 3.0 * ph)
    bicarbonate = p.curve_pco2_atm * 10.0 ** (p.bicarbonate_log10_k + ph)
    return hydrogen, aluminium, bicarbonate
