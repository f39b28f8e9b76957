"""Drawing the ways to bring acid or lime: how soon half has worked, and the price beside it."""

from __future__ import annotations

import math
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, text_width, wrapped
from loamshift.report.chart_tones import Colour

_HEAD_PX: Final = 20.0
_ROW_PX: Final = 23.0
_SIDE_PX: Final = 4.0
_GAP_PX: Final = 9.0
_NAME_SHARE: Final = 0.34
_LEAST_SCALE_PX: Final = 170.0
"""A scale shorter than this gives up the column of prices."""


def draw_options(figure: Figure, *, width: float) -> Drawing:
    """The options as marks on a scale on which each step is a multiple.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    ways = rows_of(figure, "ways")
    labels = dict(figure.labels)
    names = [wrapped(str(row["name"]), width=_NAME_SHARE * width) for row in ways]
    middles, foot = [], _HEAD_PX
    for name in names:
        room = max(_ROW_PX, LINE_PX * (1 + name.count("\n")) + 7.0)
        middles.append(foot + 0.5 * room)
        foot += room
    steps = [
        (math.log10(number(row["weeks"])), str(row["text"])) for row in rows_of(figure, "scale")
    ]
    left = _SIDE_PX + max(text_width(name) for name in names) + _GAP_PX
    said = max(text_width(str(row["said"])) for row in ways)
    costs = [str(row["cost"]) for row in ways]
    cost = max((text_width(text) + 16.0 for text in [*costs, labels["cost"]]), default=0.0)
    if not any(costs) or width - left - said - cost < _LEAST_SCALE_PX:
        cost = 0.0  # the table has it
    height = foot + LINE_PX + 11.0
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(
            low=steps[0][0],
            high=steps[-1][0],
            start_px=left + 4.0,
            end_px=width - _SIDE_PX - said - _GAP_PX - cost,
        ),
        y=Scale(low=0.0, high=height, start_px=0.0, end_px=height),
    )
    _scale(drawing, steps, foot, labels["axis"])
    _dots(drawing, ways, middles)
    _words(drawing, ways, names, middles, cost=cost, title=labels["cost"])
    return drawing


def _scale(
    drawing: Drawing,
    steps: list[tuple[float, str]],
    foot: float,
    title: str,
) -> None:
    rules = [drawing.box(at, foot, at, foot + 4.0) for at in (drawing.x.px(v) for v, _ in steps)]
    rules.append(drawing.box(drawing.x.start_px, foot, drawing.x.end_px, foot))
    words: list[Row] = []
    taken: list[tuple[float, float]] = []
    welcome = [0, len(steps) - 1, 2, 4, 1, 3]
    for index in welcome[: len(steps)]:
        value, text = steps[index]
        at, half = drawing.x.px(value), 0.5 * text_width(text)
        if any(at - half < end + 8.0 and at + half > start - 8.0 for start, end in taken):
            continue
        taken.append((at - half, at + half))
        words.append({**drawing.point(at, foot + 12.0), "text": text})
    drawing.put("steps", Mark.RULE, rules, "x y x2 y2", color=Colour.QUIET, strokeWidth=0.7)
    drawing.put("step_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="center")
    drawing.put(
        "title",
        Mark.TEXT,
        [{**drawing.point(drawing.x.start_px, 8.0), "text": title}],
        "x y text",
        color=Colour.QUIET,
        align="left",
    )


def _dots(
    drawing: Drawing,
    ways: list[dict[str, str | float | None]],
    middles: list[float],
) -> None:
    lines: list[Row] = []
    dots: dict[str, list[Row]] = {"known": [], "longer": []}
    for row, middle in zip(ways, middles, strict=True):
        at = math.log10(number(row["weeks"]))
        lines.append({"x": drawing.x.low, "x2": at, "y": middle, "y2": middle})
        dots[str(row["known"])].append({"x": at, "y": middle})
    drawing.put("stems", Mark.RULE, lines, "x y x2 y2", color=Colour.SPAN, strokeWidth=2.2)
    for known, fill in (("known", Colour.RUST), ("longer", Colour.PAPER)):
        drawing.put(
            f"dots_{known}",
            Mark.POINT,
            dots[known],
            "x y",
            fill=fill,
            stroke=Colour.RUST,
            strokeWidth=1.4,
            size=46.0,
        )


def _words(
    drawing: Drawing,
    ways: list[dict[str, str | float | None]],
    names: list[str],
    middles: list[float],
    *,
    cost: float,
    title: str,
) -> None:
    name_rows: list[Row] = []
    said_rows: list[Row] = []
    cost_rows: list[Row] = []
    right = drawing.width - _SIDE_PX
    for row, name, middle in zip(ways, names, middles, strict=True):
        at = drawing.x.px(math.log10(number(row["weeks"])))
        top = middle - 0.5 * LINE_PX * name.count("\n") + 0.5
        name_rows.append({**drawing.point(drawing.x.start_px - 4.0 - _GAP_PX, top), "text": name})
        said_rows.append({**drawing.point(at + _GAP_PX, middle + 0.5), "text": str(row["said"])})
        if row["cost"] and cost:
            cost_rows.append({**drawing.point(right, middle + 0.5), "text": str(row["cost"])})
    if cost_rows:
        cost_rows.append({**drawing.point(right, 8.0), "text": title})
    drawing.put("names", Mark.TEXT, name_rows, "x y text", color=Colour.INK, align="right")
    drawing.put("saids", Mark.TEXT, said_rows, "x y text", color=Colour.QUIET, align="left")
    drawing.put("costs", Mark.TEXT, cost_rows, "x y text", color=Colour.QUIET, align="right")
