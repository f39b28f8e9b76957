"""Sulfur, nitrogen, soil climate and water year: bounds, order, balance, batch equals single."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.climate import ClimateParameters, soil_temperature_c
from loamshift.core.nitrogen import NitrogenParameters, nitrogen_course
from loamshift.core.rain_days import throw_dice
from loamshift.core.salinity import al_saturation_frac
from loamshift.core.sulfur import left_frac
from loamshift.core.sulfur_course import oxidised_course
from loamshift.core.sulfur_rate import SulfurParameters, temperature_factor
from loamshift.core.water_balance import water_year
from loamshift.tables.parameters import parameter_values
from tries import tries

SULFUR = SulfurParameters(**parameter_values("sulfur"))
NITROGEN = NitrogenParameters(**parameter_values("nitrogen"))
CLIMATE = ClimateParameters(**parameter_values("climate"))
DICE = throw_dice(np.random.default_rng(1), params=CLIMATE)
days = st.lists(st.floats(-5.0, 34.0), min_size=1, max_size=60)
months = st.lists(st.floats(-25.0, 35.0), min_size=12, max_size=12)
rains = st.lists(st.floats(0.0, 400.0), min_size=12, max_size=12)
few = tries(40)


@few
@given(
    soil=days,
    warmer=st.floats(0.0, 1.0),
    low=st.floats(1.0, 500.0),
    ratio=st.floats(1.0, 30.0),
    wetness=st.floats(0.0, 2.0),
)
def test_sulfur_only_goes_forward_and_faster_in_the_warm(
    soil: list[float], warmer: float, low: float, ratio: float, wetness: float
) -> None:
    sizes = [(low, low * ratio, 1.0)]
    course = oxidised_course(soil, sizes=sizes, params=SULFUR, wetness=wetness)
    assert np.all((course >= 0.0) & (course <= 1.0))
    assert np.all(np.diff(course) >= -1e-12)
    warm = oxidised_course(np.array(soil) + warmer, sizes=sizes, params=SULFUR, wetness=wetness)
    assert np.all(warm >= course - 1e-12)


@few
@given(
    loss=st.floats(0.0, 20000.0),
    low=st.floats(1.0, 120.0),
    ratio=st.floats(1.0, 30.0),
    coarser=st.floats(1.0, 5.0),
)
def test_coarser_sulfur_lasts_longer(loss: float, low: float, ratio: float, coarser: float) -> None:
    fine = left_frac(loss, sizes=[(low, low * ratio, 1.0)], params=SULFUR)
    coarse = left_frac(loss, sizes=[(low * coarser, low * ratio * coarser, 1.0)], params=SULFUR)
    assert coarse >= fine - 1e-10


@few
@given(soil=days)
def test_batch_equals_single(soil: list[float]) -> None:
    batch = temperature_factor(soil, SULFUR)
    assert batch.tolist() == [float(temperature_factor(t, SULFUR)) for t in soil]
    losses = np.linspace(0.0, 3000.0, 7)
    sizes = [(10.0, 75.0, 0.5), (75.0, 500.0, 0.5)]
    assert left_frac(losses, sizes=sizes, params=SULFUR).tolist() == [
        float(left_frac(x, sizes=sizes, params=SULFUR)) for x in losses.tolist()
    ]


@few
@given(soil=days, urea=st.floats(0.0, 1.0), ph=st.floats(3.0, 9.0))
def test_nitrogen_is_kept_and_only_goes_forward(soil: list[float], urea: float, ph: float) -> None:
    course = nitrogen_course(soil, urea_frac=urea, ph_water=ph, params=NITROGEN)
    assert course.as_urea + course.as_ammonium + course.nitrified == pytest.approx(
        np.ones(len(soil))
    )
    assert np.all(np.diff(course.nitrified) >= -1e-12)
    assert min(float(part.min()) for part in course) >= -1e-12


@few
@given(air=months, depth=st.floats(0.0, 100.0))
def test_soil_stays_between_the_air_and_the_floor(air: list[float], depth: float) -> None:
    pot = soil_temperature_c(air, depth_cm=depth, params=CLIMATE, container=True)
    ground = soil_temperature_c(air, depth_cm=depth, params=CLIMATE)
    assert ground.min() >= CLIMATE.snow_floor_c
    assert ground.mean() >= pot.mean() - 1e-9
    raised = soil_temperature_c([t + 0.5 for t in air], depth_cm=depth, params=CLIMATE)
    assert np.all(raised >= ground - 1e-9)


@few
@given(
    air=months.filter(lambda values: max(values) > 0.5),
    rain=rains,
    latitude=st.floats(-85.0, 85.0),
    capacity=st.floats(5.0, 400.0),
    watering=rains,
)
def test_the_water_year_balances(
    air: list[float], rain: list[float], latitude: float, capacity: float, watering: list[float]
) -> None:
    year = water_year(
        air_temp_c=air,
        rain_mm=rain,
        latitude=latitude,
        available_water_mm=capacity,
        params=CLIMATE,
        dice=DICE,
        irrigation_mm=watering,
    )
    came = year.rain_mm.sum() + year.irrigation_mm.sum()
    went = year.evaporation_mm.sum() + year.drainage_mm.sum()
    assert went == pytest.approx(came, abs=1e-6)
    assert np.all(year.evaporation_mm <= year.potential_mm + 1e-9)
    assert np.all((year.store_day_mm >= 0.0) & (year.store_day_mm <= capacity + 1e-9))
    assert year.drainage_mm.min() >= 0.0


@few
@given(ph=st.lists(st.floats(2.0, 11.0), min_size=2, max_size=20))
def test_aluminium_falls_as_ph_rises(ph: list[float]) -> None:
    shares = al_saturation_frac(sorted(ph), p_al=4.05, n_al=1.7)
    assert np.all(np.diff(shares) <= 0.0)
    assert np.all((shares >= 0.0) & (shares <= 1.0))
