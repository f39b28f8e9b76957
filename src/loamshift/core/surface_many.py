"""The dose surface as machine code, for many beds one after the other.

The rules are those of ``core.dose_surface``, bed beside bed in one pass instead of all curves
step by step: there most of the time goes into arrays made to be thrown away.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_compile import compiled, inlined, outermost
from loamshift.core.dose_surface import MOST_WORTH, DoseSurface, checked_runs, some_days
from loamshift.core.surface_sums_many import COMPILED_SUMS

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
Number = Any

_THINNEST: Final = 1e-9
_LEAST_SHARE: Final = -0.5
_MOST_SHARE: Final = 1.5


@inlined
def _least(one: Number, other: Number) -> Number:
    return one if one < other else other


@inlined
def _most(one: Number, other: Number) -> Number:
    return one if one > other else other


@inlined
def _end(step: Number, after: Number, secant: Number, beyond: Number) -> Number:
    """Three-point slope at an end, kept from overshooting, as in ``core.monotone_cubic``."""
    slope = ((2.0 * step + after) * secant - step * beyond) / (step + after)
    kept = 3.0 * secant if secant * beyond <= 0.0 and abs(slope) > 3.0 * abs(secant) else slope
    return 0.0 if slope * secant <= 0.0 else kept


@inlined
def _between(before: Number, after: Number, one: Number, two: Number) -> Number:
    """Slope at a knot between two secants, nothing where they turn, as in the same."""
    first, second = 2.0 * after + before, after + 2.0 * before
    mean = (first + second) / (first / one + second / two)
    return mean if one * two > 0.0 else 0.0


@compiled
def _midpoints(
    knots: FloatArray, ph: FloatArray, day: int, slope: FloatArray, fine: FloatArray
) -> None:
    """The curves of a day with a point half way between every two knots, bed beside bed, as
    ``monotone_cubic.with_midpoints``."""
    last, beds = knots.size - 1, ph.shape[2]
    for i in range(1, last):
        before, after = knots[i] - knots[i - 1], knots[i + 1] - knots[i]
        for j in range(beds):
            one = (ph[i, day, j] - ph[i - 1, day, j]) / before
            two = (ph[i + 1, day, j] - ph[i, day, j]) / after
            slope[i, j] = _between(before, after, one, two)
    step, ending = knots[1] - knots[0], knots[last] - knots[last - 1]
    if last == 1:
        for j in range(beds):
            slope[0, j] = slope[1, j] = (ph[1, day, j] - ph[0, day, j]) / step
    else:
        after, before = knots[2] - knots[1], knots[last - 1] - knots[last - 2]
        for j in range(beds):
            one = (ph[1, day, j] - ph[0, day, j]) / step
            two = (ph[2, day, j] - ph[1, day, j]) / after
            slope[0, j] = _end(step, after, one, two)
        for j in range(beds):
            one = (ph[last, day, j] - ph[last - 1, day, j]) / ending
            two = (ph[last - 1, day, j] - ph[last - 2, day, j]) / before
            slope[last, j] = _end(ending, before, one, two)
    for i in range(last):
        eighth = 0.125 * (knots[i + 1] - knots[i])
        for j in range(beds):
            one, two = ph[i, day, j], ph[i + 1, day, j]
            fine[2 * i, day, j] = one
            bent = eighth * (slope[i, j] - slope[i + 1, j])
            fine[2 * i + 1, day, j] = 0.5 * (one + two) + bent
    for j in range(beds):
        fine[2 * last, day, j] = ph[last, day, j]


@compiled
def _furthest(ph: FloatArray, first: int, end: int, sign: float, found: FloatArray) -> None:
    """The furthest pH of each bed on the days from one to before another, by ``sign``."""
    for j in range(found.size):
        found[j] = sign * ph[first, j]
    for day in range(first + 1, end):
        for j in range(found.size):
            found[j] = _least(found[j], sign * ph[day, j])
    for j in range(found.size):
        found[j] = sign * found[j]


@compiled
def _count(worth: FloatArray, counted: FloatArray) -> None:
    """What all seasons so far count as together; seasons and beds of ``worth``."""
    counted[:] = 0.0
    for season in range(worth.shape[0]):
        for j in range(counted.size):
            counted[j] += worth[season, j]


@compiled
def _mix(one: FloatArray, other: FloatArray, share: float, found: FloatArray) -> None:
    """A share of the way from one to another."""
    for j in range(found.size):
        found[j] = one[j] + share * (other[j] - one[j])


@compiled
def _worths(
    knots: FloatArray,
    curves: FloatArray,
    ph: FloatArray,
    counted: FloatArray,
    room: FloatArray,
    found: FloatArray,
    day: int,
    reference: float,
    sign: float,
) -> None:
    """What the reference of one more season counts as, in references, as in
    ``core.dose_surface``: by the amount at which each curve of a day passes a pH."""
    low, high, under, width = room[0], room[1], room[2], room[3]
    for j in range(found.size):
        high[j] = -sign * curves[0, day, j]
        low[j], under[j], width[j] = -np.inf, 0.0, 0.0
    for i in range(knots.size - 1):
        foot, step = knots[i], knots[i + 1] - knots[i]
        for j in range(found.size):
            is_past = i > 0 and high[j] > -sign * ph[j]
            beyond = _most(high[j], -sign * curves[i + 1, day, j])
            low[j] = low[j] if is_past else high[j]
            high[j] = high[j] if is_past else beyond
            under[j] = under[j] if is_past else foot
            width[j] = width[j] if is_past else step
    for j in range(found.size):
        share = (-sign * ph[j] - low[j]) / _most(high[j] - low[j], _THINNEST)
        share = _least(_most(share, _LEAST_SHARE), _MOST_SHARE)
        amount = under[j] + share * width[j]
        found[j] = _least(_most(amount / reference - counted[j], 0.0), MOST_WORTH)


@outermost
def fill_surface(
    knots: FloatArray,
    ph: FloatArray,
    later: FloatArray,
    starts: IntArray,
    some: IntArray,
    spells: IntArray,
    reference: float,
    sign: float,
    finer: FloatArray,
    room: FloatArray,
    far: FloatArray,
    few: FloatArray,
    curves: FloatArray,
    far_curves: FloatArray,
    worth: FloatArray,
    far_worth: FloatArray,
) -> None:
    """Curves and worths of a surface, day by day and bed beside bed.

    Parameters
    ----------
    knots
        Amounts that were run, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, shape (K, D, M) [pH].
    later
        With the reference in every season up to each later one, shape (L, D, M) [pH].
    starts
        The day each of them begins, shape (L,) [index].
    some
        Days on which its worth is worked out, filled up with -1, shape (L, N) [index].
    spells
        First day and the one after the last of each spell, shape (W, 2) [index].
    reference
        The reference, above 0 [g/m2].
    sign
        1 for acid, -1 for lime [-].
    finer
        Amounts with one half way between every two, shape (2 K - 1,) [g/m2].
    room
        To work in, shape (K + 5, M) [mixed].
    far
        To work in, shape (K, W, M) [pH].
    few
        To work in, shape (N, M) [-].
    curves
        Takes the pH, shape (2 K - 1, D, M) [pH].
    far_curves
        Takes the furthest of each spell, shape (2 K - 1, W, M) [pH].
    worth
        Takes what a gram of each season counts as, ones before, shape (L + 1, D, M) [-].
    far_worth
        The same by spell, ones before, shape (L + 1, W, M) [-].

    Notes
    -----
    A loop over beds that calls nothing but formulas put into it is one the compiler works out
    several beds at a time.

    References
    ----------
    own-arithmetic

    Examples
    --------
    See :func:`dose_surface_many`.
    """
    days = ph.shape[1]
    counted, own = room[4], room[5:]
    for day in range(days):
        _midpoints(knots, ph, day, own, curves)
    for spell in range(spells.shape[0]):
        for k in range(knots.size):
            _furthest(ph[k], spells[spell, 0], spells[spell, 1], sign, far[k, spell])
        _midpoints(knots, far, spell, own, far_curves)
    for season in range(starts.size):
        start, here = starts[season], 0
        while here < some.shape[1] and some[season, here] >= 0:
            day = some[season, here]
            _count(worth[: season + 1, day], counted)
            _worths(
                *(finer, curves, later[season, day], counted, room, few[here]),
                day=day,
                reference=reference,
                sign=sign,
            )
            here += 1
        few[0] = 0.0
        worth[season + 1, :start] = 0.0
        left = 0
        for day in range(start, days):
            while left < here - 2 and some[season, left + 1] <= day:
                left += 1
            right = min(left + 1, here - 1)
            share = (day - some[season, left]) / max(some[season, right] - some[season, left], 1)
            _mix(few[left], few[right], share, worth[season + 1, day])
        for spell in range(spells.shape[0]):
            _count(far_worth[: season + 1, spell], counted)
            furthest, found = few[0], far_worth[season + 1, spell]
            _furthest(later[season], spells[spell, 0], spells[spell, 1], sign, furthest)
            _worths(
                *(finer, far_curves, furthest, counted, room, found),
                day=spell,
                reference=reference,
                sign=sign,
            )
            if spells[spell, 1] <= start + 1:
                found[:] = 0.0


def dose_surface_many(
    amounts_g_m2: FloatArray,
    ph: tuple[FloatArray, ...],
    *,
    later_ph: tuple[FloatArray, ...],
    later_from: tuple[int, ...],
    reference_g_m2: float,
    sign: float,
    spells: tuple[slice, ...],
) -> DoseSurface:
    """``surface_of_runs`` as machine code.

    Parameters
    ----------
    amounts_g_m2
        Amounts run in the first season, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, K arrays of shape (M, D) [pH].
    later_ph
        For each later season, pH with the reference in every season up to it, shape (M, D) [pH].
    later_from
        The day each of them begins [index].
    reference_g_m2
        That amount, above 0 [g/m2].
    sign
        1 for acid, -1 for lime [-].
    spells
        Days over which the furthest pH is looked for [slices].

    Returns
    -------
    DoseSurface
        The surface, whose bounds are found by machine code too [object].

    Raises
    ------
    InputError
        For amounts that do not rise from 0, or shapes that do not fit.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Held to ``surface_of_runs`` in ``tests/core/test_many_loops.py``.

    >>> two = np.array([[6.5]]), np.array([[5.5]])
    >>> made = dose_surface_many(np.array([0.0, 100.0]), two, later_ph=(), later_from=(),
    ...                          reference_g_m2=50.0, sign=1.0, spells=(slice(0, 1),))
    >>> made.at(0, (25.0,)).tolist()
    [6.25]
    """
    checked_runs(amounts_g_m2, ph, later_ph=later_ph, later_from=later_from)
    beds, days = ph[0].shape
    count, seasons, parts = amounts_g_m2.size, len(later_ph) + 1, len(spells)
    finer = np.empty(2 * count - 1)
    finer[::2] = amounts_g_m2
    finer[1::2] = 0.5 * (amounts_g_m2[:-1] + amounts_g_m2[1:])
    some = np.full((max(len(later_ph), 1), days), -1, dtype=np.int64)
    for season, start in enumerate(later_from):
        chosen = some_days(start, days)
        some[season, : chosen.size] = chosen
    curves = np.empty((finer.size, days, beds))
    far_curves = np.empty((finer.size, parts, beds))
    worth = np.ones((seasons, days, beds))
    far_worth = np.ones((seasons, parts, beds))
    fill_surface(
        amounts_g_m2,
        np.array([one.T for one in ph]),
        np.array([one.T for one in later_ph]) if later_ph else np.empty((0, days, beds)),
        np.array(later_from, dtype=np.int64),
        some,
        np.array([(one.start, one.stop) for one in spells], dtype=np.int64),
        reference=reference_g_m2,
        sign=sign,
        finer=finer,
        room=np.empty((count + 5, beds)),
        far=np.empty((count, parts, beds)),
        few=np.empty((days, beds)),
        curves=curves,
        far_curves=far_curves,
        worth=worth,
        far_worth=far_worth,
    )
    return DoseSurface(
        amounts_g_m2=finer,
        ph=curves.T,
        worth=worth.transpose(2, 0, 1),
        furthest_ph=far_curves.T,
        furthest_worth=far_worth.transpose(2, 1, 0),
        sign=sign,
        sums=COMPILED_SUMS,
    )
