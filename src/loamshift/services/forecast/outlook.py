"""What the pH will do: the plan and the bed left alone, with their bands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, EventKind
from loamshift.core.ensemble import quantile_bands, variance_shares
from loamshift.domain.answer import Application, DoNothing, Forecast, ForecastPh
from loamshift.domain.answer import WidthShare as WidthShare
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Units
from loamshift.errors import OutOfRangeError
from loamshift.services.belief import column_priors as priors
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.belief import believe
from loamshift.services.belief.column_inputs import DAYS_IN_YEAR as DAYS_IN_YEAR
from loamshift.services.belief.column_inputs import LONGEST_YEARS, events_under
from loamshift.services.belief.column_runs import DAYS_IN_WEEK
from loamshift.services.belief.column_runs import shared_laws as shared_laws
from loamshift.services.belief.possible_beds import PossibleBeds
from loamshift.services.format import format_date

FloatArray = NDArray[np.float64]

DEFAULT_MEMBERS: Final = 250
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
    priors.CARBONATE_WORDS: "a laboratory figure for free lime",
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
    are the pH of the bed itself, shape (M, n_weeks) [pH in water], for probabilities;
    ``reading_error_ph`` (M,) error of one further reading of each [pH];
    ``balance_error`` the worst of all members and runs [share of all acid moved];
    ``oxidised_frac`` median share of the sulfur put on, by week [0-1].
    """

    forecast: Forecast
    balance_error: float
    width_words: str
    width_shares: tuple[WidthShare, ...]
    bed_ph: FloatArray
    control_ph: FloatArray
    reading_error_ph: FloatArray
    oxidised_frac: FloatArray


def forecast(
    context: BedContext,
    applications: Sequence[Application],
    *,
    members: int = DEFAULT_MEMBERS,
    seed: int = DEFAULT_SEED,
    years: int = DEFAULT_YEARS,
) -> Outlook:
    """The course of the pH under dated applications, week by week, beside the bed left alone.

    Answers what a careful test would read, and how sure that is; both runs share their beds,
    so their difference is the work of the applications.

    Parameters
    ----------
    context
        A bed with a soil [object].
    applications
        Dated parts; none for the bed left alone [objects].
    members
        Members of the column that are run, 25 or more [count].
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
        For years outside 1 to 50.

    Notes
    -----
    The bands hold the error of one further careful reading, so that nine tests in ten should
    fall in the outer one; ``bed_ph`` does not. "Do nothing" leaves out the applications only:
    earlier material, feed and watering go on. Earlier readings have weighed the beds.

    References
    ----------
    own-judgement
    """
    if not 1 <= years <= LONGEST_YEARS:
        raise OutOfRangeError(f"years = {years} must lie between 1 and {LONGEST_YEARS}")
    ahead = round(years * DAYS_IN_YEAR)
    beds = believe(context, applications, members=members, seed=seed, days_ahead=ahead).beds
    alone = beds.run(())
    plan = beds.run(applications) if applications else alone
    return outlook(
        beds,
        alone=alone,
        planned_ph=plan.ph,
        planned=applications,
        until=context.case.today + timedelta(days=ahead),
        balance_error=max(plan.balance_error, alone.balance_error),
        oxidised_frac=plan.oxidised_frac,
    )


def outlook(
    beds: PossibleBeds,
    *,
    alone: BedRun,
    planned_ph: FloatArray | None,
    planned: Sequence[Application],
    until: date,
    balance_error: float,
    oxidised_frac: FloatArray | None = None,
) -> Outlook:
    """A forecast from courses already simulated.

    Parameters
    ----------
    beds
        The possible beds [object].
    alone
        Their run with nothing more put on [object].
    planned_ph
        Their course under the plan, shape (M, D); None where there is none [pH in water].
    planned
        What the plan puts on, for the causes of the width [objects].
    until
        Last day shown [calendar].
    balance_error
        Worst of all runs behind it [share of all acid moved].
    oxidised_frac
        Median share of the sulfur put on, by week; None for none [0-1].

    Returns
    -------
    Outlook
        Bands, control, and where the width comes from [object].
    """
    weeks = (until - beds.inputs.today).days // DAYS_IN_WEEK + 1
    control_ph = alone.ph[:, :weeks]
    bed_ph = control_ph if planned_ph is None else planned_ph[:, :weeks]
    error = beds.inputs.retest_sd * beds.reading_z
    at = min(JUDGE_WEEK, bed_ph.shape[1] - 1)
    events = events_under(beds.inputs, planned) if planned else beds.inputs.control_events
    shares = width_shares(
        beds.inputs.members.words, beds.draws, bed_ph[:, at] + error, events=events
    )
    dates = beds.days[: bed_ph.shape[1]]
    return Outlook(
        forecast=Forecast(
            dates=dates,
            ph=reading_bands(bed_ph, error_ph=error),
            do_nothing=DoNothing(q50=_numbers(np.median(control_ph + error[:, None], axis=0))),
            width=shares,
        ),
        balance_error=balance_error,
        width_words=width_words(shares, on=dates[at]),
        width_shares=shares,
        bed_ph=bed_ph,
        control_ph=control_ph,
        reading_error_ph=error,
        oxidised_frac=np.zeros(bed_ph.shape[1])
        if oxidised_frac is None
        else oxidised_frac[: bed_ph.shape[1]],
    )


def width_shares(
    words: Sequence[str], draws: FloatArray, outcome: FloatArray, *, events: ColumnEvents
) -> tuple[WidthShare, ...]:
    """What the width of a forecast comes from, the largest share first.

    Parameters
    ----------
    words
        What each cause is called, one a column of the draws [text].
    draws
        What was drawn for each bed, shape (M, n_drawn) [of the causes].
    outcome
        What each of them came to, shape (M,) [pH].
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
    idle = {name for name, needs in _NEEDS.items() if not kinds & needs}
    acts = [index for index, name in enumerate(words) if name not in idle]
    shares = variance_shares(draws[:, acts], outcome)
    total: dict[str, float] = {}
    for index, share in zip(acts, shares, strict=True):
        name = words[index]
        total[name] = total.get(name, 0.0) + float(share)
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


def reading_bands(bed_ph: FloatArray, *, error_ph: FloatArray) -> ForecastPh:
    """What a careful test of possible beds would read, as bands.

    Parameters
    ----------
    bed_ph
        pH of each bed on each day, shape (M, D) [pH in water].
    error_ph
        Error of one reading of each, shape (M,) [pH].

    Returns
    -------
    ForecastPh
        Quantiles by day [pH in water].
    """
    bands = quantile_bands(bed_ph + error_ph[:, None])
    q05, q25, q50, q75, q95 = (_numbers(band) for band in bands)
    return ForecastPh(q05=q05, q25=q25, q50=q50, q75=q75, q95=q95)


def _numbers(values: FloatArray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
