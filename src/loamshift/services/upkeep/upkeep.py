"""Holding a pH: the yearly ledger, the feed that balances it, and the sulfur or lime left over."""

from __future__ import annotations

from typing import Final

from loamshift.core.background import drained_base_mmolc_m2
from loamshift.core.buffer import acid_between_mmolc_kg, buffer_mmolc_kg_ph
from loamshift.core.ledger import yearly_lines
from loamshift.domain.answer import (
    Decision,
    Direction,
    Forecast,
    Ledger,
    LedgerLine,
    Reason,
    Upkeep,
)
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.message import Message, message
from loamshift.domain.soil import Soil
from loamshift.services.context.air import air_acid
from loamshift.services.context.buffer_test import free_lime_found
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import carbonate_median_mmolc_kg
from loamshift.services.context.water import anions_mmolc_l, deep_co2_factor
from loamshift.services.courses.drift import drift_ph_year
from loamshift.services.materials.feed import present_feed_acid_mmolc_m2
from loamshift.services.materials.free_lime import dissolved_in_a_year_frac
from loamshift.services.upkeep.feed import (
    WITH_BASE,
    WITH_MUCH_ACID,
    chosen_feed,
    nitrogen_wanted,
)
from loamshift.services.upkeep.humus import humus_year
from loamshift.services.upkeep.lime_left import lime_left_frac
from loamshift.services.upkeep.sulfur_tail import sulfur_tails_mmolc_m2
from loamshift.services.upkeep.words import Held, comment
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.model import carbonate_parameters, ledger_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from loamshift.units import (
    SULFUR_G_PER_MMOLC,
    lime_as_caco3_g_m2_from_acid_mmolc_m2,
    sulfur_as_s_g_m2_from_acid_mmolc_m2,
)

WATER_LINE: Final = "irrigation water"
"""Told of every bed that is watered: water that changes nothing is told so too."""
FEED_LINE: Final = "nitrogen feed"
TAIL_LINE: Final = "sulfur of earlier years"
DRAINED_LINE: Final = "bicarbonate washed out"
LIME_LINE: Final = "free lime dissolving"
HUMUS_LINE: Final = "humus rotting"
LINES: Final = (
    WATER_LINE,
    "carbonic acid of rain",
    "acid from the air",
    "leaching and uptake",
    FEED_LINE,
    TAIL_LINE,
    "harvest",
    DRAINED_LINE,
    LIME_LINE,
    HUMUS_LINE,
)
"""Every line of the ledger, in the order of a letter."""
PASSING_LINES: Final = (TAIL_LINE, LIME_LINE)
"""What comes once and is left out of what holds a pH."""
_BACKGROUND_LINES: Final = ("acid from the air", "leaching and uptake")
HELD_BY_SODIUM: Final = (Reason.SODIC, Reason.UNKNOWN_SODIUM)
"""Where sodium holds the pH, what lime, feed and rain do to it is not the question."""


