"""What the facts of a case say of its soil: pH, density, free lime and the scale of the curve."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loamshift.domain.ph import PhMethod
from loamshift.services.advise import advise
from loamshift.services.belief.column_priors import carbonate_quantile_pct
from loamshift.services.context.build_context import build_context, need_mmolc_kg
from loamshift.services.context.soil import ph_nodes
from services.beds import bed

METHODS = tuple(method.value for method in PhMethod)


@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    ph=st.floats(2.5, 10.5),
    method=st.sampled_from(METHODS),
    organic=st.floats(0.3, 90.0),
    clay=st.floats(0.0, 70.0),
)
def test_no_reading_leads_beyond_the_curve(
    ph: float, method: str, organic: float, clay: float
) -> None:
    context = build_context(
        bed(
            f'ph = {ph!r}\nph_method = "{method}"\nclay_pct = {clay!r}\n'
            f"organic_matter_pct = {organic!r}"
        )
    )
    assert context.soil is not None
    values, weights = ph_nodes(context.soil.ph)
    assert 2.0 <= values.min() <= values.max() <= 11.0
    assert weights.sum() == pytest.approx(1.0)
    for aim in (4.0, 5.5, 6.5, 8.0):
        need = need_mmolc_kg(context, aim)
        low, high = need.quantile(0.05), need.quantile(0.95)
        assert 0.0 <= low <= high < math.inf


@pytest.mark.parametrize(
    ("ph", "method", "more"),
    [
        (3.3, "probe", 'organic_matter_pct = 10.9\nfizz = "none"'),
        (2.5, "probe", ""),
        (2.5, "water 1:5", ""),
        (10.5, "CaCl2", ""),
        (10.5, "probe", 'fizz = "strong"'),
        (10.5, "KCl", ""),
    ],
)
def test_an_extreme_reading_is_answered(ph: float, method: str, more: str) -> None:
    """A lawn read 3.3 by probe once ended in an error: one node of it lay below pH 1."""
    answer = advise(
        bed(
            f'ph = {ph}\nph_method = "{method}"\n{more}',
            bed='kind = "lawn"\narea = "50 m2"',
            aim='plant = "tall fescue"',
        )
    )
    assert answer.verdict.decision


def loam(carbonate_pct: float, *, ph: float = 7.6) -> str:
    return (
        f'ph = {ph}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
        f"carbonate_pct = {carbonate_pct!r}"
    )


def test_two_figures_a_laboratory_prints_for_one_field_overlap() -> None:
    """1.5 and 2.5 % of carbonate are one field measured twice."""
    low, high = (need_mmolc_kg(build_context(bed(loam(pct))), 5.0) for pct in (1.5, 2.5))
    assert low.quantile(0.95) > high.quantile(0.05)
    assert low.quantile(0.5) < high.quantile(0.5)


def test_the_error_of_a_measured_carbonate_is_at_least_a_fifth() -> None:
    soil = build_context(bed(loam(2.0))).soil
    assert soil is not None
    assert soil.carbonate.log_sd >= 0.2
    drawn = carbonate_quantile_pct(soil.carbonate, np.array([-1.0, 0.0, 1.0]))
    assert drawn[1] == 2.0
    assert np.log(drawn[2] / drawn[0]) == pytest.approx(2.0 * soil.carbonate.log_sd)


def test_a_measured_nothing_stays_nothing() -> None:
    soil = build_context(bed(loam(0.0))).soil
    assert soil is not None
    assert soil.carbonate.zero_weight == 1.0
    assert not soil.carbonate.is_possible


@settings(derandomize=True, deadline=None, max_examples=60)
@given(pct=st.floats(1e-6, 30.0), ph=st.floats(6.6, 8.4))
def test_the_need_rises_with_measured_carbonate_and_never_jumps(pct: float, ph: float) -> None:
    needs = [
        need_mmolc_kg(build_context(bed(loam(value, ph=ph))), 5.5) for value in (pct, 1.001 * pct)
    ]
    for p in (0.05, 0.5, 0.95):
        here, more = (need.quantile(p) for need in needs)
        assert here * (1.0 - 1e-4) <= more <= 1.002 * here


def test_a_trace_of_carbonate_needs_what_none_does() -> None:
    none, trace = (need_mmolc_kg(build_context(bed(loam(pct))), 5.5) for pct in (0.0, 1e-7))
    for p in (0.05, 0.5, 0.95):
        assert trace.quantile(p) == pytest.approx(none.quantile(p), rel=1e-5)
