from __future__ import annotations

import pytest

from loamshift.core.water_acids import (
    IrrigationParameters,
    acid_products,
    acid_strength_molc_l,
    product_per_100_l,
    protons_released,
)
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

ACIDS = acid_products(IrrigationParameters(**parameter_values("irrigation")))
ONE_MG_L_100 = 100.0 / 50.045


@pytest.mark.parametrize(
    ("name", "protons", "ml_per_100_l"),
    [
        ("sulfuric acid 93 %", 2.0, 5.74),
        ("sulfuric acid 98 %", 2.0, 5.43),
        ("sulfuric acid 35 %", 2.0, 22.22),
        ("phosphoric acid 75 %", 1.0, 16.53),
        ("phosphoric acid 85 %", 1.0, 13.67),
        ("nitric acid 67 %", 1.0, 13.42),
        ("citric acid", 3.0, 14.0),
    ],
)
def test_amounts_for_100_mg_l_by_stoichiometry(
    name: str, protons: float, ml_per_100_l: float
) -> None:
    amount = product_per_100_l(acid_mmolc_l=ONE_MG_L_100, product=ACIDS[name], protons=protons)
    assert amount == pytest.approx(ml_per_100_l, rel=0.005)


@pytest.mark.parametrize(
    ("name", "ph", "protons"),
    [
        ("sulfuric acid 93 %", 5.8, 2.0),
        ("nitric acid 67 %", 5.8, 1.0),
        ("phosphoric acid 75 %", 5.8, 1.04),
        ("citric acid", 5.8, 2.1),
        ("citric acid", 6.5, 2.54),
        ("citric acid", 9.0, 3.0),
    ],
)
def test_protons_by_ph(name: str, ph: float, protons: float) -> None:
    assert protons_released(ACIDS[name], ph) == pytest.approx(protons, abs=0.02)


def test_dry_acid_is_weighed() -> None:
    assert ACIDS["citric acid"].unit == "g"
    assert ACIDS["sulfuric acid 93 %"].unit == "mL"
    with pytest.raises(InputError, match="weigh"):
        acid_strength_molc_l(ACIDS["citric acid"], protons=3.0)


def test_impossible_amounts_are_refused() -> None:
    acid = ACIDS["sulfuric acid 93 %"]
    with pytest.raises(OutOfRangeError):
        product_per_100_l(acid_mmolc_l=-1.0, product=acid, protons=2.0)
    with pytest.raises(OutOfRangeError):
        product_per_100_l(acid_mmolc_l=1.0, product=acid, protons=0.0)
    with pytest.raises(OutOfRangeError):
        protons_released(acid, 1.0)
