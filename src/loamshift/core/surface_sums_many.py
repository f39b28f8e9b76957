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
    worth: FloatArray, grid: FloatArray, enters: FloatArray, leaves: FloatArray, found: BoolArray
) -> None:
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


@outermost
def _fill_read(knots: FloatArray, curve: FloatArray, amounts: FloatArray, ph: FloatArray) -> None:
    last = knots.size - 1
    for row in range(curve.shape[0]):
        for place in range(amounts.shape[1]):
            inside = min(max(amounts[row, place], knots[0]), knots[last])
            left = 0
            while left < last - 1 and knots[left + 1] <= inside:
                left += 1
            share = (inside - knots[left]) / (knots[left + 1] - knots[left])
            low, high = curve[row, left], curve[row, left + 1]
            ph[row, place] = low + share * (high - low)


@outermost
def _fill_passing(
    knots: FloatArray, curve: FloatArray, ph: float, sign: float, found: FloatArray
) -> None:
    count, wanted = knots.size, -sign * ph
    for row in range(curve.shape[0]):
        most = -sign * curve[row, 0]
        if most > wanted:
            found[row] = -np.inf
            continue
        found[row] = np.inf
        for knot in range(1, count):
            beyond = max(most, -sign * curve[row, knot])
            if beyond > wanted:
                share = (wanted - most) / max(beyond - most, THINNEST_STEP_PH)
                found[row] = knots[knot - 1] + share * (knots[knot] - knots[knot - 1])
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
    found = np.empty((worth.shape[0], grid.shape[1]), dtype=np.bool_)
    _fill_within(
        np.ascontiguousarray(worth),
        grid,
        np.ascontiguousarray(enters),
        np.ascontiguousarray(leaves),
        found,
    )
    return found


def _past(
    worth: FloatArray, amounts: tuple[FloatArray | float, ...], limits: FloatArray
) -> BoolArray:
    """By machine code where every bed is given the same, else as it is."""
    grid = _shared_grid(amounts)
    if grid is None:
        return counted_past(worth, amounts, limits)
    found = np.empty((worth.shape[0], grid.shape[1]), dtype=np.bool_)
    nowhere = np.full(limits.shape, -np.inf)
    _fill_within(np.ascontiguousarray(worth), grid, nowhere, np.ascontiguousarray(limits), found)
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


def _read(knots: FloatArray, curve: FloatArray, amounts: FloatArray) -> FloatArray:
    wide = np.ascontiguousarray(amounts.reshape(curve.shape[0], -1))
    ph = np.empty_like(wide)
    _fill_read(knots, np.ascontiguousarray(curve), wide, ph)
    return ph.reshape(amounts.shape)


def _passing(knots: FloatArray, curve: FloatArray, ph: float, *, sign: float) -> FloatArray:
    found = np.empty(curve.shape[0])
    _fill_passing(knots, np.ascontiguousarray(curve), ph=float(ph), sign=float(sign), found=found)
    return found


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
