"""Why a verdict is what it is: messages made from the judgement's reason and figures alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.domain.answer import Decision, Direction, Reason, Verdict
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import (
    Given,
    Message,
    Product,
    Prose,
    in_100,
    message,
    ph,
    prose,
    rate,
)
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_season, ph_belief
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.verdict.bed_words import (
    Planned,
    Teller,
    Told,
    range_of,
    reading,
    wanted,
)
from loamshift.services.verdict.bed_words import target_of_bed as _target
from loamshift.services.verdict.doubts import (
    hardly_a_soil,
    holds_free_lime,
    lime_contradicts_ph,
    unknown_of_water,
)
from loamshift.services.verdict.elsewhere_words import (
    caps,
    free_lime,
    instead_words,
    limits_allow,
    out_of_reach,
    wanted_day,
)
from loamshift.services.verdict.feed_words import feed_cause, feed_lime, gentle_feed
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.moved_since import moved_since, no_more, way_since
from loamshift.services.verdict.stop_words import STOPPED
from loamshift.services.verdict.tests_asked import buffering_test, repeat_test
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

SETTLED_BY: Final[Mapping[str, Message]] = {
    "soil.ph": message("settle-soil-ph"),
    "soil.ph_method": message("settle-soil-ph-method"),
    "soil.sodium_pct": message("settle-soil-sodium-pct"),
    "soil.fizz": message("settle-soil-fizz"),
    "soil.carbonate_pct": message("settle-soil-carbonate-pct"),
    "water.alkalinity": message("settle-water-alkalinity"),
    "water.weekly": message("settle-water-weekly"),
    "titration": message("settle-titration"),
    "soil.texture": message("settle-soil-texture"),
    "aim.plant": message("settle-aim-plant"),
    "aim.target_ph": message("settle-aim-target-ph"),
}
"""What settles an open question, by the field of the case file it fills in."""
_ONE_TEST_PH: Final = 0.05
"""Nearer than this a reading and what is believed are told as one [pH]."""


def verdict(context: BedContext, judged: Judgement, plan: Planned) -> Verdict:
    """A judgement as messages.

    Parameters
    ----------
    plan
        Its plan, None without one.
    """
    because, would_change_if = _TOLD[judged.reason](context, judged, plan)
    return Verdict(
        decision=judged.decision,
        because=prose(no_more(context, judged), because),
        would_change_if=would_change_if,
        reason=judged.reason,
        ph_now=judged.ph_now,
    )


def _start(plan: Planned) -> Prose:
    """What goes on first, as the plan has it."""
    if plan is None:
        return Prose()
    first = message("verdict-start-nothing")
    if plan.parts:
        total = sum(part.rate_g_m2 for part in plan.parts)
        first = message("verdict-start", rate=rate(total), product=Product(plan.material))
    if not plan.decides:
        return prose(first)
    return prose(first, message("verdict-start-test", day=plan.decides[0].test))


def _change_test(context: BedContext, judged: Judgement, plan: Planned) -> Message:
    """An undone test that bears on how much there is to do."""
    soil = require_soil(context)
    acidify = judged.direction is Direction.ACIDIFY
    if acidify and soil.carbonate.is_possible and not soil.carbonate.measured:
        if context.case.soil.fizz is None:
            return message("verdict-fizz-change")
        return message("verdict-free-lime-change")
    if not soil.k.contributions and not context.case.titration:
        return message("verdict-buffering-either-change", test=buffering_test(context))
    return repeat_test(context, judged, plan)


def _ph_apart(context: BedContext, judged: Judgement) -> float | None:
    """Where the bed is now, if its readings together put it elsewhere than the last [pH]."""
    now, read = judged.ph_now, require_soil(context).ph.ph_water
    season = current_season(context.case)
    alone = read if season is None else ph_belief(season.leading).ph_water
    if now is None or max(abs(now - read), abs(read - alone)) < _ONE_TEST_PH:
        return None
    return now


def _stay(context: BedContext, judged: Judgement) -> Message:
    """How many beds stay near the range if nothing is done, and until when."""
    by = wanted_by(context.case)
    until = by if by is not None and by > context.case.today else None
    return message(
        "verdict-stay",
        stay=in_100(judged.stays or 0.0),
        until=until,
        kind=context.case.bed.kind.value,
    )


def _in_range(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    target, apart = _target(context), _ph_apart(context, judged)
    stands = (
        message("verdict-in-range", reading=reading(context), wanted=wanted(target))
        if apart is None
        else message(
            "verdict-in-range-now",
            ph=ph(apart),
            wanted=wanted(target),
            reading=reading(context),
            applied=moved_since(context, apart),
            way=way_since(context, apart),
        )
    )
    return (
        prose(stands, _stay(context, judged), _target_within(context, judged)),
        message("verdict-in-range-change", range=range_of(target)),
    )


def _target_within(context: BedContext, judged: Judgement) -> Message | None:
    """That a target of the reader's own, elsewhere in the range of the plants, is not needed."""
    aim, target = context.case.aim, _target(context)
    if aim.target_ph is None or not target.names:
        return None
    now = require_soil(context).ph.ph_water if judged.ph_now is None else judged.ph_now
    if abs(now - target.ph_aim) <= verdict_values()["target_half_width_ph"]:
        return None
    return message("verdict-target-within", aim=ph(target.ph_aim))


