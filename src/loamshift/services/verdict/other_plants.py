"""Plants that like the soil as it is."""

from __future__ import annotations

from loamshift.domain.case import Case
from loamshift.domain.plant import Plant
from loamshift.tables.plants import load_plants


def plants_that_suit(ph: float, case: Case) -> tuple[str, ...]:
    """A few well-sourced plants of the same kind that like the soil as it is.

    Parameters
    ----------
    ph
        pH the soil has [pH in water].

    Returns
    -------
    tuple of str
        Up to three names, the best sourced first.
    """
    wanted = {plant.group.split()[0] for plant in case.aim.plants}
    avoid = {plant.key for plant in case.aim.plants}

    def suits(plant: Plant) -> bool:
        kindred = plant.group.split()[0] in wanted and plant.key not in avoid
        single = not plant.is_group and not plant.is_weak
        return kindred and single and plant.ph_low <= ph <= plant.ph_high

    fitting = [plant for plant in load_plants().values() if suits(plant)]
    fitting.sort(key=lambda plant: (-plant.n_sources, plant.name))
    return tuple(plant.name for plant in fitting[:3])
