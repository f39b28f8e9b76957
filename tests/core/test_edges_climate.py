"""Edges of the water year, the soil's warmth and the yearly ledger; and water that adds up."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from loamshift.core.background import LedgerParameters
from loamshift.core.climate import (
    DAYS_IN_MONTH,
    ClimateParameters,
    damping_depth_cm,
    days_from,
    monthly_values,
    soil_temperature_c,
)
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.evaporation import thornthwaite_mm
from loamshift.core.ledger import (
    feed_acid_mmolc_m2,
    harvest_acid_mmolc_m2,
    rain_carbonic_acid_mmolc_m2,
    sulfur_tail_mmolc_m2,
)
from loamshift.core.rain_days import throw_dice
from loamshift.core.water_balance import (
    NO_IRRIGATION,
    WaterYear,
    water_year,
    wetness_daily,
)
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = ClimateParameters(**parameter_values("climate"))
DICE = throw_dice(np.random.default_rng(1), params=P)
LEDGER = LedgerParameters(**parameter_values("ledger"))
CARBONATE = CarbonateParameters(**parameter_values("carbonate"))
MILD = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
COLD = [-11.9, -8.3, -1.0, 7.7, 14.6, 19.8, 22.5, 20.9, 15.5, 9.3, 0.5, -8.1]
SUMMER_DRY = [90.0, 70, 60, 40, 20, 5, 0, 5, 30, 70, 90, 100]


def year(**given: Any) -> WaterYear:
    place: dict[str, Any] = {
        "air_temp_c": MILD,
        "rain_mm": [50.0] * 12,
        "latitude": 51.5,
        "available_water_mm": 100.0,
    }
    return water_year(**{**place, **given}, params=P, dice=DICE)


def one_month(value: float, rest: float) -> list[float]:
    return [rest] * 6 + [value] + [rest] * 5


@pytest.mark.parametrize("available_mm", [1.0, 1000.0])
def test_the_least_and_the_most_water_a_root_zone_holds_are_let_through(
    available_mm: float,
) -> None:
    every_day = {"rain_mm": [200.0] * 12, "wet_days": [31.0] * 12}
    store = year(available_water_mm=available_mm, **every_day).store_day_mm
    assert 0.98 * available_mm < store.max() <= available_mm


@pytest.mark.parametrize("available_mm", [0.999, 1000.1, math.nan])
def test_a_root_zone_that_holds_less_or_more_is_refused(available_mm: float) -> None:
    with pytest.raises(OutOfRangeError, match=r"available_water_mm .* outside 1 to 1000"):
        year(available_water_mm=available_mm)


@pytest.mark.parametrize("name", ["rain_mm", "irrigation_mm"])
def test_a_month_of_three_metres_of_water_is_let_through_and_more_is_refused(name: str) -> None:
    for most in (0.0, 3000.0):
        assert year(**{name: one_month(most, 50.0)}).drainage_mm.min() >= 0.0
    for beyond in (-0.1, 3000.1):
        with pytest.raises(OutOfRangeError, match=f"{name} must lie between 0 and 3000 mm"):
            year(**{name: one_month(beyond, 50.0)})


@pytest.mark.parametrize("latitude", [-90.0, 90.0])
def test_the_poles_are_on_the_globe_and_a_degree_further_is_not(latitude: float) -> None:
    assert thornthwaite_mm(MILD, latitude=latitude, params=P).min() >= 0.0
    with pytest.raises(OutOfRangeError, match="outside -90 to 90"):
        thornthwaite_mm(MILD, latitude=latitude * 91.0 / 90.0, params=P)


def test_the_coldest_and_hottest_month_on_earth_are_let_through_and_beyond_is_refused() -> None:
    for edge in (-60.0, 50.0):
        air = one_month(edge, 10.0)
        assert thornthwaite_mm(air, latitude=40.0, params=P).min() >= 0.0
        assert year(air_temp_c=air).rain_mm.sum() == 600.0
        assert soil_temperature_c(air, depth_cm=10.0, params=P).shape == (365,)
    for beyond in (-60.1, 50.1):
        air = one_month(beyond, 10.0)
        with pytest.raises(OutOfRangeError, match="between -60 and 50 degC"):
            thornthwaite_mm(air, latitude=40.0, params=P)
        with pytest.raises(OutOfRangeError, match="between -60 and 50 degC"):
            soil_temperature_c(air, depth_cm=10.0, params=P)
        with pytest.raises(OutOfRangeError, match="between -60 and 50 degC"):
            year(air_temp_c=[beyond] * 12)


def test_a_place_is_refused_where_the_warmest_month_is_at_freezing() -> None:
    cold = [-10.0] * 12
    with pytest.raises(OutOfRangeError, match=r"no month .* above freezing"):
        year(air_temp_c=[*cold[:6], 0.0, *cold[7:]])
    assert year(air_temp_c=[*cold[:6], 0.1, *cold[7:]]).drainage_mm[6] > 0.0


def test_a_month_at_freezing_keeps_its_rain_as_snow() -> None:
    lying = year(air_temp_c=[0.0, *MILD[1:]])
    assert lying.snow_mm.tolist() == [50.0] + [0.0] * 11
    assert lying.evaporation_mm[0] == lying.drainage_mm[0] == 0.0
    assert year(air_temp_c=[0.1, *MILD[1:]]).snow_mm.tolist() == [0.0] * 12


@pytest.mark.parametrize(
    ("air", "rain"), [(MILD, [50.0] * 12), (MILD, SUMMER_DRY), (COLD, SUMMER_DRY), (COLD, [5] * 12)]
)
def test_water_adds_up_in_every_month(air: list[float], rain: list[float]) -> None:
    found = year(air_temp_c=air, rain_mm=rain, irrigation_mm=[0.0] * 5 + [30.0] * 3 + [0.0] * 4)
    held = found.store_day_mm[np.cumsum(DAYS_IN_MONTH) - 1] + found.snow_mm
    gained = held - np.roll(held, 1)
    given = found.rain_mm + found.irrigation_mm
    assert given == pytest.approx(found.evaporation_mm + found.drainage_mm + gained, abs=1e-8)
    assert (found.evaporation_mm <= found.potential_mm + 1e-9).all()
    assert found.store_day_mm.shape == (365,)
    for part in (found.evaporation_mm, found.drainage_mm, found.snow_mm):
        assert part.shape == (12,)
        assert part.min() >= 0.0
    assert found.drainage_day_mm.sum() == pytest.approx(found.drainage_mm.sum())


def test_where_nobody_waters_nothing_is_given() -> None:
    assert NO_IRRIGATION == (0.0,) * 12
    assert year().irrigation_mm.tolist() == [0.0] * 12


def test_day_lengths_are_those_of_the_sun_of_the_middle_of_the_month() -> None:
    """Against Cooper's declination; equal warmth, so that only the days differ."""
    latitude = 60.0
    n = np.cumsum(DAYS_IN_MONTH) - np.array(DAYS_IN_MONTH) / 2.0 + 0.5
    sun = np.radians(23.45 * np.sin(2.0 * math.pi * (284.0 + n) / 365.0))
    hours = 24.0 / math.pi * np.arccos(-math.tan(math.radians(latitude)) * np.tan(sun))
    north, level = (
        thornthwaite_mm([15.0] * 12, latitude=degrees, params=P) for degrees in (latitude, 0.0)
    )
    assert 12.0 * north / level == pytest.approx(hours, abs=0.08)
    january = math.radians(23.44 * math.cos(2.0 * math.pi * 25.5 / 365.0))
    cosine = math.tan(math.radians(latitude)) * math.tan(january)
    assert 12.0 * north[0] / level[0] == pytest.approx(24.0 / math.pi * math.acos(cosine), rel=1e-6)


