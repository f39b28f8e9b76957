"""Relief for lime-hating plants where the pH cannot be changed."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.plant import Plant
from loamshift.tables.materials import load_materials

_TREES: Final = "tree"


def chlorosis_relief(context: BedContext) -> tuple[str, ...]:
    """What helps yellowing plants that stand in soil nobody can acidify.

    Answers how to keep them green for a season, and what to plant instead. Every amount of iron
    is left to the label, for products differ tenfold in strength.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    tuple of str
        Steps in order [text].

    Notes
    -----
    The limits of the chelates are those of the table of materials.

    References
    ----------
    nebraska-tree-chlorosis, common-practice
    """
    eddha, dtpa, edta = (_works_up_to(kind) for kind in ("eddha", "dtpa", "edta"))
    ph = context.soil.ph.ph_water if context.soil else None
    steps = [
        "Make sure that it is iron: the youngest leaves turn yellow between green veins. Where the "
        "oldest leaves go first, it is nitrogen or magnesium and iron will not help.",
        "Water in an iron chelate of the EDDHA kind at the rate on its label, in spring as growth "
        f"starts; it holds its iron up to about pH {eddha:g}, where DTPA lets go above {dtpa:g} "
        f"and EDTA above {edta:g}.",
        "For a quick greening spray the leaves with an iron chelate or iron sulfate sold for "
        "leaves, at the rate on the label and on a dull day; it greens only the leaves it "
        "touches, so it is repeated as new ones come.",
        "Feed with ammonium instead of nitrate, within the nitrogen the plants need, and never let "
        "the ground stand wet: both hold iron back.",
    ]
    if ph is not None and ph <= dtpa:
        steps[1] = (
            "Water in an iron chelate at the rate on its label, in spring as growth starts; at "
            f"this pH the DTPA kind still holds its iron (to about pH {dtpa:g}), and the EDDHA "
            "kind beyond that."
        )
    if context.water_base_mmolc_m2_year > 0.0:
        steps.append("Water with rain water where you can: the lime in the mains water adds to it.")
    if any(_is_tree(plant) for plant in _standing(context)):
        steps.append(
            "A tree is a matter for an arborist: iron put into the trunk or the root zone by one "
            "who knows the tree takes 12 to 24 months to show and has to be repeated."
        )
        steps.append("When it has to be replaced, plant a tree that likes this soil.")
    else:
        steps.append(
            "In the long run grow it in a raised bed or a pot of lime-free mix, watered with rain "
            "water, or plant something that likes this soil."
        )
    return tuple(steps)


def _works_up_to(kind: str) -> float:
    return load_materials()[f"iron chelate, {kind}"].figures["works_up_to_ph"].value


def _standing(context: BedContext) -> tuple[Plant, ...]:
    case = context.case
    return (*case.bed.growing, *case.aim.plants)


def _is_tree(plant: Plant) -> bool:
    return _TREES in plant.group.casefold()
