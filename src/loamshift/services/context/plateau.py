"""The pH at which lime in excess holds a soil."""

from __future__ import annotations

from typing import Final

from loamshift.core.carbonate import plateau_ph
from loamshift.tables.model import carbonate_parameters

LABORATORY_C: Final = 20.0


def lime_left_over_ph() -> float:
    """PH a laboratory reads where lime lies free: more lime raises it no further.

    Returns
    -------
    float
        PH of water in balance with calcite on the bench, near 8.3 [pH in water].

    References
    ----------
    plummer-busenberg-1982
    """
    carbonate = carbonate_parameters()
    return plateau_ph(
        p_co2_atm=carbonate.p_co2_suspension_atm, temp_c=LABORATORY_C, params=carbonate
    )
