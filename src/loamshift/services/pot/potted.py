"""The pots as a case of their own: size, mix and watering."""

from __future__ import annotations

import math
from dataclasses import replace

from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Bed, BedKind, Case, PotsWanted, SoilEntry, Water
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Medium
from loamshift.services.context.build_context import WEEKS_PER_MONTH, build_context
from loamshift.services.pot.asked import pots_needed
from loamshift.tables.parameters import parameter_values

CM3_PER_L = 1000.0
CM2_PER_M2 = 10_000.0


def volume_of(case: Case) -> float:
    """Volume of one pot, as told or usual [L]."""
    told = case.pot.volume_l
    return parameter_values("pot")["volume_l"] if told is None else told


def medium_of(case: Case) -> Medium:
    """The potting mix, as told or peat, which is known best."""
    return case.pot.medium or Medium.PEAT_MIX


def fresh_mix_ph(aim_ph: float) -> float:
    """PH of a fresh mix bought for a plant.

    Parameters
    ----------
    aim_ph
        Where the plant is wanted [pH in water].

    Returns
    -------
    float
        The aim, within what mixes are sold at [pH in water].
    """
    values = parameter_values("pot")
    return min(max(aim_ph, values["mix_ph_lowest"]), values["mix_ph_highest"])


def weeks_watered(case: Case) -> float:
    """Weeks of a year in which pots are watered by hand [weeks]."""
    return WEEKS_PER_MONTH * len(case.water.months)


def potted(context: BedContext) -> BedContext:
    """The same plants in pots of fresh mix, with the same place, water and yearly fertiliser.

    Notes
    -----
    A pot is a cylinder as wide as it is high. What was read, applied and titrated in the ground is
    the ground's own.

    References
    ----------
    common-practice, rhs-watering-quoted
    """
    case, values = context.case, parameter_values("pot")
    assert context.target is not None
    volume = volume_of(case)
    width_cm = (4.0 * volume * CM3_PER_L / math.pi) ** (1.0 / 3.0)
    area_m2 = math.pi * width_cm**2 / 4.0 / CM2_PER_M2
    weekly_l = values["waterings_week"] * values["watering_share"] * volume
    fresh = PhReading(
        ph=fresh_mix_ph(context.target.ph_aim),
        method=PhMethod.WATER_1_5,
        taken=case.today,
        ph_sd=values["mix_ph_sd"],
    )
    return build_context(
        replace(
            case,
            bed=Bed(
                kind=BedKind.CONTAINER,
                area_m2=area_m2,
                depth_cm=width_cm,
                count=pots_needed(context),
                plants=1,
                planted=True,
            ),
            soil=SoilEntry(ph=fresh, medium=medium_of(case), sampled=case.today),
            water=Water(
                alkalinity_mg_l_as_caco3=case.water.alkalinity_mg_l_as_caco3,
                weekly_mm=weekly_l / area_m2,
                months=case.water.months,
            ),
            soil_temps=(),
            pot=PotsWanted(),
            applied=(),
            readings=(),
            titration=(),
            claims=(),
            notes=(),
        ),
        loops=context.loops,
    )
