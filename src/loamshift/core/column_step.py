"""The days of the compiled column for a block of members: law after law, layer after layer.

Each law is a loop over the lanes of the block, and nothing in such a loop is called or jumps, so
the compiler runs several members at a time. A law whose pool is empty in every lane is left out.
"""

from __future__ import annotations

from typing import Final

from loamshift.core.column_compile import compiled, inlined, outermost
from loamshift.core.column_curve import read_ph
from loamshift.core.column_flux import drain, wash_anions, wash_sulfate
from loamshift.core.column_layout import N_LIME_CLASSES, FloatArray, IntArray
from loamshift.core.column_lime import (
    close_lime,
    dissolve_class,
    open_lime,
    settle,
    settle_acid,
)
from loamshift.core.column_load import add_background
from loamshift.core.column_nitrogen import let_go, nitrify, open_life, take_up_nitrate
from loamshift.core.column_numbers import (
    ACID,
    AIR_ACID,
    AMMONIUM,
    ANION_IN,
    BASE,
    CARBONATE,
    DECAY,
    DOSE_EATEN,
    DOSE_LEFT,
    DOSE_POOL,
    DOSE_START,
    DRAINAGE,
    DRAINED,
    FAST,
    FIRST_POOL,
    FRAC,
    GIVEN,
    GONE,
    HIGH_UM,
    HUMUS_LABILE,
    HUMUS_SLOW,
    INFLOW,
    INTACT,
    INVERSE_TEMP,
    LANES,
    LEFT_ALL,
    LIME,
    LOW_UM,
    MADE,
    MASS,
    N_CELL,
    NITRATE,
    NITRIFICATION,
    ORGANIC,
    PH_NOW,
    PLATEAU_GYPSUM,
    ROTTING,
    SHARE_LEFT,
    SULFATE,
    SULFATE_IN,
    SULFUR,
    SULFUR_HEAT,
    TEMP,
    TURNOVER,
    UREA,
    UREA_SPEED,
    WARM,
    WATER,
    WATER_BASE,
    WETNESS,
    WORN,
    rate,
)
from loamshift.core.column_organic import rot
from loamshift.core.column_prills import break_up, eat_pool
from loamshift.core.column_reading import mix_sample, oxidised_frac
from loamshift.core.column_sulfur import (
    class_left,
    eat,
    open_sulfur,
    sound_left,
    turn_acid,
    wear,
)

LOOK_DAYS: Final = 16
"""Days from one look for empty pools to the next [d]."""
_STEP_D = rate("step_d")
_FAST_GONE = rate("fast_gone")
_ORGANIC_GONE = rate("organic_gone")
_DECAY_GONE = rate("decay_gone")
_ALKALINITY = rate("alkalinity")
_RAMP_FROM = rate("ramp_from")


