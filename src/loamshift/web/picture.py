"""Figures drawn straight from their marks, small and at once, in the colours of the page.

Each picture is one drawing for light and dark: every colour names both. Where one width does not
serve both, those for a page and for a phone stand side by side, and the style sheet shows the one
that fits.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from html import escape
from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart import draw
from loamshift.report.chart_drawing import Drawing, Layer, Mark, Row
from loamshift.report.chart_text import LINE_PX, TEXT_PX
from loamshift.report.chart_tones import PALETTES, Tone
from loamshift.web.picture_ground import ground
from loamshift.web.picture_path import Point, path_of, plainer

PAGE_PX: Final = 620
PHONE_PX: Final = 340
STRIP_PX: Final = 950
"""The year strip goes across the whole page."""
BOTH_PX: Final = 400
"""Bars of few words read well at this width on a page and, a little smaller, on a phone."""
TWICE: Final = frozenset((FigureKind.YEAR, FigureKind.COURSE, FigureKind.HISTORY))
"""Figures along the calendar, which take all the room there is."""
MOST_POINTS: Final = 60
"""A line is drawn with no more points than about this; the eye sees no more."""
_MIDDLE_EM: Final = 0.3
"""From the middle of a line of text down to its foot, in its size."""
_ANCHORS: Final = {"right": "end", "center": "middle"}
_BANDS: Final = {"q05": "b90", "q25": "b50", "q50": "mid"}
_Style = dict[str, str | float | bool | tuple[float, ...]]


def pictures(figure: Figure) -> str:
    """A figure drawn for a page and for a phone, twice where one width does not serve both.

    Parameters
    ----------
    figure
        What to draw; its sentence has to stand beside it for those who cannot see [object].

    Returns
    -------
    str
        One SVG picture or two, hidden from screen readers [text].
    """
    if figure.kind not in TWICE:
        return picture(figure, width_px=BOTH_PX)
    wide = STRIP_PX if figure.kind is FigureKind.YEAR else PAGE_PX
    return (
        f'<div class="pic-wide">{picture(figure, width_px=wide)}</div>'
        f'<div class="pic-phone">{picture(figure, width_px=PHONE_PX)}</div>'
    )


@lru_cache(maxsize=512)
def picture(figure: Figure, *, width_px: int, moves: bool = False) -> str:
    """A figure as one SVG picture.

    Parameters
    ----------
    figure
        What to draw [object].
    width_px
        Width of the picture [px].
    moves
        Whether a page will move its lines, point by point [yes/no].

    Returns
    -------
    str
        SVG without any style of its own but colours and strokes [text].
    """
    light = draw(figure, tone=Tone.LIGHT, width=width_px)
    dark = draw(figure, tone=Tone.DARK, width=width_px)
    inside = "".join(
        _layer(layer, other, light, moves)
        for layer, other in zip(light.layers, dark.layers, strict=True)
    )
    return (
        f'<svg class="picture" aria-hidden="true" '
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


def _layer(layer: Layer, dark: Layer, drawing: Drawing, moves: bool) -> str:
    if not layer.rows:
        return ""
    style, other = dict(layer.style), dict(dark.style)
    fields = dict(layer.fields)
    look = "".join(_look(style, other, layer.mark))
    match layer.mark:
        case Mark.AREA | Mark.LINE:
            return _course(layer, fields, look, drawing, moves)
        case Mark.TEXT:
            body = "".join(_text(row, style, drawing) for row in layer.rows)
        case Mark.POINT:
            radius = math.sqrt(float(str(style.get("size", 30.0))) / math.pi)
            body = "".join(
                f'<circle cx="{_x(row, drawing)}" cy="{_y(row, drawing)}" r="{_n(radius)}"/>'
                for row in layer.rows
            )
        case Mark.RULE:
            body = f'<path d="{path_of(_ends(row, fields, drawing) for row in layer.rows)}"/>'
        case Mark.RECT:
            body = (
                _ground(layer, dark, drawing)
                if "colour" in layer.rows[0]
                else "".join(
                    _rect(row, night, fields, drawing)
                    for row, night in zip(layer.rows, dark.rows, strict=True)
                )
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
    """Both colours: by the name that the style sheet has for the pair, where it has one."""
    name = colours().get((light, dark))
    return f"var(--p-{name})" if name else f"light-dark({light},{dark})"


@cache
def colours() -> dict[tuple[str, str], str]:
    """Names of the colours of pictures by what they are on paper and in the dark [text]."""
    light, dark = PALETTES[Tone.LIGHT], PALETTES[Tone.DARK]
    found: dict[tuple[str, str], str] = {}
    for field in dataclasses.fields(light):
        pair = getattr(light, field.name), getattr(dark, field.name)
        if isinstance(pair[0], str):
            found.setdefault(pair, field.name.replace("_", "-"))
    return found


def _course(layer: Layer, fields: dict[str, str], look: str, drawing: Drawing, moves: bool) -> str:
    rows = [layer.rows[i] for i in thinned(len(layer.rows)) if fields["y"] in layer.rows[i]]
    edges = [_line(rows, fields["y"], drawing)]
    if layer.mark is Mark.AREA:
        edges.append(_line(rows[::-1], fields["y2"], drawing))
    if moves:
        path = "L".join(f"{_n(x)} {_n(y)}" for edge in edges for x, y in edge)
        path = f"M{path}"
    else:
        path = path_of([[point for edge in edges for point in plainer(edge)]])
    path += "Z" if layer.mark is Mark.AREA else ""
    name = _BANDS.get(fields["y"])
    named = f' class="{name}"' if name else ""
    return f'<path{named}{look} d="{path}"/>'


def _line(rows: Sequence[Row], column: str, drawing: Drawing) -> list[Point]:
    return [
        (drawing.x.px(float(str(row["x"]))), drawing.y.px(float(str(row[column])))) for row in rows
    ]


def _text(row: Row, style: _Style, drawing: Drawing) -> str:
    size = float(str(style.get("fontSize", TEXT_PX)))
    x, y = _x(row, drawing), drawing.y.px(float(str(row["y"]))) + _MIDDLE_EM * size
    lines = str(row["text"]).split("\n")
    inside = escape(lines[0]) + "".join(
        f'<tspan x="{x}" dy="{_n(LINE_PX)}">{escape(line)}</tspan>' for line in lines[1:]
    )
    return f'<text x="{x}" y="{_n(y)}">{inside}</text>'


def _ends(row: Row, fields: dict[str, str], drawing: Drawing) -> list[Point]:
    x, y = drawing.x.px(float(str(row["x"]))), drawing.y.px(float(str(row["y"])))
    x2 = drawing.x.px(float(str(row["x2"]))) if "x2" in fields else x
    y2 = drawing.y.px(float(str(row["y2"]))) if "y2" in fields else y
    return [(x, y), (x2, y2)]


def _ground(layer: Layer, dark: Layer, drawing: Drawing) -> str:
    blocks = [
        (
            drawing.x.px(float(str(row["x"]))),
            drawing.x.px(float(str(row["x2"]))),
            str(row["colour"]),
            str(night["colour"]),
        )
        for row, night in zip(layer.rows, dark.rows, strict=True)
    ]
    edges = sorted(drawing.y.px(float(str(layer.rows[0][key]))) for key in ("y", "y2"))
    return ground(blocks, top=edges[0], foot=edges[1])


def _rect(row: Row, dark: Row, fields: dict[str, str], drawing: Drawing) -> str:
    xs = sorted(drawing.x.px(float(str(row[key]))) for key in ("x", "x2"))
    ys = sorted(drawing.y.px(float(str(row[key]))) for key in ("y", "y2"))
    fill = ""
    if "fill" in fields:
        fill = f' fill="{_both(str(row[fields["fill"]]), str(dark[fields["fill"]]))}"'
    left, right = xs
    across = path_of([[(left, ys[0]), (right, ys[0]), (right, ys[1]), (left, ys[1])]])
    return f'<path{fill} d="{across}z"/>'


def _x(row: Row, drawing: Drawing) -> str:
    return _n(drawing.x.px(float(str(row["x"]))))


def _y(row: Row, drawing: Drawing) -> str:
    return _n(drawing.y.px(float(str(row["y"]))))


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
