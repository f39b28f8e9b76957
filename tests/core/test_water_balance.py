from __future__ import annotations

import numpy as np
import pytest

from loamshift.core.climate import ClimateParameters
from loamshift.core.water_balance import (
    drainage_mm_year,
    thornthwaite_mm,
    water_year,
    wetness_daily,
)
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = ClimateParameters(**parameter_values("climate"))
LONDON = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
LONDON_RAIN = [55, 37, 49, 46, 52, 51, 47, 55, 54, 59, 59, 60]
COLD = [-11.9, -8.3, -1.0, 7.7, 14.6, 19.8, 22.5, 20.9, 15.5, 9.3, 0.5, -8.1]
COLD_RAIN = [22, 21, 47, 59, 85, 104, 95, 94, 70, 54, 40, 26]


def test_twelve_equal_months_of_20_degrees_on_the_equator() -> None:
    index = 12 * 4.0**1.514
    power = 0.49239 + 0.01792 * index - 7.71e-5 * index**2 + 6.75e-7 * index**3
    expected = 16.0 * (200.0 / index) ** power * 31.0 / 30.0
    assert thornthwaite_mm([20.0] * 12, latitude=0.0, params=P)[0] == pytest.approx(expected)


def test_day_length_turns_round_with_the_hemisphere() -> None:
    north = thornthwaite_mm([15.0] * 12, latitude=50.0, params=P)
    south = thornthwaite_mm([15.0] * 12, latitude=-50.0, params=P)
    assert north[5] > 1.8 * north[11]
    assert south[11] > 1.8 * south[5]


def test_frozen_places_evaporate_nothing_and_polar_days_are_24_hours() -> None:
    assert thornthwaite_mm([-5.0] * 12, latitude=80.0, params=P).tolist() == [0.0] * 12
    june, december = thornthwaite_mm([5.0] * 12, latitude=80.0, params=P)[[5, 11]]
    assert june > 0.0
    assert december == 0.0


def test_hot_months_follow_the_parabola() -> None:
    may = thornthwaite_mm([30.0] * 12, latitude=0.0, params=P)[4]
    assert may == pytest.approx((-415.85 + 32.24 * 30 - 0.43 * 900) * 31 / 30)


def test_snow_waits_for_the_thaw() -> None:
    year = water_year(
        air_temp_c=COLD, rain_mm=COLD_RAIN, latitude=44.9, available_water_mm=100.0, params=P
    )
    assert year.snow_mm[[0, 1, 2]].min() > 40.0
    assert year.snow_mm[3:11].max() == 0.0
    assert year.drainage_mm[[0, 1, 2, 11]].max() == 0.0
    assert year.drainage_mm[3] > 50.0


def test_irrigation_adds_to_drainage() -> None:
    place = {
        "air_temp_c": LONDON,
        "rain_mm": LONDON_RAIN,
        "latitude": 51.5,
        "available_water_mm": 100.0,
        "params": P,
    }
    dry = drainage_mm_year(**place)
    watered = drainage_mm_year(**place, irrigation_mm=[0, 0, 0, 0, 100, 100, 100, 100, 0, 0, 0, 0])
    assert dry < watered < dry + 400.0


def test_a_desert_does_not_drain() -> None:
    drained = drainage_mm_year(
        air_temp_c=[25.0] * 12,
        rain_mm=[5.0] * 12,
        latitude=30.0,
        available_water_mm=80.0,
        params=P,
    )
    assert drained == 0.0


def test_wetness_follows_the_store() -> None:
    year = water_year(
        air_temp_c=LONDON, rain_mm=LONDON_RAIN, latitude=51.5, available_water_mm=100.0, params=P
    )
    wet = wetness_daily(year, available_water_mm=100.0, field_capacity_frac=0.3, wilting_frac=0.12)
    assert wet.shape == (365,)
    assert wet[20] == pytest.approx(1.0, abs=0.01)
    assert 0.4 <= wet.min() < 0.6
    assert 180 < wet.argmin() < 290


def test_impossible_places_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="above freezing"):
        drainage_mm_year(
            air_temp_c=[-5.0] * 12,
            rain_mm=[10.0] * 12,
            latitude=80.0,
            available_water_mm=100.0,
            params=P,
        )
    with pytest.raises(OutOfRangeError, match="latitude"):
        thornthwaite_mm(LONDON, latitude=510.0, params=P)
    with pytest.raises(OutOfRangeError, match="rain_mm"):
        water_year(
            air_temp_c=LONDON,
            rain_mm=np.full(12, -1.0).tolist(),
            latitude=51.5,
            available_water_mm=100.0,
            params=P,
        )
    with pytest.raises(OutOfRangeError, match="available_water_mm"):
        water_year(
            air_temp_c=LONDON, rain_mm=LONDON_RAIN, latitude=51.5, available_water_mm=0.1, params=P
        )
