"""``core.surface_sums`` as machine code, for many beds one after the other.

The rules are those of the plain ones, a curve or a bed at a time: there most of the time goes into
arrays made to be thrown away. ``tests/core/test_many_loops.py`` holds each to its plain one.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_compile import outermost
from loamshift.core.counted_amounts import counted_past, counted_within
from loamshift.core.reading_bins import TABLE_P, TABLE_Z
from loamshift.core.rule_lines import HAIR
from loamshift.core.surface_sums import THINNEST_STEP_PH, SurfaceSums

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.int64]

_STEPS_PER_SD: Final = (TABLE_Z.size - 1) / float(TABLE_Z[-1] - TABLE_Z[0])


@outermost
def _fill_within(
    worth: FloatArray,
    grid: FloatArray,
    enters: FloatArray,
    leaves: FloatArray,
    total: FloatArray,
    found: BoolArray,
) -> None:
    """Seasons, days and beds of ``worth``, days and beds of the bounds, amounts and beds found."""
    found[:] = True
    for place in range(grid.shape[1]):
        for day in range(worth.shape[1]):
            total[:] = 0.0
            for season in range(grid.shape[0]):
                amount = grid[season, place]
                for j in range(total.size):
                    total[j] += worth[season, day, j] * amount
            for j in range(total.size):
                holds = (enters[day, j] <= total[j]) & (total[j] <= leaves[day, j])
                found[place, j] = found[place, j] & holds


@outermost
def _fill_read(knots: FloatArray, curve: FloatArray, amounts: FloatArray, ph: FloatArray) -> None:
    """Knots and curves of ``curve``, amounts and curves of ``amounts`` and of what is read."""
    last = knots.size - 1
    for place in range(amounts.shape[0]):
        for j in range(amounts.shape[1]):
            inside = min(max(amounts[place, j], knots[0]), knots[last])
            left = 0
            while left < last - 1 and knots[left + 1] <= inside:
                left += 1
            share = (inside - knots[left]) / (knots[left + 1] - knots[left])
            low, high = curve[left, j], curve[left + 1, j]
            ph[place, j] = low + share * (high - low)


@outermost
def _fill_passing(
    knots: FloatArray, curve: FloatArray, ph: float, sign: float, found: FloatArray
) -> None:
    """Knots and curves of ``curve``."""
    count, wanted = knots.size, -sign * ph
    for j in range(found.size):
        most = -sign * curve[0, j]
        if most > wanted:
            found[j] = -np.inf
            continue
        found[j] = np.inf
        for knot in range(1, count):
            beyond = max(most, -sign * curve[knot, j])
            if beyond > wanted:
                share = (wanted - most) / max(beyond - most, THINNEST_STEP_PH)
                found[j] = knots[knot - 1] + share * (knots[knot] - knots[knot - 1])
                break
            most = beyond


@outermost
def _fill_shares(
    ph: FloatArray, edges: FloatArray, sd: float, z: FloatArray, p: FloatArray, share: FloatArray
) -> None:
    last = z.size - 1
    for bed in range(ph.size):
        before = 0.0
        for edge in range(edges.size):
            wanted = (edges[edge] - ph[bed]) / sd
            if wanted <= z[0]:
                below = p[0]
            elif wanted >= z[last]:
                below = p[last]
            else:
                at = min(int((wanted - z[0]) * _STEPS_PER_SD), last - 1)
                while at > 0 and wanted < z[at]:
                    at -= 1
                while at < last - 1 and wanted >= z[at + 1]:
                    at += 1
                below = (p[at + 1] - p[at]) / (z[at + 1] - z[at]) * (wanted - z[at]) + p[at]
            share[bed, edge] = below - before
            before = below
        share[bed, edges.size] = 1.0 - before


@outermost
def _fill_lines(
    value: FloatArray,
    lines: int,
    total: FloatArray,
    best: FloatArray,
    came: IntArray,
    found: IntArray,
) -> int:
    """The dynamic programme of ``cut_into_lines``, amounts rising; lines found, the last first."""
    bins, choices = value.shape
    for choice in range(choices):
        total[0, choice] = 0.0
        for place in range(bins):
            total[place + 1, choice] = total[place, choice] + value[place, choice]
    best[:] = -np.inf
    came[:] = 0
    for end in range(1, bins + 1):
        for choice in range(choices):
            best[1, end, choice] = total[end, choice]
            came[1, end, choice, 1] = -1
    for line in range(2, lines + 1):
        for choice in range(1, choices):
            running = -np.inf
            start = which_there = 0
            for end in range(1, bins + 1):
                at = end - 1
                upto = best[line - 1, at, 0]
                which = 0
                for one in range(1, choice):
                    if best[line - 1, at, one] > upto + HAIR:
                        which = one
                    upto = max(upto, best[line - 1, at, one])
                here = upto - total[at, choice]
                if at == 0 or here > running + HAIR:
                    start, which_there = at, which
                running = max(running, here)
                best[line, end, choice] = running + total[end, choice]
                came[line, end, choice, 0] = start
                came[line, end, choice, 1] = which_there
    most = -np.inf
    for line in range(lines + 1):
        for choice in range(choices):
            most = max(most, best[line, bins, choice])
    line = choice = -1
    for one in range(lines + 1):
        for other in range(choices):
            if line < 0 and best[one, bins, other] >= most - HAIR:
                line, choice = one, other
    count, end = 0, bins
    while line > 1:
        start = came[line, end, choice, 0]
        found[count, 0], found[count, 1], found[count, 2] = start, end, choice
        choice, end = came[line, end, choice, 1], start
        line -= 1
        count += 1
    found[count, 0], found[count, 1], found[count, 2] = 0, end, choice
    return count + 1


def _within(
    worth: FloatArray,
    amounts: tuple[FloatArray | float, ...],
    enters: FloatArray,
    leaves: FloatArray,
) -> BoolArray:
    """By machine code where every bed is given the same, else as it is."""
    grid = _shared_grid(amounts)
    if grid is None:
        return counted_within(worth, amounts, enters, leaves)
    beds = worth.shape[0]
    found = np.empty((grid.shape[1], beds), dtype=np.bool_)
    bounds = np.ascontiguousarray(enters.T), np.ascontiguousarray(leaves.T)
    by_season = np.ascontiguousarray(worth.transpose(2, 1, 0))
    _fill_within(by_season, grid, *bounds, np.empty(beds), found)
    return found.T


def _past(
    worth: FloatArray, amounts: tuple[FloatArray | float, ...], limits: FloatArray
) -> BoolArray:
    """By machine code where every bed is given the same, else as it is."""
    if _shared_grid(amounts) is None:
        return counted_past(worth, amounts, limits)
    nowhere = np.broadcast_to(-np.inf, limits.shape)
    return np.asarray(~_within(worth, amounts, nowhere, limits))


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


def _read(knots: FloatArray, curve: FloatArray, amounts: FloatArray) -> FloatArray:
    by_knot = np.ascontiguousarray(curve.T).reshape(knots.size, -1)
    wide = np.ascontiguousarray(amounts.T)
    ph = np.empty_like(wide)
    rows = -1, by_knot.shape[1]
    _fill_read(knots, by_knot, wide.reshape(rows), ph.reshape(rows))
    return ph.T


def _passing(knots: FloatArray, curve: FloatArray, ph: float, *, sign: float) -> FloatArray:
    by_knot = np.ascontiguousarray(curve.T).reshape(knots.size, -1)
    found = np.empty(by_knot.shape[1])
    _fill_passing(knots, by_knot, ph=float(ph), sign=float(sign), found=found)
    return found.reshape(curve.shape[-2::-1]).T


def _shares(ph: FloatArray, edges_ph: FloatArray, *, sd_ph: float) -> FloatArray:
    share = np.empty((ph.size, edges_ph.size + 1))
    _fill_shares(
        np.ascontiguousarray(ph),
        np.ascontiguousarray(edges_ph),
        float(sd_ph),
        TABLE_Z,
        TABLE_P,
        share,
    )
    return share


def _cut(value: FloatArray, *, lines: int, rising: bool) -> tuple[tuple[int, int, int], ...]:
    bins, choices = value.shape
    found = np.empty((lines, 3), dtype=np.int64)
    count = _fill_lines(
        np.ascontiguousarray(value if rising else value[::-1]),
        lines,
        np.empty((bins + 1, choices)),
        np.empty((lines + 1, bins + 1, choices)),
        np.empty((lines + 1, bins + 1, choices, 2), dtype=np.int64),
        found,
    )
    cut = [(one[0], one[1], one[2]) for one in found[:count].tolist() if one[1] > one[0]]
    if rising:
        return tuple(cut[::-1])
    return tuple((bins - end, bins - start, choice) for start, end, choice in cut)


COMPILED_SUMS: Final = SurfaceSums(
    within=_within, past=_past, read=_read, passing=_passing, shares=_shares, cut=_cut
)
"""By machine code: within a last place of ``PLAIN_SUMS``."""
