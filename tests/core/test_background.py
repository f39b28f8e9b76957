"""What draining water carries out of a soil held at a pH."""

from __future__ import annotations

import math

import pytest

from loamshift.core.background import drained_base_mmolc_m2
from loamshift.errors import OutOfRangeError

B = 1000.0 * 10.0**-7.82 * 0.008
"""Of water under 0.008 atm of carbon dioxide; KH K1 by Plummer and Busenberg 1982 [mmol2/L2]."""


SUSPENSION = 1.26


def drained(ph: float, mm: float = 100.0, *, anions: float = 1.0) -> float:
    return drained_base_mmolc_m2(
        ph,
        drainage_mm=mm,
        bicarbonate_mmol2_l2=B,
        bicarbonate_highest_mmolc_l=6.0,
        anions_mmolc_l=anions,
        suspension_mmolc_l=SUSPENSION,
    )


def test_water_as_salty_as_the_suspension_holds_the_bicarbonate_of_its_ph() -> None:
    """At pH 6.5: 10^-7.82 x 0.008 / 10^-6.5 mol/L is 0.383 mmolc/L, less 0.0003 of H."""
    others = SUSPENSION - 0.383
    assert drained(6.5, anions=others) == pytest.approx(38.3, abs=0.1)
    assert drained(6.5, 50.0) == pytest.approx(0.5 * drained(6.5))


def test_salt_halves_the_bicarbonate_by_each_fourfold_of_it() -> None:
    """H goes with the root of calcium with magnesium; little of that is bicarbonate here."""
    assert drained(7.0, anions=200.0) == pytest.approx(0.5 * drained(7.0, anions=50.0), rel=0.01)


def test_it_rises_with_the_ph_until_the_most_that_water_holds() -> None:
    assert 0.0 < drained(6.5) < drained(7.0) < drained(7.5) < drained(8.0)
    assert drained(9.5) == pytest.approx(600.0, rel=1e-5)


def test_below_neutral_it_is_acid_that_is_washed_out() -> None:
    at_rest = math.sqrt(B / 1000.0)
    shift = 0.5 * math.log10((1.0 + B / at_rest) / SUSPENSION)
    assert drained(-math.log10(at_rest) + shift) == pytest.approx(0.0, abs=1e-3)
    assert drained(4.0) < 0.0


def test_impossible_figures_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        drained(1.0)
    with pytest.raises(OutOfRangeError):
        drained(7.0, -1.0)
