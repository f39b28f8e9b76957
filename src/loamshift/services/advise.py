"""One case, the whole answer: verdict, dose, dated parts, cost, upkeep, rescue, claims."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from loamshift import __version__
from loamshift.domain.answer import (
    WIDTH_CHECK,
    Answer,
    Direction,
    Finding,
    Forecast,
    MadeBy,
    Option,
    Severity,
    SourceLine,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.material import LimeGrade
from loamshift.domain.worth import Worth
from loamshift.services.belief.bed_run import Runner
from loamshift.services.cautions.amount_checks import amount_findings
from loamshift.services.cautions.cautions import cautions
from loamshift.services.cautions.checks import findings
from loamshift.services.cautions.missing import missing
from loamshift.services.cautions.nutrient_checks import magnesium
from loamshift.services.cautions.unused_facts import with_unused_facts
from loamshift.services.claim.settle import CLAIM_MEMBERS, settle_claims
from loamshift.services.context.aim import wanted
from loamshift.services.context.build_context import build_context
from loamshift.services.context.warmth import soil_temperature, start_date
from loamshift.services.courses.seasons import choose_material
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.forecast.subsoil import subsoil_of, subsoil_source
from loamshift.services.plan.dose import dose
from loamshift.services.plan.plan import Plan, first_season_mmolc_m2, plan_of
from loamshift.services.products.options import options
from loamshift.services.rescue.rescue import rescue
from loamshift.services.upkeep.upkeep import upkeep
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.words import verdict
from loamshift.services.worth.pricing import NO_PRICES, Prices
from loamshift.services.worth.worth import most_telling_first, worth_of_tests
from loamshift.tables.lime_grades import grade_sources
from loamshift.tables.parameters import load_parameters
from loamshift.tables.references import citation
from loamshift.tables.rows import tables_fingerprint

if TYPE_CHECKING:
    from loamshift.services.look import Look

MODEL = "layer-1"
"""Name of the model behind an answer without a forecast: one mixed layer for each bed."""
FORECAST_MODEL = "belief-1, column-2"
"""The same by the compiled column, its beds weighed by every reading."""
CURVE_ROWS = (
    "organic_slope_mmolc_kg_ph_per_pct",
    "clay_slope_mmolc_kg_ph_per_pct",
    "organic_site1_molc_kg",
    "al_midpoint_ph",
)
"""The rows of the buffer curve whose sources a letter names; all of them open with ``why``."""
POT_SOURCES = ("rhs-containers",)
"""Where the life of a potting mix comes from."""
OWN_KEYS = ("own-judgement", "own-arithmetic", "common-practice")


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAhead:
    """How to forecast: members of the column, seed of their draw, years from today.

    ``refit`` false sets aside what later readings teach about the bed.
    """

    members: int = 250
    seed: int = 1
    years: int = 3
    refit: bool = True


def advise(
    case: Case,
    *,
    look_ahead: LookAhead | None = None,
    refit: bool = True,
    prices: Prices = NO_PRICES,
) -> Answer:
    """The answer to one case, from one belief about the bed and one judgement.

    Everything in it, verdict, plan, forecast and upkeep, comes from the same possible beds: by
    the column where a forecast is asked for, by one mixed layer each where none is.

    Parameters
    ----------
    look_ahead
        How to forecast; None leaves the forecast keys empty.
    refit
        False leaves earlier readings aside where there is no forecast.
    prices
        The reader's own prices of tests, which override the case's [currency of the case].
    """
    return advise_with_look(case, look_ahead=look_ahead, refit=refit, prices=prices)[0]


def advise_with_look(
    case: Case,
    *,
    look_ahead: LookAhead | None = None,
    refit: bool = True,
    prices: Prices = NO_PRICES,
) -> tuple[Answer, Look | None]:
    """The answer to one case, and the look by the column behind it where there was one.

    The parameters are those of ``advise``.
    """
    context = build_context(case)
    beyond = None if look_ahead is None else beyond_forecast(context)
    if look_ahead is None or context.soil is None or beyond is not None:
        decided = decide(context, refit=refit if look_ahead is None else look_ahead.refit)
        context, judged = decided.context, decided.judged
        worth = worth_of_tests(context, decided.beds, judged, prices=prices)
        answer = _answer(
            context, judged, plan_of(context, judged), worth, beds=decided.beds, look_ahead=None
        )
        answer = replace(answer, refit=decided.refit)
        if beyond is not None:
            answer = replace(answer, findings=(*answer.findings, beyond))
        return with_unused_facts(context, answer), None
    from loamshift.services.look import look_with_column  # loads the compiler

    look = look_with_column(
        context,
        members=look_ahead.members,
        seed=look_ahead.seed,
        years=look_ahead.years,
        refit=look_ahead.refit,
    )
    assert look.outlook is not None
    answer = _answer(
        look.context,
        look.judged,
        look.plan,
        worth_of_tests(
            look.context,
            look.beds,
            look.judged,
            prices=prices,
            width=look.outlook.forecast.width,
        ),
        beds=look.beds,
        look_ahead=look_ahead,
        ahead=look.outlook.forecast,
    )
    return with_unused_facts(look.context, _with_forecast(answer, look, look_ahead)), look


def _answer(
    context: BedContext,
    judged: Judgement,
    plan: Plan,
    worth: Worth,
    *,
    beds: Runner | None,
    look_ahead: LookAhead | None,
    ahead: Forecast | None = None,
) -> Answer:
    case = context.case
    amount = dose(context, judged)
    ways = _options(context, judged, plan)
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
    ledger, keeping = upkeep(context, judged, ahead=ahead)
    warned = cautions(context, judged, applications=plan.applications, options=ways)
    below = subsoil_of(context)
    checked = (
        *findings(context, reason=judged.reason),
        *amount_findings(context),
        *magnesium(case, compared=[option.material for option in ways]),
    )
    return Answer(
        name=case.name,
        today=case.today,
        made_by=MadeBy(version=__version__, model=MODEL, tables=tables_fingerprint()),
        verdict=verdict(context, judged, plan.rule),
        findings=checked,
        missing=most_telling_first(missing(context, judged), worth),
        worth=worth,
        wanted=wanted(context),
        dose=amount,
        plan=plan.rule,
        branches=judged.branches,
        applications=plan.applications,
        options=ways,
        too_early_before=plan.too_early_before,
        retest=plan.retest,
        forecast=None,
        soil_temperature=soil_temperature(context),
        subsoil=below,
        refit=None,
        rescue=rescue(context, judged, beds),
        upkeep=keeping,
        ledger=ledger,
        claims=settled,
        cautions=warned,
        sources=_sources(
            context,
            judged,
            [caution.source_key for caution in warned]
            + [row.source_key for row in checked]
            + [subsoil_source(below)],
        ),
        balance_error=None,
    )


def _with_forecast(answer: Answer, look: Look, look_ahead: LookAhead) -> Answer:
    from loamshift.services.forecast.subsoil_depths import with_depths  # loads the compiler
    from loamshift.services.pot.compare import pot_or_ground

    assert look.outlook is not None
    width = Finding(
        check=WIDTH_CHECK,
        value=None,
        operator="",
        limit=None,
        unit="",
        passed=True,
        severity=Severity.INFO,
        comment=look.outlook.width_words,
    )
    pots = pot_or_ground(
        look.context,
        look.judged,
        look.plan,
        answer.upkeep,
        members=look_ahead.members,
        seed=look_ahead.seed,
    )
    return replace(
        answer,
        made_by=replace(
            answer.made_by,
            model=FORECAST_MODEL,
            seed=look_ahead.seed,
            members=look.members,
            years=look_ahead.years,
        ),
        findings=(*answer.findings, width),
        forecast=look.outlook.forecast,
        subsoil=None
        if answer.subsoil is None
        else with_depths(
            answer.subsoil, look.possible_beds, answer.applications, years=look_ahead.years
        ),
        pot_or_ground=pots,
        sources=_with_sources(answer.sources, () if pots is None else POT_SOURCES),
        refit=look.refit,
        balance_error=look.outlook.balance_error,
    )


def _options(context: BedContext, judged: Judgement, plan: Plan) -> tuple[Option, ...]:
    """Other ways to bring what the first season's part brings."""
    if plan.rule is None or judged.direction is Direction.NONE:
        return ()
    acidify = judged.direction is Direction.ACIDIFY
    acid = first_season_mmolc_m2(
        context, rule=plan.rule, applications=plan.applications, direction=judged.direction
    )
    return options(
        context,
        acid_mmolc_m2=acid,
        direction=judged.direction,
        on_hand=context.case.on_hand,
        start=start_date(context, acidify=acidify, not_before=context.case.today),
    )


