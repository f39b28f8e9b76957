"""One case, the whole answer: verdict, dose, dated parts, cost, upkeep, rescue, claims."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from loamshift import __version__
from loamshift.domain.answer import (
    WIDTH_CHECK,
    Answer,
    Decision,
    Direction,
    Dose,
    Finding,
    MadeBy,
    Option,
    Severity,
    SourceLine,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.services.cautions.amount_checks import amount_findings
from loamshift.services.cautions.cautions import cautions
from loamshift.services.cautions.checks import findings
from loamshift.services.cautions.missing import missing
from loamshift.services.claim.settle import CLAIM_MEMBERS, settle_claims
from loamshift.services.context.aim_and_warmth import soil_temperature, wanted
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.materials.options import options
from loamshift.services.plan.dose import dose
from loamshift.services.plan.parts import plan, start_date
from loamshift.services.rescue.rescue import rescue
from loamshift.services.upkeep.upkeep import upkeep
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.decision_table import Outcome
from loamshift.services.verdict.words import verdict
from loamshift.tables.parameters import load_parameters
from loamshift.tables.references import citation
from loamshift.tables.rows import tables_fingerprint

if TYPE_CHECKING:
    from loamshift.services.plan.dose_forecast import Ahead

MODEL = "static-1"
"""Name of the model behind an answer: curve, carbonate ledger, water ledger, caps, soil clock."""

CURVE_ROWS = (
    "organic_slope_mmolc_kg_ph_per_pct",
    "clay_slope_mmolc_kg_ph_per_pct",
    "organic_site1_molc_kg",
    "al_midpoint_ph",
)
"""The rows of the buffer curve whose sources a letter names; all of them open with ``why``."""
OWN_KEYS = ("own-judgement", "own-arithmetic", "common-practice")


FORECAST_MODEL = "static-1, column-2"
"""The same with the forecast of the compiled column beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAhead:
    """How to forecast: members drawn, seed of the draw, years from today.

    ``refit`` false sets aside what later readings teach about the bed.
    """

    members: int = 400
    seed: int = 1
    years: int = 3
    refit: bool = True


def advise(case: Case, *, look_ahead: LookAhead | None = None) -> Answer:
    """The answer to one case: by the static path, and with a forecast where one is asked for.

    Decision and static dose never come from the forecast. With one, the parts, their tests and
    the amount beside the static dose do.

    Parameters
    ----------
    case
        The case as read [object].
    look_ahead
        How to forecast; None leaves the forecast keys empty [object].

    Returns
    -------
    Answer
        Every key of the public answer [object].
    """
    context = build_context(case)
    outcome = decide(context)
    amount = dose(context, outcome)
    ahead = None
    beyond = None if look_ahead is None else beyond_forecast(context)
    if look_ahead is not None and context.soil is not None and beyond is None:
        ahead = _looked_ahead(context, outcome, amount, look_ahead)
    parts = plan(context, outcome, amount) if ahead is None else ahead.plan
    ways = _options(context, outcome, amount.acid_mmolc_kg.mid if amount.acid_mmolc_kg else 0.0)
    settled = (
        settle_claims(context, case.claims)
        if look_ahead is None
        else settle_claims(
            context,
            case.claims,
            seed=look_ahead.seed,
            members=min(look_ahead.members, CLAIM_MEMBERS),
        )
    )
    ledger, keeping = upkeep(context)
    warned = cautions(
        context, outcome, applications=parts.applications, options=ways, claims=settled
    )
    checked = (*findings(context), *amount_findings(context))
    if beyond is not None:
        checked = (*checked, beyond)
    answer = Answer(
        name=case.name,
        today=case.today,
        made_by=MadeBy(version=__version__, model=MODEL, tables=tables_fingerprint()),
        verdict=verdict(
            context, outcome, amount, planned_parts=len(parts.applications) if ahead else 0
        ),
        findings=checked,
        missing=missing(context, outcome),
        wanted=wanted(context),
        dose=amount,
        applications=parts.applications,
        options=ways,
        too_early_before=parts.too_early_before,
        retest=parts.retest,
        forecast=None,
        soil_temperature=soil_temperature(context),
        refit=None,
        rescue=rescue(context),
        upkeep=keeping,
        ledger=ledger,
        claims=settled,
        cautions=warned,
        sources=_sources(
            context,
            outcome,
            [caution.source_key for caution in warned] + [row.source_key for row in checked],
        ),
        balance_error=None,
    )
    if look_ahead is None or ahead is None:
        return answer
    return _with_forecast(answer, ahead, look_ahead)


def _looked_ahead(context: BedContext, outcome: Outcome, dose: Dose, how: LookAhead) -> Ahead:
    from loamshift.services.plan import dose_forecast  # loads the compiler, so only when asked

    return dose_forecast.look_ahead(
        context, outcome, dose, members=how.members, seed=how.seed, years=how.years
    )


def _with_forecast(answer: Answer, ahead: Ahead, look_ahead: LookAhead) -> Answer:
    outlook = ahead.outlook
    width = Finding(
        check=WIDTH_CHECK,
        value=None,
        operator="",
        limit=None,
        unit="",
        passed=True,
        severity=Severity.INFO,
        comment=outlook.width_words,
    )
    return replace(
        answer,
        made_by=replace(
            answer.made_by,
            model=FORECAST_MODEL,
            seed=look_ahead.seed,
            members=look_ahead.members,
            years=look_ahead.years,
        ),
        findings=(*answer.findings, width),
        dose=replace(answer.dose, by_forecast=ahead.by_forecast),
        forecast=outlook.forecast,
        balance_error=outlook.balance_error,
    )


def _options(context: BedContext, outcome: Outcome, acid_mmolc_kg: float) -> tuple[Option, ...]:
    acting = (Decision.GO, Decision.EFFORT, Decision.MEASURE_FIRST)
    if outcome.direction is Direction.NONE or outcome.decision not in acting or not acid_mmolc_kg:
        return ()
    acidify = outcome.direction is Direction.ACIDIFY
    return options(
        context,
        acid_mmolc_m2=abs(acid_mmolc_kg) * context.soil_mass_kg_m2,
        direction=outcome.direction,
        on_hand=context.case.on_hand,
        start=start_date(context, acidify=acidify, not_before=context.case.today),
    )


def _sources(
    context: BedContext, outcome: Outcome, keys: list[str | None]
) -> tuple[SourceLine, ...]:
    """Every published source this answer leans on, once, in order of use."""
    used: list[str | None] = []
    if context.target is not None:
        used.extend(context.target.source_keys)
    if outcome.direction is not Direction.NONE:
        used.extend(load_parameters()["buffer"][name].source_key for name in CURVE_ROWS)
    if context.place is not None:
        used.append(context.place.source_key)
    if outcome.direction is Direction.ACIDIFY:
        used.extend(
            load_parameters()["sulfur"][name].source_key
            for name in ("rate_ug_cm2_d", "activation_energy_kj_mol", "moisture_optimum")
        )
    listed = dict.fromkeys(key for key in (*used, *keys) if key and key not in OWN_KEYS)
    return tuple(SourceLine(key=key, citation=citation(key)) for key in listed)
