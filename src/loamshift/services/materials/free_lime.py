"""Free lime in a soil that reads too acid to hold any: coarse grains, slow to dissolve."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
_YEAR_D = 365.25


def coarse_lime_per_d(half_time_d: FloatArray | float) -> FloatArray:
    """Rate of free lime that lies in coarse grains, where acid does not hurry it.

    Parameters
    ----------
    half_time_d
        Half-time of ground lime mixed in [d].

    Returns
    -------
    ndarray
        Of the two coarsest sieve classes as one [1/d].

    References
    ----------
    huang-2007, missouri-lime-2013
    """
    lime = parameter_values("lime")
    share = parameter_values("column")["coarse_carbonate_coarsest_frac"]
    slower = lime["half_time_factor_4"] ** (1.0 - share) * lime["half_time_factor_5"] ** share
    return np.asarray(math.log(2.0) / (np.asarray(half_time_d) * slower), dtype=np.float64)


def dissolved_in_a_year_frac(*, ph_water: float) -> float:
    """Share of the free lime of a soil that dissolves within a year.

    Parameters
    ----------
    ph_water
        The soil's pH [pH in water].

    Returns
    -------
    float
        0 where lime holds the soil already, for then it moves nothing [0-1].

    References
    ----------
    huang-2007, missouri-lime-2013, own-judgement
    """
    column = parameter_values("column")
    if ph_water >= column["carbonate_plateau_lowest_ph"]:
        return 0.0
    faster = 10.0 ** (
        column["lime_acid_exponent"] * max(column["lime_acid_below_ph"] - ph_water, 0.0)
    )
    rate = float(coarse_lime_per_d(parameter_values("lime")["half_time_d"]))
    return -math.expm1(-rate * faster * _YEAR_D)
