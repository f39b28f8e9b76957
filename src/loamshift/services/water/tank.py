"""Acid for one tank of water: how much of which, in what order, and how to check it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from loamshift.domain.answer import Band
from loamshift.domain.water import AcidDose, TankFill, WaterTreatment
from loamshift.errors import InputError, OutOfRangeError

_DOSED_L: Final = 100.0
"""Water that the doses of a treatment are for [L]."""
_INJECTOR_PARTS: Final = 100.0
"""Water to one part of stock in the injector that the stock is given for."""
_LARGEST_TANK_L: Final = 1_000_000.0
_NEVER: Final = (
    "Water into acid: it boils up and spatters.",
    "Acid near bleach, pool chlorine or line chlorine: chlorine gas.",
    "Acid in galvanised, copper or brass vessels and fittings.",
    "Acid and feed in one stock: salts drop out, and nobody knows the dose any more.",
)


def fill_tank(
    treatment: WaterTreatment, *, tank_l: float = _DOSED_L, acid: str | None = None
) -> TankFill:
    """The acid of a treatment for one tank, with the steps of mixing it.

    Answers how to do it safely by hand, and what a stock for an injector holds; which acid is
    fit for the feed and the plants is left to the adviser.

    Parameters
    ----------
    treatment
        The water with the acid it takes [object].
    tank_l
        Size of the tank, above 0 [L].
    acid
        Which acid, by enough of its name to tell it; None leaves the choice open [text].

    Returns
    -------
    TankFill
        Amounts per tank, stock and steps; no dose where the water needs no acid [object].

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
            f"tank of {tank_l:g} L: give what it holds, above 0 and at most {_LARGEST_TANK_L:,.0f}"
        )
    chosen = None if acid is None or not treatment.products else _called(acid, treatment.products)
    doses = treatment.products if chosen is None else (chosen,)
    if acid is not None and not treatment.products:
        doses = ()
    in_tank = tuple(replace(dose, amount=_times(dose.amount, tank_l / _DOSED_L)) for dose in doses)
    return TankFill(
        tank_l=tank_l,
        doses=in_tank,
        chosen=None if chosen is None else in_tank[0],
        injector_parts=_INJECTOR_PARTS,
        stock_per_l=None if chosen is None else chosen.amount,
        steps=_steps(chosen) if doses else (),
        check=_check(treatment) if doses else (),
        never=_NEVER if doses else (),
    )


def _steps(chosen: AcidDose | None) -> tuple[str, ...]:
    measure = "Weigh" if chosen is not None and chosen.unit == "g" else "Measure"
    into = "Stir the crystals into the tank" if measure == "Weigh" else "Pour the acid slowly into"
    pour = (
        f"{into} little by little until they are gone."
        if measure == "Weigh"
        else f"{into} the water, stirring all the time: acid into water, never water into acid."
    )
    return (
        "Put on goggles, acid-proof gloves and an apron; stand upwind, clean water to rinse with "
        "in reach.",
        "Fill the tank nearly to the {tank} mark with the water itself.",
        measure + " {amount} of {acid} in plastic or glass that is kept for acid alone.",
        pour,
        "Fill up to {tank} and stir again; close the acid before anything else is done.",
    )


def _check(treatment: WaterTreatment) -> tuple[str, ...]:
    lines = [
        "Dip an alkalinity (KH) strip, or drop by drop with an aquarium test: it should read about "
        "{left} (a degree of KH is 18 of them). Far above, something was measured wrong: do not "
        "just add more, work it out again. Far below, thin with untreated water before it goes on "
        "a plant.",
    ]
    if treatment.ph_after is not None:
        lines.append(
            "Read the pH at once, before carbon dioxide escapes: {ph}. It climbs by itself later, "
            "and that is no reason to add acid."
        )
    return tuple(lines)


def _called(acid: str, products: tuple[AcidDose, ...]) -> AcidDose:
    asked = _plain(acid)
    found = [dose for dose in products if asked and asked in _plain(dose.product)]
    exact = [dose for dose in found if _plain(dose.product) == asked]
    if len(exact or found) == 1:
        return (exact or found)[0]
    names = "; ".join(dose.product for dose in (found or products))
    if found:
        raise InputError(f"acid {acid!r} may be any of these; say which: {names}")
    raise InputError(f"acid {acid!r} is none that is worked out here; name one of these: {names}")


def _plain(name: str) -> str:
    """A name without what people write differently: case, marks, ph for f, the word acid."""
    text = name.casefold().replace("sulph", "sulf").replace("acid", "")
    return re.sub(r"[^a-z0-9]", "", text)


def _times(band: Band, factor: float) -> Band:
    return Band(lo90=band.lo90 * factor, mid=band.mid * factor, hi90=band.hi90 * factor)
