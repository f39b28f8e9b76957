"""Drawing the course of the pH: bands, lines, the range wanted, and labels at their ends."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, hatching, number, rows_of
from loamshift.report.chart_text import LINE_PX, spread, text_width, wrapped
from loamshift.report.chart_tones import Palette, ph_ink
from loamshift.report.figures.course import days_between

_HEAD_PX: Final = 22.0
_FOOT_PX: Final = 44.0
_EVENT_PX: Final = 9.0
"""From the foot of the field to the middle of the parts and tests."""
_EVENTS_PX: Final = 16.0
"""Room that parts and tests take, where there are any."""
_DATE_PX: Final = 10.0
"""From the foot of the picture up to the middle of the dates."""
_GAP_PX: Final = 8.0
_LABEL_SHARE, _LABEL_MOST = 0.27, 0.4
"""Share of the width that the labels take, and the most they take for a long word."""
_LEAD_PX: Final = 12.0
_NARROW_PX: Final = 440.0
_KEY_PX: Final = 16.0
"""What a mark and the gap after it take in the key of parts and tests."""
_LINED_PX: Final = 4.0
"""From line to line of a field without colour."""
_HALF_STEP_SPAN: Final = 2.6
"""A field of more pH than this is ruled by whole numbers only."""


@dataclass(frozen=True, slots=True)
class _EndLabel:
    text: str
    y_px: float
    colour: str
    bold: bool = False


def draw_course(figure: Figure, *, palette: Palette, width: float) -> Drawing:
    """The course of the pH as marks.

    Parameters
    ----------
    figure
        A figure of the kind ``course`` [object].
    palette
        Colours [object].
    width
        Width of the picture [px].

    Returns
    -------
    Drawing
        The marks [object].
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
    room = max(room, min(max(words) + _LEAD_PX + 2.0, _LABEL_MOST * width))
    field_height = 172.0 if width < _NARROW_PX else 216.0
    left = 12.0 + text_width("10.5")
    right = width - room - _GAP_PX
    marked = bool(rows_of(figure, "parts") or rows_of(figure, "tests"))
    height = _HEAD_PX + field_height + (_FOOT_PX if marked else _FOOT_PX - _EVENTS_PX)
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
    wanted = _wanted(drawing, figure, palette)
    _grid(drawing, palette, labels["axis"], step=step)
    _too_early(drawing, figure, palette, labels["too_early"], first)
    rows = _bands(drawing, course, palette, first)
    _wanted_edges(drawing, figure, palette)
    _events(drawing, figure, palette, labels, first)
    _dates(drawing, figure, palette, first)
    ends = _ends(drawing, rows[-1], labels, palette, wanted)
    _end_labels(drawing, ends, palette, room=room)
    return drawing


def _ph_range(
    figure: Figure, course: list[dict[str, str | float | None]]
) -> tuple[float, float, float]:
    values = [number(row[key]) for row in course for key in ("q05", "q95")]
    values += [number(row["alone"]) for row in course if row["alone"] is not None]
    values += [number(value) for row in rows_of(figure, "wanted") for value in row.values()]
    low, high = min(values) - 0.05, max(values) + 0.05
    step = 0.5 if high - low <= _HALF_STEP_SPAN else 1.0
    return math.floor(low * 2.0) / 2.0, math.ceil(high * 2.0) / 2.0, step


def _wanted(drawing: Drawing, figure: Figure, palette: Palette) -> _EndLabel | None:
    """The field of the range wanted; its label, where there is one."""
    label = None
    rows: list[Row] = []
    lines: list[Row] = []
    fill = palette.field_neutral
    for row in rows_of(figure, "wanted"):
        low, high = number(row["low"]), number(row["high"])
        rows.append({"x": drawing.x.low, "y": low, "x2": drawing.x.high, "y2": high})
        text, fill = ph_ink(0.5 * (low + high), palette)
        name = dict(figure.labels)["wanted"]
        label = _EndLabel(name, drawing.y.px(0.5 * (low + high)), text)
        top = drawing.y.px(high) + _LINED_PX
        while top < drawing.y.px(low) - 1.0:
            lines.append({"x": drawing.x.low, "y": drawing.y.at(top), "x2": drawing.x.high})
            top += _LINED_PX
    drawing.put("wanted", Mark.RECT, rows, "x y x2 y2", color=fill, opacity=1.0)
    if palette.outline is not None:
        drawing.put("wanted_lines", Mark.RULE, lines, "x y x2", color=palette.rule, strokeWidth=0.5)
    return label


