"""The sulfur clock against published shares oxidised, and against what the trade knows."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

import numpy as np

from loamshift.core.climate import ClimateParameters, days_from, soil_temperature_c
from loamshift.core.sulfur_course import days_until_frac, oxidised_course
from loamshift.core.sulfur_rate import SulfurParameters
from loamshift.services.belief.column_parts import grown_log_odds_sd
from loamshift.tables.parameters import load_parameters, parameter_values
from published.check import Check, Kind
from published.checks.carbonate import rows

SEED = 1
IN_VIEW = (
    "these rows: activation_energy was lowered, and the exponent of crowding set, after some had "
    "been scored"
)
N_DRAWS = 400
DAY_1_APRIL, DAY_1_OCTOBER = 91, 274
GRADES = {"flowers or dusting, 10-75 um": (10.0, 75.0), "100 mesh, 40-150 um": (40.0, 150.0)}
MOST_RMSE_PCT = 19.3
"""Of the law before, on the same ten rows; set before the new law was scored [points]."""
BEFORE_COARSE_FIELD_PCT = 48.0
"""Of the law before, 250-500 um after three years in the field [%]."""
COARSE_FIELD = "field 250-500 um"
SET_B = "pastille"
"""Rows that the exponent of crowding was set from."""


@dataclass(frozen=True)
class RowScore:
    """One row: observed, median and quantiles 5, 25, 75 and 95 % of the share oxidised [%]."""

    case: str
    observed: float
    median: float
    low: float
    lower: float
    upper: float
    high: float

    def line(self) -> str:
        """Observed, median and band in words."""
        return (
            f"{self.case}: {self.observed:.0f} observed, {self.median:.0f} "
            f"({self.low:.0f} to {self.high:.0f})"
        )


def checks() -> list[Check]:
    scores = row_scores()
    return [_held(scores), _middles(scores), _coarse_field(scores), _cold_autumn()]


def row_scores() -> list[RowScore]:
    """Every row under the medians and under draws of the tool's own priors."""
    params = SulfurParameters(**parameter_values("sulfur"))
    cases = rows("sulfur_oxidation")
    rng = np.random.default_rng(SEED)
    drawn = [_draw(rng, params) for _ in range(N_DRAWS)]
    runs = np.array([[_predicted_pct(one, row) for row in cases] for one in drawn])
    bands = np.percentile(runs, [5.0, 25.0, 75.0, 95.0], axis=0)
    return [
        RowScore(
            row["case"],
            float(row["observed_pct"]),
            _predicted_pct(params, row),
            *(float(edge) for edge in bands[:, i]),
        )
        for i, row in enumerate(cases)
    ]


def _predicted_pct(params: SulfurParameters, row: dict[str, str]) -> float:
    day = np.arange(float(row["days"]))
    swing = float(row["temp_amplitude_c"]) * np.sin(2.0 * np.pi * day / 365.25)
    wetness = 1.0 - params.moisture_width * math.sqrt(1.0 - float(row["wetness_factor"]))
    course = oxidised_course(
        float(row["temp_mean_c"]) + swing,
        sizes=[(float(row["low_um"]), float(row["high_um"]), 1.0)],
        params=params,
        wetness=wetness,
        sulfur_g_kg=float(row["sulfur_g_kg"]),
    )
    return 100.0 * float(course[-1])


def _draw(rng: np.random.Generator, params: SulfurParameters) -> SulfurParameters:
    """Values of one site, drawn as the tool draws them; what it does not draw stays."""
    spread = load_parameters()["sulfur"]

    def lognormal(name: str) -> float:
        row = spread[name]
        assert row.low is not None and row.high is not None
        sd = math.log(row.high / row.low) / (2.0 * 1.96)
        return row.value * math.exp(sd * float(rng.standard_normal()))

    def within(name: str) -> float:
        row = spread[name]
        assert row.sd is not None and row.low is not None and row.high is not None
        drawn = row.value + row.sd * float(rng.standard_normal())
        return min(row.high, max(row.low, drawn))

    odds = params.grown_first_frac / (1.0 - params.grown_first_frac)
    odds *= math.exp(grown_log_odds_sd(sulfur_before=False) * float(rng.standard_normal()))
    return dataclasses.replace(
        params,
        rate_ug_cm2_d=lognormal("rate_ug_cm2_d"),
        crowding_exponent=within("crowding_exponent"),
        growth_per_d=lognormal("growth_per_d"),
        activation_energy_kj_mol=within("activation_energy_kj_mol"),
        ramp_from_c=within("ramp_from_c"),
        grown_first_frac=odds / (1.0 + odds),
    )


