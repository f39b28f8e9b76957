"""What is believed of a soil: pH with its error, texture, organic matter, free lime, scale k."""

from __future__ import annotations

import math
from dataclasses import replace

from loamshift.core.buffer import (
    SOLVE_HIGH_PH,
    SOLVE_LOW_PH,
    combine_log10_k,
    log10_k_from_step,
    log10_k_from_titration,
)
from loamshift.core.lime_requirement import lime_requirement_caco3_g_m2_from_buffer_ph
from loamshift.core.need import FloatArray, reading_nodes
from loamshift.core.topsoil import organic_log10_k
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.ph import PhBelief
from loamshift.domain.soil import CarbonateBelief, KBelief, Medium, Soil
from loamshift.errors import FitError, InputError
from loamshift.services.context.readings import current_season
from loamshift.services.context.topsoil import fill_in_topsoil
from loamshift.tables.laboratory import NO_EQUATION, buffer_ph_method_for_target
from loamshift.tables.model import buffer_parameters, verdict_values
from loamshift.tables.soils import carbonate_belief, load_media, soil_values, topsoil_parameters
from loamshift.units import CACO3_G_PER_MMOLC, soil_mass_kg_m2

VOLCANIC = "volcanic"


def believe_soil(case: Case, *, depth_cm: float) -> Soil | None:
    """The soil filled in, with what had to be assumed.

    Parameters
    ----------
    case
        The case [object].
    depth_cm
        Treated depth [cm].

    Returns
    -------
    Soil or None
        None where no pH was read [object].
    """
    season = current_season(case)
    if season is None:
        return None
    ph = _within_reach(season.belief)
    entry = case.soil
    if entry.medium is not Medium.MINERAL:
        return _organic_medium(entry, ph)
    topsoil = fill_in_topsoil(entry)
    k = _k_belief(
        case,
        ph=ph,
        clay_pct=topsoil.clay_pct,
        carbon_pct=topsoil.organic_carbon_pct,
        density=topsoil.bulk_density_g_cm3,
        depth_cm=depth_cm,
        assumed=topsoil.assumed,
    )
    return Soil(
        ph=ph,
        clay_pct=topsoil.clay_pct,
        organic_carbon_pct=topsoil.organic_carbon_pct,
        bulk_density_g_cm3=topsoil.bulk_density_g_cm3,
        field_capacity_frac=topsoil.field_capacity_frac,
        wilting_frac=topsoil.wilting_frac,
        medium=Medium.MINERAL,
        carbonate=_carbonate(entry, ph.ph_water),
        k=k,
        texture_name=topsoil.texture_name,
        assumed=topsoil.assumed,
    )


def ph_nodes(ph: PhBelief) -> tuple[FloatArray, FloatArray]:
    """Seven pH values that stand for what is believed of a soil's pH, and their weights.

    Parameters
    ----------
    ph
        The belief [object].

    Returns
    -------
    tuple of ndarray
        Values, none beyond what the buffer curve can answer [pH in water], and weights [0-1].

    Notes
    -----
    A normal distribution cut off at pH 2 and 11: a probe at 3.3 says nothing about pH 1.
    """
    return reading_nodes(ph=ph.ph_water, ph_sd=ph.ph_water_sd, low=SOLVE_LOW_PH, high=SOLVE_HIGH_PH)


def _within_reach(ph: PhBelief) -> PhBelief:
    """The belief, its mean no farther out than a soil can read; a salt reading may convert so."""
    inside = min(max(ph.ph_water, SOLVE_LOW_PH), SOLVE_HIGH_PH)
    return ph if inside == ph.ph_water else replace(ph, ph_water=inside)


def _organic_medium(entry: SoilEntry, ph: PhBelief) -> Soil:
    media = load_media()[entry.medium]
    return Soil(
        ph=ph,
        clay_pct=0.0,
        organic_carbon_pct=media.organic_carbon_pct,
        bulk_density_g_cm3=entry.bulk_density_g_cm3 or media.bulk_density_g_cm3,
        field_capacity_frac=media.field_capacity_frac,
        wilting_frac=media.wilting_frac,
        medium=entry.medium,
        carbonate=_carbonate(entry, min(ph.ph_water, 6.4) if entry.fizz is None else ph.ph_water),
        k=KBelief(media.log10_k_mean, media.log10_k_sd, entry.medium.value),
        texture_name=entry.medium.value,
        assumed=(),
    )


