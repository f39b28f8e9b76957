"""Figures on a page of the desk: drawn as those of a letter, the year strip across the page."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart import PAGE_WIDTH_PX
from loamshift.report.html_figure import figure_pictures

STRIP_PX: Final = 950
"""The year strip goes across the whole page."""


def pictures(figure: Figure, *, strip_px: int = STRIP_PX) -> str:
    """A figure drawn for a page of the desk and for a phone.

    Parameters
    ----------
    strip_px
        How wide a year strip is drawn for a page [px].
    """
    wide = strip_px if figure.kind is FigureKind.YEAR else PAGE_WIDTH_PX
    return figure_pictures(figure, wide_px=wide)
