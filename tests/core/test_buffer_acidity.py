"""Acid behind a laboratory's buffer pH, and the belief about a scale after rough measurements."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.buffer_acidity import (
    acidity_mmolc_kg,
    buffer_ph_without_acidity,
    reading_log10_sd,
)
from loamshift.core.buffer_scale import Possible, combine_log10_k, log10_k_after
from loamshift.core.lime_requirement import (
    adams_evans_unsaturation_frac,
    lime_requirement_caco3_g_m2_from_buffer_ph,
)
from loamshift.errors import InputError, OutOfRangeError

ADAMS_EVANS = (8.0, 8.0, 7.79, 5.55, 2.27, 1.5)
MEHLICH = (6.6, 4.0)
SMP = (60.4, 0.87, 0.9)


def acidity(form: str, coefficients: tuple[float, ...], reading: float, **given: float) -> float:
    usual = {
        "ph_water": 5.2,
        "target_ph": 6.5,
        "bulk_density_g_cm3": 1.25,
        "slice_kg_m2": 269.0,
        "field_allowance": 1.0,
    }
    return acidity_mmolc_kg(form, coefficients, reading=reading, **{**usual, **given})


def test_mehlich_acidity_as_printed() -> None:
    """(6.6 - BpH) x 4 meq/100 cm3, its share (target - pH)/(6.6 - pH): North Carolina's page."""
    whole = 4.0 * (6.6 - 6.3)
    share = (6.0 - 5.0) / (6.6 - 5.0)
    found = acidity("mehlich-nc", MEHLICH, 6.3, ph_water=5.0, target_ph=6.0, bulk_density_g_cm3=1.0)
    assert found == pytest.approx(10.0 * whole * share)


def test_adams_evans_acidity_as_printed() -> None:
    """(8.00 - buffer pH) x 8 meq H/100 g: procedure of the University of Georgia."""
    all_of_it = acidity("adams-evans", ADAMS_EVANS, 7.5, ph_water=4.0, target_ph=7.79)
    assert all_of_it == pytest.approx(10.0 * 8.0 * 0.5)


def test_adams_evans_curve_of_unsaturation_is_solved() -> None:
    for share in (0.05, 0.3, 0.6, 0.95):
        ph = 7.79 - 5.55 * share + 2.27 * share**2
        assert adams_evans_unsaturation_frac(ph, (7.79, 5.55, 2.27)) == pytest.approx(share)
    assert adams_evans_unsaturation_frac(3.0, (7.79, 5.55, 2.27)) == 1.0
    assert adams_evans_unsaturation_frac(8.0, (7.79, 5.55, 2.27)) == 0.0


def test_adams_evans_lime_is_the_acidity_with_its_allowance() -> None:
    """8000 lb/acre per pH unit of the buffer, times the share, times 1.5 (Huluka 2007)."""
    start, end = (adams_evans_unsaturation_frac(ph, ADAMS_EVANS[2:5]) for ph in (5.2, 6.5))
    lb_acre = 8000.0 * (8.0 - 7.6) / start * (start - end) * 1.5
    found = lime_requirement_caco3_g_m2_from_buffer_ph(
        "adams-evans", ADAMS_EVANS, buffer_ph=7.6, ph_water=5.2, target_ph=6.5, depth_cm=17.0
    )
    assert found == pytest.approx(lb_acre * 453.59237 / 4046.8564224)
    with pytest.raises(OutOfRangeError, match="finds no acidity"):
        lime_requirement_caco3_g_m2_from_buffer_ph(
            "adams-evans", ADAMS_EVANS, buffer_ph=8.1, ph_water=5.2, target_ph=6.5, depth_cm=17.0
        )


def test_penn_state_acidity_is_what_its_rate_neutralises() -> None:
    """1,000 lb of lime an acre for each meq/100 g to pH 7, in two million pounds of soil."""
    acid = acidity("penn-state-acidity", (1000.0,), 5.0, target_ph=7.0)
    lime_g_kg = 5.0 * 1000.0 / 2_000_000.0 * 1000.0
    assert acid == pytest.approx(lime_g_kg / 0.05, rel=0.002)


@given(
    form=st.sampled_from(
        (("mehlich-nc", MEHLICH), ("linear-lti", SMP), ("adams-evans", ADAMS_EVANS),
         ("woodruff", (7.0, 1000.0)))
    ),
    distance=st.floats(0.0, 1.5),
)  # fmt: skip
def test_acidity_grows_in_proportion_below_the_reference(
    form: tuple[str, tuple[float, ...]], distance: float
) -> None:
    reference = buffer_ph_without_acidity(*form)
    one = acidity(*form, reference - 1.0)
    assert one > 0.0
    assert acidity(*form, reference - distance) == pytest.approx(distance * one, abs=1e-9)
    assert acidity(*form, reference + 0.1) < 0.0


