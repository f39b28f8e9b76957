"""What no soil can be is refused with the limit; the limits themselves are let through."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from loamshift.core.limits import (
    require_amount,
    require_between,
    require_soil_ph,
    soil_temperatures,
    soil_wetness,
)
from loamshift.errors import OutOfRangeError


def between(value: float) -> None:
    require_between("depth_cm", value, low=0.5, high=100.0, unit="cm")


def amount(value: float) -> None:
    require_amount("rain_mm", value)


@pytest.mark.parametrize(
    ("check", "inside", "outside"),
    [
        (soil_temperatures, (-60.0, 0.0, 70.0), (-60.1, 70.1, 273.15, math.nan, math.inf)),
        (soil_wetness, (0.0, 1.0, 3.0), (-0.01, 3.01, 60.0, math.nan)),
        (require_soil_ph, (2.0, 6.5, 11.0), (1.99, 11.01, 72.0, math.nan)),
        (amount, (0.0, 1e9), (-1e-9, math.inf, math.nan)),
        (between, (0.5, 15.0, 100.0), (0.49, 100.1, math.nan)),
    ],
)
def test_limits(
    check: Callable[[float], object], inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    for value in inside:
        check(value)
    for value in outside:
        with pytest.raises(OutOfRangeError):
            check(value)


def test_a_row_with_one_wrong_or_no_day_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="deg F"):
        soil_temperatures([10.0, 80.0])
    with pytest.raises(OutOfRangeError, match="none may be missing"):
        soil_temperatures([])


def test_the_message_says_what_was_given_what_is_allowed_and_what_to_do() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        require_between("ph_start", 12.0, low=5.5, high=10.0, unit="pH", mend="measure again")
    assert str(caught.value) == "ph_start 12 is outside 5.5 to 10 pH; measure again"
    with pytest.raises(OutOfRangeError, match=r"depth_cm 120 is outside 0\.5 to 100 cm$"):
        between(120.0)
