"""Facts about the soil that have no influence on an answer."""

from __future__ import annotations

from collections.abc import Iterator

from loamshift.domain.answer import Decision, Direction
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.soil import Fizz, Medium
from loamshift.services.cautions.nutrient_checks import colours_wanted
from loamshift.services.cautions.unused_reasons import AnswerUse, Unused, Why
from loamshift.services.context.laboratory_scale import BUFFER_PATH
from loamshift.services.context.salt_put_on import too_much_salt

VOLCANIC = "volcanic"
DOLOMITIC = "ground limestone, dolomitic"


def unused_soil_facts(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    """Facts of the soil table without influence, in its order."""
    if context.soil is None or not needs_curve(context):
        yield from _kept_of_soil(context)
    else:
        if context.soil.medium is not Medium.MINERAL:
            yield from _replaced_by_the_mix(context.case)
        else:
            yield from _of_texture(context.case)
        yield from _of_scale(context)
    entry = context.case.soil
    if entry.clay_type is not None and entry.clay_type != VOLCANIC:
        yield Unused("soil.clay_type", Why.CLAY_TYPE_USUAL)
    if entry.mg_saturation_pct is not None and DOLOMITIC not in use.compared:
        yield Unused("soil.mg_saturation_pct", Why.NO_LIME_WANTED)
    if entry.mg_mg_kg is not None and DOLOMITIC not in use.compared:
        yield Unused("soil.mg_mg_kg", Why.NO_LIME_WANTED)
    if entry.p_level is not None and not colours_wanted(context.case):
        yield Unused("soil.p_level", Why.NO_HYDRANGEA)
    if entry.ec_method is not None and entry.ec_ds_m is None:
        yield Unused("soil.ec_method", Why.NO_EC)
    yield from _of_layers(context)
    yield from _of_lime(context, use)
    yield from _stopped(context, use)


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
    "exchangeable_al_cmolc_kg",
    "bulk_density_g_cm3",
)
_SALT_FACTS = (*_SOIL_FACTS[:6], "bulk_density_g_cm3")
"""What tells how much water a paste of the soil holds."""
_MINERAL_FACTS = (*_SOIL_FACTS[:6], "cec_cmolc_kg", "base_saturation_pct")


def _kept_of_soil(context: BedContext) -> Iterator[Unused]:
    """Facts about the soil that wait for the pH, or for an aim."""
    entry, why = context.case.soil, not_yet(context)
    salted = too_much_salt(context) is not None
    for key in _SOIL_FACTS:
        if salted and key in _SALT_FACTS:
            continue
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
    sand, silt, clay = (
        share is not None for share in (entry.sand_pct, entry.silt_pct, entry.clay_pct)
    )
    if clay and sand and silt:
        yield Unused("soil.silt_pct", Why.SHARES_GIVEN)
    elif not clay and sand != silt:
        why = Why.ONE_SHARE if entry.texture is None else Why.TEXTURE_GIVEN
        yield Unused("soil.sand_pct" if sand else "soil.silt_pct", why)
    if entry.organic_carbon_pct is not None and entry.organic_matter_pct is not None:
        yield Unused("soil.organic_matter_pct", Why.CARBON_GIVEN)


def _of_scale(context: BedContext) -> Iterator[Unused]:
    """What the belief about the soil's resistance left out, with the reasons it gives itself."""
    assert context.soil is not None
    for fact in context.soil.k.unused:
        yield Unused(fact.path, Why.RESISTANCE)
        if fact.path == BUFFER_PATH and context.case.soil.buffer_ph_method is not None:
            yield Unused("soil.buffer_ph_method", Why.RESISTANCE)


def _of_layers(context: BedContext) -> Iterator[Unused]:
    """Layers below a pot, and what of a fizz says nothing beside a measured carbonate."""
    for number, layer in enumerate(context.case.soil.layers, start=1):
        path = f"soil.layer[{number}]"
        if context.in_pot:
            yield Unused(path, Why.POT_HAS_NO_SUBSOIL)
            continue
        if layer.fizz is not None and layer.carbonate_pct is not None:
            yield Unused(f"{path}.fizz", Why.CARBONATE_GIVEN)
        if layer.fizz_acid is not None and layer.carbonate_pct is not None:
            yield Unused(f"{path}.fizz_acid", Why.CARBONATE_GIVEN)
        elif layer.fizz_acid is not None and layer.fizz is None:
            yield Unused(f"{path}.fizz_acid", Why.NO_FIZZ)


def _stopped(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    """Facts about the soil's resistance where the answer is to stop, whatever it is."""
    case = context.case
    if use.decision is not Decision.STOP or case.applied or case.claims or context.soil is None:
        return
    if context.target is not None and not use.held_by_sodium:
        return  # the yearly ledger is told, and its load goes by how strongly the soil resists
    if case.soil.bulk_density_g_cm3 is not None:
        yield Unused("soil.bulk_density_g_cm3", Why.STOPPED)
    if case.titration:
        yield Unused("titration", Why.STOPPED)


def _of_lime(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    entry = context.case.soil
    if context.soil is None:
        return
    idle = use.held_by_sodium or not _lime_matters(context, use)
    if entry.fizz is not None and entry.carbonate_pct is not None:
        yield Unused("soil.fizz", Why.CARBONATE_GIVEN)
    elif entry.fizz is not None and idle:
        yield Unused("soil.fizz", Why.LIME_IDLE)
    elif entry.fizz is Fizz.NONE and not context.soil.carbonate.is_possible:
        yield Unused("soil.fizz", Why.TOO_ACID_FOR_LIME)
    if entry.fizz_acid is None:
        return
    if entry.carbonate_pct is not None:
        yield Unused("soil.fizz_acid", Why.CARBONATE_GIVEN)
    elif entry.fizz is None:
        yield Unused("soil.fizz_acid", Why.NO_FIZZ)
    elif idle:
        yield Unused("soil.fizz_acid", Why.LIME_IDLE)
    elif (
        entry.fizz in (Fizz.NONE, Fizz.SLIGHT)
        and not _acid_is_planned(context, use)
        and not _lime_runs_out(context)
    ):
        yield Unused("soil.fizz_acid", Why.NO_ACID_PLANNED)


def _acid_is_planned(context: BedContext, use: AnswerUse) -> bool:
    """True where acid is to be applied, forecast or asked about."""
    asked = bool(context.case.claims or context.case.applied)
    weighed = bool(use.compared) or not context.organic_only
    planned = use.direction is Direction.ACIDIFY and weighed
    return planned or use.has_forecast or asked


def _lime_runs_out(context: BedContext) -> bool:
    """True in a light mix: its lime is so little that the year's ledger follows the amount."""
    soil = context.soil
    return soil is not None and soil.medium is not Medium.MINERAL and soil.carbonate.is_possible


def not_yet(context: BedContext) -> Why:
    """Why a fact waits: for the pH, or for an aim."""
    return Why.NO_PH if context.soil is None else Why.NO_AIM


def needs_curve(context: BedContext) -> bool:
    """Whether anything asks how strongly the soil resists.

    Returns
    -------
    bool
        False without an aim, a claim and an application.
    """
    case = context.case
    return context.target is not None or bool(case.claims or case.applied)


def _lime_matters(context: BedContext, use: AnswerUse) -> bool:
    """True where anything is judged: free lime then has a say, if only in the upkeep."""
    judged = context.target is not None and use.decision is not Decision.STOP
    return judged or bool(context.case.claims or context.case.applied)
