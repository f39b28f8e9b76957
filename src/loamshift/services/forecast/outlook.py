"""What the pH will do: the plan and the bed left alone, with their bands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, ColumnResult, EventKind
from loamshift.core.ensemble import quantile_bands, variance_shares
from loamshift.domain.answer import Application, DoNothing, Forecast, ForecastPh
from loamshift.domain.answer import WidthShare as WidthShare
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Units
from loamshift.services.belief import column_priors as priors
from loamshift.services.belief.column_inputs import ForecastInputs, forecast_inputs
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run
from loamshift.services.belief.column_runs import shared_laws as shared_laws
from loamshift.services.format import format_date

FloatArray = NDArray[np.float64]

DEFAULT_MEMBERS: Final = 400
DEFAULT_SEED: Final = 1
DEFAULT_YEARS: Final = 3
JUDGE_WEEK: Final = 52
"""The width is explained at this week, or at the end of a shorter forecast."""
_NAMED_SHARE: Final = 0.1
"""A cause of less than this share of the width is not named."""
_MOST_NAMED: Final = 3

NARROWS: Final = {
    priors.BUFFER_WORDS: "a laboratory buffer pH or a jar titration",
    priors.READING_WORDS: "a second careful sample before you start",
    priors.CARBONATE_WORDS: "a fizz test, or better a carbonate test",
    priors.SULFUR_WORDS: "a reading three months after it went on",
    priors.LIME_WORDS: "a reading six months after it went on",
    priors.NITROGEN_WORDS: "a reading after the first year of feeding",
    priors.LEACHING_WORDS: "a reading every second year",
    priors.SALT_WORDS: "a reading a month after they went on",
    priors.DEPTH_WORDS: "weighing a known volume of dry soil",
    priors.WATER_WORDS: "looking at how wet the soil is",
    priors.ALKALINITY_WORDS: "the alkalinity of the water, from the supplier or a drop kit",
}
"""What would narrow the forecast, by what its width comes from."""

_NEEDS: Final = {
    priors.SULFUR_WORDS: {EventKind.SULFUR},
    priors.LIME_WORDS: {EventKind.LIME},
    priors.NITROGEN_WORDS: {
        EventKind.ORGANIC_NITROGEN,
        EventKind.AMMONIA,
        EventKind.AMMONIUM,
        EventKind.UREA,
        EventKind.NITRATE,
    },
    priors.SALT_WORDS: {EventKind.FAST_SALT, EventKind.ORGANIC_ACID, EventKind.DECAY},
}
"""Causes that act only where something of a kind was put on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """A forecast with all that stands behind it.

    ``forecast`` holds what a careful test of the day would read. ``bed_ph`` and ``control_ph``
    are the pH of the bed itself, shape (n_members, n_weeks) [pH in water], for probabilities;
    ``balance_error`` the worst of all members and both runs [share of all acid moved];
    ``lowest_ph`` of any layer on any day by member [pH]; ``oxidised_frac`` median share of
    the sulfur put on in the plan, by week [0-1].
    """

    forecast: Forecast
    balance_error: float
    width_words: str
    width_shares: tuple[WidthShare, ...]
    bed_ph: FloatArray
    control_ph: FloatArray
    lowest_ph: FloatArray
    oxidised_frac: FloatArray


def forecast(
    context: BedContext,
    applications: Sequence[Application],
    *,
    members: int = DEFAULT_MEMBERS,
    seed: int = DEFAULT_SEED,
    years: int = DEFAULT_YEARS,
) -> Outlook:
    """The course of the pH under a plan, week by week, beside the bed left alone.

    Answers what a careful test would read, and how sure that is; both runs share their members,
    so their difference is the work of the plan.

    Parameters
    ----------
    context
        A bed with a soil [object].
    applications
        Dated parts of the plan; none for the bed left alone [objects].
    members
        How many possible beds are run, 3 or more [count].
    seed
        Seed of the draws; the same seed gives the same forecast [number].
    years
        How long from today, 1 to 50 [years].

    Returns
    -------
    Outlook
        Bands, control, balance, and where the width comes from [object].

    Raises
    ------
    OutOfRangeError
        For years outside 1 to 50 or no member.

    Notes
    -----
    The bands hold the error of one further careful reading, so that nine tests in ten should
    fall in the outer one; ``bed_ph`` does not. "Do nothing" leaves out the plan only: earlier
    material, feed and watering go on.

    References
    ----------
    own-judgement
    """
    inputs = forecast_inputs(context, applications, years=years, seed=seed, members=members)
    plan = run(inputs, inputs.events)
    control = run(inputs, inputs.control_events) if applications else plan
    return outlook(inputs, plan, control)


