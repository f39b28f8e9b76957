"""Messages about an amount and the limit it passes: one figure for each, made here alone."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Listed, Message, Product, Prose, choice, message, rate, times
from loamshift.services.context.overdose import RECENT_DAYS, Load
from loamshift.services.materials.caps import Substance

_BY_ACID = "acid"
_BY_WEIGHT = "none"
_SALTS = (Substance.ALUMINIUM_SULFATE, Substance.IRON_SULFATE)
"""Sold as what their limits speak of; of sulfur, lime and nitrogen a bag is never the whole."""


def load_sentence(context: BedContext, load: Load) -> Prose:
    """What was put on, and how many times a limit it is: that of a year before that of a dose."""
    if load.times <= 1.0 and load.times_at_once > 1.0:
        limit_g_m2 = load.limit_at_once_g_m2 or 0.0
        return Prose(
            (
                message(
                    "amount-applied-at-once",
                    rate=rate(load.at_once_g_m2, against=limit_g_m2),
                    products=products(load.at_once_materials),
                    counted=counted_as(load.substance, by_weight=load.is_by_weight),
                ),
                over_limit(
                    "dose",
                    amount_g_m2=load.at_once_g_m2,
                    limit_g_m2=limit_g_m2,
                    ratio=load.times_at_once,
                    ground=load.ground,
                ),
            )
        )
    amount = message(
        f"amount-applied-{_when(context, load)}",
        rate=rate(load.rate_g_m2, against=load.limit_g_m2),
        products=products(load.materials),
        counted=counted_as(load.substance, by_weight=load.is_by_weight),
    )
    if load.times <= 1.0:
        limit = rate(load.limit_g_m2, against=load.rate_g_m2)
        return Prose((amount, message("amount-within-year", limit=limit, on=load.ground)))
    over = over_limit(
        "year",
        amount_g_m2=load.rate_g_m2,
        limit_g_m2=load.limit_g_m2,
        ratio=load.times,
        ground=load.ground,
    )
    return Prose((amount, over))


def over_limit(
    per: str, *, amount_g_m2: float, limit_g_m2: float, ratio: float, ground: str
) -> Message:
    """How many times a published limit an amount is.

    Parameters
    ----------
    amount_g_m2, limit_g_m2
        Both as the limit names the substance [g/m2].
    ratio
        The one through the other [1].
    """
    return message(
        f"amount-over-{per}",
        times=times(ratio),
        limit=rate(limit_g_m2, against=amount_g_m2),
        on=ground,
    )


def counted_as(substance: Substance | None, *, by_weight: bool) -> str:
    """What an amount is counted as, for a choice between wordings.

    Parameters
    ----------
    substance
        What a limit speaks of; None is everything that acidifies, told as sulfur.
    by_weight
        Whether the product counts by its own weight.
    """
    if substance is None:
        return _BY_ACID
    return _BY_WEIGHT if by_weight and substance in _SALTS else choice(substance.value)


def products(keys: Iterable[str]) -> Listed:
    """Materials one after the other, each once."""
    return Listed(tuple(Product(key) for key in dict.fromkeys(keys)))


def _when(context: BedContext, load: Load) -> str:
    if not load.is_old:
        return "recent"
    if (context.case.today - load.last_on).days > RECENT_DAYS:
        return "earlier"
    return "both"
