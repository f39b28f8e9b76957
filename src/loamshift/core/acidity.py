"""Acid that a kilogram of product brings, part by part, and its equivalent in lime."""

from __future__ import annotations

import math
from enum import Enum
from typing import Final, NamedTuple

from loamshift.errors import OutOfRangeError
from loamshift.units import CACO3_G_MOL, NITROGEN_G_MOL, SULFUR_G_MOL

SULFUR_ACID_MOLC_KG: Final = 2000.0 / SULFUR_G_MOL
"""Acid of fully oxidised elemental sulfur: S -> H2SO4 [molc/kg S]."""
CACO3_BASE_MOLC_KG: Final = 2000.0 / CACO3_G_MOL
"""Acid that calcium carbonate takes up [molc/kg CaCO3]."""
NITROGEN_MOL_KG: Final = 1000.0 / NITROGEN_G_MOL
"""Nitrogen [mol/kg N]."""
LEAST_FAST_ACID_MOLC_KG: Final = -60.0
"""Pure ammonia takes up 58.7 molc/kg at once; no stronger base is sold but lime [molc/kg]."""
MOST_ACID_MOLC_KG: Final = 100.0
"""Well above pure acids (sulfuric 20) and plant matter: beyond it a unit is wrong [molc/kg]."""


class UptakeConvention(Enum):
    """What is assumed of the nitrogen when acidity is printed as equivalent lime.

    The value is the share of nitrogen that plants take up as nitrate [0-1].
    """

    FULL = 0.0
    """All nitrified, all nitrate leached: the most acid there can be."""
    HALF = 0.5
    """Half taken up: what most printed tables mean (Pierre)."""
    ALL = 1.0
    """All taken up: what is left when no nitrate is lost."""


class AcidParts(NamedTuple):
    """Acid of one kilogram of product by cause; positive acidifies [molc/kg product]."""

    sulfur: float
    """Elemental sulfur once oxidised."""
    fast: float
    """Aluminium, iron and mineral acids, within days; negative for ammonia and phosphates."""
    ammonium: float
    """Ammonium once nitrified, less what nitrate uptake gives back."""
    urea: float
    """Urea once hydrolysed and nitrified, less what nitrate uptake gives back."""
    nitrate: float
    """Nitrate: nothing by itself, base where it is taken up."""
    organic_n: float
    """Organic nitrogen once mineralised and nitrified, less uptake."""
    lime: float
    """Carbonate, oxide and hydroxide: negative."""
    ash: float
    """Base that decay of plant matter sets free: negative."""
    organic_temporary: float
    """Organic acid that microbes destroy again; not lasting."""


