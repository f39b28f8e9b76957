"""What the facts of a case say of its soil: pH, density, free lime and the scale of the curve."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loamshift.domain.ph import PhMethod
from loamshift.services.advise import advise
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
