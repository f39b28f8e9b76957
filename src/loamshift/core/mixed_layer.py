"""A bed as one mixed layer in monthly steps: the cheap stand-in for the column.

No clock of its own: what reacts when is given. Used where a million beds are judged.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from loamshift.core.layer_formulas import (
    DAYS_IN_YEAR,
    drained_base_mmolc_m2,
    given_by_lime_mmolc_m2,
    leached_mmolc_m2,
    rest_ph,
    taken_by_lime_frac,
)
from loamshift.errors import InputError

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

FULL_LIME_PH: Final = 7.0
"""From here up the fine lime of a soil reacts at its full rate, as in the column [pH]."""


class LayerRun(Protocol):
    """A way to work out the course of mixed layers, as ``run_mixed_layer`` does."""

    def __call__(
        self, layer: MixedLayer, acid_mmolc_m2: FloatArray, *, step_days: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """PH by bed and step [pH in water], and the free lime that is left [mmolc/m2]."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedLayer:
    """Beds of one layer; every field by bed, shape (M,), unless said.

    ``start_ph`` in water [pH]; ``k`` scale of the curve [-]; ``mass_kg_m2``;
    ``carbonate_mmolc_m2`` base of the free lime; ``held_ph`` at which it holds the soil [pH];
    ``background_mmolc_m2_year`` at the reference pH, with ``background_rise_per_ph``;
    ``weathering_mmolc_m2_year``; ``air_mmolc_m2_year`` from the air beyond what the load holds.
    ``drained_mm_year`` water that drains, with what it moves of a layer [mm/year];
    ``bicarbonate_mmol2_l2`` times 1/H is its bicarbonate, ``anions_mmolc_l`` it holds beside.
    ``lime_per_d`` rate of the free lime at ``lime_full_above_ph`` and more,
    ``lime_acid_exponent`` [1/pH] how much faster below; ``is_coarse`` where it lies there in
    coarse grains [truth].

    Shared: ``curve_ph`` and ``shape_mmolc_kg`` (T) of the curve at k = 1, rising;
    ``reference_ph`` and ``highest_ph`` of the background [pH]; ``leaching_factor`` [-];
    ``bicarbonate_highest_mmolc_l`` the most that draining water holds; ``suspension_mmolc_l``
    calcium with magnesium in the suspension that pH is read in.
    """

    start_ph: FloatArray
    k: FloatArray
    mass_kg_m2: FloatArray
    carbonate_mmolc_m2: FloatArray
    held_ph: FloatArray
    background_mmolc_m2_year: FloatArray
    background_rise_per_ph: FloatArray
    weathering_mmolc_m2_year: FloatArray
    air_mmolc_m2_year: FloatArray
    drained_mm_year: FloatArray
    bicarbonate_mmol2_l2: FloatArray
    anions_mmolc_l: FloatArray
    lime_per_d: FloatArray
    lime_acid_exponent: FloatArray
    lime_full_above_ph: FloatArray
    is_coarse: BoolArray
    curve_ph: FloatArray
    shape_mmolc_kg: FloatArray
    reference_ph: float
    highest_ph: float
    leaching_factor: float
    bicarbonate_highest_mmolc_l: float
    suspension_mmolc_l: float


