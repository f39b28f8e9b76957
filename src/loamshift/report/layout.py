"""A letter laid out in lines of a given width, before anything decides about colour.

Each line is a tuple of spans; a span is a text and whether it stands out. Joined, the spans
are the plain text; no line ends in a space.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loamshift.domain.letter import (
    Align,
    Block,
    Figure,
    FigureKind,
    Items,
    Letter,
    Note,
    Paragraph,
    Table,
)
from loamshift.report.chart_plain import PLAIN_KINDS, plain_picture

NARROWEST: Final = 32
"""Below this many columns a table cannot be kept readable; lines are then just longer."""
_GAP: Final = "  "
_MARK: Final = re.compile(r"(\*\*)")
_KEPT: Final = "\u00a0"
TOGETHER: Final = re.compile(
    r"(?<=\d) (?=(?:k?g/m²|g/mmolc|g/cm³|kg/ha|t/ha|lb/acre|(?:lb|oz)/1(?:,0)?00|k?g|t|mg/L"
    r"|lb|oz|m²|cm|mm"
    r"|L|mL|gal|%|°[CF]|dS/m|mmolc?/(?:kg|L|m²)|fl oz)(?![\w/]))"
    r"|(?<=\bpH) (?=\d)|(?<=\d) (?=sq ft\b)|(?<=\bsq) (?=ft\b)"
)
"""Spaces inside a figure, where a line must not end."""


class Emphasis(StrEnum):
    """How a span stands out."""

    PLAIN = "plain"
    BOLD = "bold"
    HEADING = "heading"
    RULE = "rule"


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of one line."""

    text: str
    emphasis: Emphasis = Emphasis.PLAIN


Line = tuple[Span, ...]


def plain_text(lines: list[Line]) -> str:
    """The lines as text with one newline each."""
    return "".join("".join(span.text for span in line) + "\n" for line in lines)


def letter_lines(letter: Letter, *, width: int) -> list[Line]:
    """A whole letter in lines.

    Parameters
    ----------
    width
        Columns to use; never fewer than 32.

    Returns
    -------
    list of Line
        Lines of spans, blocks set apart by one empty line.
    """
    width = max(width, NARROWEST)
    lines: list[Line] = []
    for part in wrapped(letter.title, width=width, emphasis=Emphasis.HEADING):
        lines.append(part)
    if letter.subtitle:
        lines.extend(wrapped(letter.subtitle, width=width))
    if lines:
        longest = max(sum(len(span.text) for span in line) for line in lines)
        lines.append((Span("─" * min(longest, width), Emphasis.RULE),))
    drawn = False  # the course once, where it stands first
    for section in letter.sections:
        if section.heading:
            _set_apart(lines)
            lines.extend(wrapped(section.heading, width=width, emphasis=Emphasis.HEADING))
            tight = True
        else:
            tight = False
        listed = False
        for block in section.blocks:
            if isinstance(block, Figure):
                picture = [] if drawn else block_lines(block, width=width)
                if picture:
                    _set_apart(lines)
                    lines.extend(picture)
                    drawn = True
                    listed = block.kind is FigureKind.DECIDES  # its lines are the table's
                continue
            if listed and isinstance(block, Table):
                continue
            if not tight:
                _set_apart(lines)
            tight = False
            lines.extend(block_lines(block, width=width))
    return lines


def block_lines(block: Block, *, width: int) -> list[Line]:
    """One block in lines of this width."""
    match block:
        case Paragraph(text):
            return wrapped(text, width=width)
        case Items(items, numbered):
            lines: list[Line] = []
            for number, item in enumerate(items, start=1):
                lead = f"{number:>{len(str(len(items)))}}. " if numbered else "- "
                lines.extend(wrapped(item, width=width, first=lead))
            return lines
        case Note(text, label):
            return wrapped(f"**{label}:** {text}" if label else text, width=width, margin="│ ")
        case Table():
            return _table_lines(block, width=width)
        case Figure():
            if block.kind not in PLAIN_KINDS:
                return []  # prose and tables say it already
            return [(Span(text),) if text else () for text in plain_picture(block, width=width)]


def _set_apart(lines: list[Line]) -> None:
    if lines and lines[-1] != ():
        lines.append(())


def _words(text: str, emphasis: Emphasis) -> list[list[Span]]:
    """Words as lists of spans; a word may change emphasis inside (``**98** g``)."""
    words: list[list[Span]] = []
    text = TOGETHER.sub(_KEPT, text)
    bold = False
    open_word = False
    for piece in _MARK.split(text):
        if piece == "**":
            bold = not bold
            continue
        style = Emphasis.BOLD if bold and emphasis is Emphasis.PLAIN else emphasis
        parts = re.split(r"([ \t\n]+)", piece)  # a no-break space stays inside its word
        for part in parts:
            if part == "":
                continue
            if part.strip(" \t\n") == "":
                open_word = False
                continue
            if open_word:
                words[-1].append(Span(part, style))
            else:
                words.append([Span(part, style)])
            open_word = True
    return words


