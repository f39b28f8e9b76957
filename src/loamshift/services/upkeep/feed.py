"""The nitrogen a bed is to get in a year, and the feed that brings it and moves the pH least."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass
from typing import Final

from loamshift.core.feed import choose_feed
from loamshift.domain.answer import FeedLine
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import parameter_values

AMMONIUM_SULFATE: Final = "ammonium sulfate"
FEEDS: Final = (AMMONIUM_SULFATE, "urea", "calcium nitrate")
"""Feeds to choose from, the most usual first."""
WITH_BASE: Final = ("calcium nitrate",)
"""Not for plants that hate lime, nor for a bed that is being brought down."""
WITH_MUCH_ACID: Final = (AMMONIUM_SULFATE,)
"""Not for a very acid bed, nor for one that is being brought up."""
DEFAULT_NITROGEN_PLANT: Final = "highbush blueberry"


@dataclass(frozen=True, slots=True)
class NitrogenWanted:
    """Nitrogen to give in a year, and whether somebody named it [g N/m2]."""

    least: float
    most: float
    told: bool


def nitrogen_wanted(context: BedContext) -> NitrogenWanted | None:
    """How much nitrogen a bed is to get in a year [g N/m2/yr].

    By the feed of the case, or by a trial with its plant; None where neither says.
    """
    feed = context.case.feed
    if feed is not None and feed.n_g_m2_year is not None:
        return NitrogenWanted(feed.n_g_m2_year, feed.n_g_m2_year, told=True)
    if feed is not None and feed.material is not None and feed.material.n_frac > 0.0:
        given = (feed.rate_g_m2 or 0.0) * feed.times * feed.material.n_frac
        return NitrogenWanted(given, given, told=True)
    if any(plant.key == DEFAULT_NITROGEN_PLANT for plant in context.case.aim.plants):
        advice = parameter_values("advice")
        return NitrogenWanted(
            advice["blueberry_n_low_g_m2"], advice["blueberry_n_high_g_m2"], told=False
        )
    return None


def chosen_feed(
    context: BedContext,
    nitrogen: NitrogenWanted | None,
    *,
    other_mmolc_m2: float,
    left_out: Set[str],
) -> tuple[FeedLine, ...]:
    """The feed that brings the nitrogen and leaves the ledger nearest to even.

    Parameters
    ----------
    other_mmolc_m2
        Acid a year of everything but the feed [mmolc/m2/yr].
    left_out
        Feeds that are not to be given.
    """
    if nitrogen is None or nitrogen.most <= 0.0:
        return ()
    feeds: list[Material] = [load_materials()[name] for name in FEEDS]
    per_g_n = [
        acid_brought_mmolc_m2(
            feed, rate_g_m2=1.0 / feed.n_frac, in_pot=context.in_pot, land_use=context.nitrogen_use
        )
        for feed in feeds
    ]
    choice = choose_feed(
        per_g_n,
        nitrogen_g_m2_year=nitrogen.least,
        nitrogen_high_g_m2_year=nitrogen.most,
        other_acid_mmolc_m2_year=other_mmolc_m2,
        wanted_acid_mmolc_m2_year=0.0,
        max_share_frac=[0.0 if name in left_out else 1.0 for name in FEEDS],
    )
    # The solver is exact to nine digits; a feed is weighed to three.
    nitrogen_g_m2 = [round(float(grams), 4) for grams in choice.nitrogen_g_m2_year]
    return tuple(
        FeedLine(
            material=feed.key,
            n_g_m2_year=grams,
            rate_g_m2_year=grams / feed.n_frac,
            acid_mmolc_m2_year=grams * acid,
        )
        for feed, grams, acid in zip(feeds, nitrogen_g_m2, per_g_n, strict=True)
        if grams > 0.0
    )
