"""One member of the compiled column: its own numbers for a step."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    BREAK_DUG_IN,
    BREAK_DUG_IN_SD,
    BREAK_TOP,
    BREAK_TOP_SD,
    law,
    member,
    rate,
)
from loamshift.core.column_sulfur_dose import CM_PER_UM

DAYS_IN_YEAR: Final = 365.25
_COPIED: Final = (
    ("sulfur_activation_energy_kj_mol", "activation_energy"),
    ("sulfur_growth_per_d", "growth_d"),
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
    ("humus_labile_per_year", "humus_labile_per_year"),
    ("humus_slow_per_year", "humus_slow_per_year"),
    ("humus_carbon_per_mmol_kg", "humus_carbon_per_mmol_kg"),
)
_COPY_FROM = tuple(member(name) for name, _ in _COPIED)
_COPY_TO = tuple(rate(name) for _, name in _COPIED)
_N_COPIED = len(_COPIED)
_STEP_D = rate("step_d")
_EATEN = rate("eaten_um_d")
_SULFUR_RATE = member("sulfur_rate_ug_cm2_d")
_BREAK_UP = member("break_up_z")
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
_GYPSUM_PH = rate("gypsum_ph")
_BACKGROUND_YEAR = member("background_mmolc_m2_year")
_WEATHERING_YEAR = member("weathering_mmolc_m2_year")
_BACKGROUND = rate("background")
_WEATHERING = rate("weathering")
_LOG10_K = member("log10_k")
_K = rate("k")
_PCO2 = member("flux_pco2_atm")
_AL = member("al_log10_k")
_BICARBONATE_K = law("bicarbonate_log10_k")
_BICARBONATE = rate("bicarbonate")
_ALUMINIUM = rate("aluminium")
_NEUTRAL = rate("neutral_ph")
_HUMUS_FIRST = rate("humus_first_mmol_kg")
_HUMUS_LABILE = member("humus_labile_mmol_kg")
_HUMUS_SLOW = member("humus_slow_mmol_kg")


@compiled
def neutral_ph(number: FloatArray) -> float:
    """PH at which draining water carries as much base as acid.

    Parameters
    ----------
    number
        Numbers of the member [mixed].

    Returns
    -------
    float
        pH of the water [pH].

    Notes
    -----
    Bisection of bicarbonate = H + aluminium.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("bicarbonate")] = 1000.0 * 1e-10
    >>> round(neutral_ph(number), 6)
    5.0
    """
    low = 0.0
    high = 14.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        h = 10.0**-middle
        if number[_BICARBONATE] / h - 1000.0 * h - number[_ALUMINIUM] * h * h * h > 0.0:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


@compiled
def set_numbers(number: FloatArray, laws: FloatArray, row: FloatArray) -> None:
    """Work out the numbers of one member.

    Parameters
    ----------
    number
        Filled here; ``step_d``, the leaching factor in ``background`` and where the points of
        the curve lie are set before [mixed].
    laws
        What all members share, in the order of ``ColumnLaws`` [mixed].
    row
        The member, in the order of ``MemberParameters`` [mixed].

    Notes
    -----
    Shares gone in a step are 1 - exp(-rate step).

    References
    ----------
    own-arithmetic
    """
    ln2 = math.log(2.0)
    for i in range(laws.size):
        number[i] = laws[i]
    for i in range(_N_COPIED):
        number[_COPY_TO[i]] = row[_COPY_FROM[i]]
    step_d = number[_STEP_D]
    number[_EATEN] = 2.0 * row[_SULFUR_RATE] / number[_DENSITY] / CM_PER_UM
    number[_NITRATE_GONE] = -math.expm1(-ln2 * step_d / number[_NITRATE_HALF])
    number[_FAST_GONE] = -math.expm1(-ln2 * step_d / row[_FAST_HALF])
    number[_ORGANIC_GONE] = -math.expm1(-ln2 * step_d / row[_ORGANIC_HALF])
    number[_DECAY_GONE] = -math.expm1(-ln2 * step_d / row[_DECAY_HALF])
    for i in range(5):
        number[_LIME_RATE + i] = ln2 / (row[_LIME_HALF] * number[_LIME_FACTOR + i])
    number[_CARBONATE_RATE] = row[_CARBONATE_PER_D] * step_d
    number[_CARBONATE_GONE] = -math.expm1(-number[_CARBONATE_RATE])
    leaching = number[_BACKGROUND]
    number[_BACKGROUND] = row[_BACKGROUND_YEAR] * leaching * step_d / DAYS_IN_YEAR
    number[_WEATHERING] = row[_WEATHERING_YEAR] * step_d / DAYS_IN_YEAR
    number[_BICARBONATE] = 1000.0 * 10.0 ** number[_BICARBONATE_K] * row[_PCO2]
    number[_ALUMINIUM] = 3000.0 * 10.0 ** row[_AL]
    number[_NEUTRAL] = neutral_ph(number)
    number[_HUMUS_FIRST] = row[_HUMUS_LABILE] + row[_HUMUS_SLOW]
    number[_K] = 10.0 ** row[_LOG10_K]
    number[_GYPSUM_PH] = row[_PLATEAU_PH] - row[_GYPSUM_DROP]


@compiled
def set_doses(doses: FloatArray, given: FloatArray, row: FloatArray) -> None:
    """The sulfur doses with the member's own speed of break-up.

    Parameters
    ----------
    doses
        Filled here: what holds for the whole of each dose [mixed].
    given
        The same with the usual speed [mixed].
    row
        The member, in the order of ``MemberParameters`` [mixed].

    Notes
    -----
    Lognormal: the usual speed times exp(sd z).

    References
    ----------
    boswell-1988, own-judgement
    """
    for dose in range(doses.shape[0]):
        for i in range(doses.shape[1]):
            doses[dose, i] = given[dose, i]
        doses[dose, BREAK_TOP] *= math.exp(row[_BREAK_UP] * given[dose, BREAK_TOP_SD])
        doses[dose, BREAK_DUG_IN] *= math.exp(row[_BREAK_UP] * given[dose, BREAK_DUG_IN_SD])
