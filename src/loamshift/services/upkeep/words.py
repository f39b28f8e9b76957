"""What an adviser says about holding a pH."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.bed_context import BedContext
from loamshift.services.format import format_rate, format_rates
from loamshift.tables.parameters import parameter_values
from loamshift.units import (
    lime_as_caco3_g_m2_from_acid_mmolc_m2,
    sulfur_as_s_g_m2_from_acid_mmolc_m2,
)


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
    has_urea: bool
    per_ph_mmolc_m2: float


def comment(context: BedContext, held: Held) -> str:
    """The sentences that stand under the upkeep.

    Parameters
    ----------
    context
        The bed as understood [object].
    held
        Figures of the upkeep [object].

    Returns
    -------
    str
        Some sentences, or nothing [text].
    """
    sentences = [
        _water(context, held),
        _nitrogen(context, held),
        _urea(context, held),
        _lime(context, held),
        _present_feed(context, held),
        _tail(context, held),
        _dissolving(context, held),
    ]
    return " ".join(sentence for sentence in sentences if sentence)


def _water(context: BedContext, held: Held) -> str:
    water = context.water_base_mmolc_m2_year
    if water <= 0.0:
        return ""
    if held.treats_water:
        return "With the water treated, a yearly test is enough to hold the pH."
    assumed = "" if context.water_known else " (its alkalinity had to be guessed)"
    over = -held.net_mmolc_m2 - held.most_sulfur_mmolc_m2
    if over > 0.0:
        units = context.case.units
        lime = format_rate(lime_as_caco3_g_m2_from_acid_mmolc_m2(water), units)
        most = format_rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(held.most_sulfur_mmolc_m2), units)
        drift = over / held.per_ph_mmolc_m2
        climbs = f"{drift:.1f}" if drift >= 0.095 else f"{drift:.2f}"
        feed = "the feed and " if held.feed_acid_mmolc_m2 > 0.0 else ""
        return (
            f"The water wins{assumed}: it brings as much as {lime} of lime a year, more than "
            f"{feed}the yearly limit of {most} of sulfur can undo, and the pH climbs by {climbs} "
            "a year all the same. Use rain water, or have the water acidified."
        )
    if assumed and water > 0.25 * held.most_sulfur_mmolc_m2:
        return "The alkalinity of the water had to be guessed: have it tested before going by this."
    return ""


def _nitrogen(context: BedContext, held: Held) -> str:
    if not held.nitrogen_known:
        return (
            "How much nitrogen the plants need is not known; give feed.n_g_m2_year and the feed "
            "can be chosen to help hold the pH."
        )
    if not held.nitrogen_told:
        advice = parameter_values("advice")
        band = format_rates(
            low_g_m2=advice["blueberry_n_low_g_m2"],
            high_g_m2=advice["blueberry_n_high_g_m2"],
            units=context.case.units,
        )
        return (
            f"The nitrogen is that of the lowest band of a trial with highbush blueberries, {band} "
            "a year; give feed.n_g_m2_year if yours need more or less."
        )
    return ""


def _urea(context: BedContext, held: Held) -> str:
    soil = context.soil
    limit = parameter_values("advice")["urea_below_ph"]
    if not held.has_urea or held.aim_ph >= limit or soil is None:
        return ""
    text = f"Below pH {limit:g} urea takes the place of ammonium sulfate"
    if soil.ph.ph_water > limit:
        return (
            f"{text}; while the soil still reads above it, ammonium sulfate brings twice the acid "
            "for the same nitrogen."
        )
    return f"{text}."


def _lime(context: BedContext, held: Held) -> str:
    target = context.target
    if held.falls and target is not None:
        return (
            "Left alone the pH goes on falling slowly, so test once a year. Give no lime unless a "
            f"test reads below pH {target.ph_low:.1f}."
        )
    if held.rises and target is not None:
        return (
            "Left alone the pH goes on rising, so test once a year. Give no acid or sulfur unless "
            f"a test reads above pH {target.ph_high:.1f}."
        )
    if not held.limes or target is None or not target.calcifuge:
        return ""
    return (
        "These plants hate lime: give the limestone only once a test reads below pH "
        f"{target.ph_low:.1f}, and till then none."
    )


def _present_feed(context: BedContext, held: Held) -> str:
    feed = context.case.feed
    target = context.target
    if feed is None or target is None:
        return ""
    nitrate = feed.form == "nitrate" or (
        feed.material is not None and feed.material.n_as_no3_frac > 0.5 * feed.material.n_frac > 0.0
    )
    if nitrate and target.calcifuge:
        return (
            "The nitrate feed given now raises the pH, and lime-hating plants take nitrate up "
            "poorly."
        )
    if feed.material is not None and held.present_feed_mmolc_m2 == 0.0:
        return "The feed given now does nothing to the pH."
    return ""


def _tail(context: BedContext, held: Held) -> str:
    if held.tail_mmolc_m2 < 0.02 * held.per_ph_mmolc_m2:
        return ""
    worth = format_rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(held.tail_mmolc_m2), context.case.units)
    return (
        f"Sulfur put on earlier still turns to acid, {worth} in the coming year; it stands in the "
        "ledger but not in what holds the pH, for it comes once."
    )


def _dissolving(context: BedContext, held: Held) -> str:
    if held.lime_mmolc_m2 < 0.02 * held.per_ph_mmolc_m2:
        return ""
    worth = format_rate(
        lime_as_caco3_g_m2_from_acid_mmolc_m2(held.lime_mmolc_m2), context.case.units
    )
    return (
        f"Free lime in this soil still dissolves, {worth} in the coming year; it stands in the "
        "ledger but not in what holds the pH, for it comes once."
    )
