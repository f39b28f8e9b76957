"""A field map: what is believed of every spot, its zones with their rates, and what others cost."""

from __future__ import annotations

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from loamshift.core.field_zones import count_patches
from loamshift.domain.case import Case
from loamshift.domain.decision import Direction
from loamshift.domain.field import FieldInput, FieldMap, FieldZone
from loamshift.domain.message import Message, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import dose_to
from loamshift.services.context.target import target_of
from loamshift.services.field.cells import Cells, cells_of, spread_out
from loamshift.services.field.compare import compared
from loamshift.services.field.estimate import Estimate, estimate, ph_in_water
from loamshift.services.field.judge import Ground, Judged, judge_ground, wanted_on
from loamshift.services.field.more import further_samples
from loamshift.services.field.price import price_of
from loamshift.tables.ph_methods import default_ph_conversion

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


def field_map(
    field: FieldInput,
    base: Case,
    *,
    seed: int = 1,
    sample_price: float | None = None,
    loss_per_ha_year: float | None = None,
) -> FieldMap:
    """A field judged zone by zone.

    Parameters
    ----------
    base
        What was said of the field as a whole: plants, place, depth, products and prices.
    seed
        Of the shuffle that says which samples are left out together [count].
    sample_price
        Price of one more sample with its analysis; None where nobody said [currency].
    loss_per_ha_year
        What a hectare outside the range costs a year; None where nobody said [currency/ha/yr].

    Raises
    ------
    WordedError
        Where nobody said what is to grow, or no sample has a pH.
    """
    target = target_of(base)
    if target is None:
        raise WordedError(message("map-no-aim"))
    method = leading_method(field)
    found = estimate(field, seed=seed)
    mean = Ground(
        ph_water=found.mean_ph,
        ph_sd=None,
        clay_pct=_mean(found.clay_pct),
        organic_matter_pct=_mean(found.organic_matter_pct),
        area_m2=field.area_m2,
    )
    by_mean = judge_ground(base, mean, method)
    cells = _ordered(cells_of(field, by_mean.context, found), found)
    cells, judged = _told_apart(base, field, cells, found, method)
    direction = _direction(judged)
    zones = _zones(field, cells, judged, direction)
    material = next((zone.material for zone in zones if zone.material is not None), None)
    shared = shared_error_ph(field)
    ways = compared(field, base, method, cells, found, judged, by_mean, direction, shared)
    prices, currency = price_of(base, material)
    more, worth, where = further_samples(
        field,
        base,
        method,
        found,
        mean,
        judged=judged,
        by_mean=by_mean,
        sample_price=sample_price,
        loss_per_ha_year=loss_per_ha_year,
    )
    return FieldMap(
        field=field,
        today=base.today,
        on=wanted_on(base),
        ph_low=target.ph_low,
        ph_high=target.ph_high,
        ph_aim=target.ph_aim,
        plants=target.names,
        material=material,
        zones=zones,
        zone_of=cells.zone,
        ph_water=found.ph_water,
        ph_sd=found.ph_sd,
        mean_ph=found.mean_ph,
        spread_ph=found.spread_ph,
        tried=found.tried,
        no_map=found.no_map,
        by_zones=prices(ways[0]),
        by_mean=prices(ways[1]),
        left_alone=prices(ways[2]),
        currency=currency,
        acidifies_m2=sum(
            one.ground.area_m2 for one in judged if one.judgement.direction is Direction.ACIDIFY
        ),
        more=more,
        worth_taking=worth,
        where=where,
        notes=(*field.notes, *_said_of_methods(field), *_said_of_gaps(field, found)),
    )


def leading_method(field: FieldInput) -> PhMethod:
    """The method that most samples were read by; a laboratory's before a rough one."""
    counted = Counter(one.method for one in field.samples)
    return max(counted, key=lambda one: (not one.is_rough, counted[one], one.value))


def shared_error_ph(field: FieldInput) -> float:
    """Error that all samples share, by the conversion of their method to water [pH]."""
    methods = {one.method for one in field.samples}
    if len(methods) > 1 or next(iter(methods)).is_water:
        return 0.0
    return default_ph_conversion(next(iter(methods))).sd


def _mean(values: FloatArray | None) -> float | None:
    return None if values is None else float(values.mean())


def _ordered(cells: Cells, found: Estimate) -> Cells:
    """Zones of the map from the most acid to the least; those that were drawn stay as they are."""
    if any(cells.names):
        return cells
    kinds = np.unique(cells.zone)
    middles = [float(found.ph_water[cells.zone == kind].mean()) for kind in kinds]
    place = np.empty(len(kinds), dtype=np.int64)
    place[np.argsort(middles)] = np.arange(len(kinds))
    return Cells(zone=place[cells.zone], names=cells.names)


def _grounds(field: FieldInput, cells: Cells, found: Estimate, shared_sd: float) -> list[Ground]:
    made = []
    share = field.area_m2 / max(len(cells.zone), 1)
    for number in range(len(cells.names)):
        mine = cells.zone == number
        area = share * float(mine.sum())
        if found.pattern is None and field.zones:
            made.append(_drawn_ground(field, number, found, mine, area))
            continue
        ph = found.ph_water[mine]
        if found.pattern is None:
            spread = found.spread_ph
        else:
            spread = float(np.sqrt(np.mean(found.ph_sd[mine] ** 2) + ph.var()))
        made.append(
            Ground(
                ph_water=float(ph.mean()),
                ph_sd=float(np.hypot(max(spread, LEAST_SD_PH), shared_sd)),
                clay_pct=None if found.clay_pct is None else float(found.clay_pct[mine].mean()),
                organic_matter_pct=None
                if found.organic_matter_pct is None
                else float(found.organic_matter_pct[mine].mean()),
                area_m2=area,
            )
        )
    return made


