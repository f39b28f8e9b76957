"""What earlier readings taught about the bed, and those that nothing fits."""

from __future__ import annotations

from loamshift.domain.answer import Answer
from loamshift.domain.letter import Block, Note, Paragraph, Section
from loamshift.domain.message import message
from loamshift.report.messages import say, say_sentence
from loamshift.report.words import Words


def learnt(answer: Answer, *, words: Words) -> Section | None:
    """What the readings of an answer taught."""
    refit = answer.refit
    if refit is None:
        return None
    told = say_sentence(refit.words, words)
    label = say(message("refit-doubted-label"), words)
    blocks: list[Block] = [Paragraph(told)] if told else []
    blocks += [Note(say_sentence(one, words), label) for one in refit.doubted]
    return Section(say(message("refit-heading"), words), tuple(blocks)) if blocks else None
