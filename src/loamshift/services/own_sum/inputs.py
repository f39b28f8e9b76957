"""Figures that go into a sum, each with where it comes from."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift.domain.case import BedKind
from loamshift.domain.message import Message, message
from loamshift.domain.own_sum import Origin, SumInput, SumStep, SumUnit
from loamshift.domain.rules import Cap
from loamshift.services.context.build_context import require_soil
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.tables.parameters import load_parameters
from loamshift.tables.ph_methods import default_ph_conversion
from loamshift.units import CACO3_G_PER_MMOLC, SULFUR_G_PER_MMOLC, soil_mass_kg_m2

Z90: Final = 1.6449
"""So many standard deviations either side hold 90 in 100 [sd]."""
_DEPTH_ROWS: Final = {
    BedKind.LAWN: "verdict.depth_lawn_cm",
    BedKind.CONTAINER: "verdict.depth_container_cm",
}


def fixed(symbol: str, name: Message, value: float, unit: SumUnit) -> SumInput:
    """A figure of chemistry or arithmetic.

    Parameters
    ----------
    value
        The figure [its unit].
    """
    return SumInput(symbol=symbol, name=name, value=value, unit=unit, origin=Origin.FIXED)


def said(symbol: str, name: Message, value: float, unit: SumUnit, path: str) -> SumInput:
    """A figure that somebody said in the case, at this path.

    Parameters
    ----------
    value
        The figure [its unit].
    """
    return SumInput(symbol=symbol, name=name, value=value, unit=unit, origin=Origin.CASE, path=path)


def counted(symbol: str, name: Message, value: float, unit: SumUnit) -> SumInput:
    """A figure that comes out of the simulated beds.

    Parameters
    ----------
    value
        The figure [its unit].
    """
    return SumInput(symbol=symbol, name=name, value=value, unit=unit, origin=Origin.BEDS)


def before(step: SumStep, name: Message) -> SumInput:
    """The outcome of an earlier step as something that goes into a later one."""
    return SumInput(
        symbol=step.symbol, name=name, value=step.value, unit=step.unit, origin=Origin.STEP
    )


def parameter(
    symbol: str, key: str, unit: SumUnit = SumUnit.NONE, *, path: str = "", assumed: bool = False
) -> SumInput:
    """A parameter of the model by its key, or a usual value that stands in for a field.

    Parameters
    ----------
    assumed
        True where it stands in for what nobody said.
    """
    topic, _, name = key.partition(".")
    row = load_parameters()[topic][name]
    return SumInput(
        symbol=symbol,
        name=message("why-in-parameter"),
        value=row.value,
        unit=unit,
        origin=Origin.ASSUMED if assumed else Origin.TABLE,
        path=path,
        row=key,
        source_key=row.source_key,
        evidence=row.evidence,
        low=row.low,
        high=row.high,
    )


def named(one: SumInput, name: Message) -> SumInput:
    """The same figure under a better name."""
    return replace(one, name=name)


def limit(symbol: str, cap: Cap) -> SumInput:
    """A published limit."""
    return SumInput(
        symbol=symbol,
        name=message("why-in-limit", per=cap.per),
        value=cap.limit_g_m2,
        unit=SumUnit.G_M2,
        origin=Origin.TABLE,
        row=cap.key,
        source_key=cap.source_key,
        evidence=cap.evidence,
    )


def ph_now(bed: OpenedBed, symbol: str = "pH₀") -> SumInput:
    """The pH in water of the reading that speaks for the bed, with its range."""
    ph = require_soil(bed.context).ph
    row = default_ph_conversion(ph.method)
    return SumInput(
        symbol=symbol,
        name=message("why-in-ph-read"),
        value=ph.ph_water,
        unit=SumUnit.PH,
        origin=Origin.CASE,
        path="soil.ph" if bed.case.soil.ph is not None else "reading",
        source_key=row.source_key if not ph.method.is_water else "",
        evidence=row.evidence if not ph.method.is_water else None,
        low=ph.ph_water - Z90 * ph.ph_water_sd,
        high=ph.ph_water + Z90 * ph.ph_water_sd,
    )


def aim_ph(bed: OpenedBed, symbol: str = "pH₁") -> SumInput:
    """The point aimed at."""
    target = bed.context.target
    assert target is not None
    named_ph = bed.case.aim.target_ph is not None
    return SumInput(
        symbol=symbol,
        name=message("why-in-ph-aim"),
        value=target.ph_aim,
        unit=SumUnit.PH,
        origin=Origin.CASE if named_ph or not target.source_keys else Origin.TABLE,
        path="aim.target_ph" if named_ph else "aim.plant",
        source_key="" if named_ph or not target.source_keys else target.source_keys[0],
    )


def clay(bed: OpenedBed) -> SumInput:
    """Clay of the soil, measured, by its texture or assumed."""
    soil = require_soil(bed.context)
    measured = bed.case.soil.clay_pct is not None
    return SumInput(
        symbol="clay",
        name=message("why-in-clay", measured="yes" if measured else "no"),
        value=soil.clay_pct,
        unit=SumUnit.PERCENT,
        origin=_origin(bed, "soil.texture"),
        path="soil.clay_pct" if measured else "soil.texture",
    )


def carbon(bed: OpenedBed) -> SumInput:
    """Organic carbon of the soil."""
    soil = require_soil(bed.context)
    path = (
        "soil.organic_carbon_pct"
        if bed.case.soil.organic_carbon_pct is not None
        else "soil.organic_matter_pct"
    )
    organic = bed.context.organic_only
    return SumInput(
        symbol="C",
        name=message("why-in-carbon"),
        value=soil.organic_carbon_pct,
        unit=SumUnit.PERCENT,
        origin=Origin.ASSUMED if organic else _origin(bed, path),
        path="soil.medium" if organic else path,
    )


def depth(bed: OpenedBed) -> SumInput:
    """Depth of soil treated."""
    row = _DEPTH_ROWS.get(bed.case.bed.kind, "verdict.depth_bed_cm")
    name = message("why-in-depth")
    if bed.case.bed.depth_cm is None:
        return named(parameter("d", row, SumUnit.CM, path="bed.depth", assumed=True), name)
    return said("d", name, bed.context.depth_cm, SumUnit.CM, "bed.depth")


def density(bed: OpenedBed) -> SumInput:
    """Dry weight of the soil by volume."""
    known = bed.case.soil.bulk_density_g_cm3 is not None
    return SumInput(
        symbol="ρ",
        name=message("why-in-density"),
        value=require_soil(bed.context).bulk_density_g_cm3,
        unit=SumUnit.G_CM3,
        origin=Origin.CASE if known else Origin.ASSUMED,
        path="soil.bulk_density_g_cm3",
    )


def scale(bed: OpenedBed) -> SumInput:
    """How strongly this soil resists against the average curve."""
    k = require_soil(bed.context).k
    refit = bed.answer.refit
    learned = bool(k.measured) or (refit is not None and refit.used)
    topic, _, name = _scale_row(bed).partition(".")
    row = load_parameters()[topic][name]
    return SumInput(
        symbol="k",
        name=message("why-in-scale", measured="yes" if learned else "no"),
        value=10.0**k.log10_k_mean,
        unit=SumUnit.NONE,
        origin=Origin.CASE if learned else Origin.TABLE,
        path=(k.measured[0].path if k.measured else "reading") if learned else "",
        row="" if learned else _scale_row(bed),
        source_key="" if learned else row.source_key,
        evidence=None if learned else row.evidence,
        low=10.0 ** (k.log10_k_mean - Z90 * k.log10_k_sd),
        high=10.0 ** (k.log10_k_mean + Z90 * k.log10_k_sd),
    )


def test_error(error_ph: float) -> SumInput:
    """The error of one careful test, with the scatter of its year.

    Parameters
    ----------
    error_ph
        Standard deviation [pH].
    """
    row = load_parameters()["verdict"]["reading_scatter_sd"]
    return SumInput(
        symbol="e",
        name=message("why-in-test-error"),
        value=error_ph,
        unit=SumUnit.PH,
        origin=Origin.TABLE,
        row="verdict.reading_scatter_sd",
        source_key=row.source_key,
        evidence=row.evidence,
    )


def gram(*, acidify: bool) -> SumInput:
    """Sulfur that makes one mmolc of acid, or lime that takes it up.

    Parameters
    ----------
    acidify
        True for sulfur, false for lime.
    """
    if acidify:
        name = message("why-in-gram-sulfur")
        return fixed("g", name, SULFUR_G_PER_MMOLC, SumUnit.G_MMOLC)
    return fixed("g", message("why-in-gram-lime"), CACO3_G_PER_MMOLC, SumUnit.G_MMOLC)


def mass_step(bed: OpenedBed) -> SumStep:
    """The step that weighs the soil to be treated."""
    d, r = depth(bed), density(bed)
    return SumStep(
        says=message("why-step-mass"),
        symbol="m",
        value=soil_mass_kg_m2(depth_cm=d.value, bulk_density_g_cm3=r.value),
        unit=SumUnit.KG_M2,
        formula="{m} = 10 × {d} × {ρ}",
        inputs=(d, r),
    )


def _scale_row(bed: OpenedBed) -> str:
    """The row that says how far soils of what is known depart from the average curve."""
    if bed.context.organic_only:
        return "topsoil.log10_k_sd_peat"
    if "soil.texture" in bed.context.assumed:
        return "verdict.log10_k_sd_texture_unknown"
    if "soil.organic_matter_pct" in bed.context.assumed:
        return "buffer_scale.log10_k_sd_carbon_unknown"
    return "buffer_scale.log10_k_sd_between_sources"


def _origin(bed: OpenedBed, path: str) -> Origin:
    return Origin.ASSUMED if path in bed.context.assumed else Origin.CASE
