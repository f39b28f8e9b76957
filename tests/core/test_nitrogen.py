from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from loamshift.core.nitrogen import (
    NitrogenParameters,
    nitrification_ph_factor,
    nitrification_rate_per_d,
    nitrogen_course,
    urea_rate_per_d,
)
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = NitrogenParameters(**parameter_values("nitrogen"))


def test_shares_add_up_and_stay_positive() -> None:
    course = nitrogen_course([12.0] * 90, urea_frac=0.6, ph_water=6.0, params=P)
    assert course.as_urea + course.as_ammonium + course.nitrified == pytest.approx(np.ones(90))
    assert min(part.min() for part in course) >= 0.0


def test_two_steps_match_their_closed_form() -> None:
    course = nitrogen_course([25.0] * 20, urea_frac=1.0, ph_water=7.0, params=P)
    day = np.arange(1, 21)
    a, b = 0.4, 0.1
    ammonium = a / (b - a) * (np.exp(-a * day) - np.exp(-b * day))
    assert course.as_urea == pytest.approx(np.exp(-a * day))
    assert course.as_ammonium == pytest.approx(ammonium)


def test_equal_rates_do_not_divide_by_zero() -> None:
    same = dataclasses.replace(P, nitrification_rate_per_d=P.urea_rate_per_d)
    course = nitrogen_course([25.0] * 5, urea_frac=1.0, ph_water=7.0, params=same)
    day = np.arange(1, 6)
    assert course.as_ammonium == pytest.approx(0.4 * day * np.exp(-0.4 * day))


def test_q10_and_the_frost() -> None:
    cold, warm = nitrification_rate_per_d([10.0, 20.0], ph_water=6.5, params=P)
    assert warm / cold == pytest.approx(2.2)
    frozen = nitrification_rate_per_d([-1.0], ph_water=6.5, params=P)
    assert frozen[0] == urea_rate_per_d([-1.0], params=P)[0] == 0.0


def test_acid_soil_slows_nitrification_but_does_not_stop_it() -> None:
    factors = [nitrification_ph_factor(ph, P) for ph in (3.5, 4.3, 5.0, 6.0, 7.5)]
    assert factors == pytest.approx([0.2, 0.2, 0.5, 1.0, 1.0])


def test_waterlogged_soil_does_not_nitrify_and_still_splits_urea() -> None:
    wet = nitrification_rate_per_d([20.0], ph_water=6.5, params=P, wetness=1.8)
    assert wet[0] == pytest.approx(0.0)
    assert urea_rate_per_d([20.0], params=P, wetness=1.8)[0] > 0.2


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="share"):
        nitrogen_course([20.0], urea_frac=46.0, ph_water=6.0, params=P)
    with pytest.raises(OutOfRangeError, match="ph_water"):
        nitrogen_course([20.0], urea_frac=1.0, ph_water=math.nan, params=P)
    with pytest.raises(OutOfRangeError, match="wetness"):
        nitrogen_course([20.0], urea_frac=1.0, ph_water=6.0, params=P, wetness=60.0)
