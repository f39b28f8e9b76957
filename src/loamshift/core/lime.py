"""What lime is worth: strength, fineness, and how fast it dissolves."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from loamshift.core.formula import acid_molc_kg
from loamshift.core.lime_requirement import (
    lime_requirement_caco3_g_m2_from_buffer_ph as lime_requirement_caco3_g_m2_from_buffer_ph,
)
from loamshift.core.limits import require_amount
from loamshift.errors import OutOfRangeError

SizeTriple = tuple[float, float, float]
"""Lower and upper diameter of a size class [um] and its share of the mass [0-1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeParameters:
    """Coefficients of the topic ``lime``, one field per row.

    ``half_time_d`` of the finest class at pH 6 to 6.7 [d]; ``edge_*_um`` class bounds [um];
    ``half_time_factor_*`` of each class, finest first [-]; ``field_efficiency`` share of the
    curve's lime effect seen in fields [-], ``unknown_grade_efficiency`` and
    ``unknown_place_efficiency`` the same of lime that nobody knows more of [-];
    ``fineness_*`` effectiveness of sieve classes, or weights on cumulative passing for Iowa [0-1].
    """

    half_time_d: float
    edge_1_um: float
    edge_2_um: float
    edge_3_um: float
    edge_4_um: float
    half_time_factor_1: float
    half_time_factor_2: float
    half_time_factor_3: float
    half_time_factor_4: float
    half_time_factor_5: float
    field_efficiency: float
    unknown_grade_efficiency: float
    unknown_place_efficiency: float
    fineness_nebraska_over_8_mesh: float
    fineness_nebraska_8_50_mesh: float
    fineness_nebraska_under_50_mesh: float
    fineness_new_york_over_20_mesh: float
    fineness_new_york_20_60_mesh: float
    fineness_new_york_60_100_mesh: float
    fineness_new_york_under_100_mesh: float
    fineness_minnesota_over_8_mesh: float
    fineness_minnesota_8_20_mesh: float
    fineness_minnesota_20_60_mesh: float
    fineness_minnesota_under_60_mesh: float
    fineness_iowa_passing_4_mesh: float
    fineness_iowa_passing_8_mesh: float
    fineness_iowa_passing_60_mesh: float


def caco3_eq_frac_from_formula(formula: str) -> float:
    """Neutralising value of a pure compound, as calcium carbonate.

    Parameters
    ----------
    formula
        Such as ``CaMg(CO3)2`` [text].

    Returns
    -------
    float
        Neutralising value; 1 is calcium carbonate, negative means it acidifies [0-2.6].

    Raises
    ------
    InputError
        Where the formula cannot be read.

    Notes
    -----
    Base per kilogram against that of CaCO3. Whether a silicate or a phosphate really reacts in
    soil is left out.

    References
    ----------
    own-arithmetic, unl-liming-materials

    Examples
    --------
    >>> round(100 * caco3_eq_frac_from_formula("CaMg(CO3)2"))
    109
    """
    return acid_molc_kg(formula) / acid_molc_kg("CaCO3")


def shares_from_passing(passing_fracs: Sequence[float]) -> tuple[float, ...]:
    """Mass shares of sieve classes from the shares that pass each sieve.

    Parameters
    ----------
    passing_fracs
        Share passing each sieve, coarsest sieve first, falling [0-1].

    Returns
    -------
    tuple of float
        Share held by the first sieve, between each pair, and through the last [0-1].

    Raises
    ------
    OutOfRangeError
        Where a share is not 0 to 1 or a finer sieve passes more than a coarser one.

    Notes
    -----
    Differences of neighbours.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> [round(share, 2) for share in shares_from_passing([0.95, 0.70, 0.50])]
    [0.05, 0.25, 0.2, 0.5]
    """
    chain = (1.0, *passing_fracs, 0.0)
    if not all(later <= sooner for sooner, later in pairwise(chain)):
        raise OutOfRangeError(
            f"passing {tuple(passing_fracs)} must fall from the coarsest sieve to the finest "
            "and lie between 0 and 1"
        )
    return tuple(sooner - later for sooner, later in pairwise(chain))


def fineness_frac(mass_fracs: Sequence[float], effectiveness_fracs: Sequence[float]) -> float:
    """Fineness factor of a lime: the effectiveness of its sieve classes, weighed by mass.

    Parameters
    ----------
    mass_fracs
        Share of each sieve class; together 1 [0-1].
    effectiveness_fracs
        Effectiveness a rule gives each class, in the same order [0-1].

    Returns
    -------
    float
        Fineness factor [0-1].

    Raises
    ------
    OutOfRangeError
        Where lengths differ, a share is not 0 to 1, or the shares do not add to 1.

    Notes
    -----
    Each state's rule has its own sieves and its own base of one to four years; factors of
    different rules are not comparable.

    References
    ----------
    nebraska-lime-quality, cornell-lime-env, minnesota-alm-analysis

    Examples
    --------
    >>> round(fineness_frac([0.05, 0.35, 0.60], [0.1, 0.4, 1.0]), 3)
    0.745
    """
    _need_shares(mass_fracs, "mass_fracs")
    _need_shares(effectiveness_fracs, "effectiveness_fracs")
    if len(mass_fracs) != len(effectiveness_fracs) or not math.isclose(
        math.fsum(mass_fracs), 1.0, abs_tol=1e-6
    ):
        raise OutOfRangeError(
            f"{len(mass_fracs)} sieve classes adding to {math.fsum(mass_fracs):g} against "
            f"{len(effectiveness_fracs)} factors: give one share per class, together 1"
        )
    return math.fsum(m * e for m, e in zip(mass_fracs, effectiveness_fracs, strict=True))


def product_g_m2_from_caco3_g_m2(caco3_g_m2: float, *, effective_frac: float) -> float:
    """Lime as sold that does the work of this much calcium carbonate.

    Parameters
    ----------
    caco3_g_m2
        Requirement as pure calcium carbonate, 0 or more [g/m2].
    effective_frac
        Effective neutralising value of the product, above 0 to 2.6 [0-2.6].

    Returns
    -------
    float
        Product [g/m2].

    Raises
    ------
    OutOfRangeError
        Where the value or the requirement is impossible.

    Notes
    -----
    Requirement / value.

    References
    ----------
    penn-state-home-garden

    Examples
    --------
    >>> round(product_g_m2_from_caco3_g_m2(244.1, effective_frac=0.70))
    349
    """
    if not 0.0 < effective_frac <= 2.6:
        raise OutOfRangeError(
            f"effective_frac = {effective_frac:g} must lie above 0 and up to 2.6; a label's "
            "percentage is divided by 100"
        )
    require_amount("caco3_g_m2", caco3_g_m2)
    return caco3_g_m2 / effective_frac


def lime_dissolved_frac(
    t_days: ArrayLike, *, sizes: Sequence[SizeTriple], params: LimeParameters
) -> Any:
    """Share of a lime that has dissolved after so many days mixed into moist acid soil.

    Parameters
    ----------
    t_days
        Time since mixing, 0 or more, any shape [d].
    sizes
        Size classes: low diameter [um], high diameter [um], share of the mass, together 1 [0-1].
    params
        Coefficients of the topic ``lime`` [see the dataclass].

    Returns
    -------
    float or ndarray
        Share dissolved, shape of ``t_days`` [0-1].

    Raises
    ------
    OutOfRangeError
        Where a time, a size or a share is impossible.

    Notes
    -----
    First order per class; a size class of the product that spans several classes of the law is
    split evenly over its diameter. Half-time 25 days (8 to 80) below 150 um at pH 6 to 6.7,
    2, 6 and 25 times as long for 150-250, 250-850 and 850-2000 um. The ratios were measured in
    peat; the time scale is common practice with one field series behind it. Faster when acid,
    slower in cold or dry soil, far slower on the surface: left out here.

    References
    ----------
    huang-2007, common-practice, glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LimeParameters(**parameter_values("lime"))
    >>> round(lime_dissolved_frac(25.0, sizes=[(0.0, 150.0, 1.0)], params=p), 3)
    0.5
    """
    time = np.asarray(t_days, dtype=np.float64)
    if not (np.isfinite(time) & (time >= 0.0)).all():
        raise OutOfRangeError("t_days must be 0 or more; count from the day the lime was mixed in")
    edges = (0.0, params.edge_1_um, params.edge_2_um, params.edge_3_um, params.edge_4_um, math.inf)
    factors = (
        params.half_time_factor_1,
        params.half_time_factor_2,
        params.half_time_factor_3,
        params.half_time_factor_4,
        params.half_time_factor_5,
    )
    _need_shares([share for _, _, share in sizes], "shares of the size classes")
    if not math.isclose(math.fsum(share for _, _, share in sizes), 1.0, abs_tol=1e-6):
        raise OutOfRangeError("the shares of the size classes must add to 1")
    left = np.zeros_like(time)
    for low_um, high_um, share in sizes:
        if not 0.0 <= low_um <= high_um < math.inf:
            raise OutOfRangeError(f"size class {low_um:g} to {high_um:g} um must rise from 0 up")
        for between, factor in zip(pairwise(edges), factors, strict=True):
            part = _overlap_frac((low_um, high_um), between)
            left = left + share * part * 2.0 ** (-time / (params.half_time_d * factor))
    dissolved = 1.0 - left
    return float(dissolved) if dissolved.ndim == 0 else dissolved


def _overlap_frac(span: tuple[float, float], edges: tuple[float, float]) -> float:
    """Share of a span of sizes between two edges [um]; a single size lies in one class."""
    (low_um, high_um), (low_edge, high_edge) = span, edges
    if low_um == high_um:
        return 1.0 if low_edge <= low_um < high_edge else 0.0
    return max(0.0, min(high_um, high_edge) - max(low_um, low_edge)) / (high_um - low_um)


def _need_shares(values: Sequence[float], name: str) -> None:
    for value in values:
        if not -1e-12 <= value <= 1.0 + 1e-12:
            raise OutOfRangeError(f"{name} holds {value:g}; each must be a share from 0 to 1")
