"""Whether the soil of a bed is an organic one, of which figures for mineral soil say little."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import Medium

_LEAST_CARBON_PCT: Final = 12.0
"""Organic carbon from which a soil without clay is organic [%]."""
_MORE_PER_CLAY: Final = 0.1
_MOST_CLAY_PCT: Final = 60.0
"""Each per cent of clay up to here asks for so much more [%/%]."""


def is_organic_soil(context: BedContext) -> bool:
    """True for peaty ground: organic carbon was measured and lies where soil is called organic.

    Notes
    -----
    From 12 % organic carbon where the mineral part has no clay to 18 % where it has 60 % clay, as
    printed; a straight line between. A potting mix has figures of its own and is none.

    References
    ----------
    soilcare-glossary
    """
    entry, soil = context.case.soil, context.soil
    measured = entry.organic_carbon_pct is not None or entry.organic_matter_pct is not None
    if soil is None or entry.medium is not Medium.MINERAL or not measured:
        return False
    least = _LEAST_CARBON_PCT + _MORE_PER_CLAY * min(soil.clay_pct, _MOST_CLAY_PCT)
    return soil.organic_carbon_pct >= least
