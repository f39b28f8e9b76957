"""The sum of the day before which a test is too early: warmth, share reacted, simulated beds."""

from __future__ import annotations

from loamshift.domain.message import message, number, ph, prose
from loamshift.domain.own_sum import OwnSum, SumStep, SumUnit
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.services.own_sum.ways import warmth_inputs
from loamshift.services.products.prices import reacting_share_by
from loamshift.services.verdict.reach import retest_error_ph
from loamshift.tables.parameters import parameter_values


def too_early_sum(bed: OpenedBed, key: str) -> OwnSum:
    """The day before which a test says nothing yet.

    Parameters
    ----------
    bed
        The bed opened, with a first application.
    """
    day = bed.answer.too_early_before
    assert day is not None
    seasons = seasons_ahead(bed.context, acidify=bed.acidify)
    start = seasons.days[0][0]
    steps = []
    temps = bed.context.soil_temp_c
    lowest = of.parameter("T₀", "sulfur.ramp_from_c", SumUnit.DEG_C)
    warmth = warmth_inputs(bed, start, day)
    if bed.acidify and warmth:
        days = (day - start).days
        degree_days = _degree_days(temps, start.timetuple().tm_yday, days, lowest.value)
        steps.append(
            SumStep(
                says=message("why-step-warmth", start=start, day=day, days=days),
                symbol="H",
                value=degree_days,
                unit=SumUnit.DEG_DAYS,
                inputs=(*warmth, lowest),
            )
        )
    reacted = reacting_share_by(bed.context, seasons.material, start=start, by=day)
    steps.append(
        SumStep(
            says=message("why-step-reacted", way="acidify" if bed.acidify else "lime"),
            symbol="x",
            value=reacted,
            unit=SumUnit.NONE,
            inputs=warmth,
        )
    )
    early, error = parameter_values("advice")["early_share"], retest_error_ph(bed.context)
    steps.append(
        SumStep(
            says=message(
                "why-step-too-early",
                percent=number(round(100.0 * early)),
                error=ph(error),
                beds=bed.members,
            ),
            symbol="t",
            value=float((day - start).days),
            unit=SumUnit.DAYS,
            inputs=(
                of.parameter("y", "advice.early_share"),
                of.test_error(error),
                of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),
            ),
            day=day,
        )
    )
    return OwnSum(
        key=key,
        title=message("why-sum-too-early"),
        steps=tuple(steps),
        answer_value=None,
        sure=prose(message("why-sure-too-early")),
        narrow=prose(message("why-narrow-thermometer")) if bed.acidify else prose(),
        source_keys=tuple(
            dict.fromkeys(one.source_key for s in steps for one in s.inputs if one.source_key)
        ),
    )


def _degree_days(temps: tuple[float, ...], first: int, days: int, lowest: float) -> float:
    """Degrees above the lowest working temperature, added up day by day [degC d]."""
    return sum(max(temps[(first - 1 + n) % 365] - lowest, 0.0) for n in range(days))
