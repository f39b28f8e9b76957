"""A letter laid out for the page that edits it: the same blocks, some at another place.

The verdict stands above the facts, the year strip along the top and the course of the pH under
the slider; what is worth measuring stands in the margin beside the facts it asks for.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from typing import Final

from django.urls import reverse

from loamshift.domain.letter import (
    Block,
    Figure,
    FigureKind,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Sheet,
)
from loamshift.domain.message import Message, message
from loamshift.report.html_blocks import block_html, inline_html, sources_html, table_html
from loamshift.report.inline import bare, source_count, without_repeats
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.web.letters.compact import compact
from loamshift.web.letters.picture import pictures

WHY: Final = {
    FigureKind.DOSE: "dose.acid_mmolc_kg",
    FigureKind.YEAR: "applications",
    FigureKind.DECIDES: "plan.decides",
    FigureKind.COURSE: "forecast",
    FigureKind.OPTIONS: "options",
    FigureKind.LEDGER: "ledger",
    FigureKind.CLAIMS: "claims",
}
"""The key that opens the numbers of the section in which a figure stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LetterPage:
    """The pieces of a letter, each ready to stand where the page wants it; all but the lines of
    ``letterhead`` are HTML.
    """

    letterhead: tuple[str, ...]
    about: str
    strip: str
    verdict: str
    because: str
    beside: str
    course: str
    sections: str


def letter_page(letter: Letter, *, words: Words, waits: bool = False) -> LetterPage:
    """The pieces of a letter for the plan page.

    Parameters
    ----------
    waits
        Whether the verdict waits for a test: then no date and no forecast comes before the
        letter, and each figure stays in its section.
    """
    sources, figures = source_count(letter), _figures(letter)
    opening = next((s for s in letter.sections if s.matter is Matter.OPENING), None)
    blocks = opening.blocks if opening is not None else ()
    lead = blocks[0].text if blocks and isinstance(blocks[0], Paragraph) else ""
    rest = [block for block in blocks[1:] if not isinstance(block, Note)]
    notes = [block for block in blocks if isinstance(block, Note)]
    aside = [
        section
        for section in letter.sections
        if section.matter is Matter.ASIDE and _is_list(section)
    ]
    numbered = list(enumerate(letter.sections, 1))
    steps = [(n, part) for n, part in numbered if part.topic == "steps"]
    is_above = not waits and any(one.kind is FigureKind.COURSE for one in figures)
    because = "\n".join(
        [
            *(block_html(block, sources=sources) for block in rest),
            *(_section(part, n, sources, words, waits) for n, part in steps),
        ]
    )
    sections = _folded(
        [
            (part.sheet, _section(part, n, sources, words, waits))
            for n, part in numbered
            if part is not opening
            and part not in aside
            and (n, part) not in steps
            and not (is_above and _is_course_again(part))
        ],
        words,
    )
    strip = [pictures(f) for f in figures if f.kind is FigureKind.YEAR and not waits]
    course = [
        _figure(f, sources, words) for f in figures if f.kind is FigureKind.COURSE and not waits
    ]
    return LetterPage(
        letterhead=letter.letterhead,
        about=inline_html(letter.subtitle),
        strip=compact("".join(strip)),
        verdict=inline_html(bare(lead)),
        because=compact(because),
        beside=compact("\n".join(_beside(notes, aside, sources, words))),
        course=compact("".join(course)),
        sections=compact(sections),
    )


def _folded(sections: Sequence[tuple[Sheet, str]], words: Words) -> str:
    """What is left of the front sheet, and the working folded behind it."""
    front = [made for sheet, made in sections if sheet is Sheet.FRONT]
    working = "\n".join(made for sheet, made in sections if sheet is not Sheet.FRONT)
    if not working or not front:
        return "\n".join([*front, working])
    summary = escape(say(message("front-working"), words))
    folded = f'<details class="working">\n<summary>{summary}</summary>\n{working}\n</details>'
    return "\n".join([*front, folded])


def _is_course_again(section: Section) -> bool:
    """True for the course up to the next test where that test decides nothing: a part of the
    course that stands under the facts already.
    """
    return bool(section.blocks) and all(
        isinstance(block, Figure) and block.kind is FigureKind.DECIDES for block in section.blocks
    )


