"""A case turned into numbers: soil, aim, water, climate and what earlier material still does."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TypedDict

from loamshift.core.buffer import BufferParameters, acid_between_mmolc_kg, ph_after_acid
from loamshift.core.climate import soil_temperature_c
from loamshift.core.need import Need, carbonate_nodes, weighted_quantile
from loamshift.core.water_balance import drainage_mm_year
from loamshift.domain.bed_context import BedContext, Pending, Target
from loamshift.domain.case import BedKind, Case
from loamshift.domain.ph import PhReading
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.domain.soil import Soil
from loamshift.services.context.readings import current_season, ph_belief
from loamshift.services.context.soil import believe_soil, ph_nodes
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_within_days
from loamshift.tables.model import buffer_parameters, climate_parameters, verdict_values
from loamshift.units import (
    CARBONATE_MMOLC_KG_PER_PCT,
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


def build_context(case: Case) -> BedContext:
    """Every number the decisions need, with what had to be assumed.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    BedContext
        The bed as the decisions see it [object].
    """
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
    soil_temp = _soil_temp(case, depth_cm=depth)
    available = _available_water_mm(soil, depth_cm=depth)
    mass = (
        soil_mass_kg_m2(depth_cm=depth, bulk_density_g_cm3=soil.bulk_density_g_cm3)
        if soil is not None
        else 0.0
    )
    area, total = _areas(case)
    return BedContext(
        case=case,
        soil=soil,
        target=_target(case),
        place=case.place,
        depth_cm=depth,
        soil_mass_kg_m2=mass,
        area_m2=area,
        total_area_m2=total,
        planted=planted,
        cap_situation=situation_name,
        land_use="lawn" if bed.kind is BedKind.LAWN else "unknown",
        soil_temp_c=soil_temp,
        water_base_mmolc_m2_year=irrigation * alkalinity_mmolc_l_from_mg_l_as_caco3(alkalinity),
        water_known=water_known,
        irrigation_mm_year=irrigation,
        drainage_mm_year=_drainage(case.place, case, weekly_mm=weekly_mm, available_mm=available),
        available_water_mm=available,
        pending=_pending(case, soil, soil_temp_c=soil_temp, in_pot=bed.kind is BedKind.CONTAINER),
        assumed=tuple(assumed),
    )


def curve_of(context: BedContext) -> Curve:
    """The curve's own figures of this soil, for calls into ``core.buffer``.

    Parameters
    ----------
    context
        A bed with a soil [object].

    Returns
    -------
    Curve
        Keyword arguments [mapping].
    """
    soil = require_soil(context)
    return Curve(
        clay_pct=soil.clay_pct,
        organic_carbon_pct=soil.organic_carbon_pct,
        params=buffer_parameters(),
        organic_only=context.organic_only,
    )


def require_soil(context: BedContext) -> Soil:
    """The soil of a bed that is known to have one.

    Parameters
    ----------
    context
        A bed with a soil [object].

    Returns
    -------
    Soil
        The soil [object].

    Raises
    ------
    ValueError
        Where no pH was read: a fault of the caller, who must ask first.
    """
    if context.soil is None:
        raise ValueError("this needs a soil pH; ask for it before coming here")
    return context.soil


def need_mmolc_kg(context: BedContext, ph_to: float) -> Need:
    """Acid (or base, where the aim lies above) to bring this soil to a pH, as a distribution.

    Free carbonate counts against acid only: going up, it is no hindrance.

    Parameters
    ----------
    context
        A bed with a soil [object].
    ph_to
        pH aimed at [pH in water].

    Returns
    -------
    Need
        Distribution of the need in the direction of the aim [mmolc/kg].
    """
    soil = require_soil(context)
    acidify = ph_to < soil.ph.ph_water
    nodes, weights = ph_nodes(soil.ph)
    step = acid_between_mmolc_kg(nodes, ph_to, **curve_of(context))
    curve = step if acidify else -step
    belief = soil.carbonate
    return Need(
        curve_mmolc_kg=curve.clip(min=0.0),
        curve_weight=weights,
        zero_weight=belief.zero_weight if acidify else 1.0,
        carbonate_low_mmolc_kg=belief.low_pct * CARBONATE_MMOLC_KG_PER_PCT,
        carbonate_high_mmolc_kg=belief.high_pct * CARBONATE_MMOLC_KG_PER_PCT,
        log10_k_mean=soil.k.log10_k_mean,
        log10_k_sd=soil.k.log10_k_sd,
        carbonate_log_sd=belief.log_sd,
    )


def carbonate_median_mmolc_kg(context: BedContext) -> float:
    """Middle of what is believed of the free carbonate.

    Parameters
    ----------
    context
        A bed with a soil [object].

    Returns
    -------
    float
        Acid it takes up [mmolc/kg].
    """
    belief = require_soil(context).carbonate
    values, weights = carbonate_nodes(
        zero_weight=belief.zero_weight,
        low_pct=belief.low_pct,
        high_pct=belief.high_pct,
        mmolc_kg_per_pct=CARBONATE_MMOLC_KG_PER_PCT,
        log_sd=belief.log_sd,
    )
    return weighted_quantile(values.tolist(), weights.tolist(), 0.5)


def ph_after_acid_m2(
    context: BedContext,
    acid_mmolc_m2: float,
    *,
    ph_from: float | None = None,
    log10_k: float | None = None,
) -> float:
    """pH this soil would settle at after so much acid, at the middle of what is believed.

    Parameters
    ----------
    context
        A bed with a soil [object].
    acid_mmolc_m2
        Acid; base is negative [mmolc/m2].
    ph_from
        pH to start from; None for the reading [pH in water].
    log10_k
        Scale of the curve; None for its middle [log10].

    Returns
    -------
    float
        pH after it has all reacted [pH in water].
    """
    soil = require_soil(context)
    scale = soil.k.log10_k_mean if log10_k is None else log10_k
    start = soil.ph.ph_water if ph_from is None else ph_from
    after = ph_after_acid(
        start,
        acid_mmolc_m2 / context.soil_mass_kg_m2,
        carbonate_mmolc_kg=carbonate_median_mmolc_kg(context) if acid_mmolc_m2 > 0.0 else 0.0,
        k=10.0**scale,
        **curve_of(context),
    )
    return float(after)


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


def _soil_temp(case: Case, *, depth_cm: float) -> tuple[float, ...]:
    if case.place is None:
        return ()
    course = soil_temperature_c(
        case.place.air_temp_c,
        depth_cm=0.5 * depth_cm,
        params=climate_parameters(),
        container=case.bed.kind is BedKind.CONTAINER,
    )
    shift = 0.0
    if case.soil_temps:
        own = [temp - course[_day(day) - 1] for day, temp, _ in case.soil_temps]
        shift = sum(own) / len(own)
    return tuple(float(value + shift) for value in course)


def _day(day: date) -> int:
    return min(day.timetuple().tm_yday, 365)


def _available_water_mm(soil: Soil | None, *, depth_cm: float) -> float:
    if soil is None:
        return 50.0
    root_depth_mm = 10.0 * max(depth_cm, 30.0)
    return max((soil.field_capacity_frac - soil.wilting_frac) * root_depth_mm, 5.0)


def _drainage(place: Place | None, case: Case, *, weekly_mm: float, available_mm: float) -> float:
    if place is None:
        return DEFAULT_DRAINAGE_MM
    monthly = [
        weekly_mm * WEEKS_PER_MONTH if month in case.water.months else 0.0 for month in range(1, 13)
    ]
    return drainage_mm_year(
        air_temp_c=place.air_temp_c,
        rain_mm=place.rain_mm,
        latitude=place.latitude,
        available_water_mm=available_mm,
        params=climate_parameters(),
        irrigation_mm=monthly,
    )


def _target(case: Case) -> Target | None:
    limits = verdict_values()
    plants = case.aim.plants
    aim = case.aim.target_ph
    if aim is not None and case.aim.target_method is not None:
        aim = ph_belief(PhReading(ph=aim, method=case.aim.target_method)).ph_water
    if not plants and aim is None:
        return None
    half = limits["target_half_width_ph"]
    if not plants:
        assert aim is not None
        return Target(
            ph_low=aim - half,
            ph_high=aim + half,
            ph_aim=aim,
            names=(),
            weak=False,
            calcifuge=aim < 5.6,
            tolerated_low=None,
            tolerated_high=None,
            basis="the target pH given",
        )
    low = max(plant.ph_low for plant in plants)
    high = min(plant.ph_high for plant in plants)
    if low > high:
        low, high = min(high, low), max(high, low)
    middle = 0.5 * (low + high)
    own_range = aim is not None and not low <= aim <= high
    if aim is not None and own_range:
        low, high = aim - half, aim + half
    return Target(
        ph_low=low,
        ph_high=high,
        ph_aim=middle if aim is None else aim,
        names=() if own_range else tuple(plant.name for plant in plants),
        weak=aim is None and all(plant.is_weak for plant in plants),
        calcifuge=any(plant.calcifuge for plant in plants),
        tolerated_low=_highest(plant.tolerated_low for plant in plants),
        tolerated_high=_lowest(plant.tolerated_high for plant in plants),
        basis="the target pH given, outside the printed range"
        if own_range
        else _range_basis(plants),
        source_keys=tuple(
            dict.fromkeys(source.source_key for plant in plants for source in plant.sources)
        ),
    )


def _range_basis(plants: tuple[Plant, ...]) -> str:
    if len(plants) == 1:
        count = plants[0].n_sources
        return f"{count} independent source{'s' if count != 1 else ''}"
    return "the range all of them share"


def plants_share_a_range(case: Case) -> bool:
    """True where the ranges of all wanted plants overlap.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    bool
        False where no pH suits them all [truth].
    """
    plants = case.aim.plants
    if not plants:
        return True
    return max(plant.ph_low for plant in plants) <= min(plant.ph_high for plant in plants)


def _highest(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return max(known) if known else None


def _lowest(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _pending(
    case: Case, soil: Soil | None, *, soil_temp_c: tuple[float, ...], in_pot: bool
) -> tuple[Pending, ...]:
    """What each earlier application brings after the day the soil was sampled."""
    if soil is None:
        return ()
    season = current_season(case)
    sampled = season.day if season is not None else case.today
    items = []
    for applied in case.applied:
        total = acid_brought_mmolc_m2(applied.material, rate_g_m2=applied.rate_g_m2, in_pot=in_pot)
        since = (sampled - applied.on).days
        done = 0.0
        if since > 0:
            done = acid_within_days(
                applied.material,
                rate_g_m2=applied.rate_g_m2,
                soil_temp_c=soil_temp_c,
                start=applied.on,
                days=since,
                ph_water=soil.ph.ph_water,
                in_pot=in_pot,
                incorporated=applied.incorporated_cm > 0.0,
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
