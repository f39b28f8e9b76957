"""Figures drawn straight from their marks, small and at once, in the colours of the page.

Each picture is one drawing for light and dark: every colour names both. Widths for a page and
for a phone stand side by side, and the style sheet shows the one that fits.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from html import escape
from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart import draw
from loamshift.report.chart_drawing import Drawing, Layer, Mark, Row
from loamshift.report.chart_text import LINE_PX, TEXT_PX
from loamshift.report.chart_tones import Tone

PAGE_PX: Final = 620
PHONE_PX: Final = 340
STRIP_PX: Final = 950
"""The year strip goes across the whole page."""
MOST_POINTS: Final = 60
"""A line is drawn with no more points than about this; the eye sees no more."""
_MIDDLE_EM: Final = 0.3
"""From the middle of a line of text down to its foot, in its size."""
_ANCHORS: Final = {"right": "end", "center": "middle"}
_BANDS: Final = {"q05": "b90", "q25": "b50", "q50": "mid"}
_Style = dict[str, str | float | bool | tuple[float, ...]]


def pictures(figure: Figure) -> str:
    """A figure drawn for a page and for a phone, to stand side by side.

    Parameters
    ----------
    figure
        What to draw; its sentence has to stand beside it for those who cannot see [object].

    Returns
    -------
    str
        Two SVG pictures, hidden from screen readers [text].
    """
    wide = STRIP_PX if figure.kind is FigureKind.YEAR else PAGE_PX
    return (
        f'<div class="pic-wide">{picture(figure, width_px=wide)}</div>'
        f'<div class="pic-phone">{picture(figure, width_px=PHONE_PX)}</div>'
    )


@lru_cache(maxsize=512)
def picture(figure: Figure, *, width_px: int) -> str:
    """A figure as one SVG picture.

    Parameters
    ----------
    figure
        What to draw [object].
    width_px
        Width of the picture [px].

    Returns
    -------
    str
        SVG without any style of its own but colours and strokes [text].
    """
    light = draw(figure, tone=Tone.LIGHT, width=width_px)
    dark = draw(figure, tone=Tone.DARK, width=width_px)
    inside = "".join(
        _layer(layer, other, light) for layer, other in zip(light.layers, dark.layers, strict=True)
    )
    return (
        f'<svg class="picture" xmlns="http://www.w3.org/2000/svg" aria-hidden="true" '
        f'viewBox="0 0 {_n(light.width)} {_n(light.height)}" width="{_n(light.width)}" '
        f'height="{_n(light.height)}"{_scales(figure, light)}>{inside}</svg>'
    )


def thinned(count: int) -> list[int]:
    """Which of so many points [count] a line is drawn through, the last always among them."""
    step = max(1, math.ceil(count / MOST_POINTS))
    chosen = list(range(0, count, step))
    if chosen and chosen[-1] != count - 1:
        chosen.append(count - 1)
    return chosen


def _scales(figure: Figure, drawing: Drawing) -> str:
    """For the course: where pH 0 and one pH more lie, for a page that moves the lines."""
    if figure.kind is not FigureKind.COURSE:
        return ""
    zero, one = drawing.y.px(0.0), drawing.y.px(1.0)
    return f' data-zero="{zero:.3f}" data-slope="{one - zero:.3f}"'


def _layer(layer: Layer, dark: Layer, drawing: Drawing) -> str:
    if not layer.rows:
        return ""
    style, other = dict(layer.style), dict(dark.style)
    fields = dict(layer.fields)
    look = "".join(_look(style, other, layer.mark))
    match layer.mark:
        case Mark.AREA | Mark.LINE:
            return _course(layer, fields, look, drawing)
        case Mark.TEXT:
            body = "".join(_text(row, style, drawing) for row in layer.rows)
        case Mark.POINT:
            radius = math.sqrt(float(str(style.get("size", 30.0))) / math.pi)
            body = "".join(
                f'<circle cx="{_x(row, drawing)}" cy="{_y(row, drawing)}" r="{_n(radius)}"/>'
                for row in layer.rows
            )
        case Mark.RULE:
            ends = [_ends(row, fields, drawing) for row in layer.rows]
            body = f'<path d="{"".join(ends)}"/>'
        case Mark.RECT:
            body = "".join(
                _rect(row, night, fields, drawing) for row, night in _joined(layer, dark)
            )
    name = ' class="ends"' if layer.name.startswith("end_labels") else ""
    name = ' class="leaders"' if layer.name == "leaders" else name
    return f"<g{name}{look}>{body}</g>"


def _look(style: _Style, dark: _Style, mark: Mark) -> Iterator[str]:
    stroked = mark in (Mark.RULE, Mark.LINE)
    fill, stroke = style.get("fill"), style.get("stroke")
    if "color" in style:
        both = _both(str(style["color"]), str(dark["color"]))
        yield f' fill="none" stroke="{both}"' if stroked else f' fill="{both}"'
    if fill is not None:
        yield f' fill="{_both(str(fill), str(dark["fill"]))}"'
    if stroke is not None:
        yield f' stroke="{_both(str(stroke), str(dark["stroke"]))}"'
    if "strokeWidth" in style and (stroked or stroke is not None):
        yield f' stroke-width="{style["strokeWidth"]}"'
    dash = style.get("strokeDash")
    if isinstance(dash, tuple):
        yield f' stroke-dasharray="{" ".join(_n(part) for part in dash)}"'
    if "strokeCap" in style:
        yield f' stroke-linecap="{style["strokeCap"]}"'
    opacity = style.get("opacity", 1.0)
    if opacity != 1.0:
        yield f' opacity="{opacity}"'
    if mark is Mark.TEXT:
        anchor = _ANCHORS.get(str(style.get("align", "left")))
        if anchor:
            yield f' text-anchor="{anchor}"'
        if "fontWeight" in style:
            yield f' font-weight="{style["fontWeight"]}"'
        if "fontSize" in style:
            yield f' font-size="{style["fontSize"]}"'


def _both(light: str, dark: str) -> str:
    return light if light == dark else f"light-dark({light},{dark})"


def _course(layer: Layer, fields: dict[str, str], look: str, drawing: Drawing) -> str:
    rows = [layer.rows[i] for i in thinned(len(layer.rows)) if fields["y"] in layer.rows[i]]
    path = _line(rows, fields["y"], drawing)
    if layer.mark is Mark.AREA:
        back = _line(rows[::-1], fields["y2"], drawing).replace("M", "L", 1)
        path = f"{path}{back}Z"
    name = _BANDS.get(fields["y"])
    named = f' class="{name}"' if name else ""
    return f'<path{named}{look} d="{path}"/>'


def _line(rows: Sequence[Row], column: str, drawing: Drawing) -> str:
    points = (f"{_x(row, drawing)} {_n(drawing.y.px(float(str(row[column]))))}" for row in rows)
    return "M" + "L".join(points)


def _text(row: Row, style: _Style, drawing: Drawing) -> str:
    size = float(str(style.get("fontSize", TEXT_PX)))
    x, y = _x(row, drawing), drawing.y.px(float(str(row["y"]))) + _MIDDLE_EM * size
    lines = str(row["text"]).split("\n")
    inside = escape(lines[0]) + "".join(
        f'<tspan x="{x}" dy="{_n(LINE_PX)}">{escape(line)}</tspan>' for line in lines[1:]
    )
    return f'<text x="{x}" y="{_n(y)}">{inside}</text>'


def _ends(row: Row, fields: dict[str, str], drawing: Drawing) -> str:
    x, y = _x(row, drawing), _y(row, drawing)
    x2 = _n(drawing.x.px(float(str(row["x2"])))) if "x2" in fields else x
    y2 = _n(drawing.y.px(float(str(row["y2"])))) if "y2" in fields else y
    return f"M{x} {y}L{x2} {y2}"


def _joined(layer: Layer, dark: Layer) -> Iterator[tuple[Row, Row]]:
    """Rows of boxes, neighbours of one colour made one."""
    held: tuple[Row, Row] | None = None
    for row, night in zip(layer.rows, dark.rows, strict=True):
        if held is not None and "colour" in row and row["colour"] == held[0]["colour"]:
            held = ({**held[0], "x2": row["x2"]}, held[1])
            continue
        if held is not None:
            yield held
        held = (row, night)
    if held is not None:
        yield held


def _rect(row: Row, dark: Row, fields: dict[str, str], drawing: Drawing) -> str:
    xs = sorted(drawing.x.px(float(str(row[key]))) for key in ("x", "x2"))
    ys = sorted(drawing.y.px(float(str(row[key]))) for key in ("y", "y2"))
    fill = ""
    if "fill" in fields:
        fill = f' fill="{_both(str(row[fields["fill"]]), str(dark[fields["fill"]]))}"'
    # a hair wider where colours meet, so that no paper shows between them
    wide = xs[1] - xs[0] + (0.4 if fill else 0.0)
    return (
        f'<rect x="{_n(xs[0])}" y="{_n(ys[0])}" width="{_n(wide)}" '
        f'height="{_n(ys[1] - ys[0])}"{fill}/>'
    )


def _x(row: Row, drawing: Drawing) -> str:
    return _n(drawing.x.px(float(str(row["x"]))))


def _y(row: Row, drawing: Drawing) -> str:
    return _n(drawing.y.px(float(str(row["y"]))))


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
