"""Zones that a spreader can follow."""

from __future__ import annotations

import numpy as np

from loamshift.core.field_zones import smoothed, steps_of_need, without_scraps


def test_a_patch_too_small_goes_to_what_surrounds_it() -> None:
    zone = np.zeros((12, 12), dtype=np.int64)
    zone[:, 6:] = 1
    zone[2, 2] = 1
    zone[8:10, 8:10] = 0
    inside = np.ones_like(zone, dtype=bool)
    kept = without_scraps(zone, inside=inside, least_cells=4)
    assert kept[2, 2] == 0
    assert (kept[8:10, 8:10] == 0).all(), "four cells are enough"
    assert (without_scraps(zone, inside=inside, least_cells=5)[8:10, 8:10] == 1).all()


def test_cells_outside_have_no_vote() -> None:
    zone = np.ones((5, 5), dtype=np.int64)
    inside = np.zeros((5, 5), dtype=bool)
    inside[2, :] = True
    zone[2, :] = [0, 0, 0, 0, 1]
    assert smoothed(zone, inside=inside, width=3)[2].tolist() == [0, 0, 0, 0, 0]


def test_steps_are_few_where_few_tell_all() -> None:
    two = np.concatenate([np.full(50, 10.0), np.full(50, 40.0), np.zeros(20)])
    assert steps_of_need(two, most=4, explained_frac=0.9).tolist() == [10.0, 40.0]
    assert steps_of_need(np.zeros(5), most=4, explained_frac=0.9).size == 0
