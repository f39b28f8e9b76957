"""What the kernel is handed: the parts of a run as plain arrays, the day's factors ready.

Everything the members share is worked out here once, so that the kernel does not do it again
for each of them.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from loamshift.core.column_layout import (
    N_LIME_CLASSES,
    ColumnEvents,
    ColumnLaws,
    ColumnSoil,
    ColumnWeather,
    EventKind,
    FloatArray,
    IntArray,
    MemberParameters,
)
from loamshift.core.column_numbers import LAW_FIELDS, MEMBER_FIELDS
from loamshift.core.equilibrium import GAS_CONSTANT_KJ_MOL_K, KELVIN_AT_0_C

LAYER_MASS, LAYER_PH, LAYER_LIME, LAYER_ROOT, LAYER_CO2 = range(5)
LAYER_FINE, LAYER_COARSE, LAYER_OWN = range(5, 8)
"""Of a layer: mass [kg/m2], start [pH], carbonate [mmolc/m2], share of the yearly load [0-1],
carbon dioxide [-], free lime of its own, fine and coarse [mmolc/m2], and 1 where its figures are
its own, 0 where they are those of the sample."""
N_LAYER: Final = 8
AMOUNT: Final = 0
ON_TOP: Final = 1
LIME_POWER: Final = 2
LIME_SHARE: Final = 3
SHARE: Final = LIME_SHARE + N_LIME_CLASSES
"""Of an event: amount, 1 for lime on top, power of the field efficiency, shares of the sieve
classes, shares of the layers."""


def curve_array(soil: ColumnSoil) -> FloatArray:
    """The curve for the kernel.

    Parameters
    ----------
    soil
        Soil of the run [arrays].

    Returns
    -------
    ndarray
        Shape (points, 3): organic, rest, solution [mmolc/kg].

    Notes
    -----
    A point lies in one place, for a walk from point to point.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> ph = np.array([4.0, 6.0, 8.0])
    >>> soil = ColumnSoil(edges_cm=np.array([0.0, 5.0]), mass_kg_m2=np.array([65.0]),
    ...                   start_ph=np.array([6.5]), carbonate_mmolc_m2=np.zeros(1), curve_ph=ph,
    ...                   organic_mmolc_kg=10.0 * ph, rest_mmolc_kg=0.0 * ph,
    ...                   solution_mmolc_kg=0.0 * ph)
    >>> curve_array(soil)[0].tolist()
    [40.0, 0.0, 0.0]
    """
    columns = (soil.organic_mmolc_kg, soil.rest_mmolc_kg, soil.solution_mmolc_kg)
    return np.ascontiguousarray(np.stack(columns, axis=1))


def curve_ends(soil: ColumnSoil) -> tuple[float, float]:
    """Where the points of the curve lie.

    Parameters
    ----------
    soil
        Soil of the run [arrays].

    Returns
    -------
    tuple of float
        pH of the first point, and the step to the next [pH].

    Notes
    -----
    The steps are equal.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> ph = np.array([4.0, 6.0, 8.0])
    >>> soil = ColumnSoil(edges_cm=np.array([0.0, 5.0]), mass_kg_m2=np.array([65.0]),
    ...                   start_ph=np.array([6.5]), carbonate_mmolc_m2=np.zeros(1), curve_ph=ph,
    ...                   organic_mmolc_kg=10.0 * ph, rest_mmolc_kg=0.0 * ph,
    ...                   solution_mmolc_kg=0.0 * ph)
    >>> curve_ends(soil)
    (4.0, 2.0)
    """
    ph = soil.curve_ph
    return float(ph[0]), float((ph[-1] - ph[0]) / (ph.size - 1))


def layer_array(soil: ColumnSoil, laws: ColumnLaws) -> FloatArray:
    """The layers for the kernel.

    Parameters
    ----------
    soil
        Soil of the run [arrays].
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        Shape (layers, 8): mass, start, carbonate, root share, carbon dioxide against that of the
        topsoil, own lime that is fine and that is coarse, and whether its figures are its own
        [kg/m2, pH, mmolc/m2, 0-1, -, mmolc/m2, mmolc/m2, 0 or 1].

    Notes
    -----
    The yearly load is shared by exp(-z/root depth), integrated over each layer, so that cutting
    a layer in two changes nothing; the whole of it falls within the column.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> ph = np.array([4.0, 6.0, 8.0])
    >>> soil = ColumnSoil(edges_cm=np.array([0.0, 5.0]), mass_kg_m2=np.array([65.0]),
    ...                   start_ph=np.array([6.5]), carbonate_mmolc_m2=np.zeros(1), curve_ph=ph,
    ...                   organic_mmolc_kg=10.0 * ph, rest_mmolc_kg=0.0 * ph,
    ...                   solution_mmolc_kg=0.0 * ph)
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> layer_array(soil, laws).tolist()
    [[65.0, 6.5, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0]]
    """
    columns = (soil.mass_kg_m2, soil.start_ph, soil.carbonate_mmolc_m2)
    numbers = edge_numbers(soil.edges_cm, laws)
    own = np.zeros((soil.n_layers, 3))
    if soil.own_lime_mmolc_m2 is not None:
        own[:, 2] = np.isfinite(soil.own_lime_mmolc_m2[:, 0])
        own[:, :2] = np.nan_to_num(soil.own_lime_mmolc_m2)
    return np.ascontiguousarray(np.column_stack((*columns, numbers, own)))


def edge_numbers(edges_cm: FloatArray, laws: ColumnLaws) -> FloatArray:
    """What of a layer follows from its edges alone.

    Parameters
    ----------
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        Root share and carbon dioxide of each layer, shape (L, 2) [0-1, -].

    Notes
    -----
    As in :func:`layer_array`.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> edge_numbers(np.array([0.0, 5.0]), laws).tolist()
    [[1.0, 1.0]]
    """
    reach = np.exp(-edges_cm / laws.root_depth_cm)
    share = reach[:-1] - reach[1:]
    return np.stack((share / share.sum(), co2_factors(edges_cm, laws)), axis=1)


def co2_factors(edges_cm: FloatArray, laws: ColumnLaws) -> FloatArray:
    """Carbon dioxide of each layer against that of the topsoil.

    Parameters
    ----------
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        Factor, shape (L,) [-].

    Notes
    -----
    1 above the depth of the law and its factor below; a layer across it lies between, by the
    share of it below, on a logarithmic scale.

    References
    ----------
    russell-appleyard-1915, own-judgement

    Examples
    --------
    >>> from dataclasses import replace
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> laws = replace(laws, deep_co2_factor=4.0, deep_co2_from_cm=15.0)
    >>> co2_factors(np.array([0.0, 10.0, 20.0, 30.0]), laws).tolist()
    [1.0, 2.0, 4.0]
    """
    below = np.clip(edges_cm - laws.deep_co2_from_cm, 0.0, None)
    return np.asarray(laws.deep_co2_factor ** (np.diff(below) / np.diff(edges_cm)))


def climate_array(weather: ColumnWeather, laws: ColumnLaws) -> FloatArray:
    """The warmth of each day for the kernel.

    Parameters
    ----------
    weather
        Weather of the run [arrays].
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        Shape (days, layers, 7): what an activation energy is multiplied by, heat factor of
        sulfur, nitrification and urea against 25 degC, 1 where not frozen, rotting of humus
        against its reference temperature, and the temperature [mol/kJ, -, degC].

    Notes
    -----
    The temperature laws of ``sulfur_rate`` and ``nitrogen``, all but the member's own activation
    energy and ramp of sulfur.

    References
    ----------
    watkinson-blair-1993, saad-conrad-1993, yadav-1987

    Examples
    --------
    >>> days = ColumnWeather(soil_temp_c=np.full((2, 1), 25.0), wetness=np.ones((2, 1)),
    ...                      drainage_mm=np.zeros(2), irrigation_mm=np.array([0.0, 3.0]),
    ...                      alkalinity_mmolc_l=5.0, leaching_factor=1.0)
    >>> from dataclasses import replace
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> laws = replace(laws, highest_temp_c=50.0, flat_to_c=40.0, flat_from_c=35.0,
    ...                nitrification_highest_c=50.0)
    >>> climate_array(days, laws)[0, 0, :2].tolist()
    [0.0, 1.0]
    """
    return warmth_array(weather.soil_temp_c, laws)


def warmth_array(temp: FloatArray, laws: ColumnLaws) -> FloatArray:
    """The same from the temperatures alone, for beds that share them.

    Parameters
    ----------
    temp
        Soil temperature, shape (days, layers) [degC].
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        As :func:`climate_array` [mol/kJ, -, degC].

    Notes
    -----
    The temperature laws of ``sulfur_rate`` and ``nitrogen``.

    References
    ----------
    watkinson-blair-1993, saad-conrad-1993, yadav-1987

    Examples
    --------
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> with np.errstate(all="ignore"):
    ...     warmth_array(np.full((2, 3), 25.0), laws).shape
    (2, 3, 7)
    """
    at_25 = 1.0 / (25.0 + KELVIN_AT_0_C)

    def inverse(celsius: FloatArray) -> FloatArray:
        return (at_25 - 1.0 / (celsius + KELVIN_AT_0_C)) / GAS_CONSTANT_KJ_MOL_K

    def heat(highest_c: float, flat_to_c: float) -> FloatArray:
        return np.clip((highest_c - temp) / (highest_c - flat_to_c), 0.0, 1.0)

    warm = np.where(temp > laws.nitrification_lowest_c, 1.0, 0.0)
    warmth = laws.nitrification_q10 ** (
        (np.minimum(temp, laws.nitrification_flat_from_c) - 25.0) / 10.0
    )
    nitrification_heat = heat(laws.nitrification_highest_c, laws.nitrification_flat_to_c)
    sulfur_heat = heat(laws.highest_temp_c, laws.flat_to_c)
    columns = (
        inverse(np.minimum(temp, laws.flat_from_c)),
        sulfur_heat,
        warm * warmth * nitrification_heat,
        warm * np.exp(laws.urea_activation_energy_kj_mol * inverse(temp)),
        warm,
        warm * laws.humus_q10 ** ((temp - laws.humus_reference_temp_c) / 10.0),
        temp,
    )
    return np.ascontiguousarray(np.stack(columns, axis=2))


def water_array(weather: ColumnWeather) -> FloatArray:
    """The water and the air of each day for the kernel.

    Parameters
    ----------
    weather
        Weather of the run [arrays].

    Returns
    -------
    ndarray
        Shape (days, 3 + layers): drainage, base of the irrigation, acid from the air beyond what
        the load holds, and wetness of each layer [mm, mmolc/m2, mmolc/m2/yr, field capacity].

    Notes
    -----
    One mm on a square metre is a litre.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> days = ColumnWeather(soil_temp_c=np.full((2, 1), 25.0), wetness=np.ones((2, 1)),
    ...                      drainage_mm=np.zeros(2), irrigation_mm=np.array([0.0, 3.0]),
    ...                      alkalinity_mmolc_l=5.0, leaching_factor=1.0)
    >>> water_array(days).tolist()
    [[0.0, 0.0, 0.0, 1.0], [0.0, 15.0, 0.0, 1.0]]
    """
    base = weather.irrigation_mm * weather.alkalinity_mmolc_l
    air = np.zeros_like(base) if weather.air_mmolc_m2_year is None else weather.air_mmolc_m2_year
    return np.ascontiguousarray(
        np.column_stack((weather.drainage_mm, base, air, weather.wetness)), dtype=np.float64
    )


def event_arrays(events: ColumnEvents) -> tuple[IntArray, FloatArray]:
    """The events for the kernel.

    Parameters
    ----------
    events
        All events of the run [arrays].

    Returns
    -------
    tuple of ndarray
        Day, kind and dose (-1 for none), shape (events, 3) [index]; amount, 1 for lime on top,
        power of the field efficiency, lime classes and layer shares, shape (events, 8 + layers)
        [mixed].

    Notes
    -----
    Doses of sulfur are counted in the order of the events.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent
    >>> urea = ColumnEvent(kind=EventKind.UREA, day=3, layer_share=(1.0,), amount=350.0)
    >>> event_arrays(column_events([urea], n_layers=1))[0].tolist()
    [[3, 8, -1]]
    """
    is_dose = events.kind == EventKind.SULFUR
    dose = np.where(is_dose, np.cumsum(is_dose) - 1, -1)
    when = np.ascontiguousarray(np.stack((events.day, events.kind, dose), axis=1), dtype=np.int64)
    parts = (
        events.amount[:, None],
        events.on_surface[:, None],
        events.efficiency_power[:, None],
        events.lime_frac,
        events.layer_share,
    )
    return when, np.ascontiguousarray(np.concatenate(parts, axis=1))


def member_array(members: MemberParameters) -> FloatArray:
    """The members for the kernel.

    Parameters
    ----------
    members
        Parameters of every member [arrays].

    Returns
    -------
    ndarray
        One row per member [mixed].

    Notes
    -----
    Field for field.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> one = MemberParameters(**{name: np.ones(4) for name in MEMBER_FIELDS})
    >>> member_array(one).shape
    (4, 43)
    """
    columns = [getattr(members, name) for name in MEMBER_FIELDS]
    return np.ascontiguousarray(np.stack(columns, axis=1))


def law_array(laws: ColumnLaws) -> FloatArray:
    """The laws for the kernel.

    Parameters
    ----------
    laws
        Coefficients [see the dataclass].

    Returns
    -------
    ndarray
        One number per law [mixed].

    Notes
    -----
    Field for field.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> laws = ColumnLaws(**dict.fromkeys(LAW_FIELDS, 1.0))
    >>> law_array(laws).size == len(LAW_FIELDS)
    True
    """
    return np.array([getattr(laws, name) for name in LAW_FIELDS], dtype=np.float64)