def test_the_parabola_of_heat_takes_over_above_its_mark_and_not_at_it() -> None:
    at_mark, above = (
        thornthwaite_mm([warm] * 12, latitude=0.0, params=P)[3]
        for warm in (P.hot_from_c, P.hot_from_c + 1e-9)
    )
    index = 12.0 * (P.hot_from_c / 5.0) ** 1.514
    power = 0.49239 + 0.01792 * index - 7.71e-5 * index**2 + 6.75e-7 * index**3
    assert at_mark == pytest.approx(16.0 * (10.0 * P.hot_from_c / index) ** power, rel=1e-9)
    parabola = P.hot_b0 + P.hot_b1 * P.hot_from_c + P.hot_b2 * P.hot_from_c**2
    assert above == pytest.approx(parabola, rel=1e-6)
    assert abs(at_mark - above) > 1e-3


def wet(**given: float) -> np.ndarray:
    """Store as many mm as days have gone by to the end of June, then falling the same way."""
    days = np.arange(365.0)
    store = np.where(days <= 181.0, days, 365.0 - days)
    full = WaterYear(*(np.zeros(12),) * 6, np.zeros(365), store)
    shares = {"available_water_mm": 200.0, "field_capacity_frac": 0.4, "wilting_frac": 0.0}
    return wetness_daily(full, **{**shares, **given})


