"""Drawing calibration: the share of readings inside each stated range, beside chance."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_axes import GAP_PX
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, text_width, wrapped
from loamshift.report.chart_tones import Colour

_MOST_PX: Final = 300.0
"""The field is as high as it is wide; wider than this it is no better."""
_TOP_PX: Final = 24.0
_STEPS: Final = (0, 25, 50, 75, 100)
_RING_PX2: Final = 42.0
_OF: Final = {"x": "stated", "y": "share", "low": "low", "high": "high"}


def draw_calibration(figure: Figure, *, width: float) -> Drawing:
    """The readings inside each range as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    left = 10.0 + text_width("100")
    side = min(width - left - 0.5 * text_width("100") - 2.0, _MOST_PX)
    foot = _TOP_PX + side
    key = [wrapped(labels[name], width=width - 34.0) for name in ("chance", "exact", "read")]
    heights = [LINE_PX * (1 + text.count("\n")) + 4.0 for text in key]
    drawing = Drawing(
        width=width,
        height=foot + 2.0 * LINE_PX + 14.0 + sum(heights),
        x=Scale(low=0.0, high=100.0, start_px=left, end_px=left + side),
        y=Scale(low=0.0, high=100.0, start_px=foot, end_px=_TOP_PX),
    )
    rows: list[Row] = [
        {key: number(row[of]) for key, of in _OF.items()} for row in rows_of(figure, "ranges")
    ]
    band: list[Row] = [
        {"x": 0.0, "low": 0.0, "high": 0.0},
        *rows,
        {"x": 100.0, "low": 100.0, "high": 100.0},
    ]
    drawing.put(
        "chance",
        Mark.AREA,
        band,
        "x y=low y2=high",
        fill=Colour.BAND_OUTER,
        stroke=Colour.OUTLINE,
        strokeWidth=0.8,
    )
    _axes(drawing, labels, foot)
    corners: list[Row] = [{"x": 0.0, "y": 0.0}, {"x": 100.0, "y": 100.0}]
    drawing.put(
        "exact",
        Mark.LINE,
        corners,
        "x y",
        color=Colour.QUIET,
        strokeWidth=1.0,
        strokeDash=(5.0, 3.0),
    )
    drawing.put("read", Mark.LINE, rows, "x y", color=Colour.RUST, strokeWidth=1.6)
    _rings(drawing, "points", rows)
    _key(drawing, key, heights, foot + 2.0 * LINE_PX + 12.0)
    return drawing


def _rings(drawing: Drawing, name: str, rows: list[Row]) -> None:
    drawing.put(
        name,
        Mark.POINT,
        rows,
        "x y",
        fill=Colour.PAPER,
        stroke=Colour.RUST,
        strokeWidth=1.6,
        size=_RING_PX2,
    )


def _axes(drawing: Drawing, labels: dict[str, str], foot: float) -> None:
    lines: list[Row] = []
    across: list[Row] = []
    along: list[Row] = []
    for step in _STEPS:
        lines.append({"x": 0.0, "y": float(step), "x2": 100.0, "y2": float(step)})
        lines.append({"x": float(step), "y": 0.0, "x2": float(step), "y2": 100.0})
        at = {"x": drawing.x.at(drawing.x.start_px - GAP_PX), "y": float(step)}
        across.append({**at, "text": f"{step}"})
        along.append({"x": float(step), "y": drawing.y.at(foot + 11.0), "text": f"{step}"})
    drawing.put("grid", Mark.RULE, lines, "x y x2 y2", color=Colour.RULE, strokeWidth=0.6)
    drawing.put("up", Mark.TEXT, across, "x y text", color=Colour.QUIET, align="right")
    drawing.put("along", Mark.TEXT, along, "x y text", color=Colour.QUIET, align="center")
    titles = [
        {**drawing.point(4.0, 8.0), "text": labels["axis"]},
        {**drawing.point(drawing.x.start_px, foot + 11.0 + LINE_PX), "text": labels["stated"]},
    ]
    drawing.put("titles", Mark.TEXT, titles, "x y text", color=Colour.QUIET, align="left")


def _key(drawing: Drawing, key: list[str], heights: list[float], top: float) -> None:
    """What the band, the broken line and the rings are, under the field."""
    words: list[Row] = []
    middles = []
    for text, height in zip(key, heights, strict=True):
        middles.append(top + 0.5 * LINE_PX)
        words.append({**drawing.point(30.0, middles[-1]), "text": text})
        top += height
    chance, exact, read = middles
    box = drawing.box(4.0, chance - 5.0, 22.0, chance + 5.0)
    drawing.put(
        "key_chance",
        Mark.RECT,
        [box],
        "x y x2 y2",
        fill=Colour.BAND_OUTER,
        stroke=Colour.OUTLINE,
        strokeWidth=0.8,
    )
    for name, middle, colour, dash in (
        ("key_exact", exact, Colour.QUIET, (5.0, 3.0)),
        ("key_read", read, Colour.RUST, None),
    ):
        line = drawing.box(4.0, middle, 22.0, middle)
        drawing.put(
            name,
            Mark.RULE,
            [line],
            "x y x2 y2",
            color=colour,
            strokeWidth=1.4,
            strokeDash=dash,
        )
    _rings(drawing, "key_point", [drawing.point(13.0, read)])
    drawing.put("key", Mark.TEXT, words, "x y text", color=Colour.INK, align="left")
