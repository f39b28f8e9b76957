"""What a potting mix without a measured curve is taken for, and how little that is known."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message, number
from loamshift.domain.soil import Medium
from loamshift.services.cautions.target_checks import finding_row
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
