"""Organic matter and bulk density that hardly go together in one soil."""

from __future__ import annotations

from loamshift.core.topsoil import bulk_density_g_cm3, mineral_density_g_cm3
from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message, percent
from loamshift.services.cautions.entry_doubts import figure_told
from loamshift.services.cautions.target_checks import finding_row
from loamshift.tables.soils import topsoil_parameters
from loamshift.units import organic_matter_pct_from_organic_carbon_pct

_UNIT = "g/cm³"


def density_with_humus(context: BedContext) -> Finding | None:
    """A bulk density at which the organic matter alone would fill more room than the soil has.

    A core and a loss on ignition may come so from hard packed ground or from two samples: both are
    used, and asked about, never refused.

    Returns
    -------
    Finding or None
        None where either was not told, in mixes, and where they go together [g/cm3].

    Notes
    -----
    By the mixing law of ``core.topsoil``; what such soil usually weighs is that of pure sand with
    so much organic matter.

    References
    ----------
    adams-1973
    """
    entry, soil = context.case.soil, context.soil
    told = entry.organic_matter_pct is not None or entry.organic_carbon_pct is not None
    if soil is None or context.organic_only or entry.bulk_density_g_cm3 is None or not told:
        return None
    params = topsoil_parameters()
    matter = min(organic_matter_pct_from_organic_carbon_pct(soil.organic_carbon_pct), 100.0)
    if matter / 100.0 * soil.bulk_density_g_cm3 < params.organic_density_g_cm3:
        return None
    sand = mineral_density_g_cm3(sand_pct=100.0, clay_pct=0.0, params=params)
    usual = bulk_density_g_cm3(mineral_g_cm3=sand, organic_matter_pct=matter, params=params)
    return finding_row(
        "bulk density beside organic matter",
        value=float(f"{soil.bulk_density_g_cm3:.4g}"),
        operator="<",
        limit=float(f"{usual:.2g}"),
        unit=_UNIT,
        passed=False,
        severity=Severity.CAUTION,
        comment=message(
            "check-density-with-humus",
            matter=percent(matter),
            density=figure_told(soil.bulk_density_g_cm3, _UNIT),
            usual=figure_told(float(f"{usual:.1g}"), _UNIT),
        ),
        source_key="adams-1973",
    )
