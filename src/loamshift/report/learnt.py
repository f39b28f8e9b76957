"""What earlier readings taught about the bed, and those that nothing fits."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Answer
from loamshift.domain.letter import Block, Note, Paragraph, Section
from loamshift.domain.message import Message, Prose, message
from loamshift.report.messages import say, say_sentence
from loamshift.report.words import Words

_EXPECTED: Final = "refit-expected"


def how_it_answered(answer: Answer) -> Message | None:
    """That the latest test read another pH than was forecast for its day, with both figures.

    Returns
    -------
    Message or None
        One sentence; None where it read as forecast, or where a reading is doubted.
    """
    refit = answer.refit
    if refit is None or refit.doubted or not isinstance(refit.words, Prose):
        return None
    for told in refit.words.sentences:
        values = told.values
        if told.key == _EXPECTED and values.get("answered", "as-expected") != "as-expected":
            named = {name: values[name] for name in ("day", "reading", "answered", "place")}
            return message("front-answered", expected=values["middle"], **named)
    return None


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
