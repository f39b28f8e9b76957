"""What an adviser says about holding a pH."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Message, Prose, message, number, ph, prose, rate
from loamshift.tables.parameters import parameter_values
from loamshift.units import (
    lime_as_caco3_g_m2_from_acid_mmolc_m2,
    sulfur_as_s_g_m2_from_acid_mmolc_m2,
)

_TOLD_PH: Final = 0.02
"""What comes once is told from as much as this on [pH]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Figures of the upkeep that its comment draws on; acid positive [mmolc/m2/yr].

    ``alone_mmolc_m2`` the ledger without feed and earlier sulfur; ``net_mmolc_m2`` with the feed
    chosen; ``most_sulfur_mmolc_m2`` acid of the yearly sulfur limit; ``per_ph_mmolc_m2`` acid of
    one pH unit [mmolc/m2].
    """

    aim_ph: float
    alone_mmolc_m2: float
    net_mmolc_m2: float
    most_sulfur_mmolc_m2: float
    feed_acid_mmolc_m2: float
    present_feed_mmolc_m2: float
    tail_mmolc_m2: float
    nitrogen_known: bool
    nitrogen_told: bool
    limes: bool
    falls: bool
    rises: bool
    treats_water: bool
    lime_mmolc_m2: float
    humus_mmolc_m2: float
    has_urea: bool
    per_ph_mmolc_m2: float


def comment(context: BedContext, held: Held) -> Prose:
    """The sentences that stand under the upkeep."""
    return prose(
        _water(context, held),
        _nitrogen(held),
        _urea(context, held),
        _lime(context, held),
        _present_feed(context, held),
        _tail(held),
        _dissolving(held),
        _rotting(context, held),
    )


def _water(context: BedContext, held: Held) -> Prose | Message | None:
    water = context.water_base_mmolc_m2_year
    if water <= 0.0:
        return None
    if held.treats_water:
        return message("upkeep-water-treated")
    guessed = None if context.water_known else message("upkeep-water-guessed")
    over = -held.net_mmolc_m2 - held.most_sulfur_mmolc_m2
    if over > 0.0:
        rise = over / held.per_ph_mmolc_m2
        wins = message(
            "upkeep-water-wins",
            lime=rate(lime_as_caco3_g_m2_from_acid_mmolc_m2(water)),
            most=rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(held.most_sulfur_mmolc_m2)),
            rise=number(round(rise, 1 if rise >= 0.095 else 2)),
            fed="yes" if held.feed_acid_mmolc_m2 > 0.0 else "no",
        )
        return prose(wins, guessed)
    return guessed if water > 0.25 * held.most_sulfur_mmolc_m2 else None


def _nitrogen(held: Held) -> Message | None:
    if not held.nitrogen_known:
        return message("upkeep-nitrogen-unknown")
    if held.nitrogen_told:
        return None
    advice = parameter_values("advice")
    return message(
        "upkeep-nitrogen-of-trial",
        nitrogen=rate(advice["blueberry_n_low_g_m2"], high=advice["blueberry_n_high_g_m2"]),
    )


def _urea(context: BedContext, held: Held) -> Prose | None:
    soil = context.soil
    limit_ph = parameter_values("advice")["urea_below_ph"]
    if not held.has_urea or held.aim_ph >= limit_ph or soil is None:
        return None
    above = soil.ph.ph_water > limit_ph
    return prose(
        message("upkeep-urea", limit=ph(limit_ph)),
        message("upkeep-urea-until-then", limit=ph(limit_ph)) if above else None,
    )


def _lime(context: BedContext, held: Held) -> Message | None:
    target = context.target
    if target is None:
        return None
    if held.falls:
        return message("upkeep-falls", ph=ph(target.ph_low))
    if held.rises:
        return message("upkeep-rises", ph=ph(target.ph_high))
    if held.limes and target.calcifuge:
        return message("upkeep-lime-by-test", ph=ph(target.ph_low))
    return None


def _present_feed(context: BedContext, held: Held) -> Message | None:
    feed = context.case.feed
    target = context.target
    if feed is None or target is None:
        return None
    nitrate = feed.form == "nitrate" or (
        feed.material is not None and feed.material.n_as_no3_frac > 0.5 * feed.material.n_frac > 0.0
    )
    if nitrate and target.calcifuge:
        return message("upkeep-nitrate")
    if feed.material is not None and held.present_feed_mmolc_m2 == 0.0:
        return message("upkeep-feed-neutral")
    return None


def _tail(held: Held) -> Message | None:
    if held.tail_mmolc_m2 < _TOLD_PH * held.per_ph_mmolc_m2:
        return None
    worth = sulfur_as_s_g_m2_from_acid_mmolc_m2(held.tail_mmolc_m2)
    return message("upkeep-tail", sulfur=rate(worth))


def _dissolving(held: Held) -> Message | None:
    if held.lime_mmolc_m2 < _TOLD_PH * held.per_ph_mmolc_m2:
        return None
    worth = lime_as_caco3_g_m2_from_acid_mmolc_m2(held.lime_mmolc_m2)
    return message("upkeep-free-lime", lime=rate(worth))


def _rotting(context: BedContext, held: Held) -> Message | None:
    """That humus rots and makes acid, where that weighs."""
    if held.humus_mmolc_m2 < _TOLD_PH * held.per_ph_mmolc_m2:
        return None
    before = context.case.bed.before
    return message(
        "upkeep-humus",
        before=("bare" if context.is_bare else "unknown") if before is None else before.value,
        sulfur=rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(held.humus_mmolc_m2)),
    )
