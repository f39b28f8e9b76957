"""What is put on a bed, turned into the events of the column."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.acidity import NITROGEN_MOL_KG
from loamshift.core.column_layout import ColumnEvent, EventKind
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.belief.column_sulfur_left import SD_IN_95_PCT, break_up_per_d, sulfur_left
from loamshift.services.materials.acid import (
    acid_brought_mmolc_m2,
    acid_within_days,
    daily_soil_temp_c,
    temporary_acid_left_mmolc_m2,
    temporary_acid_mmolc_m2,
)
from loamshift.services.materials.acid_clock import nitrogen_left_frac
from loamshift.services.materials.acid_parts import AT_ONCE, acting_parts, checked_rate_g_m2
from loamshift.services.materials.lime_share import doubt_power, event_factor
from loamshift.tables.model import lime_parameters, sulfur_parameters
from loamshift.tables.parameters import load_parameters, parameter_values

FloatArray = NDArray[np.float64]
Sizes = tuple[tuple[float, float, float], ...]

_LITTER_PARTS: Final = 6
"""A mulch enters the soil in so many equal parts."""
_POWDER: Final[Sizes] = ((10.0, 75.0, 1.0),)
"""Sulfur of no stated fineness, inside another material: as fine as flowers."""
_FINE_LIME: Final[Sizes] = ((0.0, 150.0, 1.0),)
_NITROGEN_SALTS: Final = (
    EventKind.UREA,
    EventKind.AMMONIUM,
    EventKind.AMMONIA,
    EventKind.NITRATE,
)
_TOO_LITTLE_MMOLC_M2: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOn:
    """One material put on: ``day`` of the run, rate [g/m2], depth worked in [cm]."""

    material: Material
    rate_g_m2: float
    day: int
    depth_cm: float
    sulfur_before: bool = False


def events_of(part: PutOn, *, edges_cm: FloatArray) -> tuple[ColumnEvent, ...]:
    """Everything that one material brings to the layers, as events.

    Parameters
    ----------
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].

    Returns
    -------
    tuple of ColumnEvent
        In the order in which they happen on that day.

    Raises
    ------
    OutOfRangeError
        For a negative rate.

    Notes
    -----
    What is worked in is spread evenly down to its depth, after the layers it reaches have been
    mixed; what is not lies on the top layer and reacts more slowly until it is dug in. A mulch
    of litter, peat or compost gets into the soil bit by bit, so its last events may fall after
    the end of a run. The acid of peat is that of its own surface and acts as soon as it is mixed.
    Nitrate earns its credit whatever it came with.

    References
    ----------
    own-arithmetic, own-judgement
    """
    rate = checked_rate_g_m2(part.rate_g_m2)
    if rate == 0.0:
        return ()
    material, shares = part.material, depth_shares(part.depth_cm, edges_cm=edges_cm)
    worked_in = part.depth_cm > 0.0
    found: list[ColumnEvent] = []
    if worked_in and sum(share > 0.0 for share in shares) > 1:
        found.append(ColumnEvent(kind=EventKind.TILLAGE, day=part.day, layer_share=shares))
    parts = acting_parts(material)
    if parts.sulfur > 0.0:
        slower = 1.0 if worked_in else parameter_values("advice")["surface_sulfur_rate_frac"]
        found.append(
            ColumnEvent(
                kind=EventKind.SULFUR,
                day=part.day,
                layer_share=shares,
                amount=rate * parts.sulfur,
                sizes=_sulfur_sizes(material),
                intact_um=material.intact_diameter_um or 0.0,
                rate_factor=slower,
                grown_frac=_grown_frac(part.sulfur_before),
                grown_sd=grown_log_odds_sd(sulfur_before=part.sulfur_before),
                break_up_top=break_up_per_d(material, on_surface=True),
                break_up_dug_in=break_up_per_d(material, on_surface=False),
                on_surface=not worked_in,
            )
        )
    if parts.lime < 0.0:
        is_lime = parts.sulfur == 0.0 and bool(material.sizes)
        found.append(
            ColumnEvent(
                kind=EventKind.LIME,
                day=part.day,
                layer_share=shares,
                amount=-rate * parts.lime * event_factor(material),
                lime_frac=lime_classes(_sizes(material) if is_lime else _FINE_LIME),
                efficiency_power=doubt_power(material),
                on_surface=not worked_in,
            )
        )
    at_once = material.group in AT_ONCE
    sulfate = material.figures.get("sulfate_molc_kg")
    plain = (
        (EventKind.ACID if at_once else EventKind.FAST_SALT, parts.fast),
        (EventKind.SULFATE, sulfate.value if sulfate is not None else 0.0),
        (EventKind.ORGANIC_ACID, material.organic_acid_molc_kg),
        (EventKind.DECAY, parts.ash),
        (EventKind.ORGANIC_NITROGEN, parts.organic_frac * NITROGEN_MOL_KG),
        (EventKind.AMMONIA, parts.ammonia_frac * NITROGEN_MOL_KG),
        (EventKind.AMMONIUM, parts.ammonium_frac * NITROGEN_MOL_KG),
        (EventKind.UREA, parts.urea_frac * NITROGEN_MOL_KG),
        (EventKind.NITRATE, parts.nitrate_frac * NITROGEN_MOL_KG),
    )
    days = (0,) if worked_in or not is_litter(material) else litter_days()
    for kind, per_gram in plain:
        amount = rate * per_gram
        if amount == 0.0:
            continue
        signed = EventKind.ACID if kind is EventKind.FAST_SALT and amount < 0.0 else kind
        found += [
            ColumnEvent(
                kind=signed, day=part.day + later, layer_share=shares, amount=amount / len(days)
            )
            for later in days
        ]
    return tuple(found)


def is_litter(material: Material) -> bool:
    """Whether a material that is left lying gets into the soil only bit by bit.

    Returns
    -------
    bool
        True for litter, peat and composts; false for meals, which wash in.
    """
    meal = parameter_values("advice")["meal_n_frac"]
    return material.group is MaterialGroup.ORGANIC and material.n_organic_frac < meal


def litter_days() -> tuple[int, ...]:
    """Days after it was laid on which equal parts of a mulch have got into the soil.

    Returns
    -------
    tuple of int
        Rising [d].
    """
    half_time_d = parameter_values("advice")["surface_litter_half_time_d"]
    shares = [(part + 0.5) / _LITTER_PARTS for part in range(_LITTER_PARTS)]
    return tuple(round(-half_time_d * math.log2(1.0 - share)) for share in shares)


def events_of_rest(
    part: PutOn,
    *,
    applied: date,
    read: date,
    soil_temp_c: tuple[float, ...],
    ph_water: float,
    in_pot: bool,
    edges_cm: FloatArray,
    land_use: str = "unknown",
) -> tuple[ColumnEvent, ...]:
    """What a material put on before the reading still brings, as events on the part's day.

    Parameters
    ----------
    soil_temp_c
        Daily soil temperature for days 1 to 365; empty for the assumed one [degC].
    ph_water
        pH in water of the soil [pH].
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].

    Notes
    -----
    Sulfur grains have shrunk by the median clock: the finest are gone and the rest are smaller;
    the oxidisers have grown. Of prills the whole ones are smaller, and what broke up before the
    reading and has not reacted lies in its size classes as it came. Lime is left by its
    half-times, an organic acid by the base it will give back, nitrogen as the urea, ammonium and
    nitrate still there, all else by the share of its acid that is still to come. The reading
    already holds what has reacted.

    References
    ----------
    watkinson-blair-1993, huang-2007, own-judgement
    """
    fresh = [e for e in events_of(part, edges_cm=edges_cm) if e.kind is not EventKind.TILLAGE]
    since_days = (read - applied).days
    if since_days <= 0:
        return tuple(fresh)
    temps = daily_soil_temp_c(soil_temp_c, start=applied, days=since_days)
    rest: list[ColumnEvent] = []
    for event in fresh:
        if event.kind is EventKind.SULFUR:
            rest.extend(sulfur_left(event, temps=temps, ph_water=ph_water))
        elif event.kind is EventKind.LIME:
            rest.extend(_lime_left(event, since_days=since_days))
        elif (later := event.day - part.day) > since_days:  # a mulch that is still to get in
            rest.append(replace(event, day=event.day - since_days))
        elif event.kind is EventKind.ORGANIC_ACID:
            rest.extend(_base_to_come(event, part, since_days=since_days - later))
        elif event.kind in _NITROGEN_SALTS:
            rest.extend(_nitrogen_left(event, temps=temps[later:], ph_water=ph_water))
        else:
            share = _share_to_come(
                part,
                applied=applied + timedelta(days=later),
                since_days=since_days - later,
                soil_temp_c=soil_temp_c,
                ph_water=ph_water,
                in_pot=in_pot,
                land_use=land_use,
            )
            if share > 0.0:
                rest.append(replace(event, day=part.day, amount=event.amount * share))
    return tuple(rest)


def depth_shares(depth_cm: float, *, edges_cm: FloatArray) -> tuple[float, ...]:
    """How a material worked in to a depth is shared among the layers.

    Parameters
    ----------
    depth_cm
        Depth worked in; 0 for what lies on the surface [cm].
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].

    Returns
    -------
    tuple of float
        Shares, together 1 [0-1].
    """
    thickness = np.diff(edges_cm)
    if depth_cm <= 0.0:
        return (1.0, *([0.0] * (thickness.size - 1)))
    reached = np.clip(min(depth_cm, float(edges_cm[-1])) - edges_cm[:-1], 0.0, thickness)
    return tuple(float(share) for share in reached / reached.sum())


def lime_classes(sizes: Sequence[tuple[float, float, float]]) -> tuple[float, ...]:
    """Share of a lime in each of the five sieve classes of the law, finest first.

    Parameters
    ----------
    sizes
        Size classes of the product: low diameter, high diameter, share of mass [um, um, 0-1].

    Returns
    -------
    tuple of float
        Shares, together 1 [0-1].

    Notes
    -----
    A class of the product that spans several of the law is split evenly over its diameter.

    References
    ----------
    huang-2007
    """
    lime = lime_parameters()
    edges = (0.0, lime.edge_1_um, lime.edge_2_um, lime.edge_3_um, lime.edge_4_um, math.inf)
    shares = []
    for low_edge, high_edge in pairwise(edges):
        held = 0.0
        for low, high, share in sizes:
            if low == high:
                held += share if low_edge <= low < high_edge else 0.0
            else:
                held += share * max(0.0, min(high, high_edge) - max(low, low_edge)) / (high - low)
        shares.append(held)
    total = math.fsum(shares)
    return tuple(share / total for share in shares)


def _sizes(material: Material) -> Sizes:
    total = math.fsum(size.mass_frac for size in material.sizes)
    return tuple((s.low_um, s.high_um, s.mass_frac / total) for s in material.sizes)


def _sulfur_sizes(material: Material) -> Sizes:
    return _sizes(material) if material.sizes else _POWDER


def grown_log_odds_sd(*, sulfur_before: bool) -> float:
    """How unsure the first strength of the oxidisers is.

    Parameters
    ----------
    sulfur_before
        True where sulfur was given in the last years.

    Returns
    -------
    float
        Standard deviation of its log odds, from the central 95 % of its row [-].
    """
    row = load_parameters()["sulfur"]["grown_again_frac" if sulfur_before else "grown_first_frac"]
    assert row.low is not None
    assert row.high is not None
    low, high = (math.log(one / (1.0 - one)) for one in (row.low, row.high))
    return (high - low) / SD_IN_95_PCT


def _grown_frac(sulfur_before: bool) -> float:
    params = sulfur_parameters()
    return params.grown_again_frac if sulfur_before else params.grown_first_frac


def _base_to_come(event: ColumnEvent, part: PutOn, *, since_days: int) -> tuple[ColumnEvent, ...]:
    """The base that an organic acid gives back: the reading holds the acid, so that is undone."""
    whole = temporary_acid_mmolc_m2(part.material, rate_g_m2=part.rate_g_m2)
    left = temporary_acid_left_mmolc_m2(part.material, rate_g_m2=part.rate_g_m2, days=since_days)
    amount = event.amount * left / whole
    if amount < _TOO_LITTLE_MMOLC_M2:
        return ()
    acid = replace(event, day=part.day, amount=amount)
    return acid, replace(acid, kind=EventKind.ACID, amount=-amount)


def _lime_left(event: ColumnEvent, *, since_days: int) -> tuple[ColumnEvent, ...]:
    lime = lime_parameters()
    factors = (
        lime.half_time_factor_1,
        lime.half_time_factor_2,
        lime.half_time_factor_3,
        lime.half_time_factor_4,
        lime.half_time_factor_5,
    )
    speed = parameter_values("advice")["surface_lime_rate_frac"] if event.on_surface else 1.0
    left = [
        share * 2.0 ** (-since_days * speed / (lime.half_time_d * factor))
        for share, factor in zip(event.lime_frac, factors, strict=True)
    ]
    total = math.fsum(left)
    if total <= 0.0:
        return ()
    classes = tuple(share / total for share in left)
    return (replace(event, amount=event.amount * total, lime_frac=classes),)


def _nitrogen_left(
    event: ColumnEvent, *, temps: FloatArray, ph_water: float
) -> tuple[ColumnEvent, ...]:
    """What is left of urea, ammonium and nitrate, each as an event of its own."""
    left = nitrogen_left_frac(
        temps,
        urea_frac=1.0 if event.kind is EventKind.UREA else 0.0,
        ammonium_frac=1.0 if event.kind in (EventKind.AMMONIUM, EventKind.AMMONIA) else 0.0,
        ph_water=ph_water,
    )
    kinds = (EventKind.UREA, EventKind.AMMONIUM, EventKind.NITRATE)
    return tuple(
        replace(event, kind=kind, amount=event.amount * share)
        for kind, share in zip(kinds, left, strict=True)
        if share > 0.0
    )


def _share_to_come(
    part: PutOn,
    *,
    applied: date,
    since_days: int,
    soil_temp_c: tuple[float, ...],
    ph_water: float,
    in_pot: bool,
    land_use: str,
) -> float:
    """Share of all acid of a material still to come, sulfur and lime inside; 0 to 1."""
    total = acid_brought_mmolc_m2(
        part.material, rate_g_m2=part.rate_g_m2, in_pot=in_pot, land_use=land_use
    )
    if total == 0.0:
        return 0.0
    done = acid_within_days(
        part.material,
        rate_g_m2=part.rate_g_m2,
        soil_temp_c=soil_temp_c,
        start=applied,
        days=since_days,
        ph_water=ph_water,
        in_pot=in_pot,
        incorporated=part.depth_cm > 0.0,
        land_use=land_use,
    )
    return min(1.0, max(0.0, 1.0 - done / total))
