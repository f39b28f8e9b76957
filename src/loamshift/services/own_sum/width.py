"""How sure the need is, what makes its range wide, and which test would narrow it most."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

import numpy as np

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.need import Need
from loamshift.domain.decision import Band
from loamshift.domain.message import Measure, Prose, message, prose, rate
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import (
    carbonate_median_mmolc_kg,
    dose_to,
    need_mmolc_kg,
)
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.units import CACO3_G_PER_MMOLC, SULFUR_G_PER_MMOLC

NEAR_EXACT: Final = 1e-4
"""A spread this small stands for a figure known exactly [log10]."""
WORTH_SAYING: Final = 0.9
"""A range that a test would leave wider than this share of today's is not worth the test [1]."""


class Cause(StrEnum):
    """What can make the range of the need wide."""

    READING = "reading"
    SCALE = "scale"
    LIME = "lime"


@dataclass(frozen=True, slots=True, kw_only=True)
class Width:
    """The range of the need today, and what it would be were one cause known exactly.

    Both as pure sulfur or lime that works [g/m2].
    """

    today: Band
    without: Mapping[Cause, Band]

    def left_frac(self, cause: Cause) -> float:
        """Width left where a cause is known, as a share of today's [1]."""
        now = self.today.hi90 - self.today.lo90
        then = self.without[cause]
        return 1.0 if now <= 0.0 else (then.hi90 - then.lo90) / now

    @property
    def widest(self) -> Cause:
        """The cause that, were it known, would leave the least of the range."""
        return min(self.without, key=self.left_frac)


def width_of_need(bed: OpenedBed) -> Width:
    """The range of the need, and what each cause adds to it.

    Notes
    -----
    A cause is taken as known by setting its spread to nothing at its best estimate; the others
    keep theirs.
    """
    context, aim = bed.context, bed.aim_ph
    soil = require_soil(context)
    assert aim is not None
    acidify = aim < soil.ph.ph_water
    whole = need_mmolc_kg(context, aim)
    step: float = acid_between_mmolc_kg(soil.ph.ph_water, aim, **curve_of(context))
    at_reading = np.array([max(step if acidify else -step, 0.0)])
    lime = carbonate_median_mmolc_kg(context) if acidify else 0.0
    known = {
        Cause.READING: replace(whole, curve_mmolc_kg=at_reading, curve_weight=np.ones(1)),
        Cause.SCALE: replace(whole, log10_k_sd=NEAR_EXACT),
        Cause.LIME: replace(
            whole,
            zero_weight=0.0 if lime > 0.0 else 1.0,
            carbonate_low_mmolc_kg=lime,
            carbonate_high_mmolc_kg=lime,
            carbonate_log_sd=0.0,
        ),
    }
    return Width(
        today=dose_to(context, aim, acidify=acidify),
        without={cause: _band(bed, need, acidify=acidify) for cause, need in known.items()},
    )


def sure_of_need(bed: OpenedBed) -> Prose:
    """The range of the need and what makes it wide."""
    width = width_of_need(bed)
    need = width.today
    way = "acidify" if bed.acidify else "lime"
    return prose(
        message("why-sure-need", range=rate(need.lo90, high=need.hi90, best=need.mid), way=way),
        message("why-wide-need", cause=width.widest.value)
        if width.left_frac(width.widest) < WORTH_SAYING
        else message("why-wide-need-all"),
    )


def narrowing_need(bed: OpenedBed) -> Prose:
    """The cheapest tests that would narrow the need, with how far.

    Returns
    -------
    Prose
        A sentence for each test worth making, that with most effect first.
    """
    width = width_of_need(bed)
    ordered = sorted(width.without, key=width.left_frac)
    told = [
        message("why-narrow", test=test, range=_about(width.today.mid, width.without[cause]))
        for cause in ordered
        if width.left_frac(cause) < WORTH_SAYING and (test := test_for(bed, cause)) is not None
    ]
    return prose(*told) if told else prose(message("why-narrow-none"))


def _about(best_g_m2: float, narrowed: Band) -> Measure:
    """A narrower range about the best estimate of today: nobody knows what the test will find."""
    times = best_g_m2 / narrowed.mid if narrowed.mid > 0.0 else 1.0
    return rate(narrowed.lo90 * times, high=narrowed.hi90 * times, best=best_g_m2)


def test_for(bed: OpenedBed, cause: Cause) -> str | None:
    """The cheapest test, not made yet, that tells more of a cause, as a choice; None for none."""
    entry, soil = bed.case.soil, require_soil(bed.context)
    if cause is Cause.READING:
        return "laboratory-ph" if soil.ph.method.is_rough else "second-ph"
    if cause is Cause.LIME:
        if soil.carbonate.measured:
            return None
        return "fizz" if entry.fizz is None else "laboratory-lime"
    if bed.case.titration:
        return None
    if soil.k.measured:
        return "jars"
    if "soil.texture" in bed.context.assumed:
        return "texture"
    if "soil.organic_matter_pct" in bed.context.assumed:
        return "organic-matter"
    return "buffer-ph" if not bed.acidify and buffer_test_tells(bed.context) else "jars"


def _band(bed: OpenedBed, need: Need, *, acidify: bool) -> Band:
    context = bed.context
    sign = 1.0 if acidify else -1.0
    coming = context.pending_acid_mmolc_m2 * sign / context.soil_mass_kg_m2
    gram = SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC
    low, mid, high = (
        max(need.quantile(p) - coming, 0.0) * gram * context.soil_mass_kg_m2
        for p in (0.05, 0.5, 0.95)
    )
    return Band(lo90=low, mid=mid, hi90=high)