def _wanted_edges(drawing: Drawing, figure: Figure, palette: Palette) -> None:
    """The two ends of the range once more over the bands, which would hide them."""
    rows: list[Row] = []
    colour = palette.quiet
    for row in rows_of(figure, "wanted"):
        low, high = number(row["low"]), number(row["high"])
        colour = ph_ink(0.5 * (low + high), palette)[0]
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


def _grid(drawing: Drawing, palette: Palette, title: str, *, step: float) -> None:
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
        color=palette.rule,
        strokeWidth=0.6,
    )
    drawing.put(
        "ph_labels",
        Mark.TEXT,
        [{"x": drawing.x.at(left_px - _GAP_PX), "y": tick, "text": f"{tick:g}"} for tick in ticks],
        "x y text",
        color=palette.quiet,
        align="right",
    )
    drawing.put(
        "ph_title",
        Mark.TEXT,
        [{**drawing.point(4.0, 7.0), "text": title}],
        "x y text",
        color=palette.quiet,
        align="left",
    )


def _too_early(drawing: Drawing, figure: Figure, palette: Palette, text: str, first: str) -> None:
    lines: list[Row] = []
    words: list[Row] = []
    top, bottom = drawing.y.end_px, drawing.y.start_px
    for row in rows_of(figure, "too_early"):
        left = drawing.x.px(days_between(first, str(row["from"])))
        right = drawing.x.px(days_between(first, str(row["to"])))
        lines = [drawing.box(*line) for line in hatching(left, top, right, bottom, step=7.0)]
        lines.append(drawing.box(right, top, right, bottom))
        at = max(left, 4.0 + text_width(dict(figure.labels)["axis"]) + 14.0)
        words = [{**drawing.point(at, 7.0), "text": text}]
        if at > right:
            lines.append(drawing.box(right, top, right, 12.0))
            lines.append(drawing.box(right, 12.0, at - 3.0, 7.0))
    drawing.put("too_early", Mark.RULE, lines, "x y x2 y2", color=palette.hatch, strokeWidth=0.8)
    drawing.put("too_early_label", Mark.TEXT, words, "x y text", color=palette.quiet, align="left")


