"""What soil figures can be: temperature, water, pH and amounts, refused where no soil has them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import OutOfRangeError


def soil_temperatures(soil_temp_c: ArrayLike) -> NDArray[np.float64]:
    """Temperatures as an array, refused where no soil has them.

    Parameters
    ----------
    soil_temp_c
        Soil temperature, any shape [degC].

    Returns
    -------
    ndarray
        The same temperatures [degC].

    Raises
    ------
    OutOfRangeError
        Outside -60 to 70 degC, or not a number.

    Notes
    -----
    Dry bare ground in full sun reaches about 65 degC at its surface and frozen ground about -50;
    figures beyond are in another unit. Judgement, no source.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> soil_temperatures([4, 12]).tolist()
    [4.0, 12.0]
    """
    temp = np.asarray(soil_temp_c, dtype=np.float64)
    if temp.size == 0 or not np.all((temp >= -60.0) & (temp <= 70.0)):
        raise OutOfRangeError(
            "soil temperatures must lie between -60 and 70 degC and none may be missing; deg F "
            "less 32, times 5/9, gives degC"
        )
    return temp


def soil_wetness(wetness: ArrayLike) -> NDArray[np.float64]:
    """Soil water over field capacity as an array, refused where it looks like a percentage.

    Parameters
    ----------
    wetness
        Soil water over water at field capacity, any shape [1].

    Returns
    -------
    ndarray
        The same figures [1].

    Raises
    ------
    OutOfRangeError
        Outside 0 to 3, or not a number.

    Notes
    -----
    By the shipped texture classes, full pores hold 1.3 (clay) to 1.7 (loam) times the water at
    field capacity; sand up to 5 times, but it drains within a day. Above 3 a slip of the unit is
    likelier. Judgement, no source.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> soil_wetness([0.5, 1]).tolist()
    [0.5, 1.0]
    """
    wet = np.asarray(wetness, dtype=np.float64)
    if not np.all((wet >= 0.0) & (wet <= 3.0)):
        raise OutOfRangeError(
            "wetness must lie between 0 and 3: it is soil water over water at field capacity, so "
            "1 at field capacity; divide a percentage by 100"
        )
    return wet


def require_soil_ph(ph_water: float) -> None:
    """Refuse a pH that no soil has.

    Parameters
    ----------
    ph_water
        pH in water, 2 to 11 [pH].

    Raises
    ------
    OutOfRangeError
        Outside these limits, or not a number.
    """
    if not 2.0 <= ph_water <= 11.0:
        raise OutOfRangeError(f"ph_water {ph_water:g} is outside 2 to 11; check the reading")


def require_amount(name: str, value: float) -> None:
    """Refuse an amount below 0 or without end.

    Parameters
    ----------
    name
        What it is called in the message [text].
    value
        The amount [any unit].

    Raises
    ------
    OutOfRangeError
        Where it is negative, infinite or not a number.
    """
    if not 0.0 <= value < math.inf:
        raise OutOfRangeError(f"{name} {value:g} must be 0 or more; give the amount as it is")


def require_between(
    name: str, value: float, *, low: float, high: float, unit: str, mend: str = ""
) -> None:
    """Refuse a value outside its limits, and say what to do.

    Parameters
    ----------
    name
        What it is called in the message [text].
    value
        The value [see unit].
    low, high
        Limits, both allowed [see unit].
    unit
        Unit named in the message [text].
    mend
        What to do next, where there is something to say [text].

    Raises
    ------
    OutOfRangeError
        Outside the limits, or not a number.
    """
    if not low <= value <= high:
        advice = f"; {mend}" if mend else ""
        raise OutOfRangeError(f"{name} {value:g} is outside {low:g} to {high:g} {unit}{advice}")
