"""A bed as one mixed layer in monthly steps: the cheap stand-in for the column.

No clock of its own: what reacts when is given. Used where a million beds are judged.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import InputError

FloatArray = NDArray[np.float64]

SLOW_BELOW_PH: Final = 1.0
"""Free lime takes up all acid at the pH it holds the soil at, and less down to so far below."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedLayer:
    """Beds of one layer; every field by bed, shape (M,), unless said.

    ``start_ph`` in water [pH]; ``k`` scale of the curve [-]; ``mass_kg_m2``;
    ``carbonate_mmolc_m2`` base of the free lime; ``held_ph`` at which it holds the soil [pH];
    ``background_mmolc_m2_year`` at the reference pH, with ``background_rise_per_ph``;
    ``weathering_mmolc_m2_year``. Shared: ``curve_ph`` and ``shape_mmolc_kg`` (T) of the curve
    at k = 1, rising; ``reference_ph`` and ``highest_ph`` of the background [pH];
    ``leaching_factor`` [-].
    """

    start_ph: FloatArray
    k: FloatArray
    mass_kg_m2: FloatArray
    carbonate_mmolc_m2: FloatArray
    held_ph: FloatArray
    background_mmolc_m2_year: FloatArray
    background_rise_per_ph: FloatArray
    weathering_mmolc_m2_year: FloatArray
    curve_ph: FloatArray
    shape_mmolc_kg: FloatArray
    reference_ph: float
    highest_ph: float
    leaching_factor: float


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
    Leaching as in the column: load x exp(rise (pH - reference)) x leaching, less weathering.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> one = np.ones(1)
    >>> bed = MixedLayer(
    ...     start_ph=7.0 * one, k=one, mass_kg_m2=100.0 * one, carbonate_mmolc_m2=0.0 * one,
    ...     held_ph=8.0 * one, background_mmolc_m2_year=0.0 * one,
    ...     background_rise_per_ph=0.0 * one, weathering_mmolc_m2_year=0.0 * one,
    ...     curve_ph=np.array([4.0, 8.0]), shape_mmolc_kg=np.array([0.0, 80.0]),
    ...     reference_ph=5.0, highest_ph=7.2, leaching_factor=1.0)
    >>> mixed_layer_course(bed, np.array([[2000.0]]), step_days=np.array([30.0])).tolist()
    [[7.0, 6.0]]
    """
    if acid_mmolc_m2.shape[-1] != step_days.size:
        raise InputError("acid_mmolc_m2 needs one column per step")
    acid = np.ascontiguousarray(np.moveaxis(acid_mmolc_m2, -1, 0))
    ph = np.broadcast_to(layer.start_ph, acid.shape[1:])
    found = np.empty((step_days.size + 1, *ph.shape))
    found[0] = ph
    capacity = layer.k * layer.mass_kg_m2
    store = np.interp(ph, layer.curve_ph, layer.shape_mmolc_kg)
    held = np.interp(np.maximum(layer.held_ph, ph), layer.curve_ph, layer.shape_mmolc_kg)
    carbonate = np.broadcast_to(layer.carbonate_mmolc_m2, ph.shape).copy()
    for step, days in enumerate(step_days):
        rise = np.minimum(ph, layer.highest_ph) - layer.reference_ph
        load = layer.background_mmolc_m2_year * np.exp(layer.background_rise_per_ph * rise)
        lost = load * layer.leaching_factor - layer.weathering_mmolc_m2_year
        net = acid[step] + lost * days / 365.25
        taking = np.clip(1.0 - (layer.held_ph - ph) / SLOW_BELOW_PH, 0.0, 1.0)
        into_lime = np.minimum(np.maximum(net, 0.0) * taking, carbonate)
        carbonate -= into_lime
        store = store - (net - into_lime) / capacity
        over = np.maximum(store - held, 0.0)
        carbonate += over * capacity
        store -= over
        ph = np.interp(store, layer.shape_mmolc_kg, layer.curve_ph)
        found[step + 1] = ph
    return np.ascontiguousarray(np.moveaxis(found, 0, -1))