def _carbonate(entry: SoilEntry, ph_water: float) -> CarbonateBelief:
    if entry.carbonate_pct is not None:
        value = entry.carbonate_pct
        return CarbonateBelief(
            zero_weight=1.0 if value == 0.0 else 0.0,
            low_pct=value,
            high_pct=value,
            basis="measured",
            measured=True,
            log_sd=_carbonate_log_sd() if value > 0.0 else 0.0,
        )
    return carbonate_belief(entry.fizz, entry.fizz_acid, ph_water)


def _carbonate_log_sd() -> float:
    """Error of a measured carbonate, of laboratory and sample together [ln]."""
    values = soil_values()
    return math.hypot(values["carbonate_log_sd_laboratory"], values["carbonate_log_sd_sampling"])


def _k_belief(
    case: Case,
    *,
    ph: PhBelief,
    clay_pct: float,
    carbon_pct: float,
    density: float,
    depth_cm: float,
    assumed: tuple[str, ...],
) -> KBelief:
    params = buffer_parameters()
    entry = case.soil
    measured_carbon = entry.organic_carbon_pct is not None or entry.organic_matter_pct is not None
    mean = 0.0
    if entry.clay_type == VOLCANIC:
        mean, sd = params.log10_k_shift_volcanic, params.log10_k_sd_volcanic
        basis = "volcanic clay, outside most measured curves"
    elif "soil.texture" in assumed:
        sd, basis = verdict_values()["log10_k_sd_texture_unknown"], "loam assumed"
    elif entry.clay_pct is not None and measured_carbon:
        if entry.cec_cmolc_kg is not None and entry.base_saturation_pct is not None:
            sd, basis = params.log10_k_sd_cec, "laboratory clay, organic matter and CEC"
        else:
            sd, basis = params.log10_k_sd_laboratory, "laboratory clay and organic matter"
    else:
        sd, basis = params.log10_k_sd_texture_by_feel, "texture class and organic matter"
    shift, more = organic_log10_k(organic_carbon_pct=carbon_pct, params=topsoil_parameters())
    mean, sd = mean + shift, math.hypot(sd, more)
    observed: list[tuple[float, float]] = []
    said: list[str] = []
    if case.titration:
        try:
            k = log10_k_from_titration(
                [point.acid_mmolc_kg for point in case.titration],
                [point.ph for point in case.titration],
                clay_pct=clay_pct,
                organic_carbon_pct=carbon_pct,
                params=params,
            )
        except FitError as error:
            raise InputError(f"titration: {error}") from error
        observed.append((k.mean, k.sd))
        said.append(f"jar titration of {len(case.titration)} points")
    laboratory = _buffer_ph_scale(
        entry, ph, clay_pct=clay_pct, carbon_pct=carbon_pct, density=density, depth_cm=depth_cm
    )
    if laboratory is not None:
        observed.append(laboratory)
        said.append("laboratory buffer pH")
    if observed:
        mean, sd = combine_log10_k(mean=mean, sd=sd, observed=observed)
    return KBelief(mean, sd, basis, tuple(said))


def _buffer_ph_scale(
    entry: SoilEntry,
    ph: PhBelief,
    *,
    clay_pct: float,
    carbon_pct: float,
    density: float,
    depth_cm: float,
) -> tuple[float, float] | None:
    """Scale k that a laboratory's buffer pH implies, or None where its equation is not usable.

    The North Carolina rule is left out: its figure is about twice the acid it is derived from.
    """
    if entry.buffer_ph is None or entry.buffer_ph_method is None:
        return None
    method = buffer_ph_method_for_target(entry.buffer_ph_method, target_ph=6.5)
    usable = method.form not in (NO_EQUATION, "mehlich-nc", "penn-state-acidity")
    if not usable or method.target_ph is None or method.target_ph - ph.ph_water < 0.5:
        return None
    need_g_m2 = lime_requirement_caco3_g_m2_from_buffer_ph(
        method.form,
        method.coefficients,
        buffer_ph=entry.buffer_ph,
        ph_water=ph.ph_water,
        target_ph=method.target_ph,
        depth_cm=depth_cm,
        method_depth_cm=method.depth_cm,
        method_target_ph=method.target_ph,
    )
    if need_g_m2 <= 0.0:
        return None
    mass = soil_mass_kg_m2(depth_cm=depth_cm, bulk_density_g_cm3=density)
    step = log10_k_from_step(
        acid_mmolc_kg=-need_g_m2 / CACO3_G_PER_MMOLC / mass,
        ph_from=ph.ph_water,
        ph_to=method.target_ph,
        clay_pct=clay_pct,
        organic_carbon_pct=carbon_pct,
        params=buffer_parameters(),
    )
    return step.mean, max(step.sd, method.log10_sd)
