"""One bed of many: the outcome of its answer, and nothing written of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from loamshift.core.loops import PLAIN, Loops
from loamshift.domain.answer import Application, Direction, Forecast
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.services.cautions.caution_rules import COMPARING
from loamshift.services.cautions.cautions import caution_facts, codes_of
from loamshift.services.cautions.missing import missing
from loamshift.services.context.aim import wanted
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.many.brought import limit_times
from loamshift.services.many.outcome import Outcome, outcome_of_parts
from loamshift.services.plan.dose import dose
from loamshift.services.plan.plan import Plan, first_season_mmolc_m2, plan_of
from loamshift.services.products.options import compared_products
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement


def outcome_of_bed(case: Case, *, key: str, loops: Loops = PLAIN) -> Outcome:
    """The outcome of a bed without a forecast: that of its answer, at a part of the work.

    Parameters
    ----------
    key
        What tells this row from the others.
    loops
        How the long sums are worked out: without a compiler, or by machine code for many beds.

    Notes
    -----
    The same judgement, plan, cautions and questions as ``advise`` without a forecast, by the same
    functions; left out is what an outcome does not hold: sentences, other products with their
    figures, upkeep, claims, a rescue, and what each further test is worth.
    """
    decided = decide(build_context(case, loops=loops))
    return _outcome(decided.context, decided.judged, plan_of(decided.context, decided.judged), key)


def outcome_of_planned_bed(
    case: Case, plan: Sequence[Application], *, key: str, loops: Loops = PLAIN
) -> Outcome:
    """The outcome of a bed without a forecast, and what is to be said of a plan that it brings.

    Parameters
    ----------
    plan
        Dated parts of it, none of which the verdict takes notice of.
    key
        What tells this row from the others.
    loops
        How the long sums are worked out.
    """
    decided = decide(build_context(case, loops=loops))
    context, judged = decided.context, decided.judged
    facts = caution_facts(context, judged, applications=tuple(plan), compared=())
    return replace(
        _outcome(context, judged, plan_of(context, judged), key),
        planned_limit_times=limit_times(context, plan),
        planned_cautions=tuple(sorted(codes_of(facts))),
    )


def outcome_of_bed_ahead(
    case: Case, *, key: str, members: int, seed: int, years: int, loops: Loops = PLAIN
) -> Outcome:
    """The outcome of a bed with a forecast: that of its answer, at a part of the work.

    Parameters
    ----------
    key
        What tells this row from the others.
    members
        Members of the column, 25 or more [count].
    seed
        Seed of their draws [number].
    years
        Years shown [years].
    loops
        How the long sums are worked out: without a compiler, or by machine code for many beds.

    Notes
    -----
    The same look by the column as ``advise`` takes, on one thread, since other rows keep the other
    cores busy; left out is what an outcome does not hold.
    """
    context = build_context(case, loops=loops)
    if context.soil is None or beyond_forecast(context) is not None:
        return outcome_of_bed(case, key=key, loops=loops)
    from loamshift.services.look import look_with_column  # loads the compiler

    look = look_with_column(context, members=members, seed=seed, years=years, refit=True, threads=1)
    assert look.outlook is not None
    return _outcome(look.context, look.judged, look.plan, key, ahead=look.outlook.forecast)


def _outcome(
    context: BedContext, judged: Judgement, plan: Plan, key: str, *, ahead: Forecast | None = None
) -> Outcome:
    facts = caution_facts(
        context,
        judged,
        applications=plan.applications,
        compared=_compared(context, judged, plan),
    )
    return outcome_of_parts(
        key=key,
        judged=judged,
        wanted=wanted(context),
        dose=dose(context, judged),
        plan=plan.rule,
        too_early_before=plan.too_early_before,
        cautions=codes_of(facts),
        questions=[gap.field for gap in missing(context, judged)],
        ahead=ahead,
    )


def _compared(context: BedContext, judged: Judgement, plan: Plan) -> tuple[str, ...]:
    """Other products of the first season's part, where a caution may hang on them."""
    no_part = plan.rule is None or judged.direction is Direction.NONE
    if plan.rule is None or no_part or judged.decision not in COMPARING:
        return ()
    acid = first_season_mmolc_m2(
        context, rule=plan.rule, applications=plan.applications, direction=judged.direction
    )
    return compared_products(
        context,
        acid_mmolc_m2=acid,
        direction=judged.direction,
        on_hand=context.case.on_hand,
    )
