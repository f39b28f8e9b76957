"""What a laboratory's figures say of the scale of a buffer curve, or why they say nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loamshift.core.buffer import acid_between_mmolc_kg, buffer_mmolc_kg_ph
from loamshift.core.buffer_acidity import (
    ACIDITY_FORM,
    ACIDITY_TO_PH,
    MMOLC_KG_PER_MEQ_100G,
    acidity_mmolc_kg,
    reading_log10_sd,
)
from loamshift.core.buffer_scale import Possible
from loamshift.domain.case import SoilEntry
from loamshift.domain.ph import PhBelief
from loamshift.domain.rules import BufferPhMethod
from loamshift.domain.soil import UnusedFact, UnusedReason
from loamshift.tables.laboratory import (
    NO_EQUATION,
    buffer_families,
    buffer_ph_method_for_target,
)
from loamshift.tables.model import buffer_parameters
from loamshift.tables.soils import soil_values
from loamshift.units import CACO3_G_PER_MMOLC

BUFFER_PATH: Final = "soil.buffer_ph"
LIME_PATH: Final = "soil.lab_lime_requirement"
ALUMINIUM_PATH: Final = "soil.exchangeable_al_cmolc_kg"


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveSoil:
    """The soil as the curve at k = 1 sees it, for measurements of k.

    ``clay_pct`` and ``organic_carbon_pct`` [%]; ``bulk_density_g_cm3`` [g/cm3].
    """

    clay_pct: float
    organic_carbon_pct: float
    bulk_density_g_cm3: float
    organic_only: bool = False


def buffer_possibilities(
    entry: SoilEntry, *, ph: PhBelief, soil: CurveSoil
) -> tuple[list[Possible], UnusedFact | None]:
    """What a buffer pH may say of the scale, or why it says nothing.

    Returns
    -------
    list of Possible, and UnusedFact or None
        One meaning where the buffer is named, one for each kind of buffer where not; empty with
        the reason where none makes sense, and without where nothing was given.

    Notes
    -----
    An unnamed reading counts as the sum over the kinds of buffer: they differ by a factor of
    three and more, so that the one that fits the texture weighs most and the belief hardly moves.
    """
    reading, key = entry.buffer_ph, entry.buffer_ph_method
    if reading is None:
        unread = UnusedFact(
            path="soil.buffer_ph_method", reason=UnusedReason.NO_READING, method=key or ""
        )
        return [], unread if key is not None else None
    target = soil_values()["buffer_target_ph"]
    methods = _methods_of(key, target_ph=target)
    reasons: list[UnusedFact] = []
    possible: list[Possible] = []
    for method in methods:
        meaning = _meaning(method, reading, ph=ph, soil=soil, target_ph=target)
        if isinstance(meaning, UnusedFact):
            reasons.append(replace(meaning, method=key or ""))
        else:
            possible.append(_with_weight(meaning, 1.0 / len(methods)))
    return possible, None if possible else reasons[0]


def _with_weight(one: Possible, weight: float) -> Possible:
    return Possible(weight, one.mean, one.sd)


def _methods_of(key: str | None, *, target_ph: float) -> tuple[BufferPhMethod, ...]:
    """The methods that a reading may be by: one where it is named, every kind where not.

    A report of exchangeable acidity carries a buffer pH too, of one buffer or another.
    """
    if key is None:
        return buffer_families()
    named = buffer_ph_method_for_target(key, target_ph=target_ph)
    if named.form != ACIDITY_FORM:
        return (named,)
    acidity = buffer_ph_method_for_target(key, target_ph=ACIDITY_TO_PH)
    others = (method for method in buffer_families() if method.family in ("smp", "mehlich"))
    return (acidity, *others)


def _meaning(
    method: BufferPhMethod, reading: float, *, ph: PhBelief, soil: CurveSoil, target_ph: float
) -> Possible | UnusedFact:
    """What a reading says if it is by this method."""

    def unused(reason: UnusedReason, limit: float | None = None) -> UnusedFact:
        return UnusedFact(path=BUFFER_PATH, reason=reason, value=reading, limit=limit)

    if method.form == NO_EQUATION:
        return unused(UnusedReason.NO_EQUATION)
    target = method.target_ph if method.target_ph is not None else target_ph
    if ph.ph_water >= target:
        return unused(UnusedReason.NOT_ACID, target)
    if method.form != ACIDITY_FORM and reading <= ph.ph_water:
        return unused(UnusedReason.LIKE_SOIL_PH, ph.ph_water)
    if reading < method.sense_low_ph:
        return unused(UnusedReason.BELOW_SENSE, method.sense_low_ph)
    if reading >= method.sense_high_ph:
        return unused(UnusedReason.ABOVE_SENSE, method.sense_high_ph)
    acid = acidity_mmolc_kg(
        method.form,
        method.coefficients,
        reading=reading,
        ph_water=ph.ph_water,
        target_ph=target,
        bulk_density_g_cm3=soil.bulk_density_g_cm3,
        slice_kg_m2=method.slice_kg_m2,
        field_allowance=method.field_allowance,
    )
    if acid <= 0.0:
        return unused(UnusedReason.NO_ACIDITY)
    values = soil_values()
    reading_sd = reading_log10_sd(
        method.form, method.coefficients, reading=reading, reading_sd=values["buffer_ph_sd"]
    )
    volume_sd = values["volume_density_log10_sd"] if method.slice_kg_m2 is None else 0.0
    return _step(
        acid, ph=ph, soil=soil, target_ph=target, errors=(method.log10_sd, reading_sd, volume_sd)
    )


def _step(
    acid_mmolc_kg: float,
    *,
    ph: PhBelief,
    soil: CurveSoil,
    target_ph: float,
    errors: tuple[float, ...],
) -> Possible:
    """log10 k of so much acid between the soil's pH and a target, with the error of both."""
    params, clay, carbon = buffer_parameters(), soil.clay_pct, soil.organic_carbon_pct
    usual = acid_between_mmolc_kg(
        target_ph, ph.ph_water, clay_pct=clay, organic_carbon_pct=carbon, params=params
    )
    slope = buffer_mmolc_kg_ph(ph.ph_water, clay_pct=clay, organic_carbon_pct=carbon, params=params)
    start_sd = slope * ph.ph_water_sd / usual / math.log(10.0)
    errors = (*errors, start_sd, params.log10_k_floor_sd)
    sd = math.sqrt(math.fsum(error * error for error in errors))
    return Possible(1.0, math.log10(acid_mmolc_kg / usual), sd)


