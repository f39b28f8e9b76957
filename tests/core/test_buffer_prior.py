"""How far a soil may lie from the average curve before anything is measured of it."""

from __future__ import annotations

import math

import pytest
from fit_buffer_scale import rows

from loamshift.core.buffer_prior import ScaleSpread, scale_log10_sd
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import load_parameters, parameter_values

SPREAD = ScaleSpread(**parameter_values("buffer_scale"))


def sd(slope: float, *, carbon: bool = True, clay: bool = True) -> float:
    return scale_log10_sd(
        slope_mmolc_kg_ph=slope, carbon_known=carbon, clay_measured=clay, spread=SPREAD
    )


def test_the_rows_are_what_the_fit_gives_today() -> None:
    shipped = load_parameters()["buffer_scale"]
    fitted = rows()
    assert [row["name"] for row in fitted] == list(shipped)
    for row in fitted:
        assert shipped[row["name"]].value == pytest.approx(float(row["value"]), abs=1e-12)


def test_variances_add_by_cause() -> None:
    strong = sd(1e9)
    assert strong == pytest.approx(
        math.hypot(SPREAD.log10_k_sd_between_sources, SPREAD.log10_k_sd_between_soils)
    )
    both = sd(1e9, carbon=False, clay=False)
    assert both**2 - strong**2 == pytest.approx(
        SPREAD.log10_k_sd_carbon_unknown**2 + SPREAD.log10_k_sd_texture_felt**2
    )


def test_a_weaker_soil_is_never_surer_and_the_weakest_are_alike() -> None:
    slopes = (5.0, 10.0, 15.0, 20.0, 40.0, 80.0)
    found = [sd(slope) for slope in slopes]
    assert found == sorted(found, reverse=True)
    assert found[0] == found[1] > found[2]


@pytest.mark.parametrize("slope", [0.0, -3.0, math.nan, math.inf])
def test_no_buffering_is_refused(slope: float) -> None:
    with pytest.raises(OutOfRangeError, match="no buffering"):
        sd(slope)
