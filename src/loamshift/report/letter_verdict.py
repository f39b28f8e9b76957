"""The opening: what to do in one sentence, the number behind it, and what would change it."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Decision, Direction
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Paragraph, Section
from loamshift.report.letter_words import (
    bed_noun,
    clause,
    counted,
    plants_wanted,
    sentence,
    sentences,
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
    bold = f"**{words.text(_in_short(answer, case, words))}**"
    blocks = [Paragraph(sentences(bold, sentence(answer.verdict.because, words)))]
    change = _would_change(answer.verdict.would_change_if, words)
    if change:
        blocks.append(Paragraph(change))
    return Section(None, tuple(blocks))


def _in_short(answer: Answer, case: Case, words: Words) -> str:
    bed = bed_noun(case)
    match answer.verdict.decision:
        case Decision.STOP:
            return f"Stop: put nothing more on this {bed} for now."
        case Decision.LEAVE:
            return f"Leave the pH of this {bed} alone."
        case Decision.MEASURE_FIRST:
            return "Measure before you spread anything."
        case Decision.ELSEWHERE:
            return _elsewhere(case, words)
        case Decision.EFFORT:
            return _effort(answer)
        case Decision.GO:
            return _go(answer, case, words)


def _elsewhere(case: Case, words: Words) -> str:
    plants = plants_wanted(case, words)
    if case.bed.kind in (BedKind.CONTAINER, BedKind.RAISED):
        return f"Do not try to turn what is in this {bed_noun(case)}; fill it afresh."
    if plants:
        return f"Do not fight this soil for {plants}; give it a place of its own."
    return "Do not fight this soil; it would win."


def _effort(answer: Answer) -> str:
    upkeep = answer.upkeep
    every_year = upkeep is not None and (
        upkeep.sulfur_as_s_g_m2_year > 0.0 or upkeep.lime_as_caco3_g_m2_year > 0.0
    )
    parts = len({part.date for part in answer.applications})
    if parts > 2:
        costs = f"in {counted(parts, 'part')}"
        return f"It can be done, {costs}" + (
            ", and then a little every year." if every_year else "."
        )
    if every_year:
        return "It can be done, but not once and for all: it will want some every year."
    return "It can be done, but not within a year."


def _go(answer: Answer, case: Case, words: Words) -> str:
    plants = plants_wanted(case, words)
    aim = f" for {plants}" if plants else ""
    match answer.dose.direction:
        case Direction.LIME:
            return f"Go ahead: lime this {bed_noun(case)}{aim}."
        case Direction.ACIDIFY:
            return f"Go ahead: this {bed_noun(case)} can be made acid enough{aim}."
        case Direction.NONE:
            return "Go ahead."


def _would_change(text: str, words: Words) -> str:
    """``would_change_if`` is written as a condition or as sentences; both read well."""
    if not text.strip():
        return ""
    opener = text.split(maxsplit=1)[0]
    if opener[0].isupper() and opener != "pH" and text.rstrip()[-1] == ".":
        return sentence(text, words)
    if opener.lower() == "if":
        return f"This advice changes {clause(text, words)}."
    return f"This advice changes if {clause(text, words)}."
