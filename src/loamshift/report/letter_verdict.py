"""The opening: what to do in one sentence, the number behind it, and what would change it."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Decision, Direction, Reason, Refit, Verdict
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Block, Matter, Note, Paragraph, Section
from loamshift.report.letter_head import reading_in_force
from loamshift.report.letter_words import (
    counted,
    plants_wanted,
    sentence,
    these,
)
from loamshift.report.words import Words


def opening(answer: Answer, case: Case, *, words: Words) -> Section:
    """The verdict of an answer as the first lines of the letter.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section
        A section without a heading [object].
    """
    verdict = answer.verdict
    bold = f"**{words.text(_in_short(answer, case, words))}**"
    blocks: list[Block] = [Paragraph(bold), Paragraph(sentence(verdict.because, words))]
    blocks += _learnt(answer.refit, words)
    change = _would_change(verdict, words)
    if change:
        blocks.append(Note(change, _LEADS.get(verdict.decision, "What would change this")))
    return Section(None, tuple(blocks), Matter.OPENING)


def _learnt(refit: Refit | None, words: Words) -> list[Block]:
    """What the readings taught about the bed, and those that nothing fits."""
    if refit is None:
        return []
    learnt = sentence(refit.words, words)
    blocks: list[Block] = [Paragraph(learnt)] if learnt else []
    return blocks + [Note(sentence(text, words), "Doubtful reading") for text in refit.doubted]


def _in_short(answer: Answer, case: Case, words: Words) -> str:
    return _by_reason(answer, case, words) or _by_decision(answer, case, words)


def _by_reason(answer: Answer, case: Case, words: Words) -> str:
    """What is special about a reason; most say no more than their decision."""
    verdict, bed = answer.verdict, these(case)
    match verdict.reason, verdict.decision:
        case Reason.WATER, Decision.LEAVE:
            return f"Leave the soil of {bed} alone and treat the water."
        case Reason.WATER, (Decision.ELSEWHERE | Decision.EFFORT | Decision.GO):
            return "Treat the water first: without that, no change to the soil will last."
        case Reason.NO_COMMON_RANGE, Decision.ELSEWHERE:
            plants = plants_wanted(case, words)
            return f"Grow {plants} in separate places: no one pH suits them all." if plants else ""
        case Reason.AT_WORK, Decision.LEAVE:
            return f"Leave the pH of {bed} alone: what was applied is still working."
        case Reason.UPKEEP, Decision.EFFORT if answer.applications:
            return "It can be done, but not once and for all: it will want some every year."
        case Reason.UPKEEP, (Decision.EFFORT | Decision.LEAVE):
            return f"The pH of {bed} is right, but needs a little upkeep every year."
        case Reason.PARTS, Decision.EFFORT:
            return "It can be done, but it will take more than a year."
        case Reason.MONTHS, Decision.EFFORT:
            return "It can be done, but not within a year."
    return ""


def _parts(answer: Answer) -> int:
    return len({part.date for part in answer.applications})


def _by_decision(answer: Answer, case: Case, words: Words) -> str:
    bed = these(case)
    match answer.verdict.decision:
        case Decision.STOP:
            return f"Stop: put nothing more on {bed} for now."
        case Decision.LEAVE:
            return f"Leave the pH of {bed} alone."
        case Decision.MEASURE_FIRST:
            return _measure_first(answer, case)
        case Decision.ELSEWHERE:
            return _elsewhere(case, words)
        case Decision.EFFORT:
            return _effort(answer)
        case Decision.GO:
            return _go(answer, case, words)


def _elsewhere(case: Case, words: Words) -> str:
    plants = plants_wanted(case, words)
    if case.bed.kind in (BedKind.CONTAINER, BedKind.RAISED):
        it = "it" if case.bed.count == 1 else "them"
        return f"Do not try to turn what is in {these(case)}; fill {it} afresh."
    growing = {plant.key for plant in case.bed.growing}
    if plants and growing.issuperset(plant.key for plant in case.aim.plants):
        return f"This soil cannot be made to suit {plants}; treat the plant, not the soil."
    if plants:
        return f"Do not fight this soil for {plants}; give it a place of its own."
    return "Do not fight this soil; it would win."


def _measure_first(answer: Answer, case: Case) -> str:
    reason = answer.verdict.reason
    if reason is Reason.NO_PH or (reason is None and reading_in_force(case) is None):
        return "Have the pH tested first; everything else starts from that."
    no_aim = reason is None and any(gap.field == "aim.plant" for gap in answer.missing)
    if reason is Reason.NO_AIM or no_aim:
        return "Say first what is to grow here."
    return "Do not spread anything yet."


def _effort(answer: Answer) -> str:
    upkeep = answer.upkeep
    every_year = upkeep is not None and (
        upkeep.sulfur_as_s_g_m2_year > 0.0 or upkeep.lime_as_caco3_g_m2_year > 0.0
    )
    parts = _parts(answer)
    if parts > 2:
        costs = f"in {counted(parts, 'part')}"
        return f"It can be done, {costs}" + (
            ", and then a little every year." if every_year else "."
        )
    if every_year:
        return "It can be done, but not once and for all: it will want some every year."
    if _days(answer) > _YEAR_DAYS:
        return "It can be done, but not within a year."
    return "It can be done, but it does not end with the first dose."


def _days(answer: Answer) -> int:
    """From the first part to the last test [days]."""
    if not answer.applications or not answer.retest:
        return 0
    return (max(answer.retest) - min(part.date for part in answer.applications)).days


def _go(answer: Answer, case: Case, words: Words) -> str:
    plants = plants_wanted(case, words)
    aim = f" for {plants}" if plants else ""
    match answer.dose.direction:
        case Direction.LIME:
            return f"Go ahead: lime {these(case)}{aim}."
        case Direction.ACIDIFY:
            return f"Go ahead: {these(case)} can be made acid enough{aim}."
        case Direction.NONE:
            return "Go ahead."


_YEAR_DAYS = 365
_LEADS = {
    Decision.MEASURE_FIRST: "What would settle it",
    Decision.EFFORT: "What would make it easier",
}


def _would_change(verdict: Verdict, words: Words) -> str:
    """``would_change_if`` as a sentence of its own, to stand under a label."""
    return sentence(verdict.would_change_if.strip(), words)
