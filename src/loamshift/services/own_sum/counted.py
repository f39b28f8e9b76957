"""Figures counted among the simulated beds: shares, best estimates, and what a test decides."""

from __future__ import annotations

from datetime import date

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.domain.answer import Forecast, PlanRule, TestLine, Then
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Value,
    in_100,
    message,
    number,
    ph,
    prose,
    rate,
)
from loamshift.domain.own_sum import OwnSum, SumStep, SumUnit
from loamshift.errors import OutOfRangeError
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import ph_after_acid_m2
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed, scale_of
from loamshift.services.verdict.reach import retest_error_ph
from loamshift.units import CACO3_G_PER_MMOLC, SULFUR_G_PER_MMOLC

SHARES = {
    "share_in_range": "in-range",
    "share_in_range_without_tests": "without-tests",
    "share_if_known": "if-known",
    "share_harmed": "harmed",
}
"""Which share a key of the plan is, as a choice."""


def share_sum(bed: OpenedBed, key: str, rule: PlanRule, field: str) -> OwnSum:
    """A share of the simulated beds."""
    share: float = getattr(rule, field)
    which = SHARES[field]
    beds = of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS)
    found = of.counted("n", message("why-in-found", which=which), share * bed.members, SumUnit.BEDS)
    step = SumStep(
        says=message(
            "why-step-share",
            which=which,
            found=round(found.value),
            beds=bed.members,
            low=_wanted(bed)[0],
            high=_wanted(bed)[1],
            day=rule.on,
        ),
        symbol="p",
        value=found.value / beds.value,
        unit=SumUnit.NONE,
        formula="{p} = {n} / {N}",
        inputs=(found, beds),
        result=in_100(share),
    )
    return OwnSum(
        key=key,
        title=message("why-sum-share", which=which),
        steps=(step,),
        answer_value=share,
        aside=plain_plan(bed),
        sure=prose(message("why-sure-share")),
        narrow=prose(message("why-narrow-share", known=in_100(rule.share_if_known)))
        if field == "share_in_range"
        else Prose(),
    )


def median_sum(bed: OpenedBed, key: str, rule: PlanRule) -> OwnSum:
    """The best estimate of the pH on the day the plan is judged by."""
    step = SumStep(
        says=message("why-step-median", beds=bed.members, day=rule.on),
        symbol="pH",
        value=rule.median_ph,
        unit=SumUnit.PH,
        inputs=(of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),),
        result=ph(rule.median_ph),
    )
    return OwnSum(
        key=key,
        title=message("why-sum-median", day=rule.on),
        steps=(step,),
        answer_value=rule.median_ph,
        aside=plain_plan(bed),
        sure=_spread_on(bed, rule.on),
        narrow=prose(message("why-narrow-test")),
    )


def quantile_sum(bed: OpenedBed, key: str, forecast: Forecast, name: str, place: int) -> OwnSum:
    """One figure of the forecast: a quantile of the beds on a day.

    Parameters
    ----------
    place
        Which of its days [index].
    """
    alone = name == "do_nothing"
    line = forecast.do_nothing.q50 if alone else getattr(forecast.ph, name)
    value = line[place]
    percent = 50 if alone else int(name[1:])
    step = SumStep(
        says=message(
            "why-step-quantile",
            which="alone" if alone else "planned",
            beds=bed.members,
            below=percent,
            day=forecast.dates[place],
        ),
        symbol="pH",
        value=value,
        unit=SumUnit.PH,
        inputs=(of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),),
        result=ph(value),
    )
    return OwnSum(
        key=key,
        title=message("why-sum-quantile", day=forecast.dates[place]),
        steps=(step,),
        answer_value=value,
        aside=Prose() if alone else plain_plan(bed),
        sure=_spread_on(bed, forecast.dates[place]),
        narrow=prose(message("why-narrow-test")),
    )


def line_sum(bed: OpenedBed, key: str, line: TestLine) -> OwnSum:
    """What one line of the test calls for."""
    error = retest_error_ph(bed.context)
    step = SumStep(
        says=message(
            "why-step-line",
            beds=bed.members,
            then="beyond" if _is_beyond(bed, line) else line.then.value,
            day=line.test,
            **_ends(line),
        ),
        symbol="R",
        value=line.part_g_m2,
        unit=SumUnit.G_M2,
        inputs=(
            of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),
            of.test_error(error),
        ),
        result=rate(line.part_g_m2) if line.then is Then.PART else None,
    )
    return OwnSum(
        key=key,
        title=message("why-sum-line", **_ends(line)),
        steps=(step,),
        answer_value=line.part_g_m2,
        aside=_plain_line(bed, line),
        sure=prose(message("why-sure-line", error=ph(of.Z90 * error))),
        narrow=prose(message("why-narrow-mean")),
    )


