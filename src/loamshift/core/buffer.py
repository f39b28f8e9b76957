"""The buffer curve of a soil, turned both ways: acid for a pH step, and pH after acid.

Q(pH) is the base content of a soil without its free carbonate [mmolc/kg]. Acid from pH a
down to pH b is Q(a) - Q(b). Free carbonate is a pool beside the curve: it is used up first,
at the pH it holds.
"""

from __future__ import annotations

from typing import Any, Final, TypeVar

import numpy as np

from loamshift.core.buffer_curve import (
    BufferParameters,
    FloatArray,
    shape_mmolc_kg,
    shape_slope_mmolc_kg_ph,
    soil_arrays,
    solution_mmolc_kg,
    solution_slope_mmolc_kg_ph,
)
from loamshift.core.buffer_scale import (
    Log10K,
    combine_log10_k,
    log10_k_from_step,
    log10_k_from_titration,
)
from loamshift.errors import OutOfRangeError

__all__ = [
    "BufferParameters",
    "Log10K",
    "acid_between_mmolc_kg",
    "base_content_mmolc_kg",
    "buffer_mmolc_kg_ph",
    "combine_log10_k",
    "log10_k_from_step",
    "log10_k_from_titration",
    "ph_after_acid",
]

Shape = TypeVar("Shape", float, FloatArray)
"""One number or an array. If anything else given is an array, give the pH as an array too."""

SOLVE_LOW_PH: Final = 2.0
SOLVE_HIGH_PH: Final = 11.0
_SOLVE_STEPS: Final = 200
_SOLVE_PH: Final = 1e-13


def _same_kind(value: FloatArray) -> Any:
    return float(value) if value.ndim == 0 else value


def base_content_mmolc_kg(
    ph_water: Shape,
    *,
    clay_pct: Shape | float,
    organic_carbon_pct: Shape | float,
    params: BufferParameters,
    k: Shape | float = 1.0,
    organic_only: bool = False,
) -> Shape:
    """Base content of a soil at a pH, its free carbonate left out.

    Answers where on the buffer curve a soil stands; only differences have a meaning.

    Parameters
    ----------
    ph_water
        pH in water, 1 to 12; sensible from 3 to 8.5 [pH].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    params
        Coefficients, topic ``buffer`` [see class].
    k
        Scale of this bed's curve [-].
    organic_only
        True for peat and bark mixes: the organic term alone [true or false].

    Returns
    -------
    float or ndarray
        Base content [mmolc/kg].

    Raises
    ------
    OutOfRangeError
        Where a value is not what a soil can be.

    Notes
    -----
    Q = k (organic + mineral + exchange (1 - EAl)) + solution: two broad classes of organic
    sites, one of mineral sites, exchange sites that aluminium takes below pH 4.5, and what is
    dissolved. Mean slope 14 (sand) to 33 (clay) mmolc/kg/pH over pH 5-7. Not for volcanic,
    sodic or acid sulfate soils. Below pH 3 the aluminium term has no ceiling: outside the model.

    References
    ----------
    aitken-1990, curtin-rostad-1997, milne-2001, glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> soil = {"clay_pct": 18.0, "organic_carbon_pct": 1.5, "params": p}
    >>> round((base_content_mmolc_kg(7.0, **soil) - base_content_mmolc_kg(5.0, **soil)) / 2, 1)
    23.3
    """
    ph, clay, carbon, scale = soil_arrays(
        ph=ph_water, clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, k=k
    )
    shape = shape_mmolc_kg(
        ph, clay_pct=clay, organic_carbon_pct=carbon, params=params, organic_only=organic_only
    )
    result: Shape = _same_kind(scale * shape + solution_mmolc_kg(ph, params=params))
    return result


