"""A kept letter whose charts today's drawing does not understand: the figures stand for them."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.letter import Block, Figure, Letter, Note
from loamshift.domain.message import message
from loamshift.report.chart import PHONE_WIDTH_PX, chart_inline
from loamshift.report.layout import block_lines
from loamshift.report.messages import say
from loamshift.report.words import Words


def drawable(letter: Letter, words: Words) -> Letter:
    """A letter in which every chart can be drawn.

    Parameters
    ----------
    words
        Those the letter was said in.

    Returns
    -------
    Letter
        The same; a chart of an earlier version that lacks what it is drawn from today, or that
        was changed by hand, says so and leaves its sentence and its table.
    """
    sections = []
    for section in letter.sections:
        blocks: list[Block] = []
        for block in section.blocks:
            if not isinstance(block, Figure) or _can_be_drawn(block):
                blocks.append(block)
                continue
            label = say(message("chart-not-drawn-label"), words)
            told = f"{say(message('chart-not-drawn'), words)} {block.sentence}".strip()
            blocks += [Note(told, label), block.table]
        same = len(blocks) == len(section.blocks)
        sections.append(section if same else replace(section, blocks=tuple(blocks)))
    return replace(letter, sections=tuple(sections))


def _can_be_drawn(figure: Figure) -> bool:
    try:
        chart_inline(figure, width=PHONE_WIDTH_PX)
        block_lines(figure, width=72)
    except Exception:  # whatever an older or a changed file makes of the drawing
        return False
    return True
