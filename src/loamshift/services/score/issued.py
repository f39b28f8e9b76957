"""A forecast as it is issued: what of an answer and its case a later reading is held against."""

from __future__ import annotations

import math
from typing import Final

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.score import BedFacts, IssuedAs, IssuedForecast, PlannedPart
from loamshift.services.context.readings import current_season

_BAND_DEG: Final = 10
"""A place without a country is told by so many degrees of latitude."""


def issued_forecast(
    answer: Answer, case: Case, *, key: str, title: str, issued_as: IssuedAs
) -> IssuedForecast | None:
    """The forecast of an answer as it is issued; None where it has none.

    Parameters
    ----------
    case
        The case that was answered; its place is kept no closer than a region.
    """
    ahead = answer.forecast
    if ahead is None or len(ahead.dates) < 2:
        return None
    season = current_season(case)
    return IssuedForecast(
        key=key,
        title=title,
        issued_as=issued_as,
        on=answer.today,
        dates=ahead.dates,
        ph=ahead.ph,
        measured_ph=None if season is None else season.belief.ph_water,
        measured_sd=measured_sd_of(case),
        parts=tuple(
            PlannedPart(on=part.date, rate_g_m2=part.rate_g_m2)
            for part in answer.applications
            if part.only_if is None
        ),
        known_g_m2=math.fsum(one.rate_g_m2 for one in case.applied if one.on >= answer.today),
        facts=_facts(answer, case),
    )


def measured_sd_of(case: Case) -> float | None:
    """Error of the reading that speaks for a bed, which its forecast holds [pH in water]."""
    season = current_season(case)
    return None if season is None else season.belief.ph_water_sd


def region_of(case: Case) -> str | None:
    """The country of a bed, or ten degrees of latitude where none is named."""
    place = case.place
    if place is None:
        return None
    if place.country:
        return place.country
    low = math.floor(abs(place.latitude) / _BAND_DEG) * _BAND_DEG
    return f"{low}-{low + _BAND_DEG} {'N' if place.latitude >= 0.0 else 'S'}"


def _facts(answer: Answer, case: Case) -> BedFacts:
    bed, soil = case.bed, case.soil
    planted = None if bed.planted is None else "yes" if bed.planted else "no"
    return BedFacts(
        region=region_of(case),
        bed_kind=bed.kind.value,
        medium=soil.medium.value,
        planted=planted,
        texture=None if soil.texture is None else soil.texture.key,
        organic_matter_pct=soil.organic_matter_pct,
        fizz=None if soil.fizz is None else soil.fizz.value,
        carbonate_pct=soil.carbonate_pct,
        depth_cm=bed.depth_cm,
        water_alkalinity_mg_l_as_caco3=case.water.alkalinity_mg_l_as_caco3,
        decision=answer.verdict.decision.value,
        model=answer.made_by.model,
        tables=answer.made_by.tables,
    )
