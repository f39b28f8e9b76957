"""A figure on the page: its picture for page and phone, its sentence, its table."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart import PHONE_WIDTH_PX, chart_inline
from loamshift.report.html_blocks import inline_html, table_html

WIDTH_PX: Final = 664
"""How wide a picture is drawn for the column of the page."""
ALONG_THE_CALENDAR: Final = frozenset(
    (
        *(FigureKind.DECIDES, FigureKind.COURSE, FigureKind.YEAR),
        *(FigureKind.HISTORY, FigureKind.LAYERS, FigureKind.TRIAL),
        *(FigureKind.FIELD_RATES, FigureKind.FIELD_PH),
    )
)
"""Figures that take all the room there is; bars of few words are no better for more."""


def figure_pictures(figure: Figure, *, name: str = "", wide_px: int = WIDTH_PX) -> str:
    """A figure drawn for a page and for a phone, in light, in the dark and printed.

    Parameters
    ----------
    name
        What the names inside it begin with, unlike every other in the page.
    wide_px
        How wide it is drawn for the page, where it needs room [px].
    """
    narrow = chart_inline(figure, width=PHONE_WIDTH_PX, name=name)
    if figure.kind not in ALONG_THE_CALENDAR or wide_px <= PHONE_WIDTH_PX:
        return f'<div class="pic-both">{narrow}</div>'
    wide = chart_inline(figure, width=wide_px, name=name)
    return f'<div class="pic-wide">{wide}</div>\n<div class="pic-phone">{narrow}</div>'


def figure_html(
    figure: Figure,
    *,
    name: str,
    sources: int,
    repeated: bool = False,
    width_px: int = WIDTH_PX,
) -> str:
    """A figure with its caption, and its figures in a table that opens.

    Parameters
    ----------
    name
        Name of the figure in its page, unlike every other.
    sources
        How many numbered sources can be linked to [count].
    repeated
        True where the same figures stand in a table beside it, so that none has to open.
    width_px
        How wide it is drawn for the page [px].
    """
    pictures = figure_pictures(figure, name=f"{name}-", wide_px=width_px)
    opens = ""
    if not repeated:
        table = table_html(figure.table)
        opening = dict(figure.labels).get("table", figure.title)
        opens = f"\n<details><summary>{inline_html(opening)}</summary>\n{table}\n</details>"
    return (
        f'<figure id="{name}" class="{figure.kind.value}">\n'
        f'<p class="figure-title">{inline_html(figure.title)}</p>\n'
        f'<div class="picture">\n{pictures}\n</div>\n'
        f"<figcaption>{inline_html(figure.sentence, sources=sources)}</figcaption>{opens}\n"
        "</figure>"
    )
