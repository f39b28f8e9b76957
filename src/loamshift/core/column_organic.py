"""Humus that rots in the compiled column: two pools of nitrogen, and the carbon that goes."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled

DAYS_IN_YEAR: Final = 365.25


@compiled
def rotted(held: float, per_year: float, worth_d: float) -> float:
    """What a pool of humus sets free in a step.

    Parameters
    ----------
    held
        Nitrogen in the pool, 0 or more [mmol/m2].
    per_year
        Rate of the pool at the reference temperature, in moist soil, 0 or more [1/yr].
    worth_d
        What the step is worth of a day at that temperature in moist soil; 0 where frozen [d].

    Returns
    -------
    float
        Nitrogen set free, never more than was held [mmol/m2].

    Notes
    -----
    First order: dN = N (1 - exp(-k g)), g = Q10^((T - 10)/10) min(1, w/0.8) dt.

    References
    ----------
    whitmore-1992, addiscott-1988

    Examples
    --------
    >>> round(rotted(1000.0, math.log(2.0), 365.25), 9)
    500.0
    >>> rotted(1000.0, 0.1, 0.0)
    0.0
    """
    return -held * math.expm1(-per_year * worth_d / DAYS_IN_YEAR)


@compiled
def carbon_left(lost_mmol_kg: float, frac_per_mmol_kg: float) -> float:
    """Organic carbon of a layer against its first, from the nitrogen its humus has lost.

    Parameters
    ----------
    lost_mmol_kg
        Organic nitrogen lost since the first day [mmol/kg].
    frac_per_mmol_kg
        Share of the first carbon that goes with a mmol of nitrogen per kg [kg/mmol].

    Returns
    -------
    float
        Carbon over that of the first day, not below 0 [-].

    Notes
    -----
    x = 1 - lost (C:N) / (first carbon), carbon and nitrogen going together.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> carbon_left(50.0, 0.004)
    0.8
    """
    return max(0.0, 1.0 - lost_mmol_kg * frac_per_mmol_kg)
