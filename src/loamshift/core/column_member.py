"""One member of the compiled column: its own numbers for a step."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled, inlined
from loamshift.core.column_curve import base_of
from loamshift.core.column_exp import LN10, log_of
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    BREAK_DUG_IN,
    BREAK_DUG_IN_SD,
    BREAK_TOP,
    BREAK_TOP_SD,
    GROWN,
    GROWN_SD,
    LANES,
    law,
    member,
    rate,
)
from loamshift.core.column_sulfur_dose import CM_PER_UM

DAYS_IN_YEAR: Final = 365.25
_COPIED: Final = (
    ("sulfur_activation_energy_kj_mol", "activation_energy"),
    ("sulfur_growth_per_d", "growth_d"),
    ("sulfur_ramp_from_c", "ramp_from"),
    ("sulfur_crowding_exponent", "crowding"),
    ("wetness_shift", "wetness_shift"),
    ("nitrification_rate_per_d", "nitrification_d"),
    ("urea_rate_per_d", "urea_d"),
    ("realised_frac", "realised"),
    ("nitrate_uptake_mol_mol", "nitrate_base"),
    ("lime_acid_exponent", "lime_exponent"),
    ("lime_field_efficiency", "lime_efficiency"),
    ("surface_lime_factor", "surface_lime"),
    ("plateau_ph", "plateau_ph"),
    ("carbonate_acid_exponent", "carbonate_exponent"),
    ("background_rise_per_ph", "background_rise"),
    ("alkalinity_factor", "alkalinity"),
    ("transport_factor", "transport"),
    ("anions_mmolc_l", "anions"),
    ("humus_labile_per_year", "humus_labile_per_year"),
    ("humus_slow_per_year", "humus_slow_per_year"),
    ("humus_rest_mol_mol", "humus_rest"),
    ("humus_carbon_per_mmol_kg", "humus_carbon_per_mmol_kg"),
)
_COPY_FROM = tuple(member(name) for name, _ in _COPIED)
_COPY_TO = tuple(rate(name) for _, name in _COPIED)
_N_COPIED = len(_COPIED)
_STEP_D = rate("step_d")
_EATEN = rate("eaten_um_d")
_SULFUR_RATE = member("sulfur_rate_ug_cm2_d")
_BREAK_UP = member("break_up_z")
_GROWN_Z = member("sulfur_grown_z")
_DENSITY = law("density_ug_cm3")
_NITRATE_GONE = rate("nitrate_gone")
_NITRATE_HALF = law("nitrate_uptake_half_time_d")
_FAST_GONE = rate("fast_gone")
_FAST_HALF = member("fast_salt_half_time_d")
_ORGANIC_GONE = rate("organic_gone")
_ORGANIC_HALF = member("organic_acid_half_time_d")
_DECAY_GONE = rate("decay_gone")
_DECAY_HALF = member("decay_half_time_d")
_LIME_RATE = rate("lime_rate_1")
_LIME_FACTOR = law("lime_class_factor_1")
_LIME_HALF = member("lime_half_time_d")
_CARBONATE_PER_D = member("carbonate_rate_per_d")
_CARBONATE_RATE = rate("carbonate_rate")
_CARBONATE_GONE = rate("carbonate_gone")
_PLATEAU_PH = member("plateau_ph")
_GYPSUM_DROP = member("gypsum_drop_ph")
_PLATEAU_REST = rate("plateau_rest")
_PLATEAU_CARBON = rate("plateau_carbon")
_GYPSUM_REST = rate("gypsum_rest")
_GYPSUM_CARBON = rate("gypsum_carbon")
_BACKGROUND_YEAR = member("background_mmolc_m2_year")
_WEATHERING_YEAR = member("weathering_mmolc_m2_year")
_BACKGROUND = rate("background")
_WEATHERING = rate("weathering")
_AIR_FACTOR = member("air_factor")
_AIR = rate("air")
_LOG10_K = member("log10_k")
_K = rate("k")
_PCO2 = member("flux_pco2_atm")
_AL = member("al_log10_k")
_BICARBONATE_K = law("bicarbonate_log10_k")
_BICARBONATE = rate("bicarbonate")
_ALUMINIUM = rate("aluminium")
_ANIONS = member("anions_mmolc_l")
_SUSPENSION = law("suspension_mmolc_l")
_ANIONS_SHARE = rate("anions_share")
_BICARBONATE_SHARE = rate("bicarbonate_share")
_HUMUS_FIRST = rate("humus_first_mmol_kg")
_HUMUS_LABILE = member("humus_labile_mmol_kg")
_HUMUS_SLOW = member("humus_slow_mmol_kg")


@inlined
def neutral_ph(bicarbonate: float, aluminium: float, anions: float, suspension: float) -> float:
    """PH of a soil whose draining water carries as much base as acid.

    Parameters
    ----------
    bicarbonate
        Times 1/H it is bicarbonate, 0 or more [mmol2/L2].
    aluminium
        Times H cubed it is the charge of aluminium, 0 or more [mmolc/L per (mol/L)3].
    anions
        Anions in the water, bicarbonate apart, above 0 [mmolc/L].
    suspension
        Calcium with magnesium in the suspension that pH is read in, above 0 [mmolc/L].

    Returns
    -------
    float
        pH of the soil [pH].

    Notes
    -----
    B/H = 1000 H + A H3 is a quadratic in y = H2: y = 2 B/(1000 + root(1000^2 + 4 A B)). That is
    the water's; the soil reads log10 root(C/C_w) higher, C = anions + B/H, by its lime potential.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(neutral_ph(1000.0 * 1e-10, 0.0, 1.0, 1.0), 3)
    5.002
    """
    square = 2.0 * bicarbonate / (1000.0 + math.sqrt(1.0e6 + 4.0 * aluminium * bicarbonate))
    square = max(square, 1.0e-28)
    salt = (anions + bicarbonate / math.sqrt(square)) / suspension
    return 0.5 * (log_of(salt) - log_of(square)) / LN10


@compiled
def set_numbers(
    number: FloatArray, curve: FloatArray, laws: FloatArray, row: FloatArray, j: int
) -> None:
    """Work out the numbers of one member.

    Parameters
    ----------
    number
        Filled here; ``step_d``, the leaching factor in ``background`` and where the points of
        the curve lie are set before [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    laws
        What all members share, in the order of ``ColumnLaws`` [mixed].
    row
        The member, in the order of ``MemberParameters`` [mixed].
    j
        Which lane [index].

    Notes
    -----
    Shares gone in a step are 1 - exp(-rate step).

    References
    ----------
    own-arithmetic
    """
    ln2 = math.log(2.0)
    for i in range(laws.size):
        number[LANES * i + j] = laws[i]
    for i in range(_N_COPIED):
        number[_COPY_TO[i] + j] = row[_COPY_FROM[i]]
    step_d = number[_STEP_D + j]
    number[_EATEN + j] = 2.0 * row[_SULFUR_RATE] / number[_DENSITY + j] / CM_PER_UM
    number[_NITRATE_GONE + j] = -math.expm1(-ln2 * step_d / number[_NITRATE_HALF + j])
    number[_FAST_GONE + j] = -math.expm1(-ln2 * step_d / row[_FAST_HALF])
    number[_ORGANIC_GONE + j] = -math.expm1(-ln2 * step_d / row[_ORGANIC_HALF])
    number[_DECAY_GONE + j] = -math.expm1(-ln2 * step_d / row[_DECAY_HALF])
    for i in range(5):
        factor = number[_LIME_FACTOR + LANES * i + j]
        number[_LIME_RATE + LANES * i + j] = ln2 / (row[_LIME_HALF] * factor)
    number[_CARBONATE_RATE + j] = row[_CARBONATE_PER_D] * step_d
    number[_CARBONATE_GONE + j] = -math.expm1(-number[_CARBONATE_RATE + j])
    leaching = number[_BACKGROUND + j]
    number[_BACKGROUND + j] = row[_BACKGROUND_YEAR] * leaching * step_d / DAYS_IN_YEAR
    number[_WEATHERING + j] = row[_WEATHERING_YEAR] * step_d / DAYS_IN_YEAR
    number[_AIR + j] = row[_AIR_FACTOR] * step_d / DAYS_IN_YEAR
    number[_BICARBONATE + j] = 1000.0 * 10.0 ** number[_BICARBONATE_K + j] * row[_PCO2]
    number[_ALUMINIUM + j] = 3000.0 * 10.0 ** row[_AL]
    number[_ANIONS_SHARE + j] = row[_ANIONS] / number[_SUSPENSION + j]
    number[_BICARBONATE_SHARE + j] = number[_BICARBONATE + j] / number[_SUSPENSION + j]
    number[_HUMUS_FIRST + j] = row[_HUMUS_LABILE] + row[_HUMUS_SLOW]
    number[_K + j] = 10.0 ** row[_LOG10_K]
    ph = row[_PLATEAU_PH]
    number[_PLATEAU_REST + j] = base_of(curve, number, j, ph=ph, carbon=0.0)
    number[_PLATEAU_CARBON + j] = (
        base_of(curve, number, j, ph=ph, carbon=1.0) - number[_PLATEAU_REST + j]
    )
    ph -= row[_GYPSUM_DROP]
    number[_GYPSUM_REST + j] = base_of(curve, number, j, ph=ph, carbon=0.0)
    number[_GYPSUM_CARBON + j] = (
        base_of(curve, number, j, ph=ph, carbon=1.0) - number[_GYPSUM_REST + j]
    )


@compiled
def set_doses(doses: FloatArray, given: FloatArray, row: FloatArray, j: int) -> None:
    """The sulfur doses with the member's own speed of break-up and first oxidisers.

    Parameters
    ----------
    doses
        Filled here: what holds for the whole of each dose [mixed].
    given
        The same with the usual speed and oxidisers [mixed].
    row
        The member, in the order of ``MemberParameters`` [mixed].
    j
        Which lane [index].

    Notes
    -----
    Lognormal: the usual speed times exp(sd z). Oxidisers by their odds, g/(1 - g) exp(sd z), so
    that none come to more than all.

    References
    ----------
    boswell-1988, own-judgement
    """
    for dose in range(doses.shape[0]):
        for i in range(given.shape[1]):
            doses[dose, LANES * i + j] = given[dose, i]
        if given[dose, GROWN_SD // LANES] > 0.0:
            usual = given[dose, GROWN // LANES]
            odds = usual / (1.0 - usual) * math.exp(row[_GROWN_Z] * given[dose, GROWN_SD // LANES])
            doses[dose, GROWN + j] = odds / (1.0 + odds)
        doses[dose, BREAK_TOP + j] *= math.exp(row[_BREAK_UP] * given[dose, BREAK_TOP_SD // LANES])
        doses[dose, BREAK_DUG_IN + j] *= math.exp(
            row[_BREAK_UP] * given[dose, BREAK_DUG_IN_SD // LANES]
        )