def _is_beyond(bed: OpenedBed, line: TestLine) -> bool:
    """Whether too few beds read as a line does to tell, and it gives nothing all the same."""
    rule = bed.answer.plan
    told = rule is not None and any(one.ph_after for one in rule.decides)
    return told and line.ph_after is None and line.part_g_m2 <= 0.0


def plan_sure(bed: OpenedBed) -> Prose:
    """How often the plan works and does harm, as sentences; none without a plan."""
    rule = bed.answer.plan
    if rule is None:
        return Prose()
    return prose(
        message(
            "why-sure-plan",
            share=in_100(rule.share_in_range),
            harmed=in_100(rule.share_harmed),
            day=rule.on,
        )
    )


def plain_plan(bed: OpenedBed) -> Prose:
    """Where the first path of the plan takes the bed by the curve alone, as a sentence.

    All of it is taken as reacted, and nothing undoes it: what the simulated beds add is time,
    water, feed and rain.

    Returns
    -------
    Prose
        Nothing where nothing is applied, or the amount runs off the curve.
    """
    context, answer = bed.context, bed.answer
    if context.soil is None or not answer.applications or bed.aim_ph is None:
        return Prose()
    seasons = seasons_ahead(context, acidify=bed.acidify)
    total = sum(one.rate_g_m2 for one in answer.applications) * seasons.active_frac
    gram = SULFUR_G_PER_MMOLC if bed.acidify else -CACO3_G_PER_MMOLC
    acid = total / gram + context.pending_acid_mmolc_m2
    try:
        after = ph_after_acid_m2(context, acid)
    except OutOfRangeError:
        return Prose()
    pure = rate(total)
    way = "acidify" if bed.acidify else "lime"
    return prose(message("why-aside-plan", pure=pure, after=ph(after), way=way))


def _plain_line(bed: OpenedBed, line: TestLine) -> Prose:
    """The product that takes a reading in the middle of a line to the aim, by the curve alone."""
    aim = bed.aim_ph
    if aim is None or line.reads_from is None or line.reads_to is None:
        return Prose()
    middle = 0.5 * (line.reads_from + line.reads_to)
    step: float = acid_between_mmolc_kg(middle, aim, k=scale_of(bed), **curve_of(bed.context))
    seasons = seasons_ahead(bed.context, acidify=bed.acidify)
    gram = SULFUR_G_PER_MMOLC if bed.acidify else -CACO3_G_PER_MMOLC
    product = max(step * gram, 0.0) * bed.context.soil_mass_kg_m2 / seasons.active_frac
    return prose(message("why-aside-line", middle=ph(middle), aim=ph(aim), product=rate(product)))


def _ends(line: TestLine) -> dict[str, Value]:
    low, high = line.reads_from, line.reads_to
    if high is None:
        is_open = "high"
    elif low is None:
        is_open = "low"
    else:
        is_open = "one" if f"{low:.1f}" == f"{high:.1f}" else "none"
    return {
        "from": None if low is None else ph(low),
        "to": None if high is None else ph(high),
        "open": is_open,
    }


def _spread_on(bed: OpenedBed, day: date) -> Prose:
    forecast = bed.answer.forecast
    if forecast is None or not forecast.dates:
        error = require_soil(bed.context).ph.ph_water_sd
        return prose(message("why-sure-scatter", error=ph(error)))
    place = max(0, sum(one <= day for one in forecast.dates) - 1)
    low, high = forecast.ph.q05[place], forecast.ph.q95[place]
    told: list[Message] = [message("why-sure-forecast", range=ph(low, high=high))]
    if forecast.width:
        most = max(forecast.width, key=lambda one: one.share)
        if isinstance(most.cause, Message):
            told.append(
                message(
                    "why-wide-forecast",
                    cause=most.cause,
                    percent=number(round(100.0 * most.share)),
                )
            )
    return prose(*told)


def _wanted(bed: OpenedBed) -> tuple[Measure, Measure]:
    wanted = bed.answer.wanted
    assert wanted is not None
    return ph(wanted.ph_low), ph(wanted.ph_high)