def lime_possibilities(
    entry: SoilEntry, *, ph: PhBelief, soil: CurveSoil
) -> tuple[list[Possible], UnusedFact | None]:
    """What a laboratory's lime figure may say of the scale, over the targets it may mean.

    Returns
    -------
    list of Possible, and UnusedFact or None
        One meaning for each target above the soil's pH; empty with the reason where the soil
        needs no lime, and without where nothing was given.

    Notes
    -----
    Depth, quality of the lime, allowance and target behind the figure are hidden; and it may be
    a single dressing, or a maximum, and not the whole need.
    """
    lime = entry.lab_lime_requirement_g_m2
    if lime is None:
        return [], None
    if lime <= 0.0:
        return [], UnusedFact(path=LIME_PATH, reason=UnusedReason.NOTHING_FOUND, value=lime)
    values = soil_values()
    acid = (
        lime
        * values["lab_lime_caco3_frac"]
        / CACO3_G_PER_MMOLC
        / values["lab_lime_slice_kg_m2"]
        / values["lab_lime_allowance"]
    )
    nodes, weights = np.polynomial.hermite_e.hermegauss(5)
    targets = values["lab_lime_target_ph"] + values["lab_lime_target_sd_ph"] * nodes
    part = values["lab_lime_part_weight"]
    possible: list[Possible] = []
    for target, weight in zip(targets.tolist(), (weights / weights.sum()).tolist(), strict=True):
        if target > ph.ph_water:
            one = _step(
                acid,
                ph=ph,
                soil=soil,
                target_ph=target,
                errors=(values["lab_lime_log10_sd"],),
            )
            wider = math.hypot(one.sd, values["lab_lime_part_log10_sd"])
            possible.append(Possible((1.0 - part) * weight, one.mean, one.sd))
            possible.append(Possible(part * weight, one.mean, wider))
    if not possible:
        limit = float(targets.max())
        return [], UnusedFact(path=LIME_PATH, reason=UnusedReason.NOT_ACID, value=lime, limit=limit)
    return possible, None


def aluminium_possibility(
    entry: SoilEntry, *, ph: PhBelief, soil: CurveSoil
) -> tuple[list[Possible], UnusedFact | None]:
    """What exchangeable aluminium says of the scale: the acid up to the pH where it is gone."""
    aluminium = entry.exchangeable_al_cmolc_kg
    if aluminium is None:
        return [], None
    values = soil_values()
    target = values["al_target_ph"]
    reason = UnusedReason.NOTHING_FOUND if aluminium <= 0.0 else None
    if ph.ph_water >= target:
        reason = UnusedReason.NOT_ACID
    if reason is not None:
        return [], UnusedFact(path=ALUMINIUM_PATH, reason=reason, value=aluminium, limit=target)
    near_nothing = values["al_sd_cmolc_kg"] / aluminium / math.log(10.0)
    one = _step(
        values["al_acid_factor"] * MMOLC_KG_PER_MEQ_100G * aluminium,
        ph=ph,
        soil=soil,
        target_ph=target,
        errors=(values["al_log10_sd"], near_nothing),
    )
    return [one], None
