"""The acid of the yearly feed."""

from __future__ import annotations

from loamshift.core.ledger import feed_acid_mmolc_m2
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Feed
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.tables.model import ledger_parameters


def present_feed_acid_mmolc_m2(
    feed: Feed | None, *, in_pot: bool, land_use: str = "unknown"
) -> float:
    """Acid a year of the feed as it is given now.

    Parameters
    ----------
    feed
        The feed of the case, or None.

    Returns
    -------
    float
        Acid; negative for nitrate alone [mmolc/m2/yr].

    References
    ----------
    woburn-barley-2022, own-arithmetic
    """
    if feed is None:
        return 0.0
    if feed.material is not None:
        rate = (feed.rate_g_m2 or 0.0) * feed.times
        return acid_brought_mmolc_m2(
            feed.material, rate_g_m2=rate, in_pot=in_pot, land_use=land_use
        )
    nitrogen = feed.n_g_m2_year or 0.0
    form = feed.form or ""
    half = 0.5 if form == "ammonium nitrate" else 1.0
    return feed_acid_mmolc_m2(
        n_as_nh4_g_m2=half * nitrogen if form.startswith("ammonium") else 0.0,
        n_as_urea_g_m2=nitrogen if form == "urea" else 0.0,
        n_as_no3_g_m2=half * nitrogen if form.endswith("nitrate") else 0.0,
        params=ledger_parameters(),
        in_pot=in_pot,
        land_use=land_use,
    )


def feed_acid_of(context: BedContext) -> float:
    """Acid a year of the feed that a bed gets now.

    Returns
    -------
    float
        Acid; negative for nitrate alone, 0 without a feed [mmolc/m2/yr].
    """
    return present_feed_acid_mmolc_m2(
        context.case.feed, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
