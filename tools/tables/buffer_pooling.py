"""Sources of measured buffering pooled: how far they lie from the curve, and one left out.

Every point is log10 of what a source finds over what the curve gives at k = 1. The covariance of
points is a sum: a deviation of the source, a deviation of the source in absolute units (it counts
in proportion to ``WEAK_SLOPE`` over the slope of the curve), a misfit of a function's shape, a
deviation of the soil, and the error of the measurement.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np
from common import source_rows
from numpy.typing import NDArray
from scipy.optimize import minimize

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.buffer_acidity import acidity_mmolc_kg, reading_log10_sd
from loamshift.tables.laboratory import load_buffer_ph_methods
from loamshift.tables.model import buffer_parameters
from loamshift.tables.soils import soil_values

FloatArray = NDArray[np.float64]

CASES = Path(__file__).resolve().parents[2] / "tests" / "published" / "cases"
WINDOW_PH = (4.5, 6.5)
GRID = ((5.0, 0.6), (5.0, 1.2), (5.0, 3.0), (15.0, 1.0), (15.0, 2.5), (35.0, 1.3), (35.0, 3.5))
"""Clay and organic carbon at which a printed function is read [%]."""
WEAK_SLOPE = 10.0
"""Slope of a poor sand, at which the absolute deviation counts in full [mmolc/kg/pH]."""
LEAST_STEP_MMOLC_KG = 12.0
"""Samples are kept by what the curve expects, never by what was read: below this the error of a
buffer pH is larger than the acidity [mmolc/kg]."""
READ_SD = 0.03
"""Error of reading a printed function over this window, not over its own [log10]."""
CARBON_PER_MATTER = 1.0 / 1.724
Z90, Z50 = 1.6449, 0.6745


class Point(NamedTuple):
    """One comparison. ``soil`` is empty for a function, which is a mean over soils."""

    source: str
    region: str
    soil: str
    clay_pct: float
    carbon_pct: float
    slope: float
    middle_ph: float
    found: float
    error: float


class Spread(NamedTuple):
    """Standard deviations [log10]; ``weak`` is that of a soil with ``WEAK_SLOPE``."""

    source: float
    weak: float
    shape: float
    soil: float

    def variance(self, point: Point) -> float:
        """Of one point about the curve, its measurement left out."""
        shared = self.source**2 + (self.weak * WEAK_SLOPE / point.slope) ** 2
        return shared + (self.soil**2 if point.soil else self.shape**2)


class Mean(NamedTuple):
    """The pooled mean and its standard error [log10]."""

    at: float
    error: float


class Score(NamedTuple):
    """Every source counted alike: bias, root mean square [log10], shares within [0-1]."""

    n_sources: int
    n_points: int
    bias: float
    rmse: float
    within_90: float
    within_50: float


def points() -> list[Point]:
    """Every comparison with the curve, volcanic soils apart."""
    return [*_functions(), *_liming_trial(), *_brazil(), *_wisconsin()]


def soil_sd() -> float:
    """Scatter of soils about the function of their own region [log10].

    The share of variance left, on the spread of buffering within a region (0.25, see buffer.csv).
    """
    left = [1.0 - float(row["r2"]) for row in source_rows("buffer_functions") if row["r2"]]
    return 0.25 * math.sqrt(float(np.median(left)))


def fit(
    found: Sequence[Point], *, mean: float | None = 0.0, groups: Sequence[str] = ()
) -> tuple[Spread, Mean, float]:
    """Spreads by likelihood, about a given mean or about their own (restricted).

    ``groups`` names a group of each point that may have a deviation of its own, as a texture or
    a region; the likelihood then shows whether it has. Returns the spreads, the pooled mean with
    its error, and the log-likelihood.
    """
    soil = soil_sd()
    y = np.array([point.found for point in found])
    ones = np.ones_like(y)
    parts = _parts(found, groups)

    def spread_of(logs: FloatArray) -> Spread:
        source, weak, shape = (math.exp(min(max(float(log), -9.0), 1.0)) for log in logs[:3])
        return Spread(source, weak, shape, soil)

    def inverse_of(logs: FloatArray) -> tuple[FloatArray, float]:
        more = math.exp(min(max(float(logs[3]), -9.0), 1.0)) if groups else 0.0
        covariance = parts.covariance(spread_of(logs), more)
        factor = np.linalg.cholesky(covariance)
        inverse: FloatArray = np.linalg.inv(covariance).astype(np.float64)
        return inverse, 2.0 * float(np.log(np.diag(factor)).sum())

    def loss(logs: FloatArray) -> float:
        inverse, logdet = inverse_of(logs)
        information = float(ones @ inverse @ ones)
        centre = float(ones @ inverse @ y) / information if mean is None else mean
        off = y - centre
        value = logdet + float(off @ inverse @ off)
        return 0.5 * (value + (math.log(information) if mean is None else 0.0))

    best = minimize(
        loss,
        np.log([0.15, 0.1, 0.05] + ([0.05] if groups else [])),
        method="Nelder-Mead",
        options={"xatol": 1e-3, "fatol": 1e-4},
    )
    inverse, _ = inverse_of(best.x)
    information = float(ones @ inverse @ ones)
    pooled = Mean(float(ones @ inverse @ y) / information, 1.0 / math.sqrt(information))
    return spread_of(best.x), pooled, -float(best.fun)


def left_out(found: Sequence[Point], *, flat_sd: float | None = None) -> dict[str, FloatArray]:
    """Each source met by a fit that never saw it: deviation over its sd, and both, by point.

    ``flat_sd`` scores one sd for every soil instead, with ``soil_sd`` taken out for a function.
    """
    met: dict[str, FloatArray] = {}
    for source in dict.fromkeys(point.source for point in found):
        own = [point for point in found if point.source == source]
        others = [point for point in found if point.source != source]
        spread = fit(others)[0] if flat_sd is None else None
        rows = []
        for point in own:
            if spread is not None:
                variance = spread.variance(point)
            else:
                variance = (flat_sd or 0.0) ** 2 - (0.0 if point.soil else soil_sd() ** 2)
            rows.append((point.found, math.sqrt(variance + point.error**2)))
        met[source] = np.array(rows)
    return met


def score(met: dict[str, FloatArray]) -> Score:
    """Bias, error and coverage of sources left out, every source counted alike."""
    z = {source: np.abs(rows[:, 0] / rows[:, 1]) for source, rows in met.items()}
    return Score(
        len(met),
        sum(len(rows) for rows in met.values()),
        float(np.mean([rows[:, 0].mean() for rows in met.values()])),
        math.sqrt(float(np.mean([np.mean(rows[:, 0] ** 2) for rows in met.values()]))),
        float(np.mean([np.mean(one <= Z90) for one in z.values()])),
        float(np.mean([np.mean(one <= Z50) for one in z.values()])),
    )


class _Parts(NamedTuple):
    """The covariance of points by cause, at unit variance."""

    source: FloatArray
    weak: FloatArray
    shape: FloatArray
    soil: FloatArray
    group: FloatArray
    own: FloatArray

    def covariance(self, spread: Spread, group_sd: float) -> FloatArray:
        total: FloatArray = (
            spread.source**2 * self.source
            + spread.weak**2 * self.weak
            + spread.shape**2 * self.shape
            + spread.soil**2 * self.soil
            + group_sd**2 * self.group
            + self.own
        )
        return total


def _parts(found: Sequence[Point], groups: Sequence[str]) -> _Parts:
    weak = np.array([WEAK_SLOPE / point.slope for point in found])
    single = np.array([bool(point.soil) for point in found])
    same = _same([point.source for point in found])
    return _Parts(
        same,
        same * np.outer(weak, weak),
        np.diag((~single).astype(np.float64)),
        same * _same([point.soil for point in found]) * np.outer(single, single),
        _same(groups) if groups else np.zeros_like(same),
        np.diag([point.error**2 for point in found]),
    )


def _same(labels: Sequence[str]) -> FloatArray:
    numbers = np.unique(np.array(labels), return_inverse=True)[1]
    same: FloatArray = (numbers[:, None] == numbers[None, :]).astype(np.float64)
    return same


def curve_slope(clay_pct: float, carbon_pct: float) -> float:
    """Mean slope of the curve at k = 1 over ``WINDOW_PH`` [mmolc/kg/pH]."""
    low, high = WINDOW_PH
    return _acid(high, low, clay_pct, carbon_pct) / (high - low)


def _acid(high: float, low: float, clay_pct: float, carbon_pct: float) -> float:
    return acid_between_mmolc_kg(
        high,
        low,
        clay_pct=clay_pct,
        organic_carbon_pct=carbon_pct,
        params=buffer_parameters(),
    )


def _functions() -> Iterable[Point]:
    """Printed functions at the points of the grid they cover; several of one hand are averaged."""
    groups: dict[str, list[dict[str, str]]] = {}
    for row in source_rows("buffer_functions"):
        groups.setdefault(row["source"], []).append(row)
    groups["weaver-2004"] = []
    for source, rows in groups.items():
        for clay, carbon in GRID:
            if source == "weaver-2004":
                found, region = _weaver(clay, carbon), "North America"
            else:
                found, region = _linear(rows, clay, carbon), rows[0]["region"]
            if not found:
                continue
            slope = curve_slope(clay, carbon)
            ratio = float(np.mean([math.log10(one / slope) for one in found]))
            middle = 0.5 * sum(WINDOW_PH)
            yield Point(source, region, "", clay, carbon, slope, middle, ratio, READ_SD)


def _linear(rows: Sequence[dict[str, str]], clay: float, carbon: float) -> list[float]:
    return [
        float(row["intercept"]) + float(row["per_carbon"]) * carbon + float(row["per_clay"]) * clay
        for row in rows
        if float(row["clay_low_pct"]) <= clay <= float(row["clay_high_pct"])
        and float(row["carbon_low_pct"]) <= carbon <= float(row["carbon_high_pct"])
    ]


def _weaver(clay: float, carbon: float) -> list[float]:
    """Coastal plain sands: pH per kg CaCO3/ha in 15 cm of 1.5 g/cm3, PHBC11."""
    if clay > 15.0 or carbon > 1.6:
        return []
    per_kg_ha = 0.0087 * math.exp(-2.16 * carbon)
    g_kg = 0.1 / per_kg_ha / (10.0 * 15.0 * 1.5)
    return [g_kg * 19.98]


def _cases(name: str) -> list[dict[str, str]]:
    with (CASES / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def _titrated(key: str, source: str, region: str) -> Iterable[Point]:
    params = buffer_parameters()
    for row in _cases("buffer_titrations"):
        if row["soil"] != key:
            continue
        clay, carbon = float(row["clay_pct"]), float(row["organic_carbon_pct"])
        high, low = float(row["ph_high"]), float(row["ph_low"])
        ratio = math.log10(float(row["acid_mmolc_kg"]) / _acid(high, low, clay, carbon))
        step = math.sqrt(2.0) * params.step_ph_sd / (high - low) / math.log(10.0)
        error = math.hypot(step, params.log10_k_floor_sd)
        slope = curve_slope(clay, carbon)
        yield Point(source, region, key, clay, carbon, slope, 0.5 * (high + low), ratio, error)


def _liming_trial() -> Iterable[Point]:
    yield from _titrated("RLT", "glendining-2023", "Europe")


def _brazil() -> Iterable[Point]:
    yield from _titrated("BRA", "bassoi-soil250", "South America")


def _wisconsin() -> Iterable[Point]:
    """Samples by pit; acid by their buffer pH, which has an error of its own."""
    method = load_buffer_ph_methods()["sikora"]
    target = method.target_ph or soil_values()["buffer_target_ph"]
    params = buffer_parameters()
    for row in _cases("wisconsin_sikora"):
        clay = float(row["clay_pct"])
        carbon = float(row["organic_matter_pct"]) * CARBON_PER_MATTER
        ph, reading = float(row["ph_water"]), float(row["sikora_ph"])
        usual = _acid(target, ph, clay, carbon)
        if usual < LEAST_STEP_MMOLC_KG:
            continue
        acid = acidity_mmolc_kg(
            method.form,
            method.coefficients,
            reading=reading,
            ph_water=ph,
            target_ph=target,
            bulk_density_g_cm3=1.3,
            slice_kg_m2=method.slice_kg_m2,
            field_allowance=method.field_allowance,
        )
        reading_sd = reading_log10_sd(
            method.form,
            method.coefficients,
            reading=reading,
            reading_sd=soil_values()["buffer_ph_sd"],
        )
        step = params.step_ph_sd / (target - ph) / math.log(10.0)
        error = math.sqrt(method.log10_sd**2 + reading_sd**2 + step**2)
        pit = "-".join(row["soil"].split("-")[1:2])
        slope = curve_slope(clay, carbon)
        yield Point(
            "braus-whitman-2021",
            "North America",
            pit,
            clay,
            carbon,
            slope,
            0.5 * (ph + target),
            math.log10(acid / usual),
            error,
        )
