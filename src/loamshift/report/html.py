"""A letter as one HTML file that can be sent by mail: nothing in it asks another host."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Sequence
from html import escape
from importlib import resources
from itertools import groupby
from typing import Final

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
from loamshift.domain.message import message
from loamshift.report.chart_tones import tones_css
from loamshift.report.html_blocks import block_html, inline_html, sources_html
from loamshift.report.html_figure import figure_html
from loamshift.report.inline import bare, source_count, without_repeats
from loamshift.report.messages import say
from loamshift.report.typeface import font_faces_css
from loamshift.report.words import Words

LANGUAGES: Final = {"uk": "en-GB", "us": "en-US"}
"""Language of a page by the spelling of its words."""


def letter_html(letter: Letter, *, words: Words) -> str:
    """A letter as one self-contained page.

    Notes
    -----
    The page asks nothing of any host, and has no script: its policy forbids every load but data
    inside the file.
    """
    style = f"{font_faces_css()}\n{_stylesheet()}"
    body = sections_html(letter, words=words)
    about = f'<p class="about">{inline_html(letter.subtitle)}</p>' if letter.subtitle else ""
    lines = "<br>".join(f"<bdi>{escape(line)}</bdi>" for line in letter.letterhead)
    above = f'<p class="letterhead">{lines}</p>\n' if lines else ""
    return (
        "<!doctype html>\n"
        f'<html lang="{LANGUAGES[words.spelling]}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_policy(style)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{escape(bare(letter.title))}</title>\n"
        f"<style>{style}</style>\n</head>\n<body>\n<article>\n"
        f"<header>\n{above}<h1><bdi>{inline_html(letter.title)}</bdi></h1>\n{about}\n</header>\n"
        f"{body}\n</article>\n</body>\n</html>\n"
    )


def sections_html(letter: Letter, *, words: Words) -> str:
    """The sections of a letter as HTML, to stand in a page of their own.

    Returns
    -------
    str
        The front sheet, then the working, folded; a letter of an earlier version has all its
        sections one after the other.
    """
    sources = source_count(letter)
    numbered = list(enumerate(letter.sections, 1))
    front = [(n, part) for n, part in numbered if part.sheet is Sheet.FRONT]
    working = [(n, part) for n, part in numbered if part.sheet is not Sheet.FRONT]
    rest = "\n".join(_section(part, n, sources) for n, part in working)
    if not front:
        return rest
    lines = []
    for beside, parts in groupby(front, key=lambda pair: pair[1].matter is Matter.BESIDE):
        made = "\n".join(_section(part, n, sources) for n, part in parts)
        lines.append(f'<div class="pair">\n{made}\n</div>' if beside else made)
    if rest:
        summary = escape(say(message("front-working"), words))
        lines.append(f'<details class="working">\n<summary>{summary}</summary>\n{rest}\n</details>')
    return "\n".join(lines)


def _policy(style: str) -> str:
    """Nothing may be loaded but what the file holds, styles by their hash; no script runs."""
    rules = [
        "default-src 'none'",
        f"style-src '{_hashed(style)}'",
        "font-src data:",
        "img-src data:",
        "script-src 'none'",
        "base-uri 'none'",
        "form-action 'none'",
    ]
    return "; ".join(rules)


def _hashed(text: str) -> str:
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"sha256-{base64.b64encode(digest).decode('ascii')}"


def _stylesheet() -> str:
    own = resources.files("loamshift.report").joinpath("letter.css").read_text(encoding="utf-8")
    return f"{tones_css()}{own}"


def _section(section: Section, number: int, sources: int) -> str:
    column, margin = _placed(section)
    lines = [_block(block, i, section, number, sources) for i, block in enumerate(column)]
    heading = named = ""
    if section.heading:
        heading = f'<h2 id="part-{number}">{inline_html(section.heading)}</h2>\n'
        named = "" if section.is_behind else f' aria-labelledby="part-{number}"'
    beside = ""
    if margin:
        notes = "\n".join(block_html(note, sources=sources) for note in margin)
        beside = f'\n<aside class="margin">\n{notes}\n</aside>'
    return (
        f'<section class="{section.matter.value}"{named}>\n{heading}'
        '<div class="column">\n' + "\n".join(lines) + f"\n</div>{beside}\n</section>"
    )


def _placed(section: Section) -> tuple[Sequence[Block], Sequence[Note]]:
    """What stands in the column, and the notes that stand beside it.

    A section of hardly anything but notes keeps them in the column.
    """
    blocks = without_repeats(section)
    notes = [block for block in blocks if isinstance(block, Note)]
    others = [block for block in blocks if not isinstance(block, Note)]
    if section.matter is Matter.ASIDE or not others:
        return blocks, ()
    return others, notes


def _figure_name(number: int, place: int) -> str:
    return f"figure-{number}-{place}"


def _block(block: Block, place: int, section: Section, number: int, sources: int) -> str:
    if isinstance(block, Figure):
        said = block.kind is FigureKind.OPTIONS  # its table stands under it
        name = _figure_name(number, place)
        return figure_html(block, name=name, sources=sources, repeated=said)
    if isinstance(block, Items) and section.matter is Matter.SOURCES:
        return sources_html(block)
    if isinstance(block, Paragraph) and section.matter is Matter.OPENING and place == 0:
        return f'<p class="lead">{inline_html(bare(block.text))}</p>'
    return block_html(block, sources=sources)
