"""Drawing a field: ground by its class, zones by their letters, samples, scale bar and north."""

from __future__ import annotations

import math
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import text_width
from loamshift.report.chart_tones import Colour

_EDGE_PX: Final = 8.0
_STRIP_PX: Final = 34.0
"""Room under the field for scale bar and north."""
_LINE_PX: Final = 19.0
_SWATCH_PX: Final = 14.0
_GAP_PX: Final = 16.0
_NARROW_PX: Final = 440.0
_WIDE_SHARE, _NARROW_SHARE = 0.5, 1.15
"""How high the field may be against the width, on a page and on a phone."""
_SEAM_PX: Final = 0.5
"""Cells lie over one another by so much, or a line would show between them."""
_RAMP_PX, _RAMP_FOOT_PX = 26.0, 34.0
"""How wide a colour of the ramp is, and the room the ramp takes with its words."""
_DISC_PX2: Final = 300.0
_SAMPLE_PX2: Final = 16.0


def draw_field(figure: Figure, *, width: float) -> Drawing:
    """A field as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    (frame,) = rows_of(figure, "frame")
    west, east = number(frame["west"]), number(frame["east"])
    south, north = number(frame["south"]), number(frame["north"])
    most = width * (_NARROW_SHARE if width < _NARROW_PX else _WIDE_SHARE)
    px_per_m = min((width - 2.0 * _EDGE_PX) / (east - west), most / (north - south))
    across, high = px_per_m * (east - west), px_per_m * (north - south)
    left = 0.5 * (width - across)
    legend = _legend_lines(figure, width)
    top = _EDGE_PX
    ramp = rows_of(figure, "ramp")
    foot = top + high + _STRIP_PX + (_RAMP_FOOT_PX if ramp else 0.0)
    drawing = Drawing(
        width=width,
        height=math.ceil(foot + _LINE_PX * len(legend) + _EDGE_PX),
        x=Scale(low=west, high=east, start_px=left, end_px=left + across),
        y=Scale(low=south, high=north, start_px=top + high, end_px=top),
    )
    _ground(drawing, figure, px_per_m)
    edges: list[Row] = [
        {key: number(row[key]) for key in ("x", "y", "x2", "y2")}
        for row in rows_of(figure, "edges")
    ]
    drawing.put("edges", Mark.RULE, edges, "x y x2 y2", color=Colour.INK, strokeWidth=1.2)
    _points(drawing, figure)
    _letters(drawing, figure)
    strip = top + high + 0.5 * _STRIP_PX
    _bar(drawing, figure, px_per_m, strip)
    _north(drawing, figure, strip)
    _ramp(drawing, ramp, top + high + _STRIP_PX)
    _legend(drawing, legend, foot)
    return drawing


def _ground(drawing: Drawing, figure: Figure, px_per_m: float) -> None:
    seam = _SEAM_PX / px_per_m
    cells = rows_of(figure, "cells")
    for colour in dict.fromkeys(str(row["colour"]) for row in cells):
        rows: list[Row] = [
            {
                "x": number(row["x"]),
                "x2": number(row["x2"]) + seam,
                "y": number(row["y"]) - seam,
                "y2": number(row["y2"]),
            }
            for row in cells
            if row["colour"] == colour
        ]
        drawing.put(f"ground_{colour}", Mark.RECT, rows, "x y x2 y2", color=Colour(colour))


def _points(drawing: Drawing, figure: Figure) -> None:
    for kind, fill in (("sample", Colour.INK), ("further", Colour.PAPER)):
        rows: list[Row] = [
            {"x": number(row["x"]), "y": number(row["y"])}
            for row in rows_of(figure, "points")
            if row["kind"] == kind
        ]
        drawing.put(
            f"points_{kind}",
            Mark.POINT,
            rows,
            "x y",
            fill=fill,
            stroke=Colour.RUST if kind == "further" else Colour.PAPER,
            strokeWidth=2.0 if kind == "further" else 0.8,
            size=4.0 * _SAMPLE_PX2 if kind == "further" else _SAMPLE_PX2,
        )


def _letters(drawing: Drawing, figure: Figure) -> None:
    rows: list[Row] = [
        {"x": number(row["x"]), "y": number(row["y"]), "text": str(row["text"])}
        for row in rows_of(figure, "letters")
    ]
    drawing.put(
        "discs",
        Mark.POINT,
        rows,
        "x y",
        fill=Colour.PAPER,
        stroke=Colour.INK,
        strokeWidth=0.8,
        size=_DISC_PX2,
    )
    drawing.put(
        "letters", Mark.TEXT, rows, "x y text", color=Colour.INK, align="center", fontWeight="bold"
    )


def _bar(drawing: Drawing, figure: Figure, px_per_m: float, middle_px: float) -> None:
    (bar,) = rows_of(figure, "bar")
    long_px = px_per_m * number(bar["metres"])
    start = _EDGE_PX
    foot = middle_px + 4.0
    drawing.put(
        "scale_bar",
        Mark.RULE,
        [
            drawing.box(start, foot, start + long_px, foot),
            drawing.box(start, foot - 4.0, start, foot + 4.0),
            drawing.box(start + long_px, foot - 4.0, start + long_px, foot + 4.0),
        ],
        "x y x2 y2",
        color=Colour.INK,
        strokeWidth=1.4,
    )
    drawing.put(
        "scale_text",
        Mark.TEXT,
        [{**drawing.point(start + long_px + 8.0, foot), "text": str(bar["text"])}],
        "x y text",
        color=Colour.QUIET,
        align="left",
    )


def _north(drawing: Drawing, figure: Figure, middle_px: float) -> None:
    text = dict(figure.labels)["north"]
    right = drawing.width - _EDGE_PX - text_width(text) - 6.0
    drawing.put(
        "north",
        Mark.RULE,
        [
            drawing.box(right - 8.0, middle_px + 11.0, right - 8.0, middle_px - 9.0),
            drawing.box(right - 8.0, middle_px - 9.0, right - 12.5, middle_px - 2.0),
            drawing.box(right - 8.0, middle_px - 9.0, right - 3.5, middle_px - 2.0),
        ],
        "x y x2 y2",
        color=Colour.INK,
        strokeWidth=1.4,
    )
    drawing.put(
        "north_text",
        Mark.TEXT,
        [{**drawing.point(right + 4.0, middle_px + 4.0), "text": text}],
        "x y text",
        color=Colour.QUIET,
        align="left",
    )


def _ramp(drawing: Drawing, ramp: list[dict[str, str | float | None]], top_px: float) -> None:
    """Colours side by side, the pH where one begins below it."""
    wide = min(_RAMP_PX, (drawing.width - 2.0 * _EDGE_PX) / max(len(ramp), 1))
    words: list[Row] = []
    for place, row in enumerate(ramp):
        start = _EDGE_PX + place * wide
        drawing.put(
            f"ramp_{place}",
            Mark.RECT,
            [drawing.box(start, top_px, start + wide, top_px + _SWATCH_PX)],
            "x y x2 y2",
            fill=Colour(str(row["colour"])),
            stroke=Colour.QUIET,
            strokeWidth=0.6,
        )
        if row["text"]:
            at = max(start, _EDGE_PX + 8.0)
            words.append({**drawing.point(at, top_px + _SWATCH_PX + 9.0), "text": str(row["text"])})
    drawing.put("ramp_words", Mark.TEXT, words, "x y text", color=Colour.INK, align="center")


def _legend_lines(figure: Figure, width: float) -> list[list[tuple[str, str, float]]]:
    """What stands in each line of the legend: colour or kind, text, and where it begins [px]."""
    lines: list[list[tuple[str, str, float]]] = [[]]
    at = _EDGE_PX
    for row in rows_of(figure, "legend"):
        text = str(row["text"])
        long = _SWATCH_PX + 6.0 + text_width(text)
        if lines[-1] and at + long > width - _EDGE_PX:
            lines.append([])
            at = _EDGE_PX
        lines[-1].append((str(row["colour"]), text, at))
        at += long + _GAP_PX
    return lines


def _legend(drawing: Drawing, lines: list[list[tuple[str, str, float]]], top_px: float) -> None:
    words: list[Row] = []
    for place, line in enumerate(lines):
        middle = top_px + (place + 0.5) * _LINE_PX
        for key, text, at in line:
            half = 0.5 * _SWATCH_PX
            if key in ("sample", "further"):
                drawing.put(
                    f"legend_{key}",
                    Mark.POINT,
                    [drawing.point(at + half, middle)],
                    "x y",
                    fill=Colour.INK if key == "sample" else Colour.PAPER,
                    stroke=Colour.RUST if key == "further" else Colour.PAPER,
                    strokeWidth=2.0 if key == "further" else 0.8,
                    size=4.0 * _SAMPLE_PX2 if key == "further" else _SAMPLE_PX2,
                )
            else:
                drawing.put(
                    f"legend_{key}_{place}",
                    Mark.RECT,
                    [drawing.box(at, middle - half, at + _SWATCH_PX, middle + half)],
                    "x y x2 y2",
                    fill=Colour(key),
                    stroke=Colour.QUIET,
                    strokeWidth=0.8,
                )
            words.append({**drawing.point(at + _SWATCH_PX + 6.0, middle), "text": text})
    drawing.put("legend_words", Mark.TEXT, words, "x y text", color=Colour.INK, align="left")
