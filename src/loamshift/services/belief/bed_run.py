"""What possible beds do, and how they are tried, whichever way they are worked out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Application

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class BedRun:
    """What possible beds do from today on.

    ``ph`` (M, D) of each bed on each day, without the error of a reading [pH in water];
    ``oxidised_frac`` (D,) median share of the sulfur put on [0-1]; ``balance_error`` the worst
    of all members [share of all acid moved].
    """

    ph: FloatArray
    oxidised_frac: FloatArray
    balance_error: float


class Runner(Protocol):
    """Possible beds that can be tried with anything, by the column or by a single layer."""

    @property
    def days(self) -> tuple[date, ...]:
        """The days they are read on, today first."""

    @property
    def shape(self) -> tuple[int, int]:
        """Values of the buffer scale, and draws of everything else."""

    def run(self, applications: Sequence[Application]) -> BedRun:
        """The beds with these applications."""

    def runs(self, plans: Sequence[Sequence[Application]]) -> tuple[BedRun, ...]:
        """The beds with each of several plans."""

    def thinned(self, every: int) -> Runner:
        """The same beds with one draw in so many."""

    def with_rain_water(self) -> Runner:
        """The same beds watered without alkalinity."""

    def without_feed(self) -> Runner:
        """The same beds, given none of their fertiliser from today on."""

    @property
    def log10_k(self) -> FloatArray:
        """Buffer scale of each bed."""

    def draw(self, name: str) -> FloatArray:
        """A parameter of each bed."""


def every_other(shape: tuple[int, int]) -> NDArray[np.bool_]:
    """Half of the draws, for a plan to be chosen on; the other half judges it.

    Parameters
    ----------
    shape
        Values of the scale and draws [count].

    Returns
    -------
    ndarray
        True for the beds of every second draw, shape (Q x O,).
    """
    return np.tile(np.arange(shape[1]) % 2 == 0, shape[0])
