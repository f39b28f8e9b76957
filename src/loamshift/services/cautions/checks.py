"""Checks of the entry: every doubt about a case as a row of value, limit, pass and comment."""

from __future__ import annotations

from collections.abc import Iterator

from loamshift.core.salinity import al_saturation_frac
from loamshift.domain.answer import Finding, Reason, Severity, Worded
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, Drainage, Site
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    choice,
    depth,
    message,
    percent,
    ph,
    rate,
    salt,
)
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.cautions.density_check import density_with_humus
from loamshift.services.cautions.entry_doubts import entry_doubt_findings
from loamshift.services.cautions.medium_check import growing_medium, peaty_ground
from loamshift.services.cautions.nutrient_checks import phosphorus
from loamshift.services.cautions.reading_checks import reading_findings
from loamshift.services.cautions.reading_words import reading_told
from loamshift.services.cautions.target_checks import (
    CACL2_STEP_PH,
    finding_row,
    range_agreed,
    shared_range,
    target_in_range,
    target_method,
    wanted_too_soon,
)
from loamshift.services.context.plateau import lime_left_over_ph
from loamshift.services.context.readings import OLDEST_D, current_reading
from loamshift.services.context.salt_put_on import salt_limit_ds_m, too_much_salt
from loamshift.services.context.salt_words import salt_words
from loamshift.services.context.scale_words import scale_doubt
from loamshift.services.context.sodium import caustic_put_on
from loamshift.services.verdict.doubts import likely_sodic
from loamshift.services.verdict.stops import saturated_ec
from loamshift.tables.model import buffer_parameters, salinity_parameters, verdict_values

ACID_WITH_LIME_PH = 6.5
DEPTH_FACTOR = 1.5
MUCH_LIME_PCT = 1.0


def findings(context: BedContext, *, reason: Reason | None = None) -> tuple[Finding, ...]:
    """Every check of a case, passed or not.

    Parameters
    ----------
    reason
        Reason of the decision: wet ground forbids sulfur, not every other advice.

    Returns
    -------
    tuple of Finding
        One row a check, in the order of the case file.
    """
    rows: list[Finding | None] = [
        _method(context),
        _salt_above_water(context.case),
        _buffer_for_ph(context),
        _lime_with_acid(context),
        target_method(context.case),
        target_in_range(context),
        _old_sample(context.case),
        *reading_findings(context),
        _sample_depth(context),
        range_agreed(context),
        shared_range(context.case),
        _salt(context),
        _salt_for_some(context),
        _salt_put_on(context) if reason is Reason.SALT else None,
        _aluminium(context),
        _sodium(context),
        _drainage(context, blocks=reason is Reason.WATERLOGGED),
        _site(context),
        _hardness(context.case),
        _volcanic(context),
        growing_medium(context),
        peaty_ground(context),
        density_with_humus(context),
        phosphorus(context.case),
        _laboratory_lime(context),
        wanted_too_soon(context.case),
        *_doubted_measurements(context),
        *entry_doubt_findings(context.case),
        *map(_noted, (*context.case.findings, *context.case.notes)),
    ]
    return tuple(row for row in rows if row is not None)


def _method(context: BedContext) -> Finding | None:
    if context.soil is None:
        return None
    method = context.soil.ph.method
    rough = method.is_rough
    return finding_row(
        "pH method",
        value=method.value,
        operator="is",
        limit="a laboratory method",
        unit="",
        passed=not rough,
        severity=Severity.CAUTION,
        comment=_method_words(context, method),
        source_key="own-judgement" if rough else None,
    )


def _method_words(context: BedContext, method: PhMethod) -> Message | Prose:
    if method is PhMethod.UNKNOWN:
        return message("check-method-unknown", step=ph(CACL2_STEP_PH))
    if method.is_rough:
        return message(f"check-method-{choice(method.value)}")
    reading = current_reading(context.case)
    if reading is None:
        return Prose()
    return message("check-method-laboratory", reading=reading_told(reading))


def _salt_above_water(case: Case) -> Finding | None:
    readings: list[PhReading] = [*([case.soil.ph] if case.soil.ph else []), *case.soil.other_ph]
    salty = [reading.ph for reading in readings if reading.method.is_salt]
    water = [reading.ph for reading in readings if reading.method.is_water]
    if not salty or not water:
        return None
    passed = max(salty) <= max(water)
    return finding_row(
        "salt pH against water pH",
        value=max(salty),
        operator="<=",
        limit=max(water),
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-salt-water-ok" if passed else "check-salt-water-odd"),
        source_key="nsw-dpi-acidity-2021",
    )


