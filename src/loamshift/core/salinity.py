"""Side effects of salts and acid: conductivity of the saturated paste, and aluminium."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.limits import require_amount, require_between
from loamshift.errors import InputError, OutOfRangeError
from loamshift.units import soil_mass_kg_m2


@dataclass(frozen=True, slots=True, kw_only=True)
class SalinityParameters:
    """Coefficients of the topic ``salinity``, one field per row.

    ``ec_*`` convert extracts to the saturated paste; ``al_*_frac`` bound the classes of aluminium
    on the exchange sites [1]; ``al_*_ph_cacl2`` are pH in calcium chloride [pH].
    """

    mmolc_l_per_ds_m: float
    gypsum_ec_ds_m: float
    saturation_per_field_capacity: float
    saturation_least_kg_kg: float
    ec_1to5_intercept: float
    ec_1to5_slope: float
    ec_1to5_spread: float
    ec_1to1_low: float
    ec_1to1_high: float
    al_harmless_frac: float
    al_slight_frac: float
    al_harmful_frac: float
    al_watch_ph_cacl2: float
    al_toxic_ph_cacl2: float


class EceEstimate(NamedTuple):
    """Conductivity of the saturated paste extract: likely value and range [dS/m]."""

    low_ds_m: float
    mid_ds_m: float
    high_ds_m: float


EC_METHODS = ("paste", "1:1", "1:5")
"""Extracts with a published way to the saturated paste."""


def saturation_water_kg_kg(
    *, field_capacity_frac: float, bulk_density_g_cm3: float, params: SalinityParameters
) -> float:
    """Water in a saturated paste of a soil.

    Parameters
    ----------
    field_capacity_frac
        Water at field capacity by volume, above 0 to 1 [m3/m3].
    bulk_density_g_cm3
        Bulk density, 0.02 to 2.2 [g/cm3].
    params
        Coefficients of the topic ``salinity`` [see the dataclass].

    Returns
    -------
    float
        Water per dry soil [kg/kg].

    Raises
    ------
    OutOfRangeError
        Outside these limits.

    Notes
    -----
    Twice field capacity by mass, a rule of thumb from memory, and no less than a paste of sand.

    References
    ----------
    ussl-1954

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SalinityParameters(**parameter_values("salinity"))
    >>> round(saturation_water_kg_kg(field_capacity_frac=0.27, bulk_density_g_cm3=1.35,
    ...                              params=p), 2)
    0.4
    """
    require_between("field_capacity_frac", field_capacity_frac, low=1.0e-3, high=1.0, unit="m3/m3")
    require_between("bulk_density_g_cm3", bulk_density_g_cm3, low=0.02, high=2.2, unit="g/cm3")
    twice = params.saturation_per_field_capacity * field_capacity_frac / bulk_density_g_cm3
    return max(params.saturation_least_kg_kg, twice)


def ec_rise_ds_m(
    *,
    salt_mmolc_m2: float,
    depth_cm: float,
    bulk_density_g_cm3: float,
    saturation_water_kg_kg: float,
    params: SalinityParameters,
    gypsum_only: bool = False,
) -> float:
    """Rise of the conductivity of the saturated paste by salt mixed into a soil.

    Answers whether an amendment makes a bed too salty for a while. Leaching by rain and uptake are
    left out, so it is the most that can be read.

    Parameters
    ----------
    salt_mmolc_m2
        Charge of the cations (or of the anions) of the salt given, 0 or more [mmolc/m2].
    depth_cm
        Depth it is mixed into, 0.5 to 100 [cm].
    bulk_density_g_cm3
        Bulk density, 0.02 to 2.2 [g/cm3].
    saturation_water_kg_kg
        Water in the saturated paste, 0.1 to 15 [kg/kg].
    params
        Coefficients of the topic ``salinity`` [see the dataclass].
    gypsum_only
        True where the salt is or becomes calcium sulfate, which dissolves only so far [truth].

    Returns
    -------
    float
        Rise in dS/m of the saturated paste extract [dS/m].

    Raises
    ------
    OutOfRangeError
        Outside these limits.

    Notes
    -----
    Concentration in the paste water over 10 mmolc/L per dS/m; calcium sulfate stops at 2.2 dS/m.

    References
    ----------
    ussl-1954

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SalinityParameters(**parameter_values("salinity"))
    >>> round(ec_rise_ds_m(salt_mmolc_m2=800.0, depth_cm=15.0, bulk_density_g_cm3=1.3,
    ...                    saturation_water_kg_kg=0.4, params=p), 2)
    1.03
    """
    require_amount("salt_mmolc_m2", salt_mmolc_m2)
    require_between("depth_cm", depth_cm, low=0.5, high=100.0, unit="cm")
    require_between("bulk_density_g_cm3", bulk_density_g_cm3, low=0.02, high=2.2, unit="g/cm3")
    require_between(
        "saturation_water_kg_kg", saturation_water_kg_kg, low=0.1, high=15.0, unit="kg/kg"
    )
    soil = soil_mass_kg_m2(depth_cm=depth_cm, bulk_density_g_cm3=bulk_density_g_cm3)
    rise = salt_mmolc_m2 / (soil * saturation_water_kg_kg) / params.mmolc_l_per_ds_m
    return min(rise, params.gypsum_ec_ds_m) if gypsum_only else rise


def ece_from_ec(
    ec_ds_m: float, *, method: str, saturation_water_kg_kg: float, params: SalinityParameters
) -> EceEstimate:
    """Conductivity of the saturated paste from that of another extract.

    Parameters
    ----------
    ec_ds_m
        Conductivity as reported, 0 to 200 [dS/m].
    method
        "paste", "1:1" or "1:5" [text].
    saturation_water_kg_kg
        Water in the saturated paste of this texture, 0.1 to 15; used for 1:5 [kg/kg].
    params
        Coefficients of the topic ``salinity`` [see the dataclass].

    Returns
    -------
    EceEstimate
        Low, likely and high [dS/m].

    Raises
    ------
    InputError
        For an extract without a published conversion.
    OutOfRangeError
        Outside these limits.

    Notes
    -----
    1:5: f = 2.46 + 3.03/saturation water, with a factor 1.25 either way by judgement; 1:1: printed
    factors run from 1.9 to 3.35, their geometric mean is taken; paste: 1.

    References
    ----------
    slavich-petterson-1993, ece-methods-2018, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SalinityParameters(**parameter_values("salinity"))
    >>> round(ece_from_ec(0.2, method="1:5", saturation_water_kg_kg=0.4, params=p).mid_ds_m, 2)
    2.01
    """
    require_between(
        "ec_ds_m", ec_ds_m, low=0.0, high=200.0, unit="dS/m (uS/cm over 1000, mS/m over 100)"
    )
    require_between(
        "saturation_water_kg_kg", saturation_water_kg_kg, low=0.1, high=15.0, unit="kg/kg"
    )
    if method == "paste":
        factors = (1.0, 1.0, 1.0)
    elif method == "1:1":
        low, high = params.ec_1to1_low, params.ec_1to1_high
        factors = (low, math.sqrt(low * high), high)
    elif method == "1:5":
        mid = params.ec_1to5_intercept + params.ec_1to5_slope / saturation_water_kg_kg
        factors = (mid / params.ec_1to5_spread, mid, mid * params.ec_1to5_spread)
    else:
        raise InputError(
            f"EC by method {method!r} cannot be turned into that of the saturated paste; known "
            f"are {', '.join(EC_METHODS)}: ask the laboratory for one of these"
        )
    return EceEstimate(*(factor * ec_ds_m for factor in factors))


def al_saturation_frac(ph_water: ArrayLike, *, p_al: float, n_al: float) -> NDArray[np.float64]:
    """Share of the exchange sites held by aluminium at a pH.

    Parameters
    ----------
    ph_water
        pH in water, any shape, 2 to 11 [pH].
    p_al
        pH at which aluminium holds half, from the buffer curve, 4.05 [pH].
    n_al
        Steepness, from the buffer curve, above 0, 1.7 [1/pH].

    Returns
    -------
    ndarray
        Share 0 to 1, same shape [1].

    Raises
    ------
    OutOfRangeError
        For a pH outside 2 to 11 or a steepness that is not above 0.

    Notes
    -----
    1/(1 + 10^(n (pH - p))). In the silty clay loam it was fitted to, 0.31, 0.28, 0.076, 0.038 and
    0.013 were measured at pH 4.0, 4.25, 4.5, 4.75 and 5.0; the rounded curve gives 0.55, 0.31,
    0.15, 0.06 and 0.02, so it warns early, by about 0.2 pH. Not meant for peat.

    References
    ----------
    glendining-2023

    Examples
    --------
    >>> al_saturation_frac([4.05, 5.5], p_al=4.05, n_al=1.7).round(3).tolist()
    [0.5, 0.003]
    """
    ph = np.asarray(ph_water, dtype=np.float64)
    if not np.all((ph >= 2.0) & (ph <= 11.0)):
        raise OutOfRangeError("ph_water must lie between 2 and 11; check the reading")
    if not n_al > 0.0:
        raise OutOfRangeError(f"n_al {n_al:g} must be above 0")
    return 1.0 / (1.0 + 10.0 ** (n_al * (ph - p_al)))
