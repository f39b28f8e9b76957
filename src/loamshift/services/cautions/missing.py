"""What nobody filled in that matters, why it matters, and how to get it."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift.domain.answer import Direction, Missing, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Measure, Quantity, Value, message
from loamshift.services.belief.humus import humus_history
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.upkeep.humus import turf_would_move_ph
from loamshift.services.verdict.doubts import unknown_of_water
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.lime_grades import BURNT_LIME
from loamshift.tables.lime_share import (
    OF_UNKNOWN_GRADE,
    is_of_unknown_grade,
)
from loamshift.tables.parameters import load_parameters, parameter_values

FIZZ_FROM_PH = 6.5
PRILLS_OF_UNKNOWN_KIND = "elemental sulfur, prilled"
_WORTH_ASKING_FRAC = 0.1
"""Share of an earlier lime still to come from which its grade is worth asking for [0-1]."""
_WATER = {"water.alkalinity": "alkalinity", "water.weekly": "weekly"}
"""What to find out of the water, by what was not given."""
_ONLY_THE_AMOUNT: Final = frozenset(
    (
        *("soil.fizz", "soil.carbonate_pct", "soil.texture", "soil.organic_matter_pct"),
        *("titration", "bed.planted", "bed.area", "bed.before", "bed.before_years"),
        *("place.name", "water.alkalinity", "water.weekly"),
    )
)
"""What is idle to ask where free lime keeps the pH and no amount is advised."""


def missing(context: BedContext, judged: Judgement) -> tuple[Missing, ...]:
    """Fields of the case file that would make the answer surer, the most telling first."""
    case, soil = context.case, context.soil
    acidify = judged.direction is Direction.ACIDIFY
    rows: list[Missing] = []
    if soil is None:
        rows.append(_row("soil.ph", "ph"))
    if context.target is None:
        rows.append(_row("aim.plant", "aim"))
    if soil is not None and case.soil.fizz is None and not soil.carbonate.measured:
        if (soil.ph.ph_water > FIZZ_FROM_PH and acidify) or judged.measure == "soil.fizz":
            rows.append(_row("soil.fizz", "fizz"))
    elif (
        soil is not None
        and (acidify or judged.measure == "soil.carbonate_pct")
        and not soil.carbonate.measured
        and soil.carbonate.is_possible
    ):
        rows.append(_row("soil.carbonate_pct", "carbonate"))
    if soil is not None and soil.ph.method.is_rough:
        rows.append(_row("soil.ph", "rough"))
    if judged.reason is Reason.UNKNOWN_SODIUM:
        rows.append(_row("soil.sodium_pct", "sodium"))
    if not context.water_known and context.irrigation_mm_year > 0.0:
        unknown = unknown_of_water(context)
        rows.append(_row(unknown, _WATER[unknown]))
    if "soil.texture" in context.assumed:
        rows.append(_row("soil.texture", "texture"))
    if "soil.organic_matter_pct" in context.assumed:
        rows.append(_row("soil.organic_matter_pct", "organic-matter"))
    rows += _grade_of_lime(context)
    resists = soil is not None and not soil.k.contributions and not case.titration
    if judged.measure == "titration" or (resists and judged.direction is not Direction.NONE):
        test = "buffer" if buffer_test_tells(context) else "jar"
        rows.append(_row("titration", "titration", test=test))
    if case.bed.area_m2 is None and context.area_m2 is None:
        rows.append(_row("bed.area", "area"))
    if context.place is None:
        way = "lime" if judged.direction is Direction.LIME else "acidify"
        row = _row("place.name", "place")
        rows.append(replace(row, why=message("missing-place-why", way=way)))
    if "bed.planted" in context.assumed and judged.direction is not Direction.NONE:
        rows.append(_row("bed.planted", "planted"))
    rows += _kind_of_prills(context)
    if soil is not None and context.target is not None:
        history = humus_history(context)
        if history is not None and history.before is None:
            rows += _history(context, kept_bare=history.kept_bare)
        elif history is not None and history.years is None:
            rows.append(_row("bed.before_years", "before-years"))
    if judged.reason is Reason.FREE_LIME and judged.too_much_without_lime:
        rows = [row for row in rows if row.field not in _ONLY_THE_AMOUNT]
    return tuple(sorted(rows, key=lambda row: row.field != judged.measure))


def _kind_of_prills(context: BedContext) -> list[Missing]:
    """Prills that may hold clay or not: on hand, or put on and, for all we know, still to act."""
    case = context.case
    own = [(f"on_hand[{i}].material", item.material) for i, item in enumerate(case.on_hand, 1)]
    to_come = [pending.acid_mmolc_m2 > 0.0 for pending in context.pending]
    own += [
        (f"applied[{i}].material", applied.material)
        for i, applied in enumerate(case.applied, 1)
        if not to_come or to_come[i - 1]
    ]
    named = [field for field, material in own if material.key == PRILLS_OF_UNKNOWN_KIND]
    return [_row(field, "prills") for field in named[:1]]


def _history(context: BedContext, *, kept_bare: bool) -> list[Missing]:
    """What the ground was: of dug ground with plants to come only where it would show."""
    if kept_bare:
        return [_row("bed.before", "before")]
    least = parameter_values("humus")["asked_from_ph"]
    return [_row("bed.before", "before-dug")] if turf_would_move_ph(context) > least else []


def _grade_of_lime(context: BedContext) -> list[Missing]:
    """Lime of unknown grade: on hand, proposed, or put on and, for all we know, still to act."""
    case = context.case
    coming = [
        pending.acid_mmolc_m2 < _WORTH_ASKING_FRAC * pending.total_mmolc_m2 < 0.0
        for pending in context.pending
    ]
    own = [
        (f"applied[{i}].material", applied.material)
        for i, applied in enumerate(case.applied, 1)
        if not coming or coming[i - 1]
    ]
    own += [(f"on_hand[{i}].material", item.material) for i, item in enumerate(case.on_hand, 1)]
    own += [(f"claim[{i}].material", claim.material) for i, claim in enumerate(case.claims, 1)]
    row = load_parameters()["lime"][OF_UNKNOWN_GRADE]
    counts = {
        "middle": Measure(Quantity.SHARE, row.value),
        "range": Measure(Quantity.SHARE, row.low or 0.0, row.high),
    }
    return [
        Missing(
            field=field,
            why=message("missing-lime-grade-why", **counts),
            how=message(
                "missing-lime-grade-how",
                when="past" if field.startswith("applied") else "ahead",
                kind="burnt" if material.key == BURNT_LIME else "any",
            ),
        )
        for field, material in own
        if is_of_unknown_grade(material)
    ][:1]


def _row(field: str, what: str, **values: Value) -> Missing:
    """A row; what fills its second message is given by name."""
    return Missing(
        field=field,
        why=message(f"missing-{what}-why"),
        how=message(f"missing-{what}-how", **values),
    )
