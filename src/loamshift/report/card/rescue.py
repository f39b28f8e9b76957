"""The rescue sheet: what to do, in order, about a bed that has had too much."""

from __future__ import annotations

from loamshift.domain.answer import Answer
from loamshift.domain.card import Card, CardKind, Log, Part
from loamshift.domain.case import Case
from loamshift.domain.letter import Items, Paragraph
from loamshift.report.card.bed import THE_LETTER
from loamshift.report.card.text import READINGS, cautions_listed, closing
from loamshift.report.inline import bare
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_plan import too_early, when_to_retest
from loamshift.report.letter_rescue import expected_course, putting_right
from loamshift.report.letter_verdict import opening
from loamshift.report.letter_words import sentence, sentences
from loamshift.report.words import Words


def rescue_sheet(answer: Answer, case: Case, *, ask: tuple[str, ...], words: Words) -> Card | None:
    """The rescue of an answer as a sheet: what is wrong, the steps, what makes it worse.

    Parameters
    ----------
    answer
        The answer [object].
    case
        What the person said about the bed [object].
    ask
        Whom to ask, in sentences [text].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Card or None
        Nothing where there is nothing to put right [object].
    """
    rescue = answer.rescue
    section = putting_right(answer, words=words)
    if rescue is None or section is None:
        return None
    lead = next(
        b.text for b in opening(answer, case, words=words).blocks if isinstance(b, Paragraph)
    )
    problem = sentences(sentence(rescue.problem, words), expected_course(answer, words))
    steps = tuple(sentence(step, words) for step in rescue.steps)
    rows: list[tuple[Part, ...]] = [
        (Part(heading=None, blocks=(Paragraph(problem),)),),
        (Part(heading=section.heading, blocks=(Items(steps, numbered=True),)),),
    ]
    beside: list[Part] = []
    if rescue.never:
        never = Items(tuple(sentence(line, words) for line in rescue.never))
        beside.append(Part(heading="Never", blocks=(never,), care=True))
    beside.append(Part(heading="Whom to ask", blocks=(Items(tuple(map(words.text, ask))),)))
    rows.append(tuple(beside))
    lines = (too_early(answer, words), when_to_retest(answer, case, words))
    tests = tuple(words.text(line) for line in lines if line)
    testing = [Part(heading="When to test", blocks=(Items(tests),))] if tests else []
    rows.append((*testing, Part(heading="Readings", blocks=(Log(READINGS),))))
    if answer.cautions:
        whole = cautions_listed(answer.cautions, words=words)
        brief = cautions_listed(answer.cautions, words=words, brief=True)
        care = Part(heading="Take care", blocks=(whole,), brief=(brief,), care=True)
        rows.append((care,))
    return Card(
        kind=CardKind.RESCUE,
        title=answer.name,
        subtitle=subtitle(answer, case, words=words),
        lead=bare(lead),
        rows=tuple(rows),
        closing=closing(words, version=answer.made_by.version),
        elsewhere=THE_LETTER,
        day=answer.today,
    )
