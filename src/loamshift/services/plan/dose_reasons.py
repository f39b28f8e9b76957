"""Why the amount by the forecast is more or less than by the curve alone, from runs that show it.

Each reason is what one thing moved the median on the date: the same plan is run with it and
without it. Nothing is said that was not worked out so.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, EventKind, MemberParameters
from loamshift.domain.answer import DoseLimit
from loamshift.services.belief.column_inputs import ForecastInputs
from loamshift.services.belief.column_runs import events_before, run, shortened
from loamshift.services.format import format_date, format_rate
from loamshift.services.plan.dose_bench import Bench
from loamshift.services.plan.dose_search import Found
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

AGREE_SHARE: Final = 0.05
"""Two amounts this near are the same; neither is known so well [1]."""
_WORTH_SHARE: Final = 0.2
"""A reason that makes less than this share of the difference is not named [1]."""
_MOST_REASONS: Final = 2
_AT_ONCE: Final = 1.0e-3
"""Half-time of lime that reacts as it goes on [d]."""
_FAST: Final = 1.0e3
_SEEN_PH: Final = 0.05
"""What moves the median by less would print as nothing [pH]."""
_FAR: Final = 2.5
"""Beyond this many times the amount, what the aim would take is no figure to give [1]."""
_MOSTLY: Final = 0.85
"""A share above this is not called only so much [1]."""
_NO_SINGLE_CAUSE: Final = (
    "No single cause makes the difference: the curve asks what the middle soil takes up, the "
    "forecast what brings half of all possible beds to the aim."
)
_NITROGEN: Final = (
    EventKind.ORGANIC_NITROGEN,
    EventKind.AMMONIA,
    EventKind.AMMONIUM,
    EventKind.UREA,
    EventKind.NITRATE,
)


@dataclass(frozen=True, slots=True)
class _Reason:
    """One cause: what it moves the median by [pH], either way, the amount it adds to the dose,
    less where negative [g/m2], and its sentence.
    """

    moved_ph: float
    more_g_m2: float
    text: str


def reasons(
    bench: Bench, found: Found, *, reacted: FloatArray, static_g_m2: float
) -> tuple[str, ...]:
    """Why the two amounts differ, in one to three sentences; none where they agree.

    Parameters
    ----------
    bench
        The bed prepared [object].
    found
        What the search came to [object].
    reacted
        Share of what went on that has reacted by each week of its run [0-1].
    static_g_m2
        Middle of the dose by the curve alone [g/m2].

    Returns
    -------
    tuple of str
        What limits the amount first, with what the aim itself would take by the slope there;
        then the causes that lie the way the difference from that does, the largest first [text].
    """
    amount = found.trial.amount_g_m2
    if amount <= 0.0:
        return (_by_itself(bench, found),)
    cut = _cut_back_g_m2(bench, found)
    said = _limited(bench, found, aim_g_m2=amount + cut)
    difference = amount + cut - static_g_m2
    if abs(difference) <= AGREE_SHARE * static_g_m2:
        return said
    named = sorted(
        (
            one
            for one in _causes(bench, found, reacted)
            if one.more_g_m2 * difference > 0.0
            and one.moved_ph >= _SEEN_PH
            and abs(one.more_g_m2) >= _WORTH_SHARE * abs(difference)
        ),
        key=lambda one: -abs(one.more_g_m2),
    )
    texts = tuple(one.text for one in named[:_MOST_REASONS])
    if not said and not texts:
        texts = (_NO_SINGLE_CAUSE,)
    return (*said, *texts)


def _limited(bench: Bench, found: Found, *, aim_g_m2: float) -> tuple[str, ...]:
    """What keeps the amount below what the aim would take."""
    units = bench.context.case.units
    median = float(np.median(found.trial.result.ph[:, bench.week_of(found.by)]))
    day = format_date(found.by, units)
    side, aim = "below" if bench.acidify else "above", f"pH {bench.target.ph_aim:.1f}"
    if found.limited_by is DoseLimit.RISK:
        in_ten = round(10.0 * parameter_values("advice")["risk_share"])
        past = (
            f"would take over {'one' if in_ten == 1 else in_ten} in ten of the possible beds "
            f"{side} pH {bench.far_ph:.1f} at some time."
        )
        if aim_g_m2 < (1.0 + 2.0 * AGREE_SHARE) * found.trial.amount_g_m2:
            return (f"Any more {past}",)
        if aim_g_m2 > _FAR * found.trial.amount_g_m2:
            return (f"No safe amount has the middle at {aim} on {day}: any more {past}",)
        return (
            f"To have the middle at {aim} on {day} would take about "
            f"{format_rate(aim_g_m2, units)}, but any more than the amount by the forecast {past}",
        )
    if found.limited_by is DoseLimit.CAPS:
        if found.is_near:
            return ("What is left to the aim is too little for a part of its own.",)
        waits = ", with the wait between parts," if len(found.dates) < bench.most_parts else ""
        return (
            f"By {day} the printed limits{waits} allow no more than this amount; the middle of "
            f"the possible beds is then at pH {median:.1f}, not {bench.target.ph_aim:.1f}.",
        )
    if found.limited_by is DoseLimit.DATE:
        return (
            f"No amount within the printed limits gets there by {day}, when the middle of the "
            f"possible beds is at pH {median:.1f}; what has not reacted by then acts after it.",
        )
    return ()


def _by_itself(bench: Bench, found: Found) -> str:
    median = float(np.median(found.trial.result.ph[:, bench.week_of(found.by)]))
    return (
        f"Left alone, with what already went on and the feed, the middle of the possible beds is "
        f"at pH {median:.1f} on {format_date(found.by, bench.context.case.units)}."
    )


def _cut_back_g_m2(bench: Bench, found: Found) -> float:
    """How much more the aim would take than the limit leaves, by the slope at the end [g/m2]."""
    if found.slope_ph_g_m2 <= 0.0:
        return 0.0
    return max(found.trial.room_aim_ph, 0.0) / found.slope_ph_g_m2


def _causes(bench: Bench, found: Found, reacted: FloatArray) -> list[_Reason]:
    """What each thing does to the median on the date, as an amount."""
    days = (found.by - bench.whole.start).days // 7 * 7
    if found.slope_ph_g_m2 <= 0.0 or days < 7:
        return []
    inputs = shortened(bench.few, days=days)
    events = events_before(found.trial.events, day=days)
    there = _median(inputs, events)

    def cause(ph_without: float, text: str) -> _Reason:
        moved = there - ph_without
        more = bench.sign * moved / found.slope_ph_g_m2
        return _Reason(abs(moved), more, text.format(moved=f"{abs(moved):.1f} pH"))

    causes = []
    weather = inputs.weather
    if weather.alkalinity_mmolc_l > 0.0 and float(weather.irrigation_mm.sum()) > 0.0:
        soft = replace(inputs, weather=replace(weather, alkalinity_mmolc_l=0.0))
        lifts = "takes back" if bench.acidify else "adds"
        causes.append(cause(_median(soft, events), f"By then the water {lifts} about {{moved}}."))
    kept = _median(*_without_losses(inputs, events))
    what = "leaching, uptake and feed" if there < kept else "weathering and feed"
    does = "help by" if (there < kept) == bench.acidify else "take back"
    causes.append(cause(kept, f"By then {what} {does} about {{moved}}."))
    share = float(reacted[bench.week_of(found.by)])
    done = "turned to acid" if bench.acidify else "reacted"
    only = "Only about" if share < _MOSTLY else "About"
    text = f"{only} {round(100.0 * share)} % of it has {done} by then."
    causes.append(cause(_median(*_all_at_once(inputs, events)), text))
    if bench.acidify and float(inputs.members.parameters.carbonate_factor.max()) > 0.0:
        rate = inputs.members.parameters.carbonate_rate_per_d * _FAST
        fast = _median(_with_members(inputs, carbonate_rate_per_d=rate), events)
        causes.append(cause(fast, "Part of the free lime has not dissolved by then, but will."))
    still = inputs.members.parameters.transport_factor * 0.0
    kept_in = _median(_with_members(inputs, transport_factor=still), events)
    washed = "base" if there < kept_in else "acid"
    text = (
        f"Water draining through carries {washed} below the depth sampled, about {{moved}} worth."
    )
    causes.append(cause(kept_in, text))
    return causes


def _median(inputs: ForecastInputs, events: ColumnEvents) -> float:
    return float(np.median(run(inputs, events).ph[:, -1]))


def _with_members(inputs: ForecastInputs, **changed: NDArray[np.float64]) -> ForecastInputs:
    parameters: MemberParameters = replace(inputs.members.parameters, **changed)
    return replace(inputs, members=replace(inputs.members, parameters=parameters))


def _without_losses(
    inputs: ForecastInputs, events: ColumnEvents
) -> tuple[ForecastInputs, ColumnEvents]:
    nothing = np.zeros_like(inputs.members.parameters.weathering_mmolc_m2_year)
    still = _with_members(
        inputs, weathering_mmolc_m2_year=nothing, background_mmolc_m2_year=nothing
    )
    return still, _where(events, ~np.isin(events.kind, [int(kind) for kind in _NITROGEN]))


def _all_at_once(
    inputs: ForecastInputs, events: ColumnEvents
) -> tuple[ForecastInputs, ColumnEvents]:
    sulfur = events.kind == int(EventKind.SULFUR)
    kinds = np.where(sulfur, int(EventKind.ACID), events.kind)
    half = np.full_like(inputs.members.parameters.lime_half_time_d, _AT_ONCE)
    return _with_members(inputs, lime_half_time_d=half), replace(events, kind=kinds)


def _where(events: ColumnEvents, kept: NDArray[np.bool_]) -> ColumnEvents:
    return ColumnEvents(
        **{field.name: getattr(events, field.name)[kept] for field in fields(ColumnEvents)}
    )
