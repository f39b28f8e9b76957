"""The sum of what goes on: need, product, limit of one application, and the amount of the bed."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Application, PlanPart
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import LimeGrade, Material
from loamshift.domain.message import Measure, Message, Quantity, amount, message, prose, rate
from loamshift.domain.own_sum import Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.domain.rules import Cap
from loamshift.services.courses.seasons import Seasons, seasons_ahead
from loamshift.services.materials.caps import product_cap
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.counted import plan_sure
from loamshift.services.own_sum.need import best_pure_g_m2
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.services.own_sum.width import narrowing_need
from loamshift.tables.lime_grades import fine_share, grade_sources
from loamshift.tables.lime_share import (
    OF_UNKNOWN_GRADE,
    OF_UNKNOWN_PLACE,
    USUAL,
    share_row,
    usual_share,
)
from loamshift.tables.rules import cap_for

_LIME_SHARE: Final = {
    USUAL: "field",
    OF_UNKNOWN_GRADE: "unknown-grade",
    OF_UNKNOWN_PLACE: "unknown-place",
}


def part_sum(bed: OpenedBed, key: str, part: Application | PlanPart, *, whole: bool) -> OwnSum:
    """The rate of one application, or what the whole bed gets of it.

    Parameters
    ----------
    whole
        True for the weight of the whole bed.
    """
    seasons = seasons_ahead(bed.context, acidify=bed.acidify)
    steps = [*product_steps(bed, seasons), *_limit_steps(bed, seasons)]
    steps += _chosen_steps(bed, seasons, part)
    answer_value: float | None = part.rate_g_m2
    if whole:
        steps.append(_amount_step(bed, part, steps[-1]))
        answer_value = part.amount_g
    pure = best_pure_g_m2(bed)
    cap = product_cap(seasons.material, cap_situation=bed.context.cap_situation)
    return OwnSum(
        key=key,
        title=message("why-sum-amount" if whole else "why-sum-application", day=part.date),
        steps=tuple(steps),
        answer_value=answer_value,
        aside=prose(
            None if pure is None else message("why-aside-need", need=rate(pure), way=_way(bed)),
            lime_grade_said(seasons.material),
        ),
        sure=plan_sure(bed),
        narrow=narrowing_need(bed),
        source_keys=(
            *(() if cap is None else (cap.source_key,)),
            *lime_sources(seasons.material),
        ),
    )


def lime_grade_said(material: Material) -> Message | None:
    """The grade that a lime has by the place of the bed; None where its name or label tells it."""
    grade = material.lime_grade
    if grade is LimeGrade.TOLD:
        return None
    fine = Measure(Quantity.SHARE, fine_share(grade))
    return message("why-aside-lime-grade", grade=grade.value, fine=fine)


def lime_sources(material: Material) -> tuple[str, ...]:
    """Where the grade of a lime comes from."""
    grade = material.lime_grade
    return () if grade is LimeGrade.TOLD else grade_sources(grade)


def product_steps(bed: OpenedBed, seasons: Seasons) -> tuple[SumStep, ...]:
    """The best estimate of the need, in pure material and then as the product in the bag."""
    pure = best_pure_g_m2(bed)
    if pure is None:
        return ()
    need = SumInput(
        symbol="P",
        name=message("why-in-pure", way=_way(bed)),
        value=pure,
        unit=SumUnit.G_M2,
        origin=Origin.STEP,
        row="dose.sulfur_as_s_g_m2" if bed.acidify else "dose.lime_as_caco3_g_m2",
    )
    holds = _holds(bed, seasons)
    if bed.acidify:
        parts: tuple[SumInput, ...] = (need, holds)
        formula, value = "{B} = {P} / ({f} / 100)", pure / (holds.value / 100.0)
    else:
        field = of.named(
            of.parameter("h", f"lime.{share_row(seasons.material)}"),
            message("why-in-lime-counts", lime=_LIME_SHARE[share_row(seasons.material)]),
        )
        parts = (need, holds, field)
        formula = "{B} = {P} / ({f} / 100 × {h})"
        value = pure / (holds.value / 100.0 * field.value)
    return (
        SumStep(
            says=message("why-step-bag", way=_way(bed)),
            symbol="B",
            value=value,
            unit=SumUnit.G_M2,
            formula=formula,
            inputs=parts,
            result=rate(value),
        ),
    )


def limit_of(seasons: Seasons, context: BedContext) -> tuple[Cap, float] | None:
    """The published limit of one application, and the substance it speaks of per gram of product.

    Returns
    -------
    tuple of Cap and float, or None
        The row that governs, and the substance in the product as sold [g/g]; None without a
        limit.
    """
    found = product_cap(seasons.material, cap_situation=context.cap_situation)
    if found is None:
        return None
    by_year = found.dose_g_m2 is None or found.year_g_m2 < found.dose_g_m2
    cap = cap_for(
        applies_to=found.applies_to, situation=found.ground, per="year" if by_year else "dose"
    )
    return cap, found.per_product * seasons.strength_frac


def amount_of(bed: OpenedBed, rate_g_m2: float, step: SumStep) -> SumStep | None:
    """The step from a rate to the weight for the whole bed; None where its area is not known.

    Parameters
    ----------
    rate_g_m2
        What goes on [g/m2].
    """
    area = bed.context.total_area_m2
    if area is None:
        return None
    value = rate_g_m2 * area
    return SumStep(
        says=message("why-step-amount"),
        symbol="W",
        value=value,
        unit=SumUnit.G,
        formula=f"{{W}} = {{{step.symbol}}} × {{A}}",
        inputs=(
            of.before(step, message("why-in-rate")),
            of.said("A", message("why-in-area"), area, SumUnit.M2, "bed.area"),
        ),
        result=amount(value),
    )


def _limit_steps(bed: OpenedBed, seasons: Seasons) -> list[SumStep]:
    found = limit_of(seasons, bed.context)
    if found is None:
        return []
    cap, per_product = found
    value = cap.limit_g_m2 / per_product
    return [
        SumStep(
            says=message("why-step-limit", way=_way(bed)),
            symbol="M",
            value=value,
            unit=SumUnit.G_M2,
            formula="{M} = {l} / ({e} / 100)",
            inputs=(of.limit("l", cap), _substance(bed, seasons, per_product)),
            result=rate(value),
        )
    ]


def _chosen_steps(bed: OpenedBed, seasons: Seasons, part: Application | PlanPart) -> list[SumStep]:
    """The amount of the season, chosen among simulated beds, and this day's share of it."""
    season = _season_of(seasons, part)
    of_season: list[Application | PlanPart] = [
        one
        for one in bed.answer.applications
        if season is not None and one.date in seasons.days[season]
    ]
    of_season = of_season or [part]
    total = sum(one.rate_g_m2 for one in of_season)
    later = season is not None and season > 0
    steps = [
        SumStep(
            says=message("why-step-chosen-later" if later else "why-step-chosen", beds=bed.members),
            symbol="R",
            value=total,
            unit=SumUnit.G_M2,
            inputs=(of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),),
            result=rate(total),
        )
    ]
    if len(of_season) > 1:
        others = total - part.rate_g_m2
        put = of.counted("o", message("why-in-other-days"), others, SumUnit.G_M2)
        steps.append(
            SumStep(
                says=message("why-step-split", parts=len(of_season)),
                symbol="r",
                value=total - others,
                unit=SumUnit.G_M2,
                formula="{r} = {R} − {o}",
                inputs=(of.before(steps[-1], message("why-in-season")), put),
                result=rate(part.rate_g_m2),
            )
        )
    return steps


