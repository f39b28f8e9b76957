"""Soils that the forecast does not reach: the answer stands without it and says so."""

from __future__ import annotations

from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH
from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message
from loamshift.services.context.sodium import caustic_put_on
from loamshift.services.verdict.doubts import hardly_a_soil, likely_sodic, lime_contradicts_ph
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

REACH_CHECK = "reach of the forecast"
"""Name of the finding that says why there is no forecast."""


def beyond_forecast(context: BedContext) -> Finding | None:
    """Whether a soil lies beyond the reach of the forecast, as a finding.

    Returns
    -------
    Finding or None
        Why there is no forecast; None where there can be one, or no pH was read.

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
            comment=message("expect-no-forecast-sodium"),
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
            comment=message("expect-no-forecast-rough"),
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
            comment=message("expect-no-forecast-contradiction"),
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
            comment=message("expect-no-forecast-sodium-likely", products=caustic_put_on(context)),
        )
    high = ph >= HIGHEST_TABLE_PH
    return Finding(
        check=REACH_CHECK,
        value=round(ph, 1),
        operator="<" if high else ">",
        limit=HIGHEST_TABLE_PH if high else LOWEST_TABLE_PH,
        unit="pH in water",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("expect-no-forecast-beyond", end="high" if high else "low"),
    )
