"""Drawings of figures, each made once however many sheets it goes onto."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from loamshift.domain.letter import Figure

if TYPE_CHECKING:
    from loamshift.report.chart_tones import Tone

_LONG: Final = re.compile(r"-?\d+\.\d{3,}")


@lru_cache(maxsize=128)
def drawn(figure: Figure, *, tone: Tone, width_px: int) -> str:
    """A figure as SVG, its coordinates no finer than the eye.

    Parameters
    ----------
    figure
        What to draw [object].
    tone
        Where it will be looked at [enumeration].
    width_px
        Width of the picture [px].

    Returns
    -------
    str
        SVG [text].
    """
    from loamshift.report.chart import chart_svg

    svg = chart_svg(figure, tone=tone, width=width_px)
    return _LONG.sub(lambda found: f"{float(found[0]):.2f}".rstrip("0").rstrip("."), svg)
