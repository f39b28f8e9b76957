from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.digits import sensible, stated

NUMBERS = st.floats(min_value=1e-6, max_value=1e9, allow_nan=False)


@given(NUMBERS)
def test_sensible_never_moves_a_number_by_more_than_two_and_a_half_per_cent(value: float) -> None:
    said = float(sensible(value).replace(",", ""))
    assert abs(said / value - 1.0) <= 0.0255


@given(NUMBERS)
def test_sensible_says_what_it_says_again(value: float) -> None:
    said = sensible(value)
    assert sensible(float(said.replace(",", ""))) == said


@given(NUMBERS, NUMBERS)
def test_sensible_keeps_order(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert float(sensible(low).replace(",", "")) <= float(sensible(high).replace(",", ""))


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (0.0, "0"),
        (0.1234, "0.125"),
        (2.04, "2.0"),
        (97.6, "98"),
        (113.0, "115"),
        (9.97, "10"),
        (199.0, "200"),
        (1046.0, "1,050"),
        (-3.34, "-3.3"),
    ],
)
def test_sensible_by_example(value: float, said: str) -> None:
    assert sensible(value) == said


def test_sensible_refuses_what_is_no_number() -> None:
    with pytest.raises(ValueError, match="cannot be said"):
        sensible(math.nan)


@pytest.mark.parametrize(
    ("value", "said"), [(20.0, "20"), (215.28, "215"), (0.125, "0.125"), (1234.0, "1,234")]
)
def test_stated_by_example(value: float, said: str) -> None:
    assert stated(value) == said
