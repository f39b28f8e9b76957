"""The sums behind a need of acid, number by number: over lists, or compiled, over arrays.

Seven nodes of a reading and a score of others are too few for arrays to pay: plain Python is as
fast for one bed, and the compiler takes the same lines for many (``core.many_loops``).
"""

from __future__ import annotations

import math
from typing import Any, Final

ROOT_TWO: Final = math.sqrt(2.0)
LN10: Final = math.log(10.0)
BISECTIONS: Final = 60
SECANTS: Final = 12
HAIR: Final = 1e-12

Number = Any
"""A float; of that type to mypy, the compiler finds it itself."""
Numbers = Any
"""A list of floats, or an array of them."""


def curve_at_most(acid: Number, curve: Number, log10_k: Number, sd: Number) -> float:
    """Probability that a curve times its scale takes up no more than an acid [0-1].

    Parameters
    ----------
    acid
        The acid [mmolc/kg].
    curve
        Of the curve at k = 1, 0 or more [mmolc/kg].
    log10_k
        Middle of the scale [log10].
    sd
        Its standard deviation, above 0 [log10].

    Returns
    -------
    float
        Probability [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> curve_at_most(10.0, 10.0, 0.0, 0.2)
    0.5
    """
    if acid <= 0.0:
        return 1.0 if curve <= 0.0 and acid >= 0.0 else 0.0
    if curve <= 0.0:
        return 1.0
    z = (math.log10(acid / curve) - log10_k) / sd
    return 0.5 * math.erfc(-z / ROOT_TWO)


def lognormal_at_most(value: Number, median: Number, log_sd: Number) -> float:
    """Probability that a lognormal quantity is at most so much; none is below zero [0-1].

    Parameters
    ----------
    value
        So much [any unit].
    median
        Its median, above 0 [the same unit].
    log_sd
        Standard deviation of its logarithm, above 0 [ln].

    Returns
    -------
    float
        Probability [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> lognormal_at_most(10.0, 10.0, 0.2)
    0.5
    """
    if value <= 0.0:
        return 0.0
    if median <= 0.0:
        return 1.0
    return 0.5 * math.erfc(-math.log(value / median) / log_sd / ROOT_TWO)


def limed_at_most(
    acid: Number,
    curve: Number,
    belief: Numbers,
    scale_nodes: Numbers,
    scale_weights: Numbers,
    even_nodes: Numbers,
    even_weights: Numbers,
) -> float:
    """Probability that curve and free carbonate together take up no more than an acid [0-1].

    Parameters
    ----------
    acid
        The acid [mmolc/kg].
    curve
        Of the curve at k = 1, 0 or more [mmolc/kg].
    belief
        Weight of no carbonate [0-1], its lower and upper bound [mmolc/kg], the error of a
        measured one [ln], middle and sd of the scale [log10].
    scale_nodes
        Normal nodes of the scale, where the carbonate is a range [sd].
    scale_weights
        Their weights [0-1].
    even_nodes
        Normal nodes, where the carbonate was measured [sd].
    even_weights
        Their weights [0-1].

    Returns
    -------
    float
        Probability [0-1].

    Notes
    -----
    The scale is integrated exactly where the carbonate is an exact value; otherwise one of the
    two is, over nodes of the other: of a measured carbonate the wider, so that the steps between
    nodes never show.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> limed_at_most(10.0, 10.0, (0.0, 0.0, 0.0, 0.0, 0.0, 0.2), (), (), (), ())
    0.5
    """
    low, high, log_sd, log10_k, sd = belief[1], belief[2], belief[3], belief[4], belief[5]
    found = 0.0
    if low == high and (log_sd <= 0.0 or high <= 0.0):
        return curve_at_most(acid - high, curve, log10_k, sd)
    if low == high:
        spread = LN10 * sd
        middle = curve * 10.0**log10_k
        if middle * spread > high * log_sd:
            for node in range(len(even_nodes)):
                left = acid - high * math.exp(log_sd * even_nodes[node])
                found += even_weights[node] * lognormal_at_most(left, middle, spread)
        else:
            for node in range(len(even_nodes)):
                left = acid - curve * 10.0 ** (log10_k + sd * even_nodes[node])
                found += even_weights[node] * lognormal_at_most(left, high, log_sd)
        return found
    width = math.log(high / low)
    for node in range(len(scale_nodes)):
        left = acid - curve * 10.0 ** (log10_k + sd * scale_nodes[node])
        if left >= high:
            found += scale_weights[node]
        elif left > low:
            found += scale_weights[node] * math.log(left / low) / width
    return found


