"""What each possible bed does under any amounts in any season, from a few runs.

A run with one amount in the first season gives one point of a curve for each bed and day; an
amount in a later season counts as so many of the first season's, by one run more.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import InputError

FloatArray = NDArray[np.float64]

MOST_WORTH: Final = 1.6
"""A later amount never counts as more than this many of the first season's [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseSurface:
    """pH of M beds on D days under amounts by season.

    ``amounts_g_m2`` (K) rising from 0; ``ph`` (M, D, K) pH with each of them in the first
    season; ``worth`` (S, D) what a gram of each season counts as on that day, 1 for the
    first [-]; ``sign`` 1 where more lowers the pH, -1 where it raises it. ``furthest_ph`` (M, K)
    and ``furthest_worth`` (S,) the same for the furthest the pH gets the way of the amount.
    """

    amounts_g_m2: FloatArray
    ph: FloatArray
    worth: FloatArray
    furthest_ph: FloatArray
    furthest_worth: FloatArray
    sign: float

    def at(self, day: int, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
        """PH of every bed on a day.

        Parameters
        ----------
        day
            Which of the days [index].
        amounts_g_m2
            One a season, each a number or shape (M,) or (M, A) [g/m2].

        Returns
        -------
        ndarray
            Shape (M,) or (M, A) [pH].
        """
        return self._read(self.ph[:, day], self._total(self.worth[:, day], amounts_g_m2))

    def course(self, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
        """PH of every bed on all days.

        Parameters
        ----------
        amounts_g_m2
            One a season, each a number or shape (M,) [g/m2].

        Returns
        -------
        ndarray
            Shape (M, D) [pH].
        """
        beds, days = self.ph.shape[:2]
        total = np.zeros((beds, days))
        for worth, amount in zip(self.worth, amounts_g_m2, strict=False):
            total += worth * np.broadcast_to(np.asarray(amount, dtype=np.float64), (beds,))[:, None]
        flat = self.ph.reshape(beds * days, -1)
        return self._read(flat, total.reshape(-1)).reshape(beds, days)

    def furthest(self, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
        """The furthest the pH of every bed gets the way of the amounts.

        Parameters
        ----------
        amounts_g_m2
            One a season, each a number or shape (M,) or (M, A) [g/m2].

        Returns
        -------
        ndarray
            Shape (M,) or (M, A) [pH].
        """
        return self._read(self.furthest_ph, self._total(self.furthest_worth, amounts_g_m2))

    def _total(self, worth: FloatArray, amounts: tuple[FloatArray | float, ...]) -> FloatArray:
        beds = self.ph.shape[0]
        wide = max((np.shape(one) for one in amounts), key=len, default=())
        total = np.zeros(wide if len(wide) == 2 else (beds,))
        for one, amount in zip(worth, amounts, strict=False):
            given = np.asarray(amount, dtype=np.float64)
            total += one * (given[:, None] if given.ndim == 1 and len(wide) == 2 else given)
        return total

    def _read(self, curve: FloatArray, total: FloatArray) -> FloatArray:
        """Linear between the amounts that were run; beyond the last its value holds."""
        knots = self.amounts_g_m2
        inside = np.clip(total, knots[0], knots[-1])
        left = np.clip(np.searchsorted(knots, inside, side="right") - 1, 0, knots.size - 2)
        share = (inside - knots[left]) / (knots[left + 1] - knots[left])
        row = np.arange(curve.shape[0])
        if total.ndim == 2:
            row = row[:, None]
        low, high = curve[row, left], curve[row, left + 1]
        return np.asarray(low + share * (high - low), dtype=np.float64)


def dose_surface(
    amounts_g_m2: FloatArray,
    ph: FloatArray,
    *,
    later_ph: tuple[FloatArray, ...],
    later_beds: NDArray[np.int64],
    reference_g_m2: float,
    sign: float,
    watched: slice,
) -> DoseSurface:
    """A surface from its runs.

    Parameters
    ----------
    amounts_g_m2
        Amounts run in the first season, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, shape (M, D, K) [pH].
    later_ph
        For each later season, pH of some beds with the reference in the first season and in
        that one, shape (L, D) [pH].
    later_beds
        Which beds these are, shape (L,) [index].
    reference_g_m2
        That amount, above 0; no more than half the largest amount [g/m2].
    sign
        1 for acid, -1 for lime [-].
    watched
        Days over which the furthest pH is looked for [slice].

    Returns
    -------
    DoseSurface
        The surface [object].

    Raises
    ------
    InputError
        For amounts that do not rise from 0, or shapes that do not fit.

    Notes
    -----
    The worth of a later amount is what the first season would have needed for the same pH, less
    what it got, over the reference; kept between 0 and 1.6. The median of the beds counts for
    all: it differs far less between them than the need does.

    References
    ----------
    own-arithmetic
    """
    if amounts_g_m2.ndim != 1 or amounts_g_m2[0] != 0.0 or not np.all(np.diff(amounts_g_m2) > 0.0):
        raise InputError("amounts_g_m2 must rise from 0")
    if ph.ndim != 3 or ph.shape[2] != amounts_g_m2.size:
        raise InputError(f"ph {ph.shape} needs one value per amount ({amounts_g_m2.size})")
    furthest = _furthest(ph, sign=sign, watched=watched)
    days = ph.shape[1]
    worth, furthest_worth = [np.ones(days)], [1.0]
    some = ph[later_beds]
    flat = some.reshape(some.shape[0] * days, -1)
    for later in later_ph:
        needed = _amount_for(amounts_g_m2, flat, later.reshape(-1), sign=sign)
        counts = (needed.reshape(later.shape) - reference_g_m2) / reference_g_m2
        worth.append(np.median(np.clip(counts, 0.0, MOST_WORTH), axis=0))
        far = _furthest(later[:, :, None], sign=sign, watched=watched)[:, 0]
        needed = _amount_for(amounts_g_m2, furthest[later_beds], far, sign=sign)
        counts = (needed - reference_g_m2) / reference_g_m2
        furthest_worth.append(float(np.median(np.clip(counts, 0.0, MOST_WORTH))))
    return DoseSurface(
        amounts_g_m2=amounts_g_m2,
        ph=ph,
        worth=np.stack(worth),
        furthest_ph=furthest,
        furthest_worth=np.array(furthest_worth),
        sign=sign,
    )


def _furthest(ph: FloatArray, *, sign: float, watched: slice) -> FloatArray:
    seen = ph[:, watched]
    return np.asarray(seen.min(axis=1) if sign > 0.0 else seen.max(axis=1), dtype=np.float64)


def _amount_for(knots: FloatArray, curve: FloatArray, ph: FloatArray, *, sign: float) -> FloatArray:
    """Amount at which each curve passes a pH [g/m2]: rows of ``curve`` by ``ph``."""
    falling = np.maximum.accumulate(-sign * curve, axis=1)
    wanted = -sign * ph
    left = np.clip((falling <= wanted[:, None]).sum(axis=1) - 1, 0, knots.size - 2)
    row = np.arange(curve.shape[0])
    low, high = falling[row, left], falling[row, left + 1]
    share = np.clip((wanted - low) / np.maximum(high - low, 1e-9), -0.5, 1.5)
    return np.asarray(knots[left] + share * (knots[left + 1] - knots[left]), dtype=np.float64)