def buffer_mmolc_kg_ph(
    ph_water: Shape,
    *,
    clay_pct: Shape | float,
    organic_carbon_pct: Shape | float,
    params: BufferParameters,
    k: Shape | float = 1.0,
    organic_only: bool = False,
) -> Shape:
    """Buffering at a pH: the acid that would lower it by one unit were the curve straight.

    Parameters
    ----------
    ph_water
        pH in water, 1 to 12 [pH].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    params
        Coefficients, topic ``buffer`` [see class].
    k
        Scale of this bed's curve [-].
    organic_only
        True for peat and bark mixes: the organic term alone [true or false].

    Returns
    -------
    float or ndarray
        Slope dQ/dpH, always positive [mmolc/kg/pH].

    Raises
    ------
    OutOfRangeError
        Where a value is not what a soil can be.

    Notes
    -----
    The analytic derivative of ``base_content_mmolc_kg``. It doubles or trebles below pH 4.5.

    References
    ----------
    aitken-1990, glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> round(buffer_mmolc_kg_ph(4.5, clay_pct=21.0, organic_carbon_pct=1.4, params=p))
    48
    """
    ph, clay, carbon, scale = soil_arrays(
        ph=ph_water, clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, k=k
    )
    slope = shape_slope_mmolc_kg_ph(
        ph, clay_pct=clay, organic_carbon_pct=carbon, params=params, organic_only=organic_only
    )
    result: Shape = _same_kind(scale * slope + solution_slope_mmolc_kg_ph(ph, params=params))
    return result


def acid_between_mmolc_kg(
    ph_from: Shape,
    ph_to: Shape | float,
    *,
    clay_pct: Shape | float,
    organic_carbon_pct: Shape | float,
    params: BufferParameters,
    k: Shape | float = 1.0,
    organic_only: bool = False,
) -> Shape:
    """Acid that takes a soil from one pH to another, its free carbonate left out.

    Parameters
    ----------
    ph_from
        pH in water at the start, 1 to 12 [pH].
    ph_to
        pH in water wished, 1 to 12 [pH].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    params
        Coefficients, topic ``buffer`` [see class].
    k
        Scale of this bed's curve [-].
    organic_only
        True for peat and bark mixes: the organic term alone [true or false].

    Returns
    -------
    float or ndarray
        Acid; positive where ``ph_to`` is below ``ph_from``, negative means base [mmolc/kg].

    Raises
    ------
    OutOfRangeError
        Where a value is not what a soil can be.

    Notes
    -----
    Q(ph_from) - Q(ph_to). Against measured steps: log10 RMSE 0.08 (a soil the coefficients
    were set with in view) and 0.11 (one that was not).

    References
    ----------
    glendining-2023, bassoi-soil250

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> round(acid_between_mmolc_kg(7.0, 5.5, clay_pct=18.0, organic_carbon_pct=1.5, params=p))
    34
    """
    soil: dict[str, Any] = {
        "clay_pct": clay_pct,
        "organic_carbon_pct": organic_carbon_pct,
        "params": params,
        "k": k,
        "organic_only": organic_only,
    }
    start: Any = base_content_mmolc_kg(ph_from, **soil)
    end: Any = base_content_mmolc_kg(ph_to, **soil)
    result: Shape = start - end
    return result


