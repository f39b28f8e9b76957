"""The dose surface and its bounds as machine code, for many beds one after the other.

The rules are those of ``core.dose_surface`` and ``core.plan_goal``, a curve at a time instead of
all curves step by step: there most of the time goes into arrays made to be thrown away.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_compile import compiled, inlined, outermost
from loamshift.core.counted_amounts import counted_past, counted_within
from loamshift.core.dose_surface import MOST_WORTH, DoseSurface, checked_runs, some_days

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.int64]
Number = Any

_THINNEST: Final = 1e-9
_LEAST_SHARE: Final = -0.5
_MOST_SHARE: Final = 1.5


@inlined
def _end(step: Number, after: Number, secant: Number, beyond: Number) -> Number:
    """Three-point slope at an end, kept from overshooting, as in ``core.monotone_cubic``."""
    slope = ((2.0 * step + after) * secant - step * beyond) / (step + after)
    if slope * secant <= 0.0:
        return 0.0
    if secant * beyond <= 0.0 and abs(slope) > 3.0 * abs(secant):
        return 3.0 * secant
    return slope


@compiled
def _midpoints(knots: FloatArray, curve: FloatArray, slope: FloatArray, fine: FloatArray) -> None:
    """One curve with a point half way between every two, as ``monotone_cubic.with_midpoints``."""
    count = knots.size
    if count == 2:
        slope[0] = slope[1] = (curve[1] - curve[0]) / (knots[1] - knots[0])
    else:
        for i in range(1, count - 1):
            before, after = knots[i] - knots[i - 1], knots[i + 1] - knots[i]
            one = (curve[i] - curve[i - 1]) / before
            two = (curve[i + 1] - curve[i]) / after
            slope[i] = 0.0
            if one * two > 0.0:
                first, second = 2.0 * after + before, after + 2.0 * before
                slope[i] = (first + second) / (first / one + second / two)
        h0, h1 = knots[1] - knots[0], knots[2] - knots[1]
        slope[0] = _end(h0, h1, (curve[1] - curve[0]) / h0, (curve[2] - curve[1]) / h1)
        h0, h1 = knots[count - 1] - knots[count - 2], knots[count - 2] - knots[count - 3]
        slope[count - 1] = _end(
            h0,
            h1,
            (curve[count - 1] - curve[count - 2]) / h0,
            (curve[count - 2] - curve[count - 3]) / h1,
        )
    for i in range(count - 1):
        step = knots[i + 1] - knots[i]
        fine[2 * i] = curve[i]
        fine[2 * i + 1] = 0.5 * (curve[i] + curve[i + 1]) + 0.125 * step * (slope[i] - slope[i + 1])
    fine[2 * count - 2] = curve[count - 1]


@compiled
def _amount_at(knots: FloatArray, curve: FloatArray, ph: float, sign: float) -> float:
    """Amount at which one curve passes a pH, as in ``core.dose_surface``."""
    wanted = -sign * ph
    left, low, high = 0, -sign * curve[0], -sign * curve[0]
    for i in range(knots.size - 1):
        beyond = max(high, -sign * curve[i + 1])
        left, low, high = i, high, beyond
        if beyond > wanted:
            break
    share = (wanted - low) / max(high - low, _THINNEST)
    share = min(max(share, _LEAST_SHARE), _MOST_SHARE)
    return float(knots[left] + share * (knots[left + 1] - knots[left]))


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
    curves: FloatArray,
    far_curves: FloatArray,
    worth: FloatArray,
    far_worth: FloatArray,
) -> None:
    """Curves and worths of a surface, bed by bed.

    Parameters
    ----------
    knots
        Amounts that were run, rising from 0, shape (K,) [g/m2].
    ph
        pH with each, shape (K, M, D) [pH].
    later
        With the reference in every season up to each later one, shape (L, M, D) [pH].
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
        To work in, shape (3, K + D) [mixed].
    curves
        Takes the pH, shape (M, D, 2 K - 1) [pH].
    far_curves
        Takes the furthest of each spell, shape (M, W, 2 K - 1) [pH].
    worth
        Takes what a gram of each season counts as, ones before, shape (M, L + 1, D) [-].
    far_worth
        The same by spell, ones before, shape (M, W, L + 1) [-].

    References
    ----------
    own-arithmetic

    Examples
    --------
    See :func:`dose_surface_many`.

    >>> callable(fill_surface)
    True
    """
    beds, days = ph.shape[1], ph.shape[2]
    curve, slope, few = room[0], room[1], room[2]
    count = knots.size
    for bed in range(beds):
        for day in range(days):
            for k in range(count):
                curve[k] = ph[k, bed, day]
            _midpoints(knots, curve[:count], slope[:count], curves[bed, day])
        for spell in range(spells.shape[0]):
            for k in range(count):
                furthest = sign * ph[k, bed, spells[spell, 0]]
                for day in range(spells[spell, 0], spells[spell, 1]):
                    furthest = min(furthest, sign * ph[k, bed, day])
                curve[k] = sign * furthest
            _midpoints(knots, curve[:count], slope[:count], far_curves[bed, spell])
        for season in range(starts.size):
            start, here = starts[season], 0
            while here < some.shape[1] and some[season, here] >= 0:
                day = some[season, here]
                counted = 0.0
                for before in range(season + 1):
                    counted += worth[bed, before, day]
                amount = _amount_at(finer, curves[bed, day], ph=later[season, bed, day], sign=sign)
                few[here] = min(max(amount / reference - counted, 0.0), MOST_WORTH)
                here += 1
            few[0] = 0.0
            for day in range(start):
                worth[bed, season + 1, day] = 0.0
            left = 0
            for day in range(start, days):
                while left < here - 2 and some[season, left + 1] <= day:
                    left += 1
                right = min(left + 1, here - 1)
                width = max(some[season, right] - some[season, left], 1)
                share = (day - some[season, left]) / width
                worth[bed, season + 1, day] = few[left] + share * (few[right] - few[left])
            for spell in range(spells.shape[0]):
                counted = 0.0
                for before in range(season + 1):
                    counted += far_worth[bed, spell, before]
                furthest = sign * later[season, bed, spells[spell, 0]]
                for day in range(spells[spell, 0], spells[spell, 1]):
                    furthest = min(furthest, sign * later[season, bed, day])
                amount = _amount_at(finer, far_curves[bed, spell], ph=sign * furthest, sign=sign)
                found = min(max(amount / reference - counted, 0.0), MOST_WORTH)
                if spells[spell, 1] <= start + 1:
                    found = 0.0
                far_worth[bed, spell, season + 1] = found


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

    >>> callable(dose_surface_many)
    True
    """
    checked_runs(amounts_g_m2, ph, later_ph=later_ph, later_from=later_from)
    beds, days = ph[0].shape
    count, seasons = amounts_g_m2.size, len(later_ph) + 1
    finer = np.empty(2 * count - 1)
    finer[::2] = amounts_g_m2
    finer[1::2] = 0.5 * (amounts_g_m2[:-1] + amounts_g_m2[1:])
    some = np.full((max(len(later_ph), 1), days), -1, dtype=np.int64)
    for season, start in enumerate(later_from):
        chosen = some_days(start, days)
        some[season, : chosen.size] = chosen
    made = DoseSurface(
        amounts_g_m2=finer,
        ph=np.empty((beds, days, finer.size)),
        worth=np.ones((beds, seasons, days)),
        furthest_ph=np.empty((beds, len(spells), finer.size)),
        furthest_worth=np.ones((beds, len(spells), seasons)),
        sign=sign,
        within=within_many,
        past=past_many,
    )
    fill_surface(
        amounts_g_m2,
        np.array(ph),
        np.array(later_ph) if later_ph else np.empty((0, beds, days)),
        np.array(later_from, dtype=np.int64),
        some,
        np.array([(one.start, one.stop) for one in spells], dtype=np.int64),
        reference=reference_g_m2,
        sign=sign,
        finer=finer,
        room=np.empty((3, count + days)),
        curves=made.ph,
        far_curves=made.furthest_ph,
        worth=made.worth,
        far_worth=made.furthest_worth,
    )
    return made


