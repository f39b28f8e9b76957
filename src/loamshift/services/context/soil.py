"""What is believed of a soil: pH with its error, texture, organic matter, free lime, scale k."""

from __future__ import annotations

import math
from dataclasses import replace

from loamshift.core.buffer import (
    SOLVE_HIGH_PH,
    SOLVE_LOW_PH,
)
from loamshift.core.need import FloatArray, reading_nodes
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.ph import PhBelief
from loamshift.domain.soil import CarbonateBelief, Medium, Soil
from loamshift.services.context.laboratory_scale import CurveSoil
from loamshift.services.context.readings import current_season
from loamshift.services.context.soil_scale import (
    scale_of_mineral_soil,
    scale_of_organic_medium,
)
from loamshift.services.context.topsoil import fill_in_topsoil
from loamshift.tables.soils import carbonate_belief, load_media, soil_values


def believe_soil(case: Case, *, depth_cm: float) -> Soil | None:
    """The soil filled in, with what had to be assumed.

    Parameters
    ----------
    depth_cm
        Treated depth [cm].

    Notes
    -----
    Nothing hangs on the depth: a laboratory's figures carry the depth they were meant for.
    """
    season = current_season(case)
    if season is None:
        return None
    ph = _within_reach(season.belief)
    entry = case.soil
    if entry.medium is not Medium.MINERAL:
        return _organic_medium(case, ph)
    topsoil = fill_in_topsoil(entry)
    k = scale_of_mineral_soil(
        case,
        ph=ph,
        soil=CurveSoil(
            clay_pct=topsoil.clay_pct,
            organic_carbon_pct=topsoil.organic_carbon_pct,
            bulk_density_g_cm3=topsoil.bulk_density_g_cm3,
        ),
        texture_assumed="soil.texture" in topsoil.assumed,
    )
    return Soil(
        ph=ph,
        clay_pct=topsoil.clay_pct,
        organic_carbon_pct=topsoil.organic_carbon_pct,
        bulk_density_g_cm3=topsoil.bulk_density_g_cm3,
        field_capacity_frac=topsoil.field_capacity_frac,
        wilting_frac=topsoil.wilting_frac,
        medium=Medium.MINERAL,
        carbonate=carbonate_of(entry, ph.ph_water),
        k=k,
        texture_name=topsoil.texture_name,
        assumed=topsoil.assumed,
    )


def ph_nodes(ph: PhBelief) -> tuple[FloatArray, FloatArray]:
    """Seven pH values that stand for what is believed of a soil's pH, and their weights.

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


def _organic_medium(case: Case, ph: PhBelief) -> Soil:
    entry = case.soil
    media = load_media()[entry.medium]
    return Soil(
        ph=ph,
        clay_pct=0.0,
        organic_carbon_pct=media.organic_carbon_pct,
        bulk_density_g_cm3=entry.bulk_density_g_cm3 or media.bulk_density_g_cm3,
        field_capacity_frac=media.field_capacity_frac,
        wilting_frac=media.wilting_frac,
        medium=entry.medium,
        carbonate=carbonate_of(entry, min(ph.ph_water, 6.4) if entry.fizz is None else ph.ph_water),
        k=scale_of_organic_medium(case, media),
        texture_name=entry.medium.value,
        assumed=(),
    )


def carbonate_of(entry: SoilEntry, ph_water: float) -> CarbonateBelief:
    """What is believed of the free carbonate: as measured, or by the fizz test and the pH.

    Parameters
    ----------
    ph_water
        pH of the soil [pH in water].

    Returns
    -------
    CarbonateBelief
        Weight at none [0-1] and range of the rest [% CaCO3].
    """
    if entry.carbonate_pct is not None:
        value = entry.carbonate_pct
        return CarbonateBelief(
            zero_weight=1.0 if value == 0.0 else 0.0,
            low_pct=value,
            high_pct=value,
            basis="measured",
            measured=True,
            log_sd=_carbonate_log_sd(value) if value > 0.0 else 0.0,
        )
    return carbonate_belief(entry.fizz, entry.fizz_acid, ph_water)


def _carbonate_log_sd(carbonate_pct: float) -> float:
    """Error of a measured carbonate, of method, laboratory and sample together [ln].

    What a method cannot tell from nothing is an error as large as the figure at most: less than
    that reads as a trace, and a trace needs what none does.
    """
    values = soil_values()
    smallest = min(1.0, values["carbonate_detection_sd_pct"] / carbonate_pct)
    return math.hypot(
        math.sqrt(math.log1p(smallest**2)),
        values["carbonate_log_sd_laboratory"],
        values["carbonate_log_sd_sampling"],
    )