def wrapped(
    text: str,
    *,
    width: int,
    first: str = "",
    margin: str = "",
    emphasis: Emphasis = Emphasis.PLAIN,
) -> list[Line]:
    """A text wrapped at spaces.

    Parameters
    ----------
    first
        Lead of the first line, such as a bullet; the rest is indented as far.
    """
    indent = margin + " " * len(first)
    lead = margin + first
    lines: list[Line] = []
    current: list[Span] = [Span(lead)] if lead else []
    used = len(lead)
    empty = True
    for word in _words(text, emphasis):
        length = sum(len(span.text) for span in word)
        if not empty and used + 1 + length > width:
            lines.append(_merged(current))
            current = [Span(indent)] if indent else []
            used = len(indent)
            empty = True
        if not empty:
            glue = current[-1].emphasis if current[-1].emphasis is word[0].emphasis else None
            current.append(Span(" ", glue or Emphasis.PLAIN))
            used += 1
        current.extend(word)
        used += length
        empty = False
    if not empty:
        lines.append(_merged(current))
    return lines


def _merged(spans: list[Span]) -> Line:
    """Neighbouring spans of one emphasis become one; spaces at the end go."""
    merged: list[Span] = []
    for span in spans:
        if merged and merged[-1].emphasis is span.emphasis:
            merged[-1] = Span(merged[-1].text + span.text, span.emphasis)
        else:
            merged.append(span)
    while merged and not merged[-1].text.rstrip():
        merged.pop()
    if merged:
        merged[-1] = Span(merged[-1].text.rstrip(), merged[-1].emphasis)
    return tuple(Span(span.text.replace(_KEPT, " "), span.emphasis) for span in merged)


def _table_lines(table: Table, *, width: int) -> list[Line]:
    titles = [column.title for column in table.columns]
    rows = [list(row) for row in table.rows]
    natural = [
        max(_length(titles[i]), *(_length(row[i]) for row in rows), 1) if rows else len(titles[i])
        for i in range(len(titles))
    ]
    widths = _fitted(natural, [_longest_word(i, titles, rows) for i in range(len(titles))], width)
    lines: list[Line] = []
    if table.caption:
        lines.extend(wrapped(table.caption, width=width, emphasis=Emphasis.BOLD))
    if any(titles):
        lines.extend(_row_lines(titles, table, widths, Emphasis.BOLD))
        lines.append((Span(_GAP.join("─" * w for w in widths), Emphasis.RULE),))
    for row in rows:
        lines.extend(_row_lines(row, table, widths, Emphasis.PLAIN))
    return lines


def _length(text: str) -> int:
    return len(text.replace("**", ""))


def _longest_word(column: int, titles: list[str], rows: list[list[str]]) -> int:
    cells = [TOGETHER.sub(_KEPT, text) for text in (titles[column], *(r[column] for r in rows))]
    return max((_length(word) for cell in cells for word in re.split(r"[ \t\n]+", cell)), default=1)


def _fitted(natural: list[int], least: list[int], width: int) -> list[int]:
    """Column widths that fit: the widest column gives way first, never below its longest word."""
    widths = list(natural)
    room = width - len(_GAP) * (len(widths) - 1)
    while sum(widths) > room:
        shrinkable = [i for i in range(len(widths)) if widths[i] > max(least[i], 1)]
        if not shrinkable:
            break
        widest = max(shrinkable, key=lambda i: widths[i])
        widths[widest] -= 1
    return widths


def _row_lines(cells: list[str], table: Table, widths: list[int], emphasis: Emphasis) -> list[Line]:
    blocks = [
        wrapped(cell, width=width, emphasis=emphasis)
        for cell, width in zip(cells, widths, strict=True)
    ]
    height = max((len(block) for block in blocks), default=0)
    lines: list[Line] = []
    for level in range(height):
        spans: list[Span] = []
        for i, (block, width) in enumerate(zip(blocks, widths, strict=True)):
            line = block[level] if level < len(block) else ()
            padding = " " * (width - sum(len(span.text) for span in line))
            if i:
                spans.append(Span(_GAP))
            if table.columns[i].align is Align.RIGHT:
                spans.extend((Span(padding), *line))
            else:
                spans.extend((*line, Span(padding)))
        lines.append(_merged([span for span in spans if span.text]))
    return lines
