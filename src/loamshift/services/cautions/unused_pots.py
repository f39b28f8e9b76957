"""Which facts about pots have no influence: all of them where pots are not compared."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import PotsWanted
from loamshift.services.cautions.unused_reasons import AnswerUse, Unused, Why
from loamshift.services.cautions.unused_soil import not_yet
from loamshift.services.pot.asked import NotCompared, not_compared

_KEYS: Final = {"volume_l": "volume", "mix_price_per_l": "mix_price"}
"""Keys of the case file that are called otherwise here."""


def unused_of_pots(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    """Every fact about pots, where they are not compared with the ground."""
    pots = context.case.pot
    if use.has_pots or pots == PotsWanted():
        return
    why = not_compared(context, decision=use.decision, reason=use.reason, forecast=use.has_forecast)
    reason = Why(f"pots-{why or NotCompared.NO_FORECAST}")
    if why is NotCompared.NO_FORECAST and (context.soil is None or context.target is None):
        reason = not_yet(context)
    for part in fields(pots):
        given = getattr(pots, part.name)
        if given is not None and given is not False:
            yield Unused(f"pot.{_KEYS.get(part.name, part.name)}", reason)
