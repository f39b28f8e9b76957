"""What acts on the pH in a material, part by part, per gram of product."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from loamshift.core.acidity import CACO3_BASE_MOLC_KG, NITROGEN_MOL_KG, SULFUR_ACID_MOLC_KG
from loamshift.domain.material import Material, MaterialGroup
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

AT_ONCE: Final = (MaterialGroup.ACID, MaterialGroup.ORGANIC)
"""Their acid needs no salt to dissolve and react: mineral acids, and the surface of peat."""


class ActingParts(NamedTuple):
    """Acid and nitrogen of one gram of product; acid positive."""

    sulfur: float
    """Elemental sulfur once oxidised [mmolc/g]."""
    fast: float
    """Mineral acid, without the base that ammonia itself is [mmolc/g]."""
    lime: float
    """Carbonate, oxide and hydroxide, negative [mmolc/g]."""
    ash: float
    """Base set free by decay, negative [mmolc/g]."""
    ammonium_frac: float
    """Nitrogen as ammonium [g/g]."""
    ammonia_frac: float
    """Nitrogen as ammonia, which takes up a proton before it nitrifies [g/g]."""
    urea_frac: float
    """Nitrogen as urea [g/g]."""
    organic_frac: float
    """Organic nitrogen that is set free; of composts only a part ever is [g/g]."""
    nitrate_frac: float
    """Nitrogen as nitrate [g/g]."""

    @property
    def has_nitrogen(self) -> bool:
        """True where any form of nitrogen is in it."""
        return math.fsum(self[4:]) > 0.0


def acting_parts(material: Material) -> ActingParts:
    """The parts of a material that act on the pH for good.

    Returns
    -------
    ActingParts
        Acid [mmolc/g] and nitrogen [g/g] per gram of product.

    Notes
    -----
    The base of ammonia gas and of diammonium phosphate, a negative mineral acid in the table,
    belongs to their nitrogen: so much nitrogen counts as ammonia. Of the organic nitrogen of a
    finished compost only the share counts that is set free within three years; meals rot whole.

    References
    ----------
    own-arithmetic, amlinger-2003
    """
    ammonia_mol_kg = 0.0
    if material.group is MaterialGroup.NITROGEN and material.fast_acid_molc_kg < 0.0:
        ammonia_mol_kg = min(-material.fast_acid_molc_kg, material.n_as_nh4_frac * NITROGEN_MOL_KG)
    ammonia_frac = ammonia_mol_kg / NITROGEN_MOL_KG
    organic_frac = material.n_organic_frac
    advice = parameter_values("advice")
    if material.group is MaterialGroup.ORGANIC and organic_frac < advice["meal_n_frac"]:
        organic_frac *= advice["compost_n_frac"]
    return ActingParts(
        sulfur=material.elemental_s_frac * SULFUR_ACID_MOLC_KG,
        fast=material.fast_acid_molc_kg + ammonia_mol_kg,
        lime=-material.caco3_eq_frac * CACO3_BASE_MOLC_KG,
        ash=-material.ash_alkalinity_molc_kg,
        ammonium_frac=material.n_as_nh4_frac - ammonia_frac,
        ammonia_frac=ammonia_frac,
        urea_frac=material.n_as_urea_frac,
        organic_frac=organic_frac,
        nitrate_frac=material.n_as_no3_frac,
    )


def checked_rate_g_m2(rate_g_m2: float) -> float:
    """A rate that can be: the rate itself, or an error.

    Parameters
    ----------
    rate_g_m2
        Product [g/m2].

    Returns
    -------
    float
        The same [g/m2].

    Raises
    ------
    OutOfRangeError
        Where it is negative or no number.
    """
    if not (math.isfinite(rate_g_m2) and rate_g_m2 >= 0.0):
        raise OutOfRangeError(f"rate_g_m2 = {rate_g_m2:g} must be 0 or more")
    return rate_g_m2


def checked_days(days: int) -> int:
    """A time that can be: the time itself, or an error.

    Parameters
    ----------
    days
        Days since a material went on [d].

    Returns
    -------
    int
        The same [d].

    Raises
    ------
    OutOfRangeError
        Where it is negative.
    """
    if days < 0:
        raise OutOfRangeError(f"days = {days} must be 0 or more; count from the day it went on")
    return days