def mixed_layer_course(
    layer: MixedLayer, acid_mmolc_m2: FloatArray, *, step_days: FloatArray
) -> FloatArray:
    """PH of every bed at the start and after each step.

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
    ndarray
        Shape (M, S + 1), or (P, M, S + 1) [pH in water].

    Raises
    ------
    InputError
        Where steps and acid differ in number.

    Notes
    -----
    Acid goes into free lime first, all of it where lime holds the soil and less below; the rest
    moves the pH along the curve. Base that would lift the pH above what lime holds falls out.
    Leaching as in the column: load x exp(rise (pH - reference)) x leaching, less weathering, with
    the air; and the bicarbonate of the water that drains. Free lime below the pH at which it
    holds the soil gives base as in the column: fine lime a share of the way there, coarse grains
    a share of what is left of them.

    References
    ----------
    plummer-busenberg-1982, own-arithmetic

    Examples
    --------
    >>> one = np.ones(1)
    >>> bed = MixedLayer(
    ...     start_ph=7.0 * one, k=one, mass_kg_m2=100.0 * one, carbonate_mmolc_m2=0.0 * one,
    ...     held_ph=8.0 * one, background_mmolc_m2_year=0.0 * one,
    ...     background_rise_per_ph=0.0 * one, weathering_mmolc_m2_year=0.0 * one,
    ...     air_mmolc_m2_year=0.0 * one,
    ...     drained_mm_year=0.0 * one, bicarbonate_mmol2_l2=1e-7 * one, lime_per_d=one,
    ...     lime_acid_exponent=one, lime_full_above_ph=7.0 * one, is_coarse=one > 1.0,
    ...     curve_ph=np.array([4.0, 8.0]), shape_mmolc_kg=np.array([0.0, 80.0]),
    ...     reference_ph=5.0, highest_ph=7.2, leaching_factor=1.0,
    ...     bicarbonate_highest_mmolc_l=6.0, anions_mmolc_l=one, suspension_mmolc_l=1.26)
    >>> mixed_layer_course(bed, np.array([[2000.0]]), step_days=np.array([30.0])).tolist()
    [[7.0, 6.0]]
    """
    return run_mixed_layer(layer, acid_mmolc_m2, step_days=step_days)[0]


def aged_layer(
    layer: MixedLayer,
    acid_mmolc_m2: FloatArray,
    *,
    step_days: FloatArray,
    run: LayerRun | None = None,
) -> MixedLayer:
    """The same beds after some steps: their pH then, and the free lime that is left.

    Parameters
    ----------
    layer
        The beds [object].
    acid_mmolc_m2
        Acid that comes in each step, base negative, shape (M, S) [mmolc/m2].
    step_days
        Length of each step, shape (S,) [d].
    run
        How the course is worked out; None for ``run_mixed_layer`` [function].

    Returns
    -------
    MixedLayer
        The beds as the steps leave them [object].

    Raises
    ------
    InputError
        Where steps and acid differ in number.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Used for the time between a reading and today; see ``tests/core/test_mixed_layer.py``.

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
    >>> aged_layer(bed, np.array([[2000.0]]), step_days=np.array([30.0])).start_ph.tolist()
    [6.0]
    """
    ph, carbonate = (run or run_mixed_layer)(layer, acid_mmolc_m2, step_days=step_days)
    return replace(layer, start_ph=ph[:, -1], carbonate_mmolc_m2=carbonate)


