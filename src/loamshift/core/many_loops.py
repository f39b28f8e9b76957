"""The loops of ``core.loops`` as machine code, for many beds one after the other."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core import need_sums
from loamshift.core.column_compile import compiled, outermost, with_compiled
from loamshift.core.loops import Loops
from loamshift.core.mixed_layer_many import run_mixed_layer_many
from loamshift.core.need import NODES, Need
from loamshift.core.rain_loops import bucket_years
from loamshift.core.surface_many import dose_surface_many

FloatArray = NDArray[np.float64]

_years = outermost(bucket_years)


def run_bucket_many(
    supply: FloatArray,
    potential: FloatArray,
    is_frozen: NDArray[np.bool_],
    month_days: NDArray[np.int64],
    surface: FloatArray,
    days: FloatArray,
    snows: FloatArray,
) -> None:
    """``run_bucket`` as machine code, to the same bits.

    Parameters
    ----------
    supply
        Rain and watering, shape (years, 365) [mm/d].
    potential
        Evaporation of a wet surface, shape (365,) [mm/d].
    is_frozen
        Months whose water falls and lies as snow, shape (12,) [truth].
    month_days
        Days of each month, shape (12,) [d].
    surface
        Water that can evaporate, and the store below which it comes slower [mm].
    days
        Filled here, as by ``run_bucket``, shape (3, 365) [mm].
    snows
        Filled here, shape (12,) [mm].

    References
    ----------
    thornthwaite-1948, own-judgement

    Examples
    --------
    Held to ``run_bucket`` in ``tests/core/test_many_loops.py``.

    >>> callable(run_bucket_many)
    True
    """
    _years(
        np.ascontiguousarray(supply),
        np.ascontiguousarray(potential),
        np.ascontiguousarray(is_frozen),
        month_days,
        surface,
        days[0],
        days[1],
        days[2],
        snows,
    )


_curve = compiled(need_sums.curve_at_most)
_limed = compiled(
    with_compiled(
        need_sums.limed_at_most,
        curve_at_most=_curve,
        lognormal_at_most=compiled(need_sums.lognormal_at_most),
    )
)
_at_most = compiled(
    with_compiled(need_sums.need_at_most, curve_at_most=_curve, limed_at_most=_limed)
)
_excess = compiled(with_compiled(need_sums._excess, need_at_most=_at_most))
_quantile = outermost(with_compiled(need_sums.need_quantile, _excess=_excess))
_NODES: Final = tuple(np.array(one) for one in NODES)


def need_quantile_many(need: Need, probability: float) -> float:
    """``Need.quantile`` as machine code.

    Parameters
    ----------
    need
        The need [object].
    probability
        The probability [0-1].

    Returns
    -------
    float
        Acid that is enough with it [mmolc/kg].

    Notes
    -----
    Within some last places of the other, whose error function is Python's own.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Held to ``Need.quantile`` in ``tests/core/test_many_loops.py``.

    >>> callable(need_quantile_many)
    True
    """
    belief = np.array(need.belief)
    return float(_quantile(probability, need.curve_mmolc_kg, need.curve_weight, belief, *_NODES))


COMPILED: Final = Loops(
    layers=run_mixed_layer_many,
    bucket=run_bucket_many,
    need=need_quantile_many,
    surface=dose_surface_many,
)
"""By machine code: within a last place of ``PLAIN``."""
