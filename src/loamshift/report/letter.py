"""The letter of advice: the answer to one case, in the order a person wants to hear it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure, Letter, Section
from loamshift.domain.own_sum import OwnSum
from loamshift.report.figures.claims import claims_figure
from loamshift.report.figures.course import course_figure
from loamshift.report.figures.dose import dose_figure
from loamshift.report.figures.ledger import ledger_figure
from loamshift.report.figures.options import options_figure
from loamshift.report.figures.year import year_figure
from loamshift.report.front import front_sheet
from loamshift.report.holding import yearly_amount
from loamshift.report.learnt import learnt
from loamshift.report.letter_branches import depends_on
from loamshift.report.letter_care import OWN_SECTIONS, made_by, of_the_bed, sources, take_care
from loamshift.report.letter_checks import checks, worth_measuring
from loamshift.report.letter_claims import claims_settled
from loamshift.report.letter_decides import what_the_test_decides
from loamshift.report.letter_forecast import what_to_expect
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_need import how_much
from loamshift.report.letter_options import ways
from loamshift.report.letter_plan import what_to_do
from loamshift.report.letter_pot import pot_or_ground
from loamshift.report.letter_rescue import putting_right
from loamshift.report.letter_rescue_course import rescue_course
from loamshift.report.letter_subsoil import what_lies_below
from loamshift.report.letter_upkeep import keeping, what_pulls
from loamshift.report.letter_worth import reader_currency
from loamshift.report.margin import margin_notes
from loamshift.report.sources import Cited
from loamshift.report.steps import instead_of, rescue_in_front
from loamshift.report.words import Words


def letter_from_answer(
    answer: Answer, case: Case, *, words: Words, sums: Mapping[str, OwnSum] | None = None
) -> Letter:
    """An answer as a letter to the person whose bed it is.

    Parameters
    ----------
    sums
        The bed's own sums for the margin, by the topic of their section, as
        ``loamshift.services.own_sum.margin`` makes them; None leaves the margin empty.

    Returns
    -------
    Letter
        Title, subtitle, and sections in reading order; a section without data is left out.

    Notes
    -----
    The front sheet says what to do. The working behind it begins with a rescue where there is
    one, then says how much and why, what was learned, and what the answer rests on.
    """
    words = words.on(case.bed.kind.value)
    numbers = Cited(line.key for line in answer.sources)
    margin = margin_notes(_named(sums or {}, answer), numbers=numbers, words=words)
    need = _with(how_much(answer, case, words=words), dose_figure(answer, case, words=words))
    plan = _with(what_to_do(answer, case, words=words), year_figure(answer, case, words=words))
    waits = answer.verdict.decision is Decision.MEASURE_FIRST  # the front sheet has its branches
    expect = (
        None
        if waits
        else _with(
            what_to_expect(answer, case, words=words),
            course_figure(answer, case, words=words),
            after=1,
        )
    )
    others = (
        None
        if waits
        else _with(
            ways(answer, case, words=words, numbers=numbers),
            options_figure(answer, case, words=words),
            after=0,
        )
    )
    undo = _with(
        what_pulls(answer, case, words=words), ledger_figure(answer, case, words=words), after=1
    )
    claims = _with(
        claims_settled(answer, case, words=words), claims_figure(answer, case, words=words), after=0
    )
    working: dict[str, Section | None] = {
        "rescue": putting_right(
            answer,
            words=words,
            in_front=() if instead_of(answer) else rescue_in_front(answer, case),
            course=tuple(rescue_course(answer, case, words=words)),
        ),
        "branches": None if waits else depends_on(answer, words=words),
        "need": need,
        "plan": plan,
        "decides": what_the_test_decides(answer, case, words=words),
        "expect": expect,
        "learnt": learnt(answer, words=words),
        "options": others,
        "pot": pot_or_ground(answer, case, numbers=numbers, words=words),
        "undo": undo,
        "keep": keeping(answer, case, words=words),
        "claims": claims,
        **{
            str(kind): of_the_bed(answer, kind, numbers=numbers, words=words)
            for kind in OWN_SECTIONS
        },
        "subsoil": what_lies_below(answer, numbers=numbers, words=words),
        "measure": worth_measuring(answer, currency=reader_currency(case), words=words),
        "checks": checks(answer, numbers=numbers, words=words),
        "care": take_care(answer, numbers=numbers, words=words),
        "sources": sources(answer, numbers, words=words),
        "made-by": made_by(answer, words=words),
    }
    return Letter(
        title=answer.name,
        subtitle=subtitle(answer, case, words=words),
        sections=(
            *front_sheet(answer, case, words=words),
            *(
                replace(part, topic=topic, blocks=(*part.blocks, *margin.get(topic, ())))
                for topic, part in working.items()
                if part is not None
            ),
        ),
        day=answer.today,
    )


def front_letter(answer: Answer, case: Case, *, words: Words) -> Letter:
    """The front sheet of an answer whose course is still being worked out.

    Returns
    -------
    Letter
        The verdict, what to do, what pulls the pH back, the precautions, and what to measure:
        no chart, no working, and no chance of the plan.
    """
    words = words.on(case.bed.kind.value)
    front = front_sheet(answer, case, words=words, settled=False)
    return Letter(
        title=answer.name,
        subtitle=subtitle(answer, case, words=words),
        sections=front,
        day=answer.today,
    )


def _named(sums: Mapping[str, OwnSum], answer: Answer) -> dict[str, OwnSum]:
    """The sums without that of a yearly amount which the letter does not name."""
    amounts = ("upkeep.sulfur_as_s_g_m2_year", "upkeep.lime_as_caco3_g_m2_year")
    named = yearly_amount(answer) is not None
    return {topic: own for topic, own in sums.items() if named or own.key not in amounts}


def _with(
    section: Section | None, figure: Figure | None, *, after: int | None = None
) -> Section | None:
    """A section with a figure behind so many of its blocks, or behind them all."""
    if section is None or figure is None:
        return section
    blocks = section.blocks
    place = len(blocks) if after is None else after
    return replace(section, blocks=(*blocks[:place], figure, *blocks[place:]))
