"""What of a lime counts in each possible bed, and how much less sure it is than usual."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.material import Material
from loamshift.tables.lime_share import USUAL, share_row, usual_share
from loamshift.tables.parameters import load_parameters, parameter_values

FloatArray = NDArray[np.float64]


def doubt_power(material: Material) -> float:
    """How many times as wide as usual the share of a lime is, on the scale of its logarithm.

    Returns
    -------
    float
        1 for lime of a known grade [-].

    Notes
    -----
    Ratio of the logarithms of high over low, both rows being 95 % ranges of lognormal shares.

    References
    ----------
    own-judgement
    """
    return _log_range(share_row(material)) / _log_range(USUAL)


def member_shares(material: Material, field_efficiency: FloatArray) -> FloatArray:
    """The share of a lime that counts in each possible bed.

    Parameters
    ----------
    field_efficiency
        Drawn for lime of a known grade, shape (M,) [0-1].

    Returns
    -------
    ndarray
        Shape (M,) [0-1].

    Notes
    -----
    One draw serves every lime of a bed: middle (e / usual)^power. So a bed in which known lime
    does well is one in which unknown lime does, and the width is that of the unknown lime's row.

    References
    ----------
    own-judgement
    """
    power = doubt_power(material)
    if power == 1.0:
        return field_efficiency
    usual = parameter_values("lime")[USUAL]
    return np.asarray(usual_share(material) * (field_efficiency / usual) ** power)


def event_factor(material: Material) -> float:
    """What the amount of a lime is multiplied by where its share is drawn as a power.

    Returns
    -------
    float
        1 for lime of a known grade; times the field efficiency to the power it is the share [-].
    """
    power = doubt_power(material)
    if power == 1.0:
        return 1.0
    return float(usual_share(material) / parameter_values("lime")[USUAL] ** power)


def _log_range(name: str) -> float:
    row = load_parameters()["lime"][name]
    assert row.low is not None and row.high is not None
    return math.log(row.high / row.low)
