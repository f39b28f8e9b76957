"""What is said where nothing can be judged, or nothing may go on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.domain.answer import Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import (
    Given,
    Listed,
    Message,
    PlantName,
    Prose,
    message,
    percent,
    ph,
    plants,
    prose,
    salt,
)
from loamshift.services.context.acid_come import nearly_all_has_acted
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import dated_readings
from loamshift.services.context.salt_put_on import salt_limit_ds_m, too_much_salt
from loamshift.services.context.salt_words import salt_words
from loamshift.services.verdict.bed_words import Planned, Teller, Told, reading
from loamshift.services.verdict.doubts import holds_free_lime
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.stops import PASTE, overdosed, saturated_ec
from loamshift.tables.model import verdict_values


def _no_ph(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Nobody read a pH, or none that still counts."""
    read = dated_readings(context.case)
    day = read[-1].taken if read else None
    told = message("verdict-no-ph") if day is None else message("verdict-ph-too-old", day=day)
    return prose(told), message("verdict-no-ph-change")


def _no_aim(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Nobody said what the soil is for."""
    return (
        prose(message("verdict-no-aim", reading=reading(context))),
        message("verdict-no-aim-change"),
    )


def _overdose(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Too much was put on."""
    load = overdosed(context)
    told: list[Message | Prose] = [] if load is None else [load_sentence(context, load)]
    change = message("verdict-overdose-change")
    course = _course(context, judged)
    if course is not None:
        told = [*(told or [message("verdict-overdose")]), course]
        change = message("verdict-overdose-change-test")
    return prose(*(told or [message("verdict-overdose-past")])), change


def _course(context: BedContext, judged: Judgement) -> Message | None:
    """Where what lies there takes the pH; None where that is not its way, or a test's error."""
    if context.soil is None or judged.ph_expected is None:
        return None
    now, acid = require_soil(context).ph.ph_water, context.pending_acid_mmolc_m2
    apart = abs(judged.ph_expected - now) >= verdict_values()["leave_gain_ph"]
    if not apart or acid == 0.0 or (judged.ph_expected < now) is not (acid > 0.0):
        return None
    acted = judged.ph_now is not None and nearly_all_has_acted(context)
    return message(
        "verdict-overdose-course",
        acted="yes" if acted else "no",
        ph=ph(now),
        expected=ph(judged.ph_now if acted and judged.ph_now is not None else judged.ph_expected),
    )


def _too_acid(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """The soil is harmful already."""
    limit = ph(verdict_values()["harmful_ph"])
    return (
        prose(message("verdict-too-acid", reading=reading(context), limit=limit)),
        message("verdict-too-acid-change", limit=limit),
    )


def _sodic(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Sodium rules treatment out."""
    sodium = context.case.soil.sodium_pct or 0.0
    limit = verdict_values()["sodic_pct"]
    return (
        prose(message("verdict-sodic", sodium=percent(sodium), limit=percent(limit))),
        message("verdict-sodic-change"),
    )


def _too_salty(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Salt rules treatment out: as tested, or as what was put on lately may bring it."""
    put_on = too_much_salt(context)
    tested = saturated_ec(context)
    if put_on is not None and (tested is None or tested <= put_on.limit_ds_m):
        load = None if put_on.load is None else load_sentence(context, put_on.load)
        return (
            prose(load, salt_words(put_on), _course(context, judged)),
            message("verdict-salt-put-on-change", limit=salt(put_on.limit_ds_m)),
        )
    found, limit = context.case.soil.ec_ds_m or 0.0, salt_limit_ds_m(context)
    told = message(
        "verdict-salt",
        salt=salt(found),
        paste="yes" if context.case.soil.ec_method == PASTE else "no",
        method=Given(str(context.case.soil.ec_method)),
        ece=salt(found if tested is None else tested, against=limit),
        limit=salt(limit, against=tested),
    )
    return prose(told), message("verdict-salt-change")


def _waterlogged(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """Standing water rules treatment out."""
    return prose(message("verdict-waterlogged")), message("verdict-waterlogged-change")


def _no_common_range(context: BedContext, judged: Judgement, plan: Planned) -> Told:
    """The plants share no range."""
    ranges = tuple(
        message(
            "verdict-plant-range",
            plant=PlantName(plant.name),
            range=ph(plant.ph_low, high=plant.ph_high),
        )
        for plant in context.case.aim.plants
    )
    return (
        prose(
            message("verdict-no-common-range", ranges=Listed(ranges)),
            _as_it_is(context),
            message("verdict-plant-apart"),
        ),
        message("verdict-no-common-range-change"),
    )


def _as_it_is(context: BedContext) -> Prose | None:
    """Which of the plants the bed suits as it was read, or that it lies beyond them all."""
    if context.soil is None:
        return None
    now, those = context.soil.ph.ph_water, context.case.aim.plants
    suits = tuple(plant.name for plant in those if plant.ph_low <= now <= plant.ph_high)
    if suits:
        return prose(message("verdict-suits-now", reading=reading(context), suits=plants(suits)))
    above = all(now > plant.ph_high for plant in those)
    if not above and not all(now < plant.ph_low for plant in those):
        return None
    beyond = message(
        "verdict-beyond-all", reading=reading(context), side="above" if above else "below"
    )
    held = above and holds_free_lime(context)
    return prose(beyond, message("verdict-lime-holds") if held else None)


STOPPED: Final[Mapping[Reason, Teller]] = {
    Reason.NO_PH: _no_ph,
    Reason.NO_AIM: _no_aim,
    Reason.OVERDOSE: _overdose,
    Reason.TOO_ACID: _too_acid,
    Reason.SALT: _too_salty,
    Reason.SODIC: _sodic,
    Reason.WATERLOGGED: _waterlogged,
    Reason.NO_COMMON_RANGE: _no_common_range,
}
"""What is said for each reason why nothing can be judged or nothing may go on."""
