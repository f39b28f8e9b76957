"""The loops a judgement spends its time in, and how they are worked out.

One bed has them worked out by NumPy and plain Python, which need no compiler; many beds by machine
code of the same formulas (``core.many_loops``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from loamshift.core.mixed_layer import LayerRun, run_mixed_layer
from loamshift.core.need import Need
from loamshift.core.rain_loops import Bucket, run_bucket

NeedQuantile = Callable[[Need, float], float]
"""Acid that is enough with a probability."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loops:
    """Ways to follow mixed layers and the bucket of a water year, and to find a need."""

    layers: LayerRun = run_mixed_layer
    bucket: Bucket = run_bucket
    need: NeedQuantile = Need.quantile


PLAIN: Final = Loops()
"""Without the compiler."""
