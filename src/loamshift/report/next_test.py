"""What to test next, as a page for the terminal."""

from __future__ import annotations

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Block, Letter, Paragraph, Section
from loamshift.domain.message import message
from loamshift.report.letter_words import sentence
from loamshift.report.letter_worth import (
    best_of,
    how_many_samples,
    reader_currency,
    table_of_tests,
)
from loamshift.report.messages import say
from loamshift.report.words import Words


def next_test_letter(answer: Answer, case: Case, *, words: Words) -> Letter:
    """The test to make first with how it is made, and every test that was weighed."""
    words = words.on(case.bed.kind.value)
    worth = answer.worth
    blocks: list[Block] = []
    if worth is not None:
        best = best_of(worth)
        how = "" if best is None else sentence(best.how, words)
        blocks.append(Paragraph(f"{sentence(worth.words, words)} {how}".strip()))
        if best is None and not worth.tests and answer.missing and worth.best is not None:
            blocks.append(Paragraph(sentence(answer.missing[0].how, words)))
    blocks += table_of_tests(worth, currency=reader_currency(case), words=words)
    blocks += how_many_samples(worth, currency=reader_currency(case), words=words)
    heading = say(message("worth-heading"), words)
    return Letter(
        title=answer.name,
        subtitle="",
        sections=(Section(heading, tuple(blocks)),),
        day=answer.today,
    )
