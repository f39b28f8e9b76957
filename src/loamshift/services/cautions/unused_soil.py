"""Facts about the soil that have no influence on an answer."""

from __future__ import annotations

from collections.abc import Iterator

from loamshift.domain.answer import Direction
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.soil import Fizz, Medium
from loamshift.services.cautions.unused_reasons import AnswerUse, Unused, Why

VOLCANIC = "volcanic"
DOLOMITIC = "ground limestone, dolomitic"


def unused_soil_facts(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    """Facts of the soil table without influence, in its order.

    Parameters
    ----------
    context
        The bed as understood [object].
    use
        What the answer was made with [object].

    Returns
    -------
    Iterator of Unused
        Path and reason [row].
    """
    if context.soil is None or not needs_curve(context):
        yield from _kept_of_soil(context)
    elif context.soil.medium is not Medium.MINERAL:
        yield from _replaced_by_the_mix(context.case)
    else:
        yield from _of_texture(context.case)
        yield from _of_exchange(context.case)
        yield from _of_buffer_ph(context.case, use)
    entry = context.case.soil
    if entry.exchangeable_al_cmolc_kg is not None:
        yield Unused("soil.exchangeable_al_cmolc_kg", Why.ALUMINIUM_FROM_PH)
    if entry.clay_type is not None and entry.clay_type != VOLCANIC:
        yield Unused("soil.clay_type", Why.CLAY_TYPE_USUAL)
    if entry.mg_saturation_pct is not None and DOLOMITIC not in use.compared:
        yield Unused("soil.mg_saturation_pct", Why.NO_LIME_WANTED)
    if entry.ec_method is not None and entry.ec_ds_m is None:
        yield Unused("soil.ec_method", Why.NO_EC)
    yield from _of_lime(context, use)


_SOIL_FACTS = (
    "texture",
    "sand_pct",
    "silt_pct",
    "clay_pct",
    "organic_matter_pct",
    "organic_carbon_pct",
    "buffer_ph",
    "buffer_ph_method",
    "cec_cmolc_kg",
    "base_saturation_pct",
    "bulk_density_g_cm3",
)
_MINERAL_FACTS = tuple(key for key in _SOIL_FACTS if key != "bulk_density_g_cm3")


def _kept_of_soil(context: BedContext) -> Iterator[Unused]:
    """Facts about the soil that wait for the pH, or for an aim."""
    entry, why = context.case.soil, not_yet(context)
    for key in _SOIL_FACTS:
        if getattr(entry, key) is not None:
            yield Unused(f"soil.{key}", why)
    if entry.medium is not Medium.MINERAL:
        yield Unused("soil.medium", why)
    if context.soil is None:
        for key in ("carbonate_pct", "fizz", "fizz_acid"):
            if getattr(entry, key) is not None:
                yield Unused(f"soil.{key}", why)
        if entry.ec_ds_m is not None and entry.ec_method is not None:
            yield Unused("soil.ec_ds_m", why)
            yield Unused("soil.ec_method", why)


def _replaced_by_the_mix(case: Case) -> Iterator[Unused]:
    for key in _MINERAL_FACTS:
        if getattr(case.soil, key) is not None:
            yield Unused(f"soil.{key}", Why.MEDIUM_HAS_ITS_OWN)
    if case.soil.clay_type is not None and case.soil.clay_type != VOLCANIC:
        yield Unused("soil.clay_type", Why.MEDIUM_HAS_ITS_OWN)


def _of_texture(case: Case) -> Iterator[Unused]:
    entry = case.soil
    shares = {
        key: getattr(entry, f"{key}_pct")
        for key in ("sand", "silt", "clay")
        if getattr(entry, f"{key}_pct") is not None
    }
    without_clay = [key for key in shares if key != "clay"]
    if entry.texture is not None:
        for key in without_clay:
            yield Unused(f"soil.{key}_pct", Why.TEXTURE_GIVEN)
    elif len(shares) == 3:
        yield Unused("soil.silt_pct", Why.SHARES_GIVEN)
    elif len(shares) == 1:
        for key in without_clay:
            yield Unused(f"soil.{key}_pct", Why.ONE_SHARE)
    if entry.organic_carbon_pct is not None and entry.organic_matter_pct is not None:
        yield Unused("soil.organic_matter_pct", Why.CARBON_GIVEN)


def _of_exchange(case: Case) -> Iterator[Unused]:
    """Exchange capacity and base saturation count only where both stand beside clay and humus."""
    entry = case.soil
    carbon = entry.organic_carbon_pct is not None or entry.organic_matter_pct is not None
    both = entry.cec_cmolc_kg is not None and entry.base_saturation_pct is not None
    if both and carbon and entry.clay_pct is not None and entry.clay_type != VOLCANIC:
        return
    for key in ("cec_cmolc_kg", "base_saturation_pct"):
        if getattr(entry, key) is not None:
            yield Unused(f"soil.{key}", Why.CEC_ALONE)


def _of_buffer_ph(case: Case, use: AnswerUse) -> Iterator[Unused]:
    entry = case.soil
    if entry.buffer_ph is None:
        if entry.buffer_ph_method is not None:
            yield Unused("soil.buffer_ph_method", Why.BUFFER_METHOD_WITHOUT_PH)
    elif entry.buffer_ph_method is None:
        yield Unused("soil.buffer_ph", Why.BUFFER_PH_WITHOUT_METHOD)
    elif not use.used_buffer_ph:
        yield Unused("soil.buffer_ph", Why.BUFFER_PH_NOT_FITTING)
        yield Unused("soil.buffer_ph_method", Why.BUFFER_PH_NOT_FITTING)


def _of_lime(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    entry = context.case.soil
    if context.soil is None:
        return
    idle = not _lime_matters(context, use)
    if entry.fizz is not None and entry.carbonate_pct is not None:
        yield Unused("soil.fizz", Why.CARBONATE_GIVEN)
    elif entry.fizz is not None and idle:
        yield Unused("soil.fizz", Why.LIME_IDLE)
    if entry.fizz_acid is None:
        return
    if entry.carbonate_pct is not None:
        yield Unused("soil.fizz_acid", Why.CARBONATE_GIVEN)
    elif entry.fizz is None:
        yield Unused("soil.fizz_acid", Why.NO_FIZZ)
    elif idle:
        yield Unused("soil.fizz_acid", Why.LIME_IDLE)
    elif _is_limed(context, use) and entry.fizz in (Fizz.NONE, Fizz.SLIGHT):
        yield Unused("soil.fizz_acid", Why.LITTLE_LIME)


def _is_limed(context: BedContext, use: AnswerUse) -> bool:
    """True where lime is all that is in question, and nothing is run forward."""
    asked = context.case.claims or context.case.applied
    return use.direction is Direction.LIME and not use.has_forecast and not asked


def not_yet(context: BedContext) -> Why:
    """Why a fact waits: for the pH, or for an aim.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Why
        The reason [enumeration].
    """
    return Why.NO_PH if context.soil is None else Why.NO_AIM


def needs_curve(context: BedContext) -> bool:
    """Whether anything asks how strongly the soil resists.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    bool
        False without an aim, a claim and an application [truth].
    """
    case = context.case
    return context.target is not None or bool(case.claims or case.applied)


def _lime_matters(context: BedContext, use: AnswerUse) -> bool:
    """True where something is to be applied, forecast or settled: free lime has a say in it."""
    if use.direction is not Direction.NONE or use.has_forecast:
        return True
    return bool(context.case.claims or context.case.applied)