def need_at_most(
    acid: Number,
    curves: Numbers,
    weights: Numbers,
    belief: Numbers,
    scale_nodes: Numbers,
    scale_weights: Numbers,
    even_nodes: Numbers,
    even_weights: Numbers,
) -> float:
    """Probability that an acid is enough [0-1].

    Parameters
    ----------
    acid
        The acid [mmolc/kg].
    curves
        Of the curve at k = 1 for each node of the reading, 0 or more [mmolc/kg].
    weights
        Of these nodes, together 1 [0-1].
    belief
        As for ``limed_at_most`` [mixed].
    scale_nodes
        As there [sd].
    scale_weights
        As there [0-1].
    even_nodes
        As there [sd].
    even_weights
        As there [0-1].

    Returns
    -------
    float
        Probability [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> need_at_most(10.0, (10.0,), (1.0,), (1.0, 0.0, 0.0, 0.0, 0.0, 0.2), (), (), (), ())
    0.5
    """
    none = belief[0]
    found = 0.0
    for node in range(len(curves)):
        enough = 0.0
        if none > 0.0:
            enough += none * curve_at_most(acid, curves[node], belief[4], belief[5])
        if none < 1.0:
            enough += (1.0 - none) * limed_at_most(
                acid,
                curves[node],
                belief,
                scale_nodes,
                scale_weights,
                even_nodes,
                even_weights,
            )
        found += enough * weights[node]
    return found


def need_quantile(
    probability: Number,
    curves: Numbers,
    weights: Numbers,
    belief: Numbers,
    scale_nodes: Numbers,
    scale_weights: Numbers,
    even_nodes: Numbers,
    even_weights: Numbers,
) -> float:
    """Acid that is enough with a probability [mmolc/kg].

    Parameters
    ----------
    probability
        The probability [0-1].
    curves
        As for ``need_at_most`` [mmolc/kg].
    weights
        As there [0-1].
    belief
        As there [mixed].
    scale_nodes
        As there [sd].
    scale_weights
        As there [0-1].
    even_nodes
        As there [sd].
    even_weights
        As there [0-1].

    Returns
    -------
    float
        The acid, to the last bit [mmolc/kg].

    Notes
    -----
    Bisection to the last bit; where a narrower bracket already tells which half holds the
    answer, the probability is not worked out again, and the bits are the same. The bracket is
    closed by secants with the end that stays put halved; a hair is left for what rounding does.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> belief = (1.0, 0.0, 0.0, 0.0, 0.0, 0.2)
    >>> round(need_quantile(0.5, (10.0,), (1.0,), belief, (), (), (), ()), 6)
    10.0
    """
    low, high = 0.0, 1.0
    left = _excess(
        0.0, probability, curves, weights, belief,
        scale_nodes, scale_weights, even_nodes, even_weights,
    )  # fmt: skip
    if left >= 0.0:
        return 0.0
    least = 0.0
    right = _excess(
        high, probability, curves, weights, belief,
        scale_nodes, scale_weights, even_nodes, even_weights,
    )  # fmt: skip
    while right < 0.0:
        least, left = high, right
        high *= 2.0
        right = _excess(
            high, probability, curves, weights, belief,
            scale_nodes, scale_weights, even_nodes, even_weights,
        )  # fmt: skip
    short, enough, moved = least, high, 0
    for _ in range(SECANTS):
        if enough - short <= HAIR * enough or right == left:
            break
        guess = enough - right * (enough - short) / (right - left)
        if not short < guess < enough:
            break
        beside = _excess(
            guess, probability, curves, weights, belief,
            scale_nodes, scale_weights, even_nodes, even_weights,
        )  # fmt: skip
        if beside < 0.0:
            short, left = guess, beside
            right = right / 2.0 if moved < 0 else right
            moved = -1
        else:
            enough, right = guess, beside
            left = left / 2.0 if moved > 0 else left
            moved = 1
    short *= 1.0 - HAIR
    enough *= 1.0 + HAIR
    for _ in range(BISECTIONS):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if middle <= short:
            low = middle
        elif (
            middle >= enough
            or _excess(
                middle,
                probability,
                curves,
                weights,
                belief,
                scale_nodes,
                scale_weights,
                even_nodes,
                even_weights,
            )
            >= 0.0
        ):
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def _excess(
    acid: Number,
    probability: Number,
    curves: Numbers,
    weights: Numbers,
    belief: Numbers,
    scale_nodes: Numbers,
    scale_weights: Numbers,
    even_nodes: Numbers,
    even_weights: Numbers,
) -> float:
    """How far the probability that an acid is enough lies above the one asked [1]."""
    found = need_at_most(
        acid, curves, weights, belief, scale_nodes, scale_weights, even_nodes, even_weights
    )
    return float(found - probability)
