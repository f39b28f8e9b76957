"""Facts nobody has settled: how the possible beds part by them, and which test would tell."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import sample_median, sample_quantiles
from loamshift.domain.answer import Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import CarbonateBelief
from loamshift.services.belief.bed_run import Runner
from loamshift.services.context.build_context import require_soil
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

GROUPS: Final = 5
"""Groups that beds are parted into by a doubtful figure [count]."""
LIME_GROUPS: Final = 3
LOWEST_READ_PH: Final = 3.0
HIGHEST_READ_PH: Final = 10.0
"""What a repeated reading is supposed to lie between [pH in water]."""
LIME_NAMES: Final = ("some-lime", "more-lime", "much-lime")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Beds that one outcome of a test would leave: a code for it, and which they are.

    ``middle`` of the doubtful figure among them, in its own unit.
    """

    outcome: str
    beds: BoolArray
    middle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One unsettled fact: case-file path of the test, reason code, and the groups of beds."""

    field: str
    reason: Reason
    groups: tuple[Group, ...]


def doubts(context: BedContext, beds: Runner) -> tuple[Doubt, ...]:
    """Every fact that a named, undone test would settle."""
    return tuple(_doubts(context, beds))


def hardly_a_soil(context: BedContext) -> bool:
    """Whether a rough reading lies where a mineral soil hardly ever does.

    Returns
    -------
    bool
        True where a probe or strip is likelier to be wrong than the soil to be so.

    References
    ----------
    own-judgement
    """
    ph = require_soil(context).ph
    low, high = verdict_values()["harmful_ph"], parameter_values("plan")["rough_highest_ph"]
    rough = ph.method.is_rough and not context.organic_only
    return rough and not low <= ph.ph_water <= high


def likely_sodic(context: BedContext) -> bool:
    """Whether a careful reading lies where sodium is the likelier cause than lime.

    Returns
    -------
    bool
        True for a mineral soil whose sodium nobody has tested.

    References
    ----------
    ussl-1954
    """
    ph = require_soil(context).ph
    if ph.method.is_rough or context.organic_only or context.case.soil.sodium_pct is not None:
        return False
    return ph.ph_water >= verdict_values()["sodic_suspect_ph"]


def lime_contradicts_ph(context: BedContext) -> bool:
    """Whether free lime was found in a soil too acid to hold any.

    Returns
    -------
    bool
        True where pH and lime cannot belong to one sample.

    References
    ----------
    own-judgement
    """
    ph = require_soil(context).ph.ph_water
    return holds_free_lime(context) and ph < parameter_values("plan")["lime_contradicts_ph"]


def holds_free_lime(context: BedContext) -> bool:
    """Whether free lime was found: by a fizz or a laboratory, and more than a trace.

    Returns
    -------
    bool
        True where more lime cannot be what the soil lacks.

    References
    ----------
    own-judgement
    """
    carbonate = require_soil(context).carbonate
    surely = carbonate.zero_weight <= 0.0 and carbonate.low_pct > 0.0
    middle = math.sqrt(carbonate.low_pct * carbonate.high_pct) if surely else 0.0
    return middle >= parameter_values("plan")["lime_contradicts_pct"]


def supposing(context: BedContext, doubt: Doubt, group: Group) -> BedContext:
    """The bed as it would be known if a test had come out one way."""
    soil = require_soil(context)
    if doubt.reason is Reason.UNKNOWN_LIME:
        pct = group.middle
        carbonate = CarbonateBelief(
            zero_weight=1.0 if pct <= 0.0 else 0.0,
            low_pct=pct,
            high_pct=pct,
            basis="supposed",
            measured=True,
        )
        return replace(context, soil=replace(soil, carbonate=carbonate))
    if doubt.reason is Reason.DOUBTFUL_READING:
        careful = math.hypot(
            parameter_values("plan")["careful_test_sd_ph"], verdict_values()["reading_scatter_sd"]
        )
        ph = min(max(soil.ph.ph_water + group.middle, LOWEST_READ_PH), HIGHEST_READ_PH)
        read = replace(soil.ph, ph_water=ph, ph_water_sd=careful)
        return replace(context, soil=replace(soil, ph=read))
    if doubt.reason is Reason.UNKNOWN_WATER:
        base = context.water_base_mmolc_m2_year * group.middle
        return replace(context, water_base_mmolc_m2_year=base)
    scale = replace(soil.k, log10_k_mean=group.middle)
    return replace(context, soil=replace(soil, k=scale))


def unknown_of_water(context: BedContext) -> str:
    """What of the water had to be guessed where it is not known.

    Returns
    -------
    str
        Path in the case file: how much of it goes on where its alkalinity was given.
    """
    known = context.case.water.alkalinity_mg_l_as_caco3 is not None
    return "water.weekly" if known else "water.alkalinity"


def _doubts(context: BedContext, beds: Runner) -> Iterator[Doubt]:
    soil = require_soil(context)
    if soil.carbonate.is_possible and not soil.carbonate.measured:
        untried = context.case.soil.fizz is None
        yield Doubt(
            field="soil.fizz" if untried else "soil.carbonate_pct",
            reason=Reason.UNKNOWN_LIME,
            groups=_by_lime(beds.draw("carbonate_factor")),
        )
    if soil.ph.method.is_rough:
        unknown = soil.ph.method is PhMethod.UNKNOWN
        yield Doubt(
            field="soil.ph_method" if unknown else "soil.ph",
            reason=Reason.DOUBTFUL_READING,
            groups=_by_rank(beds.draw("start_ph_shift"), GROUPS, "reading"),
        )
    if not context.water_known and context.irrigation_mm_year > 0.0:
        yield Doubt(
            field=unknown_of_water(context),
            reason=Reason.UNKNOWN_WATER,
            groups=_by_rank(beds.draw("alkalinity_factor"), 3, "alkalinity"),
        )
    if "soil.texture" in soil.assumed:
        yield Doubt(
            field="soil.texture",
            reason=Reason.UNKNOWN_TEXTURE,
            groups=_by_rank(beds.log10_k, GROUPS, "resistance"),
        )


def _by_lime(carbonate_pct: FloatArray) -> tuple[Group, ...]:
    groups = []
    none = carbonate_pct <= 0.0
    if none.any():
        groups.append(Group(outcome="no-lime", beds=none, middle=0.0))
    if not none.all():
        shares = [part / LIME_GROUPS for part in range(1, LIME_GROUPS)]
        edges = sample_quantiles(carbonate_pct[~none], shares)
        rank = np.searchsorted(edges, carbonate_pct, side="right")
        for number, name in enumerate(LIME_NAMES):
            inside = ~none & (rank == number)
            if inside.any():
                middle = sample_median(carbonate_pct[inside])
                groups.append(Group(outcome=name, beds=inside, middle=middle))
    return tuple(groups)


def _by_rank(values: FloatArray, count: int, name: str) -> tuple[Group, ...]:
    edges = sample_quantiles(values, [part / count for part in range(1, count)])
    rank = np.searchsorted(edges, values, side="right")
    return tuple(
        Group(
            outcome=f"{name}-{number + 1}",
            beds=rank == number,
            middle=sample_median(values[rank == number]),
        )
        for number in range(count)
        if (rank == number).any()
    )
