"""Sentences about an amount and the limit it passes: one figure for each, made here alone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.services.context.overdose import RECENT_DAYS, Load
from loamshift.services.format import format_rate, format_times_limit
from loamshift.services.materials.caps import GROUND_WORDS, Substance

COUNTED_AS: Final = {
    Substance.SULFUR: "counted as pure sulfur",
    Substance.ALUMINIUM_SULFATE: "counted as aluminium sulfate with 18 water",
    Substance.IRON_SULFATE: "counted as iron sulfate with 7 water",
    Substance.LIMESTONE: "counted as pure lime",
    Substance.NITROGEN: "of nitrogen",
}
"""What an amount is told as where the product weighs something else."""
_BY_ACID: Final = "counted as sulfur by its acid"


def load_sentence(context: BedContext, load: Load) -> str:
    """What was put on, and how many times a limit it is: that of a year before that of a dose.

    Parameters
    ----------
    context
        The bed as understood [object].
    load
        What was put on of one substance, or of all that acidifies [object].

    Returns
    -------
    str
        One sentence; its ratio is ``load.times`` wherever the yearly limit is passed [text].
    """
    units = context.case.units
    names = short_names(load.materials)
    verb = "are" if " and " in names else "is"
    ground = GROUND_WORDS[load.ground]
    if load.times <= 1.0 and load.times_at_once > 1.0:
        limit = load.limit_at_once_g_m2 or 0.0
        return (
            f"The {names} applied at one time or too soon after one another, "
            f"{counted(context, load, load.at_once_g_m2)}, {verb} "
            f"{format_times_limit(load.times_at_once)} the published limit for one application on "
            f"{ground}, {format_rate(limit, units)}."
        )
    amount = counted(context, load, load.rate_g_m2, in_all=load.applications > 1)
    subject = f"The {names} {_when(context, load)}, {amount},"
    limit_text = f"the published yearly limit for {ground}, {format_rate(load.limit_g_m2, units)}"
    if load.times <= 1.0:
        return f"{subject} {verb} within {limit_text}."
    return f"{subject} {verb} {format_times_limit(load.times)} {limit_text}."


def counted(context: BedContext, load: Load, rate_g_m2: float, *, in_all: bool = False) -> str:
    """An amount with what it is counted as.

    Parameters
    ----------
    context
        The bed as understood [object].
    load
        What was put on [object].
    rate_g_m2
        The amount, as the limit names the substance [g/m2].
    in_all
        True where it is the sum of several applications [truth].

    Returns
    -------
    str
        Such as ``1.1 kg/m² in all counted as pure lime`` [text].
    """
    rate = format_rate(rate_g_m2, context.case.units) + (" in all" if in_all else "")
    if load.substance is None:
        return f"{rate} {_BY_ACID}"
    return rate if load.is_by_weight else f"{rate} {COUNTED_AS[load.substance]}"


def short_names(keys: Iterable[str]) -> str:
    """Materials by their names without form and fineness, each once.

    Parameters
    ----------
    keys
        Keys of materials; the form follows a comma [text].

    Returns
    -------
    str
        Such as ``elemental sulfur and aluminium sulfate`` [text].
    """
    *others, last = dict.fromkeys(key.split(",", 1)[0] for key in keys)
    return f"{', '.join(others)} and {last}" if others else last


def _when(context: BedContext, load: Load) -> str:
    if not load.is_old:
        return "applied within a year"
    if (context.case.today - load.last_on).days > RECENT_DAYS:
        return "applied earlier and not yet reacted"
    return "applied within a year or not yet reacted"