@compiled
def find_live(cell: FloatArray, live: IntArray, n: int) -> None:
    """Look which pools of which layers hold anything in any lane.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    live
        Set here, shape (layers, places): 1 for a pool that is not empty in each lane [count].
    n
        Lanes in use [count].

    Notes
    -----
    Asked after events and now and then; a law that fills a pool says so itself.

    References
    ----------
    own-arithmetic
    """
    for layer in range(cell.shape[0]):
        for pool in range(FIRST_POOL, N_CELL, LANES):
            found = 0
            for j in range(n):
                found += int(cell[layer, pool + j] != 0.0)
            live[layer, pool // LANES] = min(1, found)


@outermost
def run_days(
    n: int,
    days: IntArray,
    cell: FloatArray,
    sample: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    work: FloatArray,
    live: IntArray,
    climate: FloatArray,
    water: FloatArray,
    ph: FloatArray,
    oxidised: FloatArray,
) -> None:
    """A block of members through days without an event.

    Parameters
    ----------
    n
        Lanes in use; a number known when it is compiled leaves the loops over them out [count].
    days
        First day, one past the last, layers sampled, days between readings, steps in a day
        [index, index, count, d, count].
    cell
        State of the layers, changed here [mixed].
    sample
        The mixed sample, changed here [mixed].
    grain
        State of the sulfur doses in the layers, changed here [mixed].
    sizes
        Size classes of the doses [mixed].
    doses
        What holds for the whole of each dose [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    work
        Room to work in [mixed].
    live
        Which pools hold anything, changed here [count].
    climate
        Weather of each day in each layer [mixed].
    water
        Water and air of each day, see ``column_numbers`` [mixed].
    ph
        Filled here, a row for each lane in use, a column for each reading [pH].
    oxidised
        Filled here, of the same shape [0-1].

    Notes
    -----
    In a layer: background, sulfur, nitrogen, pools that decay, humus that rots, salts, lime; then
    draining water, then native carbonate, then sulfate washed down. Rates read the pH at the
    start of the step. Each part uses up no more than its pool, or moves the pH no further than
    where it would be at rest, so any step is stable.

    References
    ----------
    watkinson-blair-1993, own-judgement
    """
    step_d = number[_STEP_D]
    for day in range(days[0], days[1]):
        if day == days[0] or day % LOOK_DAYS == 0:
            find_live(cell, live, n)
        for _ in range(days[4]):
            brought = water[day, WATER_BASE] * step_d
            water_mm = water[day, DRAINAGE] * step_d
            air = water[day, AIR_ACID]
            for j in range(n):
                inflow = brought * number[_ALKALINITY + j]
                work[INFLOW + j] = inflow
                work[ANION_IN + j] = 0.0
                work[SULFATE_IN + j] = 0.0
                totals[WATER + j] += inflow
                totals[TURNOVER + j] += abs(inflow)
            anions = 0
            for layer in range(cell.shape[0]):
                read_ph(cell, curve, number, work, layer, n)
                for j in range(n):
                    add_background(cell, number, totals, work, layer, j, air)
                if live[layer, SULFUR // LANES] > 0:
                    _oxidise(
                        cell, grain, sizes, doses, number, work, live, climate, water, day, layer, n
                    )
                if climate[day, layer, WARM] > 0.0:
                    _feed(cell, number, work, live, climate, water, day, layer, n)
                if live[layer, FAST // LANES] > 0:
                    _release(cell, number, work, live, layer, n)
                _lime(cell, number, work, live, layer, n)
                for j in range(n):
                    mass = cell[layer, MASS + j]
                    cell[layer, BASE + j] += (work[INFLOW + j] - work[ACID + j]) / mass
                    work[INFLOW + j] = 0.0
                if water_mm > 0.0:
                    read_ph(cell, curve, number, work, layer, n)
                    for j in range(n):
                        drain(cell, number, work, layer, j, water_mm)
                    if anions > 0 or live[layer, ORGANIC // LANES] > 0:
                        anions = 1
                        live[layer, ORGANIC // LANES] = 1
                        for j in range(n):
                            wash_anions(cell, work, layer, j)
                _settle(cell, curve, number, work, live, layer, n)
                if water_mm > 0.0 and (live[layer, SULFATE // LANES] > 0 or _flows(work, n)):
                    for j in range(n):
                        wash_sulfate(cell, number, work, layer, j, water_mm)
            for j in range(n):
                totals[DRAINED + j] += work[INFLOW + j] - work[ANION_IN + j]
                totals[TURNOVER + j] += abs(work[INFLOW + j])
        if (day + 1) % days[3] == 0:
            reading = (day + 1) // days[3]
            mix_sample(cell, curve, number, work, sample, days[2], n, _limy(live, days[2]))
            for j in range(n):
                ph[j, reading] = work[PH_NOW + j]
                oxidised[j, reading] = oxidised_frac(grain, j)


@inlined
def _limy(live: IntArray, sampled: int) -> int:
    """How many of the layers sampled hold native lime in any lane."""
    found = 0
    for layer in range(sampled):
        found += live[layer, CARBONATE // LANES]
    return found


@inlined
def _flows(work: FloatArray, n: int) -> bool:
    """Whether sulfate comes from above in any lane."""
    found = 0
    for j in range(n):
        found += int(work[SULFATE_IN + j] > 0.0)
    return found > 0


@compiled
def _oxidise(
    cell: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    work: FloatArray,
    live: IntArray,
    climate: FloatArray,
    water: FloatArray,
    day: int,
    layer: int,
    n: int,
) -> None:
    """Sulfur of every dose in a layer, to acid and sulfate."""
    prills = False
    for dose in range(doses.shape[0]):
        prills = prills or doses[dose, INTACT] > 0.0
    heat = climate[day, layer, SULFUR_HEAT]
    temp = climate[day, layer, TEMP]
    warm = 0
    for j in range(n):
        warm += int(temp > number[_RAMP_FROM + j])
    if (heat <= 0.0 or warm == 0) and not prills:
        return
    for j in range(n):
        open_sulfur(
            number,
            work,
            j,
            wetness=water[day, WETNESS + layer],
            heat=heat,
            inverse_temp=climate[day, layer, INVERSE_TEMP],
            temp_c=temp,
        )
    for dose in range(doses.shape[0]):
        left = 0
        for j in range(n):
            left += int(grain[dose, layer, DOSE_LEFT + j] > 0.0)
        if left == 0:
            continue
        for j in range(n):
            wear(grain, doses, number, work, dose, layer, j)
        if doses[dose, INTACT] > 0.0:
            _use_prills(grain, sizes, doses, number, work, dose, layer, n)
            for j in range(n):
                turn_acid(grain, work, dose, layer, j, 1.0)
        else:
            _use_grains(grain, sizes, work, dose, layer, n)
            for j in range(n):
                turn_acid(grain, work, dose, layer, j, grain[dose, layer, DOSE_START + j])
    for j in range(n):
        work[ACID + j] += work[MADE + j]
        cell[layer, SULFATE + j] += work[MADE + j]
        cell[layer, SULFUR + j] = work[LEFT_ALL + j]
    live[layer, SULFATE // LANES] = 1


@compiled
def _use_grains(
    grain: FloatArray, sizes: FloatArray, work: FloatArray, dose: int, layer: int, n: int
) -> None:
    """Share left of a dose of loose grains; most classes have none of their grains gone yet."""
    least = sizes[dose, 0, HIGH_UM]
    for i in range(sizes.shape[1]):
        if sizes[dose, i, FRAC] > 0.0:
            least = min(least, sizes[dose, i, LOW_UM])
    past = 0
    for j in range(n):
        past += int(eat(grain, work, dose, layer, j) > least)
    for i in range(sizes.shape[1]):
        share = sizes[dose, i, FRAC]
        if share <= 0.0:
            continue
        if past > 0:
            past = 0
            for j in range(n):
                past += int(grain[dose, layer, DOSE_EATEN + j] > sizes[dose, i, LOW_UM])
            if past > 0:
                for j in range(n):
                    part = class_left(sizes, dose, i, grain[dose, layer, DOSE_EATEN + j])
                    work[SHARE_LEFT + j] += share * part
                continue
            past = 1
        for j in range(n):
            part = max(0.0, sound_left(sizes, dose, i, grain[dose, layer, DOSE_EATEN + j]))
            work[SHARE_LEFT + j] += share * part


@compiled
def _use_prills(
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    work: FloatArray,
    dose: int,
    layer: int,
    n: int,
) -> None:
    """What is left of prills: what has broken up reacts, then the whole shrink and break up."""
    for i in range(sizes.shape[1]):
        for j in range(n):
            eat_pool(grain, sizes, work, dose, layer, j, i)
    for j in range(n):
        break_up(grain, doses, number, work, dose, layer, j)
    for i in range(sizes.shape[1]):
        for j in range(n):
            young = DOSE_POOL + 2 * LANES * i + j
            grain[dose, layer, young] += sizes[dose, i, FRAC] * work[WORN + j]


@compiled
def _feed(
    cell: FloatArray,
    number: FloatArray,
    work: FloatArray,
    live: IntArray,
    climate: FloatArray,
    water: FloatArray,
    day: int,
    layer: int,
    n: int,
) -> None:
    """Nitrogen, what decays, and humus that rots, in soil that is not frozen."""
    if live[layer, ORGANIC // LANES] > 0:
        for j in range(n):
            gone = let_go(held=cell[layer, ORGANIC + j], gone_frac=number[_ORGANIC_GONE + j])
            cell[layer, ORGANIC + j] -= gone
            work[ACID + j] += gone
    if live[layer, DECAY // LANES] > 0:
        for j in range(n):
            gone = let_go(held=cell[layer, DECAY + j], gone_frac=number[_DECAY_GONE + j])
            cell[layer, DECAY + j] -= gone
            work[ACID + j] += gone
    if live[layer, NITRATE // LANES] > 0:
        for j in range(n):
            take_up_nitrate(cell, number, work, layer, j)
    feeds = live[layer, UREA // LANES] > 0 or live[layer, AMMONIUM // LANES] > 0
    rots = live[layer, HUMUS_LABILE // LANES] > 0 or live[layer, HUMUS_SLOW // LANES] > 0
    if not feeds and not rots:
        return
    for j in range(n):
        open_life(number, work, j, water[day, WETNESS + layer])
    if feeds:
        speed, nitrification = climate[day, layer, UREA_SPEED], climate[day, layer, NITRIFICATION]
        for j in range(n):
            nitrify(cell, number, work, layer, j, urea_speed=speed, nitrification=nitrification)
        live[layer, NITRATE // LANES] = 1
    if rots and climate[day, layer, ROTTING] > 0.0:
        for j in range(n):
            rot(cell, number, work, layer, j, climate[day, layer, ROTTING])
        live[layer, AMMONIUM // LANES] = 1


@compiled
def _release(
    cell: FloatArray, number: FloatArray, work: FloatArray, live: IntArray, layer: int, n: int
) -> None:
    """Aluminium and iron salts, within days."""
    for j in range(n):
        made = let_go(held=cell[layer, FAST + j], gone_frac=number[_FAST_GONE + j])
        cell[layer, FAST + j] -= made
        cell[layer, SULFATE + j] += max(0.0, made)
        work[ACID + j] += made
    live[layer, SULFATE // LANES] = 1


@compiled
def _lime(
    cell: FloatArray, number: FloatArray, work: FloatArray, live: IntArray, layer: int, n: int
) -> None:
    """Applied lime, class by class."""
    pools = N_LIME_CLASSES if layer > 0 else 2 * N_LIME_CLASSES
    found = 0
    for i in range(pools):
        found += live[layer, LIME // LANES + i]
    if found == 0:
        return
    for j in range(n):
        open_lime(cell, number, work, layer, j)
    for i in range(pools):
        if live[layer, LIME // LANES + i] > 0:
            for j in range(n):
                dissolve_class(cell, number, work, layer, j, i)
    for j in range(n):
        close_lime(work, j)
    for i in range(pools):
        if live[layer, LIME // LANES + i] > 0:
            for j in range(n):
                row = LANES * i + j
                cell[layer, LIME + row] -= work[GIVEN + j] * work[GONE + row]


@compiled
def _settle(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    work: FloatArray,
    live: IntArray,
    layer: int,
    n: int,
) -> None:
    """Native lime; in the lanes below pH 7 one by one, for each has its own number of parts."""
    if live[layer, CARBONATE // LANES] == 0:
        above = 0
        for j in range(n):
            above += int(cell[layer, BASE + j] > cell[layer, PLATEAU_GYPSUM + j])
        if above == 0:
            return
    read_ph(cell, curve, number, work, layer, n)
    acid = 0
    for j in range(n):
        acid += settle(cell, number, work, layer, j)
    if acid > 0:
        for j in range(n):
            settle_acid(cell, curve, number, layer, j, work[PH_NOW + j])
    live[layer, CARBONATE // LANES] = 1