def ph_after_acid(
    ph_start: Shape | float,
    acid_mmolc_kg: Shape,
    *,
    clay_pct: Shape | float,
    organic_carbon_pct: Shape | float,
    params: BufferParameters,
    carbonate_mmolc_kg: Shape | float = 0.0,
    k: Shape | float = 1.0,
    organic_only: bool = False,
) -> Shape:
    """PH of a soil once acid has reacted with it, or base if the acid is negative.

    Free carbonate is used up first, at the starting pH; what acid is left moves the soil down
    its curve. How fast this happens, and what carbon dioxide does meanwhile, is left out.

    Parameters
    ----------
    ph_start
        pH in water before, 2 to 11 [pH].
    acid_mmolc_kg
        Acid added; negative for base [mmolc/kg].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    params
        Coefficients, topic ``buffer`` [see class].
    carbonate_mmolc_kg
        Acid the free carbonate can take up, 200 per % CaCO3, 0 or more [mmolc/kg].
    k
        Scale of this bed's curve [-].
    organic_only
        True for peat and bark mixes: the organic term alone [true or false].

    Returns
    -------
    float or ndarray
        pH in water after [pH].

    Raises
    ------
    OutOfRangeError
        Where the answer would lie outside pH 2 to 11, or a value is not what a soil can be.

    Notes
    -----
    Solves Q(pH) = Q(ph_start) - acid by Newton steps kept inside a shrinking bracket; every
    element on its own, so that a batch equals its single cases.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> round(ph_after_acid(7.0, 34.0, clay_pct=18.0, organic_carbon_pct=1.5, params=p), 2)
    5.5
    >>> ph_after_acid(7.5, 34.0, clay_pct=18.0, organic_carbon_pct=1.5, params=p,
    ...               carbonate_mmolc_kg=200.0)
    7.5
    """
    start, clay, carbon, scale = soil_arrays(
        ph=ph_start, clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, k=k
    )
    acid = np.asarray(acid_mmolc_kg, dtype=np.float64)
    lime = np.asarray(carbonate_mmolc_kg, dtype=np.float64)
    if not np.isfinite(acid).all():
        raise OutOfRangeError("acid_mmolc_kg must be a finite number; check the amount and area")
    if not (np.isfinite(lime) & (lime >= 0.0)).all():
        raise OutOfRangeError("carbonate_mmolc_kg must be 0 or more; it is 200 per % CaCO3")
    if not ((start >= SOLVE_LOW_PH) & (start <= SOLVE_HIGH_PH)).all():
        raise OutOfRangeError(
            f"ph_start must lie between {SOLVE_LOW_PH:g} and {SOLVE_HIGH_PH:g}; "
            "no soil reads beyond that, so check the reading"
        )
    left = np.where(acid > 0.0, np.maximum(acid - lime, 0.0), acid)
    start, clay, carbon, scale, left = np.broadcast_arrays(start, clay, carbon, scale, left)

    def content(ph: FloatArray) -> FloatArray:
        shape = shape_mmolc_kg(
            ph, clay_pct=clay, organic_carbon_pct=carbon, params=params, organic_only=organic_only
        )
        return scale * shape + solution_mmolc_kg(ph, params=params)

    def slope(ph: FloatArray) -> FloatArray:
        shape = shape_slope_mmolc_kg_ph(
            ph, clay_pct=clay, organic_carbon_pct=carbon, params=params, organic_only=organic_only
        )
        return scale * shape + solution_slope_mmolc_kg_ph(ph, params=params)

    moved = left != 0.0
    wanted = content(start) - left
    low = np.full(start.shape, SOLVE_LOW_PH)
    high = np.full(start.shape, SOLVE_HIGH_PH)
    _refuse_outside(moved & (wanted < content(low)), left, "below", SOLVE_LOW_PH)
    _refuse_outside(moved & (wanted > content(high)), left, "above", SOLVE_HIGH_PH)

    ph = start
    for _ in range(_SOLVE_STEPS):
        excess = content(ph) - wanted
        low = np.where(excess < 0.0, ph, low)
        high = np.where(excess > 0.0, ph, high)
        newton = ph - excess / slope(ph)
        inside = (newton > low) & (newton < high)
        following = np.where(inside, newton, 0.5 * (low + high))
        moved = moved & (excess != 0.0)
        step = np.abs(following - ph)
        ph = np.where(moved, following, ph)
        moved = moved & (step > _SOLVE_PH * ph)
        if not moved.any():
            break
    ph = np.where(left == 0.0, start, ph)
    result: Shape = _same_kind(ph)
    return result


def _refuse_outside(bad: FloatArray, acid: FloatArray, side: str, limit_ph: float) -> None:
    if np.any(bad):
        given = float(np.broadcast_to(acid, np.shape(bad))[bad].flat[0])
        what = "acid" if given > 0.0 else "base"
        raise OutOfRangeError(
            f"{abs(given):.4g} mmolc/kg of {what} would take this soil {side} pH {limit_ph:g}, "
            f"outside the buffer curve; check the amount, the area and the depth, "
            f"or split the amount"
        )
