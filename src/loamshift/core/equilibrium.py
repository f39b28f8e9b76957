"""Equilibrium constants of water, carbon dioxide, calcite and gypsum, and ion activity.

Every constant is a function of temperature with coefficients from the parameter table, topic
``carbonate``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from loamshift.errors import OutOfRangeError

LOWEST_TEMP_C = 0.0
HIGHEST_TEMP_C = 40.0
GAS_CONSTANT_KJ_MOL_K = 8.314462618e-3
KELVIN_AT_0_C = 273.15


@dataclass(frozen=True, slots=True, kw_only=True)
class CarbonateParameters:
    """Coefficients of the carbonate system, one field per row of the topic ``carbonate``.

    ``<constant>_a1`` .. ``_a5`` make log10 K = a1 + a2 T + a3/T + a4 log10 T + a5/T2 with T in
    kelvin. ``p_co2_*_atm`` are the partial pressures of carbon dioxide of open air, of a soil
    suspension on the bench and of a live root zone [atm].
    """

    kh_a1: float
    kh_a2: float
    kh_a3: float
    kh_a4: float
    kh_a5: float
    k1_a1: float
    k1_a2: float
    k1_a3: float
    k1_a4: float
    k1_a5: float
    k2_a1: float
    k2_a2: float
    k2_a3: float
    k2_a4: float
    k2_a5: float
    k_calcite_a1: float
    k_calcite_a2: float
    k_calcite_a3: float
    k_calcite_a4: float
    k_calcite_a5: float
    k_cahco3_a1: float
    k_cahco3_a2: float
    k_cahco3_a3: float
    k_cahco3_a4: float
    k_cahco3_a5: float
    k_caco3_a1: float
    k_caco3_a2: float
    k_caco3_a3: float
    k_caco3_a4: float
    k_caco3_a5: float
    kw_a1: float
    kw_a2: float
    kw_a3: float
    kw_a4: float
    kw_a5: float
    k_gypsum_a1: float
    k_gypsum_a2: float
    k_gypsum_a3: float
    k_gypsum_a4: float
    k_gypsum_a5: float
    k_caso4_log10_25c: float
    k_caso4_enthalpy_kj_mol: float
    davies_b: float
    davies_neutral: float
    davies_a_factor: float
    water_eps_b0: float
    water_eps_b1: float
    water_eps_b2: float
    water_eps_b3: float
    p_co2_air_atm: float
    p_co2_suspension_atm: float
    p_co2_root_zone_atm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Constants:
    """Thermodynamic constants at one temperature, on the scale of activities.

    ``kh`` [mol/kg/atm]; ``k1``, ``k2`` acid dissociation [mol/kg]; ``kw`` [mol2/kg2];
    ``k_calcite``, ``k_gypsum`` solubility products [mol2/kg2]; ``k_cahco3``, ``k_caco3``,
    ``k_caso4`` formation of ion pairs [kg/mol]; ``davies_a`` [kg0.5/mol0.5].
    """

    kh: float
    k1: float
    k2: float
    kw: float
    k_calcite: float
    k_gypsum: float
    k_cahco3: float
    k_caco3: float
    k_caso4: float
    davies_a: float


def constants(temp_c: float, params: CarbonateParameters) -> Constants:
    """All equilibrium constants at one temperature.

    Parameters
    ----------
    temp_c
        Temperature of the solution, 0 to 40 [degC].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].

    Returns
    -------
    Constants
        The constants, activities in mol per kg of water [see the dataclass].

    Raises
    ------
    OutOfRangeError
        Outside 0 to 40 degC.

    Notes
    -----
    log10 K = a1 + a2 T + a3/T + a4 log10 T + a5/T2; the CaSO4 pair by van't Hoff from 25 degC.

    References
    ----------
    plummer-busenberg-1982, ball-nordstrom-1991, parkhurst-appelo-2013

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> made = constants(25.0, CarbonateParameters(**parameter_values("carbonate")))
    >>> import math
    >>> round(math.log10(made.k_calcite), 2)
    -8.48
    """
    require_solution_temp(temp_c)
    kelvin = temp_c + KELVIN_AT_0_C

    def from_fit(a1: float, a2: float, a3: float, a4: float, a5: float) -> float:
        exponent = a1 + a2 * kelvin + a3 / kelvin + a4 * math.log10(kelvin) + a5 / kelvin**2
        return float(10.0**exponent)

    p = params
    vant_hoff = (
        p.k_caso4_enthalpy_kj_mol
        / (GAS_CONSTANT_KJ_MOL_K * math.log(10.0))
        * (1.0 / (25.0 + KELVIN_AT_0_C) - 1.0 / kelvin)
    )
    eps = (
        p.water_eps_b0
        + p.water_eps_b1 * temp_c
        + p.water_eps_b2 * temp_c**2
        + p.water_eps_b3 * temp_c**3
    )
    return Constants(
        kh=from_fit(p.kh_a1, p.kh_a2, p.kh_a3, p.kh_a4, p.kh_a5),
        k1=from_fit(p.k1_a1, p.k1_a2, p.k1_a3, p.k1_a4, p.k1_a5),
        k2=from_fit(p.k2_a1, p.k2_a2, p.k2_a3, p.k2_a4, p.k2_a5),
        kw=from_fit(p.kw_a1, p.kw_a2, p.kw_a3, p.kw_a4, p.kw_a5),
        k_calcite=from_fit(
            p.k_calcite_a1, p.k_calcite_a2, p.k_calcite_a3, p.k_calcite_a4, p.k_calcite_a5
        ),
        k_gypsum=from_fit(
            p.k_gypsum_a1, p.k_gypsum_a2, p.k_gypsum_a3, p.k_gypsum_a4, p.k_gypsum_a5
        ),
        k_cahco3=from_fit(
            p.k_cahco3_a1, p.k_cahco3_a2, p.k_cahco3_a3, p.k_cahco3_a4, p.k_cahco3_a5
        ),
        k_caco3=from_fit(p.k_caco3_a1, p.k_caco3_a2, p.k_caco3_a3, p.k_caco3_a4, p.k_caco3_a5),
        k_caso4=10.0 ** (p.k_caso4_log10_25c + vant_hoff),
        davies_a=p.davies_a_factor * (eps * kelvin) ** -1.5,
    )


def activity_coefficient(
    *, charge: int, ionic_strength: float, davies_a: float, params: CarbonateParameters
) -> float:
    """Activity coefficient of an ion, or of a dissolved uncharged species.

    Parameters
    ----------
    charge
        Charge of the ion, 0 for an uncharged species [1].
    ionic_strength
        Ionic strength, 0 to 0.5 [mol/kg].
    davies_a
        Debye-Hueckel slope at the temperature, from :func:`constants` [kg0.5/mol0.5].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].

    Returns
    -------
    float
        Activity divided by molality [1].

    Raises
    ------
    OutOfRangeError
        Where the solution is saltier than the equation holds for.

    Notes
    -----
    log10 gamma = -A z2 (sqrt I/(1 + sqrt I) - 0.3 I); uncharged species 0.1 I.

    References
    ----------
    davies-1962

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> round(activity_coefficient(charge=2, ionic_strength=0.01, davies_a=0.51, params=p), 3)
    0.662
    """
    if not 0.0 <= ionic_strength <= 0.5:
        raise OutOfRangeError(
            f"ionic strength {ionic_strength:g} mol/kg is outside 0 to 0.5, the range of the "
            "Davies equation; dilute the solution in the question or leave out the salt"
        )
    if charge == 0:
        return float(10.0 ** (params.davies_neutral * ionic_strength))
    root = math.sqrt(ionic_strength)
    shape = root / (1.0 + root) - params.davies_b * ionic_strength
    return float(10.0 ** (-davies_a * charge * charge * shape))


def require_solution_temp(temp_c: float) -> None:
    """Refuse a temperature outside the range of the constants.

    Parameters
    ----------
    temp_c
        Temperature of the solution [degC].

    Raises
    ------
    OutOfRangeError
        Outside 0 to 40 degC, or not a number.
    """
    if not LOWEST_TEMP_C <= temp_c <= HIGHEST_TEMP_C:
        raise OutOfRangeError(
            f"temp_c {temp_c:g} is outside {LOWEST_TEMP_C:g} to {HIGHEST_TEMP_C:g} degC for "
            "water chemistry; give the temperature of the water or soil solution in degC "
            "(deg F less 32, times 5/9)"
        )


def require_p_co2(p_co2_atm: float) -> None:
    """Refuse a partial pressure of carbon dioxide outside the solvers' range.

    Parameters
    ----------
    p_co2_atm
        Partial pressure of carbon dioxide [atm].

    Raises
    ------
    OutOfRangeError
        Outside 1e-5 to 0.3 atm, or not a number.
    """
    if not 1.0e-5 <= p_co2_atm <= 0.3:
        raise OutOfRangeError(
            f"p_co2_atm {p_co2_atm:g} is outside 1e-5 to 0.3 atm; outdoor air is about 0.000425, "
            "a live root zone 0.01 to 0.03 (ppm divided by a million gives atm)"
        )