def acid_parts_molc_kg(
    *,
    elemental_s_frac: float = 0.0,
    fast_acid_molc_kg: float = 0.0,
    n_as_nh4_frac: float = 0.0,
    n_as_urea_frac: float = 0.0,
    n_as_no3_frac: float = 0.0,
    n_organic_frac: float = 0.0,
    caco3_eq_frac: float = 0.0,
    ash_alkalinity_molc_kg: float = 0.0,
    organic_acid_molc_kg: float = 0.0,
    n_uptake_frac: float = 0.5,
) -> AcidParts:
    """Acid of a kilogram of product by cause, once all has reacted.

    Answers what a material can do at most; how fast, and how much of the ammonium acidity is
    realised in a field, is left out.

    Parameters
    ----------
    elemental_s_frac
        Elemental sulfur in the product, 0 to 1 [0-1].
    fast_acid_molc_kg
        Acid of aluminium, iron and mineral acids, -60 to 100; negative where the product takes up
        acid at once, as ammonia and hydrogen phosphate do [molc/kg].
    n_as_nh4_frac
        Nitrogen as ammonium in the product, 0 to 1 [0-1].
    n_as_urea_frac
        Nitrogen as urea, 0 to 1 [0-1].
    n_as_no3_frac
        Nitrogen as nitrate, 0 to 1 [0-1].
    n_organic_frac
        Organic nitrogen, 0 to 1 [0-1].
    caco3_eq_frac
        Neutralising value as calcium carbonate; burnt lime is above 1, up to 2.6 [0-2.6].
    ash_alkalinity_molc_kg
        Base set free by decay, 0 to 100 [molc/kg].
    organic_acid_molc_kg
        Organic acid at the start, 0 to 100 [molc/kg].
    n_uptake_frac
        Share of the nitrogen that plants take up as nitrate, 0 to 1 [0-1].

    Returns
    -------
    AcidParts
        Acid by cause; positive acidifies [molc/kg product].

    Raises
    ------
    OutOfRangeError
        Where a share or an amount is impossible, or the shares add up to more than the product.

    Notes
    -----
    Per mol: sulfur 2; ammonium 2 - u; urea and organic nitrogen 1 - u; nitrate -u; CaCO3 -2,
    with u the share taken up as nitrate. Charge balance of the formula gives the same
    (``core.formula.acid_mol_per_mol``).

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> parts = acid_parts_molc_kg(n_as_nh4_frac=0.21, n_uptake_frac=0.0)
    >>> round(parts.ammonium, 1), parts.sulfur
    (30.0, 0.0)
    """
    shares = {
        "elemental_s_frac": (elemental_s_frac, 1.0),
        "n_as_nh4_frac": (n_as_nh4_frac, 1.0),
        "n_as_urea_frac": (n_as_urea_frac, 1.0),
        "n_as_no3_frac": (n_as_no3_frac, 1.0),
        "n_organic_frac": (n_organic_frac, 1.0),
        "caco3_eq_frac": (caco3_eq_frac, 2.6),
        "n_uptake_frac": (n_uptake_frac, 1.0),
    }
    for name, (value, high) in shares.items():
        if not 0.0 <= value <= high:
            raise OutOfRangeError(
                f"{name} = {value:g} must lie between 0 and {high:g}; a percentage is divided "
                "by 100 first"
            )
    charges = {
        "fast_acid_molc_kg": (fast_acid_molc_kg, LEAST_FAST_ACID_MOLC_KG),
        "ash_alkalinity_molc_kg": (ash_alkalinity_molc_kg, 0.0),
        "organic_acid_molc_kg": (organic_acid_molc_kg, 0.0),
    }
    for name, (value, low) in charges.items():
        if not low <= value <= MOST_ACID_MOLC_KG:
            raise OutOfRangeError(
                f"{name} = {value:g} must lie between {low:g} and {MOST_ACID_MOLC_KG:g} molc/kg; "
                "mmolc/kg are divided by 1000 first, and lime goes in caco3_eq_frac"
            )
    nitrogen_frac = n_as_nh4_frac + n_as_urea_frac + n_as_no3_frac + n_organic_frac
    if elemental_s_frac + nitrogen_frac > 1.0 + 1e-9:
        raise OutOfRangeError(
            f"sulfur and nitrogen together are {elemental_s_frac + nitrogen_frac:g} of the "
            "product; shares of one product cannot pass 1"
        )
    u = n_uptake_frac
    return AcidParts(
        sulfur=elemental_s_frac * SULFUR_ACID_MOLC_KG,
        fast=fast_acid_molc_kg,
        ammonium=n_as_nh4_frac * NITROGEN_MOL_KG * (2.0 - u),
        urea=n_as_urea_frac * NITROGEN_MOL_KG * (1.0 - u),
        nitrate=0.0 - n_as_no3_frac * NITROGEN_MOL_KG * u,
        organic_n=n_organic_frac * NITROGEN_MOL_KG * (1.0 - u),
        lime=0.0 - caco3_eq_frac * CACO3_BASE_MOLC_KG,
        ash=0.0 - ash_alkalinity_molc_kg,
        organic_temporary=organic_acid_molc_kg,
    )


def lasting_acid_molc_kg(parts: AcidParts) -> float:
    """Acid of a kilogram of product that stays: all parts but the organic acid of decay.

    Parameters
    ----------
    parts
        Acid by cause [molc/kg product].

    Returns
    -------
    float
        Lasting acid; negative limes [molc/kg product].

    Notes
    -----
    Organic acids of peat, needles and coffee turn into carbon dioxide and water. Peat itself
    is a low-pH soil rather than an acid: it is mixed by its base content, not counted here.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> lasting_acid_molc_kg(acid_parts_molc_kg(organic_acid_molc_kg=0.3))
    0.0
    """
    return math.fsum(parts[:-1])