LEAST_SD_PH = 0.05
"""No zone is known better than a careful test knows one sample [pH]."""


def _drawn_ground(
    field: FieldInput, number: int, found: Estimate, mine: NDArray[np.bool_], area_m2: float
) -> Ground:
    """A zone with its own test, or the samples that lie in it."""
    zone = field.zones[number]
    if zone.sample is not None:
        return Ground(
            ph_water=ph_in_water(zone.sample),
            ph_sd=None,
            clay_pct=zone.sample.clay_pct,
            organic_matter_pct=zone.sample.organic_matter_pct,
            area_m2=area_m2,
        )
    inside = [one for one in field.samples if field.grid.holds(zone.cells, one)]
    values = np.array([ph_in_water(one) for one in inside])
    return Ground(
        ph_water=float(values.mean()),
        ph_sd=float(max(values.std(ddof=1), LEAST_SD_PH)) if len(values) > 1 else found.spread_ph,
        clay_pct=None if found.clay_pct is None else float(found.clay_pct[mine].mean()),
        organic_matter_pct=None
        if found.organic_matter_pct is None
        else float(found.organic_matter_pct[mine].mean()),
        area_m2=area_m2,
    )


def _told_apart(
    base: Case, field: FieldInput, cells: Cells, found: Estimate, method: PhMethod
) -> tuple[Cells, list[Judged]]:
    """Zones judged; those next in order that get the same are one, and judged again as one."""
    shared = shared_error_ph(field)
    while True:
        grounds = _grounds(field, cells, found, shared)
        judged = [judge_ground(base, ground, method) for ground in grounds]
        place, kept = np.zeros(len(judged), dtype=np.int64), 0
        for number, one in enumerate(judged):
            kept += number > 0 and not _alike(judged[number - 1], one)
            place[number] = kept
        if any(cells.names) or kept + 1 == len(judged):
            return cells, judged
        cells = Cells(zone=place[cells.zone], names=("",) * (kept + 1))


def _alike(one: Judged, other: Judged) -> bool:
    """Whether two zones get the same: now, later, and for a like reason."""
    return (
        round(one.rate_g_m2) == round(other.rate_g_m2)
        and round(one.later_g_m2) == round(other.later_g_m2)
        and one.judgement.decision is other.judgement.decision
        and one.judgement.direction is other.judgement.direction
    )


def _direction(judged: list[Judged]) -> Direction:
    """Which way the map goes: up where anything is to be limed."""
    ways = {one.judgement.direction for one in judged if one.rate_g_m2 > 0.0}
    if Direction.LIME in ways:
        return Direction.LIME
    return Direction.ACIDIFY if Direction.ACIDIFY in ways else Direction.NONE


def _zones(
    field: FieldInput, cells: Cells, judged: list[Judged], direction: Direction
) -> tuple[FieldZone, ...]:
    made = []
    whole = spread_out(cells.zone, field.grid)
    for number, one in enumerate(judged):
        acts = one.judgement.direction is direction and one.rate_g_m2 > 0.0
        rule, target = one.plan.rule, one.context.target
        assert target is not None
        soil = require_soil(one.context)
        needs = one.judgement.direction is not Direction.NONE
        acidify = one.judgement.direction is Direction.ACIDIFY
        made.append(
            FieldZone(
                letter=letter_of(number),
                name=cells.names[number],
                area_m2=one.ground.area_m2,
                parts=count_patches(whole == number),
                ph_water=one.ground.ph_water,
                ph_sd=soil.ph.ph_water_sd if one.ground.ph_sd is None else one.ground.ph_sd,
                clay_pct=one.ground.clay_pct,
                organic_matter_pct=one.ground.organic_matter_pct,
                decision=one.judgement.decision,
                reason=one.judgement.reason,
                direction=one.judgement.direction,
                material=rule.material if acts and rule is not None else None,
                rate_g_m2=one.rate_g_m2 if acts else 0.0,
                later_g_m2=one.later_g_m2 if one.judgement.direction is direction else 0.0,
                need_g_m2=dose_to(one.context, target.ph_aim, acidify=acidify) if needs else None,
                share_in_range=rule.share_in_range if rule is not None and acts else None,
                because=one.told.because,
                cautions=one.cautions if acts else (),
            )
        )
    return tuple(made)


def letter_of(number: int) -> str:
    """A, B … Z, AA, AB … for a zone [index]."""
    first, last = divmod(number, 26)
    return (letter_of(first - 1) if first else "") + chr(ord("A") + last)


def _said_of_gaps(field: FieldInput, found: Estimate) -> tuple[Message, ...]:
    """Where drawn zones leave some of the field out."""
    if found.pattern is not None or not field.zones:
        return ()
    covered = np.logical_or.reduce([zone.cells for zone in field.zones])
    return (message("map-note-gaps"),) if (field.grid.inside & ~covered).any() else ()


def _said_of_methods(field: FieldInput) -> tuple[Message, ...]:
    methods = {one.method for one in field.samples}
    if len(methods) > 1:
        return (message("map-note-methods"),)
    if next(iter(methods)) is PhMethod.UNKNOWN:
        return (message("map-note-method-unknown"),)
    return ()