def outlook(
    inputs: ForecastInputs,
    plan: ColumnResult,
    control: ColumnResult,
    *,
    events: ColumnEvents | None = None,
    days: int | None = None,
) -> Outlook:
    """A forecast from runs already made.

    Parameters
    ----------
    inputs
        What both ran on [object].
    plan
        The run with the plan [arrays].
    control
        The run without it [arrays].
    events
        What was put on in the first; None for the plan of the inputs [arrays].
    days
        Days shown from the start of the run; None for all of them [d].

    Returns
    -------
    Outlook
        Bands, control, balance, and where the width comes from [object].
    """
    first = (inputs.today - inputs.start).days // DAYS_IN_WEEK
    end = plan.ph.shape[1] if days is None else days // DAYS_IN_WEEK + 1
    bed_ph, control_ph = plan.ph[:, first:end], control.ph[:, first:end]
    error = (inputs.retest_sd * inputs.members.reading_z)[:, None]
    bands = quantile_bands(bed_ph + error)
    alone = np.median(control_ph + error, axis=0)
    weeks = bed_ph.shape[1]
    dates = tuple(inputs.today + timedelta(days=DAYS_IN_WEEK * week) for week in range(weeks))
    at = min(JUDGE_WEEK, weeks - 1)
    given = inputs.events if events is None else events
    shares = width_shares(inputs.members, bed_ph[:, at] + error[:, 0], events=given)
    return Outlook(
        forecast=Forecast(
            dates=dates,
            ph=_bands(bands),
            do_nothing=DoNothing(q50=_numbers(alone)),
            width=shares,
        ),
        balance_error=float(max(plan.balance_error.max(), control.balance_error.max())),
        width_words=width_words(shares, on=dates[at]),
        width_shares=shares,
        bed_ph=bed_ph,
        control_ph=control_ph,
        lowest_ph=plan.lowest_ph,
        oxidised_frac=np.asarray(
            np.median(plan.oxidised_frac[:, first:end], axis=0), dtype=np.float64
        ),
    )


def width_shares(
    members: priors.Members, outcome: FloatArray, *, events: ColumnEvents
) -> tuple[WidthShare, ...]:
    """What the width of a forecast comes from, the largest share first.

    Parameters
    ----------
    members
        The members drawn [object].
    outcome
        What each of them came to, shape (n_members,) [pH].
    events
        What was put on; causes that cannot act in this run are left out [arrays].

    Returns
    -------
    tuple of WidthShare
        Causes with their shares, together 1 [0-1].

    References
    ----------
    saltelli-2008
    """
    kinds = set(events.kind.tolist())
    idle = {words for words, needs in _NEEDS.items() if not kinds & needs}
    acts = [index for index, words in enumerate(members.words) if words not in idle]
    shares = variance_shares(members.draws[:, acts], outcome)
    total: dict[str, float] = {}
    for index, share in zip(acts, shares, strict=True):
        words = members.words[index]
        total[words] = total.get(words, 0.0) + float(share)
    ranked = sorted(total.items(), key=lambda pair: -pair[1])
    return tuple(WidthShare(words, share) for words, share in ranked if share > 0.0)


def width_words(shares: Sequence[WidthShare], *, on: date) -> str:
    """One sentence: where the width comes from and what would narrow it most.

    Parameters
    ----------
    shares
        Causes, the largest first [objects].
    on
        Day the shares stand for [date].

    Returns
    -------
    str
        The sentence [text].
    """
    named = [one for one in shares if one.share >= _NAMED_SHARE][:_MOST_NAMED]
    if not named:
        return "No single cause stands out behind the width of this forecast."
    phrases = [f"{one.cause} ({round(100.0 * one.share)} %)" for one in named]
    listed = phrases[0] if len(phrases) == 1 else f"{', '.join(phrases[:-1])} and {phrases[-1]}"
    test = next((NARROWS[one.cause] for one in shares if one.cause in NARROWS), None)
    after = f"; {test} would narrow it most" if test else ""
    return (
        f"The width of the forecast for {format_date(on, Units.METRIC)} comes from {listed}{after}."
    )


def _bands(bands: FloatArray) -> ForecastPh:
    q05, q25, q50, q75, q95 = (_numbers(band) for band in bands)
    return ForecastPh(q05=q05, q25=q25, q50=q50, q75=q75, q95=q95)


def _numbers(values: FloatArray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