def _season_of(seasons: Seasons, part: Application | PlanPart) -> int | None:
    return next((n for n, days in enumerate(seasons.days) if part.date in days), None)


def _amount_step(bed: OpenedBed, part: Application | PlanPart, step: SumStep) -> SumStep:
    found = amount_of(bed, part.rate_g_m2, step)
    assert found is not None
    return found


def _holds(bed: OpenedBed, seasons: Seasons) -> SumInput:
    """Sulfur, or neutralising value, of the product as sold, in per cent."""
    share = seasons.active_frac
    if not bed.acidify:
        share /= usual_share(seasons.material)
    return _label(bed, seasons, "f", message("why-in-holds", way=_way(bed)), 100.0 * share)


def _substance(bed: OpenedBed, seasons: Seasons, per_product: float) -> SumInput:
    name = message("why-in-substance", way=_way(bed))
    return _label(bed, seasons, "e", name, 100.0 * per_product)


def _label(
    bed: OpenedBed, seasons: Seasons, symbol: str, name: Message, value_pct: float
) -> SumInput:
    for place, item in enumerate(bed.context.case.on_hand):
        if item.material.key == seasons.material.key and item.purity_pct is not None:
            path = f"on_hand[{place}].purity_pct"
            return of.said(symbol, name, value_pct, SumUnit.PERCENT, path)
    figures = seasons.material.figures
    field = "elemental_s_frac" if bed.acidify else "caco3_eq_frac"
    row = figures.get(field)
    return SumInput(
        symbol=symbol,
        name=name,
        value=value_pct,
        unit=SumUnit.PERCENT,
        origin=Origin.TABLE if row is not None else Origin.CASE,
        path="on_hand",
        row=f"{seasons.material.key}.{field}" if row is not None else "",
        source_key="" if row is None else row.source_key,
        evidence=None if row is None else row.evidence,
    )


def _way(bed: OpenedBed) -> str:
    return "acidify" if bed.acidify else "lime"
