"""Charts for a screen in a hall or a class: title, one sentence, the chart, and the source."""

from __future__ import annotations

import re
from enum import StrEnum
from html import escape
from typing import Final, NamedTuple

from loamshift.domain.letter import Figure
from loamshift.report.chart import draw
from loamshift.report.chart_drawing import Drawing
from loamshift.report.chart_svg import inner_svg, shown
from loamshift.report.chart_text import wrapped
from loamshift.report.chart_tones import Colour, Colours
from loamshift.report.inline import months_written
from loamshift.report.typeface import SANS_STACK


class ChartSize(StrEnum):
    """What a chart is made for, other than a letter."""

    SLIDE = "slide"
    """1600 by 900 pixels, as a projector shows it."""
    SQUARE = "square"
    """1080 by 1080 pixels."""


class _Sheet(NamedTuple):
    """Sizes of one sheet [px]."""

    width: float
    height: float
    side: float
    title: float
    sentence: float
    source: float


_SHEETS: Final = {
    ChartSize.SLIDE: _Sheet(1600.0, 900.0, 80.0, 46.0, 29.0, 21.0),
    ChartSize.SQUARE: _Sheet(1080.0, 1080.0, 64.0, 44.0, 29.0, 21.0),
}
_LINE: Final = 1.3
"""From line to line, in the size of the type."""
_ABOVE: Final = 0.4
"""Share of the room left over that lies above the chart."""
_WIDTHS: Final = (320, 360, 400, 440, 480, 520, 560, 600, 640, 680, 720, 760)
"""Widths that a chart is tried at; the one with the largest type wins."""
_MOST_LINES: Final = {ChartSize.SLIDE: 3, ChartSize.SQUARE: 5}
_LARGEST: Final = 2.6
"""A chart of few words is enlarged no more than this, and stands in the middle."""
_END: Final = re.compile(r"[.!?](?=\s|$)")
_MONTH: Final = re.compile(rf"(?:{'|'.join(sorted(map(re.escape, months_written())))})\b")


def talk_svg(
    figure: Figure, *, size: ChartSize, colours: Colours, source: str = "", told: str = ""
) -> str:
    """A chart as one picture that explains itself.

    Parameters
    ----------
    told
        What is said below the title, with two lines more; without it the first sentence of the
        figure.
    """
    sheet = _SHEETS[size]
    wide = sheet.width - 2.0 * sheet.side
    title = wrapped(figure.title, width=wide, lines=3 if told else 2, size=sheet.title, bold=True)
    sentence = wrapped(
        told or first_sentence(figure.sentence),
        width=wide,
        lines=_MOST_LINES[size] + (2 if told else 0),
        size=sheet.sentence,
    )
    foot = wrapped(source, width=wide, lines=2, size=sheet.source) if source else ""
    foot_top = sheet.height - sheet.side - _tall(foot, sheet.source) + 0.3 * sheet.source
    top = sheet.side + _tall(title, sheet.title) + 8.0
    below = top + _tall(sentence, sheet.sentence) + 0.5 * sheet.side
    last = foot_top - 0.6 * sheet.source if foot else sheet.height - sheet.side
    drawing, scale = _fitted(figure, wide, last - below)
    left = sheet.side + 0.5 * (wide - scale * drawing.width)
    below += _ABOVE * (last - below - scale * drawing.height)
    said = escape(figure.sentence, quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{said}" '
        f'viewBox="0 0 {sheet.width:g} {sheet.height:g}" width="{sheet.width:g}" '
        f'height="{sheet.height:g}" font-family="{escape(SANS_STACK, quote=True)}">'
        f'<path fill="{colours[Colour.PAPER]}" d="M0 0h{sheet.width:g}v{sheet.height:g}H0z"/>'
        + _text(title, sheet.side, sheet.side, sheet.title, colours[Colour.INK], bold=True)
        + _text(sentence, sheet.side, top, sheet.sentence, colours[Colour.INK])
        + f'<g transform="translate({left:.1f} {below:.1f}) scale({scale:.4f})" font-size="12">'
        f"{inner_svg(drawing, colours=colours)}</g>"
        + _text(
            foot,
            sheet.side,
            foot_top,
            sheet.source,
            colours[Colour.QUIET],
        )
        + "</svg>"
    )


def first_sentence(text: str) -> str:
    """The first sentence of a text, whatever its language.

    A point before a small letter ends none, nor one between a day and its month (12. April).
    """
    for end in _END.finditer(text):
        after = text[end.end() :].lstrip()
        if not (after[:1].islower() or _MONTH.match(after)):
            return text[: end.end()]
    return text


def _fitted(figure: Figure, wide: float, high: float) -> tuple[Drawing, float]:
    """The drawing whose type comes out largest in this room [px], and its scale."""
    tried = [draw(figure, width=width) for width in _WIDTHS]
    scales = [min(wide / one.width, high / one.height, _LARGEST) for one in tried]
    # of two that fill the room alike the wider one has more of it for the course
    best = max(range(len(tried)), key=lambda n: scales[n] * tried[n].width * tried[n].height ** 0.5)
    return tried[best], scales[best]


def _tall(text: str, size: float) -> float:
    return _LINE * size * (1 + text.count("\n"))


def _text(
    text: str, left: float, top: float, size: float, colour: str | None, *, bold: bool = False
) -> str:
    if not text:
        return ""
    weight = ' font-weight="bold"' if bold else ""
    lines = "".join(
        f'<tspan x="{left:g}" y="{top + size + _LINE * size * place:.1f}">{shown(line)}</tspan>'
        for place, line in enumerate(text.split("\n"))
    )
    return f'<text font-size="{size:g}" fill="{colour}"{weight}>{lines}</text>'
