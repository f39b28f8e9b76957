"""Figures drawn: every kind as plain marks, and those as a picture for page, print and file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart_bars import draw_bars
from loamshift.report.chart_calibration import draw_calibration
from loamshift.report.chart_course import draw_course
from loamshift.report.chart_decides import draw_decides
from loamshift.report.chart_dose import draw_dose
from loamshift.report.chart_drawing import Drawing
from loamshift.report.chart_field import draw_field
from loamshift.report.chart_history import draw_history
from loamshift.report.chart_layers import draw_layers
from loamshift.report.chart_options import draw_options
from loamshift.report.chart_png import png_of
from loamshift.report.chart_svg import file_svg, page_svg
from loamshift.report.chart_tones import PALETTES, Tone
from loamshift.report.chart_trial import draw_trial, draw_trial_size
from loamshift.report.chart_year import draw_year

PAGE_WIDTH_PX: Final = 620
"""A column of text on a page, 37 em of 17 px."""
PHONE_WIDTH_PX: Final = 320
"""Fits the narrowest phone without being made smaller, so that no word is."""
NARROWEST_PX: Final = 280

DRAWN: Mapping[FigureKind, Callable[..., Drawing]] = MappingProxyType(
    {
        FigureKind.DECIDES: draw_decides,
        FigureKind.COURSE: draw_course,
        FigureKind.YEAR: draw_year,
        FigureKind.LEDGER: draw_bars,
        FigureKind.CLAIMS: draw_bars,
        FigureKind.DOSE: draw_dose,
        FigureKind.OPTIONS: draw_options,
        FigureKind.HISTORY: draw_history,
        FigureKind.CALIBRATION: draw_calibration,
        FigureKind.LAYERS: draw_layers,
        FigureKind.TRIAL: draw_trial,
        FigureKind.TRIAL_SIZE: draw_trial_size,
        FigureKind.FIELD_RATES: draw_field,
        FigureKind.FIELD_PH: draw_field,
    }
)
"""What draws each kind of figure."""


@lru_cache(maxsize=256)
def draw(figure: Figure, *, width: int = PAGE_WIDTH_PX) -> Drawing:
    """A figure as plain marks, drawn once however often it is written out.

    Parameters
    ----------
    width
        Width of the picture, 280 or more [px].

    Raises
    ------
    ValueError
        For a picture too narrow for its labels.
    """
    if width < NARROWEST_PX:
        raise ValueError(f"a chart {width} px wide has no room for labels; {NARROWEST_PX} or more")
    return DRAWN[figure.kind](figure, width=float(width))


@lru_cache(maxsize=512)
def chart_inline(figure: Figure, *, width: int, name: str = "", moves: bool = False) -> str:
    """A figure to stand in a page, for light, dark and print at once.

    Parameters
    ----------
    width
        Width of the picture, 280 or more [px].
    name
        What the names inside it begin with, where it shares a page.
    moves
        Whether the page will move its lines, point by point.
    """
    drawing = draw(figure, width=width)
    about = ""
    if figure.kind is FigureKind.COURSE and moves:
        zero, one = drawing.y.px(0.0), drawing.y.px(1.0)
        about = f' data-zero="{zero:.3f}" data-slope="{one - zero:.3f}"'
    name = f"{name}{figure.kind.value}-{width}-"
    return page_svg(drawing, name=name, moves=moves, about=about)


def chart_svg(figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX) -> str:
    """A figure as an SVG file, with its sentence as what a screen reader says.

    Parameters
    ----------
    width
        Width of the picture, 280 or more [px].
    """
    drawing = draw(figure, width=width)
    return file_svg(drawing, colours=PALETTES[tone], sentence=figure.sentence)


def chart_png(
    figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX, scale: float = 2.0
) -> bytes:
    """A figure as PNG.

    Parameters
    ----------
    width
        Width of the picture, 280 or more [px].
    scale
        Dots per pixel, above 0 [1].
    """
    return png_of(chart_svg(figure, tone=tone, width=width), scale=scale)
