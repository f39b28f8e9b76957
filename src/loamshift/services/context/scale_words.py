"""What was doubted and what was left out of the belief about a soil's resistance, as messages."""

from __future__ import annotations

from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Quantity,
    message,
    number,
    ph,
    times,
)
from loamshift.domain.soil import ScaleMeasurement, UnusedFact


def scale_unused(fact: UnusedFact) -> Message:
    """Why a fact told nothing about how strongly the soil resists."""
    return message(
        f"unused-scale-{fact.reason.value}",
        fact=_named(fact),
        method=Given(fact.method),
        value=None if fact.value is None else number(fact.value),
        limit=None if fact.limit is None else ph(fact.limit, against=fact.value),
    )


def scale_doubt(measured: ScaleMeasurement) -> Message:
    """That a measurement lies far from what texture and organic matter say."""
    ratio = 10.0**measured.log10_k_mean
    fact = field_in_text(measured.path)
    if ratio >= 1.0:
        return message("check-scale-more", fact=fact, times=times(ratio))
    return message("check-scale-less", fact=fact, share=Measure(Quantity.SHARE, ratio))


def _named(fact: UnusedFact) -> Message:
    name = field_in_text(fact.path)
    if not fact.method:
        return name
    return message("unused-fact-by", fact=name, method=Given(fact.method))
