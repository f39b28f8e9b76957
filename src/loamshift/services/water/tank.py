"""Acid for one tank of water: how much of which, in what order, and how to check it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from loamshift.domain.answer import Band
from loamshift.domain.message import Measure, Message, Quantity, alkalinity, message, ph
from loamshift.domain.water import AcidDose, TankFill, WaterTreatment
from loamshift.errors import InputError, OutOfRangeError

_DOSED_L: Final = 100.0
"""Water that the doses of a treatment are for [L]."""
_INJECTOR_PARTS: Final = 100.0
"""Water to one part of stock in the injector that the stock is given for."""
_LARGEST_TANK_L: Final = 1_000_000.0
_NEVER: Final = (
    message("water-never-water-into-acid"),
    message("water-never-chlorine"),
    message("water-never-metal"),
    message("water-never-one-stock"),
)


def fill_tank(
    treatment: WaterTreatment, *, tank_l: float = _DOSED_L, acid: str | None = None
) -> TankFill:
    """The acid of a treatment for one tank, with the steps of mixing it.

    Answers how to do it safely by hand, and what a stock for an injector holds; which acid is
    fit for the feed and the plants is left to the adviser.

    Parameters
    ----------
    tank_l
        Size of the tank, above 0 [L].
    acid
        Which acid, by enough of its name to tell it; None leaves the choice open.

    Returns
    -------
    TankFill
        Amounts per tank, stock and steps; no dose where the water needs no acid.

    Raises
    ------
    InputError
        Where no acid or more than one goes by that name.
    OutOfRangeError
        Where the tank has no sensible size.

    Notes
    -----
    Amounts are those per 100 L in proportion. An injector of one part in a hundred puts a litre
    of stock into 100 L, so a litre of stock holds the amount per 100 L.

    References
    ----------
    own-arithmetic, common-practice
    """
    if not 0.0 < tank_l <= _LARGEST_TANK_L:
        raise OutOfRangeError(
            f"a tank of {tank_l:g} L: it must hold more than 0 L and at most "
            f"{_LARGEST_TANK_L:,.0f} L. For example: 200 L"
        )
    chosen = None if acid is None or not treatment.products else _called(acid, treatment.products)
    doses = treatment.products if chosen is None else (chosen,)
    if acid is not None and not treatment.products:
        doses = ()
    in_tank = tuple(replace(dose, amount=_times(dose.amount, tank_l / _DOSED_L)) for dose in doses)
    dose_chosen = None if chosen is None else in_tank[0]
    return TankFill(
        tank_l=tank_l,
        doses=in_tank,
        chosen=dose_chosen,
        injector_parts=_INJECTOR_PARTS,
        stock_per_l=None if chosen is None else chosen.amount,
        steps=_steps(dose_chosen, Measure(Quantity.VOLUME, tank_l)) if doses else (),
        check=_check(treatment) if doses else (),
        never=_NEVER if doses else (),
    )


def _steps(dose: AcidDose | None, tank: Measure) -> tuple[Message, ...]:
    acid, much = (None, None) if dose is None else (dose.called, dose.said)
    dry = dose is not None and dose.unit == "g"
    return (
        message("water-step-protect"),
        message("water-step-fill", tank=tank),
        message("water-step-weigh", dose=much, acid=acid)
        if dry
        else message("water-step-measure", dose=much, acid=acid),
        message("water-step-stir-in") if dry else message("water-step-pour"),
        message("water-step-fill-up", tank=tank),
    )


def _check(treatment: WaterTreatment) -> tuple[Message, ...]:
    left = message(
        "water-check-alkalinity", left=alkalinity(treatment.alkalinity_left_mg_l_as_caco3.mid)
    )
    after = treatment.ph_after
    if after is None:
        return (left,)
    return left, message("water-check-ph", ph=ph(after.lo90, high=after.hi90))


def _called(acid: str, products: tuple[AcidDose, ...]) -> AcidDose:
    asked = _plain(acid)
    found = [dose for dose in products if asked and asked in _plain(dose.product)]
    exact = [dose for dose in found if _plain(dose.product) == asked]
    if len(exact or found) == 1:
        return (exact or found)[0]
    names = "; ".join(dose.product for dose in (found or products))
    if found:
        raise InputError(f"acid “{acid}” could be any of these; say which: {names}")
    raise InputError(f"no acid called “{acid}”. Choose one of these: {names}")


def _plain(name: str) -> str:
    """A name without what people write differently: case, marks, ph for f, the word acid."""
    text = name.casefold().replace("sulph", "sulf").replace("acid", "")
    return re.sub(r"[^a-z0-9]", "", text)


def _times(band: Band, factor: float) -> Band:
    return Band(lo90=band.lo90 * factor, mid=band.mid * factor, hi90=band.hi90 * factor)
