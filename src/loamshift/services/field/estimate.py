"""What every spot of a field is like, by samples that show a pattern."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.field_pattern import Pattern, fit_pattern, pattern_at, try_pattern
from loamshift.domain.field import FieldInput, FieldSample, NoMap, Tried
from loamshift.domain.ph import PhReading
from loamshift.services.context.readings import ph_belief
from loamshift.tables.parameters import parameter_values
from loamshift.tables.ph_methods import default_ph_conversion

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What is believed of the cells inside a field, row by row.

    ``ph_water`` and ``ph_sd`` shape (P,) [pH]; ``clay_pct`` and ``organic_matter_pct`` shape (P,)
    [%], None where nobody measured them; ``pattern`` None where no map is drawn, and ``no_map``
    says why.
    """

    ph_water: FloatArray
    ph_sd: FloatArray
    clay_pct: FloatArray | None
    organic_matter_pct: FloatArray | None
    mean_ph: float
    spread_ph: float
    pattern: Pattern | None
    tried: Tried | None
    no_map: NoMap | None


def estimate(field: FieldInput, *, seed: int = 1) -> Estimate:
    """What the samples say of every cell, or of the field as a whole.

    Parameters
    ----------
    seed
        Of the shuffle that says which samples are left out together [count].

    Returns
    -------
    Estimate
        The mean and its spread everywhere, where the samples show no pattern.
    """
    limits = parameter_values("field")
    values = np.array([ph_in_water(one) for one in field.samples])
    x_m = np.array([one.x_m for one in field.samples])
    y_m = np.array([one.y_m for one in field.samples])
    count = int(field.grid.inside.sum())
    spread = float(values.std(ddof=1)) if len(values) > 1 else 0.0
    tried: Tried | None = None
    pattern: Pattern | None = None
    error = _own_error(field.samples)
    if any(zone.sample is not None for zone in field.zones):
        no_map: NoMap | None = NoMap.DRAWN_ZONES
    elif len(values) < limits["samples_least"]:
        no_map = NoMap.FEW
    elif spread <= limits["alike_sd_ph"]:
        no_map = NoMap.ALIKE
    else:
        fold = folds_of(len(values), int(limits["folds"]), seed=seed)
        trial = try_pattern(x_m, y_m, values, error_sd=error, fold=fold)
        pattern = fit_pattern(x_m, y_m, values, error_sd=error)
        tried = Tried(
            samples=len(values),
            folds=int(limits["folds"]),
            skill_frac=trial.skill_frac,
            error_ph=trial.error,
            error_of_mean_ph=trial.error_of_mean,
            held_frac=trial.held_frac,
            range_m=pattern.range_m,
            nugget_sd_ph=pattern.nugget_sd,
        )
        no_map = NoMap.NO_PATTERN if trial.skill_frac < limits["skill_least"] else None
    if no_map is not None or pattern is None:
        ph, sd = np.full(count, float(values.mean())), np.full(count, spread)
        pattern = None
    else:
        ph, sd = pattern_at(pattern, *field.grid.middles())
    return Estimate(
        ph_water=ph,
        ph_sd=sd,
        clay_pct=_beside(field, [one.clay_pct for one in field.samples], seed=seed),
        organic_matter_pct=_beside(
            field, [one.organic_matter_pct for one in field.samples], seed=seed
        ),
        mean_ph=float(values.mean()),
        spread_ph=spread,
        pattern=pattern,
        tried=tried,
        no_map=no_map,
    )


def ph_in_water(sample: FieldSample) -> float:
    """PH in water that a sample stands for [pH]."""
    return ph_belief(PhReading(ph=sample.ph, method=sample.method)).ph_water


def folds_of(samples: int, folds: int, *, seed: int) -> NDArray[np.int64]:
    """Which samples are left out together: by chance, and the same at each run.

    Parameters
    ----------
    samples, folds
        How many there are, and how many times some are left out [count].
    seed
        Of the shuffle [count].

    Returns
    -------
    ndarray
        Fold of each sample, shape (N,) [index].
    """
    return (np.random.default_rng(seed).permutation(samples) % folds).astype(np.int64)


def _own_error(samples: tuple[FieldSample, ...]) -> FloatArray:
    """Error by which samples of different methods stand apart; none where all share a method."""
    if len({one.method for one in samples}) < 2:
        return np.zeros(len(samples))
    return np.array([default_ph_conversion(one.method).sd for one in samples])


def _beside(field: FieldInput, values: list[float | None], *, seed: int) -> FloatArray | None:
    """Clay or organic matter by cell: mapped where it shows a pattern, else its mean [%]."""
    known = [(one.x_m, one.y_m, value) for one, value in _measured(field.samples, values)]
    if not known:
        return None
    x_m, y_m, found = (np.array(column) for column in zip(*known, strict=True))
    count = int(field.grid.inside.sum())
    limits = parameter_values("field")
    flat = np.full(count, float(found.mean()))
    if len(found) < limits["samples_least"] or found.std() <= 0.0:
        return flat
    none = np.zeros(len(found))
    fold = folds_of(len(found), int(limits["folds"]), seed=seed)
    if try_pattern(x_m, y_m, found, error_sd=none, fold=fold).skill_frac < limits["skill_least"]:
        return flat
    told, _ = pattern_at(fit_pattern(x_m, y_m, found, error_sd=none), *field.grid.middles())
    return np.clip(told, found.min(), found.max())


def _measured(
    samples: tuple[FieldSample, ...], values: list[float | None]
) -> list[tuple[FieldSample, float]]:
    pairs = zip(samples, values, strict=True)
    return [(sample, value) for sample, value in pairs if value is not None]
