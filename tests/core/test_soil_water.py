"""Salt and the pH of soil water, against the printed equation."""

from __future__ import annotations

import math

import numpy as np
import pytest

from loamshift.core.column_flux import water_hydrogen
from loamshift.core.soil_water import slope_ratio, soil_water_hydrogen

C_W = 1.26
PH = np.linspace(3.5, 9.0, 23)


def exact(ph: float, *, anions: float, b: float) -> float:
    """The root of x = H root((anions + b/x)/C_w), sought by halving."""
    h = 10.0**-ph
    low, high = 1e-14, 1.0
    for _ in range(200):
        middle = math.sqrt(low * high)
        above = middle > h * math.sqrt((anions + b / middle) / C_W)
        low, high = (low, middle) if above else (middle, high)
    return math.sqrt(low * high)


@pytest.mark.parametrize("anions", [0.4, 1.0, 3.0, 20.0])
@pytest.mark.parametrize("pco2_atm", [0.001, 0.0025, 0.01, 0.032])
def test_three_turns_come_to_the_root_of_the_printed_equation(
    anions: float, pco2_atm: float
) -> None:
    """Within 1 % of H, 0.004 of pH, wherever water holds no more than twice its ceiling."""
    b = 1000.0 * 10.0**-7.82 * pco2_atm
    found = soil_water_hydrogen(
        10.0**-PH, anions_mmolc_l=anions, bicarbonate_mmol2_l2=b, suspension_mmolc_l=C_W
    )
    wanted = np.array([exact(float(ph), anions=anions, b=b) for ph in PH])
    held = b / wanted < 12.0
    assert held.sum() > 15
    assert np.allclose(found[held], wanted[held], rtol=0.01)


def test_the_compiled_column_does_the_same() -> None:
    b = 1000.0 * 10.0**-7.82 * 0.0025
    found = [water_hydrogen(10.0 ** -float(ph), 3.0 / C_W, b / C_W) for ph in PH]
    same = soil_water_hydrogen(
        10.0**-PH, anions_mmolc_l=3.0, bicarbonate_mmol2_l2=b, suspension_mmolc_l=C_W
    )
    assert np.allclose(found, same, rtol=1e-12)


def test_salt_beyond_the_suspension_makes_water_more_acid_and_less_makes_it_less() -> None:
    """Bounded both ways: by the root of what the anions alone do, and of all that is there."""
    for anions in (0.3, 5.0, 40.0):
        b = 1000.0 * 10.0**-7.82 * 0.0025
        x = soil_water_hydrogen(
            10.0**-PH, anions_mmolc_l=anions, bicarbonate_mmol2_l2=b, suspension_mmolc_l=C_W
        )
        least = 10.0**-PH * math.sqrt(anions / C_W)
        most = 10.0**-PH * np.sqrt((anions + b / least) / C_W)
        assert (x >= least * (1.0 - 1e-12)).all()
        assert (x <= most * (1.0 + 1e-12)).all()


def test_the_slope_is_that_of_the_root() -> None:
    b, step = 1000.0 * 10.0**-7.82 * 0.0025, 1e-4
    for ph in (5.0, 7.0, 8.0):
        up, down = (exact(ph + s, anions=1.0, b=b) for s in (step, -step))
        measured = math.log(down / up) / (2.0 * step * math.log(10.0))
        held = b / exact(ph, anions=1.0, b=b)
        assert float(slope_ratio(held, anions_mmolc_l=1.0)) == pytest.approx(measured, rel=1e-5)
