"""The sum of the need: buffer curve, free lime, what still acts; then sulfur or lime for it."""

from __future__ import annotations

from typing import Final

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.need import carbonate_nodes, weighted_quantile
from loamshift.domain.message import message, rate
from loamshift.domain.own_sum import Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import (
    carbonate_median_mmolc_kg,
    need_mmolc_kg,
)
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed, scale_of
from loamshift.services.own_sum.reading import reading_steps
from loamshift.services.own_sum.width import narrowing_need, sure_of_need
from loamshift.tables.parameters import load_parameters
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

ENDS: Final = {"lo90": 0.05, "mid": 0.5, "hi90": 0.95}
"""Shares of soils that need less, by the last part of a key [0-1]."""
CURVE_SOURCES: Final = ("organic_slope_mmolc_kg_ph_per_pct", "clay_slope_mmolc_kg_ph_per_pct")


def acid_sum(bed: OpenedBed, key: str, end: str) -> OwnSum:
    """How much acid, or base, a kilogram of this soil takes up on its way to the aim."""
    band = bed.answer.dose.acid_mmolc_kg
    assert band is not None
    steps = list(need_steps(bed, _away(bed, end)))
    if not bed.acidify:
        taken = steps[-1]
        steps.append(
            SumStep(
                says=message("why-step-sign"),
                symbol="a",
                value=-taken.value,
                unit=SumUnit.MMOLC_KG,
                formula="{a} = −{n}",
                inputs=(of.before(taken, message("why-in-need")),),
            )
        )
    return _sum(bed, key, steps, title="acid", value=getattr(band, end))


def product_sum(bed: OpenedBed, key: str, end: str) -> OwnSum:
    """The need as pure sulfur, or as lime that works, per area.

    Returns
    -------
    OwnSum
        As the sum of the acid, and then by the weight of the soil and of the material.
    """
    dose = bed.answer.dose
    band = dose.sulfur_as_s_g_m2 if bed.acidify else dose.lime_as_caco3_g_m2
    assert band is not None
    steps = list(need_steps(bed, end))
    mass, gram, need = of.mass_step(bed), of.gram(acidify=bed.acidify), steps[-1]
    value = need.value * mass.value * gram.value
    pure = SumStep(
        says=message("why-step-pure", way=_way(bed)),
        symbol="P",
        value=value,
        unit=SumUnit.G_M2,
        formula="{P} = {n} × {m} × {g}",
        inputs=(
            of.before(need, message("why-in-need")),
            of.before(mass, message("why-in-mass")),
            gram,
        ),
        result=rate(value),
    )
    title = "sulfur" if bed.acidify else "lime"
    return _sum(bed, key, [*steps, mass, pure], title=title, value=getattr(band, end))


def share_sum(bed: OpenedBed, key: str) -> OwnSum:
    """What share of the acid only dissolves free lime."""
    share = bed.answer.dose.carbonate_share
    assert share is not None
    steps = list(need_steps(bed, "mid"))
    need, free = steps[-1], _free_lime(bed)
    steps.append(
        SumStep(
            says=message("why-step-lime-share"),
            symbol="s",
            value=min(free.value / need.value, 1.0),
            unit=SumUnit.NONE,
            formula="{s} = min({L} / {n}, 1)",
            inputs=(free, of.before(need, message("why-in-need"))),
        )
    )
    return _sum(bed, key, steps, title="lime-share", value=share)


