"""Readings that do not fit are named, and those that do are left in peace."""

import numpy as np

from loamshift.core.analysis.odd_readings import Exchange, apart, exchanged
from loamshift.core.analysis.treatment_means import treatment_means

TREATMENT = np.repeat([0, 1, 2], 5)


def sound(seed: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    return np.array([7.5, 7.0, 6.5])[TREATMENT] + rng.normal(0.0, 0.08, 15)


def test_sound_readings_are_seldom_named() -> None:
    named = swapped = 0
    for seed in range(60):
        read = sound(seed)
        named += bool(apart(read, treatment_means(read, TREATMENT)))
        swapped += exchanged(read, TREATMENT) is not None
    assert named <= 8 and swapped <= 5


def test_exchanged_pots_are_found() -> None:
    right = 0
    for seed in range(20):
        read = sound(seed)
        read[[2, 12]] = read[[12, 2]]
        right += exchanged(read, TREATMENT) == Exchange(2, 12)
    assert right >= 16


def test_a_slip_of_the_pen_is_found() -> None:
    read = sound(1)
    read[4] = 5.7
    assert apart(read, treatment_means(read, TREATMENT)) == (4,)
