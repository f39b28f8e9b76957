"""Drawing a trial: differences from the control on each day, and what so many pots can show."""

from __future__ import annotations

import math
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_axes import (
    GAP_PX,
    NARROW_PX,
    EndLabel,
    end_labels,
    foot_line,
    ph_grid,
)
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import text_width
from loamshift.report.chart_tones import Colour

_HEAD_PX: Final = 26.0
_FOOT_PX: Final = 40.0
_STEPS: Final = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0)
_MOST_STEPS: Final = 8
_COLOURS: Final = (Colour.RUST, Colour.BASE, Colour.ACID, Colour.INK, Colour.NEUTRAL, Colour.QUIET)
_DASHES: Final = (None, (5.0, 3.0), (2.0, 2.0), (8.0, 3.0, 2.0, 3.0), (1.0, 3.0), (10.0, 4.0))
_RING_PX2: Final = 46.0
_SERIF_PX: Final = 3.0
_DODGE_SHARE: Final = 0.62
"""How much of the room of a day its treatments stand across [1]."""


def draw_trial(figure: Figure, *, width: float) -> Drawing:
    """Differences from the control by day, with their intervals, as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    points, days = rows_of(figure, "points"), rows_of(figure, "days")
    names = list(dict.fromkeys(str(row["treatment"]) for row in points))
    values = [number(row[key]) for row in points for key in ("low", "high")]
    (bound,) = rows_of(figure, "matters")
    values += [number(bound["low"]), number(bound["high"]), 0.0]
    for key in ("expected_low", "expected_high"):
        values += [number(row[key]) for row in points if row[key] is not None]
    low, high, step = _span(values)
    room = min(max(text_width(name, bold=True) for name in names) + 18.0, 0.3 * width)
    field = 210.0 if width < NARROW_PX else 260.0
    left = 14.0 + text_width("−0.55")
    drawing = Drawing(
        width=width,
        height=_HEAD_PX + field + _FOOT_PX,
        x=Scale(low=0.0, high=float(len(days)), start_px=left, end_px=width - room - GAP_PX),
        y=Scale(low=low, high=high, start_px=_HEAD_PX + field, end_px=_HEAD_PX),
    )
    _bound(drawing, number(bound["low"]), number(bound["high"]))
    ph_grid(drawing, labels["axis"], step=step)
    drawing.put(
        "zero",
        Mark.RULE,
        [{"x": 0.0, "y": 0.0, "x2": drawing.x.high}],
        "x y x2",
        color=Colour.INK,
        strokeWidth=1.0,
    )
    ends = []
    for place, name in enumerate(names):
        of_name = [row for row in points if row["treatment"] == name]
        shift = _DODGE_SHARE * ((place + 0.5) / len(names) - 0.5)
        ends.append(_treatment(drawing, name, of_name, place=place, shift=shift))
    foot_line(drawing)
    room_of_day = (drawing.x.end_px - drawing.x.start_px) / len(days)
    widest = max(text_width(str(row["text"])) for row in days)
    text = "text" if widest + GAP_PX < room_of_day else "short"
    _ticks(drawing, [(number(row["place"]) + 0.5, str(row[text])) for row in days])
    _foot_text(drawing, labels["days"])
    end_labels(drawing, ends, room=room)
    return drawing


def _treatment(
    drawing: Drawing,
    name: str,
    rows: list[dict[str, str | float | None]],
    *,
    place: int,
    shift: float,
) -> EndLabel:
    """One treatment: the forecast as a pale box, then interval, point and a line between days."""
    colour, dash = _COLOURS[place % len(_COLOURS)], _DASHES[place % len(_DASHES)]
    half = 0.4 * _DODGE_SHARE / 2.0
    at = [number(row["place"]) + 0.5 + shift for row in rows]
    boxes: list[Row] = []
    middles: list[Row] = []
    for x, row in zip(at, rows, strict=True):
        if row["expected"] is None:
            continue
        low, high = number(row["expected_low"]), number(row["expected_high"])
        boxes.append({"x": x - half, "x2": x + half, "y": low, "y2": high})
        middle = number(row["expected"])
        middles.append({"x": x - half, "x2": x + half, "y": middle})
    drawing.put(
        f"forecast_{place}",
        Mark.RECT,
        boxes,
        "x y x2 y2",
        fill=Colour.BAND_OUTER,
        stroke=Colour.OUTLINE,
        strokeWidth=0.6,
    )
    drawing.put(
        f"forecast_middle_{place}",
        Mark.RULE,
        middles,
        "x y x2",
        color=Colour.QUIET,
        strokeWidth=1.4,
    )
    found: list[Row] = [
        {"x": x, "y": number(row["estimate"])} for x, row in zip(at, rows, strict=True)
    ]
    drawing.put(
        f"between_{place}",
        Mark.LINE,
        found,
        "x y",
        color=colour,
        strokeWidth=0.9,
        strokeDash=dash,
    )
    bars: list[Row] = []
    for x, row in zip(at, rows, strict=True):
        x_px = drawing.x.px(x)
        low_px, high_px = drawing.y.px(number(row["low"])), drawing.y.px(number(row["high"]))
        bars.append(drawing.box(x_px, low_px, x_px, high_px))
        bars += [drawing.box(x_px - _SERIF_PX, y, x_px + _SERIF_PX, y) for y in (low_px, high_px)]
    drawing.put(f"bars_{place}", Mark.RULE, bars, "x y x2 y2", color=colour, strokeWidth=1.2)
    drawing.put(
        f"points_{place}",
        Mark.POINT,
        found,
        "x y",
        fill=Colour.PAPER if place % 2 else colour,
        stroke=colour,
        strokeWidth=1.5,
        size=_RING_PX2,
    )
    return EndLabel(name, drawing.y.px(number(rows[-1]["estimate"])), colour, bold=True)


def draw_trial_size(figure: Figure, *, width: float) -> Drawing:
    """The smallest difference against the number of replicates, as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    rows = rows_of(figure, "sizes")
    (chosen,) = rows_of(figure, "chosen")
    counts = [number(row["replicates"]) for row in rows]
    values = [number(row["difference"]) for row in rows]
    low, high, step = _span([0.0, *values])
    field = 150.0
    left = 14.0 + text_width("0.55")
    drawing = Drawing(
        width=width,
        height=_HEAD_PX + field + _FOOT_PX,
        x=Scale(
            low=counts[0] - 0.5,
            high=counts[-1] + 0.5,
            start_px=left,
            end_px=width - GAP_PX,
        ),
        y=Scale(low=max(low, 0.0), high=high, start_px=_HEAD_PX + field, end_px=_HEAD_PX),
    )
    ph_grid(drawing, labels["axis"], step=step)
    line: list[Row] = [{"x": n, "y": v} for n, v in zip(counts, values, strict=True)]
    drawing.put("curve", Mark.LINE, line, "x y", color=Colour.RUST, strokeWidth=1.6)
    drawing.put(
        "each", Mark.POINT, line, "x y", fill=Colour.PAPER, stroke=Colour.RUST, size=_RING_PX2
    )
    mine: list[Row] = [row for row in line if row["x"] == chosen["replicates"]]
    drawing.put("chosen", Mark.POINT, mine, "x y", fill=Colour.RUST, size=1.6 * _RING_PX2)
    foot_line(drawing)
    _ticks(drawing, [(n, f"{n:.0f}") for n in counts])
    _foot_text(drawing, labels["replicates"])
    return drawing