def _buffer_for_ph(context: BedContext) -> Finding | None:
    entry = context.case.soil
    if entry.buffer_ph is None or context.soil is None:
        return None
    ph_water = context.soil.ph.ph_water
    passed = ph_water < entry.buffer_ph + 0.3
    return finding_row(
        "buffer pH against soil pH",
        value=entry.buffer_ph,
        operator=">",
        limit=round(ph_water, 2),
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-buffer-ok" if passed else "check-buffer-odd"),
    )


def _lime_with_acid(context: BedContext) -> Finding | None:
    if context.soil is None or not context.soil.carbonate.measured:
        return None
    value = context.soil.carbonate.high_pct
    passed = not (value > MUCH_LIME_PCT and context.soil.ph.ph_water < ACID_WITH_LIME_PH)
    return finding_row(
        "free lime against pH",
        value=value,
        operator="<=",
        limit=MUCH_LIME_PCT,
        unit="% CaCO3",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-lime-ok")
        if passed
        else message("check-lime-odd", limit=percent(MUCH_LIME_PCT)),
        source_key="own-judgement",
    )


def _old_sample(case: Case) -> Finding | None:
    reading = current_reading(case)
    taken = case.soil.sampled if reading is None else reading.taken
    if taken is None or (taken == case.today and not _is_dated_today(case)):
        return None
    age = (case.today - taken).days
    if age > OLDEST_D:
        return None  # another row says that it is not used
    limit = verdict_values()["old_sample_days"]
    return finding_row(
        "age of the sample",
        value=float(age),
        operator="<=",
        limit=limit,
        unit="days",
        passed=age <= limit,
        severity=Severity.CAUTION,
        comment=message("check-age-ok")
        if age <= limit
        else message("check-age-old", age=Measure(Quantity.YEARS, round(limit / 365.0))),
        source_key="common-practice",
    )


def _is_dated_today(case: Case) -> bool:
    """True where a date of today was given, not put in for one that nobody gave."""
    dates = (case.soil.sampled, *(reading.taken for reading in case.readings))
    return case.today in dates


def _sample_depth(context: BedContext) -> Finding | None:
    reading = current_reading(context.case)
    sampled = (reading.depth_cm if reading else None) or context.case.soil.sample_depth_cm
    if sampled is None:
        return None
    passed = 1 / DEPTH_FACTOR <= sampled / context.depth_cm <= DEPTH_FACTOR
    return finding_row(
        "sampled depth against treated depth",
        value=sampled,
        operator="near",
        limit=context.depth_cm,
        unit="cm",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-depth-ok")
        if passed
        else message("check-depth-odd", sampled=depth(sampled), treated=depth(context.depth_cm)),
        source_key="common-practice",
    )


def _salt(context: BedContext) -> Finding | None:
    ece = saturated_ec(context)
    if ece is None:
        if context.case.soil.ec_ds_m is None or (
            context.soil is None and context.case.soil.ec_method is not None
        ):
            return None
        return finding_row(
            "salt of the soil",
            value=context.case.soil.ec_ds_m,
            operator="is",
            limit="paste, 1:1 or 1:5",
            unit="dS/m",
            passed=False,
            severity=Severity.CAUTION,
            comment=message("check-salt-no-extract"),
        )
    limit = salt_limit_ds_m(context)
    return finding_row(
        "salt of the soil",
        value=round(ece, 2),
        operator="<=",
        limit=limit,
        unit="dS/m, saturated paste",
        passed=ece <= limit,
        severity=Severity.BLOCK,
        comment=message("check-salt-ok")
        if ece <= limit
        else message(
            "check-salt-high", ece=salt(ece, against=limit), limit=salt(limit, against=ece)
        ),
        source_key="ussl-1954",
    )


def _salt_for_some(context: BedContext) -> Finding | None:
    """Salt that most plants bear and sensitive ones do not.

    References
    ----------
    maas-hoffman-1977
    """
    ece, limit = saturated_ec(context), salt_limit_ds_m(context)
    sensitive = verdict_values()["salt_sensitive_ece_ds_m"]
    if ece is None or not sensitive < ece <= limit:
        return None
    return finding_row(
        "salt for sensitive plants",
        value=round(ece, 2),
        operator="<=",
        limit=sensitive,
        unit="dS/m, saturated paste",
        passed=False,
        severity=Severity.CAUTION,
        comment=message(
            "check-salt-sensitive",
            ece=salt(ece, against=sensitive),
            limit=salt(limit, against=ece),
        ),
        source_key="maas-hoffman-1977",
    )


def _salt_put_on(context: BedContext) -> Finding | None:
    put_on = too_much_salt(context)
    if put_on is None:
        return None
    return finding_row(
        "salt of what was applied",
        value=round(put_on.ece_ds_m, 2),
        operator="<=",
        limit=put_on.limit_ds_m,
        unit="dS/m, saturated paste",
        passed=False,
        severity=Severity.BLOCK,
        comment=salt_words(put_on),
        source_key="ussl-1954",
    )


