"""How a bed that had too much comes back over time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from loamshift.domain.decision import Band
from loamshift.domain.plan import PlanRule


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueStage:
    """One day of a rescue.

    ``come_frac`` share that has acted by then of what the reading had not seen yet, None where
    nothing is to come [0-1]; ``untreated`` and ``treated`` the pH of the beds left alone, and
    with the plan [pH in water].
    """

    on: date
    come_frac: float | None
    untreated: Band
    treated: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueCourse:
    """A rescue over time, from simulated beds.

    ``plan`` what goes back on first and what each test decides, its shares those of beds between
    ``limit_low_ph`` and ``limit_high_ph``, which the plants bear [pH in water]. ``safe_on`` the
    day from which half of the beds stay between them with the plan, ``safe_90_on`` nine in ten;
    ``safe_untreated_on`` half of those left alone; each None where none is in sight. ``look_to``
    the last day looked at.
    """

    plan: PlanRule
    stages: tuple[RescueStage, ...]
    limit_low_ph: float
    limit_high_ph: float
    safe_on: date | None
    safe_90_on: date | None
    safe_untreated_on: date | None
    look_to: date

    @property
    def is_safe_by_ph(self) -> bool:
        """True where nine beds in ten stay between the limits from the first day on."""
        return self.safe_90_on is not None and self.safe_90_on <= self.stages[0].on

    @property
    def acts(self) -> bool:
        """True where something goes back on, now or by what a test reads."""
        return bool(self.plan.parts) or any(line.part_g_m2 > 0.0 for line in self.plan.decides)
