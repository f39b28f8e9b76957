"""How many cores and samples a ground needs, where the error of its reading makes much of it."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.core.information import OUTCOMES, outcome_shares
from loamshift.domain.answer import Decision, WidthShare
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind
from loamshift.domain.message import Message, message, prose
from loamshift.domain.worth import FurtherTest, SamplesLine, SamplesOfGround
from loamshift.services.belief.bed_run import Runner
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_season, ph_belief
from loamshift.services.sample.walk import sample_plan
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.worth.candidates import LEAST_ERROR, Candidate, core_sees, samples_read
from loamshift.services.worth.pricing import Price
from loamshift.services.worth.words import cores_words, further_samples_words
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

_OF_GROUND: Final = frozenset((BedKind.GROUND, BedKind.RAISED, BedKind.LAWN, BedKind.FIELD))
_CAUSE: Final = "cause-first-reading"
_SAMPLED: Final = frozenset((Decision.LEAVE, Decision.GO, Decision.EFFORT, Decision.MEASURE_FIRST))
"""Verdicts that hang on the reading; to the others another sample of the ground is no help."""
_FEWEST_TO_SPREAD: Final = 3
"""Readings of one season that tell how uneven a ground is [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The reading of a ground as more of its kind would narrow it.

    ``sd_ph`` its error, the scatter of its year included [pH]; ``read`` samples in it; ``rough``
    for a probe, a strip or an unknown method, which a laboratory's pH takes the place of.
    """

    sd_ph: float
    read: int
    rough: bool

    @property
    def test(self) -> FurtherTest:
        """The test that a further sample gets."""
        return FurtherTest.LABORATORY_PH if self.rough else FurtherTest.CORE

    def sd_after_ph(self, samples: int) -> float:
        """Error with so many further samples [pH], the scatter of the year staying.

        Parameters
        ----------
        samples
            Further samples, 0 or more [count].
        """
        scatter = verdict_values()["reading_scatter_sd"]
        if self.rough and samples:
            careful = parameter_values("plan")["careful_test_sd_ph"] / math.sqrt(samples)
            found = math.hypot(scatter, careful)
            return self.sd_ph * found / math.hypot(self.sd_ph, found)
        own = max(self.sd_ph**2 - scatter**2, LEAST_ERROR)
        return math.sqrt(scatter**2 + own * self.read / (self.read + samples))


def reading_of(
    context: BedContext, width: Sequence[WidthShare], judged: Judgement
) -> Reading | None:
    """The reading, where its error is much of the width and a further sample can help.

    Parameters
    ----------
    width
        What the width of the forecast comes from; empty without a forecast.

    Returns
    -------
    Reading or None
        None for pots, for verdicts that do not hang on it, and where other causes weigh more.
    """
    share = sum(
        one.share for one in width if isinstance(one.cause, Message) and one.cause.key == _CAUSE
    )
    if share < parameter_values("sampling")["told_from_share"]:
        return None
    if context.case.bed.kind not in _OF_GROUND or judged.decision not in _SAMPLED:
        return None
    ph = require_soil(context).ph
    return Reading(sd_ph=ph.ph_water_sd, read=samples_read(context), rough=ph.method.is_rough)


def samples_candidates(reading: Reading, beds: Runner) -> Iterator[Candidate]:
    """One further sample, two and so on, as tests to be weighed.

    Parameters
    ----------
    beds
        The possible beds, by what is known already.
    """
    shift, scatter = beds.draw("start_ph_shift"), verdict_values()["reading_scatter_sd"]
    for samples in range(1, round(parameter_values("sampling")["most_further_samples"]) + 1):
        if reading.rough:
            careful = parameter_values("plan")["careful_test_sd_ph"] / math.sqrt(samples)
            share, error = 1.0, math.hypot(scatter, careful)
        else:
            share, error = core_sees(reading.sd_ph, rough=False, read=reading.read, samples=samples)
        yield Candidate(
            test=reading.test,
            field="reading",
            shares=outcome_shares(share * shift, sd=error, outcomes=OUTCOMES),
        )


def samples_of_ground(
    context: BedContext,
    reading: Reading,
    *,
    gains: Sequence[float],
    price: Price,
) -> SamplesOfGround:
    """How many cores to mix, and what further samples bring.

    Parameters
    ----------
    gains
        Of one further sample, two and so on; empty where nothing is planned [0-1].
    price
        Of one sample, with the postage of all that are sent together.

    References
    ----------
    schmidinger-2025, own-arithmetic
    """
    bed, p = context.case.bed, parameter_values("sampling")
    spread = _spread_ph(context)
    uneven = spread is not None and spread > p["core_sd_even"]
    plan = sample_plan(
        kind=bed.kind,
        area_m2=bed.area_m2,
        uneven=uneven,
    )
    one_ph = p["z_95"] * plan.core_sd_ph
    gained = (0.0, *gains)
    lines = tuple(
        SamplesLine(
            samples=samples,
            error_ph=p["z_95"] * reading.sd_after_ph(samples),
            gain=gained[samples] if gains else None,
            cost=samples * price.each + price.postage if samples else 0.0,
            currency=price.currency,
        )
        for samples in range(round(p["most_further_samples"]) + 1)
    )
    return SamplesOfGround(
        cores=plan.cores,
        core_error_ph=one_ph,
        mixed_error_ph=plan.error_ph,
        test=reading.test,
        words=prose(
            cores_words(
                cores=plan.cores,
                one_ph=one_ph,
                mixed_ph=plan.error_ph,
                uneven=uneven,
                kind=bed.kind.value,
            ),
            *_in_parts(plan.samples, uneven=uneven),
            further_samples_words(
                lines,
                test=reading.test,
                alike=plan.samples < 2 and not uneven,
                kind=bed.kind.value,
            ),
        ),
        lines=lines,
        source_key=price.source_key,
    )


def _in_parts(parts: int, *, uneven: bool) -> tuple[Message, ...]:
    """That a large or uneven ground is sampled in parts, where it is either."""
    if parts > 1:
        return (message("sample-where-samples", samples=parts),)
    return (message("sample-why-divide"),) if uneven else ()


def _spread_ph(context: BedContext) -> float | None:
    """How far the readings of this season differ (sd) [pH]; None for too few of them."""
    season = current_season(context.case)
    if season is None or len(season.readings) < _FEWEST_TO_SPREAD:
        return None
    return statistics.stdev(ph_belief(reading).ph_water for reading in season.readings)
