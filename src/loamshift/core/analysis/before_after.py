"""Readings of several sites before and after: each set off from what it read before."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]


def set_off(readings: FloatArray, is_before: BoolArray) -> FloatArray:
    """Readings after a start, each site set off from its own mean before it.

    What is left to compare is how sites changed, so that sites may differ from the beginning.
    Leaves out changes that one site would have had anyway: only further sites tell those.

    Parameters
    ----------
    readings
        One row a site, one column a day, NaN where a reading is missing, shape (N, D) [pH].
    is_before
        True for days before the start, shape (D,) [truth].

    Returns
    -------
    ndarray
        The days after, as if all sites had read the same before: their own reading less their
        mean before, plus the mean of all sites before; NaN for a site that was not read before,
        shape (N, days after) [pH].

    Raises
    ------
    FitError
        Where no site was read before the start, or none after it.

    Notes
    -----
    The average over the days after of one site, less its mean before, is its change. The
    difference of mean changes between treated and untreated sites is the interaction of period
    and treatment (before-after-control-impact; Stewart-Oaten, Murdoch and Parker 1986, Ecology
    67:929, recalled), and how it differs between sites of one kind is its error: the degrees of
    freedom are those between sites, however often each is read.

    Examples
    --------
    >>> set_off(np.array([[7.0, 7.0], [6.0, 5.5]]), np.array([True, False])).round(2).tolist()
    [[6.5], [6.0]]
    """
    if not is_before.any() or is_before.all():
        raise FitError("no day before the start was read, or none after it")
    before = readings[:, is_before]
    counted = np.isfinite(before).sum(axis=1)
    if not counted.any():
        raise FitError("no site was read before the start")
    mean = np.where(counted > 0, np.nansum(before, axis=1) / np.maximum(counted, 1), np.nan)
    set_to: FloatArray = readings[:, ~is_before] - mean[:, None] + np.nanmean(mean)
    return set_to
