from __future__ import annotations

import numpy as np
import pytest

from loamshift.core.climate import ClimateParameters
from loamshift.core.evaporation import bare_surface, thornthwaite_mm
from loamshift.core.rain_days import rain_days_mm, throw_dice, usual_wet_days
from loamshift.core.water_balance import WaterYear, water_year, wetness_daily
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = ClimateParameters(**parameter_values("climate"))
DICE = throw_dice(np.random.default_rng(1), params=P)
LONDON = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
LONDON_RAIN = [55, 37, 49, 46, 52, 51, 47, 55, 54, 59, 59, 60]
COLD = [-11.9, -8.3, -1.0, 7.7, 14.6, 19.8, 22.5, 20.9, 15.5, 9.3, 0.5, -8.1]
COLD_RAIN = [22, 21, 47, 59, 85, 104, 95, 94, 70, 54, 40, 26]


def year_of(**given: object) -> WaterYear:
    place: dict[str, object] = {
        "air_temp_c": LONDON,
        "rain_mm": LONDON_RAIN,
        "latitude": 51.5,
        "available_water_mm": 100.0,
        "params": P,
        "dice": DICE,
    }
    return water_year(**{**place, **given})  # type: ignore[arg-type]


def drained(**given: object) -> float:
    return float(year_of(**given).drainage_mm.sum())


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
    year = year_of(air_temp_c=COLD, rain_mm=COLD_RAIN, latitude=44.9)
    assert year.snow_mm[[0, 1, 2]].min() > 40.0
    assert year.snow_mm[3:11].max() == 0.0
    assert year.drainage_mm[[0, 1, 2, 11]].max() == 0.0
    assert year.drainage_mm[3] > 40.0


def test_irrigation_adds_to_drainage() -> None:
    watered = drained(irrigation_mm=[0, 0, 0, 0, 100, 100, 100, 100, 0, 0, 0, 0])
    assert drained() < watered < drained() + 400.0


def test_a_desert_does_not_drain() -> None:
    dry = {"air_temp_c": [25.0] * 12, "rain_mm": [5.0] * 12, "latitude": 30.0}
    assert drained(**dry, available_water_mm=80.0) == 0.0


def test_generated_years_have_the_rain_and_the_wet_days_asked_for() -> None:
    made = rain_days_mm([100.0] * 12, wet_days=[15.0] * 12, params=P, dice=DICE)
    assert made[:, :31].sum(axis=1).mean() == pytest.approx(100.0)
    assert (made > 0.0).mean() == pytest.approx(15.0 * 12.0 / 365.0, abs=0.02)
    wet = made > 0.0
    after_wet = wet[:, 1:][wet[:, :-1]].mean()
    assert after_wet == pytest.approx(1.0 - 0.75 + 0.75 * 0.49, abs=0.03)
    amounts = made[wet] / made[wet].mean()
    assert amounts.var() == pytest.approx(1.0 / P.rain_shape, rel=0.1)


def test_the_same_seed_is_the_same_rain_and_another_seed_is_other_rain() -> None:
    again = throw_dice(np.random.default_rng(1), params=P)
    other = throw_dice(np.random.default_rng(2), params=P)
    made, twice, else_made = (
        rain_days_mm(LONDON_RAIN, wet_days=[12.0] * 12, params=P, dice=dice)
        for dice in (DICE, again, other)
    )
    assert (made == twice).all()
    assert (made != else_made).any()


def test_another_seed_moves_the_drainage_by_less_than_a_tenth() -> None:
    totals = [
        drained(available_water_mm=50.0, dice=throw_dice(np.random.default_rng(seed), params=P))
        for seed in range(1, 7)
    ]
    assert max(totals) < 1.1 * min(totals)


def test_no_rain_stays_no_rain_and_uncounted_wet_days_rise_with_rain() -> None:
    made = rain_days_mm(
        [0.0] * 6 + [60.0] * 6, wet_days=[12.0] * 6 + [0.0] * 6, params=P, dice=DICE
    )
    assert made[:, :181].max() == 0.0
    assert made[:, 181:].sum(axis=1).mean() == pytest.approx(360.0)
    usual = usual_wet_days([0.0, 5.0, 30.0, 60.0, 200.0, 3000.0] * 2, params=P)[:6]
    assert usual[0] == 0.0
    assert (np.diff(usual) > 0.0).all()
    assert usual[5] <= 31.0


def test_storms_drain_more_than_rain_on_every_day() -> None:
    assert drained(wet_days=[8.0] * 12) > 1.1 * drained(wet_days=[31.0] * 12)


def test_bare_ground_drains_more_than_a_sward_in_a_dry_summer() -> None:
    bare = bare_surface(
        available_water_mm=100.0, field_capacity_frac=0.3, wilting_frac=0.12, params=P
    )
    assert bare.evaporable_mm == pytest.approx(125.0 * 0.24)
    assert drained(surface=bare) > 1.2 * drained()
    shallow = bare_surface(
        available_water_mm=5.0, field_capacity_frac=0.3, wilting_frac=0.12, params=P
    )
    assert 0.0 < shallow.eased_below_mm < shallow.evaporable_mm == 5.0


def test_wetness_follows_the_store() -> None:
    year = year_of()
    wet = wetness_daily(year, available_water_mm=100.0, field_capacity_frac=0.3, wilting_frac=0.12)
    assert wet.shape == (365,)
    assert 0.95 < wet[20] < 1.0
    assert 0.4 <= wet.min() < 0.6
    assert 180 < wet.argmin() < 290


def test_impossible_places_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="above freezing"):
        year_of(air_temp_c=[-5.0] * 12)
    with pytest.raises(OutOfRangeError, match="latitude"):
        thornthwaite_mm(LONDON, latitude=510.0, params=P)
    with pytest.raises(OutOfRangeError, match="rain_mm"):
        year_of(rain_mm=[-1.0] * 12)
    with pytest.raises(OutOfRangeError, match="wet_days"):
        year_of(wet_days=[32.0] * 12)
    with pytest.raises(OutOfRangeError, match="available_water_mm"):
        year_of(available_water_mm=0.1)
