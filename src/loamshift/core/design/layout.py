"""Who stands where: treatments shuffled over pots, plots or strips."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import OutOfRangeError

IntArray = NDArray[np.int_]


def shuffled(
    *, replicates: int, n_treatments: int, in_blocks: bool, rng: np.random.Generator
) -> IntArray:
    """The treatment of each place, in the order the places are counted.

    Parameters
    ----------
    replicates
        Places of each treatment, 1 or more [count].
    n_treatments
        Treatments, the control among them, 1 or more [count].
    in_blocks
        True where each run of as many places as there are treatments holds each once [truth].
    rng
        Seeded generator; the same seed gives the same layout [object].

    Returns
    -------
    ndarray
        Number of the treatment of each place, from 0, shape (replicates * n_treatments,) [number].

    Raises
    ------
    OutOfRangeError
        For no treatment or no replicate.

    Notes
    -----
    Every order is equally likely; in blocks, every order within a block.

    Examples
    --------
    >>> order = shuffled(replicates=3, n_treatments=2, in_blocks=True,
    ...                  rng=np.random.default_rng(1))
    >>> [sorted(block) for block in order.reshape(3, 2).tolist()]
    [[0, 1], [0, 1], [0, 1]]
    """
    if replicates < 1 or n_treatments < 1:
        raise OutOfRangeError(f"{n_treatments} treatments and {replicates} replicates: 1 or more")
    if in_blocks:
        rows = [rng.permutation(n_treatments) for _ in range(replicates)]
        return np.concatenate(rows)
    return rng.permutation(np.repeat(np.arange(n_treatments), replicates))
