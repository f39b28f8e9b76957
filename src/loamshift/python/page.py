"""A front sheet for a notebook: a small piece of HTML without script, style sheet or address."""

from __future__ import annotations

import base64
from html import escape
from typing import Final

from loamshift.domain.letter import Block, Figure, Section
from loamshift.report.chart import chart_svg
from loamshift.report.chart_tones import Tone
from loamshift.report.html_blocks import block_html, inline_html

_NOTEBOOK_PX: Final = 560


def sections_piece(title: str, subtitle: str, sections: tuple[Section, ...]) -> str:
    """Sections of a letter as HTML that can stand in anybody's page.

    Parameters
    ----------
    title, subtitle
        What stands above them [text].
    sections
        What to show [objects].

    Returns
    -------
    str
        One element; every text is escaped, pictures are inside as images, and nothing is loaded
        [text].
    """
    parts = [f"<h3>{inline_html(title)}</h3>", f"<p>{inline_html(subtitle)}</p>"]
    for section in sections:
        if section.heading:
            parts.append(f"<h4>{inline_html(section.heading)}</h4>")
        parts += [_block(block) for block in section.blocks]
    return '<div class="loamshift" style="max-width: 44em">\n' + "\n".join(parts) + "\n</div>"


def image(svg: str, sentence: str) -> str:
    """A picture [SVG] as an image, in which no script can run, with its sentence [text]."""
    data = base64.b64encode(svg.encode("utf-8")).decode("ascii")
    said = escape(sentence, quote=True)
    return f'<img style="max-width: 100%" alt="{said}" src="data:image/svg+xml;base64,{data}">'


def _block(block: Block) -> str:
    if isinstance(block, Figure):
        svg = chart_svg(block, tone=Tone.LIGHT, width=_NOTEBOOK_PX)
        return image(svg, block.sentence)
    return block_html(block, sources=0)
