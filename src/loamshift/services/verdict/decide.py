"""The decision on a bed: the table, and whether one test should come first.

The order of the cases and every limit stand in ``docs/decisions/verdict.md``; the limits
themselves are rows of the table ``parameters``, topic ``verdict``.
"""

from __future__ import annotations

from dataclasses import replace

from loamshift.core.need import carbonate_nodes, reading_nodes
from loamshift.domain.answer import Decision, Direction
from loamshift.domain.bed_context import BedContext
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import CarbonateBelief
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import ph_belief
from loamshift.services.verdict.decision_table import Outcome, decide_without_tests, stop_row
from loamshift.tables.model import verdict_values
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT, alkalinity_mmolc_l_from_mg_l_as_caco3

LABORATORY_METHOD = PhMethod.WATER_1_2_5
"""The method a doubtful reading is supposed to be repeated by."""
LOWEST_PH = 3.0
HIGHEST_PH = 10.0
"""What a repeated reading is supposed to lie between [pH in water]."""


def decide(context: BedContext) -> Outcome:
    """The decision for a context, the first row of the table that holds.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Outcome
        Decision, direction and the deciding figures [object].
    """
    if context.soil is None:
        return Outcome(
            decision=Decision.MEASURE_FIRST, direction=Direction.NONE, reason="no-ph",
            in_range=0.0, measure="soil.ph", measure_probability=1.0,
        )  # fmt: skip
    if context.target is None:
        harmful = stop_row(context, Direction.NONE)
        return harmful or Outcome(
            decision=Decision.MEASURE_FIRST, direction=Direction.NONE, reason="no-aim",
            in_range=0.0, measure="aim.plant", measure_probability=1.0,
        )  # fmt: skip
    base = decide_without_tests(context)
    if base.decision in (Decision.STOP, Decision.LEAVE):
        if base.decision is Decision.LEAVE and require_soil(context).ph.method.is_rough:
            return _first_test(context, base) or base
        return base
    return _first_test(context, base) or base


def _first_test(context: BedContext, base: Outcome) -> Outcome | None:
    """The one test most likely to change the decision, if likely enough."""
    threshold = verdict_values()["measure_first_probability"]
    best: Outcome | None = None
    for field, variants in _variants(context):
        changed = 0.0
        shift: dict[Decision, float] = {}
        for weight, variant in variants:
            other = decide_without_tests(variant)
            if other.decision is not base.decision:
                changed += weight
                shift[other.decision] = shift.get(other.decision, 0.0) + weight
        if changed > threshold and (best is None or changed > best.measure_probability):
            likely = max(shift, key=lambda decision: shift[decision])
            best = replace(
                base,
                decision=Decision.MEASURE_FIRST,
                reason="test",
                measure=field,
                measure_probability=changed,
                measure_shift=likely.value,
            )
    target = context.target
    weak = target is not None and target.weak
    if best is None and weak and base.decision in (Decision.GO, Decision.EFFORT):
        return replace(
            base, decision=Decision.MEASURE_FIRST, reason="weak-range", measure="aim.target_ph",
            measure_probability=1.0,
        )  # fmt: skip
    return best


def _variants(context: BedContext) -> list[tuple[str, list[tuple[float, BedContext]]]]:
    """Every doubtful field with the values it may turn out to have, and their weights."""
    soil = require_soil(context)
    found: list[tuple[str, list[tuple[float, BedContext]]]] = []
    belief = soil.carbonate
    if not belief.measured and belief.is_possible:
        field = "soil.fizz" if context.case.soil.fizz is None else "soil.carbonate_pct"
        values, weights = carbonate_nodes(
            zero_weight=belief.zero_weight,
            low_pct=belief.low_pct,
            high_pct=belief.high_pct,
            mmolc_kg_per_pct=CARBONATE_MMOLC_KG_PER_PCT,
        )
        found.append(
            (
                field,
                [
                    (float(weight), _with_carbonate(context, value / CARBONATE_MMOLC_KG_PER_PCT))
                    for value, weight in zip(values.tolist(), weights.tolist(), strict=True)
                ],
            )
        )
    if soil.ph.method.is_rough:
        values, weights = reading_nodes(ph=soil.ph.ph_water, ph_sd=soil.ph.ph_water_sd)
        lab_sd = ph_belief(PhReading(ph=7.0, method=LABORATORY_METHOD)).ph_water_sd
        found.append(
            (
                "soil.ph_method" if soil.ph.method.value == "unknown" else "soil.ph",
                [
                    (weight, _with_ph(context, ph=_possible(value), sd=lab_sd))
                    for value, weight in zip(values.tolist(), weights.tolist(), strict=True)
                ],
            )
        )
    if not context.water_known and context.irrigation_mm_year > 0.0:
        found.append(("water.alkalinity", _water_variants(context)))
    if "soil.texture" in soil.assumed:
        values, weights = reading_nodes(ph=soil.k.log10_k_mean, ph_sd=soil.k.log10_k_sd)
        found.append(
            (
                "soil.texture",
                [
                    (weight, _with_scale(context, value))
                    for value, weight in zip(values.tolist(), weights.tolist(), strict=True)
                ],
            )
        )
    return found


def _with_carbonate(context: BedContext, pct: float) -> BedContext:
    belief = CarbonateBelief(
        zero_weight=1.0 if pct == 0.0 else 0.0,
        low_pct=pct,
        high_pct=pct,
        basis="supposed",
        measured=True,
    )
    return replace(context, soil=replace(require_soil(context), carbonate=belief))


def _possible(ph: float) -> float:
    """The nearest pH [pH in water] that a soil can read."""
    return min(max(ph, LOWEST_PH), HIGHEST_PH)


def _with_ph(context: BedContext, *, ph: float, sd: float) -> BedContext:
    soil = require_soil(context)
    supposed = replace(soil.ph, ph_water=ph, ph_water_sd=sd)
    return replace(context, soil=replace(soil, ph=supposed))


def _with_scale(context: BedContext, log10_k: float) -> BedContext:
    soil = require_soil(context)
    return replace(context, soil=replace(soil, k=replace(soil.k, log10_k_mean=log10_k)))


def _water_variants(context: BedContext) -> list[tuple[float, BedContext]]:
    limits = verdict_values()
    variants = []
    for name in ("low", "mid", "high"):
        base = alkalinity_mmolc_l_from_mg_l_as_caco3(limits[f"assumed_alkalinity_{name}"])
        variant = replace(context, water_base_mmolc_m2_year=base * context.irrigation_mm_year)
        variants.append((limits[f"assumed_alkalinity_{name}_weight"], variant))
    return variants
