"""One look at a bed by the column: belief, judgement, plan and forecast from the same beds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from loamshift.domain.answer import Application, Refit
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.bed_run import Runner
from loamshift.services.belief.belief import Belief, believe
from loamshift.services.belief.possible_beds import PossibleBeds
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.forecast.outlook import DAYS_IN_YEAR, Outlook, outlook
from loamshift.services.plan.plan import Plan, plan_of, with_courses
from loamshift.services.verdict.judge import days_needed, judge
from loamshift.services.verdict.judgement import Judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What one look at a bed gives; everything the answer says is made from it.

    ``context`` with the soil as it is believed now; ``members`` of the column that were run, 0
    for none; ``beds`` the possible beds that were judged.
    """

    context: BedContext
    judged: Judgement
    plan: Plan
    refit: Refit | None = None
    outlook: Outlook | None = None
    members: int = 0
    beds: Runner | None = None

    @property
    def possible_beds(self) -> PossibleBeds:
        """The beds that were judged, as members of the column."""
        assert isinstance(self.beds, PossibleBeds)
        return self.beds


def look_with_column(
    context: BedContext, *, members: int, seed: int, years: int, refit: bool, threads: int = 2
) -> Look:
    """The look by the column: belief, judgement, plan and forecast from the same possible beds.

    Parameters
    ----------
    members
        Members of the column, 25 or more [count].
    seed
        Seed of their draws [number].
    years
        Years shown [years].
    refit
        False leaves earlier readings aside.
    threads
        Threads that share the members [count].
    """
    ahead = max(days_needed(context), round(years * DAYS_IN_YEAR) + 8)
    belief = believe(
        context,
        _templates(context),
        members=members,
        seed=seed,
        days_ahead=ahead,
        refit=refit,
    )
    believed = replace(context, soil=belief.soil)
    belief = replace(belief, beds=replace(belief.beds, threads=threads))
    alone = belief.beds.run(())
    judged = judge(believed, belief.beds, alone=alone, doubted=_is_doubted(belief))
    plan = with_courses(plan_of(believed, judged), judged)
    return Look(
        context=believed,
        judged=judged,
        plan=plan,
        refit=belief.refit,
        outlook=outlook(
            belief.beds,
            context=believed,
            alone=alone,
            planned_ph=plan.ph,
            planned=plan.applications,
            until=context.case.today + timedelta(days=round(years * DAYS_IN_YEAR)),
            balance_error=alone.balance_error
            if judged.courses is None
            else max(alone.balance_error, judged.courses.balance_error),
        ),
        members=belief.beds.inputs.members.parameters.n_members,
        beds=belief.beds,
    )


def _templates(context: BedContext) -> tuple[Application, ...]:
    """What may go on either way, so that every depth worked to is an edge of a layer."""
    if context.target is None:
        return ()
    return tuple(
        part
        for acidify in (True, False)
        for part in seasons_ahead(context, acidify=acidify).simulated((1.0,))
    )


def _is_doubted(belief: Belief) -> bool:
    return belief.refit is not None and bool(belief.refit.doubted)
