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
from loamshift.domain.message import Listed, Measure, Message, Prose, Quantity, message, prose
from loamshift.errors import OutOfRangeError
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.belief import believe
from loamshift.services.belief.column_inputs import DAYS_IN_YEAR as DAYS_IN_YEAR
from loamshift.services.belief.column_inputs import LONGEST_YEARS, events_under
from loamshift.services.belief.column_priors import Cause
from loamshift.services.belief.column_runs import DAYS_IN_WEEK
from loamshift.services.belief.column_runs import shared_laws as shared_laws
from loamshift.services.belief.possible_beds import PossibleBeds
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.context.build_context import require_soil

FloatArray = NDArray[np.float64]

DEFAULT_MEMBERS: Final = 250
DEFAULT_SEED: Final = 1
DEFAULT_YEARS: Final = 3
JUDGE_WEEK: Final = 52
"""The width is explained at this week, or at the end of a shorter forecast."""
_NAMED_SHARE: Final = 0.1
"""A cause of less than this share of the width is not named."""
_MOST_NAMED: Final = 3

NARROWED: Final = frozenset(f"cause-{cause}" for cause in Cause if cause is not Cause.NEXT_READING)
"""Messages of the causes that a measurement narrows; the error of the next reading stays."""

_NEEDS: Final = {
    Cause.SULFUR: {EventKind.SULFUR},
    Cause.LIME: {EventKind.LIME},
    Cause.NITROGEN: {
        EventKind.ORGANIC_NITROGEN,
        EventKind.AMMONIA,
        EventKind.AMMONIUM,
        EventKind.UREA,
        EventKind.NITRATE,
    },
    Cause.SALTS: {EventKind.FAST_SALT, EventKind.ORGANIC_ACID, EventKind.DECAY},
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
    width_words: Prose
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
    members
        Members of the column that are run, 25 or more [count].
    seed
        Seed of the draws; the same seed gives the same forecast [number].
    years
        How long from today, 1 to 50 [years].

    Returns
    -------
    Outlook
        Bands, control, balance, and where the width comes from.

    Raises
    ------
    OutOfRangeError
        For years outside 1 to 50.

    Notes
    -----
    The bands hold the error of one further careful reading, so that nine tests in ten should
    fall in the outer one; ``bed_ph`` does not. Their middle is the median of the beds, the figure
    that the verdict tells: an error lies as often above as below, and drawn ones only scatter it.
    "Do nothing" leaves out the applications only: earlier material, feed and watering go on.
    Earlier readings have weighed the beds.

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
        context=context,
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
    context: BedContext,
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
    context
        The bed, for the tests of it that nobody has made yet.
    planned_ph
        Their course under the plan, shape (M, D); None where there is none [pH in water].
    balance_error
        Worst of all runs behind it [share of all acid moved].
    oxidised_frac
        Median share of the sulfur put on, by week; None for none [0-1].

    Returns
    -------
    Outlook
        Bands, control, and where the width comes from.
    """
    weeks = (until - beds.inputs.today).days // DAYS_IN_WEEK + 1
    control_ph = alone.ph[:, :weeks]
    bed_ph = control_ph if planned_ph is None else planned_ph[:, :weeks]
    error = beds.inputs.retest_sd * beds.reading_z
    at = min(JUDGE_WEEK, bed_ph.shape[1] - 1)
    events = events_under(beds.inputs, planned) if planned else beds.inputs.control_events
    shares = width_shares(
        beds.inputs.members.causes, beds.draws, bed_ph[:, at] + error, events=events
    )
    dates = beds.days[: bed_ph.shape[1]]
    return Outlook(
        forecast=Forecast(
            dates=dates,
            ph=reading_bands(bed_ph, error_ph=error),
            do_nothing=DoNothing(q50=_numbers(np.median(control_ph, axis=0))),
            width=shares,
        ),
        balance_error=balance_error,
        width_words=width_words(context, shares, on=dates[at]),
        width_shares=shares,
        bed_ph=bed_ph,
        control_ph=control_ph,
        reading_error_ph=error,
        oxidised_frac=np.zeros(bed_ph.shape[1])
        if oxidised_frac is None
        else oxidised_frac[: bed_ph.shape[1]],
    )


def width_shares(
    causes: Sequence[Cause], draws: FloatArray, outcome: FloatArray, *, events: ColumnEvents
) -> tuple[WidthShare, ...]:
    """What the width of a forecast comes from, the largest share first.

    Parameters
    ----------
    outcome
        What each of them came to, shape (M,) [pH].

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
    acts = [index for index, name in enumerate(causes) if name not in idle]
    shares = variance_shares(draws[:, acts], outcome)
    total: dict[Cause, float] = {}
    for index, share in zip(acts, shares, strict=True):
        name = causes[index]
        total[name] = total.get(name, 0.0) + float(share)
    ranked = sorted(total.items(), key=lambda pair: -pair[1])
    return tuple(
        WidthShare(message(f"cause-{cause}"), share) for cause, share in ranked if share > 0.0
    )


def width_words(context: BedContext, shares: Sequence[WidthShare], *, on: date) -> Prose:
    """Where the width comes from, and which test, not made yet, would narrow it most."""
    named = [one for one in shares if one.share >= _NAMED_SHARE][:_MOST_NAMED]
    if not named:
        return prose(message("expect-width-none"))
    causes = tuple(
        message("expect-width-cause", cause=_cause(one), share=Measure(Quantity.SHARE, one.share))
        for one in named
    )
    told = _told(context)
    narrows = next((one for one in shares if _cause(one).key in NARROWED - told), None)
    return prose(
        message("expect-width", day=on, causes=Listed(causes)),
        None
        if narrows is None
        else message(
            "expect-narrows",
            cause=_code(narrows),
            test="buffer" if buffer_test_tells(context) else "jar",
        ),
    )


def _told(context: BedContext) -> frozenset[str]:
    """Causes whose best test was made: it is not asked for twice."""
    made = {
        Cause.CARBONATE: require_soil(context).carbonate.measured,
        Cause.BUFFERING: bool(context.case.titration),
    }
    return frozenset(f"cause-{cause}" for cause, is_made in made.items() if is_made)


def _cause(share: WidthShare) -> Message:
    assert isinstance(share.cause, Message)
    return share.cause


def _code(share: WidthShare) -> str:
    """The code of a cause, for a message that says what narrows it."""
    return _cause(share).key.removeprefix("cause-")


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
        Quantiles by day, the middle one that of the beds [pH in water].
    """
    q05, q25, _, q75, q95 = quantile_bands(bed_ph + error_ph[:, None])
    middle = np.clip(np.median(bed_ph, axis=0), q25, q75)
    return ForecastPh(
        q05=_numbers(q05),
        q25=_numbers(q25),
        q50=_numbers(middle),
        q75=_numbers(q75),
        q95=_numbers(q95),
    )


def _numbers(values: FloatArray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
