"""Two ways of telling the column the same thing give the same course."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.column_cases import event, everything, members, run, soil, sulfur, weather
from loamshift.core.column_layout import ColumnEvent, ColumnResult, EventKind


def assert_same_course(one: ColumnResult, other: ColumnResult) -> None:
    """The pH and the sums of both runs agree to rounding."""
    np.testing.assert_allclose(one.ph, other.ph, atol=1e-9)
    np.testing.assert_allclose(one.end_ph, other.end_ph, atol=1e-9)
    for name in ("carbonate_mmolc_m2", "sulfur_left_mmolc_m2", "lime_left_mmolc_m2"):
        np.testing.assert_allclose(getattr(one, name), getattr(other, name), rtol=1e-9, atol=1e-6)


@pytest.mark.parametrize("coarse", [0.0, 0.4])
def test_a_heavier_soil_is_a_heavier_soil_however_it_is_told(coarse: float) -> None:
    rows = [sulfur(80.0), event(EventKind.ACID, 100.0, day=30)]
    days = weather(300)
    told = run(soil(7.4, carbonate_pct=0.3, bulk_density_g_cm3=1.56),
               members(coarse_carbonate_frac=coarse), days, rows)  # fmt: skip
    scaled = run(soil(7.4, carbonate_pct=0.3, bulk_density_g_cm3=1.3),
                 members(mass_factor=1.2, coarse_carbonate_frac=coarse), days, rows)  # fmt: skip
    assert_same_course(told, scaled)


def test_half_the_lime_is_half_the_lime_however_it_is_told() -> None:
    rows = [sulfur(80.0)]
    told = run(soil(7.4, carbonate_pct=0.15), members(), weather(300), rows)
    scaled = run(soil(7.4, carbonate_pct=0.3), members(carbonate_factor=0.5), weather(300), rows)
    assert_same_course(told, scaled)


@pytest.mark.parametrize("wetness", [0.35, 0.5, 0.8, 1.15])
@pytest.mark.parametrize("shift", [-0.1, 0.1])
def test_a_wetter_soil_is_wetter_however_it_is_told(wetness: float, shift: float) -> None:
    rows = [sulfur(60.0), event(EventKind.UREA, 700.0), event(EventKind.AMMONIUM, 300.0, day=60)]
    told = run(soil(6.8), members(), weather(200, wetness=wetness + shift), rows)
    scaled = run(soil(6.8), members(wetness_shift=shift), weather(200, wetness=wetness), rows)
    assert_same_course(told, scaled)


def test_nitrogen_waits_in_dry_and_in_soaked_soil() -> None:
    """Slower below the wetness that is enough, and above field capacity, where air is short."""

    def fall(wetness: float) -> float:
        warm = weather(7, mean_c=20.0, swing_c=0.0, wetness=wetness, drainage_mm_year=0.0)
        result = run(soil(6.8), members(), warm, [event(EventKind.AMMONIUM, 900.0)])
        return float(result.ph[0, 0] - result.ph[0, -1])

    dry, drier, enough, wet, soaked = (fall(w) for w in (0.4, 0.2, 0.9, 1.2, 1.5))
    assert 0.0 < drier < dry < enough
    assert 0.0 <= soaked < wet < enough
    assert drier / dry == pytest.approx(0.5, abs=0.1)


@pytest.mark.parametrize("steps", [2, 4])
def test_more_steps_a_day_bring_the_same_loads(steps: int) -> None:
    """What a day brings is shared among its steps: water, background, salts, what decays."""
    rows = [row for row in everything() if row.kind is not EventKind.TILLAGE]
    days = weather(365, irrigation_mm_week=15.0, alkalinity_mmolc_l=4.0)
    bed, few = soil(6.4, carbonate_pct=0.05), members(3, seed=4)
    once = run(bed, few, days, rows)
    often = run(bed, few, days, rows, steps_per_day=steps)
    np.testing.assert_allclose(often.water_base_mmolc_m2, once.water_base_mmolc_m2, rtol=1e-9)
    np.testing.assert_allclose(
        often.background_acid_mmolc_m2, once.background_acid_mmolc_m2, rtol=0.03, atol=2.0
    )
    assert np.abs(often.ph[:, -1] - once.ph[:, -1]).max() < 0.05
    assert often.balance_error.max() < 1e-10


@pytest.mark.parametrize(
    ("kind", "half_life"),
    [
        (EventKind.FAST_SALT, "fast_salt_half_time_d"),
        (EventKind.ORGANIC_ACID, "organic_acid_half_time_d"),
        (EventKind.DECAY, "decay_half_time_d"),
    ],
)
@pytest.mark.parametrize("steps", [1, 2])
def test_half_of_a_pool_has_worked_after_its_half_life(
    kind: EventKind, half_life: str, steps: int
) -> None:
    """Against the same acid put on at once: half of it has come, or has gone again."""
    still = {"background_mmolc_m2_year": 0.0, "weathering_mmolc_m2_year": 0.0}
    dry = weather(400, mean_c=20.0, swing_c=0.0, drainage_mm_year=0.0)

    def fall(row: ColumnEvent, day: int) -> float:
        one = members(1, seed=None, **(still | {half_life: 20.0}))
        result = run(soil(6.5), one, dry, [row], stride_days=20, steps_per_day=steps)
        return float(result.ph[0, 0] - result.ph[0, day // 20])

    half = fall(event(EventKind.ACID, 60.0), 40)
    whole = event(kind, 120.0)
    assert fall(whole, 20) == pytest.approx(half, rel=0.05)
    end = 0.0 if kind is EventKind.ORGANIC_ACID else fall(event(EventKind.ACID, 120.0), 40)
    assert fall(whole, 400) == pytest.approx(end, abs=0.01)


@pytest.mark.parametrize("days", [3, 12, 25])
def test_the_balance_closes_while_the_pools_are_still_full(days: int) -> None:
    """Urea, ammonium, salts, organic acid and decay all on the way, lime and sulfur unreacted."""
    rows = [replace(row, day=0) for row in everything() if row.kind is not EventKind.TILLAGE]
    cool = weather(days, mean_c=4.0, swing_c=0.0, irrigation_mm_week=10.0, alkalinity_mmolc_l=3.0)
    result = run(soil(6.4, carbonate_pct=0.05), members(3, seed=8), cool, rows, stride_days=1)
    assert result.balance_error.max() < 1e-10
    assert result.sulfur_left_mmolc_m2.min() > 0.0 and result.lime_left_mmolc_m2.min() > 0.0


def test_urea_and_ammonium_of_one_speed_follow_the_law_of_equal_rates() -> None:
    """Where both clocks run alike the usual formula divides by nothing; its limit is used."""
    still = weather(40, mean_c=20.0, swing_c=0.0, wetness=1.0, drainage_mm_year=0.0)
    near, alike = (
        run(soil(6.8), members(urea_rate_per_d=rate), still, [event(EventKind.UREA, 700.0)])
        for rate in (0.1 * (1.0 + 1e-6), 0.1)
    )
    np.testing.assert_allclose(near.ph, alike.ph, atol=1e-5)


def test_one_size_of_grain_is_a_narrow_class() -> None:
    """Grains of 300 um, told as one size and as a class of half a per cent."""
    one = run(soil(6.5), members(), weather(365), [sulfur(60.0, sizes=((300.0, 300.0, 1.0),))])
    narrow = run(soil(6.5), members(), weather(365), [sulfur(60.0, sizes=((299.25, 300.75, 1.0),))])
    np.testing.assert_allclose(one.ph, narrow.ph, atol=1e-4)
    assert one.oxidised_frac[0, -1] > 0.05


def ph_moved(kind: EventKind, wetness: float, **rates: float) -> float:
    """How far a week moves the pH by slow nitrogen alone, ammonium acid positive [pH]."""
    still = {"background_mmolc_m2_year": 0.0, "weathering_mmolc_m2_year": 0.0}
    warm = weather(7, mean_c=20.0, swing_c=0.0, wetness=wetness, drainage_mm_year=0.0)
    result = run(soil(6.8), members(1, seed=None, **(still | rates)), warm, [event(kind, 900.0)])
    return float(result.ph[0, 0] - result.ph[0, -1])


@pytest.mark.parametrize(
    ("wetness", "share"), [(0.2, 0.25), (0.4, 0.5), (1.0, 1.0), (1.4, 0.75), (1.8, 0.0)]
)
def test_nitrification_by_wetness(wetness: float, share: float) -> None:
    """A straight fall below 0.8 of field capacity, a parabola of half width 0.8 above it."""

    def by_microbes(wet: float) -> float:
        """Without what roots take up of the ammonium, which knows no wetness."""
        slow, none = ({"nitrification_rate_per_d": rate} for rate in (0.004, 1e-9))
        uptake = ph_moved(EventKind.AMMONIUM, wet, **none)
        return ph_moved(EventKind.AMMONIUM, wet, **slow) - uptake

    assert by_microbes(wetness) / by_microbes(0.8) == pytest.approx(share, abs=0.02)


@pytest.mark.parametrize(("wetness", "share"), [(0.2, 0.25), (0.4, 0.5), (1.0, 1.0), (1.8, 1.0)])
def test_urea_turns_by_wetness_and_needs_no_air(wetness: float, share: float) -> None:
    slow = {"urea_rate_per_d": 0.004, "nitrification_rate_per_d": 1e-9}
    enough = ph_moved(EventKind.UREA, 0.8, **slow)
    assert enough < 0.0, "ammonia from urea raises the pH at first"
    moved = ph_moved(EventKind.UREA, wetness, **slow)
    assert moved / enough == pytest.approx(share, abs=0.02)
