"""What rules treatment out, whatever the pH wanted."""

from __future__ import annotations

from typing import Final

from loamshift.core.salinity import ece_from_ec, saturation_water_kg_kg
from loamshift.domain.answer import Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Drainage
from loamshift.services.context.overdose import Load, recent_loads
from loamshift.services.context.salt_put_on import salt_limit_ds_m, too_much_salt
from loamshift.services.materials.caps import is_overdose
from loamshift.tables.model import salinity_parameters, verdict_values

PASTE: Final = "paste"
"""The extract that the limits are of."""
NO_FACTOR: Final = "1:2"
"""An extract for which no sourced factor to saturated paste is known."""


def stop_reason(context: BedContext, *, acidify: bool) -> Reason | None:
    """Why nothing may go on here by the facts given, the simulated course apart.

    Parameters
    ----------
    context
        The bed as understood, with or without a pH.
    acidify
        True where the aim would call for acid.

    References
    ----------
    ussl-1954, own-judgement
    """
    limits = verdict_values()
    if overdosed(context) is not None:
        return Reason.OVERDOSE
    soil = context.soil
    careful = soil is not None and not context.organic_only and not soil.ph.method.is_rough
    if careful and soil is not None and soil.ph.ph_water < limits["harmful_ph"]:
        return Reason.TOO_ACID
    sodium = context.case.soil.sodium_pct
    if sodium is not None and sodium > limits["sodic_pct"]:
        return Reason.SODIC
    ece = saturated_ec(context)
    if ece is not None and ece > salt_limit_ds_m(context):
        return Reason.SALT
    if too_much_salt(context) is not None:
        return Reason.SALT
    if acidify and context.case.bed.drainage is Drainage.WATERLOGGED:
        return Reason.WATERLOGGED
    return None


def overdosed(context: BedContext) -> Load | None:
    """The gravest sum of what was put on to move the pH, where it is an overdose."""
    loads = [load for load in recent_loads(context) if load.direction is not Direction.NONE]
    worst = max(loads, key=lambda load: load.times, default=None)
    return worst if worst is not None and is_overdose(worst.times) else None


def saturated_ec(context: BedContext) -> float | None:
    """Salt of the soil as saturated paste would read.

    Returns
    -------
    float or None
        None where it was not tested, or by an extract that has no sourced factor [dS/m].
    """
    entry = context.case.soil
    if entry.ec_ds_m is None or entry.ec_method in (None, NO_FACTOR) or context.soil is None:
        return None
    water = saturation_water_kg_kg(
        field_capacity_frac=context.soil.field_capacity_frac,
        bulk_density_g_cm3=context.soil.bulk_density_g_cm3,
        params=salinity_parameters(),
    )
    return ece_from_ec(
        entry.ec_ds_m,
        method=str(entry.ec_method),
        saturation_water_kg_kg=water,
        params=salinity_parameters(),
    )[1]
