"""Digits that do not pretend: two, or three where two would be off by more than 2.5 %."""

from __future__ import annotations

import math
from typing import Final

TOO_SMALL_TO_SAY: Final = 1e-12
"""Below this a number is nothing, in any unit of this trade [any unit]."""


def sensible(value: float) -> str:
    """A number in as many digits as a soil deserves.

    The leading two digits are kept; numbers that begin with 1 keep a third, rounded to 0 or
    5, so that rounding never moves a value by more than 2.5 %. Whole numbers up to 99 show no
    decimals unless they have some to show.

    Parameters
    ----------
    value
        Any finite number [any unit].

    Returns
    -------
    str
        The number, with thousands set apart by commas.

    Examples
    --------
    >>> [sensible(v) for v in (0.0, 0.1234, 2.04, 97.6, 113.0, 1046.0, 12.2, 15.3)]
    ['0', '0.125', '2.0', '98', '115', '1,050', '12', '15.5']
    """
    if abs(value) < TOO_SMALL_TO_SAY:
        return "0"
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be said in digits")
    sign = "-" if value < 0 else ""
    size = abs(value)
    exponent = math.floor(math.log10(size))
    mantissa = size / 10.0**exponent
    step = 0.05 if mantissa < 1.975 else 0.1
    rounded = round(mantissa / step) * step * 10.0**exponent
    exponent = math.floor(math.log10(rounded) + 1e-12)
    third = round(rounded / 10.0**exponent * 100) % 10 != 0
    places = max(0, 1 - exponent + (1 if third else 0))
    return f"{sign}{rounded:,.{places}f}"


def stated(value: float) -> str:
    """A number somebody chose or measured out: three digits, no trailing zeros.

    Parameters
    ----------
    value
        Any finite number [any unit].

    Returns
    -------
    str
        The number, with thousands set apart by commas.

    Examples
    --------
    >>> [stated(v) for v in (20.0, 215.28, 6.0, 2.5, 0.125, 1234.0)]
    ['20', '215', '6', '2.5', '0.125', '1,234']
    """
    if abs(value) < TOO_SMALL_TO_SAY:
        return "0"
    places = max(0, 2 - math.floor(math.log10(abs(value))))
    text = f"{value:,.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def worked(value: float) -> str:
    """A number within a sum: four digits, enough for a reader to work the sum out again.

    Parameters
    ----------
    value
        Any finite number [any unit].

    Examples
    --------
    >>> [worked(v) for v in (0.01603, 38.2266, 202.5, 12345.6, 6.1)]
    ['0.01603', '38.23', '202.5', '12,346', '6.1']
    """
    if abs(value) < TOO_SMALL_TO_SAY:
        return "0"
    places = max(0, 3 - math.floor(math.log10(abs(value))))
    text = f"{value:,.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