def equivalent_acidity_kg_caco3_per_100_kg(
    *,
    elemental_s_frac: float = 0.0,
    fast_acid_molc_kg: float = 0.0,
    n_as_nh4_frac: float = 0.0,
    n_as_urea_frac: float = 0.0,
    n_as_no3_frac: float = 0.0,
    n_organic_frac: float = 0.0,
    caco3_eq_frac: float = 0.0,
    convention: UptakeConvention = UptakeConvention.HALF,
) -> float:
    """Calcium carbonate that undoes the acid of 100 kg of product, as labels print it.

    Parameters
    ----------
    elemental_s_frac
        Elemental sulfur in the product, 0 to 1 [0-1].
    fast_acid_molc_kg
        Acid of aluminium, iron and mineral acids, -60 to 100, negative for a base [molc/kg].
    n_as_nh4_frac
        Nitrogen as ammonium, 0 to 1 [0-1].
    n_as_urea_frac
        Nitrogen as urea, 0 to 1 [0-1].
    n_as_no3_frac
        Nitrogen as nitrate, 0 to 1 [0-1].
    n_organic_frac
        Organic nitrogen, 0 to 1 [0-1].
    caco3_eq_frac
        Neutralising value as calcium carbonate [0-2.6].
    convention
        What is assumed of nitrogen uptake [enumeration].

    Returns
    -------
    float
        Equivalent acidity; positive acidifies, where many tables print a minus sign
        [kg CaCO3 per 100 kg].

    Raises
    ------
    OutOfRangeError
        Where a share is impossible.

    Notes
    -----
    Lasting acid x 50.045 g CaCO3 per molc / 10. Printed tables mostly follow the half
    convention; a factor of 5.4 kg per kg nitrogen is ammonium sulfate, 1.8 is urea.

    References
    ----------
    pierre-1933, auburn-anr174, cornell-po37, own-arithmetic

    Examples
    --------
    >>> round(equivalent_acidity_kg_caco3_per_100_kg(elemental_s_frac=1.0))
    312
    >>> round(equivalent_acidity_kg_caco3_per_100_kg(n_as_urea_frac=0.46), 1)
    82.2
    """
    parts = acid_parts_molc_kg(
        elemental_s_frac=elemental_s_frac,
        fast_acid_molc_kg=fast_acid_molc_kg,
        n_as_nh4_frac=n_as_nh4_frac,
        n_as_urea_frac=n_as_urea_frac,
        n_as_no3_frac=n_as_no3_frac,
        n_organic_frac=n_organic_frac,
        caco3_eq_frac=caco3_eq_frac,
        n_uptake_frac=convention.value,
    )
    return 100.0 * lasting_acid_molc_kg(parts) / CACO3_BASE_MOLC_KG


def product_kg_per_kg_sulfur(acid_molc_kg: float) -> float:
    """Product that brings as much acid as one kilogram of fully oxidised elemental sulfur.

    Parameters
    ----------
    acid_molc_kg
        Lasting acid of the product, above 0 [molc/kg].

    Returns
    -------
    float
        Product [kg per kg S].

    Raises
    ------
    OutOfRangeError
        Where the product brings no acid.

    Notes
    -----
    By stoichiometry 6.9 for aluminium sulfate with 18 water, 8.7 for iron sulfate with 7 water.
    The trade says 5 to 8 for both without a source; it under-doses iron sulfate.

    References
    ----------
    own-arithmetic, common-practice

    Examples
    --------
    >>> from loamshift.core.formula import acid_molc_kg
    >>> round(product_kg_per_kg_sulfur(acid_molc_kg("Al2(SO4)3.18H2O")), 1)
    6.9
    """
    if not (math.isfinite(acid_molc_kg) and acid_molc_kg > 0.0):
        raise OutOfRangeError(
            f"a product with {acid_molc_kg:g} molc/kg of acid cannot stand in for sulfur; "
            "choose a material that acidifies"
        )
    return SULFUR_ACID_MOLC_KG / acid_molc_kg
