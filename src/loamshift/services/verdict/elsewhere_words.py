"""What is said where the plants belong somewhere else: what it would take, and where they go."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from loamshift.domain.answer import Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind
from loamshift.domain.message import (
    Listed,
    Message,
    Prose,
    in_100,
    message,
    ph,
    plants,
    prose,
    rate,
)
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.verdict.bed_words import Planned, Told, target_of_bed
from loamshift.services.verdict.feed_words import feed_cause
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.other_plants import plants_that_suit
from loamshift.services.verdict.tests_asked import buffering_test, repeat_test
from loamshift.tables.model import verdict_values

_HARDLY_ONE: Final = 0.01
"""Fewer of the possible beds than this are as good as none [0-1]."""
_LARGE_M2: Final = 100.0
"""Ground larger than this is not replaced by raised beds [m2]."""


def wanted_day(context: BedContext) -> date:
    """The day wanted, or the end of the seasons ahead."""
    by = wanted_by(context.case)
    seasons = int(verdict_values()["seasons"])
    later = context.case.today + timedelta(days=365 * seasons)
    return by if by is not None and by > context.case.today else later


def out_of_reach(context: BedContext, judged: Judgement) -> Message:
    """What the change would take, what the limits allow, and how often that would do."""
    need, most = judged.need_mid_g_m2 or 0.0, judged.most_g_m2 or 0.0
    return message(
        "verdict-reach",
        aim=ph(target_of_bed(context).ph_aim),
        need=rate(need, against=most),
        direction=judged.direction.value,
        most=rate(most, against=need),
        day=wanted_day(context),
        covered=in_100(judged.covered or 0.0),
        undone=_undone_by(context, judged) if limits_allow(judged) else None,
        kind=context.case.bed.kind.value,
    )


def _out_of_question(judged: Judgement) -> bool:
    """True where hardly one of the possible beds would get there, whatever a test finds."""
    return (judged.covered or 0.0) < _HARDLY_ONE


def _later_would_do(context: BedContext, judged: Judgement) -> bool:
    """True where the limits of all seasons allow the need, and the day wanted leaves out some."""
    by, seasons = wanted_by(context.case), verdict_values()["seasons"]
    last = context.case.today + timedelta(days=365 * int(seasons))
    need, year = judged.need_mid_g_m2 or 0.0, judged.cap_year_g_m2 or 0.0
    return by is not None and by < last and need <= seasons * year


def limits_allow(judged: Judgement) -> bool:
    """True where the published limits allow as much as the soil by itself takes."""
    return (judged.most_g_m2 or 0.0) >= (judged.need_mid_g_m2 or 0.0)


def _undone_by(context: BedContext, judged: Judgement) -> str:
    """What keeps a bed from getting there though the limits allow as much as it takes."""
    if judged.reason is Reason.WATER:
        return "water"
    return "time" if feed_cause(context, judged) is None else "feed"


def instead_words(context: BedContext, judged: Judgement) -> Prose:
    """Where the plants go instead: what makes sense for this kind of bed."""
    names = plants_that_suit(require_soil(context).ph.ph_water, context.case)
    suit: Listed | None = plants(names) if names else None
    if judged.direction is Direction.LIME:
        return prose(message("verdict-suit", suit=suit))
    if context.in_pot:
        return prose(message("verdict-repot"))
    if context.planted:
        later = message("verdict-suit-later", suit=suit) if suit else None
        return prose(message("verdict-help-plants"), later)
    if context.case.bed.kind is BedKind.FIELD or (context.total_area_m2 or 0.0) > _LARGE_M2:
        return prose(message("verdict-suit", suit=suit))
    return prose(message("verdict-pot-instead", suit=suit))


def free_lime(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Free lime uses up what the limits allow."""
    measured = require_soil(context).carbonate.measured
    settled = measured or judged.too_much_without_lime or _out_of_question(judged)
    change = repeat_test(context, judged) if settled else message("verdict-less-lime-change")
    told = prose(out_of_reach(context, judged), message("verdict-reach-lime"))
    return told + instead_words(context, judged), change


def caps(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """The limits allow too little by the day wanted."""
    by, later = wanted_by(context.case), _later_would_do(context, judged)
    if by is not None and later:
        change = message("verdict-later-day-change", day=by)
    elif _out_of_question(judged):
        change = repeat_test(context, judged)
    elif not require_soil(context).k.contributions and not context.case.titration:
        change = message("verdict-buffering-change", test=buffering_test(context))
    elif context.planted and not context.in_pot:
        change = message("verdict-empty-bed-change")
    else:
        change = repeat_test(context, judged)
    reach, cause = out_of_reach(context, judged), feed_cause(context, judged)
    return prose(reach, cause, instead_words(context, judged)), change
