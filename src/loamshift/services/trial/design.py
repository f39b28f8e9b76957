"""What a trial will be: who stands where, how much goes on, and what it can show."""

from __future__ import annotations

import numpy as np

from loamshift.core.design.layout import shuffled
from loamshift.core.design.size import smallest_difference_ph
from loamshift.domain.answer import Caution
from loamshift.domain.case import BedKind
from loamshift.domain.rules import CautionKind
from loamshift.domain.trial import Design, Error, Lack, Place, Trial, TrialPlan
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import load_cautions


def plan_trial(trial: Trial) -> TrialPlan:
    """The layout of a trial, what goes on each place, and the smallest difference it can show."""
    params = parameter_values("trial")
    level, power = params["level"], params["power"]
    error = error_of(trial)
    sd_ph = error.sd_ph * _share_of_sd(trial)
    lacks = tuple(
        lack
        for lack, is_so in (
            (Lack.CONTROL, not trial.has_control),
            (Lack.REPLICATES, trial.replicates < 2),
        )
        if is_so
    )
    curve = tuple(
        (
            n,
            smallest_difference_ph(
                sd_ph=sd_ph,
                replicates=n,
                n_treatments=trial.n_treatments,
                in_blocks=trial.in_blocks,
                level=level,
                power=power,
            ),
        )
        for n in range(2, max(round(params["most_replicates"]), trial.replicates) + 1)
    )
    return TrialPlan(
        trial=trial,
        places=places_of(trial),
        grams=tuple(
            tuple(
                _grams(rate_g_m2=entry.rate_g_m2, area_m2=trial.case.bed.area_m2)
                for entry in treatment.adds
            )
            for treatment in trial.treatments
        ),
        lacks=lacks,
        error=error,
        power=power,
        level=level,
        smallest_ph=dict(curve).get(trial.replicates),
        by_replicates=curve,
        cautions=_cautions(trial),
    )


def places_of(trial: Trial) -> tuple[Place, ...]:
    """Every pot, plot, strip or bed with its treatment, shuffled by the seed of the trial.

    Not shuffled where nothing is decided by lot.
    """
    in_order = np.arange(trial.n_treatments)
    order = (
        np.tile(in_order, trial.replicates)
        if trial.in_blocks
        else np.repeat(in_order, trial.replicates)
    )
    if trial.by_lot:
        order = shuffled(
            replicates=trial.replicates,
            n_treatments=trial.n_treatments,
            in_blocks=trial.in_blocks,
            rng=np.random.default_rng(trial.seed),
        )
    return tuple(
        Place(
            label=str(index + 1),
            row=index // trial.per_row + 1,
            column=index % trial.per_row + 1,
            block=index // trial.n_treatments + 1 if trial.in_blocks else None,
            treatment=int(treatment),
        )
        for index, treatment in enumerate(order)
    )


def error_of(trial: Trial) -> Error:
    """How much pots of one treatment differ: as stated, by own slurries, or by our default."""
    if trial.sd_ph is not None:
        return Error(sd_ph=trial.sd_ph, df=None, basis="own")
    slurries = [np.array(one) for one in trial.slurry_ph]
    df = sum(one.size - 1 for one in slurries)
    squares = sum(float(np.sum((one - one.mean()) ** 2)) for one in slurries)
    if df and squares > 0.0:
        return Error(sd_ph=float(np.sqrt(squares / df)), df=df, basis="slurry")
    params = parameter_values("trial")
    if trial.case.bed.kind is BedKind.CONTAINER:
        return Error(sd_ph=params["pot_sd_ph"], df=None, basis="pots")
    return Error(sd_ph=params["field_sd_ph"], df=None, basis="field")


def _share_of_sd(trial: Trial) -> float:
    """Error of the change of one bed over that of one reading, each day counting alike [1].

    Notes
    -----
    Mean after less mean before, errors of days taken to be apart; beds that drift apart for
    reasons of their own make it larger.
    """
    if trial.design is not Design.BEFORE_AFTER:
        return 1.0
    before = sum(day <= 0 for day in trial.days)
    return float(np.sqrt(1.0 / before + 1.0 / (len(trial.days) - before)))


def _grams(*, rate_g_m2: float, area_m2: float | None) -> float | None:
    return None if area_m2 is None else rate_g_m2 * area_m2


def _cautions(trial: Trial) -> tuple[Caution, ...]:
    """The hazards of everything that goes on, in the order of the table."""
    used = {
        code
        for treatment in trial.treatments
        for entry in treatment.adds
        for code in entry.material.cautions
    }
    return tuple(
        Caution(
            code=code,
            text=rule.text,
            source_key=rule.source_key,
            short=rule.short,
            handling=True,
        )
        for code, rule in load_cautions().items()
        if code in used and rule.kind is CautionKind.HAZARD
    )
