"""The texture triangle: corners of every class, and no hole or overlap anywhere."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.texture import _RULES, texture_class_from_fractions
from loamshift.errors import OutOfRangeError

# Corners of the classes (clay, silt), each nudged a little towards the middle of its own class.
CORNERS = {
    "sand": [(0.1, 0.1), (9.7, 0.1), (0.1, 14.7)],
    "loamy sand": [(0.1, 15.2), (10.1, 0.1), (14.8, 0.1), (0.1, 29.7)],
    "sandy loam": [(15.1, 0.1), (19.9, 0.1), (19.9, 27.9), (7.1, 40.7), (6.9, 49.9), (0.1, 49.9)],
    "loam": [(7.1, 41.1), (7.1, 49.9), (26.9, 49.9), (26.9, 28.1), (20.1, 28.1)],
    "silt loam": [(0.1, 50.1), (0.1, 79.9), (11.9, 79.9), (12.1, 87.8), (26.9, 73.0), (26.9, 50.1)],
    "silt": [(0.1, 80.1), (0.1, 99.8), (11.9, 88.0), (11.9, 80.1)],
    "sandy clay loam": [(20.1, 0.1), (34.9, 0.1), (34.9, 20.0), (27.1, 27.8), (20.1, 27.9)],
    "clay loam": [(27.1, 28.0), (39.9, 15.2), (39.9, 40.0), (27.1, 52.8)],
    "silty clay loam": [(27.1, 53.0), (39.9, 40.2), (39.9, 60.0), (27.1, 72.8)],
    "sandy clay": [(35.1, 0.1), (54.8, 0.1), (35.1, 19.8)],
    "silty clay": [(40.1, 40.1), (59.8, 40.1), (40.1, 59.8)],
    "clay": [(40.1, 15.0), (55.1, 0.1), (99.8, 0.1), (59.9, 39.9), (40.1, 39.9)],
}
CASES = [(key, clay, silt) for key, corners in CORNERS.items() for clay, silt in corners]


@pytest.mark.parametrize(("key", "clay", "silt"), CASES)
def test_corners(key: str, clay: float, silt: float) -> None:
    found = texture_class_from_fractions(sand_pct=100.0 - clay - silt, clay_pct=clay)
    assert found == key


@pytest.mark.parametrize(
    ("sand", "clay", "finer"),
    [
        *((45.0, 40.0, "clay"), (20.0, 30.0, "silty clay loam"), (45.0, 30.0, "clay loam")),
        *((52.0, 10.0, "loam"), (20.0, 40.0, "silty clay"), (30.0, 40.0, "clay")),
        *((60.0, 20.0, "sandy clay loam"), (10.0, 12.0, "silt loam"), (85.0, 10.0, "loamy sand")),
        *((70.0, 0.0, "sandy loam"), (85.0, 0.0, "loamy sand"), (50.0, 35.0, "sandy clay")),
    ],
)
def test_a_point_on_a_boundary_goes_to_the_finer_class(
    sand: float, clay: float, finer: str
) -> None:
    assert texture_class_from_fractions(sand_pct=sand, clay_pct=clay) == finer


def test_ends_of_the_triangle() -> None:
    assert texture_class_from_fractions(sand_pct=100.0, clay_pct=0.0) == "sand"
    assert texture_class_from_fractions(sand_pct=0.0, clay_pct=100.0) == "clay"
    assert texture_class_from_fractions(sand_pct=0.0, clay_pct=0.0) == "silt"


def test_no_hole_and_no_overlap_on_a_fine_grid() -> None:
    for clay2 in range(201):
        for sand2 in range(201 - clay2):
            sand, clay = sand2 / 2.0, clay2 / 2.0
            silt = 100.0 - sand - clay
            assert sum(holds(sand, silt, clay) for _, holds in _RULES) == 1, (sand, silt, clay)


@given(st.floats(0.0, 100.0), st.floats(0.0, 1.0))
def test_any_soil_has_a_class(sand: float, share: float) -> None:
    clay = (100.0 - sand) * share
    assert texture_class_from_fractions(sand_pct=sand, clay_pct=clay) in CORNERS


@pytest.mark.parametrize(("sand", "clay"), [(-1.0, 10.0), (60.0, 41.0), (10.0, 101.0)])
def test_impossible_shares(sand: float, clay: float) -> None:
    with pytest.raises(OutOfRangeError):
        texture_class_from_fractions(sand_pct=sand, clay_pct=clay)


def test_not_a_number_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        texture_class_from_fractions(sand_pct=float("nan"), clay_pct=10.0)


def test_rounded_shares_that_pass_100_a_little_are_taken() -> None:
    assert texture_class_from_fractions(sand_pct=60.2, clay_pct=40.2) == "sandy clay"
