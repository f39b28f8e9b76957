"""Plants that like the soil as it is."""

from __future__ import annotations

from loamshift.domain.case import Case
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.tables.model import verdict_values
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
        fits = plant.ph_low <= ph <= plant.ph_high
        return kindred and single and fits and grows_at(plant, case.place)

    fitting = [plant for plant in load_plants().values() if suits(plant)]
    fitting.sort(key=lambda plant: (-plant.n_sources, plant.name))
    return tuple(plant.name for plant in fitting[:3])


def grows_at(plant: Plant, place: Place | None) -> bool:
    """Whether nothing is known against a plant at a place.

    Parameters
    ----------
    place
        None where nobody named one; then nothing that needs warmth is offered.

    Notes
    -----
    Common practice, no source: what frost kills, what wants a hot summer, and what is not planted
    for a disease, a law, or because it spreads. It says nothing of other needs.
    """
    if not plant.offered:
        return True
    if place is None or plant.offered == "never":
        return False
    values = verdict_values()
    if plant.offered == "no frost":
        return min(place.air_temp_c) >= values["frost_free_month_c"]
    return max(place.air_temp_c) >= values["warm_month_c"]
