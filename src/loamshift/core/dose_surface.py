"""What each possible bed does under any amounts in any season, from a few runs.

A run with one amount in the first season gives one point of a curve for each bed and day; an
amount in a later season counts as so many of the first season's, for each bed and day its own, by
one run more.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.counted_amounts import counted_g_m2
from loamshift.core.monotone_cubic import with_midpoints
from loamshift.core.surface_sums import PLAIN_SUMS, SurfaceSums
from loamshift.errors import InputError

FloatArray = NDArray[np.float64]

WORTH_DAYS: Final = 40
"""Days of each later season on which its worth is worked out; straight between them [count]."""
MOST_WORTH: Final = 8.0
"""A later amount never counts as more than this many of the first season's [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseSurface:
    """pH of M beds on D days under amounts by season.

    ``amounts_g_m2`` (K) rising from 0; ``ph`` (M, D, K) pH with each of them in the first
    season; ``worth`` (M, S, D) what a gram of each season counts as on that day, 1 for the
    first [-]; ``sign`` 1 where more lowers the pH, -1 where it raises it. ``furthest_ph``
    (M, W, K) and ``furthest_worth`` (M, W, S) the same for the furthest the pH gets the way of
    the amount within each of W spells. ``sums`` are the ways all this is asked.
    """

    amounts_g_m2: FloatArray
    ph: FloatArray
    worth: FloatArray
    furthest_ph: FloatArray
    furthest_worth: FloatArray
    sign: float
    sums: SurfaceSums = PLAIN_SUMS

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
        return self._read(self.ph[:, day], counted_g_m2(self.worth[:, :, day], amounts_g_m2))

    def course(
        self, amounts_g_m2: tuple[FloatArray | float, ...], *, days: slice = slice(None)
    ) -> FloatArray:
        """PH of every bed on all days, or some of them.

        Parameters
        ----------
        amounts_g_m2
            One a season, each a number or shape (M,) [g/m2].
        days
            Which of the days [slice].

        Returns
        -------
        ndarray
            Shape (M, D) [pH].
        """
        total = np.zeros_like(self.worth[:, 0, days])
        for season, amount in enumerate(amounts_g_m2):
            given = np.asarray(amount, dtype=np.float64)
            total += self.worth[:, season, days] * (given[:, None] if given.ndim else given)
        return self._read(self.ph[:, days], total)

    def furthest(self, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
        """The furthest the pH of every bed gets the way of the amounts, in any spell.

        Parameters
        ----------
        amounts_g_m2
            One a season, each a number or shape (M,) or (M, A) [g/m2].

        Returns
        -------
        ndarray
            Shape (M,) or (M, A) [pH].
        """
        spells = [
            self._read(self.furthest_ph[:, spell], counted_g_m2(worth, amounts_g_m2))
            for spell, worth in enumerate(self.furthest_worth.swapaxes(0, 1))
        ]
        reach = np.minimum.reduce if self.sign > 0.0 else np.maximum.reduce
        return np.asarray(reach(spells), dtype=np.float64)

    def passing(self, day: int, ph: float) -> FloatArray:
        """First-season amount with which each bed passes a pH on a day.

        Parameters
        ----------
        day
            Which of the days [index].
        ph
            The pH [pH].

        Returns
        -------
        ndarray
            Shape (M,); minus infinity for a bed past it without any, infinity for one that none
            of the amounts takes there [g/m2].
        """
        return self.sums.passing(self.amounts_g_m2, self.ph[:, day], ph, sign=self.sign)

    def passing_ever(self, ph: float) -> FloatArray:
        """First-season amount with which each bed passes a pH within each spell.

        Parameters
        ----------
        ph
            The pH [pH].

        Returns
        -------
        ndarray
            Shape (M, W), infinities as for one day [g/m2].
        """
        return self.sums.passing(self.amounts_g_m2, self.furthest_ph, ph, sign=self.sign)

    def _read(self, curve: FloatArray, total: FloatArray) -> FloatArray:
        return self.sums.read(self.amounts_g_m2, curve, total)


def dose_surface(
    amounts_g_m2: FloatArray,
    ph: FloatArray,
    *,
    later_ph: tuple[FloatArray, ...],
    later_from: tuple[int, ...],
    reference_g_m2: float,
    sign: float,
    spells: tuple[slice, ...],
) -> DoseSurface:
    """A surface from its runs.

    Parameters
    ----------
    amounts_g_m2
        Amounts run in the first season, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, shape (M, D, K) [pH].
    later_ph
        For each later season, pH with the reference in every season up to it, shape (M, D) [pH].
    later_from
        The day each of them begins [index].
    reference_g_m2
        That amount, above 0 [g/m2].
    sign
        1 for acid, -1 for lime [-].
    spells
        Days over which the furthest pH is looked for: the shorter each spell, the closer
        [slices].

    Returns
    -------
    DoseSurface
        The surface, with one more amount half way between every two [object].

    Raises
    ------
    InputError
        For amounts that do not rise from 0, or shapes that do not fit.

    Notes
    -----
    The worth of a later amount is what the first season would have needed for the same pH, less
    what the seasons before it count for, over the reference; kept between 0 and 8. It differs
    from bed to bed and from day to day: lime of the first season is partly lost by the third, in
    one bed more than in another.

    References
    ----------
    own-arithmetic

    Examples
    --------
    One bed that 100 g/m2 take down by one, on one day:

    >>> made = dose_surface(np.array([0.0, 100.0]), np.array([[[6.5, 5.5]]]), later_ph=(),
    ...                     later_from=(), reference_g_m2=50.0, sign=1.0, spells=(slice(0, 1),))
    >>> made.at(0, (25.0,)).tolist()
    [6.25]
    """
    if ph.ndim != 3:
        raise InputError(f"ph {ph.shape} needs one value per amount ({amounts_g_m2.size})")
    runs = tuple(np.moveaxis(ph, 2, 0))
    checked_runs(amounts_g_m2, runs, later_ph=later_ph, later_from=later_from)
    furthest = np.stack([_furthest(ph, sign=sign, days=one) for one in spells], axis=1)
    amounts, curves = _finer(amounts_g_m2, ph)
    _, far_curves = _finer(amounts_g_m2, furthest)
    beds, days = ph.shape[:2]
    seasons = len(later_ph) + 1
    worth, far_worth = np.ones((beds, seasons, days)), np.ones((beds, len(spells), seasons))
    counted, far_counted = np.ones((beds, days)), np.ones((beds, len(spells)))
    for season, (later, start) in enumerate(zip(later_ph, later_from, strict=True), start=1):
        some = some_days(start, days)
        few = _worth(
            amounts, curves[:, some], later[:, some], reference_g_m2, counted[:, some], sign=sign
        )
        few[:, 0] = 0.0
        one = np.zeros((beds, days))
        one[:, start:] = _between(few, some)
        far = np.stack(
            [_furthest(later[:, :, None], sign=sign, days=spell)[:, 0] for spell in spells], axis=1
        )
        far_one = _worth(amounts, far_curves, far, reference_g_m2, far_counted, sign=sign)
        far_one[:, [spell.stop <= start + 1 for spell in spells]] = 0.0
        worth[:, season], far_worth[:, :, season] = one, far_one
        counted, far_counted = counted + one, far_counted + far_one
    return DoseSurface(
        amounts_g_m2=amounts,
        ph=curves,
        worth=worth,
        furthest_ph=far_curves,
        furthest_worth=far_worth,
        sign=sign,
    )


def surface_of_runs(
    amounts_g_m2: FloatArray,
    ph: tuple[FloatArray, ...],
    *,
    later_ph: tuple[FloatArray, ...],
    later_from: tuple[int, ...],
    reference_g_m2: float,
    sign: float,
    spells: tuple[slice, ...],
) -> DoseSurface:
    """``dose_surface`` with a run for each amount.

    Parameters
    ----------
    amounts_g_m2
        Amounts run in the first season, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, K arrays of shape (M, D) [pH].
    later_ph
        As for ``dose_surface`` [pH].
    later_from
        As there [index].
    reference_g_m2
        As there [g/m2].
    sign
        As there [-].
    spells
        As there [slices].

    Returns
    -------
    DoseSurface
        The surface [object].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> two = np.array([[6.5]]), np.array([[5.5]])
    >>> made = surface_of_runs(np.array([0.0, 100.0]), two, later_ph=(), later_from=(),
    ...                        reference_g_m2=50.0, sign=1.0, spells=(slice(0, 1),))
    >>> made.at(0, (25.0,)).tolist()
    [6.25]
    """
    return dose_surface(
        amounts_g_m2,
        np.stack(ph, axis=2),
        later_ph=later_ph,
        later_from=later_from,
        reference_g_m2=reference_g_m2,
        sign=sign,
        spells=spells,
    )


def checked_runs(
    amounts_g_m2: FloatArray,
    ph: tuple[FloatArray, ...],
    *,
    later_ph: tuple[FloatArray, ...],
    later_from: tuple[int, ...],
) -> None:
    """Stop where the runs of a surface do not fit together.

    Parameters
    ----------
    amounts_g_m2
        Amounts run, shape (K,) [g/m2].
    ph
        pH with each, K arrays [pH].
    later_ph
        Runs of the later seasons [pH].
    later_from
        The day each of them begins [index].

    Raises
    ------
    InputError
        For amounts that do not rise from 0, or numbers that do not fit.
    """
    if amounts_g_m2.ndim != 1 or amounts_g_m2[0] != 0.0 or not np.all(np.diff(amounts_g_m2) > 0.0):
        raise InputError("amounts_g_m2 must rise from 0")
    if len(ph) != amounts_g_m2.size:
        raise InputError(f"ph {len(ph)} needs one value per amount ({amounts_g_m2.size})")
    if len(later_from) != len(later_ph):
        raise InputError(f"{len(later_ph)} later seasons begin on as many days: {later_from}")


def _finer(amounts_g_m2: FloatArray, curves: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Curves (M, D, K) with one more amount between every two."""
    finer, values = with_midpoints(amounts_g_m2, np.moveaxis(curves, 2, 0))
    return finer, np.ascontiguousarray(np.moveaxis(values, 0, 2))


def some_days(start: int, days: int) -> NDArray[np.int64]:
    """Some days from one to the last, both among them: what a gram counts as is smooth.

    Parameters
    ----------
    start
        The first [index].
    days
        Number of all days [count].

    Returns
    -------
    ndarray
        Rising [index].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> some_days(3, 6).tolist()
    [3, 4, 5]
    """
    count = min(days - start, WORTH_DAYS)
    return np.linspace(start, days - 1, count).round().astype(np.int64)


def _between(values: FloatArray, days: NDArray[np.int64]) -> FloatArray:
    """Values by bed on some days, straight between them: every day from the first to the last."""
    every = np.arange(days[0], days[-1] + 1)
    left = np.clip(np.searchsorted(days, every, side="right") - 1, 0, max(days.size - 2, 0))
    right = np.minimum(left + 1, days.size - 1)
    share = (every - days[left]) / np.maximum(days[right] - days[left], 1)
    low = values[:, left]
    return np.asarray(low + share * (values[:, right] - low), dtype=np.float64)


def _furthest(ph: FloatArray, *, sign: float, days: slice) -> FloatArray:
    seen = ph[:, days]
    return np.asarray(seen.min(axis=1) if sign > 0.0 else seen.max(axis=1), dtype=np.float64)


def _worth(
    amounts_g_m2: FloatArray,
    curves: FloatArray,
    ph: FloatArray,
    reference_g_m2: float,
    counted: FloatArray,
    *,
    sign: float,
) -> FloatArray:
    """What the reference of one more season counts as, in references: by bed and day."""
    flat = curves.reshape(-1, amounts_g_m2.size)
    needed = _amount_for(amounts_g_m2, flat, ph.reshape(-1), sign=sign).reshape(ph.shape)
    return np.clip(needed / reference_g_m2 - counted, 0.0, MOST_WORTH)


def _amount_for(knots: FloatArray, curve: FloatArray, ph: FloatArray, *, sign: float) -> FloatArray:
    """Amount at which each curve passes a pH [g/m2]: rows of ``curve`` by ``ph``."""
    falling = np.maximum.accumulate(-sign * curve, axis=1)
    wanted = -sign * ph
    left = np.clip((falling <= wanted[:, None]).sum(axis=1) - 1, 0, knots.size - 2)
    row = np.arange(curve.shape[0])
    low, high = falling[row, left], falling[row, left + 1]
    share = np.clip((wanted - low) / np.maximum(high - low, 1e-9), -0.5, 1.5)
    return np.asarray(knots[left] + share * (knots[left + 1] - knots[left]), dtype=np.float64)