def need_steps(bed: OpenedBed, end: str) -> tuple[SumStep, ...]:
    """From the reading to what a kilogram of soil takes up, in the direction of the aim.

    Returns
    -------
    tuple of SumStep
        The last is the need, never below 0 [mmolc/kg].
    """
    context = bed.context
    soil = require_soil(context)
    aim = bed.aim_ph
    assert aim is not None
    acidify = aim < soil.ph.ph_water
    start, to = of.ph_now(bed), of.aim_ph(bed)
    step: float = acid_between_mmolc_kg(start.value, to.value, **curve_of(context))
    curve = SumStep(
        says=message("why-step-curve", way="acidify" if acidify else "lime"),
        symbol="q",
        value=max(step if acidify else -step, 0.0),
        unit=SumUnit.MMOLC_KG,
        inputs=(start, to, of.clay(bed), of.carbon(bed)),
    )
    free, coming = _free_lime(bed, acidify=acidify), _coming(bed, acidify=acidify)
    parts = [of.scale(bed), of.before(curve, message("why-in-curve"))]
    formula = "{b} = {k} × {q}"
    value = scale_of(bed) * curve.value
    if acidify:
        parts.append(free)
        formula += " + {L}"
        value += free.value
    if coming.value:
        parts.append(coming)
        formula += " − {w}"
        value -= coming.value
    best = SumStep(
        says=message(
            "why-step-best",
            lime="yes" if acidify else "no",
            coming="yes" if coming.value else "no",
        ),
        symbol="b",
        value=value,
        unit=SumUnit.MMOLC_KG,
        formula=formula,
        inputs=tuple(parts),
    )
    weighed = need_mmolc_kg(context, to.value).quantile(ENDS[end]) - coming.value
    all_values = SumStep(
        says=message("why-step-weighed", end=_end(end)),
        symbol="n",
        value=max(weighed, 0.0),
        unit=SumUnit.MMOLC_KG,
        inputs=(of.before(best, message("why-in-best")),),
    )
    return (*reading_steps(bed), curve, best, all_values)


def best_pure_g_m2(bed: OpenedBed) -> float | None:
    """The best estimate of the need as the answer gives it, pure [g/m2]; None without a dose.

    Returns
    -------
    float or None
        None without a dose [g/m2].
    """
    dose = bed.answer.dose
    band = dose.sulfur_as_s_g_m2 if bed.acidify else dose.lime_as_caco3_g_m2
    return None if band is None else band.mid


def need_source_keys() -> tuple[str, ...]:
    """Sources of the buffer curve."""
    rows = load_parameters()["buffer"]
    return tuple(rows[name].source_key for name in CURVE_SOURCES)


def _sum(bed: OpenedBed, key: str, steps: list[SumStep], *, title: str, value: float) -> OwnSum:
    return OwnSum(
        key=key,
        title=message(f"why-sum-{title}"),
        steps=tuple(steps),
        answer_value=value,
        sure=sure_of_need(bed),
        narrow=narrowing_need(bed),
        source_keys=need_source_keys(),
    )


def _free_lime(bed: OpenedBed, *, acidify: bool = True) -> SumInput:
    belief = require_soil(bed.context).carbonate
    entry = bed.case.soil
    path = "soil.carbonate_pct" if entry.carbonate_pct is not None else "soil.fizz"
    said = entry.carbonate_pct is not None or entry.fizz is not None
    return SumInput(
        symbol="L",
        name=message("why-in-free-lime"),
        value=carbonate_median_mmolc_kg(bed.context) if acidify else 0.0,
        unit=SumUnit.MMOLC_KG,
        origin=Origin.CASE if said else Origin.ASSUMED,
        path=path,
        low=_lime_quantile(bed, 0.05),
        high=belief.high_pct * CARBONATE_MMOLC_KG_PER_PCT
        if not belief.measured
        else _lime_quantile(bed, 0.95),
    )


def _lime_quantile(bed: OpenedBed, share: float) -> float:
    belief = require_soil(bed.context).carbonate
    values, weights = carbonate_nodes(
        zero_weight=belief.zero_weight,
        low_pct=belief.low_pct,
        high_pct=belief.high_pct,
        mmolc_kg_per_pct=CARBONATE_MMOLC_KG_PER_PCT,
        log_sd=belief.log_sd,
    )
    return weighted_quantile(values.tolist(), weights.tolist(), share)


def _coming(bed: OpenedBed, *, acidify: bool) -> SumInput:
    context = bed.context
    sign = 1.0 if acidify else -1.0
    value = sign * context.pending_acid_mmolc_m2 / context.soil_mass_kg_m2
    name = message("why-in-coming")
    return of.said("w", name, value, SumUnit.MMOLC_KG, "applied")


def _way(bed: OpenedBed) -> str:
    return "acidify" if bed.acidify else "lime"


def _away(bed: OpenedBed, end: str) -> str:
    """The end of the need that a key of the signed acid stands for: base is negative."""
    if bed.acidify:
        return end
    return {"lo90": "hi90", "mid": "mid", "hi90": "lo90"}[end]


def _end(end: str) -> str:
    return {"lo90": "low", "mid": "middle", "hi90": "high"}[end]