def _span(values: list[float]) -> tuple[float, float, float]:
    """Ends of a field that holds all values, and the step of its lines [pH]."""
    low, high = min(values), max(values)
    step = next(s for s in _STEPS if (high - low) / s <= _MOST_STEPS or s == _STEPS[-1])
    return math.floor(low / step - 1e-9) * step, math.ceil(high / step + 1e-9) * step, step


def _bound(drawing: Drawing, low: float, high: float) -> None:
    """The range of differences that do not matter."""
    box: Row = {"x": 0.0, "x2": drawing.x.high, "y": low, "y2": high}
    drawing.put("matters", Mark.RECT, [box], "x y x2 y2", color=Colour.FIELD_NEUTRAL)
    edges: list[Row] = [{"x": 0.0, "y": at, "x2": drawing.x.high} for at in (low, high)]
    drawing.put(
        "matters_edges",
        Mark.RULE,
        edges,
        "x y x2",
        color=Colour.QUIET,
        strokeWidth=1.1,
        strokeDash=(6.0, 3.0),
    )


def _ticks(drawing: Drawing, texts: list[tuple[float, str]]) -> None:
    foot = drawing.y.start_px
    words: list[Row] = [
        {**drawing.point(drawing.x.px(at), foot + 12.0), "text": text} for at, text in texts
    ]
    drawing.put("tick_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="center")


def _foot_text(drawing: Drawing, text: str) -> None:
    middle = 0.5 * (drawing.x.start_px + drawing.x.end_px)
    row: Row = {**drawing.point(middle, drawing.height - 9.0), "text": text}
    drawing.put("foot_text", Mark.TEXT, [row], "x y text", color=Colour.QUIET, align="center")
