"""One step of one member of the compiled column, layer by layer from the top."""

from __future__ import annotations

import math

from loamshift.core.column_compile import compiled
from loamshift.core.column_curve import find_ph, set_carbon
from loamshift.core.column_flux import (
    dissolve_lime,
    drained_base,
    has_lime,
    settle_carbonate,
    wash_sulfate,
)
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_load import background_rise
from loamshift.core.column_nitrogen import (
    ammonified_acid,
    let_go,
    nitrification_by_ph,
    nitrify,
    take_up_nitrate,
)
from loamshift.core.column_numbers import (
    AMMONIUM,
    BACKGROUND,
    BASE,
    CARBONATE,
    DECAY,
    DRAINAGE,
    DRAINED,
    FAST,
    HUMUS_LABILE,
    HUMUS_SLOW,
    INVERSE_TEMP,
    LOWEST_PH,
    MASS,
    NITRATE,
    NITRIFICATION,
    ORGANIC,
    PLATEAU_GYPSUM,
    ROOT_SHARE,
    ROTTING,
    SULFATE,
    SULFUR,
    SULFUR_HEAT,
    TURNOVER,
    UREA,
    UREA_SPEED,
    WARM,
    WATER,
    WATER_BASE,
    WETNESS,
    law,
    rate,
)
from loamshift.core.column_organic import DAYS_IN_YEAR, carbon_left, rotted_frac
from loamshift.core.column_sulfur import has_prills, oxidise

_STEP_D = rate("step_d")
_BACKGROUND = rate("background")
_WEATHERING = rate("weathering")
_FAST_GONE = rate("fast_gone")
_ORGANIC_GONE = rate("organic_gone")
_DECAY_GONE = rate("decay_gone")
_WETNESS_SHIFT = rate("wetness_shift")
_ACTIVATION = rate("activation_energy")
_EATEN = rate("eaten_um_d")
_ALKALINITY = rate("alkalinity")
_GROWTH = rate("growth_d")
_MOISTURE_OPTIMUM = law("moisture_optimum")
_MOISTURE_WIDTH = law("moisture_width")
_ACID_SOIL_FACTOR = law("acid_soil_factor")
_ACID_SOIL_PH = law("acid_soil_ph")
_NORMAL_SOIL_PH = law("normal_soil_ph")
_MOISTURE_FULL = law("moisture_full")
_WET_WIDTH = law("moisture_wet_width")
_HUMUS_LABILE_RATE = rate("humus_labile_per_year")
_HUMUS_SLOW_RATE = rate("humus_slow_per_year")
_HUMUS_FIRST = rate("humus_first_mmol_kg")
_HUMUS_CARBON = rate("humus_carbon_per_mmol_kg")


@compiled
def step_member(
    cell: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    room: FloatArray,
    climate: FloatArray,
    water: FloatArray,
    day: int,
) -> None:
    """One step of a member.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    grain
        State of the sulfur doses in the layers, changed here [mixed].
    sizes
        Size classes of the doses [mixed].
    doses
        What holds for the whole of each dose [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the member [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    room
        Room to work in, 10 places [mixed].
    climate
        Weather of each day in each layer [mixed].
    water
        Water of each day [mm, mmolc/m2].
    day
        Which day [index].

    Notes
    -----
    In a layer: sulfur, nitrogen, pools that decay, humus that rots, lime, background, then
    draining water, then native carbonate, then sulfate washed down. Acid that drains takes its
    organic anion along, as far as there is any, so that what decay gives back is given where the
    acid went. Rates
    read the pH at the start of the step. Each part uses up no more than its pool, or moves the
    pH no further than where it would be at rest, so any step is stable.

    References
    ----------
    watkinson-blair-1993, own-judgement
    """
    inflow = water[day, WATER_BASE] * number[_ALKALINITY] * number[_STEP_D]
    sulfate_in = 0.0
    anion_in = 0.0
    totals[WATER] += inflow
    totals[TURNOVER] += abs(inflow)
    water_mm = water[day, DRAINAGE] * number[_STEP_D]
    for layer in range(cell.shape[0]):
        mass = cell[layer, MASS]
        ph = find_ph(cell, curve, number, layer)
        totals[LOWEST_PH] = min(totals[LOWEST_PH], ph)
        rise = background_rise(number, ph)
        acid = cell[layer, ROOT_SHARE] * (number[_BACKGROUND] * rise - number[_WEATHERING])
        totals[BACKGROUND] += acid
        totals[TURNOVER] += abs(acid)
        if cell[layer, SULFUR] > 0.0:
            room[0] = ph
            made = _sulfur_acid(cell, grain, sizes, doses, number, room, climate, day, layer)
            cell[layer, SULFATE] += made
            acid += made
        if climate[day, layer, WARM] > 0.0 and (
            cell[layer, AMMONIUM] > 0.0
            or cell[layer, UREA] > 0.0
            or cell[layer, NITRATE] > 0.0
            or cell[layer, ORGANIC] != 0.0
            or cell[layer, DECAY] != 0.0
        ):
            acid += _living_acid(cell, number, room, climate, day, layer, ph)
        if climate[day, layer, ROTTING] > 0.0 and (
            cell[layer, HUMUS_LABILE] > 0.0 or cell[layer, HUMUS_SLOW] > 0.0
        ):
            acid += _rotting_acid(cell, curve, number, climate, day, layer)
        if cell[layer, FAST] != 0.0:
            made = let_go(cell, layer, FAST, number[_FAST_GONE])
            cell[layer, SULFATE] += max(0.0, made)
            acid += made
        if has_lime(cell, layer):
            acid -= dissolve_lime(cell, number, room, layer, ph)
        cell[layer, BASE] += (inflow - acid) / mass
        inflow = 0.0
        if water_mm > 0.0:
            inflow = drained_base(cell, curve, number, layer, water_mm)
            cell[layer, BASE] -= inflow / mass
            if cell[layer, ORGANIC] != 0.0 or anion_in != 0.0:
                washed = min(0.0, max(inflow, cell[layer, ORGANIC]))
                cell[layer, ORGANIC] += anion_in - washed
                anion_in = washed
        if cell[layer, CARBONATE] > 0.0 or cell[layer, BASE] > cell[layer, PLATEAU_GYPSUM]:
            settle_carbonate(cell, curve, number, layer)
        if water_mm > 0.0 and (cell[layer, SULFATE] > 0.0 or sulfate_in > 0.0):
            washed = wash_sulfate(cell, number, layer, water_mm)
            cell[layer, SULFATE] += sulfate_in
            sulfate_in = washed
    totals[DRAINED] += inflow - anion_in
    totals[TURNOVER] += abs(inflow)


