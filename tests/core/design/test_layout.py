"""Layouts: each treatment as often as it should be, every place alike, the seed decides."""

import numpy as np
import pytest

from loamshift.core.design.layout import shuffled
from loamshift.errors import OutOfRangeError


def order(seed: int, *, in_blocks: bool) -> np.ndarray:
    return shuffled(
        replicates=4, n_treatments=3, in_blocks=in_blocks, rng=np.random.default_rng(seed)
    )


def test_the_same_seed_gives_the_same_layout() -> None:
    assert order(7, in_blocks=False).tolist() == order(7, in_blocks=False).tolist()
    assert order(7, in_blocks=False).tolist() != order(8, in_blocks=False).tolist()


def test_every_treatment_is_there_as_often_as_asked() -> None:
    assert np.bincount(order(3, in_blocks=False)).tolist() == [4, 4, 4]
    for block in order(3, in_blocks=True).reshape(4, 3):
        assert sorted(block.tolist()) == [0, 1, 2]


def test_every_place_is_as_likely_for_each_treatment() -> None:
    """Chi-square of 2,400 layouts: 22 degrees of freedom, below its 0.1 % point."""
    seen = np.zeros((12, 3))
    for seed in range(2400):
        seen[np.arange(12), order(seed, in_blocks=False)] += 1
    assert (((seen - 800.0) ** 2) / 800.0).sum() < 48.3


def test_no_treatment_is_no_layout() -> None:
    with pytest.raises(OutOfRangeError):
        shuffled(replicates=0, n_treatments=3, in_blocks=False, rng=np.random.default_rng(1))
