"""Products as sold: their strength by the label, and what their active part costs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import OnHand
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import message, percent
from loamshift.domain.worded_error import WordedError
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_within_days

LEAST_SHARE: Final = 0.02
"""Share reacting by a date that a price is still divided by [1]."""
_USUAL_LIME_MAX_FRAC: Final = 1.1
"""Limestones lie below this; a label there prints the neutralising value itself [0-1]."""
_N_LABEL_MAX_PCT: Final = 60.0
"""A figure up to this on a feed is its nitrogen [%]."""


def as_sold(material: Material, *, purity_pct: float | None) -> Material:
    """A material with the strength its label states.

    Parameters
    ----------
    purity_pct
        What the label says: sulfur in a sulfur product, neutralising value of a limestone or ash,
        nitrogen of a feed, else purity; None for the usual one, above 0 to 100 [%].

    Raises
    ------
    WordedError
        Where the figure is no percentage.

    Notes
    -----
    A burnt or hydrated lime has more value than its weight: there the label's purity is that of
    the compound. A feed figure above 60 % is a purity, below it the nitrogen.

    References
    ----------
    common-practice
    """
    if purity_pct is None:
        return material
    if not 0.0 < purity_pct <= 100.0:
        wrong = message("products-purity-outside", given=percent(purity_pct))
        raise WordedError(wrong)
    frac = purity_pct / 100.0
    if material.group is MaterialGroup.SULFUR:
        return replace(material, elemental_s_frac=frac)
    limy = material.group in (MaterialGroup.LIME, MaterialGroup.ASH)
    if limy and material.caco3_eq_frac <= _USUAL_LIME_MAX_FRAC:
        return replace(material, caco3_eq_frac=frac)
    if material.group is MaterialGroup.NITROGEN and purity_pct <= _N_LABEL_MAX_PCT:
        frac = frac / material.n_frac
    return replace(
        material,
        elemental_s_frac=frac * material.elemental_s_frac,
        fast_acid_molc_kg=frac * material.fast_acid_molc_kg,
        n_as_nh4_frac=frac * material.n_as_nh4_frac,
        n_as_urea_frac=frac * material.n_as_urea_frac,
        n_as_no3_frac=frac * material.n_as_no3_frac,
        n_organic_frac=frac * material.n_organic_frac,
        caco3_eq_frac=frac * material.caco3_eq_frac,
        salt_molc_kg=frac * material.salt_molc_kg,
    )


def reacting_share_by(context: BedContext, material: Material, *, start: date, by: date) -> float:
    """Share of a material's lasting acid or base that has come by a date.

    Parameters
    ----------
    by
        Day asked about; not after the start means nothing has come.

    Returns
    -------
    float
        Share, 0 where nothing in it acts [0-1].

    References
    ----------
    watkinson-blair-1993, huang-2007, own-judgement
    """
    total = acid_brought_mmolc_m2(
        material, rate_g_m2=1.0, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    days = max((by - start).days, 0)
    if total == 0.0 or days == 0:
        return 0.0
    come = acid_within_days(
        material,
        rate_g_m2=1.0,
        soil_temp_c=context.soil_temp_c,
        start=start,
        days=days,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
        incorporated=not context.planted,
    )
    return min(max(come / total, 0.0), 1.0)


def cost_per_kg_s(item: OnHand) -> float | None:
    """Price of a kilogram of actual sulfur in a sulfur product.

    Returns
    -------
    float or None
        Price, in the currency of the pack; None where it holds no elemental sulfur or has no
        price [currency/kg S].

    References
    ----------
    own-arithmetic
    """
    price = price_per_g(item)
    share = as_sold(item.material, purity_pct=item.purity_pct).elemental_s_frac
    return None if price is None or share <= 0.0 else 1000.0 * price / share


def reactive_cost_per_kg_s(
    item: OnHand, *, context: BedContext, start: date, by: date
) -> float | None:
    """Price of a kilogram of sulfur that has turned to acid by a date.

    Answers which of two bags is really the cheaper: coarse sulfur may cost less by the kilogram
    and more by what acts in time.

    Returns
    -------
    float or None
        Price; None without a price, without sulfur, or where next to nothing acts by then
        [currency/kg S].

    Notes
    -----
    Price per kilogram of actual sulfur over the share that has reacted; below 2 % none is given.

    References
    ----------
    own-arithmetic, watkinson-blair-1993
    """
    whole = cost_per_kg_s(item)
    share = reacting_share_by(context, item.material, start=start, by=by)
    return None if whole is None or share < LEAST_SHARE else whole / share


def price_per_g(item: OnHand) -> float | None:
    """Price of one gram of a product.

    Returns
    -------
    float or None
        Price; None where pack or price is not known [currency/g].
    """
    if item.price is None or item.pack_g is None or item.pack_g <= 0.0:
        return None
    return item.price / item.pack_g
