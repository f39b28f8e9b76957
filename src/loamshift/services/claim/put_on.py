"""How a claimed material goes on the bed, and where it stops by itself."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.materials.acid_parts import acting_parts

_SOLUBLE: Final = (
    MaterialGroup.ACID_SALT,
    MaterialGroup.ACID,
    MaterialGroup.NITROGEN,
    MaterialGroup.NEUTRAL_SALT,
    MaterialGroup.IRON,
)
"""What watering carries down into a pot; all else lies where it was put."""


def worked_in_cm(context: BedContext, material: Material) -> float:
    """How deep a claimed material goes on the day it is put on.

    Returns
    -------
    float
        Depth; 0 for what lies on the surface [cm].
    """
    if context.planted and not (context.in_pot and material.group in _SOLUBLE):
        return 0.0
    return context.depth_cm


def own_ph(material: Material) -> float | None:
    """The pH below which a material takes no soil: that of a peat.

    Returns
    -------
    float or None
        Its own pH; None for what has no such limit [pH in water].
    """
    figure = material.figures.get("ph_water")
    is_peat = material.group is MaterialGroup.ORGANIC and material.fast_acid_molc_kg > 0.0
    return figure.value if figure is not None and is_peat else None


def is_burnt_off(material: Material) -> bool:
    """Whether all that acts in a material is an acid that soil life burns off again.

    Returns
    -------
    bool
        True for vinegar and its like, bark and sawdust.
    """
    parts = acting_parts(material)
    lasting = parts.sulfur or parts.fast or parts.lime or parts.ash or parts.has_nitrogen
    return material.organic_acid_molc_kg > 0.0 and not lasting
