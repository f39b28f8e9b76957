"""An invented trial, and readings made up from means and noise; no real garden's."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from loamshift.case.trial_read import parse_trial
from loamshift.domain.trial import Trial, TrialPlan
from loamshift.domain.trial_result import RowRead
from loamshift.services.trial.design import plan_trial

LIMY = """
[bed]
area = "0.03 m2"
depth = "15 cm"
[place]
name = "Minneapolis"
[soil]
ph = 7.8
ph_method = "water 1:2.5"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 5
"""
TWO = """
[[treatment]]
name = "nothing"
[[treatment]]
name = "peat"
material = "peat"
rate = "10 kg/m2"
[[treatment]]
name = "sulfur"
material = "elemental sulfur, powder"
rate = "100 g/m2"
"""


def trial(head: str = "", treatments: str = TWO, soil: str = LIMY) -> Trial:
    """A trial with keys of its own at the head."""
    return parse_trial(
        'trial = 1\nname = "Peat"\nquestion = "Does it last?"\nstart = 2026-04-20\nseed = 7\n'
        f"{head}\n{soil}\n{treatments}"
    )


def plan(head: str = "", treatments: str = TWO) -> TrialPlan:
    """Its design."""
    return plan_trial(trial(head, treatments))


def rows(
    made: TrialPlan,
    mean: Callable[[str, int], float],
    *,
    seed: int = 1,
    pot_sd: float = 0.05,
    sd: float = 0.04,
    days: tuple[int, ...] | None = None,
) -> list[RowRead]:
    """A reading of every pot on every day, about the mean of its treatment."""
    rng = np.random.default_rng(seed)
    of_pot = {place.label: rng.normal(0.0, pot_sd) for place in made.places}
    found: list[RowRead] = []
    for day in days or made.trial.days:
        for place in made.places:
            name = made.trial.treatments[place.treatment].name
            ph = mean(name, day) + of_pot[place.label] + rng.normal(0.0, sd)
            found.append(
                RowRead(
                    line=len(found) + 2,
                    pot=place.label,
                    day=day,
                    on=made.trial.due(day),
                    ph=round(float(ph), 2),
                    method=made.trial.ph_method,
                )
            )
    return found
