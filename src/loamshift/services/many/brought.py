"""A plan that a row brings with it: how far it goes beyond printed limits, and what it warns of."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.services.materials.caps import ProductCap, product_cap
from loamshift.services.materials.named import material_named

_YEAR: Final = timedelta(days=365)

_PutOn = tuple[date, float, ProductCap]


def limit_times(context: BedContext, plan: Sequence[Application]) -> float | None:
    """The most that a plan comes to of any printed limit of the bed.

    Returns
    -------
    float or None
        Above 1 where one is passed; None where no printed limit speaks of anything in it [1].

    Notes
    -----
    Amounts of one substance add up, those already put on with them: over a year, and over the
    wait between two doses. Limits as in :func:`loamshift.services.materials.caps.product_cap`.
    """
    case = context.case
    before = [_put_on(context, one.material, one.rate_g_m2, one.on) for one in case.applied]
    own = [
        _put_on(
            context,
            material_named(one.material, own=case.own_materials),
            one.rate_g_m2,
            one.date,
        )
        for one in plan
    ]
    known = [one for one in (*before, *own) if one is not None]
    shares: list[float] = []
    for one in own:
        if one is None:
            continue
        on, _, cap = one
        shares.append(_within(known, on, cap, _YEAR) / cap.year_printed_g_m2)
        if cap.dose_printed_g_m2 is not None:
            wait = timedelta(days=max(cap.wait_days, 1.0))
            shares.append(_within(known, on, cap, wait) / cap.dose_printed_g_m2)
    return max(shares, default=None)


def _put_on(context: BedContext, material: Material, rate_g_m2: float, on: date) -> _PutOn | None:
    cap = product_cap(material, cap_situation=context.cap_situation)
    return None if cap is None else (on, rate_g_m2 * cap.per_product, cap)


def _within(known: Sequence[_PutOn], on: date, cap: ProductCap, time: timedelta) -> float:
    """The substance put on within a time up to a day [g/m2]."""
    return sum(
        amount
        for day, amount, other in known
        if on - time < day <= on and other.applies_to is cap.applies_to
    )
