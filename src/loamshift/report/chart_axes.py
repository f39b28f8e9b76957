"""What drawings over time share: the range wanted, the grid, dates, labels at the line ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, number, rows_of
from loamshift.report.chart_text import LINE_PX, spread, text_width, wrapped
from loamshift.report.chart_tones import Colour, ph_ink
from loamshift.report.figures.course import days_between

GAP_PX: Final = 8.0
LEAD_PX: Final = 12.0
"""From the end of a line to its label."""
FOOT_PX: Final = 44.0
"""Room under the field, for what happened and for the dates."""
EVENT_PX: Final = 9.0
"""From the foot of the field to the middle of what happened."""
KEY_PX: Final = 16.0
"""What a mark and the gap after it take in the key of what happened."""
NARROW_PX: Final = 440.0
"""A picture narrower than this has a lower field."""
_HALF_STEP_SPAN: Final = 2.6
"""A field of more pH than this is ruled by whole numbers only."""
_DATE_PX: Final = 10.0
"""From the foot of the picture up to the middle of the dates."""
_APART_PX: Final = 12.0
"""Least room between two dates."""
_YEARS: Final = 1
"""The rank of years, or of decades where the axis is long; the first day has rank 0."""
_LINED_PX: Final = 4.0
"""From line to line of a field without colour."""


@dataclass(frozen=True, slots=True)
class EndLabel:
    """What stands at the end of a line, in the height [px] of that end."""

    text: str
    y_px: float
    colour: Colour
    bold: bool = False


def wanted_field(drawing: Drawing, figure: Figure) -> EndLabel | None:
    """The field of the range wanted; its label, where there is one."""
    label = None
    rows: list[Row] = []
    lines: list[Row] = []
    fill = Colour.FIELD_NEUTRAL
    for row in rows_of(figure, "wanted"):
        low, high = number(row["low"]), number(row["high"])
        rows.append({"x": drawing.x.low, "y": low, "x2": drawing.x.high, "y2": high})
        text, fill = ph_ink(0.5 * (low + high))
        name = dict(figure.labels)["wanted"]
        label = EndLabel(name, drawing.y.px(0.5 * (low + high)), text)
        top = drawing.y.px(high) + _LINED_PX
        while top < drawing.y.px(low) - 1.0:
            lines.append({"x": drawing.x.low, "y": drawing.y.at(top), "x2": drawing.x.high})
            top += _LINED_PX
    drawing.put("wanted", Mark.RECT, rows, "x y x2 y2", color=fill)
    drawing.put("wanted_lines", Mark.RULE, lines, "x y x2", color=Colour.LINED, strokeWidth=0.5)
    return label


def wanted_edges(drawing: Drawing, figure: Figure) -> None:
    """The two ends of the range once more over the bands, which would hide them."""
    rows: list[Row] = []
    colour = Colour.QUIET
    for row in rows_of(figure, "wanted"):
        low, high = number(row["low"]), number(row["high"])
        colour = ph_ink(0.5 * (low + high))[0]
        rows += [{"x": drawing.x.low, "y": at, "x2": drawing.x.high} for at in (low, high)]
    drawing.put(
        "wanted_edges",
        Mark.RULE,
        rows,
        "x y x2",
        color=colour,
        strokeWidth=0.8,
        strokeDash=(6.0, 3.0),
    )


def ph_span(values: Sequence[float]) -> tuple[float, float, float]:
    """Ends of a field that holds all of these [pH], and the step of its lines [pH]."""
    low, high = min(values) - 0.05, max(values) + 0.05
    step = 0.5 if high - low <= _HALF_STEP_SPAN else 1.0
    return math.floor(low * 2.0) / 2.0, math.ceil(high * 2.0) / 2.0, step


def bands(drawing: Drawing, rows: list[Row]) -> None:
    """The bands of a forecast, half and nine tests in ten, with edges where there is no colour."""
    for low, high, colour, thick in (
        ("q05", "q95", Colour.BAND_OUTER, 0.8),
        ("q25", "q75", Colour.BAND_INNER, 0.4),
    ):
        drawing.put(
            "course",
            Mark.AREA,
            rows,
            f"x y={low} y2={high}",
            fill=colour,
            stroke=Colour.OUTLINE,
            strokeWidth=thick,
        )


def alone_line(drawing: Drawing, name: str, rows: list[Row], fields: str) -> None:
    """The dotted course of the bed left alone, from the rows and fields of a name."""
    drawing.put(
        name,
        Mark.LINE,
        rows,
        fields,
        color=Colour.INK,
        strokeWidth=1.4,
        strokeDash=(1.0, 4.0),
        strokeCap="round",
    )


def foot_line(drawing: Drawing) -> None:
    """The line that the field stands on."""
    foot = drawing.y.start_px
    drawing.put(
        "axis",
        Mark.RULE,
        [drawing.box(drawing.x.start_px, foot, drawing.x.end_px, foot)],
        "x y x2",
        color=Colour.QUIET,
        strokeWidth=0.8,
    )


def ph_grid(drawing: Drawing, title: str, *, step: float) -> None:
    """Lines across the field, their pH at the left, and what the axis shows above."""
    left_px = drawing.x.start_px
    ticks = []
    value = math.ceil(drawing.y.low / step) * step
    while value <= drawing.y.high + 1e-9:
        ticks.append(value)
        value += step
    drawing.put(
        "grid",
        Mark.RULE,
        [{"x": drawing.x.low, "y": tick, "x2": drawing.x.high} for tick in ticks],
        "x y x2",
        color=Colour.RULE,
        strokeWidth=0.6,
    )
    drawing.put(
        "ph_labels",
        Mark.TEXT,
        [{"x": drawing.x.at(left_px - GAP_PX), "y": tick, "text": _tick(tick)} for tick in ticks],
        "x y text",
        color=Colour.QUIET,
        align="right",
    )
    drawing.put(
        "ph_title",
        Mark.TEXT,
        [{**drawing.point(4.0, 7.0), "text": title}],
        "x y text",
        color=Colour.QUIET,
        align="left",
    )


def _tick(value: float) -> str:
    return f"{round(value, 6) + 0.0:g}".replace("-", "−")


def date_labels(
    drawing: Drawing, figure: Figure, first: str, *, foot_px: float | None = None
) -> None:
    """Dates under the axis, the most welcome first, each only where it has room.

    Days of the lower ranks, such as each July, get their words all or none: one named July
    among others would be read as the only one. They get none where years had to be left out.
    They stand at the foot of the picture, or at another height [px].
    """
    at_y = (drawing.height if foot_px is None else foot_px) - _DATE_PX
    taken: list[tuple[float, float]] = []
    words: list[Row] = []
    ticks: list[Row] = []
    left_out = 0
    for rank, rows in _by_rank(figure):
        placed: list[tuple[float, float]] = []
        said: list[Row] = []
        crowded = rank > _YEARS and left_out > 1
        for row in rows:
            text = str(row["text"])
            at = drawing.x.px(days_between(first, str(row["date"])))
            half = 0.5 * text_width(text)
            start = max(drawing.x.start_px, at - half) if rank == 0 else at - half
            end = start + 2.0 * half
            ticks.append(drawing.box(at, at_y - 11.0, at, at_y - 7.5))
            if end > drawing.width - 2.0 or _overlaps(start, end, taken[:1]):
                left_out += 1
            elif _overlaps(start, end, [*taken, *placed]):
                left_out += 1
                crowded = crowded or rank > _YEARS
            else:
                placed.append((start, end))
                said.append({**drawing.point(start + half, at_y), "text": text})
        if not crowded:
            taken += placed
            words += said
    drawing.put("date_ticks", Mark.RULE, ticks, "x y x2 y2", color=Colour.QUIET, strokeWidth=0.8)
    drawing.put("date_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="center")


def _by_rank(figure: Figure) -> list[tuple[float, list[dict[str, str | float | None]]]]:
    rows = sorted(rows_of(figure, "calendar"), key=lambda row: number(row["rank"]))
    return [(rank, list(same)) for rank, same in groupby(rows, lambda row: number(row["rank"]))]


def _overlaps(start: float, end: float, taken: list[tuple[float, float]]) -> bool:
    return any(start < after + _APART_PX and end > before - _APART_PX for before, after in taken)


def end_labels(drawing: Drawing, ends: list[EndLabel], *, room: float) -> None:
    """Labels at the ends of the lines, none over another, in so much room [px]."""
    texts = [
        wrapped(end.text, width=(room - LEAD_PX) / (1.09 if end.bold else 1.0)) for end in ends
    ]
    heights = [LINE_PX * (1 + text.count("\n")) + 3.0 for text in texts]
    middles = spread(
        [end.y_px for end in ends],
        heights,
        low=drawing.y.end_px - 8.0,
        high=drawing.y.start_px - 1.0,
    )
    leaders: list[Row] = []
    words: dict[tuple[Colour, bool], list[Row]] = {}
    start = drawing.x.end_px
    for end, text, middle in zip(ends, texts, middles, strict=True):
        if abs(middle - end.y_px) > 3.0:
            leaders.append(drawing.box(start + 2.0, end.y_px, start + LEAD_PX - 2.0, middle))
        # a text of several lines hangs from its first, so that every line keeps its distance
        top = middle - 0.5 * LINE_PX * text.count("\n")
        words.setdefault((end.colour, end.bold), []).append(
            {**drawing.point(start + LEAD_PX, top), "text": text}
        )
    drawing.put("leaders", Mark.RULE, leaders, "x y x2 y2", color=Colour.QUIET, strokeWidth=0.6)
    for number_, ((colour, bold), rows) in enumerate(words.items()):
        drawing.put(
            f"end_labels_{number_}",
            Mark.TEXT,
            rows,
            "x y text",
            color=colour,
            align="left",
            fontWeight="bold" if bold else None,
        )
