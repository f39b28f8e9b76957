"""How far a soil nobody titrated may lie from the average curve, from what is known of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from loamshift.errors import OutOfRangeError


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleSpread:
    """Spreads of the scale of the curve by cause; rows of topic ``buffer_scale``.

    ``weak_slope_mmolc_kg_ph`` is the slope at and below which the deviation of weak soils counts
    in full [mmolc/kg/pH]; all others are standard deviations [log10].
    """

    log10_k_sd_between_sources: float
    log10_k_sd_weak_soil: float
    weak_slope_mmolc_kg_ph: float
    log10_k_sd_between_soils: float
    log10_k_sd_carbon_unknown: float
    log10_k_sd_texture_felt: float


def scale_log10_sd(
    *,
    slope_mmolc_kg_ph: float,
    carbon_known: bool,
    clay_measured: bool,
    spread: ScaleSpread,
) -> float:
    """Standard deviation of the scale of a curve before anything is measured of the scale.

    Parameters
    ----------
    slope_mmolc_kg_ph
        Mean slope of the average curve of such a soil over its window, above 0 [mmolc/kg/pH].
    carbon_known
        True where organic matter or carbon was given [true or false].
    clay_measured
        True where clay was given as a share, not as a texture felt [true or false].
    spread
        Spreads by cause [see class].

    Returns
    -------
    float
        Standard deviation of log10 k [log10].

    Raises
    ------
    OutOfRangeError
        Where the slope is not above 0.

    Notes
    -----
    Variances add. Groups of soils differ by a share, and by an amount that does not shrink with
    the curve: of a poor sand it is a larger share, w (s0 / slope), never more than w.

    References
    ----------
    pooled-buffer-functions, curtin-trolove-2013, helling-1964, weaver-2004, wong-2013,
    schmidinger-2025

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> spread = ScaleSpread(**parameter_values("buffer_scale"))
    >>> known = {"carbon_known": True, "clay_measured": True, "spread": spread}
    >>> round(scale_log10_sd(slope_mmolc_kg_ph=27.0, **known), 2)
    0.2
    >>> round(scale_log10_sd(slope_mmolc_kg_ph=15.0, **known), 2)
    0.26
    """
    if not (math.isfinite(slope_mmolc_kg_ph) and slope_mmolc_kg_ph > 0.0):
        raise OutOfRangeError(
            f"a slope of {slope_mmolc_kg_ph:g} mmolc/kg/pH is no buffering; check clay and carbon"
        )
    weak = min(1.0, spread.weak_slope_mmolc_kg_ph / slope_mmolc_kg_ph)
    causes = (
        spread.log10_k_sd_between_sources,
        spread.log10_k_sd_weak_soil * weak,
        spread.log10_k_sd_between_soils,
        0.0 if carbon_known else spread.log10_k_sd_carbon_unknown,
        0.0 if clay_measured else spread.log10_k_sd_texture_felt,
    )
    return math.sqrt(math.fsum(cause * cause for cause in causes))