@outermost
def fill_within(
    worth: FloatArray,
    grid: FloatArray,
    enters: FloatArray,
    leaves: FloatArray,
    found: BoolArray,
) -> None:
    """Which amounts lie between bounds on every day, bed by bed.

    Parameters
    ----------
    worth
        What a gram of each season counts as, shape (M, W, S) [-].
    grid
        Amounts of each season side by side, shape (S, A) [g/m2].
    enters
        Lower bounds, shape (M, W) [g/m2].
    leaves
        Upper bounds, shape (M, W) [g/m2].
    found
        Takes the answers, shape (M, A) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    See :func:`within_many`.

    >>> callable(fill_within)
    True
    """
    for bed in range(worth.shape[0]):
        for place in range(grid.shape[1]):
            holds = True
            for day in range(worth.shape[1]):
                total = 0.0
                for season in range(grid.shape[0]):
                    total += worth[bed, day, season] * grid[season, place]
                if not enters[bed, day] <= total <= leaves[bed, day]:
                    holds = False
                    break
            found[bed, place] = holds


def within_many(
    worth: FloatArray,
    amounts: tuple[FloatArray | float, ...],
    enters: FloatArray,
    leaves: FloatArray,
) -> BoolArray:
    """``counted_within`` as machine code where every bed is given the same, else as it is.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed on each day, shape (M, W, S) [-].
    amounts
        One a season, each a number or shape (M,) or (M, A) [g/m2].
    enters
        Lower bounds, shape (M, W) [g/m2].
    leaves
        Upper bounds, shape (M, W) [g/m2].

    Returns
    -------
    ndarray
        Shape (M,) or (M, A) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> grid = np.broadcast_to(np.array([10.0, 90.0]), (1, 2))
    >>> ends = np.array([[20.0]]), np.array([[95.0]])
    >>> within_many(np.ones((1, 1, 1)), (grid,), *ends).tolist()
    [[False, True]]
    """
    grid = _shared_grid(amounts)
    if grid is None:
        return counted_within(worth, amounts, enters, leaves)
    found = np.empty((worth.shape[0], grid.shape[1]), dtype=np.bool_)
    fill_within(np.ascontiguousarray(worth), grid, enters, leaves, found)
    return found


