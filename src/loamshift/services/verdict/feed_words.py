"""What a verdict says of the feed: the acid it makes, and what to give instead."""

from __future__ import annotations

from loamshift.domain.answer import Direction
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.message import Measure, Message, message, rate
from loamshift.services.materials.feed import feed_acid_of
from loamshift.services.verdict.bed_words import target_of_bed
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import feed_weighs_most
from loamshift.units import lime_as_caco3_g_m2_from_acid_mmolc_m2


def feed_lime(context: BedContext) -> Measure:
    """What the acid of the feed uses up in a year, as pure lime."""
    return rate(lime_as_caco3_g_m2_from_acid_mmolc_m2(feed_acid_of(context)))


def gentle_feed(target: Target) -> str:
    """The kind of nitrogen to give instead: plants that hate lime take nitrate poorly."""
    return "urea" if target.calcifuge else "nitrate"


def feed_cause(context: BedContext, judged: Judgement) -> Message | None:
    """That the feed is the cause, where a bed is limed and its acid weighs most."""
    target = target_of_bed(context)
    if judged.direction is not Direction.LIME or not feed_weighs_most(context, target.ph_aim):
        return None
    return message("verdict-feed-cause", lime=feed_lime(context), gentle=gentle_feed(target))
