"""A field of LimeSoDa (installed, never bundled) as a rate map, beside one dose by its mean."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from loamshift.case.read import parse_case
from loamshift.domain.case import Case
from loamshift.domain.field import FieldGrid, FieldInput, FieldMap, FieldSample, NoMap
from loamshift.domain.ph import PhMethod
from loamshift.services.advise import advise
from loamshift.services.field.estimate import estimate
from loamshift.services.field.judge import Ground, case_of
from loamshift.services.field.map import field_map
from loamshift.services.field.more import worth_taking

METHOD = PhMethod.WATER_1_2_5
CARBON = 1.724
"""Organic matter per organic carbon, the convention of the sets."""
CASE = """case = 1
today = 2026-10-18
name = "Field"
[place]
name = "Edinburgh"
[bed]
kind = "field"
depth = "20 cm"
planted = false
[soil]
texture = "clay"
[aim]
target_ph = 6.3
[[on_hand]]
material = "ground limestone"
pack = "1000 kg"
price = 40
currency = "EUR"
"""


def _input(name: str, *, cell_m: float = 20.0, most: int | None = None) -> FieldInput:
    soda = pytest.importorskip("LimeSoDa")
    found = soda.load_dataset(name)
    places = found["Coordinates"].to_numpy(dtype=float)[:most]
    frame = found["Dataset"]
    samples = tuple(
        FieldSample(
            name=str(n),
            x_m=float(x),
            y_m=float(y),
            ph=float(frame["pH_target"].iloc[n]),
            method=METHOD,
            clay_pct=float(frame["Clay_target"].iloc[n]),
            organic_matter_pct=CARBON * float(frame["SOC_target"].iloc[n]),
        )
        for n, (x, y) in enumerate(places)
    )
    low, high = places.min(axis=0) - 20.0, places.max(axis=0) + 20.0
    columns, rows = np.ceil((high - low) / cell_m).astype(int)
    grid = FieldGrid(
        x_m=float(low[0]),
        y_m=float(low[1]),
        cell_m=cell_m,
        inside=np.ones((rows, columns), dtype=bool),
    )
    return FieldInput(
        name=name,
        samples=samples,
        grid=grid,
        rings=(),
        area_m2=float(rows * columns) * cell_m**2,
        crs=f"EPSG:{found['Coordinates'].columns[0].rpartition('_')[2]}",
    )


@cache
def _case() -> Case:
    return parse_case(CASE)


@cache
def _mapped() -> FieldMap:
    return field_map(_input("SC.50"), _case())


def test_a_measured_field_becomes_a_map_that_tells_left_out_samples() -> None:
    tried = _mapped().tried
    assert tried is not None and _mapped().no_map is None
    assert tried.samples == 50
    assert tried.error_ph < tried.error_of_mean_ph
    assert tried.skill_frac > 0.25, "kriging of pykrige 1.7.3 tells 0.37 of it"
    assert 0.75 <= tried.held_frac <= 1.0


def test_zones_leave_more_in_range_than_the_mean_and_one_gets_nothing() -> None:
    found = _mapped()
    assert 2 <= len(found.zones) <= 5
    rates = [zone.rate_g_m2 for zone in found.zones]
    assert rates[0] > 0.0 and rates[-1] == 0.0
    assert [zone.ph_water for zone in found.zones] == sorted(z.ph_water for z in found.zones)
    assert found.by_zones.within > found.by_mean.within > found.left_alone.within
    for way in (found.by_zones, found.by_mean, found.left_alone):
        assert way.below + way.within + way.above == pytest.approx(1.0)
    assert found.by_mean.cost_now == pytest.approx(found.by_mean.now_g * 40.0 / 1e6)
    areas = sum(zone.area_m2 for zone in found.zones)
    assert areas == pytest.approx(found.field.area_m2)


def test_the_rate_of_a_zone_is_that_of_advise_on_the_same_ground() -> None:
    zone = _mapped().zones[0]
    ground = Ground(
        ph_water=zone.ph_water,
        ph_sd=zone.ph_sd,
        clay_pct=zone.clay_pct,
        organic_matter_pct=zone.organic_matter_pct,
        area_m2=zone.area_m2,
    )
    answer = advise(case_of(_case(), ground, METHOD))
    now = [one for one in answer.applications if one.only_if is None]
    assert sum(one.rate_g_m2 for one in now) == zone.rate_g_m2
    assert answer.verdict.because == zone.because


def test_ten_samples_and_a_field_without_a_pattern_get_no_map() -> None:
    assert estimate(_input("SC.50", most=10)).no_map is NoMap.FEW
    flat = estimate(_input("BB.30_1"))
    assert flat.no_map is NoMap.NO_PATTERN and flat.pattern is None
    assert np.ptp(flat.ph_water) == 0.0
    assert flat.ph_sd[0] == pytest.approx(flat.spread_ph)


def test_further_samples_pay_by_money_or_by_what_they_bring() -> None:
    from loamshift.domain.field import MoreSamples

    def row(count: int, within: float, **money: float) -> MoreSamples:
        return MoreSamples(
            count=count, within=within, cost=money.get("cost"), gain=money.get("gain")
        )

    plain = [row(10, 0.03), row(20, 0.045), row(30, 0.05)]
    assert worth_taking(plain, least_frac=0.01) == 20
    assert worth_taking([row(10, 0.004)], least_frac=0.01) == 0
    priced = [row(10, 0.03, cost=100, gain=150), row(20, 0.05, cost=200, gain=240)]
    assert worth_taking(priced, least_frac=0.01) == 10
    gains = [one.within for one in _mapped().more]
    assert gains == sorted(gains)


def test_ground_between_drawn_zones_goes_with_the_nearest() -> None:
    from loamshift.domain.field import FieldZoneEntry

    whole = _input("BB.30_1", cell_m=40.0)
    rows, columns = whole.grid.inside.shape
    west = np.zeros((rows, columns), dtype=bool)
    west[:, : columns // 3] = True
    east = np.zeros_like(west)
    east[:, -(columns // 3) :] = True
    zones = tuple(
        FieldZoneEntry(name=name, cells=cells, area_m2=1.0)
        for name, cells in (("west", west), ("east", east))
    )
    found = field_map(replace(whole, zones=zones), _case())
    assert found.no_map is NoMap.NO_PATTERN
    assert [zone.name for zone in found.zones] == ["west", "east"]
    assert sum(zone.area_m2 for zone in found.zones) == pytest.approx(whole.area_m2)
    assert {one.key for one in found.notes} == {"map-note-gaps"}