def run_mixed_layer(
    layer: MixedLayer, acid_mmolc_m2: FloatArray, *, step_days: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """PH of every bed step by step, and the free lime left at the end.

    Parameters
    ----------
    layer
        The beds [object].
    acid_mmolc_m2
        Acid that comes in each step, base negative, shape (M, S) or (P, M, S) [mmolc/m2].
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
    As :func:`mixed_layer_course`; ``mixed_layer_many`` does the same by machine code.

    References
    ----------
    plummer-busenberg-1982, own-arithmetic

    Examples
    --------
    See :func:`mixed_layer_course`.

    >>> one = np.ones(1)
    >>> bed = MixedLayer(
    ...     start_ph=7.0 * one, k=one, mass_kg_m2=100.0 * one, carbonate_mmolc_m2=500.0 * one,
    ...     held_ph=8.0 * one, background_mmolc_m2_year=0.0 * one,
    ...     background_rise_per_ph=0.0 * one, weathering_mmolc_m2_year=0.0 * one,
    ...     air_mmolc_m2_year=0.0 * one,
    ...     drained_mm_year=0.0 * one, bicarbonate_mmol2_l2=1e-7 * one, lime_per_d=9.0 * one,
    ...     lime_acid_exponent=one, lime_full_above_ph=7.0 * one, is_coarse=one > 1.0,
    ...     curve_ph=np.array([4.0, 8.0]), shape_mmolc_kg=np.array([0.0, 80.0]),
    ...     reference_ph=5.0, highest_ph=7.2, leaching_factor=1.0,
    ...     bicarbonate_highest_mmolc_l=6.0, anions_mmolc_l=one, suspension_mmolc_l=1.26)
    >>> ph, lime = run_mixed_layer(bed, np.array([[2500.0]]), step_days=np.array([30.0]))
    >>> ph.round(6).tolist(), lime.round(6).tolist()
    ([[7.0, 6.0]], [0.0])
    """
    if acid_mmolc_m2.shape[-1] != step_days.size:
        raise InputError("acid_mmolc_m2 needs one column per step")
    acid = np.ascontiguousarray(np.moveaxis(acid_mmolc_m2, -1, 0))
    ph = np.broadcast_to(layer.start_ph, acid.shape[1:])
    found = np.empty((step_days.size + 1, *ph.shape))
    found[0] = ph
    capacity = layer.k * layer.mass_kg_m2
    ph_per_shape = np.gradient(layer.curve_ph, layer.shape_mmolc_kg)
    store = np.interp(ph, layer.curve_ph, layer.shape_mmolc_kg)
    held = np.interp(layer.held_ph, layer.curve_ph, layer.shape_mmolc_kg)
    carbonate = np.broadcast_to(layer.carbonate_mmolc_m2, ph.shape).copy()
    at_rest_ph = rest_ph(
        bicarbonate=layer.bicarbonate_mmol2_l2,
        anions=layer.anions_mmolc_l,
        suspension=layer.suspension_mmolc_l,
    )
    for step, days in enumerate(step_days.tolist()):
        net = acid[step] + leached_mmolc_m2(
            ph,
            background=layer.background_mmolc_m2_year,
            rise_per_ph=layer.background_rise_per_ph,
            weathering=layer.weathering_mmolc_m2_year,
            air=layer.air_mmolc_m2_year,
            reference_ph=layer.reference_ph,
            highest_ph=layer.highest_ph,
            leaching=layer.leaching_factor,
            days=days,
        )
        net = net + drained_base_mmolc_m2(
            ph,
            at_rest_ph=at_rest_ph,
            anions=layer.anions_mmolc_l,
            bicarbonate=layer.bicarbonate_mmol2_l2,
            highest=layer.bicarbonate_highest_mmolc_l,
            suspension=layer.suspension_mmolc_l,
            ph_per_base=np.interp(ph, layer.curve_ph, ph_per_shape) / capacity,
            water_mm=layer.drained_mm_year * days / DAYS_IN_YEAR,
        )
        taking = taken_by_lime_frac(ph, held_ph=layer.held_ph)
        into_lime = np.minimum(np.maximum(net, 0.0) * taking, carbonate)
        carbonate -= into_lime
        store = store - (net - into_lime) / capacity
        if carbonate.any():
            given = given_by_lime_mmolc_m2(
                ph,
                carbonate=carbonate,
                room=np.maximum(held - store, 0.0) * capacity,
                held_ph=layer.held_ph,
                per_d=layer.lime_per_d,
                acid_exponent=layer.lime_acid_exponent,
                full_above_ph=layer.lime_full_above_ph,
                is_coarse=layer.is_coarse,
                days=days,
            )
            carbonate -= given
            store = store + given / capacity
        over = np.maximum(store - held, 0.0)
        carbonate += over * capacity
        store -= over
        ph = np.interp(store, layer.shape_mmolc_kg, layer.curve_ph)
        found[step + 1] = ph
    return np.ascontiguousarray(np.moveaxis(found, 0, -1)), carbonate
