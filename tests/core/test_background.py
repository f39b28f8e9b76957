"""What draining water carries out of a soil held at a pH."""

from __future__ import annotations

import math

import pytest

from loamshift.core.background import drained_base_mmolc_m2
from loamshift.errors import OutOfRangeError

B = 1000.0 * 10.0**-7.82 * 0.008
"""Of water under 0.008 atm of carbon dioxide; KH K1 by Plummer and Busenberg 1982 [mmol2/L2]."""


def drained(ph: float, mm: float = 100.0) -> float:
    return drained_base_mmolc_m2(
        ph, drainage_mm=mm, bicarbonate_mmol2_l2=B, bicarbonate_highest_mmolc_l=6.0
    )


def test_it_is_the_bicarbonate_of_the_water_times_the_water() -> None:
    """At pH 7.5: 10^-7.82 x 0.008 / 10^-7.5 mol/L is 3.83 mmolc/L."""
    assert drained(7.5) == pytest.approx(383.0, abs=0.5)
    assert drained(7.5, 50.0) == pytest.approx(0.5 * drained(7.5))


def test_tenfold_by_each_unit_until_the_most_that_water_holds() -> None:
    assert drained(7.0) == pytest.approx(drained(7.5) / math.sqrt(10.0), rel=1e-3)
    assert drained(8.5) == pytest.approx(600.0, rel=1e-5)
    assert drained(9.0) == pytest.approx(600.0, rel=1e-5)


def test_below_neutral_it_is_acid_that_is_washed_out() -> None:
    neutral = 0.5 * math.log10(1000.0 / B)
    assert drained(neutral) == pytest.approx(0.0, abs=1e-9)
    assert drained(4.0) < 0.0


def test_impossible_figures_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        drained(1.0)
    with pytest.raises(OutOfRangeError):
        drained(7.0, -1.0)
