"""Acid from the air: what sulfur and nitrogen that fall do to a topsoil."""

from __future__ import annotations

from typing import Final

from loamshift.core.acidity import NITROGEN_MOL_KG, SULFUR_ACID_MOLC_KG
from loamshift.core.background import LedgerParameters
from loamshift.core.limits import require_amount

G_M2_PER_KG_HA: Final = 0.1


def air_acid_mmolc_m2(
    *,
    sulfur_kg_ha: float,
    nitrogen_kg_ha: float,
    base_mmolc_m2: float,
    params: LedgerParameters,
) -> float:
    """Acid that falls from the air in a year.

    Answers what sulfur and nitrogen from the air do to a topsoil, wet and dry together. Sea salt
    brings none and is left out.

    Parameters
    ----------
    sulfur_kg_ha
        Sulfur that falls, sea salt taken off, 0 or more [kg S/ha/year].
    nitrogen_kg_ha
        Nitrogen that falls, oxidised and reduced, 0 or more [kg N/ha/year].
    base_mmolc_m2
        Calcium, magnesium and potassium that fall and neutralise, 0 or more [mmolc/m2/year].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].

    Returns
    -------
    float
        Acid, 0 or more [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For a negative amount.

    Notes
    -----
    A = 2 S - B + r u N, by charge: of the nitrogen, nitric acid or ammonium alike, what ends as
    nitrate for which no plant gives base back (u, of a crop) leaves one proton each, and the
    share r of it shows in the topsoil, as with fertiliser; the rest plants take up and make
    nothing of. Acid that bases neutralise before it falls is none.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> round(air_acid_mmolc_m2(sulfur_kg_ha=25.0, nitrogen_kg_ha=20.0, base_mmolc_m2=40.0,
    ...                         params=p))
    152
    """
    for name, amount in (
        ("sulfur_kg_ha", sulfur_kg_ha),
        ("nitrogen_kg_ha", nitrogen_kg_ha),
        ("base_mmolc_m2", base_mmolc_m2),
    ):
        require_amount(name, amount)
    sulfur = SULFUR_ACID_MOLC_KG * G_M2_PER_KG_HA * sulfur_kg_ha
    nitrogen = NITROGEN_MOL_KG * G_M2_PER_KG_HA * nitrogen_kg_ha
    washed = params.realised_field_frac * params.unreturned_crop_frac * nitrogen
    return max(0.0, sulfur - base_mmolc_m2 + washed)
