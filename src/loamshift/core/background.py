"""What a bed loses by itself in a year: leaching and uptake less weathering."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.limits import require_amount, require_soil_ph
from loamshift.core.soil_water import soil_water_hydrogen
from loamshift.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerParameters:
    """Coefficients of the topic ``ledger``, one field per row.

    ``background_*_mmolc_m2`` yearly loads by use of the land at the reference pH and drainage;
    ``air_in_*_mmolc_m2`` the acid from the air inside each, of where and when it was measured;
    ``realised_*_frac`` share of the acid of nitrogen that shows in the topsoil;
    ``unreturned_*_frac`` share of nitrogen whose nitrate brings no base back; ``acid_per_*``
    [mol/mol].
    """

    background_unknown_mmolc_m2: float
    background_unfed_mmolc_m2: float
    background_garden_mmolc_m2: float
    background_lawn_mmolc_m2: float
    background_low_crop_mmolc_m2: float
    background_high_crop_mmolc_m2: float
    background_with_buffering: float
    background_rise_per_ph: float
    background_reference_ph: float
    background_highest_ph: float
    drainage_base: float
    drainage_slope: float
    drainage_reference_mm: float
    drainage_most: float
    weathering_mmolc_m2: float
    air_in_unknown_mmolc_m2: float
    air_in_unfed_mmolc_m2: float
    air_in_garden_mmolc_m2: float
    air_in_lawn_mmolc_m2: float
    air_in_low_crop_mmolc_m2: float
    air_in_high_crop_mmolc_m2: float
    realised_field_frac: float
    realised_bare_frac: float
    realised_pot_frac: float
    unreturned_crop_frac: float
    unreturned_bed_frac: float
    unreturned_bare_frac: float
    unreturned_lawn_frac: float
    unreturned_pot_frac: float
    acid_per_nh4_mol_mol: float
    acid_per_urea_n_mol_mol: float
    harvest_alkalinity_mmolc_g: float


def background_loads(params: LedgerParameters) -> Mapping[str, float]:
    """Yearly background loads by use of the land.

    Parameters
    ----------
    params
        Coefficients of the topic ``ledger`` [see the dataclass].

    Returns
    -------
    Mapping
        Use of the land to load near pH 5 [mmolc/m2/year].

    References
    ----------
    dolling-1995, glendining-2023, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> list(background_loads(LedgerParameters(**parameter_values("ledger"))))
    ['unknown', 'unfed', 'garden', 'lawn', 'low crop', 'high crop']
    """
    return {
        "unknown": params.background_unknown_mmolc_m2,
        "unfed": params.background_unfed_mmolc_m2,
        "garden": params.background_garden_mmolc_m2,
        "lawn": params.background_lawn_mmolc_m2,
        "low crop": params.background_low_crop_mmolc_m2,
        "high crop": params.background_high_crop_mmolc_m2,
    }


def air_in_loads(params: LedgerParameters) -> Mapping[str, float]:
    """Acid from the air inside each background load, of where and when it was measured.

    Parameters
    ----------
    params
        Coefficients of the topic ``ledger`` [see the dataclass].

    Returns
    -------
    Mapping
        Use of the land to acid [mmolc/m2/year].

    Notes
    -----
    The loads of gardens, lawns and low cropping stand near measurements in Western Australia and
    New Zealand, that of high cropping was measured at Rothamsted from 1962 to 1994.

    References
    ----------
    ayers-1995, campbell-smith-1996, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> air_in_loads(LedgerParameters(**parameter_values("ledger")))["high crop"]
    126.0
    """
    return {
        "unknown": params.air_in_unknown_mmolc_m2,
        "unfed": params.air_in_unfed_mmolc_m2,
        "garden": params.air_in_garden_mmolc_m2,
        "lawn": params.air_in_lawn_mmolc_m2,
        "low crop": params.air_in_low_crop_mmolc_m2,
        "high crop": params.air_in_high_crop_mmolc_m2,
    }


def load_at_scale(
    load_mmolc_m2: NDArray[np.float64],
    *,
    log10_k: NDArray[np.float64],
    log10_k_usual: NDArray[np.float64] | float,
    params: LedgerParameters,
) -> NDArray[np.float64]:
    """Loads of beds that resist more or less than is usual.

    Answers why a soil of weak buffering does not get the load of a strong one.

    Parameters
    ----------
    load_mmolc_m2
        Loads of beds at the usual scale, any shape [mmolc/m2/year].
    log10_k
        Scale of their buffering, same shape [log10].
    log10_k_usual
        Scale at which the loads stand [log10].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].

    Returns
    -------
    ndarray
        Loads at their own scale [mmolc/m2/year].

    Notes
    -----
    load x (k/usual)^p. Published loads are a fall of pH times a buffering, so it is their ratio
    that was seen: p is 1.

    References
    ----------
    dolling-1995, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> load_at_scale(np.array([50.0]), log10_k=np.array([-0.30103]), log10_k_usual=0.0,
    ...               params=p).round(2).tolist()
    [25.0]
    """
    power = params.background_with_buffering * (log10_k - log10_k_usual)
    return np.asarray(load_mmolc_m2 * 10.0**power, dtype=np.float64)


def background_factor(ph_water: float, *, drainage_mm: float, params: LedgerParameters) -> float:
    """How much of its load near pH 5 a soil loses at its own pH and drainage.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    drainage_mm
        Water draining in the year, 0 or more [mm].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].

    Returns
    -------
    float
        Factor on the load [1].

    Raises
    ------
    OutOfRangeError
        For an impossible pH or negative drainage.

    Notes
    -----
    exp(0.845 (min(pH, 7.2) - 5)) x (0.4 + 0.6 min(1.5, drainage/200)): bicarbonate leaches the
    faster the higher the pH, which is why limed soil drifts back and acid soil hardly moves.

    References
    ----------
    glendining-2023, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> round(background_factor(6.3, drainage_mm=200.0, params=p), 1)
    3.0
    """
    require_soil_ph(ph_water)
    require_amount("drainage_mm", drainage_mm)
    rise = min(ph_water, params.background_highest_ph) - params.background_reference_ph
    ratio = min(params.drainage_most, drainage_mm / params.drainage_reference_mm)
    leaching = params.drainage_base + params.drainage_slope * ratio
    return math.exp(params.background_rise_per_ph * rise) * leaching


def background_acid_mmolc_m2(
    ph_water: float,
    *,
    drainage_mm: float,
    params: LedgerParameters,
    land_use: str = "unknown",
    air_mmolc_m2: float | None = None,
) -> float:
    """Leaching and uptake less weathering, with the acid from the air; nitrogen feed apart.

    Answers what a bed loses by itself in a year. The loads were measured on whole fields, so the
    acid from the air of where and when that was is inside; it is taken off, and that of the place
    and year put on. The acid of nitrogen fertiliser stands in its own line.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    drainage_mm
        Water draining in the year, 0 or more [mm].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].
    land_use
        One of :func:`background_loads` [text].
    air_mmolc_m2
        Acid from the air there in that year; None for as much as the load holds [mmolc/m2/year].

    Returns
    -------
    float
        Acid; negative where weathering gives more base than is lost [mmolc/m2/year].

    Raises
    ------
    InputError
        For an unknown use of the land.
    OutOfRangeError
        For an impossible pH or negative drainage.

    Notes
    -----
    load x factor - weathering + air - air inside the load. Acid from the air falls whatever the
    pH, so it does not go with the factor: the factor was read from loads with their air inside.
    The range is wide: a factor of 6 either way for a bed of unknown use.

    References
    ----------
    glendining-2023, dolling-1995, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> background_acid_mmolc_m2(5.0, drainage_mm=200.0, params=p)
    60.0
    >>> background_acid_mmolc_m2(5.0, drainage_mm=200.0, params=p, air_mmolc_m2=44.0)
    70.0
    """
    loads = background_loads(params)
    if land_use not in loads:
        raise InputError(f"land_use {land_use!r} is not known; use one of {', '.join(loads)}")
    factor = background_factor(ph_water, drainage_mm=drainage_mm, params=params)
    inside = air_in_loads(params)[land_use]
    beyond = 0.0 if air_mmolc_m2 is None else air_mmolc_m2 - inside
    return loads[land_use] * factor - params.weathering_mmolc_m2 + beyond


def drained_base_mmolc_m2(
    ph_water: float,
    *,
    drainage_mm: float,
    bicarbonate_mmol2_l2: float,
    bicarbonate_highest_mmolc_l: float,
    anions_mmolc_l: float,
    suspension_mmolc_l: float,
) -> float:
    """Base that draining water carries out of a soil held at a pH: its bicarbonate.

    Answers what keeps soils from climbing above 7 by themselves, pots too. Acid at low pH.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    drainage_mm
        Water draining in the year, 0 or more [mm].
    bicarbonate_mmol2_l2
        Times 1/H it is the bicarbonate: 1000 K pCO2 [mmol2/L2].
    bicarbonate_highest_mmolc_l
        The most that draining water holds [mmolc/L].
    anions_mmolc_l
        Anions in draining water, bicarbonate apart, above 0 [mmolc/L].
    suspension_mmolc_l
        Calcium with magnesium in the suspension that pH is read in, above 0 [mmolc/L].

    Returns
    -------
    float
        Base; negative where it carries acid out [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For an impossible pH or negative drainage.

    Notes
    -----
    w (min(b/H, highest) - 1000 H), H that of the soil water by ``soil_water``: the law of the
    column without aluminium.

    References
    ----------
    plummer-busenberg-1982, own-judgement

    Examples
    --------
    >>> b = 1000.0 * 10.0**-7.82 * 0.008
    >>> round(drained_base_mmolc_m2(7.5, drainage_mm=100.0, bicarbonate_mmol2_l2=b,
    ...                             bicarbonate_highest_mmolc_l=6.0, anions_mmolc_l=1.0,
    ...                             suspension_mmolc_l=1.26))
    235
    """
    require_soil_ph(ph_water)
    require_amount("drainage_mm", drainage_mm)
    hydrogen = float(
        soil_water_hydrogen(
            math.exp(-math.log(10.0) * ph_water),
            anions_mmolc_l=anions_mmolc_l,
            bicarbonate_mmol2_l2=bicarbonate_mmol2_l2,
            suspension_mmolc_l=suspension_mmolc_l,
        )
    )
    bicarbonate = min(bicarbonate_mmol2_l2 / hydrogen, bicarbonate_highest_mmolc_l)
    return drainage_mm * (bicarbonate - 1000.0 * hydrogen)
