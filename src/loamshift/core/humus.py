"""Nitrogen in humus that rots: how much a soil holds, how much of it is left, how it settles."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.acidity import NITROGEN_MOL_KG
from loamshift.core.topsoil import TopsoilParameters
from loamshift.errors import OutOfRangeError

FloatArray = NDArray[np.float64]


def humus_nitrogen_mmol_kg(
    *, organic_carbon_pct: ArrayLike, carbon_nitrogen: ArrayLike, settled_frac: ArrayLike
) -> FloatArray:
    """Organic nitrogen of a soil, per mass of the soil once it has settled.

    Parameters
    ----------
    organic_carbon_pct
        Organic carbon, 0 or more [%].
    carbon_nitrogen
        Carbon over nitrogen of its humus, above 0 [g/g].
    settled_frac
        Density now over density once settled, see :func:`settled_frac` [0-1].

    Returns
    -------
    ndarray
        Nitrogen [mmol/kg].

    Raises
    ------
    OutOfRangeError
        For a ratio that is not above 0.

    Notes
    -----
    As ground settles, soil from below comes within the depth and thins what was there.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(float(humus_nitrogen_mmol_kg(organic_carbon_pct=2.1, carbon_nitrogen=10.0,
    ...                                    settled_frac=1.0)))
    150
    """
    ratio = np.asarray(carbon_nitrogen, dtype=np.float64)
    if not np.all(ratio > 0.0):
        raise OutOfRangeError("carbon_nitrogen must be above 0")
    carbon_g_kg = 10.0 * np.asarray(organic_carbon_pct, dtype=np.float64)
    nitrogen: FloatArray = np.asarray(settled_frac) * carbon_g_kg / ratio * NITROGEN_MOL_KG
    return nitrogen


def labile_frac_left(
    *,
    labile_frac: ArrayLike,
    years: ArrayLike,
    labile_per_year: ArrayLike,
    slow_per_year: ArrayLike,
) -> FloatArray:
    """Labile share of the organic nitrogen that is left so many years after the ground was dug.

    Parameters
    ----------
    labile_frac
        Share when it was dug, 0 to 1 [0-1].
    years
        Years since, 0 or more [yr].
    labile_per_year
        Rate of what rots fast [1/yr].
    slow_per_year
        Rate of the rest, 0 where crops give it back [1/yr].

    Returns
    -------
    ndarray
        Share of what is left [0-1].

    Notes
    -----
    Two pools, each first order: f exp(-kf t) over f exp(-kf t) + (1 - f) exp(-ks t).

    References
    ----------
    whitmore-1992, addiscott-1988

    Examples
    --------
    >>> round(float(labile_frac_left(labile_frac=0.4, years=5.5, labile_per_year=0.126,
    ...                              slow_per_year=0.0)), 2)
    0.25
    """
    since = np.asarray(years, dtype=np.float64)
    labile = np.asarray(labile_frac) * np.exp(-np.asarray(labile_per_year) * since)
    slow = (1.0 - np.asarray(labile_frac)) * np.exp(-np.asarray(slow_per_year) * since)
    share: FloatArray = labile / (labile + slow)
    return share


def settled_frac(
    *,
    mineral_g_cm3: float,
    organic_matter_pct: float,
    lost_frac: ArrayLike,
    params: TopsoilParameters,
) -> FloatArray:
    """Density of a soil over its density once a share of its humus has rotted.

    Parameters
    ----------
    mineral_g_cm3
        Density of the mineral part alone [g/cm3].
    organic_matter_pct
        Organic matter now, 0 to below 100 [%].
    lost_frac
        Share of it that rots, 0 to 1 [0-1].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    ndarray
        Below 1: humus is light [-].

    Notes
    -----
    The mixing law of ``topsoil.bulk_density_g_cm3``, before and after. Old turf of 5 % of organic
    matter that loses two fifths of it settles to 0.91; a field of such turf went to 0.76, for it
    was looser than its humus says.

    References
    ----------
    adams-1973, federer-1993

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> round(float(settled_frac(mineral_g_cm3=1.5, organic_matter_pct=5.0, lost_frac=0.4,
    ...                          params=p)), 2)
    0.91
    """

    def volume(share: FloatArray) -> FloatArray:
        return share / params.organic_density_g_cm3 + (1.0 - share) / mineral_g_cm3

    now = np.asarray(organic_matter_pct / 100.0)
    left = now * (1.0 - np.asarray(lost_frac, dtype=np.float64))
    found: FloatArray = volume(left) / volume(now)
    return found