def _at_work(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    comes_to = round(judged.ph_alone_on or judged.ph_expected or 0.0, 1)
    target = _target(context)
    ends = (
        message("verdict-at-work-within", wanted=wanted(target))
        if target.ph_low <= comes_to <= target.ph_high
        else message("verdict-at-work-near", wanted=wanted(target))
    )
    sampled = require_soil(context).ph.ph_water
    return (
        prose(message("verdict-at-work", expected=ph(comes_to), ph=ph(sampled)), ends),
        message("verdict-at-work-change"),
    )


def _small_gain(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    gain, target = ph(verdict_values()["leave_gain_ph"]), _target(context)
    apart = _ph_apart(context, judged)
    stands = (
        message("verdict-small-gain", reading=reading(context), wanted=wanted(target))
        if apart is None
        else message(
            "verdict-small-gain-now",
            ph=ph(apart),
            wanted=wanted(target),
            reading=reading(context),
            applied=moved_since(context, apart),
            way=way_since(context, apart),
        )
    )
    return (
        prose(stands, message("verdict-small-gain-scatter", gain=gain), _stay(context, judged)),
        message("verdict-small-gain-change", gain=gain, range=range_of(target)),
    )


def _doubt(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    if lime_contradicts_ph(context):
        return (
            prose(message("verdict-lime-contradicts", reading=reading(context))),
            message("verdict-new-sample-both"),
        )
    unfit = judged.reason is Reason.DOUBTFUL_READING and judged.measure_shift is None
    below = require_soil(context).ph.ph_water < _target(context).ph_low
    if unfit and below and holds_free_lime(context):
        told = message(
            "verdict-lime-below", reading=reading(context), wanted=wanted(_target(context))
        )
        return prose(told), message("verdict-new-sample-both")
    if unfit and hardly_a_soil(context):
        read = require_soil(context).ph
        told = message(
            "verdict-hardly-a-soil", method=Given(read.method.value), ph=ph(read.ph_water)
        )
        return prose(told), SETTLED_BY["soil.ph"]
    if unfit:
        return prose(message("verdict-readings-unfit")), message("verdict-new-sample-depth")
    unknown = judged.reason.value if judged.measure != "water.weekly" else "unknown-amount"
    settled = SETTLED_BY.get(judged.measure or "", message("settle-a-test"))
    if judged.measure == "titration" and not buffer_test_tells(context):
        settled = message("settle-jar-titration")
    shift = judged.measure_shift
    return (
        prose(
            message("verdict-doubt", unknown=unknown),
            message(
                "verdict-doubt-chance",
                chance=in_100(judged.measure_probability),
                shift=None if shift is None else shift.value,
            ),
        ),
        settled,
    )


def _unknown_sodium(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    limit = ph(parameter_values("column")["carbonate_plateau_highest_ph"])
    return (
        prose(message("verdict-unknown-sodium", reading=reading(context), limit=limit)),
        SETTLED_BY["soil.sodium_pct"],
    )


def _one_source(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    return (
        prose(message("verdict-one-source", range=range_of(_target(context)))),
        SETTLED_BY["aim.target_ph"],
    )


def _water(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    target, soil = _target(context), require_soil(context)
    day = wanted_day(context)
    change = message("verdict-rainwater-change")
    if not context.water_known:
        change = {
            "water.alkalinity": message("verdict-water-alkalinity-change"),
            "water.weekly": message("verdict-water-weekly-change"),
        }[unknown_of_water(context)]
    if judged.decision is Decision.ELSEWHERE:
        by_water = None if limits_allow(judged) else message("verdict-reach-water")
        told = prose(out_of_reach(context, judged), by_water)
        return told + instead_words(context, judged), change
    rise = ph(judged.water_rise_ph or 0.0)
    if judged.need_mid_g_m2 is None:
        told = prose(
            _soil_good(context, judged, but="water"),
            message(
                "verdict-water-takes",
                expected=ph(judged.ph_alone_on or soil.ph.ph_water),
                day=day,
                rise=rise,
            ),
            message("verdict-water-first"),
        )
        return told, change
    told = prose(
        message(
            "verdict-water-decides",
            rise=rise,
            day=day,
            held=in_100(judged.held or 0.0),
            wanted=wanted(target),
            kind=context.case.bed.kind.value,
        ),
        message("verdict-water-first-then"),
    )
    return told, change


def _soil_good(context: BedContext, judged: Judgement, *, but: str) -> Message:
    """That the soil is right, or nearly, as it was read or as it is believed to stand now.

    Parameters
    ----------
    but
        What is not: ``water`` or ``feed``.
    """
    target, apart = _target(context), _ph_apart(context, judged)
    now = require_soil(context).ph.ph_water if apart is None else apart
    said = {
        "inside": "yes" if target.ph_low <= now <= target.ph_high else "no",
        "wanted": wanted(target),
    }
    if apart is None:
        return message(f"verdict-{but}-soil-good", reading=reading(context), **said)
    return message(f"verdict-{but}-soil-good-now", ph=ph(apart), **said)


def _feed(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    target, soil = _target(context), require_soil(context)
    change = repeat_test(context, judged, plan)
    acid = message("verdict-feed-acid", lime=feed_lime(context))
    gentle = gentle_feed(target)
    if judged.covered_unfed is not None:
        decides = message(
            "verdict-feed-decides",
            covered=in_100(judged.covered or 0.0),
            unfed=in_100(judged.covered_unfed),
            wanted=wanted(target),
            day=wanted_day(context),
            kind=context.case.bed.kind.value,
        )
        return prose(decides, acid, message("verdict-feed-first-then", gentle=gentle)), change
    good = _soil_good(context, judged, but="feed")
    takes = message(
        "verdict-feed-takes",
        expected=ph(judged.ph_alone_on or soil.ph.ph_water),
        day=wanted_day(context),
        fall=ph(judged.feed_fall_ph),
    )
    return prose(good, takes, acid, message("verdict-feed-first", gentle=gentle)), change


def _upkeep(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    acidify = judged.direction is Direction.ACIDIFY
    target = _target(context)
    now = require_soil(context).ph.ph_water if judged.ph_now is None else judged.ph_now
    inside = target.ph_low <= now <= target.ph_high
    if acidify and context.water_base_mmolc_m2_year > 0.0:
        change = message("verdict-rainwater-change")
    elif not acidify and context.case.feed is not None:
        change = message("verdict-upkeep-gentle-feed-change")
    elif inside:
        change = repeat_test(context, judged, plan)
    else:
        change = _change_test(context, judged, plan)
    if judged.in_range > 0.0 and inside:
        told = message(
            "verdict-upkeep-inside",
            wanted=wanted(target),
            expected=ph(judged.ph_alone_on or 0.0),
        )
        return prose(told, feed_cause(context, judged), _start(plan)), change
    pull = message(
        "verdict-upkeep-pull",
        direction=judged.direction.value,
        pull=ph(judged.pull_ph_year or 0.0),
    )
    cause = feed_cause(context, judged)
    return prose(_need(context, judged), pull, cause, _start(plan)), change


def _need(context: BedContext, judged: Judgement) -> Prose:
    apart = _ph_apart(context, judged)
    applied = None if apart is None else moved_since(context, apart)
    way = None if apart is None else way_since(context, apart)
    since = None
    if applied is not None:
        since = "on" if (way == "fall") is (judged.direction is Direction.ACIDIFY) else "undo"
    need = message(
        "verdict-need",
        direction=judged.direction.value,
        reading=reading(context),
        aim=ph(_target(context).ph_aim),
        need=rate(judged.need_mid_g_m2 or 0.0),
        since=since,
    )
    if apart is None:
        return prose(need)
    stands = message(
        "verdict-stands-now", ph=ph(apart), reading=reading(context), applied=applied, way=way
    )
    return prose(need, stands) if since is None else prose(stands, need)


def _several(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    change = _change_test(context, judged, plan)
    if context.planted and not context.in_pot and require_soil(context).k.contributions:
        change = message("verdict-empty-bed-change")
    several = message(
        "verdict-several",
        planted="yes" if context.planted else "no",
        cap=rate(judged.cap_dose_g_m2 or 0.0),
    )
    cause = feed_cause(context, judged)
    return prose(_need(context, judged), several, cause, _start(plan)), change


def _within_reach(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    cause = feed_cause(context, judged)
    return prose(_need(context, judged), cause, _start(plan)), _change_test(context, judged, plan)


_TOLD: Final[Mapping[Reason, Teller]] = {
    **STOPPED,
    Reason.IN_RANGE: _in_range,
    Reason.AT_WORK: _at_work,
    Reason.SMALL_GAIN: _small_gain,
    Reason.UNKNOWN_LIME: _doubt,
    Reason.DOUBTFUL_READING: _doubt,
    Reason.UNKNOWN_WATER: _doubt,
    Reason.UNKNOWN_SODIUM: _unknown_sodium,
    Reason.UNKNOWN_TEXTURE: _doubt,
    Reason.ONE_SOURCE_RANGE: _one_source,
    Reason.FREE_LIME: free_lime,
    Reason.CAPS: caps,
    Reason.WATER: _water,
    Reason.FEED: _feed,
    Reason.UPKEEP: _upkeep,
    Reason.PARTS: _several,
    Reason.MONTHS: _several,
    Reason.WITHIN_REACH: _within_reach,
}
