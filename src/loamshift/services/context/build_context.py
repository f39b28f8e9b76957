"""A case turned into numbers: soil, aim, water, climate and what earlier material still does."""

from __future__ import annotations

from functools import lru_cache
from typing import TypedDict, Unpack

from loamshift.core.buffer import BufferParameters, buffer_mmolc_kg_ph
from loamshift.core.loops import PLAIN, Loops
from loamshift.domain.bed_context import BedContext, Pending
from loamshift.domain.case import BedKind, Case
from loamshift.domain.soil import Soil
from loamshift.services.context.lime_of_place import with_limes_graded
from loamshift.services.context.readings import current_season
from loamshift.services.context.soil import believe_soil
from loamshift.services.context.soil_thermometer import soil_course_c, thermometer_of
from loamshift.services.context.target import target_of
from loamshift.services.context.water import is_bare, water_year_of
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_within_days
from loamshift.tables.lime_share import (
    against_usual,
)
from loamshift.tables.model import buffer_parameters, verdict_values
from loamshift.units import (
    alkalinity_mmolc_l_from_mg_l_as_caco3,
    soil_mass_kg_m2,
)

WEEKS_PER_MONTH = 365.25 / 7.0 / 12.0
DEFAULT_DRAINAGE_MM = 200.0


class Curve(TypedDict):
    """What every call of the buffer curve needs besides the pH."""

    clay_pct: float
    organic_carbon_pct: float
    params: BufferParameters
    organic_only: bool


def build_context(case: Case, *, loops: Loops = PLAIN) -> BedContext:
    """Every number the decisions need, with what had to be assumed.

    Parameters
    ----------
    loops
        How the long sums are worked out: without a compiler, or by machine code for many beds.
    """
    case = with_limes_graded(case)
    limits = verdict_values()
    bed = case.bed
    assumed: list[str] = []
    depth = bed.depth_cm
    if depth is None:
        assumed.append("bed.depth")
        depth = {
            BedKind.LAWN: limits["depth_lawn_cm"],
            BedKind.CONTAINER: limits["depth_container_cm"],
        }.get(bed.kind, limits["depth_bed_cm"])
    soil = believe_soil(case, depth_cm=depth)
    if soil is not None:
        assumed.extend(soil.assumed)
    planted = bed.planted
    if planted is None:
        planted = bed.kind in (BedKind.LAWN, BedKind.CONTAINER) or bool(bed.growing)
        if bed.kind not in (BedKind.LAWN, BedKind.CONTAINER) and not bed.growing:
            assumed.append("bed.planted")
    situation_name = _cap_situation(bed.kind, planted)
    weekly_mm, water_known = _weekly_mm(case)
    irrigation = weekly_mm * WEEKS_PER_MONTH * len(case.water.months)
    alkalinity = case.water.alkalinity_mg_l_as_caco3
    if alkalinity is None:
        alkalinity = limits["assumed_alkalinity_mid"] if irrigation > 0.0 else 0.0
        water_known = water_known and irrigation == 0.0
    thermometer = thermometer_of(case)
    soil_temp = soil_course_c(case, depth_cm=depth, thermometer=thermometer)
    available = _available_water_mm(soil, depth_cm=depth)
    mass = (
        soil_mass_kg_m2(depth_cm=depth, bulk_density_g_cm3=soil.bulk_density_g_cm3)
        if soil is not None
        else 0.0
    )
    area, total = _areas(case)
    land_use = _land_use(case)
    drained_year, drained = _drainage(
        case, soil, weekly_mm=weekly_mm, available_mm=available, loops=loops
    )
    return BedContext(
        case=case,
        soil=soil,
        target=target_of(case),
        place=case.place,
        depth_cm=depth,
        soil_mass_kg_m2=mass,
        area_m2=area,
        total_area_m2=total,
        planted=planted,
        cap_situation=situation_name,
        land_use=land_use,
        is_bare=is_bare(case),
        soil_temp_c=soil_temp,
        thermometer=thermometer,
        water_base_mmolc_m2_year=irrigation * alkalinity_mmolc_l_from_mg_l_as_caco3(alkalinity),
        water_known=water_known,
        irrigation_mm_year=irrigation,
        drainage_mm_year=drained_year,
        drainage_mm=drained,
        available_water_mm=available,
        pending=_pending(
            case,
            soil,
            soil_temp_c=soil_temp,
            in_pot=bed.kind is BedKind.CONTAINER,
            land_use="bare" if is_bare(case) else land_use,
        ),
        assumed=tuple(assumed),
        loops=loops,
    )


def curve_of(context: BedContext) -> Curve:
    """The curve's own figures of this soil, for calls into ``core.buffer``."""
    soil = require_soil(context)
    return Curve(
        clay_pct=soil.clay_pct,
        organic_carbon_pct=soil.organic_carbon_pct,
        params=buffer_parameters(),
        organic_only=context.organic_only,
    )