def test_wetness_is_that_of_the_store_of_the_day() -> None:
    assert wet()[:181] * 200.0 == pytest.approx(np.arange(181))
    assert wet()[364] * 200.0 == pytest.approx(1.0)


def test_dry_to_the_last_drop_and_wet_to_the_brim_are_shares_that_can_be() -> None:
    assert wet(wilting_frac=0.0, field_capacity_frac=1.0).max() < 1.0
    assert wet(wilting_frac=0.2, field_capacity_frac=0.4).min() == 0.5
    for wilting, capacity in ((-0.01, 0.4), (0.4, 0.4), (0.5, 0.4), (0.1, 1.01)):
        with pytest.raises(OutOfRangeError, match="0 <= wilting < field capacity <= 1"):
            wet(wilting_frac=wilting, field_capacity_frac=capacity)


def test_a_wave_needs_a_period_above_nothing() -> None:
    assert damping_depth_cm(period_d=0.25, params=P) == pytest.approx(
        0.5 * damping_depth_cm(period_d=1.0, params=P)
    )
    for period_d in (0.0, -1.0):
        with pytest.raises(OutOfRangeError, match="above 0 days"):
            damping_depth_cm(period_d=period_d, params=P)


@pytest.mark.parametrize("order", [1, 2])
def test_the_shorter_wave_is_damped_and_delayed_over_its_own_depth(order: int) -> None:
    """Depth to 1/e by hand: the root of diffusivity times period over pi."""
    edges = np.concatenate([[0], np.cumsum(DAYS_IN_MONTH)]) * 2.0 * math.pi * order / 365.0
    air = 15.0 + 5.0 * np.diff(np.sin(edges)) / np.diff(edges)
    damping_cm = 100.0 * math.sqrt(P.diffusivity_m2_s * 365.0 * 86400.0 / order / math.pi)
    wave = 2.0 * math.pi * order * (np.arange(365) + 0.5) / 365.0
    soil = soil_temperature_c(air.tolist(), depth_cm=50.0, params=P)
    ratio = 50.0 / damping_cm
    assert soil == pytest.approx(15.0 + 5.0 * math.exp(-ratio) * np.cos(wave - ratio), abs=1e-9)


def test_the_surface_and_three_metres_are_depths_and_beyond_is_refused() -> None:
    assert np.ptp(soil_temperature_c(MILD, depth_cm=0.0, params=P)) > 12.0
    assert np.ptp(soil_temperature_c(MILD, depth_cm=300.0, params=P)) < 4.0
    for depth_cm in (-0.1, 300.1):
        with pytest.raises(OutOfRangeError, match="outside 0 to 300"):
            soil_temperature_c(MILD, depth_cm=depth_cm, params=P)


def test_the_first_day_and_a_leap_day_begin_a_row_and_none_beyond() -> None:
    days = np.arange(1.0, 366.0)
    assert days_from(days, start_day=1, n_days=1).tolist() == [1.0]
    assert days_from(days, start_day=366, n_days=2).tolist() == [365.0, 1.0]
    for start_day in (0, 367):
        with pytest.raises(OutOfRangeError, match="outside 1 to 366"):
            days_from(days, start_day=start_day, n_days=1)
    with pytest.raises(OutOfRangeError, match="n_days 0 must be 1 or more"):
        days_from(days, start_day=1, n_days=0)


