"""Alkaline irrigation water: the base it brings, and the acid that takes it out.

Alkalinity is the figure that counts, never the pH or the hardness of the water.
"""

from __future__ import annotations

from loamshift.core.equilibrium import CarbonateParameters, activity_coefficient, constants
from loamshift.core.limits import require_amount, require_between
from loamshift.core.water_acids import IrrigationParameters
from loamshift.errors import OutOfRangeError


def water_base_mmolc_m2(*, alkalinity_mmolc_l: float, water_mm: float) -> float:
    """Base that irrigation water leaves on a square metre.

    Parameters
    ----------
    alkalinity_mmolc_l
        Alkalinity of the water, 0 or more [mmolc/L].
    water_mm
        Depth of water given, 0 or more; 1 mm is 1 litre per square metre [mm].

    Returns
    -------
    float
        Acid that this water takes up [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        For a negative amount.

    Notes
    -----
    Base = alkalinity x depth. All of it counts: bicarbonate either takes up acid in the soil or
    falls as lime that takes it up later. What drains through unchanged is the ledger's loss line.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> water_base_mmolc_m2(alkalinity_mmolc_l=4.0, water_mm=500.0)
    2000.0
    """
    require_amount("alkalinity_mmolc_l", alkalinity_mmolc_l)
    require_amount("water_mm", water_mm)
    return alkalinity_mmolc_l * water_mm


def ionic_strength_from_alkalinity(
    alkalinity_mmolc_l: float, params: IrrigationParameters
) -> float:
    """Ionic strength of a usual hard water where its conductivity is not known.

    Parameters
    ----------
    alkalinity_mmolc_l
        Alkalinity of the water [mmolc/L].
    params
        Coefficients of the topic ``irrigation`` [see the dataclass].

    Returns
    -------
    float
        Ionic strength [mol/kg].

    Notes
    -----
    I = 0.0005 + 0.0016 x alkalinity. An error by a factor of 2 moves the acid for a target pH by
    about 2 %.

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = IrrigationParameters(**parameter_values("irrigation"))
    >>> round(ionic_strength_from_alkalinity(4.0, p), 4)
    0.0069
    """
    return params.ionic_strength_base + params.ionic_strength_per_alkalinity * alkalinity_mmolc_l


def ionic_strength_from_ec(ec_ds_m: float, params: IrrigationParameters) -> float:
    """Ionic strength of a water from its electrical conductivity.

    Parameters
    ----------
    ec_ds_m
        Conductivity of the water at 25 degC [dS/m].
    params
        Coefficients of the topic ``irrigation`` [see the dataclass].

    Returns
    -------
    float
        Ionic strength [mol/kg].

    Notes
    -----
    I = 0.0127 EC, without the printed intercept of -0.0003 so that pure water stays at zero;
    from memory.

    References
    ----------
    griffin-jurinak-1973

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = IrrigationParameters(**parameter_values("irrigation"))
    >>> round(ionic_strength_from_ec(1.0, p), 4)
    0.0127
    """
    return params.ionic_strength_per_ec * ec_ds_m


def water_acid_mmolc_l(
    *,
    alkalinity_mmolc_l: float,
    ph_start: float,
    ph_target: float,
    temp_c: float,
    ionic_strength: float,
    params: CarbonateParameters,
) -> float:
    """Acid that brings irrigation water to a pH in a closed line.

    Answers how much acid to inject where the carbon dioxide set free cannot escape before the
    water leaves the pipe. In an open tank carbon dioxide escapes and the pH climbs back; what
    counts for the soil is the alkalinity taken out, which is this same figure.

    Parameters
    ----------
    alkalinity_mmolc_l
        Alkalinity of the water before, 0 to 20 [mmolc/L].
    ph_start
        pH of the water as it comes, 5.5 to 10 [pH].
    ph_target
        pH wanted, 4.5 up to the pH at the start [pH].
    temp_c
        Temperature of the water, 0 to 40 [degC].
    ionic_strength
        Ionic strength, 0 to 0.5; see :func:`ionic_strength_from_alkalinity` [mol/kg].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].

    Returns
    -------
    float
        Acid to add, equal to the alkalinity taken out [mmolc/L].

    Raises
    ------
    OutOfRangeError
        Outside these limits, or where pH and alkalinity cannot both be right.

    Notes
    -----
    DIC = (Alk - OH + H)/a(pH0); acid = Alk - (DIC a(pHt) + OH - H) with
    a = (K1 H + 2 K1 K2)/(H2 + K1 H + K1 K2), constants corrected for activity. Ion pairs, borate,
    silicate and organic acids are left out. Within 2.1 % of a general
    geochemistry library over the shipped cases.

    References
    ----------
    plummer-busenberg-1982, stumm-morgan-1996

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> acid = water_acid_mmolc_l(alkalinity_mmolc_l=4.0, ph_start=7.5, ph_target=5.8,
    ...                           temp_c=20.0, ionic_strength=0.007, params=p)
    >>> round(acid, 1)
    3.1
    """
    require_between(
        "alkalinity_mmolc_l",
        alkalinity_mmolc_l,
        low=0.0,
        high=20.0,
        unit="mmolc/L",
        mend="mg/L CaCO3 over 50",
    )
    require_between(
        "ph_start", ph_start, low=5.5, high=10.0, unit="pH", mend="measure the water again"
    )
    require_between(
        "ph_target",
        ph_target,
        low=4.5,
        high=10.0,
        unit="pH",
        mend="5.8 to 6.5 is usual for watering",
    )
    if ph_target > ph_start:
        raise OutOfRangeError(
            f"ph_target {ph_target:g} lies above ph_start {ph_start:g}: acid only lowers the pH; "
            "leave the water as it is or give a lower target"
        )
    k = constants(temp_c, params)
    none, one, two = (
        activity_coefficient(
            charge=charge, ionic_strength=ionic_strength, davies_a=k.davies_a, params=params
        )
        for charge in (0, 1, 2)
    )
    k1 = k.k1 * none / one**2
    k2 = k.k2 / two

    def share(ph: float) -> float:
        """Charge per mole of dissolved carbonate, with h as a concentration."""
        h = 10.0**-ph / one
        return float((k1 * h + 2.0 * k1 * k2) / (h * h + k1 * h + k1 * k2))

    def free(ph: float) -> float:
        """OH less H [mol/kg]."""
        h_act = 10.0**-ph
        return float((k.kw / h_act - h_act) / one)

    alkalinity = 1.0e-3 * alkalinity_mmolc_l
    carbon = (alkalinity - free(ph_start)) / share(ph_start)
    if carbon < 0.0:
        raise OutOfRangeError(
            f"alkalinity_mmolc_l {alkalinity_mmolc_l:g} is too low for ph_start {ph_start:g}: "
            "such a water holds hydroxide, not bicarbonate; check both figures"
        )
    return 1000.0 * (alkalinity - (carbon * share(ph_target) + free(ph_target)))
