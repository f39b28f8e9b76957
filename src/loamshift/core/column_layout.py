"""What one run of the column is made of: soil, members, weather, events, laws and result.

Plain arrays, checked on the way in, so that the compiled kernel need check nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import IntEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import InputError, OutOfRangeError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

LOWEST_TABLE_PH: Final = 2.0
HIGHEST_TABLE_PH: Final = 9.5
"""Ends of the curve: a soil must start between them."""
N_LIME_CLASSES: Final = 5
"""Sieve classes of lime, finest first; their edges stand in the topic ``lime``."""


class EventKind(IntEnum):
    """What happens on a day; the unit of ``amount`` stands behind each.

    Acid is positive, base negative, where a sign is allowed (``ACID``, ``DECAY``).
    """

    SULFUR = 0
    """Elemental sulfur, as the acid it will make [mmolc/m2]; 62.4 per g S."""
    ACID = 1
    """Acid, or base, that acts at once [mmolc/m2]."""
    FAST_SALT = 2
    """Aluminium and iron salts, within days [mmolc/m2]."""
    ORGANIC_ACID = 3
    """Acts at once and is given back as it decays [mmolc/m2]."""
    DECAY = 4
    """Acid or base set free by the decay of litter or ash [mmolc/m2]."""
    ORGANIC_NITROGEN = 5
    """Set free by decay, nitrified at once [mmol N/m2]."""
    AMMONIA = 6
    """Takes up a proton, then nitrifies [mmol N/m2]."""
    AMMONIUM = 7
    """[mmol N/m2]."""
    UREA = 8
    """[mmol N/m2]."""
    NITRATE = 9
    """Nitrate of sodium or calcium; not that of ammonium nitrate [mmol N/m2]."""
    LIME = 10
    """Base of the lime, by sieve class [mmolc/m2]; 20 per g CaCO3."""
    TILLAGE = 11
    """Mixes the layers whose share is above 0; no amount."""
    SULFATE = 12
    """Sulfate of gypsum: neutral, and lowers the pH at which lime holds the soil [mmolc/m2]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnSoil:
    """A soil in layers, shared by all members.

    ``edges_cm`` (L + 1), from 0 down; ``mass_kg_m2`` (L); ``start_ph`` (L) pH in water;
    ``carbonate_mmolc_m2`` (L) base of the free lime, which each member scales [mmolc/m2];
    ``own_lime_mmolc_m2`` (L, 2) base of the free lime, fine and coarse, of layers that have figures
    of their own, not a number for those that have not; None for no such layer [mmolc/m2]. The
    curve without carbonate on equal steps of ``curve_ph``: ``organic_mmolc_kg`` follows the organic
    carbon of a layer, ``rest_mmolc_kg`` is what k scales beside it, ``solution_mmolc_kg`` what it
    does not;
    Q = k (x organic + rest) + solution, x the carbon against that of the first day.
    """

    edges_cm: FloatArray
    mass_kg_m2: FloatArray
    start_ph: FloatArray
    carbonate_mmolc_m2: FloatArray
    curve_ph: FloatArray
    organic_mmolc_kg: FloatArray
    rest_mmolc_kg: FloatArray
    solution_mmolc_kg: FloatArray
    own_lime_mmolc_m2: FloatArray | None = None

    @property
    def shape_mmolc_kg(self) -> FloatArray:
        """What k scales, with the organic carbon of the first day [mmolc/kg]."""
        return self.organic_mmolc_kg + self.rest_mmolc_kg

    @property
    def n_layers(self) -> int:
        """Number of layers."""
        return int(self.mass_kg_m2.size)

    def __post_init__(self) -> None:
        layers = self.mass_kg_m2.size
        for name in ("mass_kg_m2", "start_ph", "carbonate_mmolc_m2"):
            _need_shape(name, getattr(self, name), (layers,))
        _need_shape("curve_ph", self.curve_ph, (self.curve_ph.size,))
        _need_shape("edges_cm", self.edges_cm, (layers + 1,))
        for name in ("organic_mmolc_kg", "rest_mmolc_kg", "solution_mmolc_kg"):
            _need_shape(name, getattr(self, name), self.curve_ph.shape)
        steps = np.diff(self.curve_ph)
        if steps.size == 0 or not np.all(np.abs(steps - steps.mean()) < 1.0e-9):
            raise InputError("curve_ph must rise in equal steps; give two points or more")
        if layers == 0 or self.edges_cm[0] != 0.0 or not np.all(np.diff(self.edges_cm) > 0.0):
            raise InputError("edges_cm must rise from 0; give at least one layer")
        if not np.all(self.mass_kg_m2 > 0.0):
            raise OutOfRangeError("mass_kg_m2 must be above 0: bulk density times thickness")
        if not np.all(self.carbonate_mmolc_m2 >= 0.0):
            raise OutOfRangeError("carbonate_mmolc_m2 must be 0 or more")
        if self.own_lime_mmolc_m2 is not None:
            _need_shape("own_lime_mmolc_m2", self.own_lime_mmolc_m2, (layers, 2))
            if np.any(self.own_lime_mmolc_m2 < 0.0):
                raise OutOfRangeError("own_lime_mmolc_m2 must be 0 or more")
        if not np.all((self.start_ph > self.curve_ph[0]) & (self.start_ph < self.curve_ph[-1])):
            raise OutOfRangeError(
                f"start_ph must lie between {self.curve_ph[0]:g} and {self.curve_ph[-1]:g}"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberParameters:
    """One value per member of everything uncertain; every field has shape (n_members,).

    Soil: ``log10_k`` [log10]; ``mass_factor`` on bulk density [-]; ``start_ph_shift`` added to
    the start [pH]; ``carbonate_factor`` on the free lime, 0 for none [-];
    ``coarse_carbonate_frac`` share of it that lies in coarse grains, all of it in a soil more
    acid than lime would hold it [0-1]; ``plateau_ph`` pH at
    which lime holds this soil [pH]; ``carbonate_rate_per_d`` of native lime at pH 7 and above
    [1/d]; ``carbonate_acid_exponent`` [1/pH]; ``gypsum_drop_ph`` [pH]. Water:
    ``alkalinity_factor`` on the alkalinity of the irrigation [-]; ``flux_pco2_atm`` [atm];
    ``transport_factor`` [-]; ``anions_mmolc_l`` in draining water, bicarbonate apart
    [mmolc/L]; ``al_log10_k`` [-]; ``wetness_shift`` [field capacity]. Sulfur:
    ``sulfur_rate_ug_cm2_d`` at 25 degC and the reference surface [ug/cm2/d];
    ``sulfur_activation_energy_kj_mol`` [kJ/mol]; ``sulfur_growth_per_d`` of
    the oxidisers [1/d]; ``sulfur_ramp_from_c`` below which none oxidises [degC];
    ``sulfur_grown_z`` strength of the oxidisers at the start against the usual, in standard
    deviations of its log odds [-]; ``sulfur_crowding_exponent`` [-]; ``break_up_z`` of prills
    against the usual, in standard deviations of the logarithm [-]. Nitrogen:
    ``nitrification_rate_per_d`` and ``urea_rate_per_d`` at 25 degC [1/d]; ``realised_frac`` [0-1];
    ``nitrate_uptake_mol_mol`` base given back per nitrate, in the mean [mol/mol]. Background:
    ``background_mmolc_m2_year`` at pH 5, ``background_rise_per_ph`` [1/pH] and
    ``weathering_mmolc_m2_year`` [mmolc/m2/year]; ``air_factor`` on the acid from the air [-]. Lime:
    ``lime_half_time_d`` of the finest class [d]; ``lime_acid_exponent`` [1/pH];
    ``lime_field_efficiency`` [-]; ``surface_lime_factor`` on the rate of what lies on top [-].
    Others:
    ``fast_salt_half_time_d``, ``organic_acid_half_time_d``, ``decay_half_time_d`` [d]. Humus that
    rots beyond what the use of the ground gives back: nitrogen in it, ``humus_labile_mmol_kg`` and
    ``humus_slow_mmol_kg`` [mmol/kg]; ``humus_labile_per_year`` and ``humus_slow_per_year`` at the
    reference temperature [1/yr]; ``humus_rest_mol_mol`` its acid beyond what counts of
    fertiliser [mol/mol]; ``humus_carbon_per_mmol_kg`` share of the first organic carbon that goes
    with a mmol of it per kg [kg/mmol].
    """

    log10_k: FloatArray
    mass_factor: FloatArray
    start_ph_shift: FloatArray
    carbonate_factor: FloatArray
    coarse_carbonate_frac: FloatArray
    plateau_ph: FloatArray
    carbonate_rate_per_d: FloatArray
    carbonate_acid_exponent: FloatArray
    gypsum_drop_ph: FloatArray
    alkalinity_factor: FloatArray
    flux_pco2_atm: FloatArray
    transport_factor: FloatArray
    anions_mmolc_l: FloatArray
    al_log10_k: FloatArray
    wetness_shift: FloatArray
    sulfur_rate_ug_cm2_d: FloatArray
    sulfur_activation_energy_kj_mol: FloatArray
    sulfur_growth_per_d: FloatArray
    sulfur_ramp_from_c: FloatArray
    sulfur_grown_z: FloatArray
    sulfur_crowding_exponent: FloatArray
    break_up_z: FloatArray
    nitrification_rate_per_d: FloatArray
    urea_rate_per_d: FloatArray
    realised_frac: FloatArray
    nitrate_uptake_mol_mol: FloatArray
    background_mmolc_m2_year: FloatArray
    background_rise_per_ph: FloatArray
    weathering_mmolc_m2_year: FloatArray
    air_factor: FloatArray
    lime_half_time_d: FloatArray
    lime_acid_exponent: FloatArray
    lime_field_efficiency: FloatArray
    surface_lime_factor: FloatArray
    fast_salt_half_time_d: FloatArray
    organic_acid_half_time_d: FloatArray
    decay_half_time_d: FloatArray
    humus_labile_mmol_kg: FloatArray
    humus_slow_mmol_kg: FloatArray
    humus_labile_per_year: FloatArray
    humus_slow_per_year: FloatArray
    humus_rest_mol_mol: FloatArray
    humus_carbon_per_mmol_kg: FloatArray

    @property
    def n_members(self) -> int:
        """Number of members."""
        return int(self.log10_k.size)

    def __post_init__(self) -> None:
        for name in MEMBER_FIELDS:
            _need_shape(name, getattr(self, name), (self.log10_k.size,))
        table = np.array([getattr(self, name) for name in MEMBER_FIELDS])
        finite = np.isfinite(table).all(axis=1).tolist()
        least = table.min(axis=1, initial=np.inf).tolist()
        for name, is_finite, lowest in zip(MEMBER_FIELDS, finite, least, strict=True):
            if not is_finite:
                raise OutOfRangeError(f"{name} holds a value that is no number")
            if lowest < 0.0 and name not in SIGNED_MEMBER_FIELDS:
                raise OutOfRangeError(f"{name} must be 0 or more in every member")
            if lowest <= 0.0 and name in POSITIVE_MEMBER_FIELDS:
                raise OutOfRangeError(f"{name} must be above 0 in every member")


MEMBER_FIELDS: Final = tuple(field.name for field in fields(MemberParameters))
SIGNED_MEMBER_FIELDS: Final = (
    "log10_k",
    "start_ph_shift",
    "wetness_shift",
    "al_log10_k",
    "sulfur_ramp_from_c",
    "sulfur_grown_z",
    "break_up_z",
)
POSITIVE_MEMBER_FIELDS: Final = (
    "anions_mmolc_l",
    "mass_factor",
    "sulfur_growth_per_d",
    "lime_half_time_d",
    "fast_salt_half_time_d",
    "organic_acid_half_time_d",
    "decay_half_time_d",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnWeather:
    """Weather of each day, shared by all members.

    ``soil_temp_c`` and ``wetness`` (water over field capacity) have shape (days, L);
    ``drainage_mm`` and ``irrigation_mm`` (days,). ``alkalinity_mmolc_l`` of the irrigation;
    ``leaching_factor`` on the background load, 1 at the reference drainage [-].
    ``air_mmolc_m2_year`` acid from the air beyond what the load holds, (days,); None for as much
    as it holds [mmolc/m2/year].
    """

    soil_temp_c: FloatArray
    wetness: FloatArray
    drainage_mm: FloatArray
    irrigation_mm: FloatArray
    alkalinity_mmolc_l: float
    leaching_factor: float
    air_mmolc_m2_year: FloatArray | None = None

    @property
    def n_days(self) -> int:
        """Number of days."""
        return int(self.drainage_mm.size)

    def __post_init__(self) -> None:
        days = self.drainage_mm.size
        if self.soil_temp_c.ndim != 2:
            raise InputError("soil_temp_c must have one row per day and one column per layer")
        _need_shape("soil_temp_c", self.soil_temp_c, (days, self.soil_temp_c.shape[1]))
        _need_shape("wetness", self.wetness, self.soil_temp_c.shape)
        for name in ("drainage_mm", "irrigation_mm"):
            _need_shape(name, getattr(self, name), (days,))
        if not np.all((self.soil_temp_c >= -60.0) & (self.soil_temp_c <= 70.0)):
            raise OutOfRangeError("soil_temp_c must lie between -60 and 70")
        if not np.all((self.wetness >= 0.0) & (self.wetness <= 3.0)):
            raise OutOfRangeError("wetness must lie between 0 and 3, a share of field capacity")
        for name in ("drainage_mm", "irrigation_mm"):
            values = getattr(self, name)
            if not (np.isfinite(values) & (values >= 0.0)).all():
                raise OutOfRangeError(f"{name} must be 0 or more on every day")
        if self.air_mmolc_m2_year is not None:
            _need_shape("air_mmolc_m2_year", self.air_mmolc_m2_year, (days,))
            if not np.isfinite(self.air_mmolc_m2_year).all():
                raise OutOfRangeError("air_mmolc_m2_year holds a value that is no number")
        if not np.isfinite(self.alkalinity_mmolc_l) or not 0.0 <= self.leaching_factor < np.inf:
            raise OutOfRangeError("alkalinity_mmolc_l or leaching_factor is no possible number")


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnEvent:
    """One thing that happens; see :class:`EventKind` for the unit of ``amount``.

    ``day`` from 0, at its start; ``layer_share`` (L), together 1, or the layers a tillage mixes.
    Sulfur: ``sizes`` (low um, high um, share of mass), of prills those of what has broken up;
    ``intact_um`` of prills, 0 for loose grains [um]; ``rate_factor`` below 1 on the surface [-];
    ``grown_frac`` strength of the oxidisers at the start [0-1], ``grown_sd`` standard deviation of
    its log odds [-]; ``break_up_top`` and
    ``break_up_dug_in`` of prills, the usual speed and the standard deviation of its logarithm
    [1/d, -]; ``surface_cm2_mmolc`` of the grains when the dose was young, 0 for that of its sizes
    [cm2/mmolc]. Lime: ``lime_frac`` share of the five sieve classes, finest first [0-1];
    ``efficiency_power`` to which the field efficiency of a member is raised, above 1 for lime that
    may be much better or worse than usual; its middle is in the amount [-].
    Both: ``on_surface`` where it is left lying on top, until a tillage mixes it in.
    """

    kind: EventKind
    day: int
    layer_share: tuple[float, ...]
    amount: float = 0.0
    sizes: tuple[tuple[float, float, float], ...] = ()
    intact_um: float = 0.0
    rate_factor: float = 1.0
    grown_frac: float = 1.0
    grown_sd: float = 0.0
    break_up_top: tuple[float, float] = (0.0, 0.0)
    break_up_dug_in: tuple[float, float] = (0.0, 0.0)
    surface_cm2_mmolc: float = 0.0
    lime_frac: tuple[float, ...] = (1.0, 0.0, 0.0, 0.0, 0.0)
    efficiency_power: float = 1.0
    on_surface: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnEvents:
    """All events as typed arrays, by day; build them with ``column_events.column_events``.

    ``day``, ``kind`` (n); ``layer_share`` (n, L); ``amount``, ``intact_um``, ``rate_factor``,
    ``grown_frac``, ``grown_sd``, ``surface_cm2_mmolc`` (n); ``break_up_top``,
    ``break_up_dug_in`` (n, 2); ``size_low_um``, ``size_high_um``, ``size_frac`` (n, sizes);
    ``lime_frac`` (n, 5); ``efficiency_power`` (n); ``on_surface`` (n), 1 for what is left on top.
    """

    day: IntArray
    kind: IntArray
    layer_share: FloatArray
    amount: FloatArray
    intact_um: FloatArray
    rate_factor: FloatArray
    grown_frac: FloatArray
    grown_sd: FloatArray
    break_up_top: FloatArray
    break_up_dug_in: FloatArray
    surface_cm2_mmolc: FloatArray
    size_low_um: FloatArray
    size_high_um: FloatArray
    size_frac: FloatArray
    lime_frac: FloatArray
    efficiency_power: FloatArray
    on_surface: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnLaws:
    """Coefficients that all members share; build them with ``column_laws.column_laws``.

    Sulfur: ``flat_from_c``, ``flat_to_c``, ``highest_temp_c`` [degC],
    ``ramp_width_c`` [K], ``reference_surface_cm2_kg``, ``lowest_surface_cm2_kg`` [cm2/kg],
    ``moisture_optimum``, ``moisture_width`` [field capacity], ``density_ug_cm3`` [ug/cm3],
    ``acid_soil_factor`` [-], ``acid_soil_ph``, ``normal_soil_ph`` [pH]. Nitrogen:
    ``urea_activation_energy_kj_mol`` [kJ/mol], ``nitrification_*`` as in the topic
    ``nitrogen``, ``moisture_full``, ``moisture_wet_width`` [field capacity],
    ``humus_q10`` [-] and ``humus_reference_temp_c`` [degC] of humus that rots,
    ``acid_per_nh4_mol_mol``, ``acid_per_urea_n_mol_mol`` [mol/mol], ``ammonium_uptake_per_d``
    [1/d], ``nitrate_uptake_half_time_d`` [d]. Background: ``background_reference_ph``,
    ``background_highest_ph`` [pH], ``root_depth_cm`` [cm]. Lime and carbonate:
    ``lime_class_factor_1`` to ``_5`` on the half-time [-], ``lime_acid_below_ph`` [pH],
    ``coarse_carbonate_coarsest_frac`` [0-1], ``sample_wet_d`` that a mixed sample is wet before
    it is read [d], ``gypsum_full_mmolc_kg`` [mmolc/kg]. Water: ``bicarbonate_log10_k`` [-],
    ``bicarbonate_highest_mmolc_l``, ``al_highest_mmolc_l``, ``suspension_mmolc_l`` [mmolc/L],
    ``sulfate_leach_factor`` [kg/L], ``deep_co2_factor`` [-] below ``deep_co2_from_cm`` [cm].
    """

    ramp_width_c: float
    reference_surface_cm2_kg: float
    lowest_surface_cm2_kg: float
    flat_from_c: float
    flat_to_c: float
    highest_temp_c: float
    moisture_optimum: float
    moisture_width: float
    density_ug_cm3: float
    acid_soil_factor: float
    acid_soil_ph: float
    normal_soil_ph: float
    urea_activation_energy_kj_mol: float
    nitrification_q10: float
    nitrification_flat_from_c: float
    nitrification_flat_to_c: float
    nitrification_highest_c: float
    nitrification_lowest_c: float
    nitrification_ph_low: float
    nitrification_factor_low: float
    nitrification_ph_middle: float
    nitrification_factor_middle: float
    nitrification_ph_full: float
    moisture_full: float
    humus_q10: float
    humus_reference_temp_c: float
    moisture_wet_width: float
    acid_per_nh4_mol_mol: float
    acid_per_urea_n_mol_mol: float
    ammonium_uptake_per_d: float
    nitrate_uptake_half_time_d: float
    background_reference_ph: float
    background_highest_ph: float
    root_depth_cm: float
    deep_co2_factor: float
    deep_co2_from_cm: float
    lime_class_factor_1: float
    lime_class_factor_2: float
    lime_class_factor_3: float
    lime_class_factor_4: float
    lime_class_factor_5: float
    lime_acid_below_ph: float
    coarse_carbonate_coarsest_frac: float
    sample_wet_d: float
    gypsum_full_mmolc_kg: float
    bicarbonate_log10_k: float
    bicarbonate_highest_mmolc_l: float
    suspension_mmolc_l: float
    al_highest_mmolc_l: float
    sulfate_leach_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnResult:
    """What a run answers; M members, T readings, L layers.

    ``day`` (T): days since the start, 0 first, read at the end of that many days. ``ph`` (M, T):
    pH in water of the mixed sampled depth, without reading error. ``oxidised_frac`` (M, T): of
    all sulfur put on so far, 0 where none. ``balance_error`` (M): acid that went astray over all
    that moved [-]. At the end: ``end_ph`` (M, L), ``carbonate_mmolc_m2`` (M, L),
    ``sulfur_left_mmolc_m2``, ``lime_left_mmolc_m2`` (M). ``lowest_ph`` (M): of any layer on any
    day; below 3 the answer is outside the model. Sums over the run [mmolc/m2] (M):
    ``background_acid``, net of weathering; ``water_base``; ``drained_base`` out of the bottom.
    """

    day: IntArray
    ph: FloatArray
    oxidised_frac: FloatArray
    balance_error: FloatArray
    end_ph: FloatArray
    carbonate_mmolc_m2: FloatArray
    sulfur_left_mmolc_m2: FloatArray
    lime_left_mmolc_m2: FloatArray
    lowest_ph: FloatArray
    background_acid_mmolc_m2: FloatArray
    water_base_mmolc_m2: FloatArray
    drained_base_mmolc_m2: FloatArray


def _need_shape(name: str, values: FloatArray, shape: tuple[int, ...]) -> None:
    if values.shape != shape or values.dtype != np.float64:
        raise InputError(
            f"{name} has shape {values.shape} and kind {values.dtype}; "
            f"it must be {shape} of float64"
        )