def upkeep(
    context: BedContext, judged: Judgement, *, ahead: Forecast | None = None
) -> tuple[Ledger | None, Upkeep | None]:
    """The yearly ledger of a bed at the pH to be held, and how to hold it there.

    Answers what pulls the pH back, which feed helps, and how much sulfur or lime a year is left
    to bring. Whether the bed can be got there at all is the business of the verdict.

    Parameters
    ----------
    judged
        The judgement on it: where it is to be held, and how it drifts there.
    ahead
        The forecast of the same answer, whose course left as it is tells the drift; None takes it
        from the beds that were judged.

    Returns
    -------
    tuple of Ledger and Upkeep
        Both None where no pH was read, no aim is known or sodium holds the pH; no upkeep where the
        bed is not to be brought to the aim, or must not be touched [mmolc/m2/yr].

    Notes
    -----
    Lines at the aim, with the feed as it is given now. What is to be closed leaves out that feed
    and what comes once: earlier sulfur, and free lime that dissolves. They stand in the ledger and
    pass. The drift is read off the simulated course, in which feed, water and earlier material go
    on. The feed is a linear program over ammonium sulfate, urea and calcium nitrate within the
    nitrogen needed; below pH 5 urea takes the place of ammonium sulfate. Sulfur or lime closes
    what is left, up to its yearly limit. In pots leaching and uptake are left out, for their loads
    were measured in fields.

    References
    ----------
    own-arithmetic, vargas-bryla-2015, lsu-f-520
    """
    soil, target = context.soil, context.target
    if soil is None or target is None or judged.reason in HELD_BY_SODIUM:
        return None, None
    held_ph = held_at_ph(soil, target, judged)
    lines = _lines(context, held_ph)
    watered = context.irrigation_mm_year > 0.0
    kept = tuple(
        LedgerLine(name=called(name), value=value + 0.0)
        for name, value in lines.items()
        if value or (watered and name == WATER_LINE)
    )
    ledger = Ledger(lines=kept, net=sum(line.value for line in kept))
    lasting = {name: value for name, value in lines.items() if name not in PASSING_LINES}
    alone = sum(value for name, value in lasting.items() if name != FEED_LINE)
    unread = judged.reason is Reason.DOUBTFUL_READING and judged.direction is Direction.NONE
    if unread or judged.decision in (Decision.STOP, Decision.ELSEWHERE):
        return ledger, None
    per_ph = _mmolc_m2_per_ph(context, held_ph)
    nitrogen = nitrogen_wanted(context)
    chosen = chosen_feed(
        context, nitrogen, other_mmolc_m2=alone, left_out=_unfit(context, target, judged)
    )
    net = alone + sum(line.acid_mmolc_m2_year for line in chosen)
    sulfur, lime, most_acid = _closing(context, judged, net, per_ph=per_ph, held_ph=held_ph)
    drift = _drift_ph_year(judged, ahead)
    there = drift if judged.drift_held_ph_year is None else judged.drift_held_ph_year
    held = Held(
        aim_ph=held_ph,
        alone_mmolc_m2=alone,
        net_mmolc_m2=net,
        most_sulfur_mmolc_m2=most_acid,
        feed_acid_mmolc_m2=sum(line.acid_mmolc_m2_year for line in chosen),
        present_feed_mmolc_m2=lines[FEED_LINE],
        tail_mmolc_m2=lines[TAIL_LINE],
        nitrogen_known=nitrogen is not None,
        nitrogen_told=nitrogen is not None and nitrogen.told,
        limes=lime > 0.0,
        falls=_must_fall(context, judged)
        and there <= 0.0
        and net / per_ph >= parameter_values("advice")["ignored_drift_ph_year"],
        rises=_reads_below(context, judged)
        and there >= 0.0
        and -net / per_ph >= parameter_values("advice")["ignored_drift_ph_year"],
        treats_water=judged.reason is Reason.WATER,
        lime_mmolc_m2=-lines[LIME_LINE],
        humus_mmolc_m2=lines[HUMUS_LINE],
        has_urea=any(line.material == "urea" for line in chosen),
        per_ph_mmolc_m2=per_ph,
    )
    return ledger, Upkeep(
        drift_ph_year=drift,
        nitrogen_needed_g_m2_year=None
        if nitrogen is None
        else sum(line.n_g_m2_year for line in chosen),
        feed=chosen,
        net_with_feed_mmolc_m2_year=net,
        sulfur_as_s_g_m2_year=sulfur,
        lime_as_caco3_g_m2_year=lime,
        years_water_undoes_dose=_years_undone(context, target),
        comment=comment(context, held),
        drift_held_ph_year=judged.drift_held_ph_year,
    )


def _drift_ph_year(judged: Judgement, ahead: Forecast | None) -> float:
    """How the bed left as it is moves in a year, by the forecast or by the beds judged."""
    if ahead is not None:
        return drift_ph_year(ahead.dates, ahead.do_nothing.q50)
    assert judged.drift_ph_year is not None, f"{judged.reason} was judged without a course"
    return judged.drift_ph_year


def called(line: str) -> Message:
    """What a line of the ledger is called.

    Parameters
    ----------
    line
        Its name where it is worked out, such as ``nitrogen feed``.
    """
    return message(f"ledger-{line.replace(' ', '-')}")


