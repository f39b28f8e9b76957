"""The headline, the plan, the dose and the ways compared say one thing."""

from __future__ import annotations

from typing import Final

from laws.law import bed_of, law, material_of
from loamshift.domain.answer import Answer, Decision, Direction, Reason
from loamshift.domain.case import Case
from loamshift.domain.material import Material
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from wording import read

IDLE: Final = (Decision.LEAVE, Decision.ELSEWHERE, Decision.STOP)
"""Words under which nothing goes on."""
ACTS: Final = (Decision.GO, Decision.EFFORT)

STOPS: Final = (Reason.OVERDOSE, Reason.TOO_ACID, Reason.SALT, Reason.SODIC, Reason.WATERLOGGED)
REASONS: Final = {
    Decision.STOP: STOPS,
    Decision.LEAVE: (Reason.IN_RANGE, Reason.AT_WORK, Reason.SMALL_GAIN),
    Decision.MEASURE_FIRST: (
        Reason.NO_PH,
        Reason.NO_AIM,
        Reason.UNKNOWN_LIME,
        Reason.DOUBTFUL_READING,
        Reason.UNKNOWN_SODIUM,
        Reason.UNKNOWN_WATER,
        Reason.UNKNOWN_TEXTURE,
        Reason.ONE_SOURCE_RANGE,
    ),
    Decision.ELSEWHERE: (Reason.FREE_LIME, Reason.CAPS, Reason.WATER, Reason.NO_COMMON_RANGE),
    Decision.EFFORT: (Reason.WATER, Reason.FEED, Reason.UPKEEP, Reason.PARTS, Reason.MONTHS),
    Decision.GO: (Reason.WITHIN_REACH,),
}
"""Which reasons a word may have."""


@law("L01")
def one_direction(case: Case, answer: Answer) -> list[str]:
    """Headline, dose, plan and ways compared point in one direction."""
    direction, found = answer.dose.direction, []
    amounts = {
        Direction.ACIDIFY: answer.dose.sulfur_as_s_g_m2,
        Direction.LIME: answer.dose.lime_as_caco3_g_m2,
    }
    found += [
        f"the dose is to {direction} and gives an amount to {way}"
        for way, amount in amounts.items()
        if (amount is not None) != (way is direction)
    ]
    materials = {option.material for option in answer.options}
    materials |= {part.material for part in answer.applications}
    if answer.plan is not None:
        materials |= {answer.plan.material, *(part.material for part in answer.plan.parts)}
    for key in sorted(materials):
        way = way_of(material_of(case, key), in_pot=bed_of(case).in_pot)
        if way is not direction:
            found.append(f"{key} is to {way}, and the dose is to {direction}")
    said = read(answer.verdict.because)
    if direction is Direction.ACIDIFY and "of pure lime" in said:
        found.append("the dose is to acidify and the verdict speaks of lime")
    if direction is Direction.LIME and "of pure sulphur" in said:
        found.append("the dose is to lime and the verdict speaks of sulfur")
    return found


@law("L02")
def idle_words_carry_no_part(case: Case, answer: Answer) -> list[str]:
    """Leave, elsewhere and stop carry no plan, no part and no way to go about it."""
    if answer.verdict.decision not in IDLE:
        return []
    carried = {
        "a plan": answer.plan is not None,
        "parts": bool(answer.applications),
        "ways to do it": bool(answer.options),
        "a day before which a test is too early": answer.too_early_before is not None,
    }
    return [f"{answer.verdict.decision} carries {what}" for what, there in carried.items() if there]


@law("L03")
def provisional_before_the_test(case: Case, answer: Answer) -> list[str]:
    """What measure-first plans is called provisional, and nothing else is."""
    first = answer.verdict.decision is Decision.MEASURE_FIRST
    planned = answer.plan is not None or bool(answer.applications)
    if planned and first and not answer.dose.provisional:
        return ["measure-first plans parts and does not call them provisional"]
    if answer.dose.provisional and not first:
        return [f"{answer.verdict.decision} is called provisional"]
    return []


@law("L04")
def the_reason_fits_the_word(case: Case, answer: Answer) -> list[str]:
    """Every decision has a reason that belongs to it."""
    reason, decision = answer.verdict.reason, answer.verdict.decision
    if reason is None or reason not in REASONS[decision]:
        return [f"{decision} for the reason {reason}"]
    return []


@law("L05")
def acting_words_put_something_on(case: Case, answer: Answer) -> list[str]:
    """Go and effort put something on, now or after a test, unless water or feed comes first."""
    decision, plan = answer.verdict.decision, answer.plan
    if decision not in ACTS or answer.verdict.reason in (Reason.WATER, Reason.FEED):
        return []
    if plan is None:
        return [f"{decision} has no plan"]
    if not plan.parts and all(line.part_g_m2 <= 0.0 for line in plan.decides):
        return [f"{decision} has a plan under which nothing ever goes on"]
    return []


@law("L06")
def the_first_path_is_the_plans(case: Case, answer: Answer) -> list[str]:
    """The dated parts are those of the plan, with one line of its test."""
    plan = answer.plan
    if plan is None:
        return ["parts without a plan"] if answer.applications else []
    found = []
    sure = [part for part in answer.applications if part.only_if is None]
    listed = [(part.date, part.material, part.rate_g_m2) for part in plan.parts]
    if [(part.date, part.material, part.rate_g_m2) for part in sure] != listed:
        found.append("the parts that go on in any case are not those of the plan")
    later = sum(part.rate_g_m2 for part in answer.applications if part.only_if is not None)
    lines = [line.part_g_m2 for line in plan.decides]
    if later > 0.0 and not any(abs(later - rate) < 1e-6 for rate in lines):
        found.append(f"{later:g} g/m2 after the test is no line of it ({lines})")
    return found


def way_of(material: Material, *, in_pot: bool) -> Direction:
    """Which way a material moves the pH."""
    acid = acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=in_pot)
    if acid == 0.0:
        return Direction.NONE
    return Direction.ACIDIFY if acid > 0.0 else Direction.LIME
