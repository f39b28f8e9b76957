"""The yearly load of a layer in the compiled column."""

from __future__ import annotations

import math

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import law, rate

_REFERENCE_PH = law("background_reference_ph")
_HIGHEST_PH = law("background_highest_ph")
_RISE_PER_PH = rate("background_rise")


@compiled
def background_rise(number: FloatArray, ph: float) -> float:
    """How much larger the background load is at a pH than at the reference.

    Parameters
    ----------
    number
        Numbers of the member [mixed].
    ph
        pH of the layer [pH].

    Returns
    -------
    float
        Factor [-].

    Notes
    -----
    exp(s (min(pH, highest) - reference)), as in ``background.background_factor``.

    References
    ----------
    glendining-2023

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[law("background_reference_ph")], number[law("background_highest_ph")] = 5.0, 7.0
    >>> number[rate("background_rise")] = 0.5
    >>> round(background_rise(number, 6.0), 6), round(background_rise(number, 8.0), 6)
    (1.648721, 2.718282)
    """
    return math.exp(number[_RISE_PER_PH] * (min(ph, number[_HIGHEST_PH]) - number[_REFERENCE_PH]))
