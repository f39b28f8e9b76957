"""What a bag's analysis means in chemistry: ions, the base of phosphates, salt and least weight."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final, NamedTuple

from loamshift.core.acidity import CACO3_BASE_MOLC_KG
from loamshift.core.formula import ATOMIC_MASS_G_MOL, formula_mass_g_mol
from loamshift.errors import OutOfRangeError

_MASS: Final = ATOMIC_MASS_G_MOL
SULFUR_PER_SO3: Final = _MASS["S"] / formula_mass_g_mol("SO3")
"""Sulfur in a figure given as sulfur trioxide [g/g]."""
PHOSPHORUS_PER_P2O5: Final = 2.0 * _MASS["P"] / formula_mass_g_mol("P2O5")
"""Phosphorus in a figure given as P2O5 [g/g]."""
POTASSIUM_PER_K2O: Final = 2.0 * _MASS["K"] / formula_mass_g_mol("K2O")
"""Potassium in a figure given as K2O [g/g]."""
CALCIUM_PER_CAO: Final = _MASS["Ca"] / formula_mass_g_mol("CaO")
"""Calcium in a figure given as CaO [g/g]."""
MAGNESIUM_PER_MGO: Final = _MASS["Mg"] / formula_mass_g_mol("MgO")
"""Magnesium in a figure given as MgO [g/g]."""
CACO3_PER_CAO: Final = formula_mass_g_mol("CaCO3") / formula_mass_g_mol("CaO")
"""Neutralising value as CaCO3 in one given as CaO [g/g]."""
IRON_ACID_MOLC_KG: Final = 2000.0 / _MASS["Fe"]
"""Acid of iron(II) sulfate once air and water have turned the iron to hydroxide [molc/kg Fe]."""
ALUMINIUM_ACID_MOLC_KG: Final = 3000.0 / _MASS["Al"]
"""Acid of aluminium sulfate once it has turned to hydroxide [molc/kg Al]."""


class Ions(NamedTuple):
    """Charges that an analysis stands for, per kilogram of product [molc/kg].

    Phosphate counts one charge (as H2PO4); ``calcium`` and ``magnesium`` are all of them, those of
    lime included; ``base`` is the neutralising value.
    """

    ammonium: float
    urea: float
    nitrate: float
    sulfate: float
    phosphate: float
    potassium: float
    calcium: float
    magnesium: float
    iron: float
    aluminium: float
    base: float

    @property
    def alkaline_earth_left(self) -> float:
        """Calcium and magnesium that are not the lime itself [molc/kg]."""
        return max(0.0, self.calcium + self.magnesium - self.base)


def ions_molc_kg(
    *,
    n_as_nh4_frac: float = 0.0,
    n_as_urea_frac: float = 0.0,
    n_as_no3_frac: float = 0.0,
    s_as_so4_frac: float = 0.0,
    p_frac: float = 0.0,
    k_frac: float = 0.0,
    ca_frac: float = 0.0,
    mg_frac: float = 0.0,
    fe_frac: float = 0.0,
    al_frac: float = 0.0,
    caco3_eq_frac: float = 0.0,
) -> Ions:
    """Charges of each ion in a kilogram of product.

    Answers how much of each ion an analysis stands for; chloride, which few bags print, is left
    out. Urea counts as the ammonium it turns into.

    Parameters
    ----------
    n_as_nh4_frac
        Nitrogen as ammonium, 0 to 1 [0-1].
    n_as_urea_frac
        Nitrogen as urea, 0 to 1 [0-1].
    n_as_no3_frac
        Nitrogen as nitrate, 0 to 1 [0-1].
    s_as_so4_frac
        Sulfur as sulfate, 0 to 1 [0-1].
    p_frac
        Phosphorus, 0 to 1 [0-1].
    k_frac
        Potassium, 0 to 1 [0-1].
    ca_frac
        Calcium, 0 to 1 [0-1].
    mg_frac
        Magnesium, 0 to 1 [0-1].
    fe_frac
        Iron as iron(II) sulfate, 0 to 1 [0-1].
    al_frac
        Aluminium as sulfate, 0 to 1 [0-1].
    caco3_eq_frac
        Neutralising value as calcium carbonate, 0 to 2.6 [0-2.6].

    Returns
    -------
    Ions
        Charges [molc/kg product].

    Raises
    ------
    OutOfRangeError
        Where a share is impossible.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> ions = ions_molc_kg(n_as_nh4_frac=0.21, s_as_so4_frac=0.24)
    >>> round(ions.ammonium, 1), round(ions.sulfate, 1)
    (15.0, 15.0)
    """
    shares: dict[str, tuple[float, float, str, int]] = {
        "n_as_nh4_frac": (n_as_nh4_frac, 1.0, "N", 1),
        "n_as_urea_frac": (n_as_urea_frac, 1.0, "N", 1),
        "n_as_no3_frac": (n_as_no3_frac, 1.0, "N", 1),
        "s_as_so4_frac": (s_as_so4_frac, 1.0, "S", 2),
        "p_frac": (p_frac, 1.0, "P", 1),
        "k_frac": (k_frac, 1.0, "K", 1),
        "ca_frac": (ca_frac, 1.0, "Ca", 2),
        "mg_frac": (mg_frac, 1.0, "Mg", 2),
        "fe_frac": (fe_frac, 1.0, "Fe", 2),
        "al_frac": (al_frac, 1.0, "Al", 3),
        "caco3_eq_frac": (caco3_eq_frac, 2.6, "", 0),
    }
    charges = []
    for name, (value, high, element, charge) in shares.items():
        if not 0.0 <= value <= high:
            raise OutOfRangeError(
                f"{name} = {value:g} must lie between 0 and {high:g}; a percentage is divided "
                "by 100 first"
            )
        per_kg = 1000.0 * charge / _MASS[element] if element else CACO3_BASE_MOLC_KG
        charges.append(value * per_kg)
    return Ions(*charges)


def ammonia_base_molc_kg(ions: Ions) -> float:
    """Acid that a product's hydrogen phosphate takes up at once, as in diammonium phosphate.

    Answers how much of the phosphate must be HPO4 rather than H2PO4 for the analysis to be
    electrically neutral; the potassium is taken to come with chloride, as in the cheapest salt.

    Parameters
    ----------
    ions
        Charges of the analysis [molc/kg].

    Returns
    -------
    float
        Base, 0 to the phosphate itself [molc/kg product].

    Notes
    -----
    NH4 + Ca + Mg + Fe + Al - NO3 - SO4 - H2PO4, cut to 0 and to the phosphate. Potassium that is a
    sulfate or nitrate makes the figure too small by its charge, so the product counts as slightly
    more acid than it is.

    References
    ----------
    own-arithmetic, pierre-1933

    Examples
    --------
    >>> round(ammonia_base_molc_kg(ions_molc_kg(n_as_nh4_frac=0.18, p_frac=0.2007)), 1)
    6.4
    """
    unmatched = (
        ions.ammonium
        + ions.alkaline_earth_left
        + ions.iron
        + ions.aluminium
        - ions.nitrate
        - ions.sulfate
        - ions.phosphate
    )
    return min(max(unmatched, 0.0), ions.phosphate)


def unplaced_molc_kg(ions: Ions) -> float:
    """Calcium and magnesium for which the analysis names no partner.

    Answers whether a figure for calcium may hide lime: what nitrate, sulfate and phosphate cannot
    hold is a carbonate, an oxide or a chloride, and the analysis does not say which.

    Parameters
    ----------
    ions
        Charges of the analysis [molc/kg].

    Returns
    -------
    float
        Charges, 0 or more [molc/kg product].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> gypsum = ions_molc_kg(ca_frac=0.23, s_as_so4_frac=0.184)
    >>> unplaced_molc_kg(gypsum) < 0.1
    True
    """
    held = ions.nitrate + ions.sulfate + 2.0 * ions.phosphate
    return max(0.0, ions.alkaline_earth_left - held)


def label_salt_molc_kg(ions: Ions) -> float:
    """Soluble salt of a product once dissolved and its urea has turned to ammonium.

    Parameters
    ----------
    ions
        Charges of the analysis [molc/kg].

    Returns
    -------
    float
        The larger of the charges of either sign [molc/kg product].

    Notes
    -----
    Cations and anions of a salt are equal; a bag that leaves out one side (chloride, calcium) is
    known by the other. Lime and slow nitrogen are no salt.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(label_salt_molc_kg(ions_molc_kg(n_as_nh4_frac=0.17, n_as_no3_frac=0.17)), 1)
    12.1
    """
    positive = math.fsum(
        (
            ions.ammonium,
            ions.urea,
            ions.potassium,
            ions.alkaline_earth_left,
            ions.iron,
            ions.aluminium,
        )
    )
    return max(positive, math.fsum((ions.nitrate, ions.urea, ions.sulfate, ions.phosphate)))


def least_weight_frac(shares: Mapping[str, float]) -> float:
    """Least weight of the compounds that an analysis stands for, as a share of the product.

    Answers whether the figures of a bag can all be true: elements are sold as compounds, so 21 %
    of nitrogen and 24 % of sulfur already fill the bag as ammonium sulfate. Water of crystals and
    whatever is not printed come on top.

    Parameters
    ----------
    shares
        Share of the product by key of a label without ``_pct``: ``n_nitrate``, ``n_ammonium``,
        ``n_urea``, ``n_slow``, ``p``, ``k``, ``ca``, ``mg``, ``s_element``, ``s_sulfate``,
        ``fe_sulfate``, ``al_sulfate``, ``nv_as_caco3``, ``filler``; others do not count [0-1].

    Returns
    -------
    float
        Share; above 1 the analysis is impossible [0-1].

    Notes
    -----
    Nitrogen as NH4, NO3 and urea, sulfate as SO4, phosphorus as P2O5, base as oxide; the cation of
    a base that the label does not name counts as magnesium, the lightest.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(least_weight_frac({"n_ammonium": 0.21, "s_sulfate": 0.24}), 2)
    0.99
    """
    given = {name: shares.get(name, 0.0) for name in (*_ION_PER_SHARE, "nv_as_caco3", "filler")}
    weight = math.fsum(per * given[name] for name, per in _ION_PER_SHARE.items())
    base = CACO3_BASE_MOLC_KG * given["nv_as_caco3"]
    earths = 2000.0 * (given["ca"] / _MASS["Ca"] + given["mg"] / _MASS["Mg"])
    oxide = base * _MASS["O"] / 2000.0
    unnamed = max(0.0, base - earths) * _MASS["Mg"] / 2000.0
    return weight + oxide + unnamed + given["filler"]


_UREA_PER_N: Final = formula_mass_g_mol("CO(NH2)2") / (2.0 * _MASS["N"])
_ION_PER_SHARE: Final[Mapping[str, float]] = {
    "n_nitrate": formula_mass_g_mol("NO3") / _MASS["N"],
    "n_ammonium": formula_mass_g_mol("NH4") / _MASS["N"],
    "n_urea": _UREA_PER_N,
    "n_slow": _UREA_PER_N,
    "p": 1.0 / PHOSPHORUS_PER_P2O5,
    "k": 1.0,
    "ca": 1.0,
    "mg": 1.0,
    "s_element": 1.0,
    "s_sulfate": formula_mass_g_mol("SO4") / _MASS["S"],
    "fe_sulfate": 1.0,
    "al_sulfate": 1.0,
}
"""Weight of the lightest ion or compound that each share comes in [g/g]."""
