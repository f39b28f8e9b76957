from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.optimize import curve_fit

from loamshift.core.climate import (
    DAYS_IN_YEAR,
    ClimateParameters,
    damping_depth_cm,
    soil_temperature_c,
)
from loamshift.core.soil_thermometer import fit_thermometer
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = ClimateParameters(**parameter_values("climate"))
LONDON = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
COLD = [-11.9, -8.3, -1.0, 7.7, 14.6, 19.8, 22.5, 20.9, 15.5, 9.3, 0.5, -8.1]
FLAT = [10.0] * 12
OMEGA = 2.0 * math.pi / DAYS_IN_YEAR


def wave(day: Any, mean: float, swing: float, coldest: float) -> Any:
    return mean - swing * np.cos(OMEGA * (day - 0.5 - coldest))


def test_a_year_of_readings_gives_the_wave_that_a_nonlinear_fit_finds() -> None:
    rng = np.random.default_rng(7)
    days = np.arange(5, 365, 10)
    read = wave(days, 12.0, 9.0, 30.0) + rng.normal(0.0, 1.0, days.size)
    fit = fit_thermometer(
        FLAT, days=days.tolist(), depths_cm=[10.0] * days.size, temps_c=read.tolist(), params=P
    )
    found = soil_temperature_c(FLAT, depth_cm=10.0, params=P, correction=fit.wave)
    (mean, swing, coldest), _ = curve_fit(wave, days, read, p0=(10.0, 5.0, 20.0))
    expected = wave(np.arange(1, 366), mean, swing, coldest)
    assert fit.has_wave
    assert found == pytest.approx(expected, abs=1e-6)
    assert fit.left_sd_c == pytest.approx(np.std(read - wave(days, mean, swing, coldest)), rel=1e-4)


def test_readings_at_one_depth_correct_another_by_the_damping_of_the_wave() -> None:
    days = list(range(1, 366, 7))
    read = wave(np.array(days), 11.0, 8.0, 30.0)
    fit = fit_thermometer(FLAT, days=days, depths_cm=[5.0] * len(days), temps_c=read, params=P)
    deep = soil_temperature_c(FLAT, depth_cm=50.0, params=P, correction=fit.wave)
    damping = damping_depth_cm(period_d=365.0, params=P)
    further = (50.0 - 5.0) / damping
    expected = wave(np.arange(1, 366), 11.0, 8.0 * math.exp(-further), 30.0 + further / OMEGA)
    assert deep == pytest.approx(expected, abs=1e-9)


def test_a_few_readings_move_the_mean_alone() -> None:
    alone = soil_temperature_c(LONDON, depth_cm=10.0, params=P)
    days = [100, 130, 160, 190]
    read = [float(alone[day - 1]) + more for day, more in zip(days, range(1, 5), strict=True)]
    fit = fit_thermometer(LONDON, days=days, depths_cm=[10.0] * 4, temps_c=read, params=P)
    now = soil_temperature_c(LONDON, depth_cm=20.0, params=P, correction=fit.wave)
    before = soil_temperature_c(LONDON, depth_cm=20.0, params=P)
    assert not fit.has_wave
    assert now == pytest.approx(before + 2.5)


def test_readings_are_compared_at_their_own_depth() -> None:
    shallow, deep = (
        fit_thermometer(LONDON, days=[130], depths_cm=[depth], temps_c=[14.0], params=P)
        for depth in (5.0, 50.0)
    )
    assert deep.wave.mean_c > shallow.wave.mean_c + 0.5


def test_snow_and_frost_are_left_out_where_there_is_anything_else() -> None:
    days, read = [15, 45, 200], [0.2, 0.1, 24.0]
    fit = fit_thermometer(COLD, days=days, depths_cm=[10.0] * 3, temps_c=read, params=P)
    summer = fit_thermometer(COLD, days=[200], depths_cm=[10.0], temps_c=[24.0], params=P)
    assert (fit.readings, fit.frozen) == (1, 2)
    assert fit.wave == summer.wave
    only = fit_thermometer(COLD, days=[15], depths_cm=[10.0], temps_c=[1.0], params=P)
    assert only.wave.mean_c == pytest.approx(1.0)
    pot = fit_thermometer(
        COLD, days=days, depths_cm=[10.0] * 3, temps_c=read, params=P, container=True
    )
    assert (pot.readings, pot.frozen) == (3, 0)


def test_no_correction_is_the_wave_of_the_air_and_leap_days_count() -> None:
    alone = soil_temperature_c(LONDON, depth_cm=10.0, params=P)
    same = fit_thermometer(
        LONDON,
        days=[*range(1, 366, 5), 366],
        depths_cm=[10.0] * 74,
        temps_c=[*alone[::5], alone[-1]],
        params=P,
    )
    now = soil_temperature_c(LONDON, depth_cm=10.0, params=P, correction=same.wave)
    assert now == pytest.approx(alone, abs=1e-9)


@pytest.mark.parametrize(
    "given",
    [
        {"days": [], "depths_cm": [], "temps_c": []},
        {"days": [1, 2], "depths_cm": [10.0], "temps_c": [5.0]},
        {"days": [0], "depths_cm": [10.0], "temps_c": [5.0]},
        {"days": [1], "depths_cm": [400.0], "temps_c": [5.0]},
        {"days": [1], "depths_cm": [10.0], "temps_c": [math.nan]},
    ],
)
def test_impossible_readings_are_refused(given: dict[str, Any]) -> None:
    with pytest.raises(OutOfRangeError):
        fit_thermometer(LONDON, params=P, **given)
