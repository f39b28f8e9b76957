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
from loamshift.services.column_inputs import ForecastInputs
from loamshift.services.dose_bench import Bench
from loamshift.services.dose_search import Found
from loamshift.services.forecast_runs import events_before, run, shortened
from loamshift.services.part_dates import reacted_frac
from loamshift.services.said import said_date, said_rate
from loamshift.tables.parameters import parameter_values

AGREE_SHARE: Final = 0.05
"""Two amounts this near are the same; neither is known so well [1]."""
_WORTH_SHARE: Final = 0.2
"""A reason that makes less than this share of the difference is not named [1]."""
_MOST_REASONS: Final = 2
_AT_ONCE: Final = 1.0e-3
"""Half-time of lime that reacts as it goes on [d]."""
_FAST: Final = 1.0e3
_NITROGEN: Final = (
    EventKind.ORGANIC_NITROGEN,
    EventKind.AMMONIA,
    EventKind.AMMONIUM,
    EventKind.UREA,
    EventKind.NITRATE,
)


@dataclass(frozen=True, slots=True)
class _Reason:
    """One cause: the amount it adds to the dose, less where negative [g/m2], and its sentence."""

    more_g_m2: float
    text: str


def reasons(bench: Bench, found: Found, *, static_g_m2: float) -> tuple[str, ...]:
    """Why the two amounts differ, in one to three sentences; none where they agree.

    Parameters
    ----------
    bench
        The bed prepared [object].
    found
        What the search came to [object].
    static_g_m2
        Middle of the dose by the curve alone [g/m2].

    Returns
    -------
    tuple of str
        What limits the amount first, then the causes that lie the way the difference does, the
        largest first [text].
    """
    difference = found.trial.amount_g_m2 - static_g_m2
    said = _limited(bench, found)
    if abs(difference) <= AGREE_SHARE * static_g_m2 and not said:
        return ()
    if found.trial.amount_g_m2 <= 0.0:
        return said or (_by_itself(bench, found),)
    causes = _causes(bench, found)
    cut = _cut_back_g_m2(bench, found)
    worth = _WORTH_SHARE * max(abs(difference), AGREE_SHARE * static_g_m2)
    named = sorted(
        (one for one in causes if one.more_g_m2 * difference > 0.0 and abs(one.more_g_m2) >= worth),
        key=lambda one: -abs(one.more_g_m2),
    )
    explains_itself = bool(said) and difference < 0.0 and cut >= (1.0 - _WORTH_SHARE) * -difference
    texts = () if explains_itself else tuple(one.text for one in named[:_MOST_REASONS])
    if not said and not texts and abs(difference) > AGREE_SHARE * static_g_m2:
        texts = (
            "No single cause makes the difference: the curve asks what the middle soil takes up, "
            "the forecast what brings half of all possible beds to the aim.",
        )
    return (*said, *texts)


def _limited(bench: Bench, found: Found) -> tuple[str, ...]:
    """What keeps the amount below what the aim would take."""
    units = bench.situation.case.units
    median = float(np.median(found.trial.result.ph[:, bench.week_of(found.by)]))
    day = said_date(found.by, units)
    side = "below" if bench.acidify else "above"
    what = "sulfur" if bench.acidify else "lime"
    if found.limited_by is DoseLimit.RISK:
        in_ten = round(10.0 * parameter_values("advice")["risk_share"])
        chance = "one possible bed in ten" if in_ten == 1 else f"{in_ten} possible beds in ten"
        return (
            f"With more, over {chance} would at some time fall below pH {bench.far_ph:.1f}."
            if bench.acidify
            else f"With more, over {chance} would at some time rise above pH {bench.far_ph:.1f}.",
        )
    if found.limited_by is DoseLimit.CAPS:
        most = said_rate(found.trial.amount_g_m2, units)
        if bench.target.ph_low <= median <= bench.target.ph_high:
            return (
                f"The printed limits allow {most} in {_parts(len(found.dates))}; the little that "
                "is left to the aim makes no part of its own.",
            )
        return (
            f"The printed limits allow no more than {most} of {what} by then, and with that the "
            f"middle is pH {median:.1f} on {day}, not yet {bench.target.ph_aim:.1f}.",
        )
    if found.limited_by is DoseLimit.DATE:
        return (
            f"By {day} no amount within the printed limits gets there: the middle is then pH "
            f"{median:.1f}, and what has not reacted goes on to act {side} that."
            if median * bench.sign > bench.target.ph_aim * bench.sign
            else f"By {day} no amount within the printed limits gets there.",
        )
    return ()


def _parts(count: int) -> str:
    return "one part" if count == 1 else f"{count} parts"


def _by_itself(bench: Bench, found: Found) -> str:
    median = float(np.median(found.trial.result.ph[:, bench.week_of(found.by)]))
    return (
        f"Left alone, with what already went on and the feed, the middle of the possible beds is "
        f"at pH {median:.1f} on {said_date(found.by, bench.situation.case.units)}."
    )


def _cut_back_g_m2(bench: Bench, found: Found) -> float:
    """How much more the aim would take than the limit leaves, by the slope at the end [g/m2]."""
    if found.slope_ph_g_m2 <= 0.0:
        return 0.0
    return max(found.trial.room_aim_ph, 0.0) / found.slope_ph_g_m2


def _causes(bench: Bench, found: Found) -> list[_Reason]:
    """What each thing does to the median on the date, as an amount."""
    days = (found.by - bench.whole.start).days // 7 * 7
    if found.slope_ph_g_m2 <= 0.0 or days < 7:
        return []
    inputs = shortened(bench.few, days=days)
    events = events_before(found.trial.events, day=days)
    there = _median(inputs, events)

    def more(ph_without: float) -> float:
        return bench.sign * (there - ph_without) / found.slope_ph_g_m2

    def moved(ph_without: float) -> str:
        return f"{abs(there - ph_without):.1f}"

    causes = []
    weather = inputs.weather
    lifts = "takes back" if bench.acidify else "adds"
    if weather.alkalinity_mmolc_l > 0.0 and float(weather.irrigation_mm.sum()) > 0.0:
        soft = replace(inputs, weather=replace(weather, alkalinity_mmolc_l=0.0))
        ph = _median(soft, events)
        causes.append(_Reason(more(ph), f"By then the water {lifts} about {moved(ph)} pH."))
    kept = _median(*_without_losses(inputs, events))
    what = "leaching, uptake and feed" if there < kept else "weathering and feed"
    does = "help by" if (there < kept) == bench.acidify else "take back"
    causes.append(_Reason(more(kept), f"By then {what} {does} about {moved(kept)} pH."))
    slow = _median(*_all_at_once(inputs, events))
    week = bench.week_of(found.by)
    share = float(reacted_frac(bench, found.trial.result, found.trial.events)[week])
    done = "turned to acid" if bench.acidify else "reacted"
    causes.append(
        _Reason(more(slow), f"Only about {round(100.0 * share)} % of it has {done} by then.")
    )
    if bench.acidify and float(inputs.members.parameters.carbonate_factor.max()) > 0.0:
        rate = inputs.members.parameters.carbonate_rate_per_d * _FAST
        fast = _median(_with_members(inputs, carbonate_rate_per_d=rate), events)
        causes.append(
            _Reason(more(fast), "Part of the free lime has not dissolved by then, but will.")
        )
    still = inputs.members.parameters.transport_factor * 0.0
    kept_in = _median(_with_members(inputs, transport_factor=still), events)
    causes.append(
        _Reason(
            more(kept_in),
            f"Rain and watering carry part of it below the depth sampled, {moved(kept_in)} pH "
            "worth.",
        )
    )
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
