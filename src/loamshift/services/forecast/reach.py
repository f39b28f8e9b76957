"""Soils that the forecast does not reach: the answer stands without it and says so."""

from __future__ import annotations

from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH
from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.services.verdict.doubts import hardly_a_soil, likely_sodic, lime_contradicts_ph
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

REACH_CHECK = "reach of the forecast"
"""Name of the finding that says why there is no forecast."""


def beyond_forecast(context: BedContext) -> Finding | None:
    """Whether a soil lies beyond the reach of the forecast, as a finding.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Finding or None
        Why there is no forecast; None where there can be one, or no pH was read [row].

    Notes
    -----
    Above pH 9.5, and mostly above 8.5, sodium holds the pH and not lime, and below 2 iron and
    acid sulfates do: neither is in the forecast, so a wider curve would only hide that.

    References
    ----------
    own-judgement
    """
    if context.soil is None:
        return None
    sodium, sodic = context.case.soil.sodium_pct, verdict_values()["sodic_pct"]
    if sodium is not None and sodium > sodic:
        return Finding(
            check=REACH_CHECK,
            value=sodium,
            operator="<=",
            limit=sodic,
            unit="% exchangeable sodium",
            passed=False,
            severity=Severity.CAUTION,
            comment="Sodium holds the pH of this soil, and the forecast knows lime only: there is "
            "none for it.",
        )
    ph = context.soil.ph.ph_water
    if hardly_a_soil(context):
        return Finding(
            check=REACH_CHECK,
            value=round(ph, 1),
            operator=">=" if ph < verdict_values()["harmful_ph"] else "<=",
            limit=verdict_values()["harmful_ph"]
            if ph < verdict_values()["harmful_ph"]
            else parameter_values("plan")["rough_highest_ph"],
            unit="pH in water",
            passed=False,
            severity=Severity.CAUTION,
            comment="So rough a reading is likelier to be wrong than the soil to be so, and there "
            "is nothing to forecast from.",
        )
    if lime_contradicts_ph(context):
        return Finding(
            check=REACH_CHECK,
            value=round(ph, 1),
            operator=">=",
            limit=parameter_values("plan")["lime_contradicts_ph"],
            unit="pH in water",
            passed=False,
            severity=Severity.CAUTION,
            comment="The pH and the free lime do not fit each other, so there is nothing to "
            "forecast from.",
        )
    if LOWEST_TABLE_PH < ph < HIGHEST_TABLE_PH and not likely_sodic(context):
        return None
    if likely_sodic(context):
        return Finding(
            check=REACH_CHECK,
            value=round(ph, 1),
            operator="<",
            limit=verdict_values()["sodic_suspect_ph"],
            unit="pH in water",
            passed=False,
            severity=Severity.CAUTION,
            comment="Sodium most likely holds the pH of this soil, and the forecast knows lime "
            "only: there is none until sodium has been tested.",
        )
    high = ph >= HIGHEST_TABLE_PH
    why = (
        "Sodium holds a soil so alkaline, and the forecast knows lime only"
        if high
        else "Iron and acid sulfates hold a soil so acid, and the forecast knows neither"
    )
    return Finding(
        check=REACH_CHECK,
        value=round(ph, 1),
        operator="<" if high else ">",
        limit=HIGHEST_TABLE_PH if high else LOWEST_TABLE_PH,
        unit="pH in water",
        passed=False,
        severity=Severity.CAUTION,
        comment=f"{why}: there is none for this soil. The rest of the answer stands without it; "
        "have the reading confirmed by a laboratory.",
    )
