"""The rescue sheet: what to do, in order, about a bed that has had too much."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Rescue
from loamshift.domain.card import Card, CardKind, Choices, Log, Part
from loamshift.domain.case import Case
from loamshift.domain.letter import Items, Paragraph
from loamshift.domain.message import Worded, message
from loamshift.report.card.text import READINGS, cautions_listed, closing
from loamshift.report.front import opening
from loamshift.report.inline import bare
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_plan import too_early, when_to_retest
from loamshift.report.letter_rescue import putting_right, steps_said, what_is_wrong
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words


def rescue_sheet(
    answer: Answer, case: Case, *, ask: tuple[Worded, ...], words: Words
) -> Card | None:
    """The rescue of an answer as a sheet: what is wrong, the steps, what makes it worse.

    Returns
    -------
    Card or None
        Nothing where there is nothing to put right.
    """
    words = words.on(case.bed.kind.value)
    rescue = answer.rescue
    section = putting_right(answer, words=words)
    if rescue is None or section is None:
        return None
    lead = next(
        b.text for b in opening(answer, case, words=words).blocks if isinstance(b, Paragraph)
    )
    rows: list[tuple[Part, ...]] = [
        (Part(heading=None, blocks=(Paragraph(what_is_wrong(answer, words)),)),),
        *((part,) for part in _steps(rescue, section.heading, words)),
    ]
    beside: list[Part] = []
    if rescue.never:
        never = Items(tuple(sentence(line, words) for line in rescue.never))
        heading = say(message("rescue-sheet-never"), words)
        beside.append(Part(heading=heading, blocks=(never,), care=True))
    asked = Items(tuple(sentence(line, words) for line in ask))
    beside.append(Part(heading=say(message("rescue-sheet-ask"), words), blocks=(asked,)))
    rows.append(tuple(beside))
    lines = (too_early(answer, words), when_to_retest(answer, case, words))
    tests = tuple(words.text(line) for line in lines if line)
    heading = say(message("rescue-sheet-test"), words)
    testing = [Part(heading=heading, blocks=(Items(tests),))] if tests else []
    readings = Part(heading=say(message("rescue-sheet-readings"), words), blocks=(Log(READINGS),))
    rows.append((*testing, readings))
    if answer.cautions:
        whole = cautions_listed(answer.cautions, words=words)
        brief = cautions_listed(answer.cautions, words=words, brief=True)
        heading = say(message("rescue-sheet-care"), words)
        rows.append((Part(heading=heading, blocks=(whole,), brief=(brief,), care=True),))
    return Card(
        kind=CardKind.RESCUE,
        title=answer.name,
        subtitle=subtitle(answer, case, words=words),
        lead=bare(lead),
        rows=tuple(rows),
        closing=closing(words, version=answer.made_by.version),
        elsewhere=say(message("card-elsewhere"), words),
        day=answer.today,
    )


def _steps(rescue: Rescue, heading: str | None, words: Words) -> list[Part]:
    """What to do today, with boxes to tick, and what comes after that, numbered."""
    today, later = steps_said(rescue, words)
    if not today or not later:
        return [Part(heading=heading, blocks=(Items(today or later, numbered=True),))]
    return [
        Part(heading=say(message("rescue-sheet-today"), words), blocks=(Choices(today),)),
        Part(
            heading=say(message("rescue-sheet-then"), words),
            blocks=(Items(later, numbered=True),),
        ),
    ]