def test_the_error_of_a_reading_is_that_of_the_logarithm() -> None:
    low, high = (acidity("mehlich-nc", MEHLICH, 6.1 + shift) for shift in (0.01, -0.01))
    slope = math.log10(high / low) / 0.02
    found = reading_log10_sd("mehlich-nc", MEHLICH, reading=6.1, reading_sd=0.06)
    assert found == pytest.approx(0.06 * slope, rel=1e-3)


def test_what_is_no_buffer_ph_has_no_reference() -> None:
    with pytest.raises(InputError, match="does not read a buffer pH"):
        buffer_ph_without_acidity("penn-state-acidity", (1000.0,))
    with pytest.raises(InputError, match="slice"):
        acidity_mmolc_kg(
            "woodruff",
            (7.0, 1000.0),
            reading=6.5,
            ph_water=5.2,
            target_ph=7.0,
            bulk_density_g_cm3=1.3,
            slice_kg_m2=None,
            field_allowance=1.0,
        )


def test_without_rough_measurements_precision_weighting_is_left() -> None:
    exact = [(0.2, 0.1), (-0.1, 0.3)]
    assert log10_k_after(mean=0.0, sd=0.2, exact=exact) == combine_log10_k(
        mean=0.0, sd=0.2, observed=exact
    )


def test_with_many_degrees_of_freedom_it_is_precision_weighting_too() -> None:
    found = log10_k_after(mean=0.0, sd=0.2, rough=[[Possible(1.0, 0.2, 0.1)]], freedom=1e6)
    mean, sd = combine_log10_k(mean=0.0, sd=0.2, observed=[(0.2, 0.1)])
    assert found.mean == pytest.approx(mean, abs=1e-5)
    assert found.sd == pytest.approx(sd, abs=1e-5)


def test_a_measurement_far_out_counts_for_less_the_farther_it_lies() -> None:
    def moved(at: float) -> float:
        return log10_k_after(mean=0.0, sd=0.2, rough=[[Possible(1.0, at, 0.15)]]).mean

    assert 0.0 < moved(0.1) < moved(0.3) < moved(0.6)
    assert moved(0.6) > moved(1.5) > moved(5.0) > 0.0
    assert moved(5.0) < 0.06


def test_of_two_meanings_the_one_that_fits_counts() -> None:
    both = [Possible(0.5, 0.1, 0.15), Possible(0.5, 1.5, 0.15)]
    alone = log10_k_after(mean=0.0, sd=0.2, rough=[both[:1]])
    found = log10_k_after(mean=0.0, sd=0.2, rough=[both])
    assert alone.mean < found.mean < alone.mean + 0.03
    apart = [Possible(0.5, -0.4, 0.1), Possible(0.5, 0.4, 0.1)]
    assert log10_k_after(mean=0.0, sd=0.2, rough=[apart]).sd > 0.18


@given(st.floats(-0.3, 0.3), st.floats(0.08, 0.4), st.floats(-2.0, 2.0), st.floats(0.1, 3.0))
def test_the_sum_over_nodes_is_the_integral(mean: float, sd: float, at: float, err: float) -> None:
    found = log10_k_after(mean=mean, sd=sd, rough=[[Possible(1.0, at, err)]])
    x = np.linspace(mean - 8.0 * sd, mean + 8.0 * sd, 20001)
    density = np.exp(-0.5 * ((x - mean) / sd) ** 2) * (1.0 + ((x - at) / err) ** 2 / 4.0) ** -2.5
    density /= density.sum()
    centre = float(density @ x)
    assert found.mean == pytest.approx(centre, abs=1e-4)
    assert found.sd == pytest.approx(math.sqrt(float(density @ (x - centre) ** 2)), rel=1e-3)
    assert log10_k_after(mean=mean, sd=sd, rough=[[Possible(0.2, at, err)]]).mean == pytest.approx(
        found.mean, abs=1e-12
    )


def test_a_meaning_without_an_error_is_refused() -> None:
    with pytest.raises(InputError, match="positive number"):
        log10_k_after(mean=0.0, sd=0.2, rough=[[Possible(1.0, 0.1, 0.0)]])
