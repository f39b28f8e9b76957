"""The place of a layer on the buffer curve: both ways, from anywhere, with less carbon."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.column_cases import everything, members, run, soil, sulfur, weather
from loamshift.core import column_soil
from loamshift.core.column_curve import base_of, place_at, read_ph, set_carbon
from loamshift.core.column_layout import ColumnEvent, FloatArray
from loamshift.core.column_numbers import BASE, N_CELL, N_NUMBERS, N_WORK, PH_NOW, STEP, rate
from loamshift.core.column_pack import curve_array, curve_ends
from tries import tries

MOST_PH = 1.0e-4
"""Largest error of the steps of the curve over three years."""
SOME = tries(40)


def of_a_member(k: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    """A layer, the curve and the numbers that place it, in lane 0."""
    the_soil, number = soil(), np.zeros(N_NUMBERS)
    number[rate("k")] = k
    number[rate("curve_first_ph")], number[rate("curve_step_ph")] = curve_ends(the_soil)
    return np.ones((1, N_CELL)), curve_array(the_soil), number


def ph_now(cell: FloatArray, curve: FloatArray, number: FloatArray) -> float:
    """The pH that the layer reads in lane 0."""
    work = np.zeros(N_WORK)
    read_ph(cell, curve, number, work, 0, 1)
    return float(work[PH_NOW])


@SOME
@given(ph=st.floats(2.0, 9.5), k=st.floats(0.2, 5.0), carbon=st.floats(0.0, 3.0))
def test_a_base_has_one_ph_and_that_ph_this_base(ph: float, k: float, carbon: float) -> None:
    cell, curve, number = of_a_member(k)
    place_at(cell, curve, number, 0, 0, 6.0)
    set_carbon(cell, number, 0, 0, carbon)
    cell[0, BASE] = base_of(curve, number, 0, ph=ph, carbon=carbon)
    assert ph_now(cell, curve, number) == pytest.approx(ph, abs=1e-9)


@SOME
@given(
    stops=st.lists(st.floats(1.5, 10.0), min_size=1, max_size=6),
    carbon=st.lists(st.floats(0.2, 2.0), min_size=6, max_size=6),
)
def test_a_walk_ends_where_a_search_does(stops: list[float], carbon: list[float]) -> None:
    """Whatever step a layer stood in, and whatever carbon it had there."""
    cell, curve, number = of_a_member(1.3)
    place_at(cell, curve, number, 0, 0, 6.5)
    points = 2.0 + 7.5 * np.arange(curve.shape[0]) / (curve.shape[0] - 1.0)
    for ph, share in zip(stops, carbon, strict=False):
        set_carbon(cell, number, 0, 0, share)
        content = 1.3 * (share * curve[:, 0] + curve[:, 1]) + curve[:, 2]
        low, high = content[0], content[-1]
        base = low + (high - low) * (ph - 2.0) / 7.5  # past the ends as well
        cell[0, BASE] = base
        found = ph_now(cell, curve, number)
        assert found == pytest.approx(float(np.interp(base, content, points)), abs=1e-9)
        assert 0 <= cell[0, STEP] <= curve.shape[0] - 2


def test_less_carbon_under_the_same_base_is_a_higher_ph() -> None:
    cell, curve, number = of_a_member(1.0)
    place_at(cell, curve, number, 0, 0, 6.0)
    assert ph_now(cell, curve, number) == pytest.approx(6.0, abs=1e-12)
    set_carbon(cell, number, 0, 0, 0.8)
    assert ph_now(cell, curve, number) > 6.1


@pytest.mark.parametrize("ph", [4.5, 5.7, 6.9, 8.0])
@pytest.mark.parametrize(
    ("rows", "carbonate_pct"), [([], 0.0), ([sulfur(60.0)], 0.0), (everything(), 1.0)]
)
def test_steps_of_the_curve_are_fine_enough(
    monkeypatch: pytest.MonkeyPatch, ph: float, rows: list[ColumnEvent], carbonate_pct: float
) -> None:
    """Three years on the curve as it is, and on one of 16,384 steps."""
    found = []
    for points in (column_soil.CURVE_POINTS, 16_385):
        monkeypatch.setattr(column_soil, "CURVE_POINTS", points)
        the_soil = soil(ph, carbonate_pct=carbonate_pct)
        found.append(run(the_soil, members(8, seed=1), weather(3 * 365), rows).ph)
    assert np.abs(found[0] - found[1]).max() < MOST_PH
