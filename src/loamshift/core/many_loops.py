"""The loops of ``core.loops`` as machine code, for many beds one after the other.

Each is held to its plain one in ``tests/core/test_many_loops.py``.
"""

from __future__ import annotations

from functools import lru_cache
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


def _bucket(
    supply: FloatArray,
    potential: FloatArray,
    is_frozen: NDArray[np.bool_],
    month_days: NDArray[np.int64],
    surface: FloatArray,
    days: FloatArray,
    snows: FloatArray,
) -> None:
    """``run_bucket``, to the same bits."""
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


def _need(need: Need, probability: float) -> float:
    """``Need.quantile``, within some last places: its error function is Python's own."""
    curve, weight = need.curve_mmolc_kg.tobytes(), need.curve_weight.tobytes()
    return _kept_quantile(probability, curve, weight, need.belief)


@lru_cache(maxsize=256)
def _kept_quantile(
    probability: float, curve: bytes, weight: bytes, belief: tuple[float, ...]
) -> float:
    """The same, worked out once: verdict and dose ask for it again."""
    nodes = np.frombuffer(curve), np.frombuffer(weight), np.array(belief)
    return float(_quantile(probability, *nodes, *_NODES))


COMPILED: Final = Loops(
    layers=run_mixed_layer_many, bucket=_bucket, need=_need, surface=dose_surface_many
)
"""By machine code: within a last place of ``PLAIN``."""
