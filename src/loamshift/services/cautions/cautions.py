"""Which cautions go with an answer, those of what is really handled first."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace
from typing import Protocol

from loamshift.domain.answer import (
    Application,
    Caution,
    Decision,
    Direction,
    Option,
    Reason,
    Severity,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message
from loamshift.domain.rules import CautionKind, CautionRule
from loamshift.services.cautions.amount_checks import amount_findings
from loamshift.services.cautions.caution_facts import CautionFacts, substances_over_limit
from loamshift.services.cautions.caution_rules import (
    HANDLING_RULES,
    RULES,
    puts_sulfur_on_wet_ground,
)
from loamshift.services.context.overdose import overdoses, recent_materials
from loamshift.services.materials.named import material_named
from loamshift.tables.rules import caution_text, load_cautions


class Judged(Protocol):
    """What of a judgement the cautions depend on."""

    @property
    def decision(self) -> Decision:
        """What the adviser is told to do."""
        ...

    @property
    def direction(self) -> Direction:
        """Which way the pH is to go."""
        ...

    @property
    def reason(self) -> Reason:
        """Why."""
        ...


def cautions(
    context: BedContext,
    judged: Judged,
    *,
    applications: tuple[Application, ...],
    options: tuple[Option, ...],
) -> tuple[Caution, ...]:
    """Every caution that belongs to what is planned, proposed or lying there, and to the bed.

    Returns
    -------
    tuple of Caution
        One row a code: the hazards of what is applied, taken up or treated first, and either
        part in the order of the table.
    """
    compared = tuple(option.material for option in options)
    facts = caution_facts(context, judged, applications=applications, compared=compared)
    codes = codes_of(facts)
    handled = codes_of_handling(facts)
    found = [
        caution_from_rule(rule, handling=rule.code in handled, codes=codes)
        for rule in load_cautions().values()
        if rule.code in codes
    ]
    if not facts.overdoses and facts.reason is not Reason.OVERDOSE:
        found = [_of_proposal(caution) for caution in found]
    if not puts_sulfur_on_wet_ground(facts):
        found = [_of_what_lies(caution) for caution in found]
    return tuple(sorted(found, key=lambda caution: not caution.handling))


def _of_proposal(caution: Caution) -> Caution:
    """An overdose that is only proposed: nothing of it lies there to be scraped up."""
    if caution.code != "overdose":
        return caution
    killed = load_cautions()["overdose"].figures["killed"]
    return replace(
        caution,
        text=message("caution-overdose-proposed", killed=killed),
        short=message("caution-overdose-proposed-short"),
    )


def _of_what_lies(caution: Caution) -> Caution:
    """Wet ground to which nothing is to go: what lies there is the danger."""
    if caution.code != "hydrogen-sulfide":
        return caution
    return replace(
        caution,
        text=message("caution-hydrogen-sulfide-lying"),
        short=message("caution-hydrogen-sulfide-lying-short"),
    )


def codes_of(facts: CautionFacts) -> frozenset[str]:
    """Every code that the facts of a bed call for."""
    return frozenset(code for rule in RULES for code in rule(facts))


def codes_of_handling(facts: CautionFacts) -> frozenset[str]:
    """Hazards of what this advice has somebody handle, by code."""
    handled = replace(facts, compared=(), proposed=())
    hazards = {code for rule in HANDLING_RULES for code in rule(handled)}
    cautions = load_cautions()
    return frozenset(code for code in hazards if cautions[code].kind is CautionKind.HAZARD)


def caution_from_rule(rule: CautionRule, *, handling: bool, codes: Container[str] = ()) -> Caution:
    """A caution of an answer.

    Parameters
    ----------
    codes
        Of all cautions told together.
    """
    return Caution(
        code=rule.code,
        text=caution_text(rule, codes),
        source_key=rule.source_key,
        short=rule.short,
        handling=handling,
    )


def caution_facts(
    context: BedContext,
    judged: Judged,
    *,
    applications: tuple[Application, ...],
    compared: tuple[str, ...],
) -> CautionFacts:
    """What the rules decide on, gathered once.

    Parameters
    ----------
    compared
        Names of the products that stand beside the plan as other ways.
    """
    own = context.case.own_materials
    amounts = [row for row in amount_findings(context) if not row.passed]
    return CautionFacts(
        context=context,
        decision=judged.decision,
        direction=judged.direction,
        reason=judged.reason,
        parts=len(applications),
        planned=tuple(material_named(part.material, own=own) for part in applications),
        compared=tuple(material_named(key, own=own) for key in compared),
        proposed=tuple(claim.material for claim in context.case.claims),
        lying=recent_materials(context),
        overdoses=overdoses(context),
        over_limit=bool(amounts),
        refused=any(row.severity is Severity.BLOCK for row in amounts),
        substances_over_limit=substances_over_limit(context),
    )
