"""Whether a soil is short of magnesium, which decides the kind of lime."""

from __future__ import annotations

from typing import Final

from loamshift.domain.case import SoilEntry
from loamshift.tables.parameters import parameter_values

MAGNESIAN: Final = "ground limestone, dolomitic"


def is_short_of_magnesium(entry: SoilEntry) -> bool:
    """Whether a soil is short of magnesium by either figure of a laboratory.

    Returns
    -------
    bool
        False too where nobody measured it.

    Notes
    -----
    Short below 10 % of the exchange sites, or below 60 mg/kg: 200 lb of MgO in an acre, of 2
    million lb, is 60 parts per million of magnesium.

    References
    ----------
    psu-forage-magnesium, common-practice
    """
    values = parameter_values("advice")
    held, found = entry.mg_saturation_pct, entry.mg_mg_kg
    return (held is not None and held < values["low_magnesium_pct"]) or (
        found is not None and found < values["low_magnesium_mg_kg"]
    )
