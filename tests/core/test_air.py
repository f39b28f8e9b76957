"""Acid from the air: by charge, by place and year, and counted once."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from core.column_cases import members, run, soil, weather
from loamshift.core.air import air_acid_mmolc_m2
from loamshift.core.background import (
    LedgerParameters,
    air_in_loads,
    background_acid_mmolc_m2,
)
from loamshift.errors import OutOfRangeError
from loamshift.services.context.air import air_acid, air_beyond_load_daily
from loamshift.tables.parameters import parameter_values
from loamshift.tables.places import find_place

P = LedgerParameters(**parameter_values("ledger"))


def falls(s: float = 0.0, n: float = 0.0, base: float = 0.0) -> float:
    return air_acid_mmolc_m2(sulfur_kg_ha=s, nitrogen_kg_ha=n, base_mmolc_m2=base, params=P)


def test_sulfur_brings_two_by_charge_and_nitrogen_what_is_washed_out_of_it() -> None:
    """32.06 kg S/ha is 100 mmol/m2; 14.007 kg N/ha too, half washed out, half of that shows."""
    assert falls(s=32.06) == pytest.approx(200.0, rel=1e-3)
    assert falls(n=14.007) == pytest.approx(25.0, rel=1e-3)
    assert falls(s=32.06, base=150.0) == pytest.approx(50.0, rel=1e-2)
    assert falls(s=1.0, base=500.0) == 0.0
    with pytest.raises(OutOfRangeError):
        falls(s=-1.0)


def mean_acid(name: str, first: int, last: int) -> float:
    place = find_place(name)
    return float(np.mean([air_acid(place, year=y).mmolc_m2 for y in range(first, last + 1)]))


def test_what_a_load_holds_is_what_fell_where_and_when_it_was_measured() -> None:
    """Rothamsted 1962-1994, Western Australia and New Zealand about 1993; rows to a whole mmolc."""
    inside = air_in_loads(P)
    assert inside["high crop"] == pytest.approx(mean_acid("London", 1962, 1994), abs=0.6)
    south = mean_acid("Perth", 1990, 1996)
    for use in ("unfed", "garden", "lawn", "low crop"):
        assert inside[use] == pytest.approx(south, abs=0.6)
    between = math.sqrt(inside["unfed"] * inside["high crop"])
    assert inside["unknown"] == pytest.approx(between, abs=0.6)


def test_the_air_of_its_own_place_and_years_changes_no_load() -> None:
    for use, inside in air_in_loads(P).items():
        told = background_acid_mmolc_m2(
            6.0, drainage_mm=250.0, params=P, land_use=use, air_mmolc_m2=inside
        )
        assert told == background_acid_mmolc_m2(6.0, drainage_mm=250.0, params=P, land_use=use)


def test_a_garden_of_today_does_not_inherit_1970() -> None:
    london = find_place("London")
    now, then = (air_acid(london, year=year).mmolc_m2 for year in (2026, 1970))
    assert 30.0 <= now <= 60.0
    assert then > 3.0 * now


def test_a_place_nobody_told_is_wide() -> None:
    nowhere, london = air_acid(None, year=2026), air_acid(find_place("London"), year=2026)
    assert nowhere.region == "elsewhere"
    assert nowhere.spread > 2.0 * london.spread


def test_each_day_of_a_run_has_the_air_of_its_year() -> None:
    london = find_place("London")
    daily = air_beyond_load_daily(london, land_use="garden", start=date(1969, 12, 31), days=367)
    inside = air_in_loads(P)["garden"]
    assert daily[0] == pytest.approx(air_acid(london, year=1969).mmolc_m2 - inside)
    assert daily[1] == daily[365] == pytest.approx(air_acid(london, year=1970).mmolc_m2 - inside)
    assert daily[366] == pytest.approx(air_acid(london, year=1971).mmolc_m2 - inside)


def test_the_column_takes_up_what_falls_and_its_balance_closes() -> None:
    """100 mmolc/m2 a year for 365 days of 365.25, on the same loads else; twice with factor 2."""
    days = weather(365, drainage_mm_year=0.0)
    rise = {"background_rise_per_ph": 0.0}
    plain = run(soil(), members(1, **rise), days)
    falling = replace(days, air_mmolc_m2_year=np.full(365, 100.0))
    for factor in (1.0, 2.0):
        found = run(soil(), members(1, air_factor=factor, **rise), falling)
        more = found.background_acid_mmolc_m2 - plain.background_acid_mmolc_m2
        assert more[0] == pytest.approx(100.0 * factor * 365.0 / 365.25)
        assert found.balance_error.max() < 1e-9
        assert found.ph[0, -1] < plain.ph[0, -1]


def test_salty_water_carries_less_base_out_of_a_neutral_soil_and_more_acid_out_of_a_sour_one() -> (
    None
):
    """Bounded both ways, and the balance closes whatever the salt."""
    days = weather(365, drainage_mm_year=400.0)
    drained = {}
    for ph in (7.5, 4.0):
        for anions in (0.4, 20.0):
            found = run(soil(ph), members(1, anions_mmolc_l=anions), days, depth_cm=30.0)
            assert found.balance_error.max() < 1e-9
            drained[ph, anions] = float(found.drained_base_mmolc_m2[0])
    assert 0.0 < drained[7.5, 20.0] < drained[7.5, 0.4]
    assert drained[4.0, 20.0] < drained[4.0, 0.4] < 0.0


def test_salt_moves_no_step_size() -> None:
    days = weather(365, drainage_mm_year=400.0)
    for anions in (0.4, 20.0):
        one, many = (
            run(soil(7.0), members(1, anions_mmolc_l=anions), days, steps_per_day=steps).ph[0, -1]
            for steps in (1, 16)
        )
        assert one == pytest.approx(many, abs=0.005)
