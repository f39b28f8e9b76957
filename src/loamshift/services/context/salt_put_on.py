"""Soluble salt that was put on lately, and how salty a bed may read for it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, NamedTuple

import numpy as np

from loamshift.core.climate import DAYS_IN_MONTH, DAYS_IN_YEAR
from loamshift.core.salinity import ec_rise_ds_m, saturation_water_kg_kg
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Applied
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.context.overdose import Load, recent_loads
from loamshift.services.context.topsoil import fill_in_topsoil
from loamshift.services.materials.caps import product_cap
from loamshift.tables.model import salinity_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.units import soil_mass_kg_m2

_DISSOLVES: Final = (
    MaterialGroup.ACID_SALT,
    MaterialGroup.NITROGEN,
    MaterialGroup.NEUTRAL_SALT,
)
_HARDLY_DISSOLVES: Final = frozenset({"gypsum"})
"""Salts of which the soil water never holds much, whatever the rate."""
_LEFT: Final = 0.05
"""An application of whose salt less than this share is left is washed out [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltPutOn:
    """Salt of what was put on lately that no test has read yet.

    ``materials`` it came with, the last on ``last_on``; ``ece_ds_m`` the most that the soil may
    read for it, in saturated paste, against ``limit_ds_m`` of its plants [dS/m]. ``load`` the
    gravest of its sums against a printed limit, None where no limit is printed.
    """

    materials: tuple[str, ...]
    last_on: date
    ece_ds_m: float
    limit_ds_m: float
    load: Load | None


def salt_limit_ds_m(context: BedContext) -> float:
    """Salt above which nothing more may go on: lower for plants that dislike lime.

    Returns
    -------
    float
        In the saturated paste [dS/m].
    """
    limits = verdict_values()
    sensitive = context.target is not None and context.target.calcifuge
    return limits["salt_sensitive_ece_ds_m" if sensitive else "salt_stop_ece_ds_m"]


def too_much_salt(context: BedContext) -> SaltPutOn | None:
    """Salt put on lately by which a bed may be too salty for its plants.

    Answers for what dissolves: salts of iron and aluminium, fertilisers, salts of potassium and
    magnesium. One that has a printed limit counts only where its sum of a year passes it.

    Returns
    -------
    SaltPutOn or None
        None where nothing counts, where a test of salt was taken after the last of it, or where
        the soil could not read above the limit of its plants for what is left of it.

    Notes
    -----
    Each application loses salt by exp(-f x drained water / mass of the soil), with the factor of
    sulfate in the column; uptake is left out, so it is the most that can be read.

    References
    ----------
    ussl-1954, own-judgement
    """
    loads = [load for load in recent_loads(context) if load.times > 1.0]
    over = {key for load in loads if load.substance is not None for key in load.materials}
    found = [
        (applied, left)
        for applied, left in _left(context)
        if applied.material.key in over or _has_no_limit(context, applied.material)
    ]
    if not found:
        return None
    last_on = max(applied.on for applied, _ in found)
    if _was_tested(context, last_on):
        return None
    salt_mmolc_m2 = sum(
        applied.material.salt_molc_kg * applied.rate_g_m2 * left for applied, left in found
    )
    ece_ds_m, limit_ds_m = _rise_ds_m(context, salt_mmolc_m2), salt_limit_ds_m(context)
    if ece_ds_m <= limit_ds_m:
        return None
    keys = tuple(dict.fromkeys(applied.material.key for applied, _ in found))
    of_them = [load for load in loads if load.substance is not None and {*load.materials} & {*keys}]
    return SaltPutOn(
        materials=keys,
        last_on=last_on,
        ece_ds_m=ece_ds_m,
        limit_ds_m=limit_ds_m,
        load=max(of_them, key=lambda load: load.times, default=None),
    )


def salt_test_day(context: BedContext) -> date:
    """When salt and pH are worth testing after a bed was watered through today."""
    days = parameter_values("advice")["salt_retest_days"]
    return context.case.today + timedelta(days=days)


def dissolves(material: Material) -> bool:
    """Whether a product goes into the soil water whole, so that nothing is left to take up."""
    return material.group in _DISSOLVES and material.key not in _HARDLY_DISSOLVES


def _left(context: BedContext) -> Iterator[tuple[Applied, float]]:
    """What dissolves of all that was put on, with the share of its salt that is left [0-1]."""
    factor = parameter_values("column")["sulfate_leach_factor"]
    for applied in context.case.applied:
        if applied.on > context.case.today or not dissolves(applied.material):
            continue
        drained_mm = _drained_mm(context, applied.on)
        left = math.exp(-factor * drained_mm / _topsoil(context).mass_kg_m2)
        if left >= _LEFT and applied.material.salt_molc_kg > 0.0:
            yield applied, left


def _drained_mm(context: BedContext, since: date) -> float:
    """Water that has drained from a bed up to today in years like the average one [mm]."""
    days = (context.case.today - since).days
    months = np.repeat(np.divide(context.drainage_mm, DAYS_IN_MONTH), DAYS_IN_MONTH)
    first = min(since.timetuple().tm_yday, DAYS_IN_YEAR) - 1
    return float(np.take(months, np.arange(first, first + days), mode="wrap").sum())


def _has_no_limit(context: BedContext, material: Material) -> bool:
    return product_cap(material, cap_situation=context.cap_situation) is None


def _was_tested(context: BedContext, last_on: date) -> bool:
    """True where salt was read after the last of it went on; an undated test is one of today."""
    soil = context.case.soil
    if soil.ec_ds_m is None:
        return False
    return soil.sampled is None or soil.sampled > last_on


class _Treated(NamedTuple):
    """The soil that is treated: mass [kg/m2], density [g/cm3], water in the paste [kg/kg]."""

    mass_kg_m2: float
    bulk_density_g_cm3: float
    paste_kg_kg: float


def _topsoil(context: BedContext) -> _Treated:
    """The soil that is treated: as believed, or by its texture where no pH was read."""
    known = context.soil if context.soil is not None else fill_in_topsoil(context.case.soil)
    density = known.bulk_density_g_cm3
    return _Treated(
        soil_mass_kg_m2(depth_cm=context.depth_cm, bulk_density_g_cm3=density),
        density,
        saturation_water_kg_kg(
            field_capacity_frac=known.field_capacity_frac,
            bulk_density_g_cm3=density,
            params=salinity_parameters(),
        ),
    )


def _rise_ds_m(context: BedContext, salt_mmolc_m2: float) -> float:
    treated = _topsoil(context)
    return ec_rise_ds_m(
        salt_mmolc_m2=salt_mmolc_m2,
        depth_cm=context.depth_cm,
        bulk_density_g_cm3=treated.bulk_density_g_cm3,
        saturation_water_kg_kg=treated.paste_kg_kg,
        params=salinity_parameters(),
    )
