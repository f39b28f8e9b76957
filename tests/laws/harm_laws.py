"""What lies there, what is proposed, and what would make it worse."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from typing import Final

from laws.direction_laws import way_of
from laws.law import bed_of, law, material_of, reads_now
from loamshift.domain.answer import Answer, Decision, Direction, Finding, Reason, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.material import Material
from loamshift.domain.soil import Fizz
from loamshift.services.cautions.amount_checks import PROPOSED_CHECK
from loamshift.services.materials.caps import Substance, product_cap
from loamshift.tables.model import verdict_values
from loamshift.tables.rules import cap_for
from wording import read

YEAR: Final = timedelta(days=365)
REFUSED_BY: Final = ("over-cap", "overdose")
"""Codes of the cautions that refuse an amount."""
LIMY_PCT: Final = 0.5
"""As much free lime fizzes with strong acid [%]."""
HAIR: Final = 0.05
"""A median of drawn beds is no closer to what it stands for [pH]."""
WEIGHED: Final = 1e-6
"""Rates are compared to a millionth [1]."""


@law("L07")
def a_block_about_the_bed_means_stop(case: Case, answer: Answer) -> list[str]:
    """A blocking finding about what lies there means stop."""
    if answer.verdict.decision is Decision.STOP:
        return []
    return [
        f"{answer.verdict.decision} beside a blocking finding: {row.check}"
        for row in answer.findings
        if _blocks(row) and not row.check.startswith(PROPOSED_CHECK)
    ]


@law("L08")
def a_block_about_a_proposal_refuses_it(case: Case, answer: Answer) -> list[str]:
    """A blocking finding about a proposal refuses the proposal, by a caution and in the claim."""
    blocked = [
        row for row in answer.findings if _blocks(row) and row.check.startswith(PROPOSED_CHECK)
    ]
    if not blocked:
        return []
    found = []
    if not any(caution.code in REFUSED_BY for caution in answer.cautions):
        found.append("no caution refuses an amount that its finding blocks")
    for row in blocked:
        number = int(row.check.removeprefix(PROPOSED_CHECK).split(":")[0])
        if answer.claims and not answer.claims[number - 1].comment:
            found.append(f"claim {number} is blocked and gets no comment")
    return found


@law("L09")
def overdoses_are_rescued(case: Case, answer: Answer) -> list[str]:
    """Whenever recent doses sum past the limit of an overdose the bed is stopped and rescued."""
    times = recent_limits(case)
    limit = verdict_values()["overdose_cap_years"]
    worst = max(times.values(), default=0.0)
    found = []
    if worst > limit * (1.0 + 1e-9):
        if answer.verdict.decision is not Decision.STOP:
            found.append(f"{worst:.1f} yearly limits lie there, and the word is not stop")
        if answer.rescue is None:
            found.append(f"{worst:.1f} yearly limits lie there, and there is no rescue")
    has_soil = bed_of(case).soil is not None
    if answer.verdict.decision is Decision.STOP and answer.rescue is None and has_soil:
        found.append(f"stop ({answer.verdict.reason}) does not say what to do")
    return found


@law("L10")
def no_lime_on_too_much_base(case: Case, answer: Answer) -> list[str]:
    """No lime for what is over-limed, sodic, fizzing or already above its range."""
    why = _too_much_base(case, answer)
    given = _given(case, answer, Direction.LIME)
    return [f"{what} for a bed that {why}" for what in given] if why else []


@law("L11")
def no_acid_on_what_is_too_acid(case: Case, answer: Answer) -> list[str]:
    """No acid material for what is too acid or below its range."""
    why = _too_acid(case, answer)
    given = _given(case, answer, Direction.ACIDIFY)
    return [f"{what} for a bed that {why}" for what in given] if why else []


@law("L12")
def parts_within_the_limits(case: Case, answer: Answer) -> list[str]:
    """No part passes the printed limits: one dose, and all of a year with what lies there."""
    context, found = bed_of(case), []
    parts = [
        (part.date, part.rate_g_m2, material_of(case, part.material))
        for part in answer.applications
    ]
    dated = {(day, rate) for day, rate, _ in parts}
    if answer.plan is not None:
        for part in answer.plan.parts:
            if (part.date, part.rate_g_m2) not in dated:
                parts.append(
                    (
                        part.date,
                        part.rate_g_m2,
                        material_of(case, part.material),
                    )
                )
    for day, rate, material in parts:
        cap = product_cap(material, cap_situation=context.cap_situation)
        if cap is None:
            continue
        strength = _strength(context.case, material)
        if cap.dose_g_m2 is not None and rate * strength > cap.dose_g_m2 * (1.0 + WEIGHED):
            found.append(
                f"{rate:g} g/m2 of {material.key} at once, where {cap.dose_g_m2 / strength:.4g} "
                "are printed"
            )
        within = [
            other * strength / cap.year_g_m2 for then, other, _ in parts if day - YEAR < then <= day
        ]
        before = recent_limits(case, on=day).get(cap.applies_to, 0.0)
        if sum(within) + before > 1.0 + WEIGHED:
            found.append(
                f"{sum(within):.2f} of a year's limit of {material.key} by {day} on top of "
                f"{before:.2f} put on before"
            )
    if answer.plan is not None:
        material = material_of(case, answer.plan.material)
        cap = product_cap(material, cap_situation=context.cap_situation)
        most = max((line.part_g_m2 for line in answer.plan.decides), default=0.0)
        if cap is not None and most * _strength(context.case, material) > cap.year_g_m2 * (
            1.0 + WEIGHED
        ):
            found.append(f"a test may call for {most:g} g/m2 of {material.key} in one year")
    return found


@law("L13")
def planted_ground_is_not_dug(case: Case, answer: Answer) -> list[str]:
    """Ground with plants in it, pots included, is never dug through."""
    if not bed_of(case).planted:
        return []
    found = [
        f"the part of {part.date} is worked in {part.incorporate_cm:g} cm deep"
        for part in answer.applications
        if part.incorporate_cm > 0.0
    ]
    if answer.rescue is not None:
        found += [
            f"the rescue digs: {step}"
            for step in map(read, answer.rescue.steps)
            if "mixed into the depth" in step or "dig it in to" in step
        ]
    return found


def recent_limits(case: Case, *, on: date | None = None) -> dict[Substance, float]:
    """Yearly limits that went on in the year up to a day, by substance [1]."""
    context, until = bed_of(case), on or case.today
    times: dict[Substance, float] = defaultdict(float)
    for applied in case.applied:
        cap = product_cap(applied.material, cap_situation=context.cap_situation)
        if cap is None or cap.applies_to is Substance.NITROGEN:
            continue
        if until - YEAR < applied.on <= until:
            times[cap.applies_to] += applied.rate_g_m2 / cap.year_g_m2
    return dict(times)


def _blocks(row: Finding) -> bool:
    return row.severity is Severity.BLOCK and not row.passed


def _strength(case: Case, material: Material) -> float:
    """Strength of a product on hand against the table's, by the purity on its label [1]."""
    for item in case.on_hand:
        if item.material.key == material.key:
            table = material.elemental_s_frac or material.caco3_eq_frac
            return 1.0 if item.purity_pct is None else item.purity_pct / 100.0 / table
    return 1.0


