"""Drawing layers as strips: plum where acid, petrol where limy, paler towards the middle."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, TEXT_PX, text_width
from loamshift.report.chart_tones import Colour
from loamshift.report.figures.course import days_between

_ROW_PX: Final = 26.0
_GAP_PX: Final = 12.0
_MIDDLE_PH: Final = 6.5
"""Between the hues; the usual middle of what garden plants like."""
_FAR_PH: Final = 3.0
"""So far from the middle a hue is at its strongest [pH]."""
_MOST_SHARE: Final = 0.5
"""Words stand in ink on the strongest hue."""
_STEP: Final = 0.04
"""A hue has so many steps that a tenth of a pH is seen where two months meet [0-1]."""
_COURSES: Final = ("with", "alone")


def draw_layers(figure: Figure, *, width: float) -> Drawing:
    """Both courses as strips, a row for each layer.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    names = [str(row["text"]) for row in rows_of(figure, "layers")]
    cells = rows_of(figure, "cells")
    first = str(cells[0]["start"])
    days = max(days_between(first, str(row["end"])) for row in cells)
    left = 8.0 + max(text_width(name) for name in names)
    block = LINE_PX + 4.0 + _ROW_PX * len(names)
    height = 2.0 * block + _GAP_PX + LINE_PX + 8.0
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(low=0.0, high=float(days), start_px=left, end_px=width - 2.0),
        y=Scale(low=0.0, high=height, start_px=0.0, end_px=height),
    )
    for place, course in enumerate(_COURSES):
        top = place * (block + _GAP_PX)
        mine = [row for row in cells if row["course"] == course]
        _strips(drawing, course, mine, first, top + LINE_PX + 4.0)
        said = [{**drawing.point(0.0, top + 0.5 * LINE_PX), "text": labels[course]}]
        drawing.put(f"{course}_title", Mark.TEXT, said, "x y text", color=Colour.INK, align="left")
        rows = [
            {
                **drawing.point(left - 6.0, top + LINE_PX + 4.0 + _ROW_PX * (layer + 0.5)),
                "text": name,
            }
            for layer, name in enumerate(names)
        ]
        drawing.put(
            f"{course}_names", Mark.TEXT, rows, "x y text", color=Colour.QUIET, align="right"
        )
    _months(drawing, figure, first, height - LINE_PX - 6.0)
    return drawing


def _strips(
    drawing: Drawing,
    course: str,
    cells: list[dict[str, str | float | None]],
    first: str,
    top: float,
) -> None:
    fields: dict[tuple[Colour, float], list[Row]] = {}
    last: dict[float, tuple[tuple[Colour, float], Row]] = {}
    words: list[Row] = []
    ends_px = dict.fromkeys({number(cell["layer"]) for cell in cells}, 0.0)
    for cell in cells:
        layer, ph = number(cell["layer"]), number(cell["ph"])
        start = float(days_between(first, str(cell["start"])))
        end = float(days_between(first, str(cell["end"])))
        above = top + _ROW_PX * layer
        hue = Colour.ACID if ph < _MIDDLE_PH else Colour.BASE
        share = min(abs(ph - _MIDDLE_PH) / _FAR_PH, 1.0) * _MOST_SHARE
        step = max(round(share / _STEP) * _STEP, _STEP)
        before = last.get(layer)
        if before is not None and before[0] == (hue, step):
            before[1]["x2"] = end
        else:
            box: Row = {"x": start, "x2": end, "y": above + 1.0, "y2": above + _ROW_PX - 1.0}
            fields.setdefault((hue, step), []).append(box)
            last[layer] = (hue, step), box
        text = str(cell["text"])
        wide = text_width(text)
        begin = min(drawing.x.px(start) + 3.0, drawing.x.end_px - wide - 2.0)
        if text and begin >= ends_px[layer]:
            ends_px[layer] = begin + wide + 6.0
            words.append({**drawing.point(begin, above + 0.5 * _ROW_PX), "text": text})
    for (hue, step), rows in sorted(fields.items()):
        name = f"{course}_{hue.value}_{round(100 * step)}"
        drawing.put(name, Mark.RECT, rows, "x y x2 y2", fill=hue, fillOpacity=round(step, 2))
    edges = [
        drawing.box(drawing.x.start_px, top + at * _ROW_PX, drawing.x.end_px, top + at * _ROW_PX)
        for at in range(len(ends_px) + 1)
    ]
    drawing.put(
        f"{course}_edges", Mark.RULE, edges, "x y x2 y2", color=Colour.RULE, strokeWidth=0.7
    )
    drawing.put(f"{course}_ph", Mark.TEXT, words, "x y text", color=Colour.INK, align="left")


def _months(drawing: Drawing, figure: Figure, first: str, top: float) -> None:
    ticks: list[Row] = []
    words: list[Row] = []
    free = 0.0
    for row in rows_of(figure, "months"):
        at, text = drawing.x.px(days_between(first, str(row["date"]))), str(row["text"])
        ticks.append(drawing.box(at, top, at, top + 5.0))
        wide = text_width(text, size=TEXT_PX)
        if at >= free and at + wide < drawing.width - 1.0:
            words.append({**drawing.point(at, top + 6.0 + 0.5 * LINE_PX), "text": text})
            free = at + wide + 10.0
    drawing.put("month_ticks", Mark.RULE, ticks, "x y x2 y2", color=Colour.RULE, strokeWidth=0.8)
    drawing.put("months", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="left")