def _held(scores: list[RowScore]) -> Check:
    inside = [row for row in scores if row.low <= row.observed <= row.high]
    half = sum(row.lower <= row.observed <= row.upper for row in scores)
    width = float(np.mean([row.high - row.low for row in scores]))
    return Check(
        topic="sulfur",
        kind=Kind.SOIL,
        claim="share of sulfur oxidised lies in the 90 % band of the clock",
        source="Degryse 2016, Nor & Tabatabai 1977, Boswell 1997, Bremer 2021 (abstracts)",
        n=len(scores),
        figure=f"{len(inside)} of {len(scores)} rows inside, {half} in the 50 % band; mean width "
        f"{width:.0f} points; " + "; ".join(row.line() for row in scores),
        limit="8 of 10",
        passed=len(inside) >= 8,
        in_view=IN_VIEW,
        note="not an independent check: the rows of Degryse, Nor & Tabatabai and Boswell had been "
        "scored under earlier laws and the activation energy was lowered after seeing them; the "
        "exponent of crowding was set from the pastilles against the powder, so the pastilles "
        "test nothing; the three powder rows are one published rate. The rows of Bremer are "
        "sulfate supplied against ammonium sulfate, taken as 40 and 55 % oxidised, and had been "
        "scored once before the growth of the oxidisers was chosen. Sizes, doses and field "
        "climate are assumed; whole soils are held to nothing",
    )


def _middles(scores: list[RowScore]) -> Check:
    gap = np.array([row.median - row.observed for row in scores])
    kept = np.array([SET_B not in row.case for row in scores])
    rmse = float(np.sqrt(np.mean(gap**2)))
    return Check(
        topic="sulfur",
        kind=Kind.SOIL,
        claim="middles of the clock on ten rows of share oxidised, against the law before",
        source="Degryse 2016, Nor & Tabatabai 1977, Boswell 1997, Bremer 2021 (abstracts)",
        n=len(scores),
        figure=f"RMSE {rmse:.1f} points, bias {float(gap.mean()):+.1f}; without the rows that set "
        f"the exponent RMSE {float(np.sqrt(np.mean(gap[kept] ** 2))):.1f}, bias "
        f"{float(gap[kept].mean()):+.1f}",
        limit=f"RMSE not above {MOST_RMSE_PCT:g} points",
        passed=rmse <= MOST_RMSE_PCT,
        in_view=IN_VIEW,
        note="the limit was set before the new law was scored; the law before has RMSE 20.8 and "
        "bias -5.9 on these rows as entered here, 23.0 without the pastilles",
    )


def _coarse_field(scores: list[RowScore]) -> Check:
    row = next(row for row in scores if row.case == COARSE_FIELD)
    return Check(
        topic="sulfur",
        kind=Kind.SOIL,
        claim="coarse sulfur in a cool field, 250-500 um after three years",
        source="Boswell 1997 (abstract)",
        n=1,
        figure=row.line(),
        limit=f"nearer to {row.observed:.0f} % than {BEFORE_COARSE_FIELD_PCT:.0f} %",
        passed=abs(row.median - row.observed) < row.observed - BEFORE_COARSE_FIELD_PCT,
        in_view=IN_VIEW,
        note="still slow at the middle; depth, climate and moisture are assumed, and the row was "
        "laid on the surface while it is scored without the slowing of sulfur left on top",
    )


def _cold_autumn() -> Check:
    params = SulfurParameters(**parameter_values("sulfur"))
    climate = ClimateParameters(**parameter_values("climate"))
    air = [float(row["air_temp_c"]) for row in rows("minneapolis_climate")]
    year = soil_temperature_c(air, depth_cm=7.5, params=climate)
    figures, winter_shares, half_days, summer_shares = [], [], [], []
    for name, (low, high) in GRADES.items():
        sizes = [(low, high, 1.0)]
        autumn = oxidised_course(
            days_from(year, start_day=DAY_1_OCTOBER, n_days=500), sizes=sizes, params=params
        )
        spring = oxidised_course(
            days_from(year, start_day=DAY_1_APRIL, n_days=153), sizes=sizes, params=params
        )
        winter_shares.append(float(autumn[181]))
        half_days.append(days_until_frac(autumn, 0.5))
        summer_shares.append(float(spring[-1]))
        figures.append(
            f"{name}: {100 * winter_shares[-1]:.0f} % from October to April, half after "
            f"{half_days[-1]:.0f} days, {100 * summer_shares[-1]:.0f} % from April to September"
        )
    return Check(
        topic="sulfur",
        kind=Kind.PRACTICE,
        claim="little sulfur reacts in cold soil: at Minneapolis autumn sulfur waits for summer",
        source="common practice, no source",
        n=len(GRADES),
        figure="; ".join(figures),
        limit="under 20 % in the winter half-year, half not before May, three times as much in "
        "the summer half-year",
        passed=(
            max(winter_shares) < 0.20
            and min(half_days) > 212
            and all(s > 3.0 * w for s, w in zip(summer_shares, winter_shares, strict=True))
        ),
        note="climate of 1961-1990; soil at field capacity; coarser grades wait for the second "
        "summer",
    )
