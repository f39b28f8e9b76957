"""Where carbon dioxide and free lime hold the pH: rain, and water on calcite.

A limy soil sits on the plateau of :func:`plateau_ph` until its free carbonate is gone.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from loamshift.core.equilibrium import (
    CarbonateParameters,
    Constants,
    activity_coefficient,
    constants,
    require_p_co2,
)
from loamshift.errors import FitError, OutOfRangeError


class CalciteSolution(NamedTuple):
    """Water in balance with calcite: pH, calcium, alkalinity and ionic strength.

    ``ca_mmol_l`` counts the ion pairs; one litre stands for one kilogram of water.
    """

    ph: float
    ca_mmol_l: float
    alkalinity_mmolc_l: float
    ionic_strength: float


def rain_ph(*, p_co2_atm: float, temp_c: float, params: CarbonateParameters) -> float:
    """PH of pure water in balance with carbon dioxide: what clean rain reads.

    Answers how acid rain is by its carbonic acid alone; sulfuric and nitric acid of polluted
    rain, dust and ammonia are left out.

    Parameters
    ----------
    p_co2_atm
        Partial pressure of carbon dioxide, 1e-5 to 0.3 [atm].
    temp_c
        Temperature, 0 to 40 [degC].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].

    Returns
    -------
    float
        pH on the scale of activity [pH].

    Raises
    ------
    OutOfRangeError
        For a pressure or a temperature outside these limits.

    Notes
    -----
    H = HCO3 + 2 CO3 + OH with activities; solved by bisection in pH. Largest difference from a
    general geochemistry library 0.001 pH.

    References
    ----------
    plummer-busenberg-1982

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> round(rain_ph(p_co2_atm=0.000425, temp_c=15.0, params=p), 2)
    5.57
    """
    require_p_co2(p_co2_atm)
    k = constants(temp_c, params)
    co2 = k.kh * p_co2_atm

    def excess(ph: float, ionic_strength: float) -> tuple[float, float]:
        h_act = 10.0**-ph
        one = _gamma(1, ionic_strength, k, params)
        two = _gamma(2, ionic_strength, k, params)
        hco3_act = k.k1 * co2 / h_act
        h, oh = h_act / one, k.kw / h_act / one
        hco3, co3 = hco3_act / one, k.k2 * hco3_act / h_act / two
        return h - oh - hco3 - 2.0 * co3, 0.5 * (h + oh + hco3 + 4.0 * co3)

    ph, _ = _solve(excess)
    return ph


def calcite_solution(
    *,
    p_co2_atm: float,
    temp_c: float,
    params: CarbonateParameters,
    gypsum: bool = False,
    cacl2_mmol_l: float = 0.0,
) -> CalciteSolution:
    """Water in balance with calcite and carbon dioxide: the plateau of a limy soil.

    Answers at which pH free lime holds the soil solution, and how much calcium and alkalinity
    leave with it. Magnesium, potassium, sodium and the exchange complex are left out.

    Parameters
    ----------
    p_co2_atm
        Partial pressure of carbon dioxide, 1e-5 to 0.3 [atm].
    temp_c
        Temperature, 0 to 40 [degC].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].
    gypsum
        True where gypsum is present too, as after much sulfuric acid [truth].
    cacl2_mmol_l
        Calcium chloride in the water, 0 to 100; 10 for the pH test in 0.01 M [mmol/L].

    Returns
    -------
    CalciteSolution
        pH, total calcium [mmol/L], alkalinity [mmolc/L] and ionic strength [mol/kg].

    Raises
    ------
    OutOfRangeError
        For a pressure, temperature or salt content outside these limits.

    Notes
    -----
    Charge balance 2 Ca + CaHCO3 + H = HCO3 + 2 CO3 + OH + 2 SO4 + Cl with the pairs CaHCO3+,
    CaCO3 and CaSO4 and Davies activity coefficients. The balance rises steadily with the
    activity of H, so bisection in pH finds the one root; the ionic strength is iterated around
    it. Against a general geochemistry library: 0.007 pH over its stored cases, 0.011 over random
    ones at 0 to 30 degC, and 0.03 at 40 degC, where that library's newer constants part from
    those used here.

    References
    ----------
    plummer-busenberg-1982, parkhurst-appelo-2013, davies-1962

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> solution = calcite_solution(p_co2_atm=0.0004, temp_c=15.0, params=p)
    >>> round(solution.ph, 1), round(solution.ca_mmol_l, 2)
    (8.2, 0.63)
    """
    require_p_co2(p_co2_atm)
    if not 0.0 <= cacl2_mmol_l <= 100.0:
        raise OutOfRangeError(
            f"cacl2_mmol_l {cacl2_mmol_l:g} is outside 0 to 100 mmol/L; the pH test in 0.01 M "
            "calcium chloride is 10"
        )
    k = constants(temp_c, params)
    co2 = k.kh * p_co2_atm
    chloride = 2.0e-3 * cacl2_mmol_l

    def species(ph: float, ionic_strength: float) -> tuple[float, float, float, float]:
        h_act = 10.0**-ph
        none = _gamma(0, ionic_strength, k, params)
        one = _gamma(1, ionic_strength, k, params)
        two = _gamma(2, ionic_strength, k, params)
        hco3_act = k.k1 * co2 / h_act
        co3_act = k.k2 * hco3_act / h_act
        ca_act = k.k_calcite / co3_act
        so4_act = k.k_gypsum / ca_act if gypsum else 0.0
        h, oh = h_act / one, k.kw / h_act / one
        hco3, co3 = hco3_act / one, co3_act / two
        ca, so4 = ca_act / two, so4_act / two
        cahco3 = k.k_cahco3 * ca_act * hco3_act / one
        caco3 = k.k_caco3 * ca_act * co3_act / none
        caso4 = k.k_caso4 * ca_act * so4_act / none
        charge = 2.0 * ca + cahco3 + h - hco3 - 2.0 * co3 - oh - 2.0 * so4 - chloride
        strength = 0.5 * (4.0 * (ca + co3 + so4) + cahco3 + h + oh + hco3 + chloride)
        total_ca = ca + cahco3 + caco3 + caso4
        alkalinity = hco3 + 2.0 * co3 + cahco3 + 2.0 * caco3 + oh - h
        return charge, strength, total_ca, alkalinity

    ph, strength = _solve(lambda ph, ionic_strength: species(ph, ionic_strength)[:2])
    _, _, total_ca, alkalinity = species(ph, strength)
    return CalciteSolution(ph, 1000.0 * total_ca, 1000.0 * alkalinity, strength)


def plateau_ph(
    *,
    p_co2_atm: float,
    temp_c: float,
    params: CarbonateParameters,
    gypsum: bool = False,
    cacl2_mmol_l: float = 0.0,
) -> float:
    """PH at which free lime holds a soil: the first part of :func:`calcite_solution`.

    Parameters
    ----------
    p_co2_atm
        Partial pressure of carbon dioxide, 1e-5 to 0.3 [atm].
    temp_c
        Temperature, 0 to 40 [degC].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].
    gypsum
        True where gypsum is present too [truth].
    cacl2_mmol_l
        Calcium chloride in the water, 0 to 100 [mmol/L].

    Returns
    -------
    float
        pH of the soil solution [pH].

    Raises
    ------
    OutOfRangeError
        As :func:`calcite_solution`.

    Notes
    -----
    A water pH of 8.2 on the bench is about 7.0 to 7.3 in a live root zone, where carbon dioxide
    is 25 to 75 times the outdoor air.

    References
    ----------
    plummer-busenberg-1982

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> round(plateau_ph(p_co2_atm=p.p_co2_root_zone_atm, temp_c=15.0, params=p), 1)
    7.2
    """
    return calcite_solution(
        p_co2_atm=p_co2_atm,
        temp_c=temp_c,
        params=params,
        gypsum=gypsum,
        cacl2_mmol_l=cacl2_mmol_l,
    ).ph


def _gamma(charge: int, ionic_strength: float, k: Constants, params: CarbonateParameters) -> float:
    return activity_coefficient(
        charge=charge, ionic_strength=ionic_strength, davies_a=k.davies_a, params=params
    )


def _solve(balance: Callable[[float, float], tuple[float, float]]) -> tuple[float, float]:
    """PH and ionic strength where the charge balance, falling with pH, is zero.

    ``balance(ph, ionic_strength)`` gives the charge left over and the ionic strength that the
    solution would have.
    """
    strength = 0.0
    for _ in range(60):
        ph = _bisect(balance, strength)
        new = balance(ph, strength)[1]
        if abs(new - strength) <= 1.0e-10 + 1.0e-9 * new:
            return ph, new
        strength = new
    raise FitError("the ionic strength did not settle; report these inputs, this is our fault")


def _bisect(balance: Callable[[float, float], tuple[float, float]], strength: float) -> float:
    low, high = 2.0, 12.0
    while high - low > 1.0e-12:
        middle = 0.5 * (low + high)
        if balance(middle, strength)[0] > 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
