"""Drawings of figures for print, each written once however many sheets it goes onto."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from loamshift.domain.letter import Figure

if TYPE_CHECKING:
    from loamshift.report.chart_tones import Tone


@lru_cache(maxsize=128)
def drawn(figure: Figure, *, tone: Tone, width_px: int) -> str:
    """A figure as an SVG file.

    Parameters
    ----------
    width_px
        Width of the picture [px].
    """
    from loamshift.report.chart import chart_svg

    return chart_svg(figure, tone=tone, width=width_px)
