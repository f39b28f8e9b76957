from __future__ import annotations

import math

import numpy as np
import pytest

from loamshift.core.climate import DAYS_IN_MONTH, ClimateParameters, days_from, soil_temperature_c
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = ClimateParameters(**parameter_values("climate"))
LONDON = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
COLD = [-11.9, -8.3, -1.0, 7.7, 14.6, 19.8, 22.5, 20.9, 15.5, 9.3, 0.5, -8.1]


def monthly_means(year: np.ndarray) -> np.ndarray:
    return np.array([part.mean() for part in np.split(year, np.cumsum(DAYS_IN_MONTH)[:-1])])


def test_container_gives_back_the_monthly_means() -> None:
    year = soil_temperature_c(COLD, depth_cm=10.0, params=P, container=True)
    assert monthly_means(year) == pytest.approx(np.array(COLD), abs=1.0)
    assert float(np.dot(DAYS_IN_MONTH, COLD)) / 365.0 == pytest.approx(year.mean(), abs=0.05)


def test_two_harmonics_are_recovered_exactly_from_their_own_monthly_means() -> None:
    day = np.linspace(0.0, 365.0, 365 * 200, endpoint=False) + 0.0025
    omega = 2.0 * math.pi / 365.0

    def wave(t: np.ndarray) -> np.ndarray:
        return 9.0 - 8.0 * np.cos(omega * (t - 20.0)) + 1.5 * np.sin(2.0 * omega * t)

    edges = np.cumsum(DAYS_IN_MONTH)[:-1] * 200
    means = [float(part.mean()) for part in np.split(wave(day), edges)]
    year = soil_temperature_c(means, depth_cm=0.0, params=P, container=True)
    assert year == pytest.approx(wave(np.arange(365) + 0.5), abs=1e-4)


def test_depth_damps_and_delays() -> None:
    shallow = soil_temperature_c(LONDON, depth_cm=5.0, params=P)
    deep = soil_temperature_c(LONDON, depth_cm=100.0, params=P)
    assert np.ptp(deep) < 0.75 * np.ptp(shallow)
    assert deep.argmax() > shallow.argmax() + 20
    assert deep.mean() == pytest.approx(shallow.mean(), abs=0.05)


def test_ten_centimetres_keep_95_per_cent_and_lag_three_days() -> None:
    air = soil_temperature_c(LONDON, depth_cm=0.0, params=P)
    soil = soil_temperature_c(LONDON, depth_cm=10.0, params=P)
    assert np.ptp(soil) / np.ptp(air) == pytest.approx(0.95, abs=0.01)
    assert int(soil.argmax() - air.argmax()) == pytest.approx(3, abs=1)


def test_snow_keeps_ground_near_zero_and_not_the_pot() -> None:
    assert soil_temperature_c(COLD, depth_cm=7.5, params=P).min() == 0.0
    assert soil_temperature_c(COLD, depth_cm=7.5, params=P, container=True).min() < -10.0


def test_the_southern_year_is_the_northern_half_a_year_later() -> None:
    south = soil_temperature_c(LONDON[6:] + LONDON[:6], depth_cm=10.0, params=P)
    assert south.argmin() == pytest.approx(205, abs=15)


def test_days_run_round_the_year() -> None:
    year = np.arange(1.0, 366.0)
    assert days_from(year, start_day=364, n_days=4).tolist() == [364.0, 365.0, 1.0, 2.0]
    assert days_from(year, start_day=366, n_days=1).tolist() == [365.0]
    with pytest.raises(OutOfRangeError):
        days_from(year, start_day=0, n_days=4)


@pytest.mark.parametrize(
    "air", [LONDON[:11], [*LONDON[:11], math.nan], [f * 1.8 + 32 for f in COLD]]
)
def test_impossible_air_is_refused(air: list[float]) -> None:
    with pytest.raises(OutOfRangeError, match="air_temp_c"):
        soil_temperature_c(air, depth_cm=10.0, params=P)


def test_impossible_depth_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="centimetres"):
        soil_temperature_c(LONDON, depth_cm=1500.0, params=P)