def held_at_ph(soil: Soil, target: Target, judged: Judgement) -> float:
    """Where a bed is to be held.

    Returns
    -------
    float
        The aim where something is to go on, else the pH of today, within the range where it is
        left alone [pH in water].
    """
    if judged.acts and judged.direction is not Direction.NONE:
        return target.ph_aim
    if judged.decision in (Decision.STOP, Decision.ELSEWHERE):
        return soil.ph.ph_water
    return min(max(soil.ph.ph_water, target.ph_low), target.ph_high)


def may_hold_lime(context: BedContext, held_ph: float) -> bool:
    """Whether lime has no place in keeping a bed: it holds free lime, or lies where lime ends.

    Parameters
    ----------
    held_ph
        Where it is held [pH in water].
    """
    return free_lime_found(context) or held_ph >= parameter_values("advice")["no_lime_above_ph"]


def _lines(context: BedContext, held_ph: float) -> dict[str, float]:
    """Every line of the ledger at that pH, by its name [mmolc/m2/yr]."""
    advice = parameter_values("advice")
    place = context.place
    temp = advice["assumed_rain_temp_c"] if place is None else sum(place.air_temp_c) / 12.0
    irrigation = context.irrigation_mm_year
    base = context.water_base_mmolc_m2_year
    lines = yearly_lines(
        ph_water=held_ph,
        drainage_mm=context.drainage_mm_year,
        rain_mm=advice["assumed_rain_mm"] if place is None else sum(place.rain_mm),
        temp_c=min(max(temp, 0.0), 40.0),
        irrigation_mm=irrigation,
        alkalinity_mmolc_l=base / irrigation if irrigation > 0.0 else 0.0,
        feed_acid_mmolc_m2=present_feed_acid_mmolc_m2(
            context.case.feed, in_pot=context.in_pot, land_use=context.nitrogen_use
        ),
        params=ledger_parameters(),
        carbonate=carbonate_parameters(),
        land_use=context.land_use,
        air_mmolc_m2=air_acid(place, year=context.case.today.year).mmolc_m2,
        sulfur_tail_mmolc_m2=_tail(context),
    )
    if context.in_pot:
        lines |= dict.fromkeys(_BACKGROUND_LINES, 0.0)
    column = parameter_values("column")
    lines[DRAINED_LINE] = drained_base_mmolc_m2(
        held_ph,
        drainage_mm=context.drainage_mm_year,
        bicarbonate_mmol2_l2=1000.0
        * 10.0 ** parameter_values("buffer")["bicarbonate_log10_k"]
        * column["flux_pco2_atm"]
        * deep_co2_factor(context.depth_cm),
        bicarbonate_highest_mmolc_l=column["bicarbonate_highest_mmolc_l"],
        anions_mmolc_l=anions_mmolc_l(context),
        suspension_mmolc_l=column["suspension_mmolc_l"],
    )
    rotting = humus_year(context, held_ph=held_ph)
    humus = 0.0 if rotting is None else rotting.acid_mmolc_m2
    lime = _dissolving_mmolc_m2(context, other_acid_mmolc_m2=sum(lines.values()) + humus)
    return lines | {LIME_LINE: -lime, HUMUS_LINE: humus}


def _dissolving_mmolc_m2(context: BedContext, *, other_acid_mmolc_m2: float) -> float:
    """Base that coarse free lime gives in the coming year to a soil it does not hold yet.

    As much as is left of it and dissolves; no more than takes the soil to where lime holds it, and
    takes up the acid that all else brings meanwhile.
    """
    ph = require_soil(context).ph.ph_water
    lime = carbonate_median_mmolc_kg(context) * context.soil_mass_kg_m2
    room = _mmolc_m2_per_ph(context, ph) * max(
        parameter_values("column")["carbonate_plateau_ph"] - ph, 0.0
    )
    room += max(other_acid_mmolc_m2, 0.0)
    return min(lime * lime_left_frac(context) * dissolved_in_a_year_frac(ph_water=ph), room)


