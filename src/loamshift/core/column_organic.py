"""Humus that rots in the compiled column: two pools of nitrogen, and the carbon that goes."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled

DAYS_IN_YEAR: Final = 365.25


@compiled
def rotted_frac(clock: float) -> float:
    """Share of a pool of humus that rots in a step.

    Parameters
    ----------
    clock
        Rate of the pool times what the step is worth of a year at the reference temperature in
        moist soil; 0 where frozen [-].

    Returns
    -------
    float
        Share, 0 to 1 [0-1].

    Notes
    -----
    First order: dN/N = 1 - exp(-k g), g = Q10^((T - 10)/10) min(1, w/0.8) dt.

    References
    ----------
    whitmore-1992, addiscott-1988

    Examples
    --------
    >>> round(rotted_frac(math.log(2.0)), 9)
    0.5
    >>> rotted_frac(0.0)
    0.0
    """
    return abs(math.expm1(-clock))


@compiled
def carbon_left(gone_frac: float) -> float:
    """Organic carbon of a layer against its first.

    Parameters
    ----------
    gone_frac
        Share of it that went with the nitrogen lost since the first day [0-1].

    Returns
    -------
    float
        What is left, not below 0 [-].

    Notes
    -----
    x = 1 - lost (C:N) / (first carbon), carbon and nitrogen going together.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> carbon_left(0.2), carbon_left(1.5)
    (0.8, 0.0)
    """
    return max(0.0, 1.0 - gone_frac)