def curve_slope_mmolc_kg_ph(context: BedContext, ph_water: float) -> float:
    """The slope of the curve's own figures at a pH, at k = 1.

    Parameters
    ----------
    ph_water
        Where on the curve [pH in water].

    Returns
    -------
    float
        Acid that moves it by one pH unit there [mmolc/kg/pH].
    """
    return _kept_slope(ph_water, **curve_of(context))


@lru_cache(maxsize=256)
def _kept_slope(ph_water: float, **soil: Unpack[Curve]) -> float:
    """The same, worked out once: pull, drift and what is coming ask for it again."""
    return float(buffer_mmolc_kg_ph(ph_water, **soil))


def require_soil(context: BedContext) -> Soil:
    """The soil of a bed that is known to have one.

    Raises
    ------
    ValueError
        Where no pH was read: a fault of the caller, who must ask first.
    """
    if context.soil is None:
        raise ValueError("this needs a soil pH; ask for it before coming here")
    return context.soil


def _land_use(case: Case) -> str:
    """Whose yearly load a bed has, by what is known of it: kind, plants and feed."""
    kind = case.bed.kind
    if kind is BedKind.LAWN:
        return "lawn"
    if kind in (BedKind.FIELD, BedKind.CONTAINER):
        return "unknown"
    if is_bare(case):
        return "unfed"
    return "garden" if case.feed is None else "low crop"


def _cap_situation(kind: BedKind, planted: bool) -> str:
    if kind is BedKind.CONTAINER:
        return "container"
    if kind is BedKind.LAWN:
        return "lawn"
    if kind is BedKind.FIELD and planted:
        return "field"
    return "planted" if planted else "unplanted"


def _areas(case: Case) -> tuple[float | None, float | None]:
    bed = case.bed
    area = bed.area_m2
    if area is None and bed.treated_diameter_cm is not None:
        ring = 3.141592653589793 * (bed.treated_diameter_cm / 200.0) ** 2
        area = ring * (bed.plants or 1)
    return area, None if area is None else area * bed.count


def _weekly_mm(case: Case) -> tuple[float, bool]:
    """Weekly watering [mm] and whether it is known: no water told means none in the ground."""
    weekly = case.water.weekly_mm
    if weekly is not None:
        return weekly, True
    if case.water.alkalinity_mg_l_as_caco3 is not None or case.bed.kind is BedKind.CONTAINER:
        return verdict_values()["assumed_weekly_mm"], False
    return 0.0, True


def _available_water_mm(soil: Soil | None, *, depth_cm: float) -> float:
    if soil is None:
        return 50.0
    root_depth_mm = 10.0 * max(depth_cm, 30.0)
    return max((soil.field_capacity_frac - soil.wilting_frac) * root_depth_mm, 5.0)


def _drainage(
    case: Case, soil: Soil | None, *, weekly_mm: float, available_mm: float, loops: Loops
) -> tuple[float, tuple[float, ...]]:
    """Water that drains in a year [mm/yr] and in each month, January first [mm/month]."""
    place = case.place
    if place is None:
        return DEFAULT_DRAINAGE_MM, (DEFAULT_DRAINAGE_MM / 12.0,) * 12
    monthly = [
        weekly_mm * WEEKS_PER_MONTH if month in case.water.months else 0.0 for month in range(1, 13)
    ]
    year = water_year_of(
        place,
        soil,
        available_water_mm=available_mm,
        watering_mm=tuple(monthly),
        bare=is_bare(case),
        bucket=loops.bucket,
    )
    return float(year.drainage_mm.sum()), tuple(year.drainage_mm.tolist())


def _pending(
    case: Case,
    soil: Soil | None,
    *,
    soil_temp_c: tuple[float, ...],
    in_pot: bool,
    land_use: str,
) -> tuple[Pending, ...]:
    """What each earlier application brings after the day the soil was sampled."""
    if soil is None:
        return ()
    season = current_season(case)
    sampled = season.day if season is not None else case.today
    items = []
    for applied in case.applied:
        counts = against_usual(applied.material)
        total = counts * acid_brought_mmolc_m2(
            applied.material, rate_g_m2=applied.rate_g_m2, in_pot=in_pot, land_use=land_use
        )
        since = (sampled - applied.on).days
        done = 0.0
        if since > 0:
            done = counts * acid_within_days(
                applied.material,
                rate_g_m2=applied.rate_g_m2,
                soil_temp_c=soil_temp_c,
                start=applied.on,
                days=since,
                ph_water=soil.ph.ph_water,
                in_pot=in_pot,
                incorporated=applied.incorporated_cm > 0.0,
                land_use=land_use,
            )
        items.append(
            Pending(
                material=applied.material.key,
                rate_g_m2=applied.rate_g_m2,
                acid_mmolc_m2=total - done,
                total_mmolc_m2=total,
                since_days=since,
                as_given=applied.as_given,
            )
        )
    return tuple(items)
