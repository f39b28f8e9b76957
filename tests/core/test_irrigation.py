from __future__ import annotations

import math

import pytest

from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import (
    ionic_strength_from_alkalinity,
    ionic_strength_from_ec,
    water_acid_mmolc_l,
    water_base_mmolc_m2,
)
from loamshift.core.water_acids import IrrigationParameters
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = CarbonateParameters(**parameter_values("carbonate"))
Q = IrrigationParameters(**parameter_values("irrigation"))


def acid(alkalinity: float, start: float, target: float) -> float:
    return water_acid_mmolc_l(
        alkalinity_mmolc_l=alkalinity,
        ph_start=start,
        ph_target=target,
        temp_c=20.0,
        ionic_strength=0.007,
        params=P,
    )


def test_share_of_the_alkalinity_to_two_targets() -> None:
    assert acid(4.0, 7.5, 6.5) / 4.0 == pytest.approx(0.37, abs=0.01)
    assert acid(4.0, 7.5, 5.8) / 4.0 == pytest.approx(0.76, abs=0.01)


def test_no_acid_where_the_water_is_already_there() -> None:
    assert acid(4.0, 7.5, 7.5) == pytest.approx(0.0, abs=1e-12)


def test_nearly_all_alkalinity_is_gone_at_the_end_point() -> None:
    assert acid(4.0, 7.5, 4.5) == pytest.approx(4.0, rel=0.03)


@pytest.mark.parametrize(
    ("alkalinity", "start", "target", "match"),
    [
        (4.0, 6.0, 7.0, "only lowers"),
        (250.0, 7.5, 6.0, "over 50"),
        (0.0, 9.0, 6.0, "check both"),
        (math.nan, 7.5, 6.0, "alkalinity"),
        (4.0, 7.5, 3.0, "ph_target"),
    ],
)
def test_impossible_waters_are_refused(
    alkalinity: float, start: float, target: float, match: str
) -> None:
    with pytest.raises(OutOfRangeError, match=match):
        acid(alkalinity, start, target)


def test_base_of_a_season_of_hard_water() -> None:
    assert water_base_mmolc_m2(alkalinity_mmolc_l=5.0, water_mm=730.0) == 3650.0
    with pytest.raises(OutOfRangeError):
        water_base_mmolc_m2(alkalinity_mmolc_l=-1.0, water_mm=100.0)


def test_two_ways_to_the_ionic_strength_agree_for_a_usual_water() -> None:
    by_alkalinity = ionic_strength_from_alkalinity(4.0, Q)
    assert ionic_strength_from_ec(0.5, Q) == pytest.approx(by_alkalinity, rel=0.15)


def test_ionic_strength_matters_little() -> None:
    low, high = (
        water_acid_mmolc_l(
            alkalinity_mmolc_l=4.0,
            ph_start=7.5,
            ph_target=6.5,
            temp_c=20.0,
            ionic_strength=strength,
            params=P,
        )
        for strength in (0.0035, 0.014)
    )
    assert abs(high / low - 1.0) < 0.06
