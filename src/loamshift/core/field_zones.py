"""A field cut into a few zones that a spreader can follow."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]


def steps_of_need(need: FloatArray, *, most: int, explained_frac: float) -> FloatArray:
    """The fewest steps that needs above nothing fall into without losing what tells them apart.

    Parameters
    ----------
    need
        What each cell needs, shape (P,) [any unit].
    most
        Most steps, 1 or more [count].
    explained_frac
        Share of their variance that the steps must keep [0-1].

    Returns
    -------
    ndarray
        Middle of each step, rising; empty where nothing is needed [unit of the need].

    Notes
    -----
    K-means along one line, begun at even quantiles so that it is the same at each run.

    Examples
    --------
    >>> steps_of_need(np.array([0.0, 10.0, 11.0, 30.0]), most=4, explained_frac=0.9).tolist()
    [10.5, 30.0]
    """
    from sklearn.cluster import KMeans

    above = need[need > 0.0]
    if above.size == 0:
        return np.empty(0)
    total = float(np.sum((above - above.mean()) ** 2))
    count = min(most, len(np.unique(above)))
    for steps in range(1, count + 1):
        starts = np.quantile(above, (np.arange(steps) + 0.5) / steps)[:, None]
        found = KMeans(steps, init=starts, n_init=1).fit(above[:, None])
        if steps == count or found.inertia_ <= (1.0 - explained_frac) * total:
            return np.sort(found.cluster_centers_[:, 0])
    return np.empty(0)


def nearest_step(need: FloatArray, steps: FloatArray) -> IntArray:
    """The step each cell falls into: 0 for no need, then from 1 upwards.

    Parameters
    ----------
    need
        What each cell needs, shape (P,) [any unit].
    steps
        Middles of the steps, rising, shape (S,) [same unit].

    Returns
    -------
    ndarray
        Step of each cell, shape (P,) [index].

    Notes
    -----
    No need is a step of its own, however near the first.

    Examples
    --------
    >>> nearest_step(np.array([0.0, 12.0, 29.0]), np.array([10.5, 30.0])).tolist()
    [0, 1, 2]
    """
    if steps.size == 0:
        return np.zeros(len(need), dtype=np.int64)
    near = np.argmin(np.abs(need[:, None] - steps[None, :]), axis=1) + 1
    return np.where(need > 0.0, near, 0).astype(np.int64)


def smoothed(zone: IntArray, *, inside: BoolArray, width: int) -> IntArray:
    """Each cell takes what most cells about it are.

    Parameters
    ----------
    zone
        Zone of each cell, shape (R, C) [index].
    inside
        Which cells lie in the field, shape (R, C) [true or false].
    width
        Side of the square looked at [cells].

    Returns
    -------
    ndarray
        Zones, shape (R, C) [index].

    Notes
    -----
    A vote in a square; cells outside have none. Of equal votes the lower zone wins.

    Examples
    --------
    >>> speck = np.array([[0, 0, 0], [0, 1, 0], [0, 0, 0]])
    >>> int(smoothed(speck, inside=np.ones((3, 3), bool), width=3)[1, 1])
    0
    """
    from scipy.ndimage import uniform_filter

    kinds = np.unique(zone[inside])
    votes = [
        uniform_filter(((zone == kind) & inside).astype(np.float64), width, mode="constant")
        for kind in kinds
    ]
    return np.where(inside, kinds[np.argmax(np.stack(votes), axis=0)], zone)


def without_scraps(zone: IntArray, *, inside: BoolArray, least_cells: int) -> IntArray:
    """Patches too small to steer round go to what surrounds them, the smallest first.

    Parameters
    ----------
    zone
        Zone of each cell, shape (R, C) [index].
    inside
        Which cells lie in the field, shape (R, C) [true or false].
    least_cells
        Smallest patch that stays [cells].

    Returns
    -------
    ndarray
        Zones, shape (R, C) [index].

    Notes
    -----
    Patches touch along a side. One with nothing about it stays, however small.

    Examples
    --------
    >>> zone = np.array([[0, 0, 1], [0, 0, 0]])
    >>> without_scraps(zone, inside=np.ones((2, 3), bool), least_cells=2).tolist()
    [[0, 0, 0], [0, 0, 0]]
    """
    from scipy.ndimage import binary_dilation, label

    zone = zone.copy()
    while True:
        patches: list[tuple[int, BoolArray]] = []
        for kind in np.unique(zone[inside]):
            numbered, count = label((zone == kind) & inside)
            sizes = np.bincount(numbered.ravel(), minlength=count + 1)
            patches += [
                (int(sizes[n]), numbered == n)
                for n in range(1, count + 1)
                if sizes[n] < least_cells
            ]
        changed = False
        for _, patch in sorted(patches, key=lambda one: one[0]):
            about = binary_dilation(patch) & inside & ~patch
            if about.any():
                values, counts = np.unique(zone[about], return_counts=True)
                zone[patch] = values[np.argmax(counts)]
                changed = True
                break
        if not changed:
            return zone


def with_gaps_filled(zone: IntArray) -> IntArray:
    """Cells of no zone go with the nearest one.

    Parameters
    ----------
    zone
        Zone of each cell, below 0 for none, shape (R, C) [index].

    Returns
    -------
    ndarray
        Zones, shape (R, C) [index].

    Notes
    -----
    By the straight distance between middles of cells.

    Examples
    --------
    >>> with_gaps_filled(np.array([[0, -1, -1, -1, 1]])).tolist()[0][::3]
    [0, 1]
    """
    from scipy.ndimage import distance_transform_edt

    _, near = distance_transform_edt(zone < 0, return_indices=True)
    return np.asarray(zone[tuple(near)], dtype=np.int64)


def count_patches(cells: BoolArray) -> int:
    """Patches that do not touch along a side.

    Parameters
    ----------
    cells
        Which cells, shape (R, C) [true or false].

    Returns
    -------
    int
        How many [count].

    Notes
    -----
    Corners do not join.

    Examples
    --------
    >>> count_patches(np.array([[True, False], [False, True]]))
    2
    """
    from scipy.ndimage import label

    return int(label(cells)[1])