def _tail(context: BedContext) -> float:
    """Acid of sulfur put on earlier that comes in the year from today [mmolc/m2]."""
    return sum(later - so_far for so_far, later in sulfur_tails_mmolc_m2(context))


def _mmolc_m2_per_ph(context: BedContext, held_ph: float) -> float:
    slope: float = buffer_mmolc_kg_ph(
        held_ph, k=10.0 ** require_soil(context).k.log10_k_mean, **curve_of(context)
    )
    return slope * context.soil_mass_kg_m2


def _unfit(context: BedContext, target: Target, judged: Judgement) -> frozenset[str]:
    """Feeds that work against the way a bed has to go, or that its plants or its pH rule out."""
    unfit: set[str] = set()
    if target.calcifuge or _must_fall(context, judged):
        unfit |= set(WITH_BASE)
    too_acid = target.ph_aim < parameter_values("advice")["urea_below_ph"]
    if too_acid or _must_rise(context, judged):
        unfit |= set(WITH_MUCH_ACID)
    return frozenset(unfit)


def _closing(
    context: BedContext, judged: Judgement, net_mmolc_m2: float, *, per_ph: float, held_ph: float
) -> tuple[float, float, float]:
    """Sulfur and lime a year that close the ledger, capped [g/m2], and the cap as acid."""
    ground = context.cap_situation
    most_sulfur = cap_for(applies_to="sulfur", situation=ground, per="year").limit_g_m2
    most_acid = most_sulfur / SULFUR_G_PER_MMOLC
    ignored = parameter_values("advice")["ignored_drift_ph_year"]
    if abs(net_mmolc_m2) / per_ph < ignored:
        return 0.0, 0.0, most_acid
    first = judged.reason in (Reason.WATER, Reason.FEED)
    if net_mmolc_m2 < 0.0 and (first or _reads_below(context, judged)):
        return 0.0, 0.0, most_acid
    if net_mmolc_m2 < 0.0:
        sulfur = sulfur_as_s_g_m2_from_acid_mmolc_m2(-net_mmolc_m2)
        return min(sulfur, most_sulfur), 0.0, most_acid
    if _must_fall(context, judged) or may_hold_lime(context, held_ph):
        return 0.0, 0.0, most_acid
    most_lime = cap_for(applies_to="limestone", situation=ground, per="year").limit_g_m2
    lime = lime_as_caco3_g_m2_from_acid_mmolc_m2(net_mmolc_m2)
    return 0.0, min(lime, most_lime), most_acid


def _stands_at_ph(context: BedContext, judged: Judgement) -> float:
    """Where the bed is today by all that was read and has gone on since [pH in water]."""
    return require_soil(context).ph.ph_water if judged.ph_now is None else judged.ph_now


def _must_fall(context: BedContext, judged: Judgement) -> bool:
    """True where a bed is brought down, or comes down: no lime goes on before it is too low."""
    target, ph = context.target, _stands_at_ph(context, judged)
    above = target is not None and ph > target.ph_high + verdict_values()["leave_gain_ph"]
    return above or judged.direction is Direction.ACIDIFY


def _must_rise(context: BedContext, judged: Judgement) -> bool:
    """True where a bed is brought up, or its feed has taken it down or is about to."""
    return judged.direction is Direction.LIME or judged.reason is Reason.FEED


def _reads_below(context: BedContext, judged: Judgement) -> bool:
    """True where a bed lies below its range: no acid goes on before a test reads above it."""
    target, ph = context.target, _stands_at_ph(context, judged)
    return target is not None and ph < target.ph_low - verdict_values()["leave_gain_ph"]


def _years_undone(context: BedContext, target: Target) -> float | None:
    """Years in which the water gives back the acid of the curve, free lime apart."""
    soil = require_soil(context)
    water = context.water_base_mmolc_m2_year
    if water <= 0.0 or soil.ph.ph_water <= target.ph_aim:
        return None
    curve: float = acid_between_mmolc_kg(
        soil.ph.ph_water,
        target.ph_aim,
        k=10.0**soil.k.log10_k_mean,
        **curve_of(context),
    )
    return curve * context.soil_mass_kg_m2 / water