def test_the_limits_of_a_month_are_let_through() -> None:
    for edge, beyond in ((2.0, 1.99), (9.0, 9.01)):
        found = monthly_values("rain_mm", one_month(edge, 5.0), low=2.0, high=9.0, unit="mm")
        assert found[6] == edge
        with pytest.raises(OutOfRangeError, match="rain_mm must lie between 2 and 9 mm"):
            monthly_values("rain_mm", one_month(beyond, 5.0), low=2.0, high=9.0, unit="mm")


def test_carbonic_acid_of_rain_is_the_root_of_its_two_constants_and_the_air() -> None:
    """At 25 degC, nearly all of it bicarbonate; a litre on a square metre is a millimetre."""
    hydrogen_mol_l = math.sqrt(10.0**-6.352 * 10.0**-1.468 * CARBONATE.p_co2_air_atm)
    acid = rain_carbonic_acid_mmolc_m2(rain_mm=700.0, temp_c=25.0, params=CARBONATE)
    assert acid == pytest.approx(700.0 * 1000.0 * hydrogen_mol_l, rel=0.01)
    with pytest.raises(OutOfRangeError, match="rain_mm -1 must be 0 or more"):
        rain_carbonic_acid_mmolc_m2(rain_mm=-1.0, temp_c=25.0, params=CARBONATE)


@pytest.mark.parametrize("form", ["n_as_nh4_g_m2", "n_as_urea_g_m2", "n_as_no3_g_m2"])
def test_a_feed_of_less_than_nothing_is_refused_by_its_name(form: str) -> None:
    none: dict[str, Any] = {"n_as_nh4_g_m2": 0.0, "n_as_urea_g_m2": 0.0, "n_as_no3_g_m2": 0.0}
    assert feed_acid_mmolc_m2(**none, params=LEDGER) == 0.0
    with pytest.raises(OutOfRangeError, match=f"{form} -1 must be 0 or more"):
        feed_acid_mmolc_m2(**{**none, form: -1.0}, params=LEDGER)


def test_a_harvest_of_less_than_nothing_is_refused() -> None:
    assert harvest_acid_mmolc_m2(0.0, params=LEDGER, ash_alkalinity_mmolc_g=0.0) == 0.0
    with pytest.raises(OutOfRangeError, match="dry_matter_g_m2"):
        harvest_acid_mmolc_m2(-1.0, params=LEDGER)
    with pytest.raises(OutOfRangeError, match="ash_alkalinity_mmolc_g"):
        harvest_acid_mmolc_m2(100.0, params=LEDGER, ash_alkalinity_mmolc_g=-0.1)


@pytest.mark.parametrize(
    ("start", "end", "acid"), [(0.0, 1.0, 2000.0), (0.25, 0.5, 500.0), (0.6, 0.6, 0.0)]
)
def test_a_tail_of_sulfur_may_be_whole_or_all_spent(start: float, end: float, acid: float) -> None:
    tail = sulfur_tail_mmolc_m2(
        sulfur_as_s_g_m2=32.06, oxidised_start_frac=start, oxidised_end_frac=end
    )
    assert tail == pytest.approx(acid)


@pytest.mark.parametrize(
    ("sulfur", "start", "end", "match"),
    [
        (-1.0, 0.0, 1.0, "sulfur_as_s_g_m2"),
        (1.0, -0.01, 1.0, "start <= end"),
        (1.0, 0.0, 1.01, "start <= end"),
        (1.0, 0.5, 0.49, "start <= end"),
    ],
)
def test_an_impossible_tail_of_sulfur_is_refused(
    sulfur: float, start: float, end: float, match: str
) -> None:
    with pytest.raises(OutOfRangeError, match=match):
        sulfur_tail_mmolc_m2(
            sulfur_as_s_g_m2=sulfur, oxidised_start_frac=start, oxidised_end_frac=end
        )


def test_one_month_just_above_freezing_evaporates_less_than_a_warmer_one() -> None:
    july = [
        thornthwaite_mm([-10.0] * 6 + [warm] + [-10.0] * 5, latitude=60.0, params=P)[6]
        for warm in (0.1, 1.0, 3.0, 6.0)
    ]
    assert july == sorted(july)
    assert july[0] < 20.0 and july[-1] < 120.0