def _is_list(section: Section) -> bool:
    return all(isinstance(block, Items) for block in section.blocks)


def _figures(letter: Letter) -> list[Figure]:
    return [b for s in letter.sections for b in s.blocks if isinstance(b, Figure)]


def _beside(
    notes: Iterable[Note], aside: Iterable[Section], sources: int, words: Words
) -> list[str]:
    lines = [block_html(note, sources=sources) for note in notes]
    lines.append(_opens("verdict.decision", message("advice-why-verdict"), words))
    for section in aside:
        items = (i for block in section.blocks if isinstance(block, Items) for i in block.items)
        lines.append(f'<h2 class="aside-title">{inline_html(section.heading or "")}</h2>')
        lines += [f'<p class="note">{inline_html(item, sources=sources)}</p>' for item in items]
    return lines


def _opens(key: str, what: Message, words: Words) -> str:
    address, text = reverse("why", args=[key]), escape(say(what, words))
    return f'<p class="note opens"><a href="{address}">{text}</a></p>'


def _section(section: Section, number: int, sources: int, words: Words, waits: bool) -> str:
    column, margin = _placed(section)
    lines = [line for block in column if (line := _block(block, section, sources, words, waits))]
    beside = [block_html(note, sources=sources) for note in margin]
    kinds = [block.kind for block in section.blocks if isinstance(block, Figure)]
    beside += [_opens(WHY[kind], _why_said(kind), words) for kind in kinds]
    if section.topic == "decides":
        beside.append(_opens("plan", message("advice-why-plan"), words))
    elif section.topic == "branches":
        beside.append(_opens("branches", message("advice-why-branches"), words))
    heading = named = ""
    if section.heading:
        heading = f'<h2 id="part-{number}">{inline_html(section.heading)}</h2>\n'
        named = "" if section.is_behind else f' aria-labelledby="part-{number}"'
    aside = ""
    if beside:
        notes = "\n".join(beside)
        aside = f'\n<div class="margin">\n{notes}\n</div>'
    return (
        f'<section class="{section.matter.value}"{named}>\n{heading}'
        '<div class="column">\n' + "\n".join(lines) + f"\n</div>{aside}\n</section>"
    )


def _placed(section: Section) -> tuple[Sequence[Block], Sequence[Note]]:
    blocks = without_repeats(section)
    notes = [block for block in blocks if isinstance(block, Note)]
    others = [block for block in blocks if not isinstance(block, Note)]
    if section.matter is Matter.ASIDE or not others:
        return blocks, ()
    return others, notes


def _block(block: Block, section: Section, sources: int, words: Words, waits: bool) -> str:
    if isinstance(block, Figure):
        if block.kind is FigureKind.COURSE and not waits:
            return ""
        if block.kind is FigureKind.YEAR and not waits:
            said = inline_html(block.sentence, sources=sources)
            return f'<p class="under">{said}</p>{_table(block, words)}'
        return _figure(block, sources, words)
    if isinstance(block, Items) and section.matter is Matter.SOURCES:
        return sources_html(block)
    return block_html(block, sources=sources)


def _figure(figure: Figure, sources: int, words: Words) -> str:
    return (
        f'<figure class="{figure.kind.value}">\n'
        f'<p class="figure-title">{inline_html(figure.title)}</p>\n{pictures(figure)}\n'
        f"<figcaption>{inline_html(figure.sentence, sources=sources)}</figcaption>"
        f"{_table(figure, words)}\n</figure>"
    )


def _table(figure: Figure, words: Words) -> str:
    shown = escape(say(message("advice-figures-in-table"), words))
    return f"<details><summary>{shown}</summary>\n{table_html(figure.table)}\n</details>"


def _why_said(kind: FigureKind) -> Message:
    match kind:
        case FigureKind.DOSE:
            return message("advice-why-amount")
        case FigureKind.YEAR:
            return message("advice-why-dates")
        case FigureKind.DECIDES | FigureKind.COURSE:
            return message("advice-why-course")
        case FigureKind.OPTIONS:
            return message("advice-why-options")
        case FigureKind.LEDGER:
            return message("advice-why-ledger")
    return message("advice-why-claims")
