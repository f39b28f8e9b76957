"""Drawing a buffer curve as a titration is drawn: acid across, pH up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from loamshift.report.chart_axes import GAP_PX, foot_line, ph_grid
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale
from loamshift.report.chart_svg import file_svg
from loamshift.report.chart_text import text_width
from loamshift.report.chart_tones import PALETTES, Colour, Tone

_HEAD_PX: Final = 22.0
_FIELD_PX: Final = 216.0
_FOOT_PX: Final = 44.0
_MOST_ACID_STEPS: Final = 8
_ROUND: Final = (1.0, 2.0, 5.0, 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveDrawing:
    """What is drawn: pH against acid from where the soil stands, and the words on the axes.

    ``spread`` is the factor of the acid to either end of nine soils in ten [-].
    """

    ph: Sequence[float]
    acid_mmolc_kg: Sequence[float]
    spread: float
    ph_axis: str
    acid_axis: str


def buffer_svg(curve: CurveDrawing, *, sentence: str, width: float, tone: Tone = Tone.LIGHT) -> str:
    """A buffer curve as an SVG file.

    Parameters
    ----------
    width
        Width of the picture, 280 or more [px].
    """
    return file_svg(draw_buffer(curve, width=width), colours=PALETTES[tone], sentence=sentence)


def draw_buffer(curve: CurveDrawing, *, width: float) -> Drawing:
    """A buffer curve [object] as marks in a picture of a width [px]."""
    ends = [acid * factor for acid in curve.acid_mmolc_kg for factor in (1.0, curve.spread)]
    step = _round_step((max(ends) - min(ends)) / _MOST_ACID_STEPS)
    low = math.floor(min(ends) / step) * step
    high = math.ceil(max(ends) / step) * step
    drawing = Drawing(
        width=width,
        height=_HEAD_PX + _FIELD_PX + _FOOT_PX,
        x=Scale(low=low, high=high, start_px=12.0 + text_width("10.5"), end_px=width - 16.0),
        y=Scale(
            low=math.floor(min(curve.ph)),
            high=math.ceil(max(curve.ph)),
            start_px=_HEAD_PX + _FIELD_PX,
            end_px=_HEAD_PX,
        ),
    )
    ph_grid(drawing, curve.ph_axis, step=1.0)
    drawing.put(
        "spread",
        Mark.AREA,
        _band(curve),
        "x y=q05 y2=q95",
        fill=Colour.BAND_OUTER,
        stroke=Colour.OUTLINE,
        strokeWidth=0.8,
    )
    middle: list[Row] = [
        {"x": acid, "y": ph} for acid, ph in zip(curve.acid_mmolc_kg, curve.ph, strict=True)
    ]
    drawing.put("curve", Mark.LINE, middle, "x y", color=Colour.RUST, strokeWidth=2.0)
    here = min(middle, key=lambda row: abs(float(row["x"])))
    drawing.put(
        "here", Mark.POINT, [{"x": 0.0, "y": here["y"]}], "x y", color=Colour.INK, size=40.0
    )
    foot_line(drawing)
    _acid_axis(drawing, curve.acid_axis, low=low, high=high, step=step)
    return drawing


def _band(curve: CurveDrawing) -> list[Row]:
    """The lowest and the highest pH at each acid among soils from weak to strong."""
    points = sorted(zip(curve.acid_mmolc_kg, curve.ph, strict=True))
    weak = [(acid / curve.spread, ph) for acid, ph in points]
    strong = [(acid * curve.spread, ph) for acid, ph in points]
    rows: list[Row] = []
    for acid in sorted({a for a, _ in (*weak, *strong)}):
        ends = [_at(acid, weak), _at(acid, strong)]
        rows.append({"x": acid, "q05": min(ends), "q95": max(ends)})
    return rows


def _at(acid: float, points: Sequence[tuple[float, float]]) -> float:
    """The pH of a curve at an acid; at its ends where the curve is not drawn so far."""
    for (left, above), (right, below) in pairwise(points):
        if left <= acid <= right:
            share = 0.0 if right == left else (acid - left) / (right - left)
            return above + share * (below - above)
    return points[0][1] if acid < points[0][0] else points[-1][1]


def _acid_axis(drawing: Drawing, title: str, *, low: float, high: float, step: float) -> None:
    foot = drawing.y.start_px
    marks: list[Row] = []
    words: list[Row] = []
    for place in range(round((high - low) / step) + 1):
        value = low + step * place
        at = drawing.x.px(value)
        marks.append(drawing.box(at, foot, at, foot + 4.0))
        words.append({**drawing.point(at, foot + 13.0), "text": f"{value:g}".replace("-", "−")})
    end = drawing.point(drawing.x.end_px, foot + 13.0 + 2.0 * GAP_PX)
    drawing.put("acid_ticks", Mark.RULE, marks, "x y x2 y2", color=Colour.QUIET, strokeWidth=0.8)
    for name, rows, align in (
        ("acid_labels", words, "center"),
        ("acid_title", [{**end, "text": title}], "right"),
    ):
        drawing.put(name, Mark.TEXT, rows, "x y text", color=Colour.QUIET, align=align)


def _round_step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next(one * power for one in _ROUND if one * power >= least - 1e-9)
