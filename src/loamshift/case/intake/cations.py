"""Exchangeable cations added up, whatever units they are printed in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from loamshift.case.intake.columns import Values
from loamshift.case.intake.understood import Understood

MG_KG_PER_CMOLC_KG: Final = {"ca": 200.39, "mg": 121.525, "k": 390.983, "na": 229.898}
"""Atomic mass over charge, times ten: IUPAC standard atomic weights 2021, abridged."""
_ELEMENT: Final = {"cao": ("ca", 0.7147), "mgo": ("mg", 0.6030), "k2o": ("k", 0.8302),
                   "na2o": ("na", 0.7419)}  # fmt: skip
"""Element in its oxide by the same weights."""
_CMOLC: Final = {"cmolc/kg": 1.0, "mmolc/kg": 0.1}
_MG: Final = {"mg/kg": 1.0, "mg/100 g": 10.0, "g/kg": 1000.0}


def cation_sum(columns: Sequence[Understood]) -> Values | None:
    """Calcium, magnesium and what there is of potassium and sodium [cmolc/kg].

    Returns
    -------
    array or None
        None where calcium or magnesium is missing or in a unit that needs a density or a depth.
    """
    found: dict[str, Values] = {}
    for one in columns:
        element, share = _ELEMENT.get(one.key, (one.key, 1.0))
        if element not in MG_KG_PER_CMOLC_KG or element in found:
            continue
        unit = one.column.heading.unit
        if unit in _CMOLC and share == 1.0:
            found[element] = one.read.values * _CMOLC[unit]
        elif unit in _MG:
            found[element] = one.read.values * share * _MG[unit] / MG_KG_PER_CMOLC_KG[element]
    if not {"ca", "mg"} <= found.keys():
        return None
    more = sum((np.nan_to_num(found[key]) for key in ("k", "na") if key in found), np.float64(0.0))
    return np.asarray(found["ca"] + found["mg"] + more, dtype=np.float64)
