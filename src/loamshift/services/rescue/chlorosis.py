"""Relief for lime-hating plants where the pH cannot be changed."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Message, message, ph
from loamshift.domain.plant import Plant
from loamshift.tables.materials import load_materials

_TREES: Final = "tree"
_FRUIT: Final = "fruit"


def chlorosis_relief(context: BedContext) -> tuple[Message, ...]:
    """What helps yellowing plants that stand in soil nobody can acidify.

    Answers how to keep them green for a season, and what to plant instead. Every amount of iron
    is left to the label, for products differ tenfold in strength.

    Notes
    -----
    The limits of the chelates are those of the table of materials.

    References
    ----------
    nebraska-tree-chlorosis, common-practice
    """
    steps = [message("rescue-iron-or-not"), *iron_steps(context), message("rescue-iron-feed")]
    if context.water_base_mmolc_m2_year > 0.0:
        steps.append(message("rescue-rainwater"))
    if any(_is_tree(plant) for plant in _standing(context)):
        steps += [message("rescue-arborist"), message("rescue-next-tree")]
    else:
        steps.append(message("rescue-own-place", bed=_instead(context)))
    return tuple(steps)


def iron_steps(context: BedContext) -> tuple[Message, ...]:
    """Iron for the roots and for the leaves.

    References
    ----------
    nebraska-tree-chlorosis, common-practice
    """
    eddha, dtpa, edta = (_works_up_to_ph(kind) for kind in ("eddha", "dtpa", "edta"))
    reads = context.soil.ph.ph_water if context.soil else None
    if reads is not None and reads <= dtpa:
        chelate = message("rescue-chelate-dtpa", dtpa=ph(dtpa))
    else:
        chelate = message("rescue-chelate-eddha", eddha=ph(eddha), dtpa=ph(dtpa), edta=ph(edta))
    return chelate, message("rescue-iron-spray")


def _instead(context: BedContext) -> str:
    """What to plant in the long run: fruit that bears some lime has stocks that bear more."""
    if context.in_pot:
        return "pot"
    hates_lime = context.target is not None and context.target.calcifuge
    fruit = any(_FRUIT in plant.group.casefold() for plant in context.case.aim.plants)
    return "stock" if fruit and not hates_lime else "ground"


def _works_up_to_ph(kind: str) -> float:
    return load_materials()[f"iron chelate, {kind}"].figures["works_up_to_ph"].value


def _standing(context: BedContext) -> tuple[Plant, ...]:
    case = context.case
    return (*case.bed.growing, *case.aim.plants)


def _is_tree(plant: Plant) -> bool:
    return _TREES in plant.group.casefold()
