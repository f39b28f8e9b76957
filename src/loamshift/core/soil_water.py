"""Salt and the pH of soil water: the lime potential that the exchanger holds."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

TURNS: Final = 3
"""Turns of Newton's method, within 0.5 % of the root; the compiled column takes as many."""


def soil_water_hydrogen(
    hydrogen_mol_l: ArrayLike,
    *,
    anions_mmolc_l: ArrayLike,
    bicarbonate_mmol2_l2: ArrayLike,
    suspension_mmolc_l: float,
) -> NDArray[np.float64]:
    """Hydrogen in the water of a soil, from that in the suspension its pH is read in.

    Answers how much more acid the water of a salty soil is than the pH in water says, and how
    much less acid that of a poor one. The ion exchanger holds H over the root of calcium with
    magnesium; sodium and a mineral that dissolves are left out.

    Parameters
    ----------
    hydrogen_mol_l
        Hydrogen in the suspension, 10^-pH, above 0, any shape [mol/L].
    anions_mmolc_l
        Anions in the soil water, bicarbonate apart, above 0 [mmolc/L].
    bicarbonate_mmol2_l2
        Times 1/H it is the bicarbonate: 1000 K pCO2, 0 or more [mmol2/L2].
    suspension_mmolc_l
        Calcium with magnesium in the suspension, above 0 [mmolc/L].

    Returns
    -------
    ndarray
        Hydrogen in the soil water [mol/L].

    Notes
    -----
    x = H root(C/C_w), C = anions + B/x: x^3 = H^2 (anions x + B)/C_w, with one root above 0.
    Newton's method from x = root(H^2 anions/C_w + H B/C_w), which lies where the cubic bends
    upwards, so it comes down on the root from above.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(soil_water_hydrogen(1e-6, anions_mmolc_l=5.04, bicarbonate_mmol2_l2=0.0,
    ...                           suspension_mmolc_l=1.26).round(9))
    2e-06
    """
    return np.asarray(
        hydrogen_by_newton(
            np.asarray(hydrogen_mol_l, dtype=np.float64),
            np.asarray(anions_mmolc_l, dtype=np.float64),
            np.asarray(bicarbonate_mmol2_l2, dtype=np.float64),
            suspension_mmolc_l,
        )
    )


def hydrogen_by_newton(h: Any, anions: Any, bicarbonate: Any, suspension: float) -> Any:
    """The sum of ``soil_water_hydrogen``, for one number or an array of them.

    Parameters
    ----------
    h
        Hydrogen in the suspension [mol/L].
    anions
        Anions in the soil water, bicarbonate apart [mmolc/L].
    bicarbonate
        Times 1/H it is the bicarbonate [mmol2/L2].
    suspension
        Calcium with magnesium in the suspension [mmolc/L].

    Returns
    -------
    float or ndarray
        Hydrogen in the soil water [mol/L].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(float(hydrogen_by_newton(1e-6, 5.04, 0.0, 1.26)), 9)
    2e-06
    """
    straight = h * h * anions / suspension
    rest = h * h * bicarbonate / suspension
    x = np.sqrt(straight + rest / h)
    for _ in range(TURNS):
        x = (2.0 * x * x * x + rest) / (3.0 * x * x - straight)
    return x


def slope_ratio(
    bicarbonate_mmolc_l: ArrayLike, *, anions_mmolc_l: ArrayLike
) -> NDArray[np.float64]:
    """How fast the hydrogen of soil water goes with that of the suspension, in logarithms.

    Parameters
    ----------
    bicarbonate_mmolc_l
        Bicarbonate in the soil water, 0 or more [mmolc/L].
    anions_mmolc_l
        Anions there, bicarbonate apart, above 0 [mmolc/L].

    Returns
    -------
    ndarray
        Between 2/3, where all is bicarbonate, and 1 [-].

    Notes
    -----
    2 dln x = 2 dln H - f dln x, f the share of bicarbonate: dln x/dln H = 2/(2 + f).

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(slope_ratio(1.0, anions_mmolc_l=1.0))
    0.8
    """
    held = np.asarray(bicarbonate_mmolc_l, dtype=np.float64)
    others = np.asarray(anions_mmolc_l, dtype=np.float64)
    return np.asarray(ratio_of_slopes(held, others))


def ratio_of_slopes(held: Any, others: Any) -> Any:
    """The sum of ``slope_ratio``, for one number or an array of them.

    Parameters
    ----------
    held
        Bicarbonate in the soil water [mmolc/L].
    others
        Anions there, bicarbonate apart [mmolc/L].

    Returns
    -------
    float or ndarray
        Between 2/3 and 1 [-].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> ratio_of_slopes(1.0, 1.0)
    0.8
    """
    return 2.0 * (others + held) / (2.0 * others + 3.0 * held)
