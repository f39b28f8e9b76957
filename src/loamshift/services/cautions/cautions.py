"""Which printed cautions go with an answer."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.answer import Application, Caution, ClaimResult, Decision, Direction, Option
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Drainage, Site
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.ph import PhMethod
from loamshift.services.cautions.amount_checks import over_cap_codes
from loamshift.services.cautions.entry_doubts import entry_doubts
from loamshift.services.verdict.decision_table import Outcome, saturated_ec
from loamshift.tables.materials import load_materials
from loamshift.tables.model import verdict_values
from loamshift.tables.rules import load_cautions

COLD_C = 5.0
PRODUCT_HAZARDS = frozenset(
    {"sulfur-dust", "caustic-lime", "acid-handling", "aluminium", "iron-stain"}
)
"""What a product does to whoever handles it; said even of products merely compared."""
BY_RULE = frozenset({"split", "over-cap", "overdose", "cold-soil", "established-roots"})
"""Never taken over from a material: the bed and the plan decide."""
SULFIDE_DRAINAGE = (None, Drainage.SLOW, Drainage.WATERLOGGED)


def cautions(
    context: BedContext,
    outcome: Outcome,
    *,
    applications: tuple[Application, ...],
    options: tuple[Option, ...],
    claims: tuple[ClaimResult, ...],
) -> tuple[Caution, ...]:
    """Every caution that belongs to the plan, the bed, the water and the claims.

    Parameters
    ----------
    context
        The bed as understood [object].
    outcome
        The decision on it [object].
    applications
        Parts of the plan [rows].
    options
        Ways compared [rows].
    claims
        Claims settled [rows].

    Returns
    -------
    tuple of Caution
        One row a code, in the order of the table [rows].
    """
    codes = {
        *_of_materials(context, (part.material for part in applications)),
        *_of_bed(context, outcome, parts=len(applications)),
        *_of_water_and_lime(context, outcome),
        *_of_reading(context, outcome),
    }
    if options and outcome.decision not in (Decision.LEAVE, Decision.STOP):
        codes |= {code for option in options for code in option.cautions} & PRODUCT_HAZARDS
    materials = load_materials()
    for claim in claims:
        if claim.material in materials:
            codes |= _of_claim(materials[claim.material])
    rules = load_cautions()
    return tuple(
        Caution(code=rule.code, text=rule.text, source_key=rule.source_key)
        for rule in rules.values()
        if rule.code in codes
    )


def _of_materials(context: BedContext, keys: Iterable[str]) -> set[str]:
    materials = load_materials()
    codes: set[str] = set()
    for key in keys:
        codes.update(materials[key].cautions)
        codes.add("children-pets")
    if context.case.bed.drainage not in SULFIDE_DRAINAGE:
        codes.discard("hydrogen-sulfide")
    return codes - BY_RULE


def _of_claim(material: Material) -> set[str]:
    codes = set(material.cautions) & PRODUCT_HAZARDS
    if material.group is MaterialGroup.NEUTRAL_SALT:
        codes.add("neutral-salt")
    return codes


def _of_bed(context: BedContext, outcome: Outcome, *, parts: int) -> set[str]:
    codes: set[str] = set()
    bed = context.case.bed
    acting = parts > 0
    acidify = outcome.direction is Direction.ACIDIFY
    if parts > 1 and acidify:
        codes.add("split")
    if acting and acidify and context.planted and context.cap_situation == "planted":
        codes.add("established-roots")
    if acting:
        codes.add("too-early")
    if acting and outcome.direction is Direction.LIME:
        codes.add("ammonia")
    if outcome.direction is Direction.ACIDIFY:
        if bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED):
            codes.add("hydrogen-sulfide")
        if bed.site in (Site.OLD_URBAN, Site.OLD_ORCHARD):
            codes.add("metals")
        if acting and context.soil_temp_c and min(context.soil_temp_c) < COLD_C:
            codes.add("cold-soil")
    return codes


def _of_water_and_lime(context: BedContext, outcome: Outcome) -> set[str]:
    codes: set[str] = set()
    soil = context.soil
    acidify = outcome.direction is Direction.ACIDIFY
    if soil is not None and acidify and soil.carbonate.is_possible:
        codes.add("free-lime")
    if acidify and context.water_base_mmolc_m2_year > 0.0:
        codes.add("water-alkalinity")
    chlorotic = outcome.decision is Decision.ELSEWHERE and context.planted
    if acidify and chlorotic and context.target is not None and context.target.calcifuge:
        codes.add("iron-chlorosis")
    return codes


def _of_reading(context: BedContext, outcome: Outcome) -> set[str]:
    codes: set[str] = set()
    soil = context.soil
    if soil is not None:
        if soil.ph.method in (PhMethod.PROBE, PhMethod.STRIP):
            codes.add("probe-reading")
        if soil.ph.method is PhMethod.UNKNOWN:
            codes.add("method-unknown")
    by_reason = {
        "overdose-acid": {"overdose", "too-acid"},
        "over-cap": {"over-cap", "overdose"},
        "overdose-lime": {"overdose"},
        "too-acid": {"too-acid", "acid-sulfate", "aluminium"},
        "sodic": {"sodic"},
        "salt": {"salt"},
        "waterlogged": {"hydrogen-sulfide"},
    }
    codes |= by_reason.get(outcome.reason, set())
    sodium = context.case.soil.sodium_pct
    if sodium is not None and sodium > verdict_values()["sodic_pct"]:
        codes.add("sodic")
    if saturated_ec(context) is not None and outcome.reason == "salt":
        codes.add("salt")
    codes |= over_cap_codes(context)
    case = context.case
    rough = [applied.in_household_measures for applied in case.applied]
    rough += [claim.in_household_measures for claim in case.claims]
    if any(rough) or entry_doubts(case):
        codes.add("unit-slip")
    return codes
