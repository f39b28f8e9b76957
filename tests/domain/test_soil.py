"""What may be believed of free carbonate."""

from __future__ import annotations

import pytest

from loamshift.domain.soil import CarbonateBelief


@pytest.mark.parametrize(
    ("zero_weight", "high_pct", "possible"),
    [(1.0, 3.0, False), (0.99, 3.0, True), (0.0, 0.0, False), (0.0, 0.01, True)],
)
def test_carbonate_is_possible_with_weight_and_amount(
    zero_weight: float, high_pct: float, possible: bool
) -> None:
    belief = CarbonateBelief(zero_weight, 0.0, high_pct, basis="a test", measured=False)
    assert belief.is_possible is possible