def _aluminium(context: BedContext) -> Finding | None:
    if context.soil is None or context.organic_only:
        return None
    params = buffer_parameters()
    share = float(
        al_saturation_frac(
            context.soil.ph.ph_water, p_al=params.al_midpoint_ph, n_al=params.al_steepness
        )
    )
    limit = salinity_parameters().al_harmless_frac
    if share < 0.02:
        return None
    return finding_row(
        "aluminium on the exchange sites",
        value=round(share, 2),
        operator="<=",
        limit=limit,
        unit="share",
        passed=share <= limit,
        severity=Severity.CAUTION,
        comment=message("check-aluminium-ok")
        if share <= limit
        else message("check-aluminium-high", share=Measure(Quantity.SHARE, share)),
        source_key="malavolta-classes",
    )


def _sodium(context: BedContext) -> Finding | None:
    sodium = context.case.soil.sodium_pct
    if sodium is None:
        return _sodium_suspected(context)
    limit = verdict_values()["sodic_pct"]
    return finding_row(
        "exchangeable sodium",
        value=sodium,
        operator="<=",
        limit=limit,
        unit="%",
        passed=sodium <= limit,
        severity=Severity.BLOCK,
        comment=message("check-sodium-ok" if sodium <= limit else "check-sodium-high"),
        source_key="ussl-1954",
    )


def _sodium_suspected(context: BedContext) -> Finding | None:
    soil = context.soil
    if soil is None or not likely_sodic(context):
        return None
    return finding_row(
        "sodium nobody has tested",
        value=round(soil.ph.ph_water, 1),
        operator="<",
        limit=verdict_values()["sodic_suspect_ph"],
        unit="pH in water",
        passed=False,
        severity=Severity.CAUTION,
        comment=message(
            "check-sodium-suspected",
            products=caustic_put_on(context),
            held=ph(lime_left_over_ph()),
        ),
        source_key="ussl-1954",
    )


def _drainage(context: BedContext, *, blocks: bool) -> Finding | None:
    drainage = context.case.bed.drainage
    if drainage is None:
        return None
    wet = drainage is Drainage.WATERLOGGED
    return finding_row(
        "drainage",
        value=drainage.value,
        operator="is not",
        limit="waterlogged",
        unit="",
        passed=not wet,
        severity=Severity.BLOCK if blocks else Severity.CAUTION,
        comment=message("check-drainage-wet" if wet else "check-drainage-ok"),
        source_key="yarborough-2008" if wet else None,
    )


def _site(context: BedContext) -> Finding | None:
    site = context.case.bed.site
    if site is None:
        return None
    old = site is not Site.ORDINARY
    return finding_row(
        "former use",
        value=site.value,
        operator="is",
        limit="ordinary",
        unit="",
        passed=not old,
        severity=Severity.CAUTION,
        comment=message("check-site-old" if old else "check-site-ok"),
        source_key=None,
    )


def _hardness(case: Case) -> Finding | None:
    hardness = case.water.hardness_mg_l_as_caco3
    if hardness is None:
        return None
    return finding_row(
        "water hardness is not alkalinity",
        value=hardness,
        operator="is not",
        limit="alkalinity",
        unit="mg/L CaCO3",
        passed=case.water.alkalinity_mg_l_as_caco3 is not None,
        severity=Severity.CAUTION,
        comment=message("check-hardness"),
    )


def _volcanic(context: BedContext) -> Finding | None:
    if context.case.soil.clay_type != "volcanic":
        return None
    return finding_row(
        "clay type",
        value="volcanic",
        operator="is not",
        limit="volcanic",
        unit="",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("check-volcanic"),
        source_key=None,
    )


def _laboratory_lime(context: BedContext) -> Finding | None:
    lab = context.case.soil.lab_lime_requirement_g_m2
    if lab is None:
        return None
    return finding_row(
        "lime requirement of the laboratory",
        value=round(lab, 1),
        operator="beside",
        limit="ours",
        unit="g/m2",
        passed=True,
        severity=Severity.INFO,
        comment=message("check-laboratory-lime", lime=rate(lab)),
    )


def _doubted_measurements(context: BedContext) -> Iterator[Finding]:
    """Measurements of the soil's resistance that texture and organic matter hardly bear out."""
    if context.soil is None:
        return
    for measured in context.soil.k.measured:
        if measured.doubted:
            yield finding_row(
                f"{measured.path} against the texture",
                value=round(10.0**measured.log10_k_mean, 2),
                operator="near",
                limit=1.0,
                unit="times the usual resistance",
                passed=False,
                severity=Severity.CAUTION,
                comment=scale_doubt(measured),
                source_key="own-judgement",
            )


def _noted(remark: Worded) -> Finding:
    return finding_row(
        "as read",
        value=None,
        operator="",
        limit=None,
        unit="",
        passed=True,
        severity=Severity.INFO,
        comment=remark,
    )