@compiled
def _sulfur_acid(
    cell: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    room: FloatArray,
    climate: FloatArray,
    day: int,
    layer: int,
) -> float:
    """Acid of sulfur in a step; the pH of the layer stands in ``room[0]`` [mmolc/m2]."""
    gap = climate[day, layer, WETNESS] + number[_WETNESS_SHIFT] - number[_MOISTURE_OPTIMUM]
    gap /= number[_MOISTURE_WIDTH]
    wet = max(0.0, 1.0 - gap * gap)
    warmth = wet * climate[day, layer, SULFUR_HEAT]
    if warmth <= 0.0 and not has_prills(doses):
        return 0.0
    if warmth > 0.0:
        warmth *= math.exp(number[_ACTIVATION] * climate[day, layer, INVERSE_TEMP])
    share = (room[0] - number[_ACID_SOIL_PH]) / (number[_NORMAL_SOIL_PH] - number[_ACID_SOIL_PH])
    share = min(1.0, max(0.0, share))
    room[0] = number[_EATEN] * (
        number[_ACID_SOIL_FACTOR] + (1.0 - number[_ACID_SOIL_FACTOR]) * share
    )
    room[1] = warmth * number[_STEP_D]
    room[2] = number[_GROWTH]
    room[3] = number[_STEP_D]
    room[4] = wet
    acid, left = oxidise(grain, sizes, doses, layer, room)
    cell[layer, SULFUR] = left
    return acid


@compiled
def _living_acid(
    cell: FloatArray,
    number: FloatArray,
    room: FloatArray,
    climate: FloatArray,
    day: int,
    layer: int,
    ph: float,
) -> float:
    """Acid of nitrogen and of what decays in a step, in soil that is not frozen [mmolc/m2]."""
    acid = 0.0
    if cell[layer, ORGANIC] != 0.0:
        acid += let_go(cell, layer, ORGANIC, number[_ORGANIC_GONE])
    if cell[layer, DECAY] != 0.0:
        acid += let_go(cell, layer, DECAY, number[_DECAY_GONE])
    if cell[layer, NITRATE] > 0.0:
        acid += take_up_nitrate(cell, number, layer)
    if cell[layer, UREA] > 0.0 or cell[layer, AMMONIUM] > 0.0:
        wet = max(0.0, climate[day, layer, WETNESS] + number[_WETNESS_SHIFT])
        dry = min(1.0, wet / number[_MOISTURE_FULL]) * number[_STEP_D]
        air = 1.0
        if wet > 1.0:
            gap = (wet - 1.0) / number[_WET_WIDTH]
            air = max(0.0, 1.0 - gap * gap)
        room[0] = climate[day, layer, UREA_SPEED] * dry
        room[1] = climate[day, layer, NITRIFICATION] * dry * air * nitrification_by_ph(number, ph)
        acid += nitrify(cell, number, layer, room)
    return acid


@compiled
def _rotting_acid(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    climate: FloatArray,
    day: int,
    layer: int,
) -> float:
    """Acid of humus that rots in a step, below 0: ammonium is made and carbon goes [mmolc/m2]."""
    wet = max(0.0, climate[day, layer, WETNESS] + number[_WETNESS_SHIFT])
    years = climate[day, layer, ROTTING] * min(1.0, wet / number[_MOISTURE_FULL])
    years *= number[_STEP_D] / DAYS_IN_YEAR
    labile = cell[layer, HUMUS_LABILE] * rotted_frac(number[_HUMUS_LABILE_RATE] * years)
    slow = cell[layer, HUMUS_SLOW] * rotted_frac(number[_HUMUS_SLOW_RATE] * years)
    cell[layer, HUMUS_LABILE] -= labile
    cell[layer, HUMUS_SLOW] -= slow
    cell[layer, AMMONIUM] += labile + slow
    held = (cell[layer, HUMUS_LABILE] + cell[layer, HUMUS_SLOW]) / cell[layer, MASS]
    lost = number[_HUMUS_FIRST] - held
    set_carbon(cell, curve, number, layer, carbon_left(lost * number[_HUMUS_CARBON]))
    acid: float = ammonified_acid(number, labile + slow)
    return acid
