from __future__ import annotations

from datetime import date

import pytest

from loamshift.errors import OutOfRangeError
from loamshift.services.materials.acid import (
    acid_brought_mmolc_m2,
    acid_course_mmolc_m2,
    acid_within_days,
    daily_soil_temp_c,
    temperature_is_assumed,
    temporary_acid_left_mmolc_m2,
    temporary_acid_mmolc_m2,
    weeks_to_half,
)
from loamshift.tables.materials import load_materials

MATERIALS = load_materials()
SPRING = date(2026, 4, 15)
COLD_YEAR = tuple([0.0] * 105 + [18.0] * 140 + [0.0] * 120)
WARM = (25.0,) * 365


def brought(key: str, rate: float = 100.0, *, in_pot: bool = False) -> float:
    return acid_brought_mmolc_m2(MATERIALS[key], rate_g_m2=rate, in_pot=in_pot)


def within(key: str, days: int, *, temp: tuple[float, ...] = WARM, mixed: bool = True) -> float:
    return acid_within_days(
        MATERIALS[key],
        rate_g_m2=100.0,
        soil_temp_c=temp,
        start=SPRING,
        days=days,
        ph_water=6.5,
        in_pot=False,
        incorporated=mixed,
    )


def test_pure_sulfur_and_limestone_undo_each_other_in_the_ratio_of_their_masses() -> None:
    sulfur = brought("elemental sulfur, powder", 32.06 / 0.99)
    assert sulfur == pytest.approx(2000.0)
    assert brought("ground limestone, calcitic", 100.09 / 0.98) == pytest.approx(-2000.0)


@pytest.mark.parametrize(
    "key", ["gypsum", "epsom salt", "potassium sulfate", "potassium chloride", "vinegar, 5 %"]
)
def test_neutral_salts_and_vinegar_bring_no_lasting_acid(key: str) -> None:
    assert brought(key) == 0.0
    assert within(key, 365) == 0.0


def test_nitrogen_counts_by_the_realised_share_and_in_full_in_a_pot() -> None:
    """Handbooks print 1.5 of 2: 1.85 where the plant is carried off, half of 1.5 in topsoil."""
    nitrogen = 100.0 * 0.21 / 14.007 * 1000.0
    assert brought("ammonium sulfate", in_pot=True) == pytest.approx(1.85 * nitrogen)
    assert brought("ammonium sulfate") == pytest.approx(0.5 * 1.5 * nitrogen)


def test_ammonia_ends_up_acid_as_its_own_nitrogen_and_first_limes() -> None:
    nitrogen_mol = 100.0 * 0.82244 / 14.007 * 1000.0
    assert brought("anhydrous ammonia", in_pot=True) == pytest.approx(0.85 * nitrogen_mol, rel=1e-3)
    assert within("anhydrous ammonia", 1) < 0.0 < within("anhydrous ammonia", 120)


def test_urea_passes_through_a_liming_phase() -> None:
    assert within("urea", 3) < 0.0 < within("urea", 90)


def test_every_course_ends_at_what_the_material_brings() -> None:
    slow = {
        "elemental sulfur, prills",
        "elemental sulfur, pastilles",
        "eggshell, hand crushed",
        "ground limestone, british standard",
        "ground limestone, irish standard",
    }
    """Coarse grains of these are not done in twenty years."""
    for key, material in MATERIALS.items():
        if key in slow:
            continue
        total = acid_brought_mmolc_m2(material, rate_g_m2=100.0, in_pot=False)
        course = acid_course_mmolc_m2(
            material,
            rate_g_m2=100.0,
            soil_temp_c=WARM,
            start=SPRING,
            days=20 * 365,
            ph_water=6.5,
            in_pot=False,
        )
        assert course[-1] == pytest.approx(total, rel=0.03, abs=0.3), key


def test_fine_sulfur_is_faster_than_coarse_and_mixed_in_than_left_on_top() -> None:
    grades = ["wettable", "powder", "100 mesh", "50-80 mesh", "prills"]
    shares = [
        within(f"elemental sulfur, {grade}", 120) / brought(f"elemental sulfur, {grade}")
        for grade in grades
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > 0.99 and shares[-1] < 0.3
    key = "elemental sulfur, powder"
    assert within(key, 60, mixed=False) < within(key, 60)


def test_autumn_sulfur_waits_for_the_summer_in_a_cold_place() -> None:
    material = MATERIALS["elemental sulfur, powder"]
    autumn = weeks_to_half(material, soil_temp_c=COLD_YEAR, start=date(2026, 10, 1), ph_water=6.5)
    spring = weeks_to_half(material, soil_temp_c=COLD_YEAR, start=SPRING, ph_water=6.5)
    assert autumn is not None and spring is not None
    assert autumn > 27.0 and spring < 12.0


def test_aluminium_and_iron_salts_are_there_within_a_week() -> None:
    for key in ("aluminium sulfate, 18-hydrate", "ferrous sulfate, heptahydrate"):
        assert within(key, 7) / brought(key) > 0.9
        half = weeks_to_half(MATERIALS[key], soil_temp_c=(), start=SPRING, ph_water=6.5)
        assert half is not None and half < 1.0


def test_half_is_unknown_where_nothing_acts_or_three_years_are_too_short() -> None:
    for key in ("gypsum", "elemental sulfur, prills"):
        assert (
            weeks_to_half(MATERIALS[key], soil_temp_c=(12.0,) * 365, start=SPRING, ph_water=6.5)
            is None
        )


def test_organic_acid_is_gone_in_weeks() -> None:
    vinegar = MATERIALS["vinegar, 5 %"]
    start = temporary_acid_mmolc_m2(vinegar, rate_g_m2=1000.0)
    assert start == pytest.approx(832.61)
    assert temporary_acid_left_mmolc_m2(vinegar, rate_g_m2=1000.0, days=30) < 0.002 * start
    needles = MATERIALS["pine needles, fallen"]
    assert temporary_acid_left_mmolc_m2(needles, rate_g_m2=1000.0, days=60) == pytest.approx(
        0.5 * temporary_acid_mmolc_m2(needles, rate_g_m2=1000.0)
    )


def test_the_year_of_soil_temperature_wraps_and_bears_a_leap_day() -> None:
    year = tuple(float(day) / 10.0 for day in range(1, 366))
    days = daily_soil_temp_c(year, start=date(2026, 12, 31), days=3)
    assert days.tolist() == [36.5, 0.1, 0.2]
    leap = daily_soil_temp_c(year, start=date(2028, 2, 29), days=1)
    assert leap.tolist() == [5.9]
    assert temperature_is_assumed(()) and not temperature_is_assumed(year)
    assert set(daily_soil_temp_c((), start=SPRING, days=4).tolist()) == {15.0}


def test_impossible_amounts_and_times_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="rate_g_m2"):
        brought("urea", -1.0)
    with pytest.raises(OutOfRangeError, match="days"):
        within("urea", -1)
    with pytest.raises(OutOfRangeError, match="365"):
        within("urea", 3, temp=(10.0,) * 12)