def _bands(
    drawing: Drawing,
    course: list[dict[str, str | float | None]],
    palette: Palette,
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
        rows.append({**shown, "said": str(row["said"])})
    for (low, high), opacity in zip(
        (("q05", "q95"), ("q25", "q75")), palette.band_opacity, strict=True
    ):
        drawing.put(
            "course", Mark.AREA, rows, f"x y={low} y2={high}", color=palette.band, opacity=opacity
        )
    if palette.outline is not None:
        for edge, thick in (("q05", 0.8), ("q25", 0.4), ("q75", 0.4), ("q95", 0.8)):
            drawing.put(
                "course", Mark.LINE, rows, f"x y={edge}", color=palette.outline, strokeWidth=thick
            )
    if "alone" in rows[0]:
        drawing.put(
            "course",
            Mark.LINE,
            rows,
            "x y=alone",
            color=palette.ink,
            strokeWidth=1.4,
            strokeDash=(1.0, 4.0),
            strokeCap="round",
        )
    drawing.put("course", Mark.LINE, rows, "x y=q50", color=palette.rust, strokeWidth=2.0)
    return rows


def _events(
    drawing: Drawing,
    figure: Figure,
    palette: Palette,
    labels: dict[str, str],
    first: str,
) -> None:
    """Parts as ticks and tests as rings under the field, and what they are, at the line's end."""
    foot = drawing.y.start_px
    middle = foot + _EVENT_PX
    drawing.put(
        "axis",
        Mark.RULE,
        [drawing.box(drawing.x.start_px, foot, drawing.x.end_px, foot)],
        "x y x2",
        color=palette.quiet,
        strokeWidth=0.8,
    )
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
    at = drawing.x.end_px + _GAP_PX + 2.0
    room = drawing.width - 1.0 - at
    shown = [
        (rows, labels[key])
        for rows, key in ((parts, "part"), (perhaps, "perhaps"), (tests, "test"))
        if rows
    ]
    if parts and sum(text_width(text) + _KEY_PX for _, text in shown) > room:
        shown = [entry for entry in shown if entry[0] is not perhaps]
    for rows, text in shown:
        if rows is tests:
            rows.append(drawing.point(at + 2.0, middle))
        else:
            rows.append(drawing.box(at, middle - 5.0, at, middle + 5.0))
        start = at + (9.0 if rows is tests else 5.0)
        words.append({**drawing.point(start, middle), "text": text})
        at = start + text_width(text) + 10.0
    drawing.put("parts", Mark.RULE, parts, "x y x2 y2", color=palette.rust, strokeWidth=2.6)
    drawing.put("perhaps", Mark.RULE, perhaps, "x y x2 y2", color=palette.rust, strokeWidth=1.1)
    drawing.put(
        "tests",
        Mark.POINT,
        tests,
        "x y",
        fill=palette.paper,
        stroke=palette.ink,
        strokeWidth=1.3,
        size=42.0,
    )
    drawing.put("event_labels", Mark.TEXT, words, "x y text", color=palette.quiet, align="left")


def _dates(drawing: Drawing, figure: Figure, palette: Palette, first: str) -> None:
    """Dates under the axis, the most welcome first, each only where it has room."""
    at_y = drawing.height - _DATE_PX
    taken: list[tuple[float, float]] = []
    words: list[Row] = []
    ticks: list[Row] = []
    for row in sorted(rows_of(figure, "calendar"), key=lambda row: number(row["rank"])):
        text = str(row["text"])
        at = drawing.x.px(days_between(first, str(row["date"])))
        half = 0.5 * text_width(text)
        start = max(drawing.x.start_px, at - half) if row["rank"] == 0 else at - half
        end = start + 2.0 * half
        if end > drawing.width - 2.0 or any(start < b + 12.0 and end > a - 12.0 for a, b in taken):
            continue
        taken.append((start, end))
        words.append({**drawing.point(start + half, at_y), "text": text})
        ticks.append(drawing.box(at, at_y - 11.0, at, at_y - 7.5))
    drawing.put("date_ticks", Mark.RULE, ticks, "x y x2 y2", color=palette.quiet, strokeWidth=0.8)
    drawing.put("date_labels", Mark.TEXT, words, "x y text", color=palette.quiet, align="center")


def _ends(
    drawing: Drawing,
    last: Row,
    labels: dict[str, str],
    palette: Palette,
    wanted: _EndLabel | None,
) -> list[_EndLabel]:
    plan = drawing.y.px(number(last["q50"]))
    ends = [_EndLabel(labels["plan"], plan, palette.rust, bold=True)]
    if "alone" in last:
        ends.append(_EndLabel(labels["alone"], drawing.y.px(number(last["alone"])), palette.ink))
    if wanted is not None:
        ends.append(wanted)
    edges = [drawing.y.px(number(last[key])) for key in ("q95", "q05")]
    others = [end.y_px for end in ends]
    edge = max(edges, key=lambda y: min(abs(y - other) for other in others))
    ends.append(_EndLabel(labels["band"], edge, palette.quiet))
    return ends


def _end_labels(drawing: Drawing, ends: list[_EndLabel], palette: Palette, *, room: float) -> None:
    texts = [
        wrapped(end.text, width=(room - _LEAD_PX) / (1.09 if end.bold else 1.0)) for end in ends
    ]
    heights = [LINE_PX * (1 + text.count("\n")) + 3.0 for text in texts]
    middles = spread(
        [end.y_px for end in ends],
        heights,
        low=drawing.y.end_px - 8.0,
        high=drawing.y.start_px - 1.0,
    )
    leaders: list[Row] = []
    words: dict[tuple[str, bool], list[Row]] = {}
    start = drawing.x.end_px
    for end, text, middle in zip(ends, texts, middles, strict=True):
        if abs(middle - end.y_px) > 3.0:
            leaders.append(drawing.box(start + 2.0, end.y_px, start + _LEAD_PX - 2.0, middle))
        # a text of several lines hangs from its first, so that every line keeps its distance
        top = middle - 0.5 * LINE_PX * text.count("\n")
        words.setdefault((end.colour, end.bold), []).append(
            {**drawing.point(start + _LEAD_PX, top), "text": text}
        )
    drawing.put("leaders", Mark.RULE, leaders, "x y x2 y2", color=palette.quiet, strokeWidth=0.6)
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
