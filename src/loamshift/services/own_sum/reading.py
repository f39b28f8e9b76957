"""The sum of where a bed stands: its readings in water, and what has acted since."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.message import message, ph, prose
from loamshift.domain.own_sum import Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.domain.ph import PhReading
from loamshift.errors import OutOfRangeError
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import ph_after_acid_m2
from loamshift.services.context.readings import current_season, method_error_ph, ph_belief
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.tables.ph_methods import default_ph_conversion

_MOST_WEIGHED = 4
"""More readings of one season than this are weighed without a formula [count]."""


def reading_steps(bed: OpenedBed) -> tuple[SumStep, ...]:
    """From what was read to pH in water; none where one reading was made in water."""
    season = current_season(bed.case)
    assert season is not None
    steps, weighed = [], []
    for number, reading in enumerate(season.readings, 1):
        sign = str(number) if len(season.readings) > 1 else ""
        one = _read(reading, f"r{sign}")
        if reading.method.is_salt:
            step = _into_water(reading, one, f"x{sign}")
            steps.append(step)
            one = replace(of.before(step, message("why-in-ph-converted")), symbol=step.symbol)
        weighed.append((one, max(method_error_ph(reading), 0.01) ** -2.0))
    if len(weighed) > 1:
        steps.append(_weigh(weighed))
    value = require_soil(bed.context).ph.ph_water
    if steps and len(weighed) == 1:
        steps[-1] = replace(steps[-1], symbol="pH₀", formula=_renamed(steps[-1]), value=value)
    return tuple(steps)


def ph_now_sum(bed: OpenedBed, key: str) -> OwnSum:
    """Where the bed stands today."""
    now = bed.answer.verdict.ph_now
    assert now is not None
    steps = list(reading_steps(bed))
    context = bed.context
    plain = require_soil(context).ph.ph_water
    aside = prose(message("why-aside-reading", ph=ph(plain)))
    coming = context.pending_acid_mmolc_m2
    if coming:
        try:
            after = ph_after_acid_m2(context, coming)
        except OutOfRangeError:
            after = None
        if after is not None:
            aside = prose(message("why-aside-all-acted", ph=ph(plain), after=ph(after)))
    members = of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS)
    steps.append(
        SumStep(
            says=message("why-step-ph-now"),
            symbol="pH",
            value=now,
            unit=SumUnit.PH,
            inputs=(of.ph_now(bed), members),
            result=ph(now),
        )
    )
    reading = require_soil(context).ph
    return OwnSum(
        key=key,
        title=message("why-sum-ph-now"),
        steps=tuple(steps),
        answer_value=now,
        aside=aside,
        sure=prose(
            message(
                "why-sure-reading",
                range=ph(
                    reading.ph_water - of.Z90 * reading.ph_water_sd,
                    high=reading.ph_water + of.Z90 * reading.ph_water_sd,
                ),
            )
        ),
        narrow=prose(
            message("why-narrow-reading", rough="yes" if reading.method.is_rough else "no")
        ),
        source_keys=tuple(
            default_ph_conversion(one.method).source_key for one in _season_readings(bed)
        ),
    )


def _season_readings(bed: OpenedBed) -> tuple[PhReading, ...]:
    season = current_season(bed.case)
    return () if season is None else season.readings


def _read(reading: PhReading, symbol: str) -> SumInput:
    error = of.Z90 * method_error_ph(reading)
    return SumInput(
        symbol=symbol,
        name=message("why-in-ph-as-read"),
        value=reading.ph,
        unit=SumUnit.PH,
        origin=Origin.CASE,
        path="soil.ph",
        low=reading.ph - error,
        high=reading.ph + error,
    )


def _into_water(reading: PhReading, one: SumInput, symbol: str) -> SumStep:
    row = default_ph_conversion(reading.method)
    mark = one.symbol[1:]

    def figure(letter: str, what: str, value: float) -> SumInput:
        return SumInput(
            symbol=f"{letter}{mark}",
            name=message("why-in-conversion", part=what),
            value=value,
            unit=SumUnit.NONE,
            origin=Origin.TABLE,
            source_key=row.source_key,
            evidence=row.evidence,
        )

    shift = figure("u", "shift", row.intercept)
    slope = figure("v", "slope", row.slope)
    return SumStep(
        says=message("why-step-in-water"),
        symbol=symbol,
        value=ph_belief(reading).ph_water,
        unit=SumUnit.PH,
        formula=f"{{{symbol}}} = {{{shift.symbol}}} + {{{slope.symbol}}} × {{{one.symbol}}}",
        inputs=(shift, slope, one),
    )


def _renamed(step: SumStep) -> str:
    return step.formula.replace(f"{{{step.symbol}}} =", "{pH₀} =", 1)


def _weigh(weighed: list[tuple[SumInput, float]]) -> SumStep:
    total = sum(weight for _, weight in weighed)
    value = sum(one.value * weight for one, weight in weighed) / total
    weights = [
        of.fixed(f"p{number}", message("why-in-weight"), weight, SumUnit.NONE)
        for number, (_, weight) in enumerate(weighed, 1)
    ]
    formula = ""
    if len(weighed) <= _MOST_WEIGHED:
        above = " + ".join(
            f"{{{weight.symbol}}} × {{{one.symbol}}}"
            for weight, (one, _) in zip(weights, weighed, strict=True)
        )
        below = " + ".join(f"{{{weight.symbol}}}" for weight in weights)
        formula = f"{{pH₀}} = ({above}) / ({below})"
    return SumStep(
        says=message("why-step-together"),
        symbol="pH₀",
        value=value,
        unit=SumUnit.PH,
        formula=formula,
        inputs=(*(one for one, _ in weighed), *weights),
    )
