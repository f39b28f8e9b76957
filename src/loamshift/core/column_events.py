"""The events of a column as typed arrays, checked and put in order of their day."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from loamshift.core.column_layout import (
    N_LIME_CLASSES,
    ColumnEvent,
    ColumnEvents,
    EventKind,
)
from loamshift.errors import InputError, OutOfRangeError

SIGNED = (EventKind.ACID, EventKind.DECAY)
_UNUSED_UM = 1.0


def column_events(rows: Sequence[ColumnEvent], *, n_layers: int) -> ColumnEvents:
    """All events of a run as arrays, the earliest first.

    Parameters
    ----------
    rows
        Events in any order; of one day they happen in the order given [objects].
    n_layers
        Layers of the soil [count].

    Returns
    -------
    ColumnEvents
        Typed arrays, also where there is no event [units as named there].

    Raises
    ------
    InputError
        For shares that do not fit the layers or do not add up to 1.
    OutOfRangeError
        For a negative day or amount, or impossible sizes.

    Notes
    -----
    A stable sort; nothing is left out.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> urea = ColumnEvent(kind=EventKind.UREA, day=30, layer_share=(1.0, 0.0), amount=350.0)
    >>> tilled = ColumnEvent(kind=EventKind.TILLAGE, day=2, layer_share=(1.0, 1.0))
    >>> column_events([urea, tilled], n_layers=2).day.tolist()
    [2, 30]
    """
    for row in rows:
        _check(row, n_layers)
    ordered = sorted(rows, key=lambda row: row.day)
    n_sizes = max([len(row.sizes) for row in ordered], default=0) or 1
    low = np.full((len(ordered), n_sizes), _UNUSED_UM)
    high = np.full((len(ordered), n_sizes), _UNUSED_UM)
    frac = np.zeros((len(ordered), n_sizes))
    for i, row in enumerate(ordered):
        for j, (low_um, high_um, share) in enumerate(row.sizes):
            low[i, j], high[i, j], frac[i, j] = low_um, high_um, share

    def floats(values: Sequence[float]) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        return np.asarray(values, dtype=np.float64)

    return ColumnEvents(
        day=np.array([row.day for row in ordered], dtype=np.int64),
        kind=np.array([int(row.kind) for row in ordered], dtype=np.int64),
        layer_share=floats([x for row in ordered for x in row.layer_share]).reshape(-1, n_layers),
        amount=floats([row.amount for row in ordered]),
        intact_um=floats([row.intact_um for row in ordered]),
        rate_factor=floats([row.rate_factor for row in ordered]),
        grown_frac=floats([row.grown_frac for row in ordered]),
        grown_sd=floats([row.grown_sd for row in ordered]),
        break_up_top=floats([x for row in ordered for x in row.break_up_top]).reshape(-1, 2),
        break_up_dug_in=floats([x for row in ordered for x in row.break_up_dug_in]).reshape(-1, 2),
        surface_cm2_mmolc=floats([row.surface_cm2_mmolc for row in ordered]),
        size_low_um=low,
        size_high_um=high,
        size_frac=frac,
        lime_frac=floats([x for row in ordered for x in row.lime_frac]).reshape(-1, N_LIME_CLASSES),
        efficiency_power=floats([row.efficiency_power for row in ordered]),
        on_surface=floats([1.0 if row.on_surface else 0.0 for row in ordered]),
    )


def shares_to_depth(edges_cm: Sequence[float], depth_cm: float) -> tuple[float, ...]:
    """Share of each layer in something spread evenly down to a depth.

    Parameters
    ----------
    edges_cm
        Edges of the layers, from 0 down [cm].
    depth_cm
        Depth, one of the edges below 0; 0 puts all in the top layer [cm].

    Returns
    -------
    tuple of float
        Share of each layer, together 1 [0-1].

    Raises
    ------
    OutOfRangeError
        Where the depth is no edge of a layer.

    Notes
    -----
    By thickness. What lies on the surface is in the top layer.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> [round(share, 2) for share in shares_to_depth([0, 5, 15, 30], 15)]
    [0.33, 0.67, 0.0]
    """
    layers = len(edges_cm) - 1
    if depth_cm == 0.0:
        return (1.0, *(0.0,) * (layers - 1))
    if depth_cm not in list(edges_cm)[1:]:
        edges = ", ".join(f"{edge:g}" for edge in edges_cm)
        raise OutOfRangeError(
            f"depth_cm = {depth_cm:g} is no edge of a layer ({edges} cm); make it one"
        )
    return tuple(
        (bottom - top) / depth_cm if bottom <= depth_cm else 0.0
        for top, bottom in pairwise(edges_cm)
    )


def _check(row: ColumnEvent, n_layers: int) -> None:
    name = row.kind.name.lower()
    if row.day < 0:
        raise OutOfRangeError(f"{name} on day {row.day}: days count from 0, the start")
    if len(row.layer_share) != n_layers or min(row.layer_share) < 0.0:
        raise InputError(f"{name}: give one share of 0 or more for each of {n_layers} layers")
    if row.kind is EventKind.TILLAGE:
        return
    if not math.isclose(math.fsum(row.layer_share), 1.0, abs_tol=1e-9):
        raise InputError(f"{name}: layer_share adds to {math.fsum(row.layer_share):g}, not 1")
    if not math.isfinite(row.amount) or (row.amount < 0.0 and row.kind not in SIGNED):
        raise OutOfRangeError(f"{name}: amount {row.amount:g} must be a number of 0 or more")
    if row.kind is EventKind.LIME:
        _check_lime(row)
    if row.kind is EventKind.SULFUR:
        _check_sulfur(row)


def _check_lime(row: ColumnEvent) -> None:
    shares = row.lime_frac
    whole = math.isclose(math.fsum(shares), 1.0, abs_tol=1e-9)
    if len(shares) != N_LIME_CLASSES or min(shares) < 0.0 or not whole:
        raise InputError(f"lime: lime_frac {shares} must be five shares that add to 1")
    if not (math.isfinite(row.efficiency_power) and row.efficiency_power > 0.0):
        raise OutOfRangeError(f"lime: efficiency_power {row.efficiency_power:g} must be above 0")
    if row.on_surface and any(share > 0.0 for share in row.layer_share[1:]):
        raise InputError("lime: what is left on the surface lies in the first layer only")


def _check_sulfur(row: ColumnEvent) -> None:
    for low_um, high_um, share in row.sizes:
        if not (0.0 < low_um <= high_um <= 20000.0 and 0.0 <= share <= 1.0):
            raise OutOfRangeError(
                f"sulfur: size class {low_um:g} to {high_um:g} um, share {share:g}, needs "
                "0 < lower <= upper <= 20000 and a share of 0 to 1"
            )
    if not math.isclose(math.fsum(share for _, _, share in row.sizes), 1.0, abs_tol=1e-6):
        raise InputError("sulfur: the shares of its size classes must add up to 1")
    speeds = (*row.break_up_top, *row.break_up_dug_in, row.surface_cm2_mmolc)
    if not (row.rate_factor >= 0.0 and row.intact_um >= 0.0 and all(one >= 0.0 for one in speeds)):
        raise OutOfRangeError(
            "sulfur: rate_factor, intact_um, break-up and surface must not be negative"
        )
    if not 0.0 < row.grown_frac <= 1.0:
        raise OutOfRangeError(f"sulfur: grown_frac {row.grown_frac:g} must be above 0, up to 1")
    if not 0.0 <= row.grown_sd < 10.0 or (row.grown_sd > 0.0 and row.grown_frac == 1.0):
        raise OutOfRangeError(
            f"sulfur: grown_sd {row.grown_sd:g} must be 0 or more, and 0 where all are grown"
        )
