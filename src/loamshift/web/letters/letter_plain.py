"""A letter in its own order inside a page of the desk, for what is read and not edited."""

from __future__ import annotations

from functools import lru_cache
from html import escape

from loamshift.domain.letter import (
    Block,
    Figure,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
)
from loamshift.domain.message import message
from loamshift.report.chart import PAGE_WIDTH_PX
from loamshift.report.html_blocks import block_html, inline_html, sources_html, table_html
from loamshift.report.inline import bare, source_count
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.web.letters.picture import pictures


@lru_cache(maxsize=128)
def letter_plain(letter: Letter, *, part: str = "part", words: Words | None = None) -> str:
    """The sections of a letter as HTML, every block where the letter has it.

    Parameters
    ----------
    part
        What the names of its headings begin with, where two letters share a page.
    words
        The reader; British where nobody says.
    """
    sources = source_count(letter)
    return "\n".join(
        _section(section, f"{part}-{number}", sources, words or Words())
        for number, section in enumerate(letter.sections, 1)
    )


def _section(section: Section, name: str, sources: int, words: Words) -> str:
    notes = [block for block in section.blocks if isinstance(block, Note)]
    column: list[Block] = [block for block in section.blocks if not isinstance(block, Note)]
    if section.matter is Matter.ASIDE or not column:
        column, notes = list(section.blocks), []
    lines = [
        _block(block, section, sources, words, first=place == 0)
        for place, block in enumerate(column)
    ]
    heading = named = beside = ""
    if section.heading:
        heading = f'<h2 id="{name}">{inline_html(section.heading)}</h2>\n'
        named = "" if section.is_behind else f' aria-labelledby="{name}"'
    if notes:
        said = "\n".join(block_html(note, sources=sources) for note in notes)
        beside = f'\n<div class="margin">\n{said}\n</div>'
    return (
        f'<section class="{section.matter.value}"{named}>\n{heading}<div class="column">\n'
        + "\n".join(lines)
        + f"\n</div>{beside}\n</section>"
    )


def _block(block: Block, section: Section, sources: int, words: Words, *, first: bool) -> str:
    if isinstance(block, Figure):
        return _figure(block, sources, words)
    if isinstance(block, Items) and section.matter is Matter.SOURCES:
        return sources_html(block)
    if isinstance(block, Paragraph) and section.matter is Matter.OPENING and first:
        return f'<h2 class="lead">{inline_html(bare(block.text))}</h2>'
    return block_html(block, sources=sources)


def _figure(figure: Figure, sources: int, words: Words) -> str:
    shown = escape(say(message("advice-figures-in-table"), words))
    return (
        f'<figure class="{figure.kind.value}">\n'
        f'<p class="figure-title">{inline_html(figure.title)}</p>\n'
        f"{pictures(figure, strip_px=PAGE_WIDTH_PX)}\n"
        f"<figcaption>{inline_html(figure.sentence, sources=sources)}</figcaption>"
        f"<details><summary>{shown}</summary>\n{table_html(figure.table)}\n</details>\n</figure>"
    )