def past_many(
    worth: FloatArray, amounts: tuple[FloatArray | float, ...], limits: FloatArray
) -> BoolArray:
    """``counted_past`` as machine code where every bed is given the same, else as it is.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed in each spell, shape (M, W, S) [-].
    amounts
        One a season, each a number or shape (M,) or (M, A) [g/m2].
    limits
        Bounds, shape (M, W) [g/m2].

    Returns
    -------
    ndarray
        Shape (M,) or (M, A) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> grid = np.broadcast_to(np.array([10.0, 90.0]), (1, 2))
    >>> past_many(np.ones((1, 1, 1)), (grid,), np.array([[20.0]])).tolist()
    [[False, True]]
    """
    grid = _shared_grid(amounts)
    if grid is None:
        return counted_past(worth, amounts, limits)
    found = np.empty((worth.shape[0], grid.shape[1]), dtype=np.bool_)
    nowhere = np.full(limits.shape, -np.inf)
    fill_within(np.ascontiguousarray(worth), grid, nowhere, limits, found)
    return np.asarray(~found)


def _shared_grid(amounts: tuple[FloatArray | float, ...]) -> FloatArray | None:
    """Amounts (S, A) that all beds are given alike; None where they are not."""
    wide = [np.asarray(one, dtype=np.float64) for one in amounts]
    if not any(one.ndim == 2 for one in wide):
        return None
    if any(one.ndim == 1 or (one.ndim == 2 and one.strides[0] != 0) for one in wide):
        return None
    places = next(one.shape[1] for one in wide if one.ndim == 2)
    grid = np.empty((len(wide), places))
    for season, one in enumerate(wide):
        grid[season] = one[0] if one.ndim == 2 else one
    return grid