def _sources(
    context: BedContext, judged: Judgement, keys: list[str | None]
) -> tuple[SourceLine, ...]:
    """Every published source this answer leans on, once, in order of use."""
    used: list[str | None] = []
    if context.target is not None:
        used.extend(context.target.source_keys)
    if judged.direction is not Direction.NONE:
        used.extend(load_parameters()["buffer"][name].source_key for name in CURVE_ROWS)
    if context.place is not None:
        used.append(context.place.source_key)
    if judged.direction is Direction.ACIDIFY:
        used.extend(
            load_parameters()["sulfur"][name].source_key
            for name in ("rate_ug_cm2_d", "activation_energy_kj_mol", "moisture_optimum")
        )
    if judged.direction is Direction.LIME:
        grade = choose_material(context, acidify=False)[0].lime_grade
        used.extend(() if grade is LimeGrade.TOLD else grade_sources(grade))
    return _with_sources((), [key for key in (*used, *keys) if key and key not in OWN_KEYS])


def _with_sources(known: Sequence[SourceLine], keys: Iterable[str]) -> tuple[SourceLine, ...]:
    """Sources with those of some keys after them, each once."""
    listed = dict.fromkeys((*(line.key for line in known), *keys))
    return tuple(SourceLine(key=key, citation=citation(key)) for key in listed)
