"""The course of mixed layers as machine code, for many cases one after the other.

What a step does is written in ``core.layer_formulas`` and compiled from there; here is the loop of
``core.mixed_layer`` over beds and steps, for one number at a time.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Final, TypeVar

import numpy as np

from loamshift.core import layer_formulas as formulas
from loamshift.core.column_compile import inlined, outermost, with_compiled
from loamshift.core.column_exp import exp_of, used_up
from loamshift.core.layer_formulas import Number
from loamshift.core.soil_water import hydrogen_by_newton, ratio_of_slopes
from loamshift.errors import InputError

if TYPE_CHECKING:
    from loamshift.core.mixed_layer import FloatArray, MixedLayer

    IntArray = np.ndarray[Any, np.dtype[np.int64]]

Function = TypeVar("Function", bound=Callable[..., Any])


@inlined
def _pick(holds: bool, one: Number, other: Number) -> Number:
    return one if holds else other


@inlined
def _least(one: Number, other: Number) -> Number:
    return one if one < other else other


@inlined
def _most(one: Number, other: Number) -> Number:
    return one if one > other else other


def _of_numbers(function: Function, **called: Callable[..., Any]) -> Function:
    """A formula as machine code for single numbers."""
    own: dict[str, Callable[..., Any]] = {
        "exp": exp_of,
        "used_up": used_up,
        "least": _least,
        "most": _most,
        "pick": _pick,
    }
    return inlined(with_compiled(function, **own, **called))


_leached = _of_numbers(formulas.leached_mmolc_m2)
_taken = _of_numbers(formulas.taken_by_lime_frac)
_given = _of_numbers(formulas.given_by_lime_mmolc_m2)
_drained = _of_numbers(
    formulas.drained_base_mmolc_m2,
    hydrogen_by_newton=inlined(hydrogen_by_newton),
    ratio_of_slopes=inlined(ratio_of_slopes),
)
_DAYS_IN_YEAR = formulas.DAYS_IN_YEAR
LANES: Final = 32
"""Beds that are worked out side by side [count]."""
_ROWS: Final = 17
_PH: Final = 0 * LANES
_K: Final = 1 * LANES
_MASS: Final = 2 * LANES
_LIME: Final = 3 * LANES
_HELD_PH: Final = 4 * LANES
_BACKGROUND: Final = 5 * LANES
_RISE: Final = 6 * LANES
_WEATHERING: Final = 7 * LANES
_AIR: Final = 8 * LANES
_DRAINED: Final = 9 * LANES
_BICARBONATE: Final = 10 * LANES
_ANIONS: Final = 11 * LANES
_PER_D: Final = 12 * LANES
_EXPONENT: Final = 13 * LANES
_FULL_ABOVE: Final = 14 * LANES
_COARSE: Final = 15 * LANES
_AT_REST: Final = 16 * LANES
_CAPACITY: Final = 17 * LANES
_HELD: Final = 18 * LANES
_STORE: Final = 19 * LANES
_SLOPE: Final = 20 * LANES
_ACID: Final = 21 * LANES
ROOM: Final = 22 * LANES


@inlined
def _cell(x: float, xp: FloatArray, near: int) -> int:
    """The cell of a rising table that a number lies in, sought from one near it."""
    last = xp.size - 2
    while near < last and x >= xp[near + 1]:
        near += 1
    while near > 0 and x < xp[near]:
        near -= 1
    return near


@inlined
def _read(x: float, xp: FloatArray, fp: FloatArray, cell: int) -> float:
    """A table read at a number as ``numpy.interp`` reads it, beyond the ends that of the end."""
    end = xp.size - 1
    slope = (fp[cell + 1] - fp[cell]) / (xp[cell + 1] - xp[cell])
    inside = slope * (x - xp[cell]) + fp[cell]
    return float(_pick(x <= xp[0], fp[0], _pick(x >= xp[end], fp[end], inside)))


@outermost
def run_layers(
    acid_mmolc_m2: FloatArray,
    step_days: FloatArray,
    by_bed: FloatArray,
    curve_ph: FloatArray,
    shape: FloatArray,
    ph_per_shape: FloatArray,
    shared: FloatArray,
    room: FloatArray,
    cells: IntArray,
    found: FloatArray,
    carbonate_left: FloatArray,
) -> None:
    """PH of every bed step by step under each plan, and the free lime left at the end.

    Parameters
    ----------
    acid_mmolc_m2
        Acid that comes in, shape (P, S, M) [mmolc/m2].
    step_days
        Length of each step, shape (S,) [d].
    by_bed
        A row for each of ``_BY_BED``, shape (17, M) [mixed].
    curve_ph
        Points of the curve, shape (T,) [pH].
    shape
        Content there, rising, shape (T,) [mmolc/kg].
    ph_per_shape
        Slope there, shape (T,) [pH kg/mmolc].
    shared
        In the order of ``_SHARED``, shape (5,) [mixed].
    room
        To work in, ``ROOM`` numbers [mixed].
    cells
        To work in, ``LANES`` numbers [index].
    found
        Takes the pH, shape (P, S + 1, M) [pH in water].
    carbonate_left
        Takes the free lime that is left, shape (P, M) [mmolc/m2].

    Notes
    -----
    So many beds at a time, each a lane of one flat array: a loop over lanes that calls nothing but
    formulas put into it is one the compiler works out several lanes at a time. The search in the
    table is a loop of its own.

    References
    ----------
    own-arithmetic

    Examples
    --------
    See :func:`run_mixed_layer_many`.
    """
    reference, highest_ph, leaching = shared[0], shared[1], shared[2]
    highest, suspension = shared[3], shared[4]
    plans, steps, beds = acid_mmolc_m2.shape
    for plan in range(plans):
        for first in range(0, beds, LANES):
            for row in range(_ROWS):
                for j in range(LANES):
                    room[row * LANES + j] = by_bed[row, min(first + j, beds - 1)]
            for j in range(LANES):
                room[_CAPACITY + j] = room[_K + j] * room[_MASS + j]
                cell = _cell(room[_HELD_PH + j], curve_ph, curve_ph.size // 2)
                room[_HELD + j] = _read(room[_HELD_PH + j], curve_ph, shape, cell)
                ph = room[_PH + j]
                cell = _cell(ph, curve_ph, cell)
                cells[j] = cell
                room[_STORE + j] = _read(ph, curve_ph, shape, cell)
                room[_SLOPE + j] = _read(ph, curve_ph, ph_per_shape, cell)
            for j in range(min(LANES, beds - first)):
                found[plan, 0, first + j] = room[_PH + j]
            for step in range(steps):
                days = step_days[step]
                for j in range(LANES):
                    room[_ACID + j] = acid_mmolc_m2[plan, step, min(first + j, beds - 1)]
                for j in range(LANES):
                    ph, capacity = room[_PH + j], room[_CAPACITY + j]
                    net = room[_ACID + j] + _leached(
                        ph,
                        room[_BACKGROUND + j],
                        room[_RISE + j],
                        room[_WEATHERING + j],
                        room[_AIR + j],
                        reference,
                        highest_ph,
                        leaching,
                        days,
                    )
                    net = net + _drained(
                        ph,
                        room[_AT_REST + j],
                        room[_ANIONS + j],
                        room[_BICARBONATE + j],
                        highest,
                        suspension,
                        room[_SLOPE + j] / capacity,
                        room[_DRAINED + j] * days / _DAYS_IN_YEAR,
                    )
                    lime = room[_LIME + j]
                    into_lime = _least(_most(net, 0.0) * _taken(ph, room[_HELD_PH + j]), lime)
                    room[_LIME + j] = lime - into_lime
                    room[_STORE + j] = room[_STORE + j] - (net - into_lime) / capacity
                some = False
                for j in range(LANES):
                    some = some or room[_LIME + j] != 0.0
                if some:
                    for j in range(LANES):
                        capacity = room[_CAPACITY + j]
                        given = _given(
                            room[_PH + j],
                            room[_LIME + j],
                            _most(room[_HELD + j] - room[_STORE + j], 0.0) * capacity,
                            room[_HELD_PH + j],
                            room[_PER_D + j],
                            room[_EXPONENT + j],
                            room[_FULL_ABOVE + j],
                            room[_COARSE + j] > 0.5,
                            days,
                        )
                        room[_LIME + j] -= given
                        room[_STORE + j] = room[_STORE + j] + given / capacity
                for j in range(LANES):
                    over = _most(room[_STORE + j] - room[_HELD + j], 0.0)
                    room[_LIME + j] += over * room[_CAPACITY + j]
                    room[_STORE + j] -= over
                for j in range(LANES):
                    cell = _cell(room[_STORE + j], shape, cells[j])
                    cells[j] = cell
                    ph = _read(room[_STORE + j], shape, curve_ph, cell)
                    room[_PH + j] = ph
                    room[_SLOPE + j] = _read(ph, curve_ph, ph_per_shape, cell)
                for j in range(min(LANES, beds - first)):
                    found[plan, step + 1, first + j] = room[_PH + j]
            for j in range(min(LANES, beds - first)):
                carbonate_left[plan, first + j] = room[_LIME + j]


_BY_BED = (
    "start_ph",
    "k",
    "mass_kg_m2",
    "carbonate_mmolc_m2",
    "held_ph",
    "background_mmolc_m2_year",
    "background_rise_per_ph",
    "weathering_mmolc_m2_year",
    "air_mmolc_m2_year",
    "drained_mm_year",
    "bicarbonate_mmol2_l2",
    "anions_mmolc_l",
    "lime_per_d",
    "lime_acid_exponent",
    "lime_full_above_ph",
    "is_coarse",
)
"""Figures of ``MixedLayer`` in the order of the rows of ``by_bed``; last comes the pH at rest."""
_SHARED = (
    "reference_ph",
    "highest_ph",
    "leaching_factor",
    "bicarbonate_highest_mmolc_l",
    "suspension_mmolc_l",
)


def run_mixed_layer_many(
    layer: MixedLayer, acid_mmolc_m2: FloatArray, *, step_days: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """``run_mixed_layer`` as machine code.

    Parameters
    ----------
    layer
        The beds [object].
    acid_mmolc_m2
        Acid that comes in each step, base negative, shape (M, S), or (P, M, S) for so many
        plans side by side [mmolc/m2].
    step_days
        Length of each step, shape (S,) [d].

    Returns
    -------
    tuple of ndarray
        pH, shape (M, S + 1) or (P, M, S + 1) [pH in water], and lime left, shape (M,) or (P, M)
        [mmolc/m2].

    Raises
    ------
    InputError
        Where steps and acid differ in number.

    Notes
    -----
    Within a last place of the sums by NumPy, whose exponential is another.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Held to ``run_mixed_layer`` in ``tests/core/test_mixed_layer_many.py``.

    >>> from loamshift.core.mixed_layer import MixedLayer
    >>> one = np.ones(1)
    >>> bed = MixedLayer(
    ...     start_ph=7.0 * one, k=one, mass_kg_m2=100.0 * one, carbonate_mmolc_m2=0.0 * one,
    ...     held_ph=8.0 * one, background_mmolc_m2_year=0.0 * one,
    ...     background_rise_per_ph=0.0 * one, weathering_mmolc_m2_year=0.0 * one,
    ...     air_mmolc_m2_year=0.0 * one,
    ...     drained_mm_year=0.0 * one, bicarbonate_mmol2_l2=1e-7 * one, lime_per_d=1.0 * one,
    ...     lime_acid_exponent=one, lime_full_above_ph=7.0 * one, is_coarse=one > 1.0,
    ...     curve_ph=np.array([4.0, 8.0]), shape_mmolc_kg=np.array([0.0, 80.0]),
    ...     reference_ph=5.0, highest_ph=7.2, leaching_factor=1.0,
    ...     bicarbonate_highest_mmolc_l=6.0, anions_mmolc_l=one, suspension_mmolc_l=1.26)
    >>> ph, lime = run_mixed_layer_many(bed, np.array([[2000.0]]), step_days=np.array([30.0]))
    >>> ph.round(6).tolist(), lime.tolist()
    ([[7.0, 6.0]], [0.0])
    """
    if acid_mmolc_m2.shape[-1] != step_days.size:
        raise InputError("acid_mmolc_m2 needs one column per step")
    beds = acid_mmolc_m2.shape[-2]
    at_rest = formulas.rest_ph(
        layer.bicarbonate_mmol2_l2, layer.anions_mmolc_l, layer.suspension_mmolc_l
    )
    by_bed = np.empty((_ROWS, beds))
    for row, name in enumerate(_BY_BED):
        by_bed[row] = getattr(layer, name)
    by_bed[-1] = at_rest
    steps = step_days.size
    flat = acid_mmolc_m2.reshape(-1, beds, steps)
    acid = np.ascontiguousarray(flat.transpose(0, 2, 1))
    found = np.empty((acid.shape[0], steps + 1, beds))
    left = np.empty((acid.shape[0], beds))
    run_layers(
        acid,
        step_days,
        by_bed,
        layer.curve_ph,
        layer.shape_mmolc_kg,
        np.gradient(layer.curve_ph, layer.shape_mmolc_kg),
        np.array([getattr(layer, name) for name in _SHARED]),
        np.empty(ROOM),
        np.empty(LANES, dtype=np.int64),
        found,
        left,
    )
    lead = acid_mmolc_m2.shape[:-2]
    by_day = found.transpose(0, 2, 1).reshape(*lead, beds, steps + 1)
    return by_day, left.reshape(*lead, beds)
