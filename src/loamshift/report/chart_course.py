"""Drawing the course of the pH: bands, lines, the range wanted, and labels at their ends."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_axes import (
    EVENT_PX,
    FOOT_PX,
    GAP_PX,
    KEY_PX,
    LEAD_PX,
    NARROW_PX,
    EndLabel,
    alone_line,
    bands,
    date_labels,
    end_labels,
    foot_line,
    ph_grid,
    ph_span,
    wanted_edges,
    wanted_field,
)
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import text_width
from loamshift.report.chart_tones import Colour
from loamshift.report.figures.course import days_between

_HEAD_PX: Final = 22.0
_EVENTS_PX: Final = 16.0
"""Room that parts and tests take, where there are any."""
_LABEL_SHARE, _LABEL_MOST = 0.27, 0.4
"""Share of the width that the labels take, and the most they take for a long word."""
_KEY_APART_PX: Final = 16.0
"""From the end of the axis to the key of its marks, where there is room."""


def draw_course(figure: Figure, *, width: float) -> Drawing:
    """The course of the pH as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    course = rows_of(figure, "course")
    first = str(course[0]["date"])
    low, high, step = _ph_range(figure, course)
    words = [
        text_width(word, bold=key == "plan")
        for key in ("plan", "alone", "band", "wanted")
        for word in labels[key].split(" ")
    ]
    room = min(_LABEL_SHARE * width, 150.0)
    room = max(room, min(max(words) + LEAD_PX + 2.0, _LABEL_MOST * width))
    field_height = 172.0 if width < NARROW_PX else 216.0
    left = 12.0 + text_width("10.5")
    right = width - room - GAP_PX
    marked = bool(rows_of(figure, "parts") or rows_of(figure, "tests"))
    height = _HEAD_PX + field_height + (FOOT_PX if marked else FOOT_PX - _EVENTS_PX)
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(
            low=0.0,
            high=float(days_between(first, str(course[-1]["date"]))),
            start_px=left,
            end_px=right,
        ),
        y=Scale(low=low, high=high, start_px=_HEAD_PX + field_height, end_px=_HEAD_PX),
    )
    wanted = wanted_field(drawing, figure)
    ph_grid(drawing, labels["axis"], step=step)
    _too_early(drawing, figure, labels["too_early"], first)
    rows = _lines(drawing, course, first)
    wanted_edges(drawing, figure)
    draw_events(drawing, figure, labels, first)
    date_labels(drawing, figure, first)
    ends = _ends(drawing, rows[-1], labels, wanted)
    end_labels(drawing, ends, room=room)
    return drawing


def _ph_range(
    figure: Figure, course: list[dict[str, str | float | None]]
) -> tuple[float, float, float]:
    values = [number(row[key]) for row in course for key in ("q05", "q95")]
    values += [number(row["alone"]) for row in course if row["alone"] is not None]
    values += [number(value) for row in rows_of(figure, "wanted") for value in row.values()]
    return ph_span(values)


def _too_early(drawing: Drawing, figure: Figure, text: str, first: str) -> None:
    boxes: list[Row] = []
    lines: list[Row] = []
    words: list[Row] = []
    top, bottom = drawing.y.end_px, drawing.y.start_px
    for row in rows_of(figure, "too_early"):
        left = drawing.x.px(days_between(first, str(row["from"])))
        right = drawing.x.px(days_between(first, str(row["to"])))
        boxes = [drawing.box(left, top, right, bottom)]
        lines = [drawing.box(right, top, right, bottom)]
        at = max(left, 4.0 + text_width(dict(figure.labels)["axis"]) + 14.0)
        words = [{**drawing.point(at, 7.0), "text": text}]
        if at > right:
            lines.append(drawing.box(right, top, right, 17.0))
            lines.append(drawing.box(right, 17.0, at - 3.0, 9.0))
    drawing.put("too_early", Mark.HATCH, boxes, "x y x2 y2", color=Colour.HATCH, step=7.0)
    drawing.put("too_early_end", Mark.RULE, lines, "x y x2 y2", color=Colour.HATCH, strokeWidth=0.8)
    drawing.put("too_early_label", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="left")


