"""What one row of many comes to: the answer to a bed in few enough fields for a long table."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Protocol

from loamshift.domain.answer import Answer, Decision, Direction, Dose, Forecast, Reason, Wanted

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from loamshift.domain.plan import PlanPart, PlanRule


class Decided(Protocol):
    """What verdict and judgement have in common."""

    @property
    def decision(self) -> Decision:
        """What the adviser is told to do."""
        ...

    @property
    def reason(self) -> Reason | None:
        """Why."""
        ...

    @property
    def ph_now(self) -> float | None:
        """Where the bed is now [pH in water]."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One row of many, answered.

    ``key`` tells the row from all others. ``reason`` is the code the line of reasons is made from,
    with ``ph_now`` of the bed today and the range wanted, ``ph_low`` to ``ph_high`` with
    ``ph_aim`` in it [pH in water]; a range that nobody named is None.

    ``need_mid_g_m2`` between ``need_lo90_g_m2`` and ``need_hi90_g_m2`` is what the aim takes of
    pure sulfur as S or of pure lime as CaCO3 by ``direction``; None where nothing is to go on
    [g/m2]. The plan puts on ``plan_g_m2`` of the product ``material`` as bought [g/m2], in
    ``parts`` dated parts that go on whatever a test reads [count], the first of them
    ``first_g_m2`` on ``first_on``. A test before ``not_before`` is too early to show anything;
    ``next_test`` is the day of the test that decides what follows.

    ``cautions`` are the codes of the cautions and ``questions`` the paths of the case file that
    nobody filled in and that matter, each in the order of the alphabet.

    ``share_in_range`` of the possible beds in the range on ``forecast_on`` and a year on [0-1],
    and ``ph_lo90``, ``ph_mid`` and ``ph_hi90`` on the last day of the forecast [pH in water], by
    the ensemble; None where no forecast was made.

    Of a plan that the row brings: ``planned_limit_times`` the most it comes to of a printed limit,
    above 1 where it passes one [1], ``planned_cautions`` the codes of its cautions, and
    ``planned_ends`` where its forecast ends, ``below``, ``in range`` or ``above``.
    """

    key: str
    verdict: Decision
    reason: Reason | None
    direction: Direction
    ph_now: float | None = None
    ph_low: float | None = None
    ph_high: float | None = None
    ph_aim: float | None = None
    need_lo90_g_m2: float | None = None
    need_mid_g_m2: float | None = None
    need_hi90_g_m2: float | None = None
    material: str = ""
    plan_g_m2: float | None = None
    parts: int = 0
    first_g_m2: float | None = None
    first_on: date | None = None
    not_before: date | None = None
    next_test: date | None = None
    cautions: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    forecast_on: date | None = None
    share_in_range: float | None = None
    ph_lo90: float | None = None
    ph_mid: float | None = None
    ph_hi90: float | None = None
    planned_limit_times: float | None = None
    planned_cautions: tuple[str, ...] = ()
    planned_ends: str = ""


def end_in_range(outcome: Outcome) -> str:
    """Where the middle of a forecast ends: below the range wanted, in it or above it.

    Returns
    -------
    str
        Empty without a forecast or a range.
    """
    if outcome.ph_mid is None or outcome.ph_low is None or outcome.ph_high is None:
        return ""
    if outcome.ph_mid < outcome.ph_low:
        return "below"
    return "above" if outcome.ph_mid > outcome.ph_high else "in range"


def outcome_of(answer: Answer, *, key: str) -> Outcome:
    """The row that an answer comes to.

    Parameters
    ----------
    answer
        Of one bed, with a forecast or without.
    key
        What tells this row from the others.
    """
    return outcome_of_parts(
        key=key,
        judged=answer.verdict,
        wanted=answer.wanted,
        dose=answer.dose,
        plan=answer.plan,
        too_early_before=answer.too_early_before,
        cautions=[caution.code for caution in answer.cautions],
        questions=[gap.field for gap in answer.missing],
        ahead=answer.forecast,
    )


def outcome_of_parts(
    *,
    key: str,
    judged: Decided,
    wanted: Wanted | None,
    dose: Dose,
    plan: PlanRule | None,
    too_early_before: date | None,
    cautions: Iterable[str],
    questions: Iterable[str],
    ahead: Forecast | None = None,
) -> Outcome:
    """The row that the parts of an answer come to, where no answer was written.

    Parameters
    ----------
    judged
        Verdict or judgement.
    ahead
        The forecast, None without one.
    """
    need = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    parts: Sequence[PlanPart] = () if plan is None else plan.parts
    decides = () if plan is None else plan.decides
    first = min(parts, key=lambda part: part.date, default=None)
    return Outcome(
        key=key,
        verdict=judged.decision,
        reason=judged.reason,
        direction=dose.direction,
        ph_now=judged.ph_now,
        ph_low=None if wanted is None else wanted.ph_low,
        ph_high=None if wanted is None else wanted.ph_high,
        ph_aim=None if wanted is None else wanted.ph_aim,
        need_lo90_g_m2=None if need is None else need.lo90,
        need_mid_g_m2=None if need is None else need.mid,
        need_hi90_g_m2=None if need is None else need.hi90,
        material="" if plan is None else plan.material,
        plan_g_m2=None if not parts else sum(part.rate_g_m2 for part in parts),
        parts=len(parts),
        first_g_m2=None if first is None else first.rate_g_m2,
        first_on=None if first is None else first.date,
        not_before=too_early_before,
        next_test=min((line.test for line in decides), default=None),
        cautions=tuple(sorted(set(cautions))),
        questions=tuple(sorted(set(questions))),
        forecast_on=None if ahead is None else ahead.dates[-1],
        share_in_range=None if ahead is None or plan is None else plan.share_in_range,
        ph_lo90=None if ahead is None else ahead.ph.q05[-1],
        ph_mid=None if ahead is None else ahead.ph.q50[-1],
        ph_hi90=None if ahead is None else ahead.ph.q95[-1],
    )
