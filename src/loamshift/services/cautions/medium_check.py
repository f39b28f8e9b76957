"""What a mix without a measured curve, and peaty ground, are taken for, and what is not known."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message, number, percent
from loamshift.domain.soil import Medium
from loamshift.services.cautions.target_checks import finding_row
from loamshift.services.context.organic_soil import is_organic_soil
from loamshift.services.context.topsoil import ORGANIC_MATTER_PER_CARBON
from loamshift.tables.soils import load_media

_Z90: Final = 1.6449
"""Half the width of nine tenths of a normal distribution [sd]."""


def growing_medium(context: BedContext) -> Finding | None:
    """The mix beside peat, by volume; None where a curve is known or its own jars were titrated.

    Notes
    -----
    Organic carbon by density by scale, over the same of a peat mix; the spread is that of nine
    tenths of mixes.

    References
    ----------
    own-arithmetic, evans-1996, rippy-2007
    """
    entry = context.case.soil
    measured = entry.medium in (Medium.MINERAL, Medium.PEAT_MIX) or bool(context.case.titration)
    if context.soil is None or measured:
        return None
    mix, peat = load_media()[entry.medium], load_media()[Medium.PEAT_MIX]
    of_peat = peat.organic_carbon_pct * peat.bulk_density_g_cm3 * 10.0**peat.log10_k_mean
    of_mix = mix.organic_carbon_pct * context.soil.bulk_density_g_cm3 * 10.0**mix.log10_k_mean
    times, spread = of_mix / of_peat, 10.0 ** (_Z90 * mix.log10_k_sd)
    return finding_row(
        "growing medium",
        value=entry.medium.value,
        operator="is not",
        limit="measured",
        unit="",
        passed=False,
        severity=Severity.INFO,
        comment=message(
            "check-medium",
            medium=entry.medium.value.replace(" ", "-"),
            times=number(round(times, 1)),
            spread=number(round(spread)),
        ),
        source_key=mix.source_key,
    )


def peaty_ground(context: BedContext) -> Finding | None:
    """That ranges of plants are for mineral soil, where the ground is peaty and lies below one.

    References
    ----------
    soilcare-glossary, starr-1996, bbro-2020-ph
    """
    soil, target = context.soil, context.target
    if soil is None or target is None or not is_organic_soil(context):
        return None
    limes = soil.ph.ph_water < target.ph_low
    return finding_row(
        "peaty ground",
        value=round(soil.organic_carbon_pct, 1),
        operator="",
        limit=None,
        unit="%",
        passed=False,
        severity=Severity.CAUTION if limes else Severity.INFO,
        comment=message(
            "check-peat",
            matter=percent(
                context.case.soil.organic_matter_pct
                or soil.organic_carbon_pct * ORGANIC_MATTER_PER_CARBON
            ),
            limes="yes" if limes else "no",
        ),
        source_key="bbro-2020-ph" if limes else "soilcare-glossary",
    )
