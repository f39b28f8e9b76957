"""Figures inside sentences: a range says its unit once, a large ratio has no decimals."""

from __future__ import annotations

from loamshift.domain.case import Units
from loamshift.services.format import format_rates, format_times


def test_a_range_says_its_unit_once() -> None:
    assert format_rates(low_g_m2=6.3, high_g_m2=9.3, units=Units.METRIC) == "6.3 to 9.3 g/m²"
    assert (
        format_rates(low_g_m2=600.0, high_g_m2=1200.0, units=Units.METRIC)
        == "600 g/m² to 1.2 kg/m²"
    )
    assert format_rates(low_g_m2=6.3, high_g_m2=9.3, units=Units.US) == "0.13 to 0.19 lb/100 ft²"


def test_a_large_ratio_has_no_decimals() -> None:
    assert [format_times(r) for r in (1.24, 9.94, 9.96, 17.4)] == [
        "1.2 times", "9.9 times", "10 times", "17 times",
    ]  # fmt: skip
