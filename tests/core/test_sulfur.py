"""The sulfur clock, with two tables of our own arithmetic for Minneapolis as baselines."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from loamshift.core.climate import (
    DAYS_IN_MONTH,
    ClimateParameters,
    damping_depth_cm,
    days_from,
    soil_temperature_c,
)
from loamshift.core.sulfur import left_frac, surface_cm2_g, surface_loss
from loamshift.core.sulfur_course import (
    Prills,
    days_until_frac,
    oxidised_course,
    prills_left,
)
from loamshift.core.sulfur_rate import (
    SulfurParameters,
    crowding_factor,
    moisture_factor,
    ph_factor,
    temperature_factor,
)
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values
from published.checks.carbonate import rows

P = SulfurParameters(**parameter_values("sulfur"))
CLIMATE = ClimateParameters(**parameter_values("climate"))
AIR = [float(row["air_temp_c"]) for row in rows("minneapolis_climate")]
APRIL_1, OCTOBER_1 = 91, 274


def one_wave_at_7_5_cm() -> np.ndarray:
    """Soil of the first baseline: one harmonic, where ours has two."""
    omega = 2.0 * math.pi / 365.0
    months = np.array(DAYS_IN_MONTH)
    middle = np.cumsum(months) - months / 2.0
    columns = [np.ones(12), np.cos(omega * middle), np.sin(omega * middle)]
    mean, a, b = np.linalg.lstsq(np.column_stack(columns), np.array(AIR), rcond=None)[0]
    ratio = 7.5 / damping_depth_cm(period_d=365.0, params=CLIMATE)
    phase = omega * (np.arange(365) + 0.5) - ratio
    return np.maximum(0.0, mean + math.exp(-ratio) * (a * np.cos(phase) + b * np.sin(phase)))


@pytest.mark.parametrize(
    ("low", "high", "moisture", "winter", "summer", "year"),
    [
        (10, 75, 1.0, 0, 89, 93),
        (10, 75, 0.7, 0, 80, 86),
        (40, 150, 1.0, 0, 57, 66),
        (40, 150, 0.7, 0, 44, 52),
        (100, 300, 1.0, 0, 30, 37),
        (100, 300, 0.7, 0, 22, 27),
    ],
)
def test_baseline_of_the_first_choice(
    low: float, high: float, moisture: float, winter: float, summer: float, year: float
) -> None:
    """First choice: 65 kJ/mol, no reaction at all before the lag is over, one wave in the soil.

    The table was worked out once with a soil wave not kept to the last digit; taken as below, no
    figure is further off than 1.04 points, and that is the bound.
    """
    first = dataclasses.replace(
        P, activation_energy_kj_mol=65.0, ramp_from_c=3.0, ramp_width_c=1e-9
    )

    def pct(start: int, n_days: int) -> float:
        soil = days_from(one_wave_at_7_5_cm(), start_day=start, n_days=n_days)
        after_lag = np.maximum(0.0, np.cumsum(temperature_factor(soil, first)) - 10.0)
        loss = 18.0 * 1.5 * moisture * after_lag
        left = left_frac(loss, sizes=[(low, high, 1.0)], params=first)
        return 100.0 * float(1.0 - left[-1])

    assert pct(OCTOBER_1, 182) == pytest.approx(winter, abs=0.5)
    assert pct(APRIL_1, 153) == pytest.approx(summer, abs=1.0)
    assert pct(APRIL_1, 365) == pytest.approx(year, abs=1.05)


def test_baseline_of_the_second_choice() -> None:
    """Second choice: 57 kJ/mol, rate rising over the lag; sizes of "fine powder" assumed."""
    year = soil_temperature_c(AIR, depth_cm=7.5, params=CLIMATE)
    powder, wetness = [(15.0, 150.0, 1.0)], 0.6

    def course(start: int, sizes: list[tuple[float, float, float]]) -> np.ndarray:
        soil = days_from(year, start_day=start, n_days=400)
        return oxidised_course(soil, sizes=sizes, params=P, wetness=wetness)

    autumn, spring = course(278, powder), course(105, powder)
    assert 100.0 * autumn[180] == pytest.approx(5.0, abs=2.0)
    assert days_until_frac(autumn, 0.5) == pytest.approx(285.0, abs=15.0)
    assert days_until_frac(spring, 0.5) == pytest.approx(110.0, abs=15.0)
    assert 100.0 * course(278, [(250.0, 500.0, 1.0)])[364] == pytest.approx(18.0, abs=3.0)


def test_temperature_factor_at_the_marks() -> None:
    values = temperature_factor([1.5, 25.0, 35.0, 40.0, 45.0, 50.0, 60.0], P)
    assert values[0] == values[5] == values[6] == 0.0
    assert values[1] == pytest.approx(1.0)
    assert values[2] == pytest.approx(values[3])
    assert values[4] == pytest.approx(0.5 * values[3])


def test_first_choice_of_energy_gives_the_factors_stated_for_it() -> None:
    first = dataclasses.replace(P, activation_energy_kj_mol=65.0, ramp_width_c=1e-9)
    assert temperature_factor([13.0, 10.0, 5.0], first) == pytest.approx(
        [0.33, 0.25, 0.15], abs=0.005
    )


def test_moisture_factor_is_a_parabola_with_a_floor() -> None:
    assert moisture_factor([0.0, 0.2, 0.6, 1.0, 1.4, 2.0], P) == pytest.approx(
        [0.0, 0.0, 0.75, 1.0, 0.75, 0.0]
    )


def test_acid_soil_slows_the_clock() -> None:
    assert [ph_factor(ph, P) for ph in (3.5, 4.5, 4.75, 5.0, 7.0)] == pytest.approx(
        [0.6, 0.6, 0.8, 1.0, 1.0]
    )


def test_half_is_gone_at_the_published_loss() -> None:
    diameter_um = 100.0
    loss = (1.0 - 0.5 ** (1.0 / 3.0)) / 2.0 * P.density_ug_cm3 * diameter_um * 1e-4
    assert loss / (P.density_ug_cm3 * diameter_um * 1e-4) == pytest.approx(0.103, abs=5e-4)
    sizes = [(diameter_um, diameter_um, 1.0)]
    assert left_frac(loss, sizes=sizes, params=P) == pytest.approx(0.5)
    gone = 0.5 * P.density_ug_cm3 * diameter_um * 1e-4
    assert left_frac(gone, sizes=sizes, params=P) == pytest.approx(0.0, abs=1e-12)


def test_class_integral_matches_many_single_sizes() -> None:
    loss = np.linspace(0.0, 5000.0, 30)
    edges = np.geomspace(20.0, 400.0, 2001)
    middles = np.sqrt(edges[1:] * edges[:-1])
    singles = np.mean(
        [left_frac(loss, sizes=[(d, d, 1.0)], params=P) for d in middles.tolist()], axis=0
    )
    wide = left_frac(loss, sizes=[(20.0, 400.0, 1.0)], params=P)
    assert wide == pytest.approx(singles, abs=1e-6)


def test_growth_does_not_hang_on_the_step() -> None:
    """The rate times the logistic growth, added up in a thousand small steps."""
    days = 40
    loss = surface_loss([25.0] * days, params=P)
    clock = (np.arange(1000 * days) + 0.5) / 1000.0
    odds = P.grown_first_frac / (1.0 - P.grown_first_frac) * np.exp(P.growth_per_d * clock)
    grown = odds / (1.0 + odds)
    summed = np.cumsum(P.rate_ug_cm2_d * grown / 1000.0)[999::1000]
    assert loss == pytest.approx(summed, rel=1e-6)


def test_oxidisers_of_an_earlier_dose_are_ahead_by_their_growth() -> None:
    """Twenty grown oxidisers in a hundred become seventy by ln(0.7 0.8/(0.3 0.2))/mu."""
    fresh = surface_loss([25.0] * 200, params=P)[-1]
    again = surface_loss([25.0] * 200, params=P, sulfur_before=True)[-1]
    first, later = P.grown_first_frac, P.grown_again_frac
    assert again - fresh == pytest.approx(
        P.rate_ug_cm2_d * math.log(later / first) / P.growth_per_d, rel=1e-6
    )


def test_the_ramp_in_the_cold_is_straight() -> None:
    plain = dataclasses.replace(P, ramp_from_c=-50.0)
    marks = [P.ramp_from_c + share * P.ramp_width_c for share in (0.0, 0.25, 0.5, 1.0)]
    ratio = temperature_factor(marks, P) / temperature_factor(marks, plain)
    assert ratio == pytest.approx([0.0, 0.25, 0.5, 1.0])


def test_rate_per_surface_falls_with_the_sulfur_surface_of_the_soil() -> None:
    ten = crowding_factor(10.0 * P.reference_surface_cm2_kg, P)
    assert ten == pytest.approx(10.0**-P.crowding_exponent)
    assert crowding_factor(P.reference_surface_cm2_kg, P) == 1.0
    grains = [(50.0, 50.0, 1.0)]
    many = oxidised_course([20.0] * 90, sizes=grains, params=P, sulfur_g_kg=1.0)
    few = oxidised_course([20.0] * 90, sizes=grains, params=P, sulfur_g_kg=0.01)
    assert np.all(few > many)
    with pytest.raises(OutOfRangeError, match="must be above 0"):
        crowding_factor(0.0, P)


def test_surface_of_a_gram() -> None:
    edges = np.geomspace(10.0, 100.0, 3001)
    middles = np.sqrt(edges[1:] * edges[:-1])
    one = [surface_cm2_g([(d, d, 1.0)], params=P) for d in middles[::100].tolist()]
    assert one == pytest.approx((6e6 / P.density_ug_cm3 / (middles[::100] * 1e-4)).tolist())
    wide = surface_cm2_g([(10.0, 100.0, 1.0)], params=P)
    assert wide == pytest.approx(float(np.mean(6e10 / P.density_ug_cm3 / middles)), rel=1e-5)


PASTILLE_GRAINS = [(20.0, 75.0, 0.25), (75.0, 150.0, 0.35), (150.0, 500.0, 0.4)]


def test_prills_that_never_break_up_are_spheres_and_soft_ones_grains() -> None:
    soil = [20.0] * 200
    hard = Prills(diameter_um=3000.0, break_up_per_year=0.0)
    whole = oxidised_course(soil, sizes=[(3000.0, 3000.0, 1.0)], params=P)
    assert oxidised_course(soil, sizes=PASTILLE_GRAINS, params=P, prills=hard) == pytest.approx(
        whole
    )
    dust = Prills(diameter_um=3000.0, break_up_per_year=1e6)
    loose = oxidised_course(soil, sizes=PASTILLE_GRAINS, params=P)
    soft = oxidised_course(soil, sizes=PASTILLE_GRAINS, params=P, prills=dust)
    assert soft == pytest.approx(loose, abs=0.05)


@pytest.mark.parametrize("per_year", [0.3, 1.4, 8.0])
def test_what_breaks_up_reacts_as_grains_of_their_own_age(per_year: float) -> None:
    """Each day's break-up followed by itself, against classes that hold grains of all ages.

    Limit set before the figure was seen: 2 points of the share oxidised over three years.
    """
    days, grown = 3 * 365, dataclasses.replace(P, grown_first_frac=1.0 - 1e-9)
    day = np.arange(days)
    soil = 12.0 - 9.0 * np.cos(2.0 * np.pi * (day - 15) / 365.0)
    prills = Prills(diameter_um=3000.0, break_up_per_year=per_year)
    course = oxidised_course(soil, sizes=PASTILLE_GRAINS, params=grown, prills=prills)
    loss = surface_loss(soil, params=grown)
    whole = left_frac(loss, sizes=[(3000.0, 3000.0, 1.0)], params=grown)
    unbroken = np.exp(-per_year / 365.25 * (day + 1.0))
    broken = -np.diff(unbroken, prepend=1.0) * whole
    left = unbroken * whole
    for born in range(days):
        since = loss[born:] - loss[born]
        left[born:] += broken[born] * left_frac(since, sizes=PASTILLE_GRAINS, params=grown)
    assert course == pytest.approx(1.0 - left, abs=0.02)


def test_drought_on_the_surface_stops_break_up_and_digging_in_does_not() -> None:
    soil, dry = [20.0] * 365, 0.1
    for on_surface, broken in ((True, False), (False, True)):
        prills = Prills(diameter_um=3000.0, break_up_per_year=2.0, on_surface=on_surface)
        whole, grains = prills_left(
            soil, sizes=PASTILLE_GRAINS, params=P, prills=prills, wetness=dry
        )
        assert (whole[-1] < 0.2) == broken
        assert (grains[-1].sum() > 0.8) == broken


def test_days_until_a_share() -> None:
    assert days_until_frac([0.25, 0.5, 0.5, 1.0], 0.5) == 2.0
    assert days_until_frac([0.4], 0.2) == 0.5
    assert math.isinf(days_until_frac([0.1], 0.2))
    with pytest.raises(OutOfRangeError, match="per cent"):
        days_until_frac([0.1], 50.0)
    with pytest.raises(OutOfRangeError, match="never falls"):
        days_until_frac([0.2, 0.1], 0.5)


@pytest.mark.parametrize(
    "sizes",
    [[(0.0, 75.0, 1.0)], [(75.0, 10.0, 1.0)], [(10.0, 75.0, 0.5)], [], [(10.0, math.nan, 1.0)]],
)
def test_impossible_sizes_are_refused(sizes: list[tuple[float, float, float]]) -> None:
    with pytest.raises(OutOfRangeError):
        left_frac(0.0, sizes=sizes, params=P)


def test_impossible_soils_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="degC"):
        temperature_factor([77.0], P)
    with pytest.raises(OutOfRangeError, match="field capacity"):
        moisture_factor([60.0], P)
    with pytest.raises(OutOfRangeError, match="k_scale"):
        surface_loss([20.0], params=P, k_scale=0.0)
    with pytest.raises(OutOfRangeError, match="one row"):
        surface_loss([[20.0], [21.0]], params=P)
