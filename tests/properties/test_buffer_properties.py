"""What must hold of the buffer curve for every soil."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from loamshift.core.buffer import (
    BufferParameters,
    acid_between_mmolc_kg,
    base_content_mmolc_kg,
    buffer_mmolc_kg_ph,
    combine_log10_k,
    ph_after_acid,
)
from loamshift.tables.parameters import parameter_values
from tries import tries

P = BufferParameters(**parameter_values("buffer"))
PH = st.floats(3.0, 9.0)
CLAY = st.floats(0.0, 80.0)
CARBON = st.floats(0.0, 12.0)
K = st.floats(0.2, 5.0)
ACID = st.floats(-60.0, 60.0)


@given(st.floats(2.0, 10.9), st.floats(0.001, 2.0), CLAY, CARBON, K, st.booleans())
def test_monotone(
    ph: float, step: float, clay: float, carbon: float, k: float, organic_only: bool
) -> None:
    soil = {
        "clay_pct": clay,
        "organic_carbon_pct": carbon,
        "params": P,
        "k": k,
        "organic_only": organic_only,
    }
    higher = min(ph + step, 11.0)
    assert base_content_mmolc_kg(higher, **soil) > base_content_mmolc_kg(ph, **soil)
    assert buffer_mmolc_kg_ph(ph, **soil) > 0.0


@given(PH, PH, CLAY, CARBON, K)
def test_round_trip(start: float, end: float, clay: float, carbon: float, k: float) -> None:
    soil = {"clay_pct": clay, "organic_carbon_pct": carbon, "params": P, "k": k}
    acid = acid_between_mmolc_kg(start, end, **soil)
    assert abs(ph_after_acid(start, acid, **soil) - end) < 1e-9


@given(PH, PH, CLAY, CARBON)
def test_step_there_and_back_cancels(a: float, b: float, clay: float, carbon: float) -> None:
    soil = {"clay_pct": clay, "organic_carbon_pct": carbon, "params": P}
    assert acid_between_mmolc_kg(a, b, **soil) == -acid_between_mmolc_kg(b, a, **soil)


@given(PH, ACID, CLAY, CARBON, K, st.floats(0.1, 10.0))
def test_scale_invariance(
    start: float, acid: float, clay: float, carbon: float, k: float, factor: float
) -> None:
    """Twice the curve and twice the acid give the same pH: k and the solution scale together."""
    soil = {"clay_pct": clay, "organic_carbon_pct": carbon}
    scaled = replace(P, solution_l_kg=P.solution_l_kg * factor)
    assume(-acid < acid_between_mmolc_kg(10.9, start, params=P, k=k, **soil))
    one = ph_after_acid(start, acid, params=P, k=k, **soil)
    two = ph_after_acid(start, acid * factor, params=scaled, k=k * factor, **soil)
    assert abs(one - two) < 1e-9


@given(PH, st.floats(0.0, 40.0), st.floats(0.0, 40.0), st.floats(0.0, 60.0), CLAY, CARBON)
def test_acid_is_additive_over_steps(
    start: float, first: float, second: float, lime: float, clay: float, carbon: float
) -> None:
    soil = {"clay_pct": clay, "organic_carbon_pct": carbon, "params": P}
    at_once = ph_after_acid(start, first + second, carbonate_mmolc_kg=lime, **soil)
    half = ph_after_acid(start, first, carbonate_mmolc_kg=lime, **soil)
    parts = ph_after_acid(half, second, carbonate_mmolc_kg=max(lime - first, 0.0), **soil)
    assert abs(at_once - parts) < 1e-9


@tries(30)
@given(st.lists(st.tuples(st.floats(3.5, 8.5), ACID, CLAY, CARBON, K), min_size=1, max_size=40))
def test_batch_equals_single(cases: list[tuple[float, float, float, float, float]]) -> None:
    ph, acid, clay, carbon, k = (np.array(column) for column in zip(*cases, strict=True))
    clay = clay + 5.0  # so that no case leaves the curve
    batch = ph_after_acid(
        ph, acid, clay_pct=clay, organic_carbon_pct=carbon + 1.0, params=P, k=k + 1.0
    )
    for i in range(len(cases)):
        single = ph_after_acid(
            float(ph[i]),
            float(acid[i]),
            clay_pct=float(clay[i]),
            organic_carbon_pct=float(carbon[i]) + 1.0,
            params=P,
            k=float(k[i]) + 1.0,
        )
        assert abs(batch[i] - single) < 1e-12


@given(
    st.floats(-0.5, 0.5),
    st.floats(0.05, 0.3),
    st.lists(st.tuples(st.floats(-0.5, 0.5), st.floats(0.05, 0.5)), max_size=5),
)
def test_measurements_narrow_and_order_does_not_matter(
    mean: float, sd: float, observed: list[tuple[float, float]]
) -> None:
    after, after_sd = combine_log10_k(mean=mean, sd=sd, observed=observed)
    again, again_sd = combine_log10_k(mean=mean, sd=sd, observed=observed[::-1])
    assert abs(after - again) < 1e-12
    assert abs(after_sd - again_sd) < 1e-12
    assert after_sd <= sd * (1 + 1e-12)
    values = [mean, *(value for value, _ in observed)]
    assert min(values) - 1e-12 <= after <= max(values) + 1e-12
