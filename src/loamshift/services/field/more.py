"""How many further samples would pay, and about where."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.field_outcome import NODES, best_share, shares_over
from loamshift.core.field_pattern import covariance_between, next_places
from loamshift.domain.answer import Application
from loamshift.domain.case import Case
from loamshift.domain.field import FieldInput, MoreSamples
from loamshift.domain.ph import PhMethod
from loamshift.services.field.compare import knots_over
from loamshift.services.field.estimate import Estimate
from loamshift.services.field.judge import Ground, Judged, outcomes
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
MOST_SPOTS: Final = 250
"""Cells that further samples are tried on, spread evenly over the field [count]."""
TEN: Final = 10
"""Further samples are looked at by tens [count]."""
SQUARE_M_HA: Final = 10_000.0

More = tuple[tuple[MoreSamples, ...], int, tuple[tuple[float, float], ...]]


def further_samples(
    field: FieldInput,
    base: Case,
    method: PhMethod,
    found: Estimate,
    mean: Ground,
    *,
    judged: Sequence[Judged],
    by_mean: Judged,
    sample_price: float | None,
    loss_per_ha_year: float | None,
) -> More:
    """What ten, twenty … further samples would bring, how many are worth it, and where.

    Parameters
    ----------
    sample_price
        Of one sample [currency].
    loss_per_ha_year
        What a hectare outside the range costs a year [currency/ha/yr].

    Returns
    -------
    tuple
        A row for each number, how many are worth taking [count], and their places [m]. Nothing
        where no map was drawn.

    Notes
    -----
    Each is taken where it leaves least unknown. Its reading is not known, only how far it would
    move the map; each spot then gets the best of the amounts at hand.
    """
    if found.pattern is None:
        return (), 0, ()
    limits = parameter_values("field")
    x_m, y_m = field.grid.middles()
    picked = np.linspace(0, len(x_m) - 1, min(MOST_SPOTS, len(x_m))).astype(np.int64)
    x_m, y_m, ph = x_m[picked], y_m[picked], found.ph_water[picked]
    covariance = covariance_between(found.pattern, x_m, y_m)
    most = int(min(limits["more_samples_most"], len(picked) - 1))
    places, sds = next_places(covariance, noise_sd=found.pattern.nugget_sd, count=most)
    paths = _different([(), by_mean.path, *(one.path for one in judged)])
    knots = knots_over(ph, sds[0])
    there = outcomes(base, mean, method, knots_ph=knots, ways=paths)[:, :, 1]
    now = _expected(ph, sds[0], sds[0], knots, there)
    rows = []
    for count in range(TEN, most + 1, TEN):
        gain = max(_expected(ph, sds[0], sds[count], knots, there) - now, 0.0)
        cost = None if sample_price is None else count * sample_price
        worth = None
        if loss_per_ha_year is not None:
            years = verdict_values()["seasons"]
            worth = gain * years * loss_per_ha_year * field.area_m2 / SQUARE_M_HA
        rows.append(MoreSamples(count=count, within=gain, cost=cost, gain=worth))
    taken = worth_taking(rows, least_frac=limits["sample_gain_least"])
    where = tuple((float(x_m[one]), float(y_m[one])) for one in places[:taken])
    return tuple(rows), taken, where


def worth_taking(rows: Sequence[MoreSamples], *, least_frac: float) -> int:
    """How many further samples pay: by money where it is known, else by what they bring.

    Parameters
    ----------
    rows
        Numbers of samples, rising, each with its gain.
    least_frac
        Share of the field that ten more must bring into range where nothing has a price [0-1].

    Returns
    -------
    int
        0 where none pays [count].
    """
    priced = [
        (one.gain - one.cost, one.count)
        for one in rows
        if one.gain is not None and one.cost is not None
    ]
    if priced:
        net, count = max(priced)
        return count if net > 0.0 else 0
    taken, before = 0, 0.0
    for one in rows:
        if one.within - before < least_frac:
            break
        taken, before = one.count, one.within
    return taken


def _expected(
    ph: FloatArray, sd_now: FloatArray, sd_then: FloatArray, knots: FloatArray, there: FloatArray
) -> float:
    """Share in range where each spot gets what is best for it once it is known so well [0-1]."""
    points, weights = np.polynomial.hermite_e.hermegauss(NODES // 2)
    weights = weights / weights.sum()
    moves = np.sqrt(np.clip(sd_now**2 - sd_then**2, 0.0, None))
    even = np.full(len(ph), 1.0 / len(ph))
    return float(
        sum(
            weight
            * best_share(
                shares_over(ph + point * moves, sd_then, knots_ph=knots, shares=there), even
            )
            for point, weight in zip(points, weights, strict=True)
        )
    )


def _different(
    paths: Sequence[tuple[Application, ...]],
) -> list[tuple[Application, ...]]:
    """Ways that are not the same in whole grams."""
    seen: dict[tuple[tuple[object, int], ...], tuple[Application, ...]] = {}
    for path in paths:
        key = tuple((one.date, round(one.rate_g_m2)) for one in path)
        seen.setdefault(key, path)
    return list(seen.values())
