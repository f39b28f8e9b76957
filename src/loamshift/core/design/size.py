"""How small a difference so many pots can show, and how likely they are to show one."""

from __future__ import annotations

from typing import Final

import numpy as np

from loamshift.core.analysis.many_to_one import Correlation, critical_value
from loamshift.errors import OutOfRangeError

_NEVER_WRONG: Final = 4.0
"""From here on the chance of a difference the wrong way round is below 1e-8 [se]."""


def power_to_show(
    *,
    difference_ph: float,
    sd_ph: float,
    replicates: int,
    n_treatments: int,
    in_blocks: bool,
    level: float,
) -> float:
    """Chance that a trial shows one treatment to differ from the control.

    Answers for one treatment that truly differs, with intervals that hold for all comparisons.

    Parameters
    ----------
    difference_ph
        True difference from the control [pH].
    sd_ph
        Standard deviation between pots of one treatment, above 0 [pH].
    replicates
        Pots of each treatment, 2 or more [count].
    n_treatments
        Treatments, the control among them, 2 or more [count].
    in_blocks
        True where every block holds every treatment once [truth].
    level
        Chance that all intervals hold [0-1].

    Returns
    -------
    float
        The chance [0-1].

    Raises
    ------
    OutOfRangeError
        For fewer than two treatments or replicates, or an sd that is not above 0.

    Notes
    -----
    Noncentral t with Dunnett's critical value; both tails count.

    Examples
    --------
    Two groups of 64 show half an sd with a chance of 0.80 (Cohen 1988, table 2.4.1, recalled).

    >>> round(power_to_show(difference_ph=0.5, sd_ph=1.0, replicates=64, n_treatments=2,
    ...                     in_blocks=False, level=0.95), 2)
    0.8
    """
    from scipy.special import nctdtr

    if n_treatments < 2 or replicates < 2 or not sd_ph > 0.0:
        raise OutOfRangeError(
            f"{n_treatments} treatments, {replicates} replicates, sd {sd_ph}: "
            "2 or more of each and an sd above 0"
        )
    df = degrees_of_freedom(replicates=replicates, n_treatments=n_treatments, in_blocks=in_blocks)
    limit = critical_value(_half_correlated(n_treatments - 1), df=float(df), level=level)
    away = abs(difference_ph) / (sd_ph * float(np.sqrt(2.0 / replicates)))
    if away > limit + 8.0:
        return 1.0
    wrong_way = nctdtr(df, away, -limit) if away < _NEVER_WRONG else 0.0
    return float(1.0 - nctdtr(df, away, limit) + wrong_way)


def smallest_difference_ph(
    *,
    sd_ph: float,
    replicates: int,
    n_treatments: int,
    in_blocks: bool,
    level: float,
    power: float,
) -> float:
    """The smallest true difference that a trial is likely to show.

    Parameters
    ----------
    sd_ph
        Standard deviation between pots of one treatment, above 0 [pH].
    replicates
        Pots of each treatment, 2 or more [count].
    n_treatments
        Treatments, the control among them, 2 or more [count].
    in_blocks
        True where every block holds every treatment once [truth].
    level
        Chance that all intervals hold [0-1].
    power
        How likely it is to be shown, above 1 - level and below 1 [0-1].

    Returns
    -------
    float
        The difference [pH].

    Notes
    -----
    The difference at which :func:`power_to_show` has that chance.

    Examples
    --------
    >>> round(smallest_difference_ph(sd_ph=0.1, replicates=5, n_treatments=3, in_blocks=False,
    ...                              level=0.95, power=0.8), 2)
    0.21
    """
    from scipy.optimize import brentq

    def short(difference_ph: float) -> float:
        found = power_to_show(
            difference_ph=difference_ph,
            sd_ph=sd_ph,
            replicates=replicates,
            n_treatments=n_treatments,
            in_blocks=in_blocks,
            level=level,
        )
        return found - power

    high = sd_ph
    while short(high) < 0.0:
        high *= 2.0
    return float(brentq(short, 0.0, high, xtol=1e-5))


def degrees_of_freedom(*, replicates: int, n_treatments: int, in_blocks: bool) -> int:
    """Degrees of freedom that tell the error of a trial.

    Parameters
    ----------
    replicates
        Pots of each treatment [count].
    n_treatments
        Treatments, the control among them [count].
    in_blocks
        True where every block holds every treatment once [truth].

    Returns
    -------
    int
        The degrees of freedom [count].

    Notes
    -----
    Pots less treatments, less one for each block beyond the first.

    Examples
    --------
    >>> degrees_of_freedom(replicates=4, n_treatments=3, in_blocks=True)
    6
    """
    blocks = replicates - 1 if in_blocks else 0
    return n_treatments * (replicates - 1) - blocks


def _half_correlated(k: int) -> Correlation:
    """Differences from one control that all have as many pots share half their variance."""
    return tuple(tuple(1.0 if i == j else 0.5 for j in range(k)) for i in range(k))