def _lines(
    drawing: Drawing,
    course: list[dict[str, str | float | None]],
    first: str,
) -> list[Row]:
    rows: list[Row] = []
    for row in course:
        shown: Row = {"x": float(days_between(first, str(row["date"])))}
        shown |= {
            key: number(row[key])
            for key in ("q05", "q25", "q50", "q75", "q95", "alone")
            if row[key] is not None
        }
        rows.append(shown)
    bands(drawing, rows)
    if "alone" in rows[0]:
        alone_line(drawing, "course", rows, "x y=alone")
    drawing.put("course", Mark.LINE, rows, "x y=q50", color=Colour.RUST, strokeWidth=2.0)
    return rows


def draw_events(
    drawing: Drawing,
    figure: Figure,
    labels: dict[str, str],
    first: str,
) -> None:
    """Parts as ticks and tests as rings under the field, and what they are, at the line's end."""
    foot = drawing.y.start_px
    middle = foot + EVENT_PX
    foot_line(drawing)
    parts: list[Row] = []
    perhaps: list[Row] = []
    for row in rows_of(figure, "parts"):
        at = drawing.x.px(days_between(first, str(row["date"])))
        tick = drawing.box(at, foot - 3.0, at, middle + 5.0)
        (parts if row["sure"] == "sure" else perhaps).append(tick)
    tests: list[Row] = []
    for row in rows_of(figure, "tests"):
        at = drawing.x.px(days_between(first, str(row["date"])))
        tests.append(drawing.point(at, middle))
    words: list[Row] = []
    at = drawing.x.end_px + GAP_PX + 2.0
    room = drawing.width - 1.0 - at
    shown = [
        (rows, labels[key])
        for rows, key in ((parts, "part"), (perhaps, "perhaps"), (tests, "test"))
        if rows
    ]
    for spare in (perhaps, parts):  # a narrow picture has them in the table beside it
        if sum(text_width(text) + KEY_PX for _, text in shown) > room:
            shown = [entry for entry in shown if entry[0] is not spare]
    spare_px = room - sum(text_width(text) + KEY_PX for _, text in shown)
    at += min(max(spare_px, 0.0), _KEY_APART_PX)  # a test at the end is no key
    for rows, text in shown:
        if rows is tests:
            rows.append(drawing.point(at + 2.0, middle))
        else:
            rows.append(drawing.box(at, middle - 5.0, at, middle + 5.0))
        start = at + (9.0 if rows is tests else 5.0)
        words.append({**drawing.point(start, middle), "text": text})
        at = start + text_width(text) + 10.0
    drawing.put("parts", Mark.RULE, parts, "x y x2 y2", color=Colour.RUST, strokeWidth=2.6)
    drawing.put(
        "perhaps",
        Mark.RULE,
        perhaps,
        "x y x2 y2",
        color=Colour.RUST,
        strokeWidth=1.4,
        strokeDash=(2.0, 2.0),
    )
    drawing.put(
        "tests",
        Mark.POINT,
        tests,
        "x y",
        fill=Colour.PAPER,
        stroke=Colour.INK,
        strokeWidth=1.3,
        size=42.0,
    )
    drawing.put("event_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="left")


def _ends(
    drawing: Drawing,
    last: Row,
    labels: dict[str, str],
    wanted: EndLabel | None,
) -> list[EndLabel]:
    plan = drawing.y.px(number(last["q50"]))
    ends = [EndLabel(labels["plan"], plan, Colour.RUST, bold=True)]
    if "alone" in last:
        ends.append(EndLabel(labels["alone"], drawing.y.px(number(last["alone"])), Colour.INK))
    if wanted is not None:
        ends.append(wanted)
    edges = [drawing.y.px(number(last[key])) for key in ("q95", "q05")]
    others = [end.y_px for end in ends]
    edge = max(edges, key=lambda y: min(abs(y - other) for other in others))
    ends.append(EndLabel(labels["band"], edge, Colour.QUIET))
    return ends