def _given(case: Case, answer: Answer, direction: Direction) -> list[str]:
    """Everything an answer gives that moves the pH in a direction."""
    in_pot = bed_of(case).in_pot
    found = [
        f"{part.rate_g_m2:g} g/m2 of {part.material}"
        for part in answer.applications
        if way_of(material_of(case, part.material), in_pot=in_pot) is direction
    ]
    if (
        answer.plan is not None
        and way_of(material_of(case, answer.plan.material), in_pot=in_pot) is direction
    ):
        found.append(f"a plan with {answer.plan.material}")
    found += [
        f"{option.material} among the ways"
        for option in answer.options
        if way_of(material_of(case, option.material), in_pot=in_pot) is direction
    ]
    keeping, rescue = answer.upkeep, answer.rescue
    if keeping is not None:
        yearly = {
            Direction.ACIDIFY: keeping.sulfur_as_s_g_m2_year,
            Direction.LIME: keeping.lime_as_caco3_g_m2_year,
        }[direction]
        if yearly > 0.0:
            found.append(f"{yearly:.3g} g/m2 a year in the upkeep")
    back = None if rescue is None else rescue.lime_as_caco3_g_m2
    if direction is Direction.LIME and back is not None and back.mid >= 1.0:
        found.append(f"{back.mid:.3g} g/m2 in the rescue")
    return found


def _too_much_base(case: Case, answer: Answer) -> str:
    """Why a bed is to get no lime, or nothing."""
    context, limits = bed_of(case), verdict_values()
    if (case.soil.sodium_pct or 0.0) > limits["sodic_pct"]:
        return "is sodic"
    if answer.verdict.reason is Reason.OVERDOSE and limed(context):
        return "had too much lime"
    lime_pct = case.soil.carbonate_pct or 0.0
    fizzes = case.soil.fizz not in (None, Fizz.NONE) or lime_pct >= LIMY_PCT
    if fizzes and not _had_acid_overdose(answer, context):
        return "holds free lime"
    ph, wanted = reads_now(case, answer), answer.wanted
    if ph is None or wanted is None or answer.verdict.decision is Decision.STOP:
        return ""
    if ph > wanted.ph_high + limits["leave_gain_ph"] + HAIR:
        return f"reads {ph:.1f}, above {wanted.ph_high:.1f}"
    return ""


def _had_acid_overdose(answer: Answer, context: BedContext) -> bool:
    """An acid overdose is answered with lime even where some lime is left."""
    return answer.verdict.reason is Reason.OVERDOSE and not limed(context)


def limed(context: BedContext) -> bool:
    """True where what lies there is lime more than acid, by shares of the yearly limits.

    Acids add up, each by its own limit: roots meet them together, and lime beside them at work
    makes no bed an over-limed one.
    """
    times = recent_limits(context.case)
    lime = times.pop(Substance.LIMESTONE, 0.0)
    acid = sum(times.values())
    if max(lime, acid) > 1.0:
        return lime > acid
    return context.pending_acid_mmolc_m2 < 0.0


def _too_acid(case: Case, answer: Answer) -> str:
    """Why a bed is to get no acid, or nothing."""
    context, limits = bed_of(case), verdict_values()
    if answer.verdict.reason is Reason.TOO_ACID:
        return "is too acid"
    if answer.verdict.reason is Reason.OVERDOSE and not limed(context):
        return "had too much acid"
    ph, wanted = reads_now(case, answer), answer.wanted
    if ph is None or wanted is None:
        return ""
    if ph < wanted.ph_low - limits["leave_gain_ph"] - HAIR:
        return f"reads {ph:.1f}, below {wanted.ph_low:.1f}"
    return ""


def yearly_limit_g_m2(substance: str, context: BedContext) -> float:
    """The printed limit of a year for a substance on this ground [g/m2]."""
    return cap_for(applies_to=substance, situation=context.cap_situation, per="year").limit_g_m2
