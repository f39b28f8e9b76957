"""The dose surface as machine code, for many beds one after the other.

The rules are those of ``core.dose_surface``, a curve at a time instead of
all curves step by step: there most of the time goes into arrays made to be thrown away.
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
        sums=COMPILED_SUMS,
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
