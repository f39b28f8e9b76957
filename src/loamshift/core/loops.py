"""The loops a judgement spends its time in, and how they are worked out.

One bed has them worked out by NumPy and plain Python, which need no compiler; many beds by machine
code of the same formulas (``core.many_loops``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Protocol

from loamshift.core.dose_surface import DoseSurface, surface_of_runs
from loamshift.core.mixed_layer import FloatArray, LayerRun, run_mixed_layer
from loamshift.core.need import Need
from loamshift.core.rain_loops import Bucket, run_bucket

NeedQuantile = Callable[[Need, float], float]
"""Acid that is enough with a probability."""


class SurfaceOfRuns(Protocol):
    """A way to make a dose surface, as ``surface_of_runs`` does."""

    def __call__(
        self,
        amounts_g_m2: FloatArray,
        ph: tuple[FloatArray, ...],
        *,
        later_ph: tuple[FloatArray, ...],
        later_from: tuple[int, ...],
        reference_g_m2: float,
        sign: float,
        spells: tuple[slice, ...],
    ) -> DoseSurface:
        """The surface of runs [pH] with amounts [g/m2]."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Loops:
    """Ways to follow layers and the bucket of a water year, to find a need, and what amounts do."""

    layers: LayerRun = run_mixed_layer
    bucket: Bucket = run_bucket
    need: NeedQuantile = Need.quantile
    surface: SurfaceOfRuns = surface_of_runs


PLAIN: Final = Loops()
"""Without the compiler."""
