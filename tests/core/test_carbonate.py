from __future__ import annotations

import math

import pytest

from loamshift.core.carbonate import calcite_solution, plateau_ph, rain_ph
from loamshift.core.equilibrium import CarbonateParameters, activity_coefficient, constants
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = CarbonateParameters(**parameter_values("carbonate"))


@pytest.mark.parametrize(
    ("name", "at_5", "at_15", "at_25"),
    [
        ("kh", -1.1921, -1.3408, -1.4679),
        ("k1", -6.5163, -6.4188, -6.3519),
        ("k2", -10.5544, -10.4284, -10.3289),
        ("k_calcite", -8.3942, -8.4302, -8.4798),
        ("k_cahco3", 0.9007, 1.0234, 1.1057),
        ("k_caco3", 3.1272, 3.1542, 3.2241),
        ("kw", -14.7322, -14.3461, -13.9995),
        ("k_gypsum", -4.602, -4.5846, -4.5809),
        ("k_caso4", 2.1802, 2.2163, 2.25),
    ],
)
def test_constants_keep_their_values(name: str, at_5: float, at_15: float, at_25: float) -> None:
    for temp, expected in ((5.0, at_5), (15.0, at_15), (25.0, at_25)):
        assert math.log10(getattr(constants(temp, P), name)) == pytest.approx(expected, abs=1e-4)


def test_debye_slope_at_three_temperatures() -> None:
    assert [round(constants(t, P).davies_a, 3) for t in (5.0, 15.0, 25.0)] == [0.495, 0.503, 0.512]


def test_activity_of_dilute_water_is_one() -> None:
    for charge in (0, 1, 2):
        gamma = activity_coefficient(charge=charge, ionic_strength=0.0, davies_a=0.51, params=P)
        assert gamma == 1.0


def test_ionic_strength_beyond_davies_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="Davies"):
        activity_coefficient(charge=1, ionic_strength=0.6, davies_a=0.51, params=P)


def test_plateau_falls_from_the_bench_to_the_root_zone() -> None:
    bench = plateau_ph(p_co2_atm=P.p_co2_suspension_atm, temp_c=15.0, params=P)
    roots = plateau_ph(p_co2_atm=P.p_co2_root_zone_atm, temp_c=15.0, params=P)
    assert bench == pytest.approx(8.2, abs=0.05)
    assert 7.0 <= roots <= 7.3


def test_gypsum_lowers_the_plateau() -> None:
    plain = plateau_ph(p_co2_atm=0.01, temp_c=15.0, params=P)
    with_gypsum = plateau_ph(p_co2_atm=0.01, temp_c=15.0, params=P, gypsum=True)
    assert 0.2 < plain - with_gypsum < 0.5


def test_plain_calcite_water_has_two_charges_of_alkalinity_per_calcium() -> None:
    solution = calcite_solution(p_co2_atm=0.01, temp_c=15.0, params=P)
    assert solution.alkalinity_mmolc_l == pytest.approx(2.0 * solution.ca_mmol_l, rel=1e-6)


@pytest.mark.parametrize("temp", [-0.1, 40.1, math.nan])
def test_temperature_outside_is_refused(temp: float) -> None:
    with pytest.raises(OutOfRangeError, match="temp_c"):
        rain_ph(p_co2_atm=4e-4, temp_c=temp, params=P)


@pytest.mark.parametrize("p_co2", [0.0, 425.0, math.nan])
def test_pressure_outside_is_refused_with_the_unit(p_co2: float) -> None:
    with pytest.raises(OutOfRangeError, match="ppm"):
        calcite_solution(p_co2_atm=p_co2, temp_c=15.0, params=P)


def test_too_much_salt_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="cacl2"):
        calcite_solution(p_co2_atm=4e-4, temp_c=15.0, params=P, cacl2_mmol_l=1000.0)
