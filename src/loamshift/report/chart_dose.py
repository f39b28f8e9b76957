"""Drawing the need beside published tables: two spans on one scale from nothing."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, text_width, wrapped
from loamshift.report.chart_tones import Colour

_ROW_PX: Final = 42.0
_BAR_PX: Final = 11.0
_SIDE_PX: Final = 6.0
_GAP_PX: Final = 10.0
_NAME_SHARE: Final = 0.26
_POINTS: Final = ("first", "forecast")
"""Rows of a single amount; letters kept by 0.1.0 have one by the forecast."""


def draw_dose(figure: Figure, *, width: float) -> Drawing:
    """The need and the published tables as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    spans = rows_of(figure, "spans")
    names = [wrapped(str(row["name"]), width=_NAME_SHARE * width) for row in spans]
    left = _SIDE_PX + max(text_width(name) for name in names) + _GAP_PX
    saids = [wrapped(str(row["said"]), width=width - left - 8.0) for row in spans]
    middles, top = [], 4.0
    for said in saids:
        above = LINE_PX * (1 + said.count("\n"))
        middles.append(top + above + 13.0)
        top += _ROW_PX - LINE_PX + above
    foot = top + 4.0
    height = foot + 2.0 * LINE_PX + 8.0
    top_value = max(number(row["high"]) for row in spans)
    steps = rows_of(figure, "scale")
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(
            low=0.0,
            high=max(top_value, number(steps[-1]["rate"])),
            start_px=left,
            end_px=width - _SIDE_PX - 0.5 * text_width(str(steps[-1]["text"])),
        ),
        y=Scale(low=0.0, high=height, start_px=0.0, end_px=height),
    )
    _scale(drawing, figure, foot, middles)
    for row, name, said, middle in zip(spans, names, saids, middles, strict=True):
        if row["kind"] == "own":
            _own(drawing, row, middle)
        elif row["kind"] in _POINTS:
            drawing.put(
                str(row["kind"]),
                Mark.POINT,
                [{"x": number(row["mid"]), "y": middle}],
                "x y",
                fill=Colour.RUST,
                stroke=Colour.RUST,
                size=52.0,
            )
        else:
            _printed(drawing, row, middle)
        _words(drawing, row, name, said, middle)
    return drawing


def _scale(drawing: Drawing, figure: Figure, foot: float, middles: list[float]) -> None:
    """Steps of the rate, ruled beside the bars but not through the words above them."""
    rules: list[Row] = []
    words: list[Row] = []
    free = 0.0
    for step in rows_of(figure, "scale"):
        at, text = drawing.x.px(number(step["rate"])), str(step["text"])
        rules += [drawing.box(at, middle - 9.0, at, middle + 9.0) for middle in middles]
        rules.append(drawing.box(at, foot - 3.0, at, foot + 1.0))
        half = 0.5 * text_width(text)
        if at - half < free:
            continue
        free = at + half + 8.0
        words.append({**drawing.point(at, foot + 9.0), "text": text})
    drawing.put("steps", Mark.RULE, rules, "x y x2 y2", color=Colour.RULE, strokeWidth=0.6)
    drawing.put("step_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="center")
    drawing.put(
        "unit",
        Mark.TEXT,
        [
            {
                **drawing.point(drawing.x.start_px, foot + 9.0 + LINE_PX),
                "text": dict(figure.labels)["unit"],
            }
        ],
        "x y text",
        color=Colour.QUIET,
        align="left",
    )


def _own(drawing: Drawing, row: dict[str, str | float | None], middle: float) -> None:
    low, mid, high = (number(row[key]) for key in ("low", "mid", "high"))
    half = 0.5 * _BAR_PX
    drawing.put(
        "own",
        Mark.RECT,
        [{"x": low, "x2": high, "y": middle - half, "y2": middle + half}],
        "x y x2 y2",
        fill=Colour.SPAN,
        stroke=Colour.OUTLINE,
        strokeWidth=0.8,
    )
    drawing.put(
        "own_middle",
        Mark.RULE,
        [{"x": mid, "x2": mid, "y": middle - half - 3.0, "y2": middle + half + 3.0}],
        "x y x2 y2",
        color=Colour.RUST,
        strokeWidth=2.6,
    )


def _printed(drawing: Drawing, row: dict[str, str | float | None], middle: float) -> None:
    low, high = number(row["low"]), number(row["high"])
    lines: list[Row] = [{"x": low, "x2": high, "y": middle, "y2": middle}]
    lines += [{"x": at, "x2": at, "y": middle - 5.0, "y2": middle + 5.0} for at in (low, high)]
    drawing.put("printed", Mark.RULE, lines, "x y x2 y2", color=Colour.INK, strokeWidth=1.6)


def _words(
    drawing: Drawing,
    row: dict[str, str | float | None],
    name: str,
    said: str,
    middle: float,
) -> None:
    kind = str(row["kind"])
    drawing.put(
        f"{kind}_name",
        Mark.TEXT,
        [
            {
                **drawing.point(
                    drawing.x.start_px - _GAP_PX, middle - 0.5 * LINE_PX * name.count("\n")
                ),
                "text": name,
            }
        ],
        "x y text",
        color=Colour.INK,
        align="right",
    )
    wide = text_width(said) + 2.0
    at = min(
        max(drawing.x.px(number(row["low"])), drawing.x.start_px + 3.0), drawing.width - 2.0 - wide
    )
    drawing.put(
        f"{kind}_said",
        Mark.TEXT,
        [{**drawing.point(at, middle - 17.0 - LINE_PX * said.count("\n")), "text": said}],
        "x y text",
        color=Colour.QUIET if kind == "printed" else Colour.RUST,
        align="left",
    )
