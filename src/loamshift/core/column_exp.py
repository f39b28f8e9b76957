"""Exponential and logarithm of the compiled column, in plain sums and products.

The same bits on every processor and library, and for one number as for many at a time: the
compiler turns a loop over them into wide instructions, which a call of the library's own forbids.
Polynomials fitted at Chebyshev points in 60 digits; both lie within two last places.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from loamshift.core.column_compile import inlined

LN10: Final = 2.302585092994046
_LOG2_E: Final = 1.4426950408889634
_LN2_HIGH: Final = 0.6931471803691238  # its last 20 bits are zero, so that k times it is exact
_LN2_LOW: Final = 1.9082149292705877e-10
_ROUND: Final = 6755399441055744.0  # 1.5 x 2^52: added and taken off, it rounds to a whole number
_LARGEST: Final = 700.0
_ONE_BITS: Final = 4607182418800017408  # the bits of 1.0
_ROOT_HALF_BITS: Final = 4604544271217802189  # the bits of the root of 1/2
_FRACTION_BITS: Final = 4503599627370495  # a one in each place of the fraction
_E2, _E3, _E4, _E5, _E6 = (
    0.5000000000000001,
    0.16666666666666669,
    0.04166666666662413,
    0.008333333333330062,
    0.0013888888917213717,
)
_E7, _E8, _E9, _E10, _E11 = (
    0.00019841269863053618,
    2.4801521295954376e-05,
    2.7557268459997064e-06,
    2.7620088445409746e-07,
    2.510038549551032e-08,
)
_L3, _L5, _L7, _L9, _L11, _L13, _L15 = (
    0.666666666666667,
    0.39999999999899444,
    0.2857142862600327,
    0.22222211130259878,
    0.18182889455674947,
    0.15331710618210773,
    0.14616585424888623,
)
_THIRD: Final = 1.0 / 3.0
_SMALL: Final = 0.02


@inlined
def exp_of(x: float) -> float:
    """The exponential.

    Parameters
    ----------
    x
        A number; beyond 700 on either side it counts as 700 [-].

    Returns
    -------
    float
        e to the power of x [-].

    Notes
    -----
    exp(x) = 2^k exp(r), k the nearest whole number to x/ln 2, r = x - k ln 2 in two parts;
    exp(r) = 1 + r + r2 p(r), p of the ninth degree, error 2e-17.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> exp_of(0.0), abs(exp_of(1.0) - 2.718281828459045) < 1e-15
    (1.0, True)
    """
    x = min(_LARGEST, max(-_LARGEST, x))
    shifted = x * _LOG2_E + _ROUND
    k = shifted - _ROUND
    r = (x - k * _LN2_HIGH) - k * _LN2_LOW
    p = _E11
    p = p * r + _E10
    p = p * r + _E9
    p = p * r + _E8
    p = p * r + _E7
    p = p * r + _E6
    p = p * r + _E5
    p = p * r + _E4
    p = p * r + _E3
    p = p * r + _E2
    p = (p * r + 1.0) * r + 1.0
    bits = np.float64(shifted).view(np.int64)
    power: float = np.int64((bits << 52) + _ONE_BITS).view(np.float64)
    return p * power


@inlined
def log_of(x: float) -> float:
    """The natural logarithm.

    Parameters
    ----------
    x
        A number above 0, not smaller than 1e-300 [-].

    Returns
    -------
    float
        Its logarithm [-].

    Notes
    -----
    x = 2^k m, m between the root of 1/2 and that of 2; ln m = 2 s + s3 p(s2), s = (m - 1)/(m + 1),
    p of the sixth degree, error 5e-18.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> log_of(1.0), abs(log_of(10.0) - 2.302585092994046) < 1e-15
    (0.0, True)
    """
    bits = np.float64(x).view(np.int64)
    over = bits - _ROOT_HALF_BITS
    k = float(over >> 52)
    m: float = np.int64((over & _FRACTION_BITS) + _ROOT_HALF_BITS).view(np.float64)
    s = (m - 1.0) / (m + 1.0)
    z = s * s
    p = _L15
    p = p * z + _L13
    p = p * z + _L11
    p = p * z + _L9
    p = p * z + _L7
    p = p * z + _L5
    p = p * z + _L3
    return k * _LN2_HIGH + (2.0 * s + (s * z * p + k * _LN2_LOW))


@inlined
def used_up(x: float) -> float:
    """Share used up by a first-order step, 1 - exp(-x).

    Parameters
    ----------
    x
        Rate times time, 0 or more [-].

    Returns
    -------
    float
        Share [0-1].

    Notes
    -----
    Below 0.02 five terms of the series, whose error is 5e-12 of the share: there 1 - exp(-x)
    would lose the last places.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> used_up(0.0), round(used_up(1.0), 6)
    (0.0, 0.632121)
    """
    if x < _SMALL:
        return x * (1.0 - 0.5 * x * (1.0 - _THIRD * x * (1.0 - 0.25 * x * (1.0 - 0.2 * x))))
    return 1.0 - exp_of(-x)
