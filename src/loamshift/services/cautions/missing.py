"""What nobody filled in that matters, why it matters, and how to get it."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Direction, Missing, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.services.verdict.doubts import unknown_of_water
from loamshift.services.verdict.judgement import Judgement

FIZZ_FROM_PH = 6.5


def missing(context: BedContext, judged: Judgement) -> tuple[Missing, ...]:
    """Fields of the case file that would make the answer surer, the most telling first.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].

    Returns
    -------
    tuple of Missing
        Rows of field, why and how [text].
    """
    case, soil = context.case, context.soil
    rows: list[Missing] = []
    if soil is None:
        rows.append(
            _row(
                "soil.ph",
                "Everything starts from it.",
                "A laboratory pH in water of a mixed sample, with its depth.",
            )
        )
    if context.target is None:
        rows.append(
            _row(
                "aim.plant",
                "No pH is right or wrong by itself.",
                "Name the plant, or give aim.target_ph.",
            )
        )
    acidify = judged.direction is Direction.ACIDIFY
    if soil is not None and case.soil.fizz is None and not soil.carbonate.measured:
        if soil.ph.ph_water > FIZZ_FROM_PH and acidify:
            rows.append(
                _row(
                    "soil.fizz",
                    "Free lime takes the acid before the soil does.",
                    "Drop dilute hydrochloric acid, or else vinegar, on dry soil and listen.",
                )
            )
    elif (
        soil is not None
        and acidify
        and not soil.carbonate.measured
        and (soil.carbonate.is_possible)
    ):
        rows.append(
            _row(
                "soil.carbonate_pct",
                "A fizz class leaves a factor of four; no fizz still leaves some.",
                "Ask a laboratory for free lime (CaCO3 by gas volume).",
            )
        )
    if soil is not None and soil.ph.method.is_rough:
        rows.append(
            _row(
                "soil.ph",
                "A probe, a strip or a pH of unknown method is a hint.",
                "Send a mixed sample to a laboratory; ask for pH in water.",
            )
        )
    if judged.reason is Reason.UNKNOWN_SODIUM:
        rows.append(
            _row(
                "soil.sodium_pct",
                "So high a pH comes from sodium more often than from lime.",
                "Ask a laboratory for exchangeable sodium and salt (EC), at two depths.",
            )
        )
    if not context.water_known and context.irrigation_mm_year > 0.0:
        rows.append(_WATER[unknown_of_water(context)])
    if "soil.texture" in context.assumed:
        rows.append(
            _row(
                "soil.texture",
                "Clay resists two to three times as much as sand.",
                "Roll a moist ball between the fingers, or give soil.clay_pct.",
            )
        )
    if "soil.organic_matter_pct" in context.assumed:
        rows.append(
            _row(
                "soil.organic_matter_pct",
                "Organic matter resists most of all.",
                "Standard on most reports; otherwise a laboratory's loss on ignition.",
            )
        )
    resists = soil is not None and not soil.k.contributions and not case.titration
    if resists and judged.direction is not Direction.NONE:
        rows.append(
            _row(
                "titration",
                "Most of the range comes from how strongly this soil resists.",
                "A jar titration of this soil, or a buffer pH, narrows the range by half."
                if case.soil.buffer_ph is None
                else "A jar titration of this soil narrows the range by half.",
            )
        )
    if case.bed.area_m2 is None and context.area_m2 is None:
        rows.append(
            _row(
                "bed.area",
                "Without it there is a rate but no amount.",
                "Length times width of the bed.",
            )
        )
    if context.place is None:
        rows.append(
            _row(
                "place.name",
                "Sulfur keeps time by soil warmth.",
                "The nearest town, or place.latitude and place.longitude.",
            )
        )
    if "bed.planted" in context.assumed and judged.direction is not Direction.NONE:
        rows.append(
            _row(
                "bed.planted",
                "Roots in the ground lower what may go on at once.",
                "Say so if plants stand in the bed; it was taken as empty.",
            )
        )
    return tuple(sorted(rows, key=lambda row: row.field != judged.measure))


def _row(field: str, why: str, how: str) -> Missing:
    return Missing(field=field, why=why, how=how)


_WATER: Final = {
    "water.alkalinity": _row(
        "water.alkalinity",
        "It limes the bed with every watering.",
        "The water company states it; aquarium drop kits read it too.",
    ),
    "water.weekly": _row(
        "water.weekly",
        "Each millimetre of this water limes the bed.",
        "Set out a jar while you water, or read the meter before and after.",
    ),
}
"""What to find out of the water, by what was not given."""
